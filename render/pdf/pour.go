package pdf

import (
	"fmt"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/wording"
)

// The sizes of what is read while pouring.
var (
	amountFont = bold(16)
	smallFont  = regular(benchPt)
	cupColumn  = stripColumn{title: "cup", align: centre, font: regular(16), shade: true}
)

// pour is what is poured into each cup, end by end in the order of least
// handling, and then the water that makes all cups alike in thickness, unless
// doses come first.
func (s *sheets) pour() {
	t := s.test
	needs := fmt.Sprintf("the mixed glazes, the numbered cups, a jug that is read to %s", s.plan.Kit.Pour)
	if t.OnScale() {
		needs = fmt.Sprintf("the mixed glazes, the numbered cups, one more empty cup of the same kind, a scale that reads to %s", s.plan.Kit.Pour)
	}
	if !t.Dosed() {
		needs += s.evenOutNeeds()
	}
	f := s.begin(needs)
	for _, text := range s.pouring() {
		f.para(text, regular(benchPt))
	}
	for i := range t.Ends {
		s.pourEnd(f, i)
	}
	if !t.Dosed() {
		s.evenOut(f)
	}
	f.longTexts()
}

// pouring says how to go about it.
func (s *sheets) pouring() []string {
	t, kit := s.test, s.plan.Kit
	list := ", which runs back and forth along the rows of cups, and tick"
	if kind := s.plan.Blend.Kind; kind == blend.Line || kind == blend.List {
		list = " and tick"
	}
	texts := []string{"Stir each glaze before every jug of it. Go down the list" + list + " each cup as it is poured."}
	switch {
	case kit.Fill > 0 && t.Dosed():
		texts = append(texts, fmt.Sprintf("Measure the first cup, mark the height of the slip on it, and fill all others to the same line. By eye that is taken to be right to ±%s mL.", quantity.PercentText(kit.Fill)))
	case t.OnScale():
		texts = append(texts, "Put an empty cup of the same kind on the scale, set it to zero, and take it off again; do not zero after that. Then put on one cup after the other and pour until the scale reads the figure.")
		if len(t.Ends) > 1 {
			texts = append(texts, "From the second glaze on, the scale reads what is in the cup already, as “before” says: if it does not, a pour was missed or done twice.")
		}
	}
	switch {
	case len(t.Ends) == 1:
	case s.plan.Blend.HasSeries():
		texts = append(texts, "% is the part of the dry base in the cup that comes with this slip; the colourants in it are not counted.")
	default:
		texts = append(texts, fmt.Sprintf("%% is the share %s in the cup.", wording.BasisText(s.plan.Blend.Basis)))
	}
	if s.pouredToNothing() {
		texts = append(texts, "Where it says none, less than half a graduation is wanted, and nothing is poured.")
	}
	return texts
}

// pouredToNothing says that some pour is too small to measure.
func (s *sheets) pouredToNothing() bool {
	if s.test.OnScale() {
		return false // the reading stays as it is
	}
	for _, c := range s.test.Cells {
		for _, p := range c.Pours {
			if p.ML > 0 && p.Steps == 0 {
				return true
			}
		}
	}
	return false
}

// pourEnd is the pours of one end.
func (s *sheets) pourEnd(f *flow, end int) {
	t := s.test
	cells := layout.PourOrder(t, s.mats, end)
	name := t.Ends[end].Name
	before := t.OnScale() && end > 0
	u := string(s.plan.Kit.Pour.Unit)
	columns := []stripColumn{cupColumn}
	if before {
		columns = append(columns, stripColumn{title: "before", align: right, font: smallFont})
	}
	amount := "pour"
	if t.OnScale() {
		amount = "until it reads"
	}
	columns = append(columns, stripColumn{title: amount, unit: u, align: right, font: amountFont})
	if len(t.Ends) > 1 {
		columns = append(columns, stripColumn{title: "%", align: right, font: smallFont})
	}
	columns = append(columns, stripColumn{tick: true, font: smallFont})

	rows := make([]stripRow, len(cells))
	for k, i := range cells {
		c := t.Cells[i]
		p := c.Pours[end]
		texts := []string{fmt.Sprint(c.Number)}
		if before {
			texts = append(texts, s.plan.Kit.Pour.Format(p.Reading-p.Steps))
		}
		switch {
		case t.OnScale():
			texts = append(texts, wording.ReadingText(t, p))
		case p.Steps == 0:
			texts = append(texts, "none")
		default:
			texts = append(texts, wording.PourText(t, p))
		}
		if len(t.Ends) > 1 {
			texts = append(texts, wording.SharePercent(p))
		}
		rows[k] = stripRow{texts: append(texts, ""), rule: k > 0 && s.newCupRow(cells[k-1], i)}
	}
	list := f.strips(strips{
		columns: columns, rows: rows,
		foot: func(from, to int) string { return s.jugLine(end, cells, from, to) },
	})
	heading := numbered("Pour", end, len(t.Ends), name)
	if len(cells) == 0 {
		list.under(heading, name, "No cup gets any of it.")
		return
	}
	list.under(heading, name)
}

// newRow says that two cells lie in different rows of the design.
func (s *sheets) newRow(a, b int) bool {
	x, y := s.test.Cells[a], s.test.Cells[b]
	return x.Row != y.Row || x.Layer != y.Layer
}

// newCupRow says that the cups of two cells stand in different rows.
func (s *sheets) newCupRow(a, b int) bool { return s.cupRows[a] != s.cupRows[b] }

// jugLine is how the batch stands after the cells up to to, for whoever wants
// to know whether the jug and the list still agree.
func (s *sheets) jugLine(end int, cells []int, from, to int) string {
	t := s.test
	step := s.plan.Kit.Pour
	page, all := t.Jug(end, cells[from:to]), t.Jug(end, cells[:to])
	text := fmt.Sprintf("%d cups here: %s %s", page.Pouring, step.Format(page.Steps), step.Unit)
	if page.Pouring == 1 {
		text = fmt.Sprintf("1 cup here: %s %s", step.Format(page.Steps), step.Unit)
	}
	if from > 0 {
		text += fmt.Sprintf(" · poured so far: %s %s", step.Format(all.Steps), step.Unit)
	}
	rest := quantity.VolumeText(max(all.LeftML, 0)) + " mL"
	if t.OnScale() {
		rest = quantity.MassText(max(all.LeftG, 0)) + " g"
	}
	return text + " · left in the bucket: " + rest
}

// evenOutNeeds is what evenOut needs beside what is at hand, for the list of a
// sheet.
func (s *sheets) evenOutNeeds() string {
	if _, _, uneven := s.test.Thickness(); !uneven {
		return ""
	}
	if s.test.OnScale() {
		return ", clean water"
	}
	return fmt.Sprintf(", clean water, and a syringe or a small measure for it that is read to %s", s.test.WaterStep())
}

// evenOut is the water that brings all cups to the gravity of the thinnest.
func (s *sheets) evenOut(f *flow) {
	t := s.test
	thin, _, uneven := t.Thickness()
	if !uneven {
		return
	}
	sg, step := t.CommonSG(), t.WaterStep()
	var rows []stripRow
	for i, c := range t.Cells {
		rows = append(rows, stripRow{
			texts: []string{fmt.Sprint(c.Number), quantity.SGText(c.Got.SG), wording.WaterText(t, c, sg), ""},
			rule:  i > 0 && s.newCupRow(i-1, i),
		})
	}
	list := f.strips(strips{rows: rows, columns: []stripColumn{
		cupColumn,
		{title: "now", align: right, font: smallFont},
		{title: "water", unit: string(step.Unit), align: right, font: amountFont},
		{tick: true, font: smallFont},
	}})
	list.under("Equal thickness: water to a common specific gravity", "Equal thickness", fmt.Sprintf("When everything is in, the thinnest is cup %d at %s. With this much water, measured to %s, every cup comes to that, and a dip of the same time leaves the same coat. Leave it out if thickness is part of the test.",
		t.Cells[thin].Number, quantity.SGText(sg), step))
}
