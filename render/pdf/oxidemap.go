package pdf

import (
	"fmt"
	"math"

	"pourboard/blend"
	"pourboard/blend/oxide"
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
	f.para(fmt.Sprintf("From %s to %s %%; darker is more. The small figure is the cup.", blend.GotText(lo), blend.GotText(hi)), regular(benchPt))
	if m.pt < leastMapPt {
		f.para("There are too many cups for a map on one page: see the table.", regular(benchPt))
		return
	}
	byCell := map[int]fired{}
	for _, c := range known {
		byCell[c.cell.Number] = c
	}
	for layer, cells := range m.layers {
		f.need(m.layerMM[layer])
		if len(m.layers) > 1 {
			f.lines(fmt.Sprintf("Layer %d of %d", layer+1, len(m.layers)), bold(benchPt), left, 0)
			f.space(1)
		}
		top := f.y
		for _, spot := range cells {
			x, y := f.left()+spot.x*m.wMM, top+spot.y*m.hMM
			c, ok := byCell[spot.cell]
			text := "?"
			if ok {
				if text = "0"; c.weight(o) > 0 {
					text = blend.GotText(c.weight(o))
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
			f.page.text(x+m.wMM/2, base, fmt.Sprint(spot.cell), small, centre)
			f.page.text(x+m.wMM/2, base+small.lineMM()-small.ascentMM()+value.ascentMM(), text, value, centre)
			f.y = max(f.y, y+m.hMM)
		}
		f.y += 4
	}
}

const (
	mostMapPt  = 11.0
	leastMapPt = 4.5
)

// A cellMap is where the cups stand in a drawing of the design.
type cellMap struct {
	layers   [][]mapCell
	layerMM  []float64 // height of each
	wMM, hMM float64   // of a cup
	heightMM float64   // of all layers
	pt       float64   // of the figures
}

// A mapCell is one cup, in widths and heights of a cup from the top left.
type mapCell struct {
	cell int
	x, y float64
}

// newMap lays the cups out in the width, none of the layers higher than mostMM.
func (s *sheets) newMap(width, mostMM float64) cellMap {
	t := s.test
	kind := s.plan.Blend.Kind
	const cupMM = 22.0
	m := cellMap{layers: make([][]mapCell, t.Layers)}
	perRow := max(1, int(width/16)) // cups in a row that the design does not give
	for _, c := range t.Cells {
		at := mapCell{c.Number, float64(c.Column), float64(c.Row)}
		switch kind {
		case blend.Triaxial, blend.Quadraxial:
			at.x -= float64(c.Row) / 2
		case blend.Line, blend.List:
			at.x, at.y = float64((c.Number-1)%perRow), float64((c.Number-1)/perRow)
		}
		m.layers[c.Layer] = append(m.layers[c.Layer], at)
	}
	columns, rows := 0.0, 0.0
	for _, cells := range m.layers {
		loX, loY, hiX, hiY := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
		for _, c := range cells {
			loX, hiX = min(loX, c.x), max(hiX, c.x)
			loY, hiY = min(loY, c.y), max(hiY, c.y)
		}
		for i := range cells {
			cells[i].x -= loX
			cells[i].y -= loY
		}
		if len(cells) == 0 {
			hiX, loX, hiY, loY = 0, 0, 0, 0
		}
		m.layerMM = append(m.layerMM, hiY-loY+1)
		columns, rows = max(columns, hiX-loX+1), max(rows, hiY-loY+1)
	}
	m.wMM = min(cupMM, width/columns)
	m.hMM = min(0.6*m.wMM, mostMM/rows)
	for i := range m.layerMM {
		m.layerMM[i] = m.layerMM[i]*m.hMM + 10
		m.heightMM += m.layerMM[i]
	}
	const digits = 5.0 // of the widest value
	m.pt = min(mostMapPt, (m.wMM-0.6)/(digits*0.7*mmPerPt), m.hMM/((ascentEm+descentEm+0.75*leadingEm)*mmPerPt))
	return m
}
