package pourbook

import (
	"fmt"
	"slices"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/render/xlsx"
)

// writeFired writes what the slips fire to: of each material what it is made
// of, times the oxides of that, which stand on the sheet Working.
func (b *pourBook) writeFired(made int) {
	s, r := b.slips, b.rows
	s.SkipRows(1)
	b.slipHead("Fires to, g of each oxide from 1 g of recipe with its additions")
	unanalysed := s.LastRow() + len(r.oxideList) + 5
	n := len(r.recipes) + len(r.additions)
	columns := b.analyses()
	sum := func(i, column int) string {
		c, a := xlsx.Letters(1+i), xlsx.Letters(1+column)
		return fmt.Sprintf("IF(%[1]s%[2]d>0,0,SUMPRODUCT(%[1]s%[3]d:%[1]s%[4]d,Working!$%[5]s$%[6]d:$%[5]s$%[7]d))",
			c, unanalysed, made, made+n-1, a, b.analysisRow(), b.analysisRow()+n-1)
	}
	for k, x := range columns[:len(columns)-1] {
		b.dryRow(x.label, x.name, 4, func(i int) (string, float64) {
			v := b.part(i, blend.Measured)
			if i >= b.q {
				return "", x.value(v)
			}
			return sum(i, k), x.value(v) * b.dryPart(i)
		})
	}
	b.dryRow("Materials without analysis", "Unanalysed", 0, func(i int) (string, float64) {
		count := 0.0
		for k, m := range slices.Concat(r.recipes, r.additions) {
			if _, x := b.fraction(i, m, k >= len(r.recipes)); x > 0 {
				count += b.lacks(m)
			}
		}
		if i >= b.q {
			return "", count
		}
		c, a := xlsx.Letters(1+i), xlsx.Letters(len(columns))
		return fmt.Sprintf("SUMPRODUCT((%[1]s%[2]d:%[1]s%[3]d>0)*Working!$%[4]s$%[5]d:$%[4]s$%[6]d)",
			c, made, made+n-1, a, b.analysisRow(), b.analysisRow()+n-1), count
	})
}

// analysis is a column of what a gram of each material fires to, and a row of
// what a gram of each slip does.
type analysis struct {
	label, name string
	value       func(oxide.Vector) float64
}

// analyses are what is known of materials; the last is whether there is no
// analysis.
func (b *pourBook) analyses() []analysis {
	var all []analysis
	for _, o := range b.rows.oxideList {
		place, _ := o.Place()
		all = append(all, analysis{string(o), "Oxide_" + string(o), func(v oxide.Vector) float64 { return v.G[place] }})
	}
	return append(all,
		analysis{"All oxides", "Fired_part", func(v oxide.Vector) float64 {
			sum := 0.0
			for _, g := range v.G {
				sum += g
			}
			return sum
		}},
		analysis{"All oxides, mol", "Mol_part", b.allMol},
		analysis{"R2O + RO, mol", "Flux_part", b.fluxMol},
		analysis{"Lost on firing", "Loss_part", func(v oxide.Vector) float64 { return v.Loss }},
		analysis{label: "No analysis"})
}

// lacks is 1 for a material without analysis.
func (b *pourBook) lacks(material string) float64 {
	if _, missing := b.t.MaterialVector(material); missing != nil {
		return 1
	}
	return 0
}

// part is the oxides of a column of the sheet of slips.
func (b *pourBook) part(i int, which blend.Which) oxide.Vector {
	if i < b.q {
		v, _ := b.t.EndVector(i, which)
		return v
	}
	v, _ := b.t.SeriesVector(i - b.q)
	return v
}

// oxides are those that can be in a cup, in printing order.
func (b *pourBook) oxides() []oxide.Oxide {
	var all []oxide.Oxide
	for _, o := range oxide.Oxides() {
		place, _ := o.Place()
		for i := range b.q + b.doses {
			if b.part(i, blend.Asked).G[place] > 0 {
				all = append(all, o)
				break
			}
		}
	}
	return all
}

// allMol is all oxides in mol.
func (b *pourBook) allMol(v oxide.Vector) float64 { return mol(v, b.rows.oxideList) }

// fluxMol is R2O + RO in mol.
func (b *pourBook) fluxMol(v oxide.Vector) float64 { return mol(v, b.rows.fluxes) }

func mol(v oxide.Vector, oxides []oxide.Oxide) float64 {
	sum := 0.0
	for _, o := range oxides {
		place, _ := o.Place()
		sum += v.G[place] / o.MolarMass()
	}
	return sum
}

// inUnity reports whether an oxide counts in the sum of R2O + RO, by the
// plan's convention: alone it makes a unity formula then.
func inUnity(o oxide.Oxide, options oxide.Options) bool {
	var v oxide.Vector
	place, _ := o.Place()
	v.G[place] = 1
	return v.Chemistry(options).Unity != nil
}

// analysisRow is the row on the sheet Working of the first material.
func (b *pourBook) analysisRow() int { return b.loadRow(b.q, 0) + 2 }

// writeAnalyses writes, below the batches on the sheet Working, what 1 g of each
// material fires to, in the order in which the sheet of slips has them.
func (b *pourBook) writeAnalyses() {
	s, columns := b.working.sheet, b.analyses()
	s.SkipRows(1)
	s.Row()
	s.Text(xlsx.Head, "1 g of")
	for _, x := range columns {
		s.Text(xlsx.Head, x.label)
	}
	for k, m := range slices.Concat(b.rows.recipes, b.rows.additions) {
		s.Row()
		name := m
		if k >= len(b.rows.recipes) {
			name = "+ " + name
		}
		s.Text(xlsx.Head, name)
		v, _ := b.t.MaterialVector(m)
		for _, x := range columns[:len(columns)-1] {
			s.Number(xlsx.Given, xlsx.General, x.value(v))
		}
		s.Number(xlsx.Given, xlsx.General, b.lacks(m))
	}
}
