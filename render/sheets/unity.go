package sheets

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/render/page"
)

// leastMol is how much of an oxide some cup must have for a column of its own.
const leastMol = 0.005

// fired is the chemistry of one cup.
type fired struct {
	cell *blend.Cell
	oxide.Chemistry
}

// lacksChemistry says why there is no chemistry to print.
func (d *drawer) lacksChemistry() string {
	for i := range d.Test.Cells {
		if c := d.Test.Chemistry(i, blend.Measured); c.Missing == nil && len(c.Unity) > 0 {
			return ""
		}
	}
	return "every cup holds a material without an analysis"
}

// known is the chemistry of the cups whose materials are known, and the
// numbers of the others.
func (d *drawer) known() (known []fired, without []int) {
	for i := range d.Test.Cells {
		c := fired{&d.Test.Cells[i], d.Test.Chemistry(i, blend.Measured)}
		if c.Missing != nil {
			without = append(without, c.cell.Number)
			continue
		}
		known = append(known, c)
	}
	return known, without
}

// unity is one page: the unity formula and SiO2:Al2O3 of each cup.
func (d *drawer) unity() {
	known, without := d.known()
	f := d.begin("Unity formula", d.unityLead(), false)
	d.unknownCups(f, without)
	d.amountTable(f, known, func(c fired) []oxide.Amount { return c.Unity }, quantity.UnityText, leastMol, true)
	d.room = f
}

// unknownCups names the cups without chemistry, and why.
func (d *drawer) unknownCups(f *page.Flow, without []int) {
	if len(without) > 0 {
		f.Para(strong, fmt.Sprintf("Without an analysis: %s. The chemistry of %s is unknown.",
			strings.Join(d.Test.Unanalysed(), ", "), quantity.Cups(without, 60)))
	}
}

// unityLead says how the figures are counted.
func (d *drawer) unityLead() string {
	colourants := "Colouring oxides are not counted in that 1."
	if d.plan.Chemistry.ColourantsInUnity {
		colourants = "MnO, CoO, NiO, CuO and CdO are counted in that 1."
	}
	return fmt.Sprintf("Moles, fluxes %s + RO together 1. %s Amounts as measured, analyses typical unless the plan gives its own.", formula("R2O"), colourants)
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

// amountTable is a table of oxides by cup, with SiO2:Al2O3 and the loss on
// ignition where ratio says so. Oxides of which no cup has as much as least are
// named above it.
func (d *drawer) amountTable(f *page.Flow, known []fired, amounts func(fired) []oxide.Amount, text func(float64) string, least float64, ratio bool) {
	most, column := map[oxide.Oxide]float64{}, map[oxide.Oxide]*page.Column{}
	cup := page.Column{Head: "cup", Style: page.Bold(page.Small).To(page.Right)}
	silica := page.Column{Head: "SiO₂:Al₂O₃", Style: page.Bold(page.Small).To(page.Decimal)}
	loss := page.Column{Head: "LOI %", Style: fine.To(page.Decimal)}
	for _, o := range oxide.Oxides() {
		column[o] = &page.Column{Head: formula(o), Style: fine.To(page.Decimal), Texts: slices.Repeat([]string{dash}, len(known))}
	}
	for i, c := range known {
		for _, a := range amounts(c) {
			if most[a.Oxide] = max(most[a.Oxide], a.Value); a.Value > 0 {
				column[a.Oxide].Texts[i] = text(a.Value)
			}
		}
		r := dash
		if c.SiAl > 0 {
			r = quantity.UnityText(c.SiAl)
		}
		cup.Texts, silica.Texts, loss.Texts = append(cup.Texts, fmt.Sprint(c.cell.Number)), append(silica.Texts, r), append(loss.Texts, quantity.LossText(c.LOI))
	}
	columns := []page.Column{cup}
	var traces []string
	for _, o := range oxide.Oxides() {
		if most[o] >= least {
			columns = append(columns, *column[o])
		} else if most[o] > 0 {
			traces = append(traces, formula(o))
		}
	}
	if ratio {
		columns = append(columns, silica, loss)
	}
	if traces != nil {
		f.Para(fine, "In no cup as much as "+text(least)+": "+strings.Join(traces, ", ")+".")
	}
	f.Grid(page.Grid{
		Columns: columns, Keep: 1, Rows: len(known), HeadH: 5, RowH: 5, LeastH: 3.4, Strips: 2,
		Rule: func(row int) page.Pen {
			if row%5 == 0 {
				return page.Hair
			}
			return page.Pen{}
		},
	})
}
