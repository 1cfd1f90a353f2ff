package pdf

import (
	"fmt"

	"pourboard/blend"
)

// dose is what is added to each cup, one colourant after the other.
func (s *sheets) dose() {
	kit := s.plan.Kit
	stock := s.plan.Blend.Method == blend.ByStock
	needs := fmt.Sprintf("the poured cups, the dry colourants, a scale that reads to %s, a small dish, a respirator", kit.Dosing())
	how := "Weigh each dose into a small dry dish with the scale at zero under it, tip it into its cup, rinse the dish with a little of the slip, stir until no speck is seen, tick."
	if stock {
		needs = fmt.Sprintf("the poured cups, the stock suspensions, a syringe that is read to %s", kit.Syringe)
		how = "Shake or stir the stock before each draw, for it settles within seconds. Empty the syringe into the cup, stir, tick."
	}
	f := s.begin(needs)
	f.para("Every percentage is of the dry base in that cup.", bold(benchPt))
	f.para(how, regular(benchPt))
	f.para("± is how far off the percentage can be, in percentage points.", regular(benchPt))
	for i := range s.plan.Blend.Series {
		s.doseSeries(f, i)
	}
	f.longTexts()
}

// doseSeries is the doses of one colourant.
func (s *sheets) doseSeries(f *flow, series int) {
	t := s.test
	name := s.plan.Blend.Series[series].Material
	f.space(2)
	f.lines(fmt.Sprintf("Colourant %d of %d: %s", series+1, len(s.plan.Blend.Series), name), bold(14), left, 70)
	f.doc.bookmark(1, name)
	f.space(1)
	var rows []stripRow
	var none []int
	last := -1
	for i, c := range t.Cells {
		d := c.Doses[series]
		if d.Percent == 0 {
			none = append(none, c.Number)
			continue
		}
		rows = append(rows, stripRow{
			texts: []string{fmt.Sprint(c.Number), blend.PercentText(d.Percent), t.DoseText(d), blend.PlusMinusText(d.PlusMinus), ""},
			rule:  last >= 0 && s.newRow(last, i),
		})
		last = i
	}
	if sum := s.doseSum(series); sum != "" {
		f.para(sum, bold(benchPt))
	}
	if len(none) > 0 {
		f.para("None of it goes into "+blend.Numbers(none, 60)+".", regular(benchPt))
	}
	f.strips(strips{rows: rows, columns: []stripColumn{
		{title: "cup", align: right, font: cupFont},
		{title: "%", align: right, font: regular(13)},
		{title: "add", unit: string(t.DoseUnit()), align: right, font: amountFont},
		{title: "±", align: right, font: smallFont},
		{tick: true, font: smallFont},
	}, onPage: func(f *flow) {
		f.lines(f.doc.shorten(name, bold(14), f.width()-50)+", further on", bold(14), left, 40)
		f.space(1)
	}})
}

// doseSum writes out one dose of a colourant, so that whoever weighs can see
// where the figures come from: that of 1 % where there is one, otherwise the
// largest.
func (s *sheets) doseSum(series int) string {
	t := s.test
	best := -1
	for i, c := range t.Cells {
		d := c.Doses[series]
		switch {
		case d.Percent == 0:
		case best < 0, d.Percent == 1 && t.Cells[best].Doses[series].Percent != 1:
			best = i
		case t.Cells[best].Doses[series].Percent != 1 && d.Percent > t.Cells[best].Doses[series].Percent:
			best = i
		}
	}
	if best < 0 {
		return ""
	}
	d := t.Cells[best].Doses[series]
	text := t.DoseSum(d)
	if s.plan.Blend.Method == blend.ByStock {
		stock := t.Stocks[series]
		return fmt.Sprintf("%s; a mL of the stock holds %s g of it, so that is %s mL.", text, blend.PercentText(stock.GPerML), t.DoseText(d))
	}
	return fmt.Sprintf("%s; the scale reads to %s, so weigh %s g.", text, s.plan.Kit.Dosing(), t.DoseText(d))
}
