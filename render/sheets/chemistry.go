package sheets

import (
	"fmt"
	"slices"

	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/page"
)

// chemistry is weight % and mol % of each cup, and maps of the oxides that the
// plan names.
func (d *drawer) chemistry() {
	f := d.begin("Chemistry", "Fired in air, amounts as measured. It does not show how a glaze melts.", false)
	known, cups := d.known(f)
	f.Heading("Weight %", 30)
	oxideTable(f, known, cups, func(c oxide.Chemistry) []oxide.Amount { return c.WeightPercent }, percentText)
	f.Heading("Mol %", 30)
	oxideTable(f, known, cups, func(c oxide.Chemistry) []oxide.Amount { return c.MolPercent }, percentText)
	for _, name := range d.plan.Chemistry.Maps {
		d.oxideMap(f, known, cups, oxide.Oxide(name))
	}
}

func percentText(x float64) string { return quantity.Fixed(x, 1) }

// oxideMap is the cups in the shape of the design, each with its weight percent
// of one oxide, darker where there is more.
func (d *drawer) oxideMap(f *page.Flow, known []oxide.Chemistry, cups []int, o oxide.Oxide) {
	const classes = 5
	values := slices.Repeat([]page.Value{{Text: "?", Class: -1}}, len(d.Test.Cells))
	var percents []float64
	for _, c := range known {
		percents = append(percents, oxide.Of(c.WeightPercent, o))
	}
	least, most := slices.Min(percents), slices.Max(percents)
	for i, x := range percents {
		class := int(classes * (x - least) / max(most-least, 0.05)) // less than that is no difference
		values[cups[i]-1] = page.Value{Text: quantity.GotText(x), Class: min(class, classes-1)}
	}
	of := func(wide float64) layout.Map { return layout.MapOf(d.Test, wide) }
	f.Values(fmt.Sprintf("%s, weight %%: darker is more", formula(o)), of, values, classes, 0)
}
