package blend

import (
	"math"
	"slices"
	"testing"

	"pourboard/blend/oxide"
)

// The oxides of a cell are the dry-mass-weighted mean of its ends' and doses'.
func TestVectorIsTheMeanOfTheEnds(t *testing.T) {
	own := oxide.Material{Name: "Wood ash", Density: 2.6, Analysis: mustAnalysis(t, map[string]float64{
		"SiO2": 38.2, "CaO": 27.5, "K2O": 9.1, "MgO": 4, "P2O5": 2.6, "LOI": 18.6})}
	lib := oxide.Builtin().With(own)
	for name, b := range designs() {
		p := planOf(b)
		p.Materials = []oxide.Material{own}
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		for i := range test.Cells {
			for _, view := range []View{Asked, Measured} {
				v, missing := test.vector(i, view)
				if missing != nil {
					t.Fatalf("%s cell %d lacks %v", name, i+1, missing)
				}
				c, dry := test.Cells[i], 0.0
				var want oxide.Vector
				add := func(end oxide.Vector, g float64) {
					dry += g
					for k := range want.G {
						want.G[k] += g * end.G[k]
					}
				}
				for e, p := range c.Pours {
					end, g := test.Ends[e], p.DryG
					if view == Measured {
						end, g = test.AsWeighed[e], p.Got.RecipeG*(1+test.AsWeighed[e].Over)
					}
					fired, _ := lib.Vector(slices.Concat(end.Recipe, end.Additions))
					add(fired, g)
				}
				for s, d := range c.Doses {
					g := d.Percent / 100 * c.RecipeG
					if view == Measured {
						g = d.MeasuredG
					}
					fired, _ := lib.Vector([]oxide.Part{{Material: b.Series[s].Material, Percent: 1}})
					add(fired, g)
				}
				for k := range v.G {
					if math.Abs(v.G[k]-want.G[k]/dry) > 1e-12 {
						t.Fatalf("%s cell %d: oxide %d is %g, the mean is %g", name, i+1, k, v.G[k], want.G[k]/dry)
					}
				}
			}
		}
	}
}

func mustAnalysis(t *testing.T, entries map[string]float64) oxide.Analysis {
	t.Helper()
	a, _, err := oxide.ParseAnalysis(entries)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Only the cells that hold the unknown material go without.
func TestMissingAnalysis(t *testing.T) {
	test, err := New(planOf(designs()["triaxial"])) // no analysis of the ash
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range test.Cells {
		got := test.Chemistry(i, Asked)
		if lacks := len(got.Missing) > 0; lacks != (c.Shares[1] > 0) {
			t.Errorf("cell %d with %g of ash: missing %v", c.Number, c.Shares[1], got.Missing)
		}
	}
	if u := test.Unanalysed(); len(u) != 1 || u[0] != "Wood ash" {
		t.Errorf("without analysis: %v", u)
	}
}
