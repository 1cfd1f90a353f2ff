package text

import (
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// Table prints the cups of a test: what goes in, what it makes and how far off
// that can be.
func Table(t *blend.Test) string {
	var p printer
	p.line("%s", t.Plan.Title)
	p.line("%s", wording.Summary(t))
	p.line("")
	p.grid(legend(t))
	p.line("")
	g := table("")
	parts := slices.ContainsFunc(t.Cells, func(c blend.Cell) bool { return c.Parts != nil })
	for i, c := range t.Cells {
		row := rowOf(t, c, parts)
		if i == 0 {
			g.rows[0] = list(row, func(f field) string { return f.key })
		}
		g.add(list(row, func(f field) string { return f.value.(string) })...)
	}
	p.grid(g)
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
	return p.String()
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

// rowOf is what Table shows of a cup, each text with its head; parts says that some
// cup has its shares in parts.
func rowOf(t *blend.Test, c blend.Cell, parts bool) []field {
	row := []field{{"cup", strconv.Itoa(c.Number)}}
	add := func(head, text string) { row = append(row, field{head, text}) }
	if parts {
		add("parts", wording.Parts(c.Parts))
	}
	if !t.Plan.Blend.HasSeries() {
		for e, p := range c.Pours {
			add(blend.GlazeLetter(e)+" %", wording.SharePercent(p))
		}
	}
	if t.Plan.Blend.Method == blend.ByWeigh {
		row = append(row, doses(t, c)...)
		add("water g", quantity.Fixed(c.WaterG, 0))
	} else {
		row = append(append(row, pours(t, c)...), doses(t, c)...)
	}
	dry, sg, worst := quantity.MassText(c.Got.RecipeG), quantity.SGText(c.Got.SG), quantity.FractionText(c.Got.Worst)
	if noGrams(t, c) {
		dry, sg = "–", "–"
	}
	if s := slices.IndexFunc(c.Doses, blend.Dose.None); s >= 0 {
		worst = "no " + blend.SeriesLetter(s)
	}
	add("dry g", dry)
	add("SG", sg)
	add("largest ±", worst)
	return row
}

// pours are the pours of each glaze into a cup and, on a scale, its readings.
func pours(t *blend.Test, c blend.Cell) (row []field) {
	unit := " " + string(t.Plan.Kit.Pour.Unit)
	if len(c.Pours) == 1 {
		return []field{{"pour" + unit, wording.PourText(t, c.Pours[0])}}
	}
	for e, p := range c.Pours {
		row = append(row, field{blend.GlazeLetter(e) + unit, wording.PourText(t, p)})
	}
	if t.Plan.Kit.OnScale() {
		for e, p := range c.Pours {
			row = append(row, field{"reads " + blend.GlazeLetter(e), wording.ReadingText(t, p)})
		}
	}
	return row
}

// doses are what is asked of each series, dosed, what that comes to, and how far off
// it could be.
func doses(t *blend.Test, c blend.Cell) (row []field) {
	method := t.Plan.Blend.Method
	for s, d := range c.Doses {
		x := blend.SeriesLetter(s)
		row = append(row, field{x + " %", wording.DosePercent(d)})
		if method != blend.ByPour {
			amount := wording.DoseText(t, d)
			if method == blend.ByStock && d.Percent > 0 && !d.None() {
				amount += " " + t.Stocks[d.Stock].Label
			}
			row = append(row, field{x + " " + string(t.DoseUnit()), amount})
		}
		row = append(row, field{x + " comes to", quantity.Fixed(d.GotPercent, 2)}, field{"±", wording.DosePlusMinus(d)})
	}
	return row
}

// mixes is what is to be mixed to serve the cups.
func mixes(t *blend.Test) *grid {
	g := &grid{align: "llrrrr"}
	add := func(letter, glaze, dry, water string, ml, needML float64) {
		if ml > 0 {
			g.add(letter, glaze, dry, water, "= "+quantity.VolumeText(ml)+" mL", "("+quantity.VolumeText(needML)+" mL needed)")
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
func Methods(a blend.Advice) string {
	if a.Planned.Worst == 0 {
		return ""
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
	return p.String()
}
