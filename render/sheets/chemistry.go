package sheets

import (
	"fmt"
	"math"
	"slices"

	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/page"
)

// leastPercent is how much of an oxide some cup must have for a column.
const leastPercent = 0.05

// chemistry is weight % and mol % of each cup, and maps of the oxides that the
// plan names.
func (d *drawer) chemistry() {
	known, without := d.known()
	f := d.begin("Chemistry", "Fired in air, amounts as measured. It does not show how a glaze melts.", false)
	d.unknownCups(f, without)
	f.Heading("Weight %", 30)
	d.amountTable(f, known, func(c fired) []oxide.Amount { return c.WeightPercent }, percentText, leastPercent, false)
	f.Heading("Mol %", 30)
	d.amountTable(f, known, func(c fired) []oxide.Amount { return c.MolPercent }, percentText, leastPercent, false)
	for _, name := range d.plan.Chemistry.Maps {
		d.oxideMap(f, known, oxide.Oxide(name))
	}
}

func percentText(x float64) string { return fmt.Sprintf("%.1f", x) }

// oxideMap is the cups in the shape of the design, each with its weight percent
// of one oxide, darker where there is more.
func (d *drawer) oxideMap(f *page.Flow, known []fired, o oxide.Oxide) {
	of := map[int]float64{}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, c := range known {
		x := 0.0
		if i := slices.IndexFunc(c.WeightPercent, func(a oxide.Amount) bool { return a.Oxide == o }); i >= 0 {
			x = c.WeightPercent[i].Value
		}
		of[c.cell.Number] = x
		lo, hi = min(lo, x), max(hi, x)
	}
	in := f.Page.Inside()
	m := layout.MapOf(d.Test, in.W/13)
	w := min(22, in.W/m.W)
	h := min(14, (in.H-40)/m.H)
	if w < 9 || h < 8 {
		f.Para(body, fmt.Sprintf("Too many cups for a map of %s on one page: see the table.", formula(o)))
		return
	}
	f.Heading(fmt.Sprintf("%s, weight %%: darker is more", formula(o)), m.H*h+2)
	top := f.Rest()
	for _, p := range m.Places {
		r := page.Rect{X: top.X + p.X*w, Y: top.Y + p.Y*h, W: w, H: h}
		x, ok := of[p.Cup]
		text := "?"
		if ok {
			text = quantity.GotText(x)
			if hi > lo {
				f.Page.Shade(r, 1-0.35*(x-lo)/(hi-lo))
			}
		}
		f.Page.Box(r, page.Thin)
		f.Page.Text(page.Rect{X: r.X, Y: r.Y + 0.5, W: r.W, H: h * 0.4}, page.Regular(page.Least).To(page.Centre), fmt.Sprint(p.Cup))
		f.Page.Text(page.Rect{X: r.X, Y: r.Y + h*0.45, W: r.W, H: h * 0.5}, strong.To(page.Centre), text)
	}
	f.Y += m.H*h + 2
}
