package pourbook

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/render/xlsx"
)

// A value is a formula and what it comes to, or the value alone.
type value struct {
	formula string
	value   float64
}

// glazeRow writes a row of the sheet Working with a value for each end glaze, and
// returns its number.
func (b *pourBook) glazeRow(label string, of func(e int) value) int {
	s := b.working.Sheet
	at := s.TallRow(xlsx.LineHeight(label, workingLabel))
	s.Text(xlsx.Label, label)
	for e := range b.q {
		if v := of(e); v.formula == "" {
			s.Number(xlsx.Given, orDash(xlsx.General), v.value)
		} else {
			s.Formula(xlsx.Worked, xlsx.General, b.resolve(v.formula, &b.working), v.value)
		}
	}
	return at
}

// namedRow is glazeRow with a name for the row, by which formulas add up what is of
// each end glaze.
func (b *pourBook) namedRow(name, label string, of func(e int) value) {
	at := b.glazeRow(label, of)
	b.Define(name, b.working.Range(1, at, b.q, at))
}

// workingHeads writes the heads of a table below the first one of the sheet
// Working, in a row that is high enough for them.
func (b *pourBook) workingHeads(heads []string) {
	height := xlsx.LineHeight(heads[0], workingLabel)
	for i, head := range heads[1:] {
		height = max(height, xlsx.LineHeight(head, b.working.columns[min(i+1, len(b.working.columns)-1)].width))
	}
	b.working.TallRow(height)
	for _, head := range heads {
		b.working.Text(xlsx.Head, head)
	}
}

// writeGlazes writes what follows from the gravity of each glaze, and what its
// dry matter is made of as it is weighed. Cells are named SG_1 and so on, and rows
// SG_all. A cell SG_1 that is an input stays that one: its row here shows it alone.
func (b *pourBook) writeGlazes() {
	t, s := b.t, b.working.Sheet
	s.SkipRow()
	heads := []string{"Glaze"}
	for e := range b.q {
		heads = append(heads, b.endHead(e))
	}
	b.workingHeads(heads)
	row := func(what, label string, of func(e int) value) {
		at := b.glazeRow(label, of)
		for e := range b.q {
			if cell := name(what, e); !b.isInput(cell) {
				b.Define(cell, s.At(1+e, at))
			}
		}
		b.Define(what+"_all", s.Range(1, at, b.q, at))
	}
	// Of a glaze of which only the mL are known these rows show a dash.
	known := func(what, label string, formula func(e int) string, of func(blend.End) float64) {
		row(what, label, func(e int) value {
			if b.volumeOnly(t.Ends[e]) {
				return value{}
			}
			return value{formula(e), of(t.Ends[e])}
		})
	}
	ofSolids := func(rule func(sg, solids string) string) func(e int) string {
		return func(e int) string { return rule(name("SG", e), name("Solids", e)) }
	}
	known("SG", "SG", b.sg, func(e blend.End) float64 { return e.SG })
	known("Solids", "Solids, g/mL", b.solids, func(e blend.End) float64 { return e.Solids })
	row("Over", "Additions, g with 1 g of recipe", func(e int) value { return value{"", t.Ends[e].Over} })
	known("Holds", "Dry glaze by its recipe, g per mL", func(e int) string {
		return ofSolids(dryPerML)(e) + "/(1+" + name("Over", e) + ")"
	}, func(e blend.End) float64 { return e.RecipePerML })
	known("Water", "Water, g per g dry", ofSolids(waterPerG), func(e blend.End) float64 { return e.WaterPerG })
	row("Unit", "mL for a unit of share", func(e int) value {
		ml, _ := t.PerShare(e)
		return value{b.unit(e), ml}
	})
	row("Size", "Cup size for a unit of share", func(e int) value {
		_, size := t.PerShare(e)
		return value{b.size(e), size}
	})
	row("Factor", "Share in a unit poured", func(e int) value {
		formula := "1/" + name("Unit", e)
		if b.scale {
			formula += "/" + name("SG", e)
		}
		return value{formula, b.factor(e)}
	})
	if b.slots > 1 {
		row("Takes", "All cups take, mL per unit of cup size", func(e int) value {
			sum := 0.0
			for _, c := range t.Cells {
				sum += c.Pours[e].ML
			}
			return value{b.takes(e), sum / t.Plan.Cup.Size.Value}
		})
	}
	for i, series := range t.Plan.Blend.Series {
		if b.blended() {
			b.writeBrought(i, series.Material)
		}
		b.value(name("Density", i), "g/mL, "+series.Material, xlsx.Literal(t.Densities[i]), t.Densities[i])
	}
	if b.weigh {
		b.writeMaterialParts()
	}
}

// sg is the formula for the gravity of an end glaze: an input, or what colourants
// stirred into the base make of it, whose water per gram of recipe stays.
func (b *pourBook) sg(e int) string {
	if !b.blended() {
		return name("SG", e)
	}
	over := xlsx.Literal(1 + b.t.Base.Over)
	water := fmt.Sprintf("%s*%s/(1+%s)", waterPerG("SG_base", "Solids_base"), over, name("Over", e))
	return mixedSG(water, name("Solids", e))
}

// solids is the formula for the density of an end glaze's solids.
func (b *pourBook) solids(e int) string {
	if !b.blended() {
		return name("Solids", e)
	}
	volume := xlsx.Literal(1+b.t.Base.Over) + "/Solids_base"
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
		sg, holds = "SG_base", "("+dryPerML("SG_base", "Solids_base")+"/"+xlsx.Literal(1+b.t.Base.Over)+")"
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

// volumeOnly reports whether nothing but the volume of an end glaze is known: a
// bought one without SG. Nothing rests on its grams, unless cups are thinned alike.
func (b *pourBook) volumeOnly(e blend.End) bool {
	return e.Bucket && e.Assumed && !b.t.Plan.Cup.Even
}
