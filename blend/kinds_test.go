package blend_test

import (
	"math"
	"os"
	"slices"
	"testing"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/plan"
)

// sharesOf works out on its own what each cup of a plan of the newer kinds is asked to
// be, in the order of the cups: shares of the ends, or percentages of the series.
func sharesOf(b blend.Blend) [][]float64 {
	var all [][]float64
	unit := func(n int, values map[int]float64) {
		cup := make([]float64, n)
		for i, x := range values {
			cup[i] = x
		}
		all = append(all, cup)
	}
	switch n := len(b.Ends); b.Kind {
	case blend.Pairs:
		for first := 0; first < n; first++ {
			for second := first + 1; second < n; second++ {
				for _, x := range b.PairShares {
					unit(n, map[int]float64{first: x / 100, second: 1 - x/100})
				}
			}
		}
		for e := 0; b.Alone && e < n; e++ {
			unit(n, map[int]float64{e: 1})
		}
	case blend.Rows:
		k := len(b.Series)
		if b.SharedZero {
			unit(k, nil)
		}
		for i, s := range b.Series {
			for _, x := range s.Percents {
				if x > 0 || !b.SharedZero {
					unit(k, map[int]float64{i: x})
				}
			}
		}
	case blend.List:
		for _, parts := range b.Parts {
			sum := 0.0
			for _, x := range parts {
				sum += x
			}
			cup := map[int]float64{}
			for e, x := range parts {
				cup[e] = x / sum
			}
			unit(n, cup)
		}
	case blend.Line:
		if b.HasSeries() {
			for _, x := range b.Series[0].Percents {
				unit(1, map[int]float64{0: x})
			}
			break
		}
		for i := 1; i <= b.Cells; i++ { // interior: from one step inside to one step inside
			x := float64(i) / float64(b.Cells+1)
			unit(n, map[int]float64{0: 1 - x, 1: x})
		}
	}
	for _, cup := range b.Repeat {
		all = append(all, all[cup-1])
	}
	return all
}

// wetOf is the recipe in g and the g of wet glaze in a mL of a glaze, by the
// slip relation of testdata/reference/slip_physics.toml: c = (ρ−1)·S/(S−1) g of
// solids in a mL, of which 1 in 1+a is recipe.
func wetOf(t *testing.T, g blend.Glaze) (recipePerML, sg float64) {
	t.Helper()
	recipe, additions, volume := 0.0, 0.0, 0.0
	for _, p := range g.Recipe {
		recipe += p.Percent
	}
	for i, p := range slices.Concat(g.Recipe, g.Additions) {
		mass := p.Percent
		if i < len(g.Recipe) {
			mass *= 100 / recipe
		} else {
			additions += mass
		}
		m, ok := oxide.Builtin().Find(p.Material)
		if !ok {
			t.Fatalf("%s is unknown", p.Material)
		}
		volume += mass / m.Density
	}
	solids := (100 + additions) / volume
	if g.Solids > 0 {
		solids = g.Solids
	}
	sg = g.SG
	if w := g.WaterPer / 100; w > 0 {
		sg = (1 + w) / (1/solids + w)
	}
	total := (sg - 1) * solids / (solids - 1)
	return total / (1 + additions/100), sg
}

// Every pour and dose of the newer kinds, worked out again from the plan alone.
func TestKinds_again(t *testing.T) {
	for _, name := range []string{"pairs", "rows", "repeat", "list-parts", "line-interior"} {
		text, err := os.ReadFile("../testdata/plans/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		p, _, err := plan.Read(name, text)
		if err != nil {
			t.Fatal(err)
		}
		test, err := blend.New(p)
		if err != nil {
			t.Fatal(err)
		}
		want := sharesOf(p.Blend)
		if len(test.Cells) != len(want) {
			t.Fatalf("%s: %d cups, want %d", name, len(test.Cells), len(want))
		}
		for i, c := range test.Cells {
			if p.Blend.HasSeries() {
				againDosed(t, name, test, c, want[i])
			} else {
				againBlended(t, name, test, c, want[i])
			}
			if n := len(want) - len(p.Blend.Repeat); i >= n && c.Repeats == 0 {
				t.Errorf("%s: cup %d is not said to be made again", name, c.Number)
			}
		}
	}
}

func againBlended(t *testing.T, name string, test *blend.Test, c blend.Cell, want []float64) {
	t.Helper()
	p := test.Plan
	step := p.Kit.Pour.Size
	size := 0.0 // of the cup with one unit of share, in what the cup is sized by
	perML := make([]float64, len(want))
	for e, x := range want {
		perML[e], _ = wetOf(t, p.Glazes[p.Blend.Ends[e]])
		if p.Blend.Basis == blend.Volume {
			perML[e] = 1
		}
		size += x
	}
	measured, exact := 0.0, 0.0
	for e, x := range want {
		ml := x / size * p.Cup.Size.Value / perML[e]
		pour := c.Pours[e]
		if math.Abs(pour.ML-ml) > 1e-9 || math.Abs(pour.Got.Shown(test.Plan.Kit)-ml) >= step {
			t.Errorf("%s, cup %d: %g mL of end %d, poured %g; want %g", name, c.Number, pour.ML, e+1, pour.Got.Shown(test.Plan.Kit), ml)
		}
		measured, exact = measured+pour.Got.Shown(test.Plan.Kit), exact+ml
	}
	if sum := math.Floor(exact/step+0.5) * step; math.Abs(measured-sum) > 1e-9 {
		t.Errorf("%s, cup %d: %g mL poured in all, want %g", name, c.Number, measured, sum)
	}
}

func againDosed(t *testing.T, name string, test *blend.Test, c blend.Cell, want []float64) {
	t.Helper()
	p := test.Plan
	perML, _ := wetOf(t, p.Glazes[p.Blend.Base])
	poured := math.Floor(p.Cup.Size.Value/perML/p.Kit.Pour.Size+0.5) * p.Kit.Pour.Size
	if math.Abs(c.Pours[0].Got.Shown(test.Plan.Kit)-poured) > 1e-9 {
		t.Errorf("%s, cup %d: %g mL poured, want %g", name, c.Number, c.Pours[0].Got.Shown(test.Plan.Kit), poured)
	}
	for s, x := range want {
		scale := p.Kit.Dosing().Size
		grams := x / 100 * poured * perML
		if d := c.Doses[s]; math.Abs(d.Percent-x) > 1e-12 || math.Abs(d.MeasuredG-math.Floor(grams/scale+0.5)*scale) > 1e-9 {
			t.Errorf("%s, cup %d: %g %% and %g g of series %d, want %g %% and %g g", name, c.Number, d.Percent, d.MeasuredG, s+1, x, grams)
		}
	}
}
