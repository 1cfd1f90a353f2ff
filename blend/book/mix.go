package book

import (
	"math"
	"slices"

	"pourboard/blend"
	"pourboard/blend/oxide"
)

// Mix is what a cup was made of.
type Mix struct {
	Parts  []Part // colourants or end glazes, percent as made
	Recipe []Part // dry materials over 100 of recipe, additions among them
	Oxides []oxide.Amount
	SiAl   float64 // SiO2:Al2O3 in mol, 0 when unknown
}

// Part is a percentage with its ± (2u), in percentage points.
type Part struct {
	Name      string
	Percent   float64
	PlusMinus float64
	Addition  bool // in a recipe: over its 100
}

// part returns the part of a name; has is false where there is none.
func part(parts []Part, name string) (p Part, has bool) {
	if i := slices.IndexFunc(parts, func(p Part) bool { return p.Name == name }); i >= 0 {
		return parts[i], true
	}
	return Part{}, false
}

// newMix is what cell i was made of, as measured.
func newMix(t *blend.Test, i int) *Mix {
	c, m := t.Cells[i], &Mix{}
	if t.Plan.Blend.HasSeries() {
		for s, d := range c.Doses {
			m.Parts = join(m.Parts, Part{Name: t.Plan.Blend.Series[s].Material, Percent: d.GotPercent, PlusMinus: d.PlusMinus})
		}
	} else {
		for e, p := range c.Pours {
			m.Parts = append(m.Parts, Part{Name: t.Ends[e].Name, Percent: 100 * p.GotShare, PlusMinus: 100 * p.PlusMinus})
		}
	}
	chemistry := t.Chemistry(i, blend.Measured)
	m.Oxides, m.SiAl = chemistry.WeightPercent, chemistry.SiAl
	m.Recipe = recipeOf(t, i)
	return m
}

// join adds a part to those of its name, as in two rows of one material.
func join(parts []Part, p Part) []Part {
	if k := slices.IndexFunc(parts, func(q Part) bool { return q.Name == p.Name }); k >= 0 {
		parts[k].Percent += p.Percent
		parts[k].PlusMinus = math.Hypot(parts[k].PlusMinus, p.PlusMinus)
		return parts
	}
	return append(parts, p)
}

// weighing is what a material of a batch can be off by in percentage points:
// half of the last digit that is printed.
const weighing = 0.05

// recipeOf is what cell i was made of, over 100 of recipe. The ± of a material
// is that of the pours that bring it, with x a share and r the material's part
// of an end glaze: u² = Σ ((rᵢ − r)·u(xᵢ))², and that of its dose. What a
// batch was weighed to is known to a step of the scale.
func recipeOf(t *blend.Test, i int) (all []Part) {
	c := t.Cells[i]
	recipe, additions := t.Recipe(i, blend.Measured)
	for _, p := range recipe {
		all = join(all, Part{Name: p.Material, Percent: p.Percent})
	}
	for _, p := range additions {
		all = join(all, Part{Name: p.Material, Percent: p.Percent, Addition: true})
	}
	for k := range all {
		u := weighing
		for e, p := range c.Pours {
			inEnd := 0.0
			for _, m := range slices.Concat(t.Ends[e].Recipe, t.Ends[e].Additions) {
				if m.Material == all[k].Name {
					inEnd += m.Percent
				}
			}
			u = math.Hypot(u, (inEnd-all[k].Percent)*p.PlusMinus)
		}
		for s, d := range c.Doses {
			if t.Plan.Blend.Series[s].Material == all[k].Name {
				u = math.Hypot(u, d.PlusMinus)
			}
		}
		all[k].PlusMinus = u
	}
	return all
}

// Part is the percentage of a colourant or end glaze; has is false where the
// test has none.
func (m *Mix) Part(name string) (percent float64, has bool) {
	p, has := part(m.Parts, name)
	return p.Percent, has
}

// Oxide is the weight percent of an oxide; has is false where there is none.
func (m *Mix) Oxide(o oxide.Oxide) (percent float64, has bool) {
	for _, a := range m.Oxides {
		if a.Oxide == o {
			return a.Value, true
		}
	}
	return 0, false
}
