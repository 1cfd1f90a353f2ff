package blend

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"pourboard/blend/measure"
	"pourboard/blend/oxide"
)

// What a cup is made of is what the tickets say that is weighed, by the part
// of each batch that is poured into it: put together here from the printed
// amounts alone.
func TestMadeOfWhatIsPrinted(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for name, b := range designs() {
		for _, m := range []Method{"", ByDose, ByStock, ByPour} {
			if b.HasSeries() == (m == "") {
				continue
			}
			for _, scale := range []float64{0.1, 1, 5} {
				b.Method = m
				p := planOf(b)
				p.Cup.Size.Value = 20 + 200*r.Float64()
				p.Kit.Scale.Size = scale
				p.Kit.Fine = measure.Step{Size: []float64{0, 0.05}[r.IntN(2)], Unit: measure.Gram}
				test, err := New(p)
				if err != nil {
					t.Fatal(err)
				}
				printed := make([]map[string]float64, len(test.Ends))
				total := make([]float64, len(test.Ends)) // of the recipe
				for e, batch := range test.Batches {
					printed[e] = map[string]float64{}
					add := func(material string, g float64, over bool) {
						printed[e][material] += g
						if !over {
							total[e] += g
						}
					}
					for _, w := range batch.Weighings {
						add(w.Material, w.G, w.Addition)
					}
					for _, x := range batch.Apart {
						add(x.Material, x.G, x.Addition)
					}
				}
				for i, c := range test.Cells {
					want, base, brought := map[string]float64{}, 0.0, make([]float64, len(c.Doses))
					for e, pour := range c.Pours {
						if pour.Steps == 0 {
							continue
						}
						recipe := pour.Got.ML * test.Ends[e].RecipePerML
						base += recipe
						for material, g := range printed[e] {
							want[material] += recipe * g / total[e]
						}
						for s, series := range p.Blend.Series {
							brought[s] += recipe * printed[e][series.Material] / total[e]
						}
					}
					for s, d := range c.Doses {
						if m != ByPour {
							brought[s] = d.MeasuredG
							want[p.Blend.Series[s].Material] += d.MeasuredG
						}
						if base > 0 && !close(d.GotPercent, 100*brought[s]/base) {
							t.Errorf("%s by %s, scale %g, cell %d: %g %% made, %g by what is printed", name, m, scale, i+1, d.GotPercent, 100*brought[s]/base)
						}
					}
					recipe, over := test.grams(&test.Cells[i], Measured)
					for _, part := range append(recipe, over...) {
						want[part.Material] -= part.G
					}
					for material, left := range want {
						if math.Abs(left) > 1e-9 {
							t.Errorf("%s by %s, scale %g, cell %d: %s differs by %g g", name, m, scale, i+1, material, left)
						}
					}
				}
			}
		}
	}
}

// Worked by hand: a batch of 100 g of a glaze with 0.5 % of cobalt has 60, 40
// and 0.5 g. A scale of 1 g reads 60, 100, and 101 for 100.5: cobalt comes to
// 1 %. A finer one of 0.1 g weighs 0.5 of it.
func TestMadeByHand(t *testing.T) {
	p := planOf(Blend{Kind: Line, Ends: []int{0, 3}, Cells: 2})
	p.Glazes[0] = Glaze{Name: "Blue", SG: 1.45, Solids: 2.6, Recipe: []Part{{Material: "Silica", Percent: 60}, {Material: "Whiting", Percent: 40}}, Additions: []Part{{Material: "Cobalt carbonate", Percent: 0.5}}}
	p.Cup.Size.Value, p.Kit.Extra = 99.996, 0
	p.Kit.Scale.Size, p.Kit.Pour.Size = 1, 0.01
	for fine, want := range map[float64][3]float64{0: {60, 40, 1}, 0.1: {60, 40, 0.5}} {
		p.Kit.Fine = measure.Step{Size: fine, Unit: measure.Gram}
		test, err := compute(p, oxide.Builtin())
		if err != nil {
			t.Fatal(err)
		}
		// 0.73125/1.005 g of recipe in a mL: 137.43 mL are measured, 99.996 g,
		// which 100 g are mixed for.
		if got := test.Batches[0].RecipeG; got != 100 {
			t.Fatalf("the batch has %g g", got)
		}
		recipe, over := test.Recipe(0, Measured)
		cobalt := 0.0 // what a cup holds nothing of is not listed
		for _, part := range over {
			cobalt += part.Percent
		}
		if len(recipe) != 2 || !close(recipe[0].Percent, want[0]) || !close(recipe[1].Percent, want[1]) || !close(cobalt, want[2]) || (len(over) == 0) != (want[2] == 0) {
			t.Errorf("with a finer scale of %g g: %v and %v over", fine, recipe, over)
		}
	}
}

// The ± of a series that is poured is of readings alone: whoever weighs and
// pours what is printed, reading true to within the steps, comes out within
// it of what is said to be made. Drawn at random, as in JCGM 101:2008.
func TestPouredSeriesAgainstMonteCarlo(t *testing.T) {
	b := designs()["two series"]
	b.Method = ByPour
	for _, fine := range []float64{0, 0.02} {
		for _, onScale := range []bool{false, true} {
			p := planOf(b)
			p.Kit.Scale.Size = 0.5
			p.Kit.Fine = measure.Step{Size: fine, Unit: measure.Gram}
			p.Kit.Pour.Size = 2
			if onScale {
				p.Kit.Pour.Unit = measure.Gram
			}
			test, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			r := rand.New(rand.NewPCG(31, 32))
			half := func(step float64) float64 { return (r.Float64() - 0.5) * step }
			const runs = 40_000
			for _, i := range []int{1, 7, 13, 19 % len(test.Cells)} {
				c := test.Cells[i%len(test.Cells)]
				for s, d := range c.Doses {
					if d.Percent == 0 {
						continue
					}
					sum, squares := 0.0, 0.0
					for range runs {
						base, brought, before := 0.0, 0.0, half(p.Kit.Pour.Size)
						for e, pour := range c.Pours {
							if pour.Steps == 0 {
								continue
							}
							after := half(p.Kit.Pour.Size)
							amount := pour.Got.Shown(test.Plan.Kit) + after
							if onScale {
								amount = (amount - before) / test.Ends[e].SG
							}
							before = after
							recipe := amount * test.Ends[e].RecipePerML
							perG := test.AsWeighed[e].Percents[s] / 100
							if perG > 0 {
								g, scale := test.Batches[e].weighed(test.Ends[e].SeriesPart(s))
								perG *= 1 + (half(scale.Size)-half(scale.Size))/g
							}
							brought += recipe * perG
							base += recipe
						}
						x := 100 * brought / base
						sum += x
						squares += x * x
					}
					mean := sum / runs
					got := measure.Coverage * math.Sqrt(squares/runs-mean*mean)
					what := fmt.Sprintf("fine %g, on a scale %v, cell %d, series %d", fine, onScale, c.Number, s)
					// The spread of so many draws is good to 0.4 %; and the rule is
					// of the first order.
					if math.Abs(got/d.PlusMinus-1) > 0.02 {
						t.Errorf("%s: ± %.5f by the rules and %.5f by simulation", what, d.PlusMinus, got)
					}
					if math.Abs(mean-d.GotPercent) > 0.02*d.PlusMinus {
						t.Errorf("%s: %.5f %% are said to be made, %.5f come out", what, d.GotPercent, mean)
					}
				}
			}
		}
	}
}

// Scales far too coarse for a batch leave no figure that is none.
func TestCoarseScalesLeaveNumbers(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 42))
	for range 2000 {
		b := Blend{Kind: Line, Method: ByPour, Series: []Series{{Material: "Rutile", Percents: []float64{0, 50, 40 + 260*r.Float64()}}}}
		p := planOf(b)
		p.Cup.Size.Value = 0.2 + 20*r.Float64()
		p.Kit.Scale.Size, p.Kit.Pour.Size = []float64{1, 5, 20}[r.IntN(3)], []float64{0.1, 1, 5}[r.IntN(3)]
		test, err := compute(p, oxide.Builtin())
		if err != nil {
			t.Fatal(err)
		}
		for i, c := range test.Cells {
			d := c.Doses[0]
			recipe, over := test.Recipe(i, Measured)
			sum := d.MeasuredG + d.GotPercent + d.PlusMinus + c.Got.Worst
			for _, part := range append(recipe, over...) {
				sum += part.Percent
			}
			if math.IsNaN(sum) || math.IsInf(sum, 0) || sum < 0 {
				t.Fatalf("cup of %g g, scale %s, jug %s: %+v in %v, %v", p.Cup.Size.Value, p.Kit.Scale, p.Kit.Pour, d, recipe, over)
			}
		}
	}
}
