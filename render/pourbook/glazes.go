package pourbook

import (
	"fmt"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/render/xlsx"
)

// slipRows is where things stand on the sheet of slips, by row from 1. A
// column there is an end, or the material of a series that goes into the cups
// by itself: what a cup is made of.
type slipRows struct {
	sg, solids, dry, water int
	percents               int // first of k, where slips have additions of a series in them
	over, holds            int // additions with 1 g of recipe; recipe in 1 mL
	unit, cup, need, fit   int
	densities              int // first of k, where slips have additions of a series in them
	weighed                int // first of k, there too: with 1 g of recipe, as weighed

	recipes, additions []string // materials
	oxideList          []oxide.Oxide
	fluxes             []oxide.Oxide // those of R2O + RO
}

func (b *pourBook) slipRowsOf() slipRows {
	var r slipRows
	next := firstRow
	take := func(n int) int { next += n; return next - n }
	r.sg, r.solids, r.dry, r.water = take(1), take(1), take(1), take(1)
	if b.k > 0 {
		if b.doses == 0 {
			r.percents, r.densities = take(b.k), take(b.k)
		}
	}
	r.over, r.holds = take(1), take(1)
	r.unit, r.cup, r.need, r.fit = take(1), take(1), take(1), take(1)
	if b.k > 0 && b.doses == 0 {
		r.weighed = take(b.k)
	}
	r.recipes, r.additions = b.materials()
	r.oxideList = b.oxides()
	options := oxide.Options{ColourantsInUnity: b.t.Plan.Chemistry.ColourantsInUnity}
	for _, o := range r.oxideList {
		if inUnity(o, options) {
			r.fluxes = append(r.fluxes, o)
		}
	}
	return r
}

// materials are those of the recipes and those of the additions, each once, in
// the order of the ends and then of the series.
func (b *pourBook) materials() (recipes, additions []string) {
	seen := [2]map[string]bool{{}, {}}
	add := func(list []string, kind int, name string) []string {
		if seen[kind][name] {
			return list
		}
		seen[kind][name] = true
		return append(list, name)
	}
	for _, e := range b.t.Ends {
		for _, p := range e.Recipe {
			recipes = add(recipes, 0, p.Material)
		}
		for _, p := range e.Additions {
			additions = add(additions, 1, p.Material)
		}
	}
	for s := range b.doses {
		additions = add(additions, 1, b.t.Plan.Blend.Series[s].Material)
	}
	return recipes, additions
}

// slipSpan is a row of the sheet of slips, its first n columns.
func (b *pourBook) slipSpan(row, n int) string { return across("Slips!", 1, n, fmt.Sprint(row)) }

// slipCell is a cell of the sheet of slips.
func slipCell(column, row int) string {
	return fmt.Sprintf("Slips!$%s$%d", xlsx.Letters(1+column), row)
}

// slipValue is a cell of the sheet of slips: a formula and its value, or the
// value alone.
type slipValue struct {
	formula string
	value   float64
	name    string      // defined for the cell
	format  xlsx.Format // "" for that of the row
}

// slipLabel is the width of the labels of slips, in digits.
const slipLabel = 50

// writeSlips writes the sheet of what is poured: what follows from gravity and
// solids, and what the dry matter is made of.
func (b *pourBook) writeSlips() {
	t, s, r := b.t, b.slips, b.rows
	s.Title("Slips")
	g := grid{sheet: s, columns: []column{{head: "", width: slipLabel}}}
	for e := range b.q {
		g.add(column{head: b.endHead(e), width: 16})
	}
	for i := range b.doses {
		g.add(column{head: t.Plan.Blend.Series[i].Material + "\n(dry)", width: 16})
	}
	g.writeRemark("What the cups are filled with. Specific gravity and solids are set on the sheet Inputs.")
	g.writeHeads()
	s.Page.HeadRows = [2]int{headRow, headRow}
	s.Freeze(1, headRow)

	none := func(int) *slipValue { return nil }
	b.slipRow("Specific gravity", xlsx.AtLeast(2), func(e int) *slipValue { return b.slipSG(e) }, none)
	b.slipRow("Solids, g/mL", xlsx.AtLeast(2), func(e int) *slipValue { return b.slipSolids(e) }, func(i int) *slipValue {
		return &slipValue{value: t.SeriesDensity(i), name: fmt.Sprintf("Density_%d", i+1)}
	})
	b.slipRow("Dry matter, g per mL of slip", xlsx.Decimals(4), func(e int) *slipValue {
		f := fmt.Sprintf("(%[1]s-1)*%[2]s/(%[2]s-1)", of("SG", e), of("Solids", e))
		return &slipValue{formula: f, value: t.Ends[e].DryPerML, name: of("Dry", e)}
	}, none)
	b.slipRow("Water, g per g dry", xlsx.Decimals(4), func(e int) *slipValue {
		f := fmt.Sprintf("(%[2]s-%[1]s)/(%[2]s*(%[1]s-1))", of("SG", e), of("Solids", e))
		return &slipValue{formula: f, value: t.Ends[e].WaterPerG, name: of("Water", e)}
	}, none)
	if b.k > 0 {
		b.writeSeries(none)
	}
	b.slipRow("Additions, g with 1 g of recipe", xlsx.Decimals(4), func(e int) *slipValue {
		v := &slipValue{value: t.Ends[e].Over, name: of("Over", e)}
		if b.k > 0 && b.doses == 0 {
			c := xlsx.Letters(1 + e)
			v.formula = fmt.Sprintf("%s+SUM(%s%d:%s%d)/100", xlsx.Literal(t.Base().Over), c, b.rows.percents, c, b.rows.percents+b.k-1)
		}
		return v
	}, none)
	b.slipRow("Dry glaze by its recipe, g per mL", xlsx.Decimals(4), func(e int) *slipValue {
		return &slipValue{formula: of("Dry", e) + "/(1+" + of("Over", e) + ")", value: t.Ends[e].RecipePerML, name: of("Holds", e)}
	}, none)
	b.slipRow("mL for a unit of share", xlsx.Decimals(4), func(e int) *slipValue {
		ml, _ := t.PerShare(e)
		return &slipValue{formula: b.unitFormula(e), value: ml, name: of("Unit", e)}
	}, none)
	b.slipRow("Cup size for a unit of share", xlsx.Decimals(4), func(e int) *slipValue {
		_, cup := t.PerShare(e)
		return &slipValue{formula: b.cupFormula(e), value: cup}
	}, none)
	b.slipRow("All cups take, mL per unit of cup size", xlsx.Decimals(4), func(e int) *slipValue {
		sum := 0.0
		for _, c := range t.Cells {
			sum += c.Pours[e].ML
		}
		cups := len(t.Cells)
		f := fmt.Sprintf("%s*SUMPRODUCT(%s,%s)", of("Unit", e), rowsOf("Pours!", b.at.share+e, cups), rowsOf("Working!", b.at.inverse, cups))
		return &slipValue{formula: f, value: sum / t.Plan.Cup.Size}
	}, none)
	b.fitRow()

	if b.k > 0 && b.doses == 0 {
		b.writeWeighed(none)
	}

	s.SkipRows(1)
	b.slipHead("Made of, g of each material with 1 g of recipe as it is weighed")
	made := s.LastRow() + 1
	for k, m := range r.recipes {
		b.madeRow(m, nameOf("Recipe", k), m, false)
	}
	for k, m := range r.additions {
		b.madeRow("+ "+m, nameOf("Addition", k), m, true)
	}
	b.dryRow("Dry matter", "Dry_part", 4, func(i int) (string, float64) {
		if i >= b.q {
			return "", 1
		}
		c := xlsx.Letters(1 + i)
		return fmt.Sprintf("SUM(%[1]s%[2]d:%[1]s%[3]d)", c, made, made+len(r.recipes)+len(r.additions)-1), b.dryPart(i)
	})
	b.writeFired(made)
}

// writeSeries writes what a series adds to the slips.
func (b *pourBook) writeSeries(none func(int) *slipValue) {
	t := b.t
	if b.doses == 0 {
		for i, series := range t.Plan.Blend.Series {
			b.slipRow(series.Material+", % of the recipe", xlsx.General, func(e int) *slipValue {
				p := t.Ends[e].Percents[i]
				return &slipValue{value: p, format: xlsx.PercentFormat(p, blend.PercentText(p))}
			}, none)
		}
		for i, series := range t.Plan.Blend.Series {
			b.slipRow("Grains of "+series.Material+", g/mL", xlsx.AtLeast(2), func(e int) *slipValue {
				if e > 0 {
					return nil
				}
				return &slipValue{value: t.SeriesDensity(i), name: fmt.Sprintf("Density_%d", i+1)}
			}, none)
		}
	}
}

// writeWeighed writes how much of the materials of a series the end glazes hold
// as they are weighed.
func (b *pourBook) writeWeighed(none func(int) *slipValue) {
	t := b.t
	for i, series := range t.Plan.Blend.Series {
		b.slipRow(series.Material+" as weighed, g with 1 g of recipe", xlsx.Decimals(4), func(e int) *slipValue {
			v := &slipValue{value: t.SeriesMade(e, i)}
			if p := t.Ends[e].Percents[i]; p != 0 {
				v.formula = b.partOf(e, p/100, t.SeriesPart(e, i))
			}
			return v
		}, none)
	}
}

// dryPart is the dry matter with 1 g of recipe of a column of the sheet of
// slips, as it is weighed.
func (b *pourBook) dryPart(i int) float64 {
	if i >= b.q {
		return 1
	}
	sum := 1.0
	_, over := b.t.Made(i)
	for _, p := range over {
		sum += p.Amount
	}
	return sum
}

// slipRow writes a row with a value for each end and for each dose.
func (b *pourBook) slipRow(label string, format xlsx.Format, end, dose func(int) *slipValue) {
	s := b.slips
	row := s.TallRow(xlsx.LineHeight(label, slipLabel))
	s.Text(xlsx.Label, label)
	for i := range b.q + b.doses {
		var v *slipValue
		if i < b.q {
			v = end(i)
		} else {
			v = dose(i - b.q)
		}
		if v == nil {
			s.Skip(1)
			continue
		}
		if v.name != "" {
			b.Define(v.name, s.At(s.Column(), row))
		}
		format := format
		if v.format != "" {
			format = v.format
		}
		if v.formula == "" {
			s.Number(xlsx.Given, format, v.value)
		} else {
			s.Formula(xlsx.Worked, format, v.formula, v.value)
		}
	}
}

// madeRow writes how much of a material the dry matter of each column holds.
func (b *pourBook) madeRow(label, name, material string, addition bool) {
	b.dryRow(label, name, 4, func(i int) (string, float64) { return b.fraction(i, material, addition) })
}

// dryRow writes a row, under a name, of what a gram of the dry matter of each
// column brings, with so many digits after the point: a formula and its value,
// or the value alone. Nought is a dash.
func (b *pourBook) dryRow(label, name string, digits int, of func(i int) (formula string, value float64)) {
	s := b.slips
	row := s.TallRow(xlsx.LineHeight(label, slipLabel))
	b.Define(name, s.Range(1, row, b.q+b.doses, row))
	s.Text(xlsx.Label, label)
	format := xlsx.WithNought(xlsx.Decimals(digits), "–")
	for i := range b.q + b.doses {
		if formula, x := of(i); formula != "" {
			s.Formula(xlsx.Worked, format, formula, x)
		} else {
			s.Number(xlsx.Given, format, x)
		}
	}
}

func (b *pourBook) slipHead(text string) {
	b.slips.TallRow(20)
	b.slips.Text(xlsx.Section, text)
	for range b.q + b.doses {
		b.slips.Text(xlsx.Section, "")
	}
}

// slipSG is the gravity of an end: an input, or what additions stirred into
// the base make of it, whose water per gram of base stays.
func (b *pourBook) slipSG(e int) *slipValue {
	v := &slipValue{value: b.t.Ends[e].SG}
	switch {
	case b.k == 0:
		v.formula = of("SG", e)
		return v
	case b.doses > 0:
		v.formula = "SG_base"
	default:
		water := fmt.Sprintf("(Solids_base-SG_base)/(Solids_base*(SG_base-1))*%s/(1+%s)", xlsx.Literal(1+b.t.Base().Over), of("Over", e))
		v.formula = fmt.Sprintf("(1+%[1]s)/(1/%[2]s+%[1]s)", water, of("Solids", e))
	}
	v.name = of("SG", e)
	return v
}

// slipSolids is the density of an end's solids; those of additions stirred in
// add their volume.
func (b *pourBook) slipSolids(e int) *slipValue {
	v := &slipValue{value: b.t.Ends[e].Solids}
	switch {
	case b.k == 0:
		v.formula = of("Solids", e)
		return v
	case b.doses > 0:
		v.formula = "Solids_base"
	default:
		volume := xlsx.Literal(1+b.t.Base().Over) + "/Solids_base"
		for i := range b.k {
			volume += fmt.Sprintf("+%s%d/100/Density_%d", xlsx.Letters(1+e), b.rows.percents+i, i+1)
		}
		v.formula = "(1+" + of("Over", e) + ")/(" + volume + ")"
	}
	v.name = of("Solids", e)
	return v
}

// unitFormula is the mL of a unit of share: blend.Test.PerShare.
func (b *pourBook) unitFormula(e int) string {
	switch {
	case b.k > 0:
		return "1/" + of("Holds", e)
	case b.t.Plan.Blend.Basis == blend.Volume:
		return "1"
	case b.t.Plan.Blend.Basis == blend.Weight:
		return "1/" + of("SG", e)
	}
	return "1/" + of("Holds", e)
}

// cupFormula is what a unit of share brings of what the cup's size counts.
func (b *pourBook) cupFormula(e int) string {
	if b.k > 0 { // a unit is a gram of the base's recipe
		dry := fmt.Sprintf("((SG_base-1)*Solids_base/(Solids_base-1)/%s)", xlsx.Literal(1+b.t.Base().Over))
		switch b.t.Plan.Cup.Of {
		case blend.Volume:
			return "1/" + dry
		case blend.Weight:
			return "SG_base/" + dry
		}
		return "1"
	}
	unit := b.slipCellOf(e, b.rows.unit)
	switch b.t.Plan.Cup.Of {
	case blend.Volume:
		return unit
	case blend.Weight:
		return unit + "*" + of("SG", e)
	}
	return unit + "*" + of("Holds", e)
}

func (b *pourBook) slipCellOf(e, row int) string { return xlsx.Letters(1+e) + fmt.Sprint(row) }

// fitRow writes the cup size that a batch allows which was really mixed, by
// exact pours: what stays in the jug and is lost at each pour is taken off first.
func (b *pourBook) fitRow() {
	s := b.slips
	s.Row()
	s.Text(xlsx.Label, "Cup size by what was really mixed, before rounding")
	for e := range b.q {
		if b.poured[e] == 0 {
			s.Skip(1)
			continue
		}
		s.TextFormula(xlsx.Worked, fmt.Sprintf(`IF(%[1]s>0,MAX(0,(%[1]s-Dead-Loss*%[2]d)/%[3]s),"")`,
			of("Mixed", e), b.poured[e], b.slipCellOf(e, b.rows.need)), "")
	}
}

// fraction is how much of a material comes with a gram of recipe of a column of
// the sheet of slips.
func (b *pourBook) fraction(i int, material string, addition bool) (formula string, value float64) {
	if i >= b.q {
		if addition && b.t.Plan.Blend.Series[i-b.q].Material == material {
			return "", 1
		}
		return "", 0
	}
	e := b.t.Ends[i]
	asked, first := e.Recipe, 0
	made, over := b.t.Made(i)
	if addition {
		asked, made, first = e.Additions, over, len(e.Recipe)
	}
	var parts []int
	exact := 0.0
	for k, p := range asked {
		if p.Material == material {
			parts = append(parts, first+k)
			exact += p.Amount / 100
			value += made[k].Amount
		}
	}
	return b.partOf(i, exact, parts...), value
}
