package blend

import (
	"math"
	"testing"

	"pourboard/blend/oxide"
)

// The oxides of a cell are the dry-mass-weighted mean of its ends', and its
// recipe multiplied out gives the same.
func TestVectorIsTheRecipeMultipliedOut(t *testing.T) {
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
				v, missing := test.Vector(i, view)
				if missing != nil {
					t.Fatalf("%s cell %d lacks %v", name, i+1, missing)
				}
				recipe, over := test.Recipe(i, view)
				want, _ := lib.Vector(oxideParts(recipe, over))
				for k := range v.G {
					if math.Abs(v.G[k]-want.G[k]) > 1e-12 {
						t.Fatalf("%s cell %d: oxide %d is %g, the recipe gives %g", name, i+1, k, v.G[k], want.G[k])
					}
				}
			}
		}
	}
}

func mustAnalysis(t *testing.T, entries map[string]float64) oxide.Analysis {
	t.Helper()
	a, err := oxide.ParseAnalysis(entries)
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
