package blend

import (
	"math"
	"slices"
	"testing"

	"pourboard/blend/measure"
)

// Two glazes half and half in a cup of 100 g, by hand. P is 60 silica and 40
// whiting with 2 % bentonite over it, Q 80 silica and 20 kaolin. The cup gets
// 50 g of each recipe: silica 30 + 40 = 70, whiting 20, kaolin 10, bentonite 1.
// On a scale of 1 g the readings are 70, 90, 100, 101.
//
// Water: solids of 2.6 g/mL at SG 1.45 have w = (2.6 − 1.45)/(2.6·0.45) =
// 0.982906 g a g; the cup has 51 + 50 = 101 g dry, so 99.27, which is 99 g.
//
// ± of silica: p = 100·m/M with M = 100 over silica, whiting, kaolin. Slopes are
// (100 − 70)/100 = 0.3 for silica, −0.7 for whiting and kaolin, 0 for bentonite.
// Readings R0 to R4 have slopes −0.3, 0.3+0.7 = 1, 0, −0.7, 0; u of each is
// 1/√12 g. So u² = (0.09 + 1 + 0.49)/12 and ± = 2·√(1.58/12) = 0.7257.
func TestWeigh_blend(t *testing.T) {
	p := planOf(Blend{Kind: Line, Ends: []int{0, 1}, Cells: 3, Method: ByWeigh})
	p.Glazes = []Glaze{
		{Name: "P", SG: 1.45, Solids: 2.6, Recipe: []Part{{Material: "Silica", Percent: 60}, {Material: "Whiting", Percent: 40}}, Additions: []Part{{Material: "Bentonite", Percent: 2}}},
		{Name: "Q", SG: 1.45, Solids: 2.6, Recipe: []Part{{Material: "Silica", Percent: 80}, {Material: "Kaolin", Percent: 20}}},
	}
	p.Kit.Scale, p.Kit.Fine = measure.Step{Size: 1, Unit: measure.Gram}, measure.Step{}
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	c := test.Cells[1]
	want := []CupWeighed{
		{DryMaterial: DryMaterial{Material: "Silica"}, G: 70, Steps: 70, ReadingG: 70, Percent: 70},
		{DryMaterial: DryMaterial{Material: "Whiting"}, G: 20, Steps: 20, ReadingG: 90, Percent: 20},
		{DryMaterial: DryMaterial{Material: "Kaolin"}, G: 10, Steps: 10, ReadingG: 100, Percent: 10},
		{DryMaterial: DryMaterial{"Bentonite", true}, G: 1, Steps: 1, ReadingG: 101, Percent: 1},
	}
	if len(c.Weighings) != len(want) {
		t.Fatalf("weighings %+v, want %+v", c.Weighings, want)
	}
	for i, w := range want {
		got := c.Weighings[i]
		if i == 0 && math.Abs(got.PlusMinus-2*math.Sqrt(1.58/12)) > 1e-12 {
			t.Errorf("silica ± %g, by hand %g", got.PlusMinus, 2*math.Sqrt(1.58/12))
		}
		got.PlusMinus = 0
		if math.Abs(got.G-w.G) > 1e-9 || math.Abs(got.Percent-w.Percent) > 1e-9 {
			t.Errorf("%+v, want %+v", got, w)
		}
		got.G, got.Percent = w.G, w.Percent
		if got != w {
			t.Errorf("%+v, want %+v", got, w)
		}
	}
	if c.WaterG != 99 || c.Got.RecipeG != 100 || c.Got.DryG != 101 || c.Got.G != 200 {
		t.Errorf("water %g, recipe %g, dry %g, in all %g g; want 99, 100, 101, 200", c.WaterG, c.Got.RecipeG, c.Got.DryG, c.Got.G)
	}
	for _, b := range test.Batches {
		if b.ML != 0 || b.Weighings != nil {
			t.Errorf("a batch is mixed: %+v", b)
		}
	}
}

// A base of 40 and 60 with 1 % and 2.25 % of a colourant in cups of 50 g, by
// hand: 20 g, 30 g, and 0.5 or 1.125 g. On a scale of 0.1 g the sums 50.5 and
// 51.125 read 50.5 and 51.1, so that 2.25 % comes to 100·1.1/50 = 2.2 %.
func TestWeigh_series(t *testing.T) {
	p := planOf(Blend{Kind: Line, Method: ByWeigh, Series: []Series{{Material: "Rutile", Percents: []float64{0, 1, 2.25}}}})
	p.Glazes = []Glaze{{Name: "P", SG: 1.45, Recipe: []Part{{Material: "Silica", Percent: 40}, {Material: "Whiting", Percent: 60}}}}
	p.Kit.Scale, p.Kit.Fine = measure.Step{Size: 0.1, Unit: measure.Gram}, measure.Step{}
	p.Cup.Size.Value = 50
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []struct{ percent, g, reading float64 }{{0, 0, 50}, {1, 0.5, 50.5}, {2.2, 1.1, 51.1}} {
		c := test.Cells[i]
		d := c.Doses[0]
		if math.Abs(d.GotPercent-want.percent) > 1e-9 || math.Abs(d.MeasuredG-want.g) > 1e-9 || c.Weighings[len(c.Weighings)-1].ReadingG != want.reading {
			t.Errorf("cup %d: %+v of %+v, want %+v", i+1, d, c.Weighings, want)
		}
		if math.Abs(c.Got.SG-1.45) > 0.005 || math.Abs(c.SG-1.45) > 1e-9 {
			t.Errorf("cup %d comes to SG %g with %g g of water, want 1.45", i+1, c.Got.SG, c.WaterG)
		}
		recipe, additions := test.Recipe(i, Measured)
		if len(recipe) != 2 || !close(recipe[0].Percent, 40) || want.g > 0 && !close(additions[0].Percent, want.percent) {
			t.Errorf("cup %d is made of %v and %v", i+1, recipe, additions)
		}
	}
	// 2.2 %: m/M with slopes −0.022/50·100 for the base's two and 2 for rutile;
	// readings −0.044, 0, −2.044, 2: u = 0.1/√12.
	if got, want := test.Cells[2].Doses[0].PlusMinus, 2*0.1*math.Sqrt((0.044*0.044+2.044*2.044+4)/12); math.Abs(got-want) > 1e-12 {
		t.Errorf("± %g, by hand %g", got, want)
	}
}

// Every cup is weighed in one order, so that the readings of a table with a
// column for each material rise from left to right: recipes of all end glazes
// first, then what goes over them.
func TestWeigh_order(t *testing.T) {
	p := planOf(Blend{Kind: Triaxial, Ends: []int{0, 1, 2}, Divisions: 3, Method: ByWeigh})
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	order := test.DryMaterials()
	if n := len(order); n != 9 || order[n-1] != (DryMaterial{"Cobalt carbonate", true}) || order[n-2] != (DryMaterial{"Bentonite", true}) {
		t.Fatalf("the order %v, want 5 + 1 + 1 of recipes, bentonite and cobalt carbonate", order)
	}
	for _, c := range test.Cells {
		at, reading := -1, -1.0
		for _, w := range c.Weighings {
			next := slices.Index(order, DryMaterial{w.Material, w.Addition})
			if next <= at || w.ReadingG < reading {
				t.Errorf("cup %d: %s is weighed at place %d after %d, reading %g after %g", c.Number, w.Material, next, at, w.ReadingG, reading)
			}
			at, reading = next, w.ReadingG
		}
	}
}

// A cup of 102 g dry at SG 1.45 (solids 2.6: 0.983 g of water a g) is 202 g on
// the scale, one of 100 g at SG 1.43 (1.0465 g a g) 205 g; the scale takes 200 g
// or 250 g.
func TestWeigh_capacity(t *testing.T) {
	p := planOf(Blend{Kind: Line, Ends: []int{0, 3}, Cells: 2, Method: ByWeigh})
	for _, x := range []struct {
		capacity float64
		noted    bool
	}{{200, true}, {250, false}} {
		p.Kit.Capacity = x.capacity
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		n, ok := noteOf[OverCapacity](test)
		if ok != x.noted || ok && (len(n.Cups) != 2 || math.Abs(n.MostG-205) > 0.2) {
			t.Errorf("a scale of %g g: %+v, %v", x.capacity, n, ok)
		}
	}
}
