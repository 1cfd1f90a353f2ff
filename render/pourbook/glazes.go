package pourbook

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/render/xlsx"
)

// A value is a formula and what it comes to, or the value alone.
type value struct {
	formula string
	value   float64
}

// glazeRow writes a row of the sheet Working with a value for each end glaze, and
// for each colourant that is dosed: what a cup is made of. Cells are named
// NAME_1 and so on where cells is set, but for those that are inputs; the row is
// named as row says.
func (b *pourBook) glazeRow(label, cells, row string, end, dose func(int) value) {
	s := b.working.Sheet
	at := s.TallRow(xlsx.LineHeight(label, workingLabel))
	s.Text(xlsx.Label, label)
	for i := range b.q + b.doses {
		v := value{}
		switch {
		case i < b.q:
			v = end(i)
			if cells != "" && !b.isInput(name(cells, i)) {
				b.Define(name(cells, i), s.At(1+i, at))
			}
		case dose == nil:
			s.Skip(1)
			continue
		default:
			v = dose(i - b.q)
		}
		if v.formula == "" {
			s.Number(xlsx.Given, xlsx.WithNought(xlsx.General, "–"), v.value)
		} else {
			s.Formula(xlsx.Worked, xlsx.General, b.resolve(v.formula, &b.working), v.value)
		}
	}
	if row != "" {
		b.Define(row, s.Range(1, at, b.q+b.doses, at))
	}
}

func nothing(int) value { return value{} }

// workingHeads writes the heads of a table below the first one of the sheet
// Working, in a row that is high enough for them.
func (b *pourBook) workingHeads(heads []string) {
	height := 0.0
	for i, head := range heads {
		width := float64(workingLabel)
		if i > 0 {
			width = b.working.columns[min(i, len(b.working.columns)-1)].width
		}
		height = max(height, xlsx.LineHeight(head, width))
	}
	b.working.TallRow(height)
	for _, head := range heads {
		b.working.Text(xlsx.Head, head)
	}
}

// writeGlazes writes what follows from the gravity of each glaze, and what its
// dry matter is made of as it is weighed.
func (b *pourBook) writeGlazes() {
	t, s := b.t, b.working.Sheet
	s.SkipRows(1)
	heads := []string{"Glaze"}
	for e := range b.q {
		heads = append(heads, b.endHead(e))
	}
	for i := range b.doses {
		heads = append(heads, t.Plan.Blend.Series[i].Material)
	}
	b.workingHeads(heads)
	// Of a glaze of which only the mL are known these rows show a dash.
	known := func(v value, e int) value {
		if b.volumeOnly(t.Ends[e]) {
			return value{}
		}
		return v
	}
	b.glazeRow("SG", "SG", "SG_all", func(e int) value { return known(value{b.sg(e), t.Ends[e].SG}, e) }, nil)
	b.glazeRow("Solids, g/mL", "Solids", "", func(e int) value { return known(value{b.solids(e), t.Ends[e].Solids}, e) }, nil)
	b.glazeRow("Additions, g with 1 g of recipe", "Over", "", func(e int) value { return value{"", t.Ends[e].Over} }, nil)
	b.glazeRow("Dry glaze by its recipe, g per mL", "Holds", "Holds_all", func(e int) value {
		return known(value{fmt.Sprintf("(%[1]s-1)*%[2]s/(%[2]s-1)/(1+%[3]s)", name("SG", e), name("Solids", e), name("Over", e)), t.Ends[e].RecipePerML}, e)
	}, nil)
	b.glazeRow("Water, g per g dry", "Water", "", func(e int) value {
		return known(value{fmt.Sprintf("(%[2]s-%[1]s)/(%[2]s*(%[1]s-1))", name("SG", e), name("Solids", e)), t.Ends[e].WaterPerG}, e)
	}, nil)
	b.glazeRow("mL for a unit of share", "Unit", "Unit_all", func(e int) value {
		ml, _ := t.PerShare(e)
		return value{b.unit(e), ml}
	}, nil)
	b.glazeRow("Cup size for a unit of share", "Size", "Size_all", func(e int) value {
		_, size := t.PerShare(e)
		return value{b.size(e), size}
	}, nil)
	if b.slots > 1 {
		b.glazeRow("All cups take, mL per unit of cup size", "Takes", "", func(e int) value {
			sum := 0.0
			for _, c := range t.Cells {
				sum += c.Pours[e].ML
			}
			return value{b.takes(e), sum / t.Plan.Cup.Size.Value}
		}, nil)
	}
	b.glazeRow("Share in a unit poured", "Factor", "Factor_all", func(e int) value {
		formula := "1/" + name("Unit", e)
		if b.scale {
			formula += "/" + name("SG", e)
		}
		return value{formula, b.factor(e)}
	}, nil)
	for i, series := range t.Plan.Blend.Series {
		if b.blended() {
			b.writeBrought(i, series.Material)
		}
		b.value(name("Density", i), "g/mL, "+series.Material, xlsx.Literal(t.SeriesDensity(i)), t.SeriesDensity(i))
	}
	b.writeMade()
}

// sg is the formula for the gravity of an end glaze: an input, or what colourants
// stirred into the base make of it, whose water per gram of recipe stays.
func (b *pourBook) sg(e int) string {
	if !b.blended() {
		return name("SG", e)
	}
	water := fmt.Sprintf("(Solids_base-SG_base)/(Solids_base*(SG_base-1))*%s/(1+%s)", xlsx.Literal(1+b.t.Base().Over), name("Over", e))
	return fmt.Sprintf("(1+%[1]s)/(1/%[2]s+%[1]s)", water, name("Solids", e))
}

// solids is the formula for the density of an end glaze's solids.
func (b *pourBook) solids(e int) string {
	if !b.blended() {
		return name("Solids", e)
	}
	volume := xlsx.Literal(1+b.t.Base().Over) + "/Solids_base"
	for i, p := range b.t.Ends[e].Percents {
		volume += "+" + xlsx.Literal(p/100) + "/" + name("Density", i)
	}
	return "(1+" + name("Over", e) + ")/(" + volume + ")"
}

// unit is the formula for the mL of a unit of share: blend.Test.PerShare.
func (b *pourBook) unit(e int) string {
	switch {
	case b.k > 0:
	case b.t.Plan.Blend.Basis == blend.Volume:
		return "1"
	case b.t.Plan.Blend.Basis == blend.Weight:
		return "1/" + name("SG", e)
	}
	return "1/" + name("Holds", e)
}

// size is the formula for what a unit of share brings of what the cup's size
// counts. In a series a unit is a gram of the base's recipe.
func (b *pourBook) size(e int) string {
	unit, sg, holds := name("Unit", e), name("SG", e), name("Holds", e)
	if b.blended() {
		sg, holds = "SG_base", fmt.Sprintf("((SG_base-1)*Solids_base/(Solids_base-1)/%s)", xlsx.Literal(1+b.t.Base().Over))
		unit = "1/" + holds
	}
	switch b.t.Plan.Cup.Size.Of {
	case blend.Volume:
		return unit
	case blend.Weight:
		return unit + "*" + sg
	}
	return unit + "*" + holds
}

// takes is the formula for the mL that all cups take of an end glaze in a unit of
// cup size.
func (b *pourBook) takes(e int) string {
	if !b.pairs() {
		return fmt.Sprintf("%s*SUMPRODUCT({share%d[]},{units[]})", name("Unit", e), e+1)
	}
	var sum []string
	for s := range b.slots {
		sum = append(sum, fmt.Sprintf("SUMPRODUCT(({end%[1]d[]}=%[2]d)*{share%[1]d[]}*{units[]})", s+1, e+1))
	}
	return name("Unit", e) + "*(" + strings.Join(sum, "+") + ")"
}

// writeBrought writes what the end glazes hold of a colourant as they are
// weighed, and how far off that can be.
func (b *pourBook) writeBrought(i int, material string) {
	t := b.t
	b.glazeRow(material+" as weighed, g with 1 g of recipe", "", name("Brings", i), func(e int) value {
		v := value{"", t.SeriesMade(e, i) / 100}
		if p := t.Ends[e].Percents[i]; p != 0 {
			v.formula = b.partOf(e, p/100, t.SeriesPart(e, i))
		}
		return v
	}, nil)
	b.glazeRow(material+", its ± there, relative", "", name("Batch_off", i), func(e int) value {
		if t.Ends[e].Percents[i] == 0 || b.poured[e] == 0 {
			return value{"", 0}
		}
		row := b.weighed[e].first + t.SeriesPart(e, i)
		weigh := fmt.Sprintf("Batches!$C$%d", row)
		cell := fmt.Sprintf("IF(Batches!$%s$%d=1,Fine_step,Scale_step)", xlsx.Letters(apartColumn), row)
		g, step := b.weighed[e].loads[t.SeriesPart(e, i)], t.Plan.Kit.Scale
		if g.apart {
			step = t.Plan.Kit.Fine
		}
		off := 0.0
		if g.g > 0 {
			off = step.Tared() / g.g * t.SeriesMade(e, i) / 100
		}
		return value{fmt.Sprintf("IF(%[1]s>0,%[2]s/%[1]s,0)*INDEX(%[3]s,%[4]d)", weigh, tared(cell), name("Brings", i), e+1), off}
	}, nil)
}

// materials are those of the recipes and those of the additions, each once, in
// the order of the end glazes and then of the series.
func (b *pourBook) materials() (recipes, additions []string) {
	add := func(list []string, parts []blend.Part) []string {
		for _, p := range parts {
			if !slices.Contains(list, p.Material) {
				list = append(list, p.Material)
			}
		}
		return list
	}
	for _, e := range b.t.Ends {
		recipes, additions = add(recipes, e.Recipe), add(additions, e.Additions)
	}
	for _, series := range b.t.Plan.Blend.Series {
		if !b.blended() {
			additions = add(additions, []blend.Part{{Material: series.Material}})
		}
	}
	return recipes, additions
}

// writeMade writes what comes with a gram of recipe of each glaze as it is
// weighed, and what that fires to.
func (b *pourBook) writeMade() {
	recipes, additions := b.materials()
	s := b.working.Sheet
	s.SkipRows(1)
	first := s.LastRow() + 1
	made := func(material string, addition bool) func(i int) value {
		return func(e int) value { return b.fraction(e, material, addition) }
	}
	for k, m := range recipes {
		b.glazeRow(m+", g", "", name("Recipe", k), made(m, false), nothing)
	}
	for k, m := range additions {
		b.glazeRow("+ "+m+", g", "", name("Addition", k), made(m, true), func(i int) value {
			if b.t.Plan.Blend.Series[i].Material == m {
				return value{"", 1}
			}
			return value{}
		})
	}
	last := s.LastRow()
	switch {
	case b.weigh:
		b.writeWeighed()
		return
	}
	column := func(i int) string { return fmt.Sprintf("%[1]s$%[2]d:%[1]s$%[3]d", xlsx.Letters(1+i), first, last) }
	b.glazeRow("Dry matter, g", "", "Dry_part", func(e int) value {
		if b.t.Ends[e].Bucket {
			return value{"", 1}
		}
		return value{"SUM(" + column(e) + ")", b.dryPart(e)}
	}, func(int) value { return value{"", 1} })
	if last < first { // nothing has a recipe
		return
	}
	b.writeFired(slices.Concat(recipes, additions), len(recipes), column)
}

// bucket reports whether an end glaze has no recipe.
func bucket(e blend.End) bool { return e.Bucket }

// volumeOnly reports whether nothing but the volume of an end glaze is known: a
// bought one without SG. Nothing rests on its grams, unless cups are thinned alike.
func (b *pourBook) volumeOnly(e blend.End) bool {
	return e.Bucket && e.Assumed && !b.t.Plan.Cup.Even
}

// dryPart is the dry matter with a gram of recipe of an end glaze as weighed.
func (b *pourBook) dryPart(e int) float64 {
	if b.t.Ends[e].Bucket {
		return 0
	}
	return 1 + b.t.Made(e).Over
}

// fraction is how much of a material comes with a gram of recipe of an end glaze.
func (b *pourBook) fraction(e int, material string, addition bool) value {
	end, made := b.t.Ends[e], b.t.Made(e)
	asked, weighed, first := end.Recipe, made.Recipe, 0
	if addition {
		asked, weighed, first = end.Additions, made.Additions, len(end.Recipe)
	}
	var parts []int
	v, exact := value{}, 0.0
	for k, p := range asked {
		if p.Material == material {
			parts = append(parts, first+k)
			exact += p.Percent / 100
			v.value += weighed[k].Percent / 100
		}
	}
	v.formula = b.partOf(e, exact, parts...)
	return v
}

// partOf is the formula for some materials of a batch with a gram of its recipe,
// as they are weighed; exact where nothing is.
func (b *pourBook) partOf(e int, exact float64, materials ...int) string {
	w := b.weighed[e]
	if w.recipe == 0 || materials == nil {
		return ""
	}
	var sum []string
	for _, i := range materials {
		sum = append(sum, fmt.Sprintf("Batches!$C$%d", w.first+i))
	}
	whole := fmt.Sprintf("SUM(Batches!$C$%d:$C$%d)", w.first, w.first+w.recipe-1)
	return fmt.Sprintf("IF(AND(%[1]s=0,%[2]s>0),(%[3]s)/%[2]s,%[4]s)", name("Mixed", e), whole, strings.Join(sum, "+"), xlsx.Literal(exact))
}

// analysis is a column of what a gram of each material fires to, and a row of
// what a gram of each glaze does.
type analysis struct {
	label, name string
	of          func(oxide.Vector) float64
}

// analyse finds the oxides that can be in a cup, and what they come to together.
func (b *pourBook) analyse() {
	var all []analysis
	var oxides []oxide.Oxide
	options := oxide.Options{ColourantsInUnity: b.t.Plan.Chemistry.ColourantsInUnity}
	var fluxes []oxide.Oxide
	for _, o := range oxide.Oxides() {
		place, _ := o.Place()
		if !slices.ContainsFunc(b.t.Materials(), func(m string) bool { v, _ := b.t.MaterialVector(m); return v.G[place] > 0 }) {
			continue
		}
		oxides = append(oxides, o)
		var alone oxide.Vector
		alone.G[place] = 1
		if alone.Chemistry(options).Unity != nil {
			fluxes = append(fluxes, o)
		}
		all = append(all, analysis{string(o), "Oxide_" + string(o), func(v oxide.Vector) float64 { return v.G[place] }})
	}
	mol := func(list []oxide.Oxide) func(oxide.Vector) float64 {
		return func(v oxide.Vector) float64 {
			sum := 0.0
			for _, o := range list {
				place, _ := o.Place()
				sum += v.G[place] / o.MolarMass()
			}
			return sum
		}
	}
	b.oxides = oxides
	b.analyses = append(all,
		analysis{"All oxides", "Fired_part", func(v oxide.Vector) float64 {
			sum := 0.0
			for _, g := range v.G {
				sum += g
			}
			return sum
		}},
		analysis{"All oxides, mol", "Mol_part", mol(oxides)},
		analysis{"R2O + RO, mol", "Flux_part", mol(fluxes)},
		analysis{"Lost on firing", "Loss_part", func(v oxide.Vector) float64 { return v.Loss }})
}

// writeFired writes what each glaze fires to, and below it what 1 g of each
// material does: first is how many are of recipes, column where a glaze's are.
func (b *pourBook) writeFired(materials []string, first int, column func(int) string) {
	t, s := b.t, b.working.Sheet
	all := b.analyses
	lacks := make([]float64, len(materials))
	for i, m := range materials {
		if _, missing := t.MaterialVector(m); missing != nil {
			lacks[i] = 1
		}
	}
	table := s.LastRow() + len(all) + 5 // of the first material
	analysed := func(k int) string {
		c := xlsx.Letters(1 + k)
		return fmt.Sprintf("$%[1]s$%[2]d:$%[1]s$%[3]d", c, table, table+len(materials)-1)
	}
	s.SkipRows(1)
	row := func(label, name string, k int, end, dose func(int) float64) {
		b.glazeRow(label, "", name, func(e int) value {
			if b.t.Ends[e].Bucket {
				return value{"", end(e)}
			}
			return value{"SUMPRODUCT((" + column(e) + ")*" + analysed(k) + ")", end(e)}
		}, func(i int) value {
			return value{"SUMPRODUCT((" + column(b.q+i) + ")*" + analysed(k) + ")", dose(i)}
		})
	}
	for k, a := range all {
		row(a.label, a.name, k, func(e int) float64 {
			v, _ := t.EndVector(e, blend.Measured)
			if missing := b.unanalysed(e); missing > 0 { // the sum of those that are known
				return b.known(e, a)
			}
			return a.of(v) * b.dryPart(e)
		}, func(i int) float64 { v, _ := t.SeriesVector(i); return a.of(v) })
	}
	row("Without analysis", "Unanalysed", len(all), b.unanalysed, func(i int) float64 {
		if _, missing := t.SeriesVector(i); missing != nil {
			return 1
		}
		return 0
	})
	s.SkipRows(1)
	heads := []string{"1 g of"}
	for _, a := range all {
		heads = append(heads, a.label)
	}
	b.workingHeads(append(heads, "Without analysis"))
	for i, m := range materials {
		s.Row()
		if i >= first {
			s.Text(xlsx.Label, "+ "+m)
		} else {
			s.Text(xlsx.Label, m)
		}
		v, _ := t.MaterialVector(m)
		for _, a := range all {
			s.Number(xlsx.Given, xlsx.General, a.of(v))
		}
		s.Number(xlsx.Given, xlsx.General, lacks[i])
	}
}

// known is what the materials of an end glaze that have an analysis come to.
func (b *pourBook) known(e int, a analysis) float64 {
	made, sum := b.t.Made(e), 0.0
	for _, p := range slices.Concat(made.Recipe, made.Additions) {
		v, _ := b.t.MaterialVector(p.Material)
		sum += p.Percent / 100 * a.of(v)
	}
	return sum
}

// unanalysed is how much of an end glaze, g with 1 g of recipe, has no analysis.
func (b *pourBook) unanalysed(e int) float64 {
	made, sum := b.t.Made(e), 0.0
	for _, p := range slices.Concat(made.Recipe, made.Additions) {
		if _, missing := b.t.MaterialVector(p.Material); missing != nil {
			sum += p.Percent / 100
		}
	}
	return sum
}
