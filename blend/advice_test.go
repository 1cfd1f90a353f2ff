package blend

import (
	"fmt"
	"testing"

	"pourboard/blend/measure"
	"pourboard/blend/oxide"
)

// The smallest cup is found without a short cut: every convenient size from
// far below, one after the other, on the whole test.
func TestSmallestCupAgainstBruteForce(t *testing.T) {
	lib := oxide.Builtin()
	for name, b := range designs() {
		for _, method := range []Method{"", ByDose, ByStock, ByPour} {
			if b.HasSeries() == (method == "") {
				continue
			}
			for _, wish := range []float64{0.02, 0.05, 0.1} {
				fine := 0.0
				if wish == 0.05 && method == ByPour {
					fine = 0.02 // then what a batch weighs apart depends on its size
				}
				for _, pour := range []measure.Step{{Size: 1, Unit: measure.Millilitre}, {Size: 2, Unit: measure.Gram}} {
					b.Method = method
					p := planOf(b)
					p.Kit.Worst, p.Kit.Pour = wish, pour
					p.Kit.Fine = measure.Step{Size: fine, Unit: measure.Gram}
					smallest := smallestCup(&Test{Plan: p, Library: lib})
					size, ok := smallest.Value, smallest.Found
					what := fmt.Sprintf("%s %s to %g with %s", name, method, wish, pour)
					for try := 2.0; ; try = nextConvenient(try) {
						if try > LargestCup {
							if ok {
								t.Errorf("%s: %g, and none was found one by one", what, size)
							}
							break
						}
						q := *p
						q.Cup.Size.Value = try
						test, err := compute(&q, lib)
						if err != nil {
							t.Fatal(err)
						}
						if test.worst() <= wish*(1+hair) {
							if !ok || size != try {
								t.Errorf("%s: %g (%v), one by one it is %g", what, size, ok, try)
							}
							break
						}
					}
				}
			}
		}
	}
}

// What is recommended keeps the wish if any method does, and nothing is
// recommended as good that is not.
func TestRecommend(t *testing.T) {
	for name, b := range designs() {
		if !b.HasSeries() {
			continue
		}
		for _, size := range []float64{20, 100, 400, 2000} {
			p := planOf(b)
			p.Cup.Size.Value = size
			test, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			a, err := Advise(test)
			if err != nil {
				t.Fatal(err)
			}
			any := false
			for _, o := range a.Options {
				any = any || o.Good
				if o.Good && o.Worst > p.Kit.Worst*(1+hair) {
					t.Errorf("%s of %g g: %+v is called good", name, size, o)
				}
			}
			if any != a.Best.Good {
				t.Errorf("%s of %g g: a good method there is: %v, and %v is said", name, size, any, a.Best.Good)
			}
		}
	}
}

// A cup that nothing is measured into is not as it was asked.
func TestNothingPoured(t *testing.T) {
	for _, m := range []Method{ByDose, ByStock} {
		b := designs()["series"]
		b.Method = m
		p := planOf(b)
		p.Cup = Cup{Size: Amount{2, Volume}}
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range test.Cells {
			if c.Got.Worst != 1 {
				t.Errorf("%s: cup %d of nothing is good to %g", m, c.Number, c.Got.Worst)
			}
		}
		if len(test.Notes) == 0 {
			t.Errorf("%s: no warning", m)
		}
	}
}

// Percentages may be written in any order; neighbours are those by size.
func TestNeighboursBySize(t *testing.T) {
	p := planOf(Blend{Kind: Line, Series: []Series{{Material: "Rutile", Percents: []float64{1, 3, 1.01}}}})
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	pairs := test.Indistinguishable()
	if len(pairs) != 1 || pairs[0] != [2]int{1, 3} {
		t.Errorf("not told apart: %v, want cups 1 and 3", pairs)
	}
}

// A batch of an end glaze that is there already holds its colourant as it is:
// the cup that would do is one for which the batches are mixed anew.
func TestSmallestCup_have(t *testing.T) {
	p := planOf(designs()["two series"])
	p.Blend.Method = ByPour
	p.Kit.Scale.Size = 0.1
	before, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	p.Have = []Have{{Glaze: before.Ends[1].Name, ML: 200}}
	after, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := after.Smallest, before.Smallest; got != want || !got.Found {
		t.Errorf("with a batch there already %+v, without %+v", got, want)
	}
}

// The scale in place of the jug: a line of ten cups whose smallest pour is 15 mL
// in steps of 5 is off by a fifth of it; on a scale that is stopped 1 g off, by
// a few percent of its 22 g. Its every pour is a weighing.
func TestAdvise_scale(t *testing.T) {
	p := planOf(Blend{Kind: Line, Ends: []int{0, 1}, Cells: 10})
	p.Kit.FillG = 1
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	a, err := Advise(test)
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Options) != 3 || !a.Options[0].Planned || a.Options[0].OnScale() || a.Options[1].Method != ByWeigh || !a.Options[2].OnScale() {
		t.Fatalf("options %+v, want the jug, weighing dry and the scale", a.Options)
	}
	if jug, scale := a.Options[0], a.Options[2]; scale.Worst > jug.Worst/2 || jug.Weighings != 0 || scale.Weighings != 18 {
		t.Errorf("the jug ± %g with %d weighings, the scale ± %g with %d", jug.Worst, jug.Weighings, scale.Worst, scale.Weighings)
	}
	p.Kit.Capacity = 100 // less than a cup
	if test, err = New(p); err != nil {
		t.Fatal(err)
	}
	if a, err = Advise(test); err != nil || len(a.Options) != 2 {
		t.Errorf("a scale that takes no cup is advised: %+v, %v", a.Options, err)
	}
	// In small cups the jug is over the limit and the scale is not.
	p.Kit.Capacity, p.Kit.Worst = 0, 0.12
	if test, err = New(p); err != nil {
		t.Fatal(err)
	}
	if a, err = Advise(test); err != nil || a.Best != a.Options[2] || !a.Best.Good {
		t.Errorf("best is %+v, want the scale", a.Best)
	}
}

// Nobody without a syringe is advised to draw doses from a stock.
func TestAdvise_noSyringe(t *testing.T) {
	for name, b := range designs() {
		if !b.HasSeries() {
			continue
		}
		p := planOf(b)
		p.Kit.Syringe.Size = 0
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		a, err := Advise(test)
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range a.Options {
			if o.Method == ByStock {
				t.Errorf("%s: a stock is an option", name)
			}
		}
	}
}
