package sheets

import (
	"fmt"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// dash stands where nothing goes in, none where too little would.
const (
	dash = "–"
	none = "none"
)

// A field is one glaze or material of the pour card: an entry for each cup.
type field struct {
	letter  string // it is called so on the map, may be empty
	name    string
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

// fields are the columns of the pour card: glazes, then colourants, then water.
func (d *drawer) fields() []field {
	if d.plan.Blend.Method == blend.ByWeigh {
		return d.weighings()
	}
	fields := d.pours()
	if d.plan.Blend.Kind == blend.Pairs {
		fields = paired(fields)
	}
	fields = append(fields, d.doses()...)
	if d.plan.Cup.Even {
		sg := d.Test.CommonSG()
		f := field{name: "Water, to thin to SG " + quantity.SGText(sg), unit: string(d.Test.WaterStep().Unit)}
		for _, c := range d.Test.Cells {
			f.entries = append(f.entries, entry{text: wording.WaterText(d.Test, c, sg)})
		}
		fields = append(fields, f)
	}
	return fields
}

// pours are the fields of the glazes that are poured, or, on a scale, what it
// reads when each is in.
func (d *drawer) pours() []field {
	t := d.Test
	var fields []field
	for i, e := range t.Ends {
		f := field{letter: blend.GlazeLetter(i), name: e.Name, unit: string(d.plan.Kit.Pour.Unit)}
		if len(t.Ends) == 1 {
			f.letter = ""
		}
		text := wording.PourText
		if d.plan.Kit.OnScale() {
			f.unit, text = "scale reads "+f.unit, wording.ReadingText
		}
		for _, c := range t.Cells {
			p := c.Pours[i]
			it := entry{text: dash, star: t.Starred(p)}
			switch {
			case p.ML == 0:
			case p.Steps == 0:
				it.text = none
			default:
				it.text = text(t, p)
			}
			f.entries = append(f.entries, it)
		}
		fields = append(fields, f)
	}
	return fields
}

// paired are the fields of a pairs design: the first and the second glaze of
// each cup, by name, in place of a column for each glaze.
func paired(pours []field) []field {
	pair := []field{{name: "First glaze", unit: pours[0].unit}, {name: "Second glaze", unit: pours[0].unit}}
	for row := range pours[0].entries {
		both := make([]entry, 0, 4)
		for _, f := range pours {
			if it := f.entries[row]; it.text != dash {
				it.name = f.letter + " " + f.name
				both = append(both, it)
			}
		}
		both = append(both, entry{text: dash}, entry{text: dash})
		pair[0].entries, pair[1].entries = append(pair[0].entries, both[0]), append(pair[1].entries, both[1])
	}
	return pair
}

// doses are the fields of what is weighed into the cups, or drawn from a
// stock: a field for each stock.
func (d *drawer) doses() []field {
	t := d.Test
	if !t.Dosed() {
		return nil
	}
	var fields []field
	add := func(letter, name string, series int, has func(blend.Dose) bool) {
		f := field{letter: letter, name: name, unit: string(t.DoseUnit())}
		for _, c := range t.Cells {
			it := entry{text: dash}
			if dose := c.Doses[series]; dose.Percent > 0 && has(dose) {
				it = entry{text: wording.DoseText(t, dose), percent: wording.DosePercent(dose)}
			}
			f.entries = append(f.entries, it)
		}
		fields = append(fields, f)
	}
	for k, s := range t.Stocks {
		add(t.StockLabel(k), s.Material+" stock", s.Series, func(dose blend.Dose) bool { return dose.Stock == k })
	}
	if len(t.Stocks) > 0 {
		return fields
	}
	for i, s := range d.plan.Blend.Series {
		letter := blend.SeriesLetter(i)
		if len(d.plan.Blend.Series) == 1 {
			letter = ""
		}
		add(letter, s.Label(), i, func(blend.Dose) bool { return true })
	}
	return fields
}

// weighings are the fields of a weigh card: what the scale reads with each dry
// material of a cup in, then the water.
func (d *drawer) weighings() []field {
	var fields []field
	for _, m := range d.Test.DryMaterials() {
		f := field{name: plus(m.Addition, m.Material), unit: "scale reads g"}
		for _, c := range d.Test.Cells {
			it := entry{text: dash}
			for _, w := range c.Weighings {
				if w.Material == m.Material && w.Addition == m.Addition {
					it.text = wording.DosingText(d.Test, w.ReadingG)
				}
			}
			f.entries = append(f.entries, it)
		}
		fields = append(fields, f)
	}
	water := field{name: "Water", unit: "g"}
	for _, c := range d.Test.Cells {
		water.entries = append(water.entries, entry{text: quantity.Fixed(c.WaterG, 0)})
	}
	return append(fields, water)
}

// cupColumn is the number of each cup.
func (d *drawer) cupColumn() page.Column {
	c := page.Column{Head: "cup", Style: cupNo.To(page.Right)}
	for _, cell := range d.Test.Cells {
		c.Texts = append(c.Texts, fmt.Sprint(cell.Number))
	}
	return c
}

// inCup is the sum to check a cup by: the mL in it when all is poured. There is
// none where one glaze alone is poured, or a scale shows the sum anyway.
func (d *drawer) inCup() []page.Column {
	t := d.Test
	if len(t.Ends) < 2 || d.plan.Kit.OnScale() || d.plan.Blend.Method == blend.ByWeigh {
		return nil
	}
	column := page.Column{Head: "in cup", Style: body.To(page.Right)}
	for _, c := range t.Cells {
		var sum int64
		for _, p := range c.Pours {
			sum += p.Steps
		}
		column.Texts = append(column.Texts, d.plan.Kit.Pour.Format(sum))
	}
	return []page.Column{column}
}

// Widths of a field, mm.
const (
	fieldPad  = 2.5 // before the amount
	tickGap   = 1.3
	leastRoom = 7.5 // to write another amount in, behind the box
	nameLines = 2
)

// nameStyle is the name of a glaze over its column, the largest word there.
var nameStyle = page.Bold(page.Head)

// column is a field as a column of a grid: percentages or names if it has them,
// and its amounts with a box and so much room, mm, to write behind each.
func (d *drawer) column(f field, room float64) page.Column {
	var percents []string
	lead, wide, star := 0.0, 0.0, 0.0 // mm, of what is before the amounts, and of them
	for _, it := range f.entries {
		wide = max(wide, d.doc.Width(it.text, amount))
		if it.star {
			star = d.doc.Width("*", amount)
		}
		if it.percent != "" {
			percents = append(percents, it.percent)
		}
		if it.name != "" {
			lead = max(lead, min(46, d.doc.Width(it.name, strong))+1)
		}
	}
	after, percentMM := d.doc.After(percents, body), 0.0
	if percents != nil {
		percentMM = max(d.doc.Widest(percents, body), after+d.doc.Width("10", body))
		lead = percentMM + 3.5
	}
	name := f.name
	if f.letter != "" {
		name = f.letter + " " + name
	}
	w := lead + fieldPad + wide + star + tickGap + page.Tick + room
	for w <= 34 && len(d.doc.Lines(f.name, nameStyle.At(page.Small), w-fieldPad-1)) > nameLines {
		w++ // no name in more lines than there is room for
	}
	head := func(p *page.Page, r page.Rect) {
		named := page.Rect{X: r.X + fieldPad, Y: r.Y, W: r.W - fieldPad - 1, H: r.H - fine.LineH() - 0.3}
		if d.doc.Width(name, nameStyle) <= named.W { // names of one line are on one line
			named = named.Below(named.H - nameStyle.LineH())
		}
		p.Fitted(named, nameStyle, name)
		units := r.Below(r.H - fine.LineH() - 0.2)
		p.At(r.X+lead+fieldPad+max(wide+star, d.doc.Width(f.unit, fine)-lead-fieldPad), units.Y+fine.LineH()*0.78, fine.To(page.Right), f.unit)
		if percents != nil {
			p.Text(page.Rect{X: r.X + 1, Y: units.Y, W: percentMM, H: fine.LineH()}, fine.To(page.Right), "%")
		}
	}
	return page.Column{W: w, Grow: 1, DrawHead: head, Draw: func(p *page.Page, r page.Rect, row int) {
		it := f.entries[row]
		if it.percent != "" {
			p.Figure(page.Rect{X: r.X + 1, Y: r.Y, W: percentMM, H: r.H}, body, it.percent, after)
		}
		if it.name != "" {
			p.Fitted(page.Rect{X: r.X + fieldPad, Y: r.Y, W: lead - 1, H: r.H}, strong, it.name)
		}
		at := page.Rect{X: r.X + lead + fieldPad, Y: r.Y, W: wide, H: r.H}
		if it.text == dash || it.text == none {
			p.Text(at, body.To(page.Right), it.text)
			return
		}
		p.Text(at, amount.To(page.Right), it.text)
		if it.star {
			p.At(at.Right(), r.Y+r.H/2+amount.CapMM()/2, amount, "*")
		}
		p.Tick(page.Rect{X: at.Right() + star + tickGap, Y: r.Y, H: r.H})
	}}
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
