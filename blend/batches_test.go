package blend

import (
	"math"
	"math/rand/v2"
	"testing"

	"pourboard/blend/measure"
	"pourboard/blend/oxide"
)

// Whatever the scales and the batch, every material is on the ticket once, to
// within half a step of the scale that it is weighed on (the running sums are
// what is rounded on the batch's scale); on the coarse scale stands what it
// weighs well enough, on the fine one the rest; and all of it together is what
// is said.
func TestBatchOnTwoScales(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	apart := 0
	for range 600 {
		designs := designs()
		names := []string{"line", "triaxial", "series", "two series"}
		b := designs[names[r.IntN(len(names))]]
		if b.HasSeries() {
			b.Method = []Method{ByDose, ByPour}[r.IntN(2)]
		}
		p := planOf(b)
		p.Cup.Size.Value = 2 + 300*r.Float64()
		p.Kit.Worst = 0.01 + 0.2*r.Float64()
		p.Kit.Scale.Size = []float64{0.1, 0.5, 1, 5}[r.IntN(4)]
		p.Kit.Fine = measure.Step{Size: []float64{0, 0.001, 0.01, 0.05}[r.IntN(4)], Unit: measure.Gram}
		if r.IntN(3) == 0 {
			p.Kit.Capacity = p.Kit.Scale.Size * (10 + 500*r.Float64())
		}
		test, err := compute(p, oxide.Builtin())
		if err != nil {
			t.Fatal(err)
		}
		for i, batch := range test.Batches {
			if batch.NeedML == 0 {
				continue
			}
			e := test.Ends[i]
			parts := append(append([]Part(nil), e.Recipe...), e.Additions...)
			smallest := measure.Smallest(p.Kit.Scale.Tared(), p.Kit.Worst)
			seen := make([]int, len(parts))
			exact := func(part int) float64 { return parts[part].Percent * batch.RecipeG / 100 }
			for _, x := range batch.Apart {
				apart++
				seen[x.Part]++
				if x.Step != p.Kit.Fine || x.Step.Size == 0 || exact(x.Part) >= smallest {
					t.Fatalf("%+v is apart, on a scale of %s to %g", x, p.Kit.Scale, p.Kit.Worst)
				}
				if math.Abs(x.G-exact(x.Part)) > x.Step.Size/2+1e-9 || x.Material != parts[x.Part].Material || x.Addition != (x.Part >= len(e.Recipe)) {
					t.Fatalf("%+v for %g g of %+v", x, exact(x.Part), parts[x.Part])
				}
			}
			sum, onScale, total := 0.0, 0.0, 0.0
			for k, w := range batch.Weighings {
				if k == 0 || batch.Weighings[k-1].Part != w.Part {
					seen[w.Part]++
					sum += exact(w.Part)
					if p.Kit.Fine.Size > 0 && exact(w.Part) < smallest {
						t.Fatalf("%+v is on a scale of %s to %g", w, p.Kit.Scale, p.Kit.Worst)
					}
				}
				onScale += w.G
				if k+1 == len(batch.Weighings) || batch.Weighings[k+1].Part != w.Part {
					if math.Abs(onScale-sum) > p.Kit.Scale.Size/2+1e-6 {
						t.Fatalf("the scale of %s has %g g on it for %g", p.Kit.Scale, onScale, sum)
					}
				}
			}
			total = onScale
			for _, x := range batch.Apart {
				total += x.G
			}
			if math.Abs(total-batch.WeighedG) > 1e-9 {
				t.Fatalf("%g g are said and %g weighed", batch.WeighedG, total)
			}
			for k, n := range seen {
				if n != 1 {
					t.Fatalf("%s is on the ticket %d times", parts[k].Material, n)
				}
			}
		}
	}
	if apart < 100 {
		t.Errorf("only %d materials are weighed apart", apart)
	}
}

// Worked by hand: 0.5 % of cobalt in a batch of 400 g is 2 g over it. A scale of 1 g
// weighs 5 % of no less than 2·√2·1/√12/0.05 = 32.7 g, and reads 400 without
// the cobalt; one of 0.01 g reads 2.00. The note is quiet then.
func TestCobaltApart(t *testing.T) {
	b := Blend{Kind: Line, Ends: []int{0, 1}, Cells: 2}
	p := planOf(b)
	p.Glazes[0] = Glaze{Name: "Blue", SG: 1.45, Solids: 2.6, Recipe: []Part{{Material: "Silica", Percent: 60}, {Material: "Whiting", Percent: 40}}, Additions: []Part{{Material: "Cobalt carbonate", Percent: 0.5}}}
	p.Kit.Scale.Size, p.Kit.Extra = 1, 0
	p.Cup.Size.Value = 402
	e := End{Name: "Blue", Recipe: p.Glazes[0].Recipe, Additions: p.Glazes[0].Additions, SG: 1.45, Solids: 2.6, Over: 0.005}
	e.settle()
	weighed := func() Batch {
		b := Batch{RecipeG: 400}
		b.weigh(e, p.Kit, ownFine)
		return b
	}
	one := weighed()
	if n := len(one.Weighings); n != 3 || one.Apart != nil || one.Weighings[2].G != 2 || one.Weighings[2].ReadingG != 402 || one.WeighedG != 402 {
		t.Errorf("on one scale: %+v", one)
	}
	p.Kit.Fine = measure.Step{Size: 0.01, Unit: measure.Gram}
	two := weighed()
	if n := len(two.Weighings); n != 2 || two.Weighings[1].ReadingG != 400 || len(two.Apart) != 1 || two.Apart[0].Text() != "2.00" || two.WeighedG != 402 {
		t.Errorf("on two scales: %+v", two)
	}
	coarse := func() float64 {
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		if n, ok := noteOf[CoarseScale](test); ok {
			return n.Scale.Size
		}
		return 0
	}
	if got := coarse(); got != 0 {
		t.Errorf("a material that is weighed apart is noted, too coarse for %g g", got)
	}
	p.Kit.Fine.Size = 0.5
	if got := coarse(); got != 0.5 {
		t.Errorf("a material too small for the fine scale: noted for a scale of %g g, want 0.5", got)
	}
	p.Kit.Fine.Size = 0
	if got := coarse(); got != 1 {
		t.Errorf("a material too small for the only scale: noted for a scale of %g g, want 1", got)
	}
}

// Weighed apart, the colourant of an end slip is as good as the finer scale.
func TestApartIsBetter(t *testing.T) {
	b := designs()["series"]
	b.Method = ByPour
	p := planOf(b)
	p.Kit.Scale.Size, p.Kit.Pour.Size = 5, 0.1
	coarse, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	p.Kit.Fine = measure.Step{Size: 0.01, Unit: measure.Gram}
	fine, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	for i := range coarse.Cells[1:] {
		a, b := coarse.Cells[i+1].Doses[0].PlusMinus, fine.Cells[i+1].Doses[0].PlusMinus
		if b > a/10 {
			t.Errorf("cell %d: ± %g points on one scale, %g on two", i+2, a, b)
		}
	}
}
