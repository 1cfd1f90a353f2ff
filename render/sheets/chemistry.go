package sheets

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// known is the chemistry of the cups whose materials are known, and their numbers.
// It names the others on the page.
func (d *drawer) known(f *page.Flow) (known []oxide.Chemistry, cups []int) {
	var without []int
	for i, cell := range d.Test.Cells {
		if c := d.Test.Chemistry(i, blend.Measured); c.Missing != nil {
			without = append(without, cell.Number)
		} else {
			known, cups = append(known, c), append(cups, cell.Number)
		}
	}
	if without != nil {
		f.Para(strong, fmt.Sprintf("Without an analysis: %s. The chemistry of %s is unknown.",
			strings.Join(d.Test.Unanalysed(), ", "), quantity.Cups(without, 60)))
	}
	return known, cups
}

// unity is one page: the unity formula and SiO2:Al2O3 of each cup.
func (d *drawer) unity() {
	f := d.begin("Unity formula", d.unityLead(), false)
	known, cups := d.known(f)
	_, traces := oxide.Columns(known)
	f.Para(fine, wording.Traces(traces))
	silica := page.Column{Head: "SiO₂:Al₂O₃", Style: page.Bold(page.Small).To(page.Decimal)}
	loss := page.Column{Head: "LOI %", Style: fine.To(page.Decimal)}
	for _, c := range known {
		ratio := dash
		if c.SiAl > 0 {
			ratio = quantity.UnityText(c.SiAl)
		}
		silica.Texts, loss.Texts = append(silica.Texts, ratio), append(loss.Texts, quantity.LossText(c.LOI))
	}
	unity := func(c oxide.Chemistry) []oxide.Amount { return c.Unity }
	oxideTable(f, known, cups, unity, quantity.UnityText, silica, loss)
	d.rooms = append(d.rooms, f)
}

// unityLead says how the figures are counted.
func (d *drawer) unityLead() string {
	colourants := "Colouring oxides are not counted in that 1."
	if d.plan.Chemistry.ColourantsInUnity {
		colourants = "MnO, CoO, NiO, CuO and CdO are counted in that 1."
	}
	return "Moles, fluxes " + formula("R2O") + " + RO together 1. " + colourants +
		" Amounts as measured, analyses typical unless the plan gives its own."
}

// formula is an oxide's formula with small figures.
func formula(o oxide.Oxide) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return '₀' + (r - '0')
		}
		return r
	}, string(o))
}

// oxideTable is a table of amounts of oxides by cup, with more columns behind.
func oxideTable(f *page.Flow, known []oxide.Chemistry, cups []int, amounts func(oxide.Chemistry) []oxide.Amount,
	text func(float64) string, more ...page.Column) {
	columns := []page.Column{{Head: "cup", Style: page.Bold(page.Small).To(page.Right)}}
	for _, cup := range cups {
		columns[0].Texts = append(columns[0].Texts, fmt.Sprint(cup))
	}
	shown, _ := oxide.Columns(known)
	for _, o := range shown {
		column := page.Column{Head: formula(o), Style: fine.To(page.Decimal)}
		for _, c := range known {
			amount := dash
			if x := oxide.Of(amounts(c), o); x > 0 {
				amount = text(x)
			}
			column.Texts = append(column.Texts, amount)
		}
		columns = append(columns, column)
	}
	f.Grid(page.Grid{
		Columns: append(columns, more...), Keep: 1, Rows: len(known), HeadH: 5, RowH: 5, LeastH: 3.4, Strips: 2,
		Rule: func(row int) page.Pen {
			if row%5 == 0 {
				return page.Hair
			}
			return page.Pen{}
		},
	})
}

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
	values := slices.Repeat([]page.Value{{Text: "?"}}, len(d.Test.Cells))
	var percents []float64
	for _, c := range known {
		percents = append(percents, oxide.Of(c.WeightPercent, o))
	}
	least, most := slices.Min(percents), slices.Max(percents)
	for i, x := range percents {
		shade := (x - least) / max(most-least, 0.05) // less than that is no difference
		values[cups[i]-1] = page.Value{Text: quantity.GotText(x), Shade: shade}
	}
	of := func(wide float64) layout.Map { return layout.MapOf(d.Test, wide) }
	f.Values(fmt.Sprintf("%s, weight %%: darker is more", formula(o)), of, values, 0)
}
