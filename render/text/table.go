package text

import (
	"io"
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// Table prints the cups of a test: what goes in, what it makes and how far off
// that can be.
func Table(w io.Writer, t *blend.Test) error {
	var p printer
	p.line("%s", t.Plan.Title)
	p.line("%s", wording.Summary(t))
	p.line("")
	p.grid(legend(t))
	p.line("")
	p.cups(t, tableColumns(t))
	if line := wording.Repeats(t); line != "" {
		p.line("")
		p.line("%s", line)
	}
	for i, text := range wording.Dilutions(t) {
		if i == 0 {
			p.line("")
		}
		p.line("%s", text)
	}
	p.line("")
	if t.Plan.Blend.Method == blend.ByWeigh {
		p.line("to weigh: tare the cup, then add each material until the scale reads the figure")
		p.grid(weighings(t))
	} else {
		p.line("to mix")
		p.grid(mixes(t))
	}
	return p.to(w)
}

// weighings are what is weighed dry into each cup, with what the scale reads then.
func weighings(t *blend.Test) *grid {
	scale := t.Plan.Kit.Dosing()
	g := table("rl", "cup", "material", "g", "scale reads", "% of recipe", "±")
	for _, c := range t.Cells {
		cup := strconv.Itoa(c.Number)
		for _, x := range c.Weighings {
			g.add(cup, partName(x.Material, x.Addition), scale.Format(x.Steps), scale.Format(scale.Count(x.ReadingG)),
				quantity.GotText(x.Percent), quantity.PlusMinusText(x.PlusMinus))
			cup = ""
		}
	}
	return g
}

// legend is what the letters in the heads mean.
func legend(t *blend.Test) *grid {
	g := &grid{align: "lll"}
	for i, e := range t.Ends {
		g.add(blend.GlazeLetter(i), e.Name, gravity(e))
	}
	for s, series := range t.Plan.Blend.Series {
		g.add(blend.SeriesLetter(s), series.Label())
	}
	for _, stock := range t.Stocks {
		if stock.ML > 0 {
			g.add(stock.Label, stock.Name, quantity.StrengthText(stock.GPerML))
		}
	}
	return g
}

// gravity is the SG of an end glaze; what nothing rests on is not assumed.
func gravity(e blend.End) string {
	switch {
	case e.Assumed && e.Bucket:
		return "ready in a bucket"
	case e.Assumed:
		return "SG " + quantity.SGText(e.SG) + " (assumed)"
	}
	return "SG " + quantity.SGText(e.SG)
}

// noGrams reports whether a cup holds a glaze of which nothing but the volume is
// known.
func noGrams(t *blend.Test, c blend.Cell) bool {
	for e, p := range c.Pours {
		if t.Ends[e].Assumed && t.Ends[e].Bucket && p.ML > 0 {
			return true
		}
	}
	return false
}

// column is one of a table with a row for each cup.
type column struct {
	head string
	text func(c blend.Cell) string
}

// cups adds a table of all cups.
func (p *printer) cups(t *blend.Test, columns []column) {
	g := table("", list(columns, func(c column) string { return c.head })...)
	for _, cell := range t.Cells {
		g.add(list(columns, func(c column) string { return c.text(cell) })...)
	}
	p.grid(g)
}

// tableColumns are what Table shows of each cup.
func tableColumns(t *blend.Test) []column {
	columns := []column{{"cup", cupNumber}}
	add := func(head string, text func(c blend.Cell) string) { columns = append(columns, column{head, text}) }
	if slices.ContainsFunc(t.Cells, func(c blend.Cell) bool { return c.Parts != nil }) {
		add("parts", func(c blend.Cell) string { return wording.Parts(c.Parts) })
	}
	if !t.Plan.Blend.HasSeries() {
		for e := range t.Ends {
			add(blend.GlazeLetter(e)+" %", func(c blend.Cell) string { return wording.SharePercent(c.Pours[e]) })
		}
	}
	weighed := t.Plan.Blend.Method == blend.ByWeigh
	if !weighed {
		columns = append(columns, pourColumns(t)...)
	}
	for s := range t.Plan.Blend.Series {
		columns = append(columns, doseColumns(t, s)...)
	}
	if weighed {
		add("water g", func(c blend.Cell) string { return quantity.Fixed(c.WaterG, 0) })
	}
	known := func(c blend.Cell, text string) string {
		if noGrams(t, c) {
			return "–"
		}
		return text
	}
	add("dry g", func(c blend.Cell) string { return known(c, quantity.MassText(c.Got.RecipeG)) })
	add("SG", func(c blend.Cell) string { return known(c, quantity.SGText(c.Got.SG)) })
	add("largest ±", func(c blend.Cell) string {
		if s := slices.IndexFunc(c.Doses, blend.Dose.None); s >= 0 {
			return "no " + blend.SeriesLetter(s)
		}
		return quantity.FractionText(c.Got.Worst)
	})
	return columns
}

func cupNumber(c blend.Cell) string { return strconv.Itoa(c.Number) }

// pourColumns are the pours of each glaze and, on a scale, its readings.
func pourColumns(t *blend.Test) []column {
	unit := " " + string(t.Plan.Kit.Pour.Unit)
	var pours, readings []column
	for e := range t.Ends {
		letter := blend.GlazeLetter(e)
		pours = append(pours, column{letter + unit,
			func(c blend.Cell) string { return wording.PourText(t, c.Pours[e]) }})
		readings = append(readings,
			column{"reads " + letter, func(c blend.Cell) string { return wording.ReadingText(t, c.Pours[e]) }})
	}
	switch {
	case len(pours) == 1:
		pours[0].head = "pour" + unit
	case t.Plan.Kit.OnScale():
		return append(pours, readings...)
	}
	return pours
}

// doseColumns are what is asked of a series, dosed, what that comes to, and how far
// off it could be.
func doseColumns(t *blend.Test, s int) []column {
	x := blend.SeriesLetter(s)
	columns := []column{{x + " %", func(c blend.Cell) string { return wording.DosePercent(c.Doses[s]) }}}
	if t.Plan.Blend.Method != blend.ByPour {
		columns = append(columns, column{x + " " + string(t.DoseUnit()), func(c blend.Cell) string {
			d, bottle := c.Doses[s], ""
			if t.Plan.Blend.Method == blend.ByStock && d.Percent > 0 && !d.None() {
				bottle = " " + t.Stocks[d.Stock].Label
			}
			return wording.DoseText(t, d) + bottle
		}})
	}
	return append(columns,
		column{x + " comes to", func(c blend.Cell) string { return quantity.Fixed(c.Doses[s].GotPercent, 2) }},
		column{"±", func(c blend.Cell) string { return wording.DosePlusMinus(c.Doses[s]) }})
}

// mixes is what is to be mixed to serve the cups.
func mixes(t *blend.Test) *grid {
	g := &grid{align: "lrrrrl"}
	add := func(letter, glaze, dry, water string, ml, needML float64) {
		if ml > 0 {
			g.add(letter, dry, water, "= "+quantity.VolumeText(ml)+" mL", "("+quantity.VolumeText(needML)+" mL needed)", glaze)
		}
	}
	for i, b := range t.Batches {
		dry, water := quantity.MassText(b.RecipeG)+" g dry", quantity.MassText(b.WaterG)+" g water"
		switch {
		case b.Mixed:
			dry, water = "mixed already", ""
		case t.Ends[i].Bucket:
			dry, water = "have ready", ""
		}
		add(blend.GlazeLetter(i), b.Glaze, dry, water, b.ML, b.NeedML)
	}
	for _, x := range t.Stocks {
		add(x.Label, x.Material, wording.DosingText(t, x.G)+" g dry",
			quantity.MassText(x.WaterG)+" g water", x.ML, x.NeedML)
	}
	return g
}

// Methods prints the ways of measuring a test side by side. Where nothing can
// be off there is nothing to print.
func Methods(w io.Writer, a blend.Advice) error {
	if a.Planned.Worst == 0 {
		return nil
	}
	heads := []string{"by", "largest ±", "in cup", "weighings"}
	series := a.Options[0].Method != ""
	if series {
		heads = append(heads, "smallest amount", "water in a cup")
	}
	g := table("l", heads...)
	for _, o := range a.Options {
		row := []string{wording.OptionName(o), quantity.FractionText(o.Worst), strconv.Itoa(o.Cell),
			strconv.Itoa(o.Weighings)}
		if series {
			row = append(row, wording.Smallest(o), quantity.VolumeText(o.WaterML)+" mL")
		}
		g.add(row...)
	}
	var p printer
	p.line("")
	p.grid(g)
	return p.to(w)
}
