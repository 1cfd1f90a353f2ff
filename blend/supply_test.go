package blend

import (
	"errors"
	"math"
	"testing"

	"pourboard/blend/measure"
)

// suppliedOf works a plan out with what there is of its batches.
func suppliedOf(t *testing.T, p *Plan, all bool, have ...Have) (*Test, Supplied) {
	t.Helper()
	q := *p
	q.Have, q.ShareAll = have, all
	test, err := New(&q)
	if err != nil {
		t.Fatalf("%+v: %v", have, err)
	}
	for _, n := range test.Notes {
		if s, ok := n.(Supplied); ok {
			return test, s
		}
	}
	t.Fatalf("%+v: no note says what they do", have)
	return nil, Supplied{}
}

// Worked by hand: five cups of 100 g of recipe with 2 % of bentonite take
// 139.487 mL each (TestWorkedCup), 140 in steps of 5 mL, 700 mL in all. A mL
// holds 0.716912 g of recipe and weighs 1.45 g.
func TestHave(t *testing.T) {
	p := planOf(designs()["series"])
	for _, c := range []struct {
		have       Have
		all        bool
		pour, left float64 // mL
		more       int
		short      bool
	}{
		{Have{ML: 700}, false, 140, 0, 0, false},
		{Have{ML: 1000}, false, 140, 300, 2, false},
		{Have{ML: 1000}, true, 200, 0, 0, false},
		{Have{ML: 699}, false, 135, 24, 0, true},
		{Have{ML: 500}, false, 100, 0, 0, true},
		{Have{WetG: 1015}, false, 140, 0, 0, false},                 // 700 mL
		{Have{DryG: 0.716912 * 699}, false, 135, 24, 0, true},       // 699 mL
		{Have{DryG: 400, ML: 700}, false, 140, 0, 0, true},          // 175 mL hold 100 g, and 140 are there
		{Have{DryG: 700, ML: 750}, false, 105, 750 - 525, 2, false}, // 107.14 mL hold 100 g
	} {
		c.have.Glaze = "Matte"
		test, n := suppliedOf(t, p, c.all, c.have)
		pour := test.Cells[2].Pours[0]
		if pour.Got.Shown(test.Plan.Kit) != c.pour || math.Abs(n.Left[0].ML-c.left) > 0.01 || n.More != c.more || n.Short != c.short {
			t.Errorf("%+v: pours of %g mL, %+v", c.have, pour.Got.Shown(test.Plan.Kit), n)
		}
		if b := test.Batches[0]; !b.Mixed || b.NeedML > b.ML+1e-9 {
			t.Errorf("%+v: the batch is %+v", c.have, b)
		}
		if d := test.Cells[2].Doses[0]; !close(d.G, pour.Got.RecipeG/100) {
			t.Errorf("%+v: 1 %% of %g g is %g g", c.have, pour.Got.RecipeG, d.G)
		}
		if c.have.DryG > 0 && c.have.ML > 0 {
			if got := test.Ends[0].RecipePerML; !close(got, c.have.DryG/c.have.ML) {
				t.Errorf("%+v: a mL holds %g g", c.have, got)
			}
		}
		if p.Cup.Size.Value != 100 {
			t.Fatalf("the plan was changed to cups of %g", p.Cup.Size.Value)
		}
	}
}

// Weight and volume together need no SG; a weight alone does.
func TestHave_withoutGravity(t *testing.T) {
	p := planOf(designs()["series"])
	p.Glazes[0].SG = 0
	test, _ := suppliedOf(t, p, false, Have{Glaze: "Matte", DryG: 1000, ML: 1370})
	if test.Ends[0].Assumed || !close(test.Cells[1].Pours[0].ML, 137) {
		t.Errorf("100 g of 1000 g in 1370 mL are %g mL, assumed %v", test.Cells[1].Pours[0].ML, test.Ends[0].Assumed)
	}
	for _, h := range []Have{{Glaze: "Matte", DryG: 1000}, {Glaze: "Matte", WetG: 1990}} {
		q := *p
		q.Have = []Have{h}
		var fault *Fault
		if _, err := New(&q); !errors.As(err, &fault) || fault.Fix == "" {
			t.Errorf("%+v without SG: %v", h, err)
		}
	}
}

// Blends are fitted to the scarcest batch, and nothing runs out.
func TestHave_blends(t *testing.T) {
	for name, b := range designs() {
		if b.HasSeries() {
			b.Method = ByPour
		}
		for _, pour := range []measure.Step{{Size: 5, Unit: measure.Millilitre}, {Size: 0.5, Unit: measure.Gram}} {
			p := planOf(b)
			p.Kit.Pour, p.Kit.Dead, p.Kit.Loss = pour, 15, 0.5
			planned, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			end := len(planned.Ends) - 1
			for planned.Batches[end].NeedML == 0 {
				end--
			}
			for _, part := range []float64{0.6, 1.5} {
				for _, all := range []bool{false, true} {
					have := Have{Glaze: planned.Ends[end].Name, ML: part * planned.Batches[end].NeedML}
					test, n := suppliedOf(t, p, all, have)
					size, short := test.Plan.Cup.Size.Value, part < 1
					if n.Short != short || size < 100 != short || size > 100 != (all && !short) {
						t.Errorf("%s: %g of what is needed, all %v: cups of %g, %+v", name, part, all, size, n)
					}
					if b := test.Batches[end]; b.NeedML+p.Kit.Dead > have.ML+1e-6 {
						t.Errorf("%s: %g mL of %g are poured", name, b.NeedML, have.ML)
					}
				}
			}
		}
	}
}

// What cannot be poured is a fault, with an amount that works.
func TestHave_faults(t *testing.T) {
	p := planOf(designs()["series"])
	for _, have := range [][]Have{
		{{Glaze: "Nobody", ML: 5}}, {{Glaze: "Matte", ML: 1}}, {{Glaze: "Matte", DryG: 1000, ML: 300}},
		{{Glaze: "Matte", ML: 800}, {Glaze: "Matte", ML: 900}},
	} {
		q := *p
		q.Have = have
		var fault *Fault
		if _, err := New(&q); !errors.As(err, &fault) || fault.Fix == "" {
			t.Errorf("%+v: %v", have, err)
		}
	}
}
