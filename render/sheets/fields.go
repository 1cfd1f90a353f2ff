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

// A field is one glaze or material of the pour card: an amount for each cup.
type field struct {
	letter  string // it is called so on the map, may be empty
	name    string
	unit    string
	texts   []string // by cup, without the unit
	stars   []bool   // by cup: the amount is too small for the instrument, may be nil
	percent []string // by cup: what a dose is asked to be, may be nil
	names   []string // by cup: the glaze of a pair, nil where the column has one
}

// fields are the columns of the pour card: glazes, then colourants, then water.
func (d *drawer) fields() []field {
	if d.plan.Blend.Method == blend.ByWeigh {
		return d.weighings()
	}
	fields := d.pours()
	if d.plan.Blend.Kind == blend.Pairs {
		fields = d.paired(fields)
	}
	fields = append(fields, d.doses()...)
	if d.plan.Cup.Even {
		sg := d.Test.CommonSG()
		f := field{name: "Water, to thin to SG " + quantity.SGText(sg), unit: string(d.Test.WaterStep().Unit)}
		for _, c := range d.Test.Cells {
			f.texts = append(f.texts, wording.WaterText(d.Test, c, sg))
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
		if t.Plan.Kit.OnScale() {
			f.unit = "scale reads " + f.unit
		}
		for _, c := range t.Cells {
			p := c.Pours[i]
			switch {
			case p.ML == 0:
				f.texts = append(f.texts, dash)
			case p.Steps == 0:
				f.texts = append(f.texts, none)
			case t.Plan.Kit.OnScale():
				f.texts = append(f.texts, wording.ReadingText(t, p))
			default:
				f.texts = append(f.texts, wording.PourText(t, p))
			}
			f.stars = append(f.stars, t.Starred(p))
		}
		fields = append(fields, f)
	}
	return fields
}

// paired are the fields of a pairs design: the first and the second glaze of
// each cup, by name, in place of a column for each glaze.
func (d *drawer) paired(pours []field) []field {
	pair := []field{{name: "First glaze", unit: pours[0].unit}, {name: "Second glaze", unit: pours[0].unit}}
	for row := range d.Test.Cells {
		n := 0
		for _, f := range pours {
			if f.texts[row] != dash && n < 2 {
				p := &pair[n]
				p.names, p.texts, p.stars = append(p.names, f.letter+" "+f.name), append(p.texts, f.texts[row]), append(p.stars, f.stars[row])
				n++
			}
		}
		for ; n < 2; n++ {
			p := &pair[n]
			p.names, p.texts, p.stars = append(p.names, ""), append(p.texts, dash), append(p.stars, false)
		}
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
	add := func(series, stock int, name, letter string) {
		f := field{letter: letter, name: name, unit: string(t.DoseUnit())}
		for _, c := range t.Cells {
			dose := c.Doses[series]
			text, percent := dash, ""
			if dose.Percent > 0 && (stock < 0 || dose.Stock == stock) {
				text, percent = wording.DoseText(t, dose), wording.DosePercent(dose)
			}
			f.texts = append(f.texts, text)
			f.percent = append(f.percent, percent)
		}
		fields = append(fields, f)
	}
	if len(t.Stocks) > 0 {
		for k, s := range t.Stocks {
			add(s.Series, k, s.Material+" stock", t.StockLabel(k))
		}
		return fields
	}
	for i, s := range d.plan.Blend.Series {
		letter := blend.SeriesLetter(i)
		if len(d.plan.Blend.Series) == 1 {
			letter = ""
		}
		add(i, -1, s.Label(), letter)
	}
	return fields
}

// weighings are the fields of a weigh card: what the scale reads with each dry
// material of a cup in, then the water.
func (d *drawer) weighings() []field {
	var fields []field
	scale := d.plan.Kit.Dosing()
	for _, m := range d.Test.DryMaterials() {
		f := field{name: m.Material, unit: "scale reads g"}
		if m.Addition {
			f.name = "+ " + f.name
		}
		for _, c := range d.Test.Cells {
			text := dash
			for _, w := range c.Weighings {
				if w.Material == m.Material && w.Addition == m.Addition {
					text = scale.Format(scale.Count(w.ReadingG))
				}
			}
			f.texts = append(f.texts, text)
		}
		fields = append(fields, f)
	}
	water := field{name: "Water", unit: "g"}
	for _, c := range d.Test.Cells {
		water.texts = append(water.texts, quantity.Fixed(c.WaterG, 0))
	}
	return append(fields, water)
}

// inCup is the sum to check a cup by: the mL in it when all is poured. It is
// nil where one glaze alone is poured, or a scale shows the sum anyway.
func (d *drawer) inCup() []string {
	t := d.Test
	if len(t.Ends) < 2 || t.Plan.Kit.OnScale() || d.plan.Blend.Method == blend.ByWeigh {
		return nil
	}
	texts := make([]string, len(t.Cells))
	for i, c := range t.Cells {
		var sum int64
		for _, p := range c.Pours {
			sum += p.Steps
		}
		texts[i] = d.plan.Kit.Pour.Format(sum)
	}
	return texts
}

// cupColumn is the number of each cup.
func (d *drawer) cupColumn(style page.Style) page.Column {
	texts := make([]string, len(d.Test.Cells))
	for i, c := range d.Test.Cells {
		texts[i] = fmt.Sprint(c.Number)
	}
	return d.doc.Texts("cup", texts, style.To(page.Right), 2)
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
