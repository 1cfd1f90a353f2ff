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
	g := grid{}
	head := []string{"cup"}
	inParts := slices.ContainsFunc(t.Cells, func(c blend.Cell) bool { return t.WrittenParts(c.Number-1) != nil })
	if inParts {
		head = append(head, "parts")
	}
	if !p.Blend.HasSeries() {
		for i := range t.Ends {
			head = append(head, blend.GlazeLetter(i)+" %")
		}
	}
	weighed := p.Blend.Method == blend.ByWeigh
	unit := string(p.Kit.Pour.Unit)
	for i := range t.Ends {
		if weighed {
			break
		}
		name := blend.GlazeLetter(i) + " " + unit
		if len(t.Ends) == 1 {
			name = "pour " + unit
		}
		head = append(head, name)
	}
	if t.OnScale() && len(t.Ends) > 1 && !weighed {
		for i := range t.Ends {
			head = append(head, "reads "+blend.GlazeLetter(i))
		}
	}
	for s := range p.Blend.Series {
		head = append(head, seriesHeads(t, s)...)
	}
	if weighed {
		head = append(head, "water g")
	}
	head = append(head, "dry g", "SG", "worst ±")
	g.add(head...)
	g.rule()
	for _, c := range t.Cells {
		row := tableRow(t, c)
		if inParts {
			row = slices.Insert(row, 1, wording.Parts(t.WrittenParts(c.Number-1)))
		}
		g.add(row...)
	}
	if err := g.write(w); err != nil {
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
	if weighed {
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

func seriesHeads(t *blend.Test, s int) []string {
	x := blend.SeriesLetter(s)
	heads := []string{x + " %"}
	if t.Plan.Blend.Method != blend.ByPour {
		heads = append(heads, x+" "+string(t.DoseUnit()))
	}
	return append(heads, x+" made", "±")
}

func tableRow(t *blend.Test, c blend.Cell) []string {
	row := []string{strconv.Itoa(c.Number)}
	if !t.Plan.Blend.HasSeries() {
		for _, p := range c.Pours {
			row = append(row, wording.SharePercent(p))
		}
	}
	weighed := t.Plan.Blend.Method == blend.ByWeigh
	for _, p := range c.Pours {
		if !weighed {
			row = append(row, wording.PourText(t, p))
		}
	}
	if t.OnScale() && len(t.Ends) > 1 && !weighed {
		for _, p := range c.Pours {
			row = append(row, wording.ReadingText(t, p))
		}
	}
	for _, d := range c.Doses {
		row = append(row, wording.DosePercent(d))
		switch {
		case t.Plan.Blend.Method == blend.ByStock && d.Percent > 0 && !d.None():
			row = append(row, wording.DoseText(t, d)+" "+t.StockLabel(d.Stock))
		case t.Plan.Blend.Method != blend.ByPour:
			row = append(row, wording.DoseText(t, d))
		}
		row = append(row, strconv.FormatFloat(d.GotPercent, 'f', 2, 64), wording.DosePlusMinus(d))
	}
	if weighed {
		row = append(row, quantity.Fixed(c.WaterG, 0))
	}
	worst := quantity.FractionText(c.Got.Worst)
	for s, d := range c.Doses {
		if d.None() {
			worst = "no " + blend.SeriesLetter(s)
			break
		}
	}
	if noGrams(t, c) {
		return append(row, "–", "–", worst)
	}
	return append(row, quantity.MassText(c.Got.RecipeG), quantity.SGText(c.Got.SG), worst)
}

// mixes prints what is to be mixed to serve the cups.
func mixes(w io.Writer, t *blend.Test) error {
	fmt.Fprintln(w, "\nto mix")
	g := grid{left: []bool{true, true}, cut: 1} // the legend has the whole names
	for i, b := range t.Batches {
		if b.ML == 0 {
			continue
		}
		if t.Ends[i].Bucket && !b.Mixed {
			g.add(blend.GlazeLetter(i), oneLine(b.Glaze), "have ready", "", "= "+quantity.VolumeText(b.ML)+" mL", "("+quantity.VolumeText(b.NeedML)+" mL needed)")
			continue
		}
		if b.Mixed {
			g.add(blend.GlazeLetter(i), oneLine(b.Glaze), "mixed already", "", "= "+quantity.VolumeText(b.ML)+" mL", "("+quantity.VolumeText(b.NeedML)+" mL needed)")
			continue
		}
		g.add(blend.GlazeLetter(i), oneLine(b.Glaze), quantity.MassText(b.RecipeG)+" g dry", quantity.MassText(b.WaterG)+" g water",
			"= "+quantity.VolumeText(b.ML)+" mL", "("+quantity.VolumeText(b.NeedML)+" mL needed)")
	}
	for i, x := range t.Stocks {
		if x.ML == 0 {
			continue
		}
		g.add(t.StockLabel(i), oneLine(x.Material), wording.DosingText(t, x.G)+" g dry", quantity.MassText(x.WaterG)+" g water",
			"= "+quantity.VolumeText(x.ML)+" mL", "("+quantity.VolumeText(x.NeedML)+" mL needed)")
	}
	return g.write(w)
}
