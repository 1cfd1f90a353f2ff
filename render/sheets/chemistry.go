package sheets

import (
	"fmt"
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

func percentText(x float64) string { return quantity.Fixed(x, 1) }

// oxideMap is the cups in the shape of the design, each with its weight percent
// of one oxide, darker where there is more.
func (d *drawer) oxideMap(f *page.Flow, known []fired, o oxide.Oxide) {
	const classes = 5
	values := slices.Repeat([]page.Value{{Text: "?", Class: -1}}, len(d.Test.Cells))
	percents := make([]float64, len(known))
	for i, c := range known {
		for _, a := range c.WeightPercent {
			if a.Oxide == o {
				percents[i] = a.Value
			}
		}
	}
	lo, hi := slices.Min(percents), slices.Max(percents)
	for i, c := range known {
		class := int(classes * (percents[i] - lo) / max(hi-lo, leastPercent))
		values[c.cell.Number-1] = page.Value{Text: quantity.GotText(percents[i]), Class: min(class, classes-1)}
	}
	of := func(wide float64) layout.Map { return layout.MapOf(d.Test, wide) }
	f.Values(fmt.Sprintf("%s, weight %%: darker is more", formula(o)), of, values, classes, 0)
}
