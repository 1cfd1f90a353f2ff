package text

import (
	"fmt"
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
	p := t.Plan
	if _, err := fmt.Fprintf(w, "%s\n%s\n\n", oneLine(p.Title), wording.Summary(t)); err != nil {
		return err
	}
	if err := legend(w, t); err != nil {
		return err
	}
	if err := cupGrid(t, tableColumns(t)).write(w); err != nil {
		return err
	}
	if line := wording.Repeats(t); line != "" {
		fmt.Fprintf(w, "\n%s\n", line)
	}
	for _, text := range wording.SkippedDoses(t) {
		fmt.Fprintf(w, "\n%s\n", oneLine(text))
	}
	for i, text := range wording.Dilutions(t) {
		if i == 0 {
			fmt.Fprintln(w)
		}
		fmt.Fprintln(w, oneLine(text))
	}
	if p.Blend.Method == blend.ByWeigh {
		return weighings(w, t)
	}
	return mixes(w, t)
}

// weighings prints what is weighed dry into each cup, with what the scale reads
// then.
func weighings(w io.Writer, t *blend.Test) error {
	fmt.Fprintln(w, "\nto weigh: tare the cup, then add each material until the scale reads the figure")
	scale := t.Plan.Kit.Dosing()
	g := grid{left: []bool{false, true}}
	g.add("cup", "material", "g", "scale reads", "% of recipe", "±")
	g.rule()
	for _, c := range t.Cells {
		cup := strconv.Itoa(c.Number)
		for _, x := range c.Weighings {
			name := oneLine(x.Material)
			if x.Addition {
				name = "+ " + name
			}
			g.add(cup, name, scale.Format(x.Steps), scale.Format(scale.Count(x.ReadingG)), quantity.GotText(x.Percent), quantity.PlusMinusText(x.PlusMinus))
			cup = ""
		}
	}
	return g.write(w)
}

func legend(w io.Writer, t *blend.Test) error {
	g := grid{left: []bool{true, true, true}}
	for i, e := range t.Ends {
		g.add(blend.GlazeLetter(i), oneLine(e.Name), gravity(e))
	}
	for s, series := range t.Plan.Blend.Series {
		g.add(blend.SeriesLetter(s), oneLine(series.Label()))
	}
	for i, stock := range t.Stocks {
		if stock.ML == 0 {
			continue
		}
		g.add(t.StockLabel(i), oneLine(stock.Name), quantity.StrengthText(stock.GPerML))
	}
	g.add()
	return g.write(w)
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
	text func(c *blend.Cell) string
}

// cupGrid is a table of all cups.
func cupGrid(t *blend.Test, columns []column) *grid {
	g := &grid{}
	var row []string
	for _, c := range columns {
		row = append(row, c.head)
	}
	g.add(row...)
	g.rule()
	for i := range t.Cells {
		row = nil
		for _, c := range columns {
			row = append(row, c.text(&t.Cells[i]))
		}
		g.add(row...)
	}
	return g
}

// tableColumns are what Table shows of each cup.
func tableColumns(t *blend.Test) []column {
	columns := []column{{"cup", func(c *blend.Cell) string { return strconv.Itoa(c.Number) }}}
	add := func(head string, text func(c *blend.Cell) string) { columns = append(columns, column{head, text}) }
	if slices.ContainsFunc(t.Cells, func(c blend.Cell) bool { return t.WrittenParts(c.Number-1) != nil }) {
		add("parts", func(c *blend.Cell) string { return wording.Parts(t.WrittenParts(c.Number - 1)) })
	}
	if !t.Plan.Blend.HasSeries() {
		for e := range t.Ends {
			add(blend.GlazeLetter(e)+" %", func(c *blend.Cell) string { return wording.SharePercent(c.Pours[e]) })
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
		add("water g", func(c *blend.Cell) string { return quantity.Fixed(c.WaterG, 0) })
	}
	known := func(text func(c *blend.Cell) string) func(c *blend.Cell) string {
		return func(c *blend.Cell) string {
			if noGrams(t, *c) {
				return "–"
			}
			return text(c)
		}
	}
	add("dry g", known(func(c *blend.Cell) string { return quantity.MassText(c.Got.RecipeG) }))
	add("SG", known(func(c *blend.Cell) string { return quantity.SGText(c.Got.SG) }))
	add("worst ±", func(c *blend.Cell) string {
		if s := slices.IndexFunc(c.Doses, blend.Dose.None); s >= 0 {
			return "no " + blend.SeriesLetter(s)
		}
		return quantity.FractionText(c.Got.Worst)
	})
	return columns
}

// pourColumns are the pours of each glaze and, on a scale, its readings.
func pourColumns(t *blend.Test) []column {
	var pours, readings []column
	for e := range t.Ends {
		letter := blend.GlazeLetter(e)
		pours = append(pours, column{letter + " " + string(t.Plan.Kit.Pour.Unit), func(c *blend.Cell) string { return wording.PourText(t, c.Pours[e]) }})
		readings = append(readings, column{"reads " + letter, func(c *blend.Cell) string { return wording.ReadingText(t, c.Pours[e]) }})
	}
	if len(pours) == 1 {
		pours[0].head = "pour " + string(t.Plan.Kit.Pour.Unit)
		return pours
	}
	if t.Plan.Kit.OnScale() {
		return append(pours, readings...)
	}
	return pours
}

// doseColumns are what is asked of a series, dosed, made, and how far off that
// can be.
func doseColumns(t *blend.Test, s int) []column {
	x, method := blend.SeriesLetter(s), t.Plan.Blend.Method
	columns := []column{{x + " %", func(c *blend.Cell) string { return wording.DosePercent(c.Doses[s]) }}}
	if method != blend.ByPour {
		columns = append(columns, column{x + " " + string(t.DoseUnit()), func(c *blend.Cell) string {
			d := c.Doses[s]
			if method == blend.ByStock && d.Percent > 0 && !d.None() {
				return wording.DoseText(t, d) + " " + t.StockLabel(d.Stock)
			}
			return wording.DoseText(t, d)
		}})
	}
	return append(columns,
		column{x + " made", func(c *blend.Cell) string { return strconv.FormatFloat(c.Doses[s].GotPercent, 'f', 2, 64) }},
		column{"±", func(c *blend.Cell) string { return wording.DosePlusMinus(c.Doses[s]) }})
}

// mixes prints what is to be mixed to serve the cups.
func mixes(w io.Writer, t *blend.Test) error {
	fmt.Fprintln(w, "\nto mix")
	g := grid{left: []bool{true, true}, cut: 1} // the legend has the whole names
	add := func(letter, name, dry, water string, ml, needML float64) {
		if ml > 0 {
			g.add(letter, oneLine(name), dry, water, "= "+quantity.VolumeText(ml)+" mL", "("+quantity.VolumeText(needML)+" mL needed)")
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
	for i, x := range t.Stocks {
		add(t.StockLabel(i), x.Material, wording.DosingText(t, x.G)+" g dry", quantity.MassText(x.WaterG)+" g water", x.ML, x.NeedML)
	}
	return g.write(w)
}
