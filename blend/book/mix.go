package book

import (
	"math"
	"strconv"
	"strings"

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

// newMix is what cell i was made of, as measured.
func newMix(t *blend.Test, i int) *Mix {
	c, m := t.Cells[i], &Mix{}
	if t.Plan.Blend.HasSeries() {
		for s, d := range c.Doses {
			p := Part{Name: t.Plan.Blend.Series[s].Material, Percent: d.GotPercent, PlusMinus: d.PlusMinus}
			if k := indexOf(m.Parts, p.Name); k >= 0 { // two rows of one material
				m.Parts[k].Percent += p.Percent
				m.Parts[k].PlusMinus = math.Hypot(m.Parts[k].PlusMinus, p.PlusMinus)
				continue
			}
			m.Parts = append(m.Parts, p)
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

// recipeOf is what cell i was made of, over 100 of recipe. The ± of a material
// is that of the pours that bring it, with x a share and r the material's part
// of an end glaze: u² = Σ ((rᵢ − r)·u(xᵢ))², and that of its dose. What a
// batch was weighed to is known to a step of the scale.
func recipeOf(t *blend.Test, i int) []Part {
	c := t.Cells[i]
	recipe, additions := t.Recipe(i, blend.Measured)
	var all []Part
	add := func(parts []blend.Part, addition bool) {
		for _, p := range parts {
			k := indexOf(all, p.Material)
			if k < 0 {
				all = append(all, Part{Name: p.Material, Addition: addition})
				k = len(all) - 1
			}
			all[k].Percent += p.Percent
		}
	}
	add(recipe, false)
	add(additions, true)
	for k := range all {
		u := weighing
		for e, p := range c.Pours {
			u = math.Hypot(u, (inEnd(t.Ends[e], all[k].Name)-all[k].Percent)*p.PlusMinus)
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

// weighing is what a material of a batch can be off by in percentage points:
// half of the last digit that is printed.
const weighing = 0.05

// inEnd is the percentage of a material in an end glaze, over its recipe.
func inEnd(e blend.End, material string) (percent float64) {
	for _, list := range [][]blend.Part{e.Recipe, e.Additions} {
		for _, p := range list {
			if p.Material == material {
				percent += p.Percent
			}
		}
	}
	return percent
}

func indexOf(parts []Part, name string) int {
	for i, p := range parts {
		if p.Name == name {
			return i
		}
	}
	return -1
}

// recipeText is the recipe of a glaze in one text, in the maker's order.
func recipeText(g blend.Glaze) string {
	var b strings.Builder
	for i, list := range [][]blend.Part{g.Recipe, g.Additions} {
		for _, p := range list {
			if b.Len() > 0 {
				b.WriteString(", ")
			}
			if i == 1 {
				b.WriteString("+ ")
			}
			b.WriteString(p.Material + " " + strconv.FormatFloat(p.Percent, 'f', -1, 64))
		}
	}
	return b.String()
}

// Part is the percentage of a colourant or end glaze; has is false where the
// test has none.
func (m *Mix) Part(name string) (percent float64, has bool) {
	if i := indexOf(m.Parts, name); i >= 0 {
		return m.Parts[i].Percent, true
	}
	return 0, false
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
