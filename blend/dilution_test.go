package blend

import (
	"math"
	"reflect"
	"testing"

	"pourboard/blend/measure"
)

// By hand: SG 1.45 and solids 2.6 g/mL hold 0.45·2.6/1.6 = 0.73125 g dry in a
// mL. 140 mL hold 102.375 g, of which 2 % over the recipe is bentonite: 100.37 g
// of recipe. Of that 0.5 % is 0.502 g, five times as much 2.509, weighed as 2.5 g;
// 1 % is 1.004, five times as much 5.02, weighed as 5.0 g. They bring 2.0 and
// 4.0 g of dry base. 2 g are 2.735 mL, which a 5 mL jug cannot pour: 3.966 g of
// wet glaze, weighed as 4.0 g, with 4.0/1.45·0.71875 = 1.98 g of water. 4 g are
// 5.47 mL, within a tenth of 5 % of 140 mL of one step, with 5·0.71875 = 3.6 g of
// water. The ± of 0.5 %: jug 2·5/√12/140 = 2.06 %, mix 2·0.1·√2/√12/2.5 = 3.27 %;
// from 2.2 g of colourant in 8.8 g of base on, the mix itself adds
// 0.8·8.165 %·√(1/2.2² + 1/8.8²) = 3.06 %, and the root sum of squares is 4.93 %.
// 2 % is good as it is: √(2.06² + (8.165/2.0)²) = 4.6 %.
func TestDilutions_byHand(t *testing.T) {
	test, err := New(planOf(Blend{Kind: Line, Series: []Series{{Material: "Copper carbonate", Percents: []float64{0, 0.5, 1, 2, 1}}}}))
	if err != nil {
		t.Fatal(err)
	}
	if len(test.Dilutions) != 1 {
		t.Fatalf("mixes %+v, want one", test.Dilutions)
	}
	d := test.Dilutions[0]
	if d.Parts != 5 || len(d.Doses) != 2 {
		t.Fatalf("1 in %d for %+v, want 1 in 5 for 0.5 and 1 %%", d.Parts, d.Doses)
	}
	small, large := d.Doses[0], d.Doses[1]
	if !reflect.DeepEqual(small.Cups, []int{2}) || small.MixG != 2.5 || math.Abs(small.BaseG-2) > 1e-9 || small.LessSteps != 0 || small.LessG != 4 || small.WaterG != 2 {
		t.Errorf("0.5 %%: %+v", small)
	}
	if !reflect.DeepEqual(large.Cups, []int{3, 5}) || large.MixG != 5 || math.Abs(large.BaseG-4) > 1e-9 || large.LessSteps != 1 || large.LessG != 0 || large.WaterG != 4 {
		t.Errorf("1 %%: %+v", large)
	}
	// Three doses, 0.5 + 1 + 1 g, and a tenth: 2.75 g, ground as 2.8.
	if d.ColourantG != 2.8 || math.Abs(d.BaseG-11.2) > 1e-9 {
		t.Errorf("grind %g g with %g g, want 2.8 with 11.2", d.ColourantG, d.BaseG)
	}
	mix := 0.8 * 8.165e-2 * math.Hypot(1/2.8, 1/11.2)
	if want := math.Sqrt(0.0206*0.0206 + 0.03266*0.03266 + mix*mix); math.Abs(small.PlusMinus-want) > 1e-4 {
		t.Errorf("± %g, by hand %g", small.PlusMinus, want)
	}
	// Alone, 0.5 and 1 % need 2.2 g for the mix to be exact enough.
	test, err = New(planOf(Blend{Kind: Line, Series: []Series{{Material: "Copper carbonate", Percents: []float64{0, 0.5, 1, 2}}}}))
	if err != nil {
		t.Fatal(err)
	}
	if d := test.Dilutions[0]; d.ColourantG != 2.2 {
		t.Errorf("grind %g g, want 2.2", d.ColourantG)
	}
}

// A mix is proposed for what it serves: on a 1 g scale, 1.5 g in 30 g of a mix
// would have 20 g of colourant ground for it, and of 10 g scales none will do.
func TestDilutions_none(t *testing.T) {
	p := planOf(Blend{Kind: Line, Series: []Series{{Material: "Red iron oxide", Percents: []float64{0, 0.5, 10}}}})
	p.Cup.Size.Value = 300
	p.Kit.Scale.Size, p.Kit.Pour.Size = 1, 10
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	if test.Dilutions != nil {
		t.Errorf("a mix of %+v", test.Dilutions)
	}
}

// In every design: the colourant comes out within half a step of the scale over
// the parts of the mix, the ± is within the limit, and the cup has as much dry
// base as the others, to a tenth of the limit or half a step of the scale.
func TestDilutions_everyDesign(t *testing.T) {
	any := 0
	for name, b := range designs() {
		if !b.HasSeries() {
			continue
		}
		for _, size := range []float64{20, 50, 100, 400} {
			for _, pour := range []measure.Step{{Size: 1, Unit: measure.Millilitre}, {Size: 5, Unit: measure.Millilitre}, {Size: 1, Unit: measure.Gram}} {
				p := planOf(b)
				p.Cup.Size.Value, p.Kit.Pour, p.Blend.Method = size, pour, ByDose
				test, err := New(p)
				if err != nil {
					t.Fatal(err)
				}
				e := test.Ends[0]
				for _, d := range test.Dilutions {
					for _, x := range d.Doses {
						any++
						if x.PlusMinus > p.Kit.Worst*(1+hair) {
							t.Errorf("%s of %g g by %s: %g %% is ± %g", name, size, pour, x.Percent, x.PlusMinus)
						}
						for _, n := range x.Cups {
							c := test.Cells[n-1]
							if got, want := x.MixG/float64(d.Parts), c.Doses[d.Series].G; math.Abs(got-want) > p.Kit.Scale.Size/2/float64(d.Parts)+1e-9 {
								t.Errorf("%s of %g g by %s, cup %d: %g g of colourant, want %g", name, size, pour, n, got, want)
							}
							ml := p.Kit.Pour.Amount(c.Pours[0].Steps - x.LessSteps)
							if test.Plan.Kit.OnScale() {
								ml /= e.SG
							}
							base, want := (ml-x.LessG/e.SG)*e.DryPerML+x.BaseG, c.Pours[0].Got.ML*e.DryPerML
							if off := math.Abs(base - want); off > max(SameBase*p.Kit.Worst*want, p.Kit.Scale.Size/2/e.SG*e.DryPerML)+1e-9 {
								t.Errorf("%s of %g g by %s, cup %d: %g g of base, the others %g", name, size, pour, n, base, want)
							}
						}
					}
				}
			}
		}
	}
	if any < 50 {
		t.Errorf("%d diluted doses tried", any)
	}
}
