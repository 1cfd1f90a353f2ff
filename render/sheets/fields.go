package sheets

import (
	"fmt"
	"strings"

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
		sg := d.Test.CommonSG
		f := field{name: "Water, to thin to SG " + quantity.SGText(sg), unit: string(d.Test.ThinningStep().Unit)}
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
	add := func(letter, name string, series, stock int) {
		f := field{letter: letter, name: name, unit: string(t.DoseUnit())}
		for _, c := range t.Cells {
			it := entry{text: dash}
			if dose := c.Doses[series]; dose.Percent > 0 && (len(t.Stocks) == 0 || dose.Stock == stock) {
				it = entry{text: wording.DoseText(t, dose), percent: wording.DosePercent(dose)}
			}
			f.entries = append(f.entries, it)
		}
		fields = append(fields, f)
	}
	for k, s := range t.Stocks {
		add(s.Label, s.Material+" stock", s.Series, k)
	}
	for i, s := range d.plan.Blend.Series {
		switch {
		case len(t.Stocks) > 0:
		case len(d.plan.Blend.Series) == 1:
			add("", s.Label(), i, 0)
		default:
			add(blend.SeriesLetter(i), s.Label(), i, 0)
		}
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

// cupColumns are the number of each cup, and room behind it.
func (d *drawer) cupColumns() []page.Column {
	c := page.Column{Head: "cup", Style: cupNo.To(page.Right)}
	for _, cell := range d.Test.Cells {
		c.Texts = append(c.Texts, fmt.Sprint(cell.Number))
	}
	return []page.Column{c, {W: 2, Draw: func(*page.Page, page.Rect, int) {}}}
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

// leastRoom is to write another amount in, behind the box of an amount, mm.
const leastRoom = 7.5

// column is a field as a column of a grid: percentages or names if it has them,
// and its amounts with a box and so much room, mm, to write behind each.
func (d *drawer) column(f field, room float64) page.Column {
	percent, name := page.Column{Head: "%", Style: body.To(page.Decimal)}, page.Column{Style: strong}
	amounts := page.Column{Head: f.unit, Style: amount.To(page.Right)}
	wide := 0.0
	for _, it := range f.entries {
		if it.star {
			wide = d.doc.Width("*", amount)
		}
		percent.Texts, name.Texts, amounts.Texts = append(percent.Texts, it.percent), append(name.Texts, it.name), append(amounts.Texts, it.text)
	}
	name.W = min(46, d.doc.Widest(name.Texts, strong)+2)
	box := page.Column{W: wide + page.Tick + room, Draw: func(p *page.Page, r page.Rect, row int) {
		it := f.entries[row]
		if it.star {
			p.At(r.X-1.5, r.Y+r.H/2+amount.CapMM()/2, amount, "*")
		}
		if it.text != dash && it.text != none {
			p.Tick(page.Rect{X: r.X + wide, Y: r.Y, H: r.H})
		}
	}}
	c := page.Column{Head: f.name, Style: nameStyle, Grow: 1}
	if f.letter != "" {
		c.Head = f.letter + " " + f.name
	}
	for _, part := range []page.Column{percent, name, amounts} {
		if strings.Join(part.Texts, "") != "" {
			c.Parts = append(c.Parts, part)
		}
	}
	c.Parts = append(c.Parts, box)
	return c
}

// nameStyle is the name of a glaze over its column, the largest word there.
var nameStyle = page.Bold(page.Head)

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
