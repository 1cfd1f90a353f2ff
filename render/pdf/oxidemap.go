package pdf

import (
	"fmt"
	"math"

	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// oxideMap draws the cups in the shape of the design, each with its weight
// percent of one oxide, darker where there is more.
func (s *sheets) oxideMap(f *flow, known []fired, o oxide.Oxide) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, c := range known {
		lo, hi = min(lo, c.weight(o)), max(hi, c.weight(o))
	}
	m := s.newMap(f.width(), f.whole()-30)
	title := fmt.Sprintf("%s, weight %% of the fired glaze", formula(o))
	f.need(min(m.heightMM+25, f.hMM))
	f.subheading(title)
	f.doc.bookmark(1, title)
	f.para(fmt.Sprintf("From %s to %s %%; darker is more. The small figure is the cup.", quantity.GotText(lo), quantity.GotText(hi)), regular(benchPt))
	if m.pt < leastMapPt {
		f.para("There are too many cups for a map on one page: see the table.", regular(benchPt))
		return
	}
	byCell := map[int]fired{}
	for _, c := range known {
		byCell[c.cell.Number] = c
	}
	f.cells(m, func(x, y float64, cup int) {
		c, ok := byCell[cup]
		text := "?"
		if ok {
			if text = "0"; c.weight(o) > 0 {
				text = quantity.GotText(c.weight(o))
			}
			if hi > lo {
				f.page.fillRect(x, y, m.wMM, m.hMM, 1-0.35*(c.weight(o)-lo)/(hi-lo))
			}
		}
		f.page.rect(x, y, m.wMM, m.hMM, thin)
		value := bold(m.pt)
		small := regular(m.pt * 0.75)
		block := value.ascentMM() + value.descentMM() + small.lineMM()
		base := y + (m.hMM-block)/2 + small.ascentMM()
		f.page.text(x+m.wMM/2, base, fmt.Sprint(cup), small, centre)
		f.page.text(x+m.wMM/2, base+small.lineMM()-small.ascentMM()+value.ascentMM(), text, value, centre)
	})
}
