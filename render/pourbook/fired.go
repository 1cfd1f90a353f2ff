package pourbook

import (
	"slices"

	"pourboard/blend/oxide"
	"pourboard/render/xlsx"
)

// analysis is a row of what a gram of each material fires to.
type analysis struct {
	label, name string
	of          func(material string) float64
}

// analyse finds the oxides that can be in a cup, which of them are fluxes of the
// unity formula, and what there is to say of each material.
func (b *pourBook) analyse() {
	vectors, missing := map[string]oxide.Vector{}, map[string]bool{}
	for _, m := range b.t.Materials() {
		v, lacks := b.t.Library.MaterialVector(m)
		vectors[m], missing[m] = v, lacks != nil
	}
	add := func(label, name string, of func(oxide.Vector) float64) {
		b.analyses = append(b.analyses, analysis{label, name, func(m string) float64 { return of(vectors[m]) }})
	}
	options := oxide.Options{ColourantsInUnity: b.t.Plan.Chemistry.ColourantsInUnity}
	for _, o := range oxide.Oxides() {
		place, _ := o.Place()
		grams := func(v oxide.Vector) float64 { return v.G[place] }
		if !slices.ContainsFunc(b.t.Materials(), func(m string) bool { return grams(vectors[m]) > 0 }) {
			continue
		}
		b.oxides = append(b.oxides, o)
		add(string(o), "Oxide_"+string(o), grams)
		var alone oxide.Vector
		alone.G[place] = 1
		if alone.Chemistry(options).Unity != nil {
			b.fluxes = append(b.fluxes, o)
		}
	}
	add("All oxides", "Fired_part", func(v oxide.Vector) (sum float64) {
		for _, g := range v.G {
			sum += g
		}
		return sum
	})
	add("All oxides, mol", "Mol_part", func(v oxide.Vector) float64 { return mol(v, b.oxides) })
	add("R2O + RO, mol", "Flux_part", func(v oxide.Vector) float64 { return mol(v, b.fluxes) })
	add("Lost on firing", "Loss_part", func(v oxide.Vector) float64 { return v.Loss })
	b.analyses = append(b.analyses, analysis{"Without analysis", "Unanalysed", func(m string) float64 {
		if missing[m] {
			return 1
		}
		return 0
	}})
}

// mol is the mol of some oxides in a gram.
func mol(v oxide.Vector, list []oxide.Oxide) (sum float64) {
	for _, o := range list {
		place, _ := o.Place()
		sum += v.G[place] / o.MolarMass()
	}
	return sum
}

// writeFired writes what 1 g of each material that can be in a cup fires to, in the
// order of the columns that say how much of it there is.
func (b *pourBook) writeFired() {
	s, heads := b.working.Sheet, []string{"1 g of"}
	for _, m := range b.dry {
		heads = append(heads, materialHead(m))
	}
	s.SkipRow()
	b.workingHeads(heads)
	for _, a := range append([]analysis{{"Dry matter, g", "Dry_matter", func(string) float64 { return 1 }}}, b.analyses...) {
		at := s.Row()
		s.Text(xlsx.Label, a.label)
		for _, m := range b.dry {
			s.Number(xlsx.Given, xlsx.General, a.of(m.Material))
		}
		b.Define(a.name, s.Range(1, at, len(b.dry), at))
	}
}
