package sheets

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// pourH and leastPourH are the height of a row of the pour card, and how low it
// may be where that saves a page, mm.
const (
	pourH      = 8.0
	leastPourH = 6.2
	cardHeadH  = 13.0
)

// pour is the pour card: cups down, glazes and doses across.
func (d *drawer) pour() {
	title := "Pour card"
	if d.plan.Blend.Method == blend.ByWeigh {
		title = "Weigh card"
	}
	f := d.begin(title, fmt.Sprintf("%s of %s. %s Behind each box: the amount, if it came out otherwise.",
		quantity.Plural(len(d.Test.Cells), "cup", "cups"), wording.AmountText(d.plan.Cup.Size), d.howToPour()), false)
	f.Page.Foot = "Cups are numbered as on the map."
	f.Items(body, d.cardCare())
	f.Para(fine, d.starLine())
	columns := d.cupColumns()
	for _, field := range d.fields() {
		columns = append(columns, d.column(field, leastRoom))
	}
	f.Grid(page.Grid{
		Columns: append(columns, d.inCup()...), Keep: 2, Rows: len(d.Test.Cells),
		HeadH: cardHeadH, RowH: pourH, LeastH: leastPourH, Strips: 3, Rule: d.rowRule(),
	})
	f.List("Too little for the scale: weigh a mix with dry base", body, wording.Dilutions(d.Test))
}

// cardCare is what to take care of where powder is weighed by the card: all of
// it for cups that are weighed dry, the worst of the colourants for doses.
func (d *drawer) cardCare() []string {
	switch {
	case d.plan.Blend.Method == blend.ByWeigh:
		return d.care(d.Test.Materials())
	case d.Test.Dosed() && d.plan.Blend.Method == blend.ByDose:
		var colourants []string
		for _, s := range d.plan.Blend.Series {
			colourants = append(colourants, s.Material)
		}
		return d.careOf(colourants)
	}
	return nil
}

// howToPour says how to go about it, in short sentences.
func (d *drawer) howToPour() string {
	t := d.Test
	text := "Pour down the column and tick."
	switch {
	case d.plan.Blend.Method == blend.ByWeigh:
		text = "Tare a dry cup. Weigh each material into it, one after the other, and tick. Then stir in the water."
	case t.Plan.Kit.OnScale() && len(t.Ends) > 1:
		text = "Tare the empty cup, then go cup by cup: pour each glaze until the scale shows the figure. " +
			"Do not tare between."
	case t.Plan.Kit.OnScale():
		text = "Tare the empty cup. Pour until the scale shows the figure, and tick."
	case len(t.Ends) > 1:
		text = "Pour down each column, one glaze after the other, and tick."
	}
	switch {
	case len(t.Stocks) > 0:
		text += " Shake the stock before each draw."
	case t.Dosed():
		text += " Weigh each dose dry, tip it in, stir until no speck is left. Weakest cup first."
	}
	return text
}

// rowRule is heavier where a new row of the design begins.
func (d *drawer) rowRule() func(int) page.Pen {
	cells := d.Test.Cells
	kind := d.plan.Blend.Kind
	return func(row int) page.Pen {
		a, b := cells[row-1], cells[row]
		if kind != blend.Line && kind != blend.List && (a.Row != b.Row || a.Layer != b.Layer) {
			return page.Medium
		}
		return page.Hair
	}
}

// dash stands where nothing goes in, none where too little would.
const (
	dash = "–"
	none = "none"
)

// A field is one glaze or material of the pour card: an entry for each cup.
type field struct {
	name    string // behind its letter on the map, if it has one
	unit    string
	entries []entry
}

// An entry is what goes into one cup.
type entry struct {
	text    string // without the unit
	star    bool   // too small for the instrument
	percent string // what a dose is asked to be, may be empty
	name    string // the glaze of a pair, empty where the column has one
}

// field is a field with an entry of each cup.
func (d *drawer) field(name, unit string, of func(blend.Cell) entry) field {
	return field{name, unit, page.Each(d.Test.Cells, of)}
}

// fields are the columns of the pour card: glazes, then colourants, then water.
func (d *drawer) fields() []field {
	if d.plan.Blend.Method == blend.ByWeigh {
		return d.weighings()
	}
	fields := append(d.pours(), d.doses()...)
	if d.plan.Cup.Even {
		sg := d.Test.CommonSG
		name, unit := "Water, to thin to SG "+quantity.SGText(sg), string(d.Test.ThinningStep().Unit)
		water := func(c blend.Cell) entry { return entry{text: wording.WaterText(d.Test, c, sg)} }
		fields = append(fields, d.field(name, unit, water))
	}
	return fields
}

// pours are the fields of the glazes that are poured, or, on a scale, what it
// reads when each is in. Of pairs they are the first and the second glaze of each
// cup, by name.
func (d *drawer) pours() []field {
	t, unit, text := d.Test, string(d.plan.Kit.Pour.Unit), wording.PourText
	if d.plan.Kit.OnScale() {
		unit, text = "scale reads "+unit, wording.ReadingText
	}
	poured := func(p blend.Pour) entry {
		switch {
		case p.ML == 0:
			return entry{text: dash}
		case p.Steps == 0:
			return entry{text: none, star: t.Starred(p)}
		}
		return entry{text: text(t, p), star: t.Starred(p)}
	}
	if d.plan.Blend.Kind == blend.Pairs {
		both := func(c blend.Cell) []entry {
			var list []entry
			for i, p := range c.Pours {
				if it := poured(p); p.ML > 0 {
					it.name = blend.GlazeLetter(i) + " " + t.Ends[i].Name
					list = append(list, it)
				}
			}
			return append(list, entry{text: dash})
		}
		return []field{
			d.field("First glaze", unit, func(c blend.Cell) entry { return both(c)[0] }),
			d.field("Second glaze", unit, func(c blend.Cell) entry { return both(c)[1] }),
		}
	}
	var fields []field
	for i, e := range t.Ends {
		name := blend.GlazeLetter(i) + " " + e.Name
		if len(t.Ends) == 1 {
			name = e.Name
		}
		fields = append(fields, d.field(name, unit, func(c blend.Cell) entry { return poured(c.Pours[i]) }))
	}
	return fields
}

// doses are the fields of what is weighed into the cups, or drawn from a
// stock: a field for each stock.
func (d *drawer) doses() []field {
	t := d.Test
	var fields []field
	add := func(name string, series, stock int) {
		fields = append(fields, d.field(name, string(t.DoseUnit()), func(c blend.Cell) entry {
			dose := c.Doses[series]
			if dose.Percent == 0 || len(t.Stocks) > 0 && dose.Stock != stock {
				return entry{text: dash}
			}
			return entry{text: wording.DoseText(t, dose), percent: wording.DosePercent(dose)}
		}))
	}
	for k, s := range t.Stocks {
		add(s.Label+" "+s.Material+" stock", s.Series, k)
	}
	if !t.Dosed() || len(t.Stocks) > 0 {
		return fields
	}
	for i, s := range d.plan.Blend.Series {
		name := s.Material // first, since a long head is cut at its end
		if s.Name != "" {
			name += ": " + s.Name
		}
		if len(d.plan.Blend.Series) > 1 {
			name = blend.SeriesLetter(i) + " " + name
		}
		add(name, i, 0)
	}
	return fields
}

// weighings are the fields of a weigh card: what the scale reads with each dry
// material of a cup in, then the water.
func (d *drawer) weighings() []field {
	var fields []field
	for _, m := range d.Test.DryMaterials() {
		fields = append(fields, d.field(plus(m.Addition, m.Material), "scale reads g", func(c blend.Cell) entry {
			for _, w := range c.Weighings {
				if w.Material == m.Material && w.Addition == m.Addition {
					return entry{text: wording.DosingText(d.Test, w.ReadingG)}
				}
			}
			return entry{text: dash}
		}))
	}
	water := func(c blend.Cell) entry { return entry{text: quantity.Fixed(c.WaterG, 0)} }
	return append(fields, d.field("Water", "g", water))
}

// cupColumns are the number of each cup, and room behind it.
func (d *drawer) cupColumns() []page.Column {
	number := func(c blend.Cell) string { return fmt.Sprint(c.Number) }
	return []page.Column{
		{Head: "cup", Style: cupNo.To(page.Right), Texts: page.Each(d.Test.Cells, number)},
		{W: 2, Draw: func(*page.Page, page.Rect, int) {}},
	}
}

// inCup is the sum to check a cup by: the mL in it when all is poured. There is
// none where one glaze alone is poured, or a scale shows the sum anyway.
func (d *drawer) inCup() []page.Column {
	t := d.Test
	if len(t.Ends) < 2 || d.plan.Kit.OnScale() || d.plan.Blend.Method == blend.ByWeigh {
		return nil
	}
	sums := page.Each(t.Cells, func(c blend.Cell) string {
		var sum int64
		for _, p := range c.Pours {
			sum += p.Steps
		}
		return d.plan.Kit.Pour.Format(sum)
	})
	return []page.Column{{Head: "in cup", Style: body.To(page.Right), Texts: sums}}
}

// leastRoom is to write another amount in, behind the box of an amount, mm.
const leastRoom = 7.5

// column is a field as a column of a grid: percentages or names if it has them,
// and its amounts with a box and so much room, mm, to write behind each.
func (d *drawer) column(f field, room float64) page.Column {
	percents := page.Each(f.entries, func(it entry) string { return it.percent })
	names := page.Each(f.entries, func(it entry) string { return it.name })
	amounts := page.Each(f.entries, func(it entry) string { return it.text })
	starMM := 0.0
	if slices.ContainsFunc(f.entries, func(it entry) bool { return it.star }) {
		starMM = d.doc.Width("*", amount)
	}
	box := func(p *page.Page, r page.Rect, row int) {
		it := f.entries[row]
		if it.star {
			p.At(r.X-1.5, r.Y+r.H/2+amount.CapMM()/2, amount, "*")
		}
		if it.text != dash && it.text != none {
			p.Tick(r.After(starMM))
		}
	}
	c := page.Column{Head: f.name, Style: partName, Grow: 1}
	for _, part := range []page.Column{
		{Head: "%", Style: body.To(page.Decimal), Texts: percents},
		{Style: strong, Texts: names, W: min(46, d.doc.Widest(names, strong)+2)},
		{Head: f.unit, Style: amount.To(page.Right), Texts: amounts},
	} {
		if strings.Join(part.Texts, "") != "" {
			c.Parts = append(c.Parts, part)
		}
	}
	c.Parts = append(c.Parts, page.Column{W: starMM + page.Tick + room, Draw: box})
	return c
}

// starLine says what a star at a pour means and what to use for it.
func (d *drawer) starLine() string {
	least := measure.Step{}
	for _, c := range d.Test.Cells {
		for _, p := range c.Pours {
			if d.Test.Starred(p) {
				if step := d.Test.FinerPour(p); least.Size == 0 || step.Size < least.Size {
					least = step
				}
			}
		}
	}
	if least.Size == 0 {
		return ""
	}
	return fmt.Sprintf("* Too little for %s: it could be off by more than %s. Use a syringe marked every %s.",
		pouringTool(d.plan.Kit.Pour), quantity.FractionText(4*d.plan.Kit.Worst), least)
}

// pouringTool is what wet glaze is poured by.
func pouringTool(s measure.Step) string {
	if s.Unit == measure.Gram {
		return "a " + s.String() + " scale"
	}
	return "a jug marked every " + s.String()
}
