package blend

import (
	"errors"
	"math"
	"slices"
	"testing"
)

// Worked by hand: ten cups of 100 g at 0.73125 g in a mL take 136.75 mL, 135 by a
// jug of 5 mL. Cup 7 got 143 mL, which hold 104.569 g, so 6 % of it is 6.27413 g;
// cup 8 got 200 g, 137.931 mL, 100.862 g, and 7 % is 7.06034 g.
func TestPoured(t *testing.T) {
	p := planOf(Blend{Kind: Line, Series: []Series{{Material: "Red iron oxide", Percents: []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}}}})
	p.Glazes[0].Additions = nil
	planned, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	p.Poured = []Poured{{Cups: []int{7}, Amount: Amount{Value: 143, Of: Volume}, Line: 20}, {Cups: []int{8}, Amount: Amount{Value: 200, Of: Weight}, Line: 23}}
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range test.Cells {
		ml, g := 135.0, 135*0.73125*float64(i)/100
		switch c.Number {
		case 7:
			ml, g = 143, 6.274125
		case 8:
			ml, g = 200/1.45, 7.060345
		}
		if pour := c.Pours[0]; math.Abs(pour.Got.ML-ml) > 1e-9 || math.Abs(c.Doses[0].G-g) > 1e-5 || math.Abs(pour.Got.RecipeG-c.Got.RecipeG) > 1e-9 || pour.Other != (c.Number == 7 || c.Number == 8) {
			t.Errorf("cup %d: %+v with a dose of %g g, want %g mL and %g g", c.Number, pour, c.Doses[0].G, ml, g)
		}
		if d := c.Doses[0]; d.Percent > 0 && math.Abs(d.GotPercent-d.Percent) > 100*p.Kit.Scale.Size/2/c.Got.RecipeG+1e-9 {
			t.Errorf("cup %d: %g %% comes to %g %%", c.Number, d.Percent, d.GotPercent)
		}
	}
	if test.Batches[0].ML != planned.Batches[0].ML || test.Batches[0].RecipeG != planned.Batches[0].RecipeG {
		t.Errorf("a batch of %g mL that was mixed is one of %g mL now", planned.Batches[0].ML, test.Batches[0].ML)
	}
	if less := planned.LeftML(0) - test.LeftML(0); math.Abs(less-(143-135)-(200/1.45-135)) > 1e-9 {
		t.Errorf("%g mL less are left", less)
	}
}

// A share that was poured otherwise moves the others of its cup: 70 mL of one
// and 63 of the other, 51.1875 and 50.0294 g at the dry contents of matte
// without bentonite and of ash (0.73125; 0.5·2.7/1.7 = 0.794118).
func TestPoured_shares(t *testing.T) {
	p := planOf(Blend{Kind: Line, Ends: []int{0, 1}, Cells: 3})
	p.Glazes[0].Additions = nil
	p.Poured = []Poured{{Cups: []int{2}, Glaze: 0, Amount: Amount{Value: 70, Of: Volume}}, {Cups: []int{2}, Glaze: 1, Amount: Amount{Value: 63, Of: Volume}}}
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	want := 70 * 0.73125 / (70*0.73125 + 63*0.5*2.7/1.7)
	if got := test.Cells[1].Pours[0].GotShare; math.Abs(got-want) > 1e-12 {
		t.Errorf("a share of %g, want %g", got, want)
	}
}

// More than a batch holds is a fault with its line, and so is what cannot be.
func TestPoured_faults(t *testing.T) {
	for _, x := range []Poured{
		{Cups: []int{2}, Amount: Amount{Value: 5000, Of: Volume}, Line: 9},
		{Cups: []int{1}, Glaze: 1, Amount: Amount{Value: 100, Of: Volume}, Line: 9}, // none of it in cup 1
		{Cups: []int{1}, Glaze: 3, Amount: Amount{Value: 100, Of: Volume}, Line: 9}, // in no cup
	} {
		p := planOf(Blend{Kind: Line, Ends: []int{0, 1}, Cells: 3})
		p.Poured = []Poured{x}
		var fault *Fault
		if _, err := New(p); !errors.As(err, &fault) || fault.Line != 9 || fault.Fix == "" {
			t.Errorf("%+v: %v", x, err)
		}
	}
}

// A glaze from the bucket needs only its name where all is by volume: nothing
// of it is mixed, and what its cups are made of is not said.
func TestBucketGlaze(t *testing.T) {
	p := planOf(Blend{Kind: Line, Ends: []int{0, 1}, Cells: 3, Basis: Volume})
	p.Cup = Cup{Size: Amount{100, Volume}}
	p.Glazes[0] = Glaze{Name: "Bought"}
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	// 100 and 50 mL, and 10 % more: 165 mL.
	if b := test.Batches[0]; !test.Ends[0].Bucket || b.NeedML != 150 || b.ML != 165 || b.RecipeG != 0 || b.Weighings != nil {
		t.Errorf("the bucket is %+v", b)
	}
	for i, holds := range []bool{true, true, false} {
		recipe, _ := test.Recipe(i, Measured)
		_, missing := test.vector(i, Measured)
		if (recipe == nil) != holds || slices.Contains(missing, "Bought") != holds {
			t.Errorf("cup %d: recipe %v, no analysis of %v", i+1, recipe, missing)
		}
		if _, err := test.Bucket(i, Measured, Amount{1000, Dry}, 0, p.Kit); (err != nil) != holds {
			t.Errorf("cup %d by the bucket: %v", i+1, err)
		}
	}
	if n, ok := noteOf[NoGravity](test); ok {
		t.Errorf("an SG is assumed that nothing rests on: %+v", n)
	}
	// Where grams are, its SG is needed; weight and volume of --have will do too.
	p.Blend.Basis = Dry
	var fault *Fault
	if _, err := New(p); !errors.As(err, &fault) {
		t.Errorf("shares of dry glaze without SG: %v", err)
	}
	p.Have = []Have{{Glaze: "Bought", DryG: 1000, ML: 1370}}
	if _, err := New(p); err != nil {
		t.Error(err)
	}
}
