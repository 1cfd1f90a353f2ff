package pdf

import (
	"fmt"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// dose is what is added to each cup, one colourant after the other.
func (s *sheets) dose() {
	t, kit := s.test, s.plan.Kit
	needs := fmt.Sprintf("the poured cups, the dry colourants, a scale that reads to %s, a small dish, a respirator", kit.Dosing())
	how := "Weigh each dose into a small dry dish with the scale at zero under it, tip it into its cup, rinse the dish with a little of the slip, stir until no speck is seen, tick."
	if len(t.Stocks) > 0 {
		needs = fmt.Sprintf("the poured cups, the stock suspensions, a syringe that is read to %s", kit.Syringe)
		how = "Shake or stir the stock before each draw, for it settles within seconds. Empty the syringe into the cup, stir, tick."
	}
	f := s.begin(needs + s.evenOutNeeds())
	f.para("Every percentage is of the dry base in that cup.", bold(benchPt))
	f.para(how, regular(benchPt))
	f.para("± is how far off the percentage can be, in percentage points.", regular(benchPt))
	var colourants []string
	for _, series := range s.plan.Blend.Series {
		colourants = append(colourants, series.Material)
	}
	s.careBlock(f, "", colourants, benchPt)
	s.undosed(f)
	for i, series := range s.plan.Blend.Series {
		if len(t.Stocks) == 0 {
			s.doses(f, numbered("Colourant", i, len(s.plan.Blend.Series), series.Material), series.Material, i, -1)
		}
	}
	for i, stock := range t.Stocks {
		s.doses(f, "Stock suspension "+t.StockLabel(i)+": "+stock.Material, stock.Name, stock.Series, i)
	}
	if len(t.Stocks) > 0 {
		f.para(sentence(wording.LeftOver), regular(benchPt))
	}
	s.evenOut(f)
	f.longTexts()
}

// undosed says what is not dosed though it is asked, which has no row to tick.
func (s *sheets) undosed(f *flow) {
	for _, text := range wording.SkippedDoses(s.test) {
		f.para(text, bold(benchPt))
	}
}

// doses is the doses of one series, of those poured from one stock if that is
// not -1.
func (s *sheets) doses(f *flow, heading, name string, series, stock int) {
	t := s.test
	var rows []stripRow
	var none []int
	last, shown := -1, -1
	for i, c := range t.Cells {
		d := c.Doses[series]
		if d.Percent == 0 || d.None() {
			none = append(none, c.Number)
			continue
		}
		if stock >= 0 && d.Stock != stock {
			continue
		}
		rows = append(rows, stripRow{
			texts: []string{fmt.Sprint(c.Number), wording.DosePercent(d), wording.DoseText(t, d), wording.DosePlusMinus(d), ""},
			rule:  last >= 0 && s.newCupRow(last, i),
		})
		last = i
		if shown < 0 || clearer(d, t.Cells[shown].Doses[series]) {
			shown = i
		}
	}
	var texts []string
	if shown >= 0 {
		texts = append(texts, s.doseSum(t.Cells[shown], series))
	}
	if len(none) > 0 {
		texts = append(texts, fmt.Sprintf("No %s goes into %s.", s.plan.Blend.Series[series].Material, quantity.Cups(none, 60)))
	}
	f.strips(strips{rows: rows, columns: []stripColumn{
		cupColumn,
		{title: "%", align: right, font: regular(13)},
		{title: "add", unit: string(t.DoseUnit()), align: right, font: amountFont},
		{title: "±", align: right, font: smallFont},
		{tick: true, font: smallFont},
	}}).under(heading, name, texts...)
}

// clearer says which of two doses shows better where the figures come from:
// one of 1 %, otherwise the larger.
func clearer(a, b blend.Dose) bool {
	return b.Percent != 1 && (a.Percent == 1 || a.Percent > b.Percent)
}

// doseSum writes out the sum behind one dose, for whoever weighs.
func (s *sheets) doseSum(c blend.Cell, series int) string {
	t, d := s.test, c.Doses[series]
	if len(t.Stocks) > 0 {
		syringe := s.plan.Kit.Syringe
		return fmt.Sprintf("%s; without rounding that is %s mL of the stock, which holds %s; the syringe reads to %s, so draw %s mL.",
			wording.DoseSum(t, c, series), strconv.FormatFloat(d.ML, 'f', syringe.Decimals()+1, 64),
			quantity.StrengthText(t.Stocks[d.Stock].GPerML), syringe, wording.DoseText(t, d))
	}
	return fmt.Sprintf("%s; the scale reads to %s, so weigh %s g.", wording.DoseSum(t, c, series), s.plan.Kit.Dosing(), wording.DoseText(t, d))
}
