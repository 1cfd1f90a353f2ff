package blend

import (
	"math"
	"testing"

	"pourboard/blend/measure"
)

// A bucket is the cell's recipe to scale: dry materials sum to what was asked,
// each in its share, and nothing is 0 g.
func TestBucket(t *testing.T) {
	for name, d := range designs() {
		test, err := New(planOf(d))
		if err != nil {
			t.Fatal(err)
		}
		bench := test.Plan.Kit
		bench.Scale = measure.Step{Size: 1, Unit: measure.Gram}
		bench.Capacity = 3000
		for i := range test.Cells {
			for _, view := range []View{Asked, Measured} {
				b, err := test.Bucket(i, view, Amount{5000, Dry}, 1.45, bench)
				if err != nil {
					t.Fatal(err)
				}
				sum := 0.0
				over := 0.0 // additions ride on top of the 5000 g of recipe
				for _, p := range b.Additions {
					over += 50 * p.Percent
				}
				for _, w := range b.Batch.Weighings {
					if w.G == 0 || w.ReadingG > bench.Capacity {
						t.Errorf("%s cell %d: %+v", name, i+1, w)
					}
					sum += w.G
				}
				for _, a := range b.Batch.Apart {
					if a.G == 0 || a.Step.Size >= bench.Scale.Size {
						t.Errorf("%s cell %d: %+v", name, i+1, a)
					}
					sum += a.G
				}
				if math.Abs(sum-over-5000) > 1 {
					t.Errorf("%s cell %d: %g g of 5000 and %g", name, i+1, sum, over)
				}
				// Water of 5 kg counts in 50 g: 25 g in 5000 g of dry glaze make
				// w 0.983 ± 0.005, and (1+w)/(1/2.6+w) 1.45 ± 0.0017.
				if math.Abs(b.Batch.SG-1.45) > 0.0018 {
					t.Errorf("%s cell %d: specific gravity %g", name, i+1, b.Batch.SG)
				}
			}
		}
	}
}

func TestBucketByVolume(t *testing.T) {
	test, err := New(planOf(designs()["triaxial"]))
	if err != nil {
		t.Fatal(err)
	}
	b, err := test.Bucket(0, Asked, Amount{10_000, Volume}, 0, test.Plan.Kit)
	if err != nil {
		t.Fatal(err)
	}
	// Cell 1 is all of the first end, 0.73125 g dry per mL, 1/1.02 of it recipe.
	if math.Abs(b.Batch.RecipeG-7312.5/1.02) > 1e-6 || math.Abs(b.Batch.DryG-7312.5) > 1e-6 || math.Abs(b.Batch.ML-10_000) > 1e-6 {
		t.Errorf("10 L are %g g dry in %g mL", b.Batch.DryG, b.Batch.ML)
	}
	coarse := test.Plan.Kit
	coarse.Scale.Size = 100
	if _, err := test.Bucket(0, Asked, Amount{1, Dry}, 0, coarse); err == nil {
		t.Error("a gram is weighed on a scale of 100 g")
	}
	if _, err := test.Bucket(0, Asked, Amount{1, Dry}, 3, test.Plan.Kit); err == nil {
		t.Error("a slip heavier than its solids has a bucket")
	}
}

// What there is of a glaze without recipe wins over what would be convenient:
// of it 1370 mL were had ready.
func TestBatch_bucketGlazeHad(t *testing.T) {
	p := planOf(designs()["triaxial"])
	glaze := p.Glazes[p.Blend.Ends[0]].Name
	p.Cup = Cup{Size: Amount{100, Volume}}
	p.Blend.Basis = Volume
	p.Glazes[p.Blend.Ends[0]].Recipe, p.Glazes[p.Blend.Ends[0]].Additions = nil, nil
	p.Have = []Have{{Glaze: glaze, ML: 1370}}
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	if b := test.Batches[0]; !b.Mixed || b.ML != 1370 || b.RecipeG != 0 {
		t.Errorf("%+v", b)
	}
	if got := test.WithoutRecipe(0); len(got) != 1 || got[0] != glaze {
		t.Errorf("cup 1 lacks the recipe of %q", got)
	}
	if got := test.WithoutRecipe(len(test.Cells) - 1); got != nil {
		t.Errorf("the last cup lacks the recipe of %q", got)
	}
}

// A batch that is shared out is what there is, of a glaze without recipe too:
// 1000 g dry of recipe at SG 1.45 and 2.6 g/mL are 0.45·2.6/1.6 = 0.73125 g in
// each mL, so 1367.5 mL, whatever the extra.
func TestBatch_bucketGlazeShared(t *testing.T) {
	p := planOf(designs()["series"])
	base := &p.Glazes[p.Blend.Base]
	base.Recipe, base.Additions, base.SG, base.Solids = nil, nil, 1.45, 2.6
	p.Cup, p.Kit.Extra = Cup{BatchG: 1000}, 0.1
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	if b := test.Batches[0]; math.Abs(b.ML-1000/0.73125) > 1e-9 || b.RecipeG != 0 {
		t.Errorf("%+v", b)
	}
}

// A bought base at SG 1.45 and 2.6 g/mL holds 0.45·2.6/1.6 = 0.73125 g dry in a
// mL: 5 kg are 6837.6 mL, and 2 % of them 100 g, whatever a cup's size.
func TestWetBucket(t *testing.T) {
	p := planOf(designs()["series"])
	base := &p.Glazes[p.Blend.Base]
	base.Recipe, base.Additions, base.SG, base.Solids = nil, nil, 1.45, 2.6
	p.Blend.Series = []Series{{Material: "Rutile", Percents: []float64{0, 2}}}
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	kit := measure.Kit{Scale: measure.Step{Size: 1, Unit: measure.Gram}, Worst: 0.05}
	b, err := test.WetBucket(1, Asked, Amount{Value: 5000, Of: Dry}, kit)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(b.ML[0]-5000/0.73125) > 1e-9 || len(b.Doses) != 1 || b.Doses[0].G != 100 {
		t.Errorf("%+v", b)
	}
	// A gram of colourant is none to weigh in whole grams.
	b, err = test.WetBucket(1, Asked, Amount{Value: 50, Of: Dry}, kit)
	if err != nil || b.Doses[0].G != 1 || b.Doses[0].Step.Size >= 1 {
		t.Errorf("%+v, %v", b, err)
	}
	if b, err = test.WetBucket(0, Measured, Amount{Value: 1000, Of: Volume}, kit); err != nil || b.ML[0] != 1000 || b.Doses != nil {
		t.Errorf("the base alone is %+v, %v", b, err)
	}
}

// Bought glazes blended by volume need no SG for a volume, and one for grams.
func TestWetBucket_blend(t *testing.T) {
	p := planOf(designs()["line"])
	p.Cup, p.Blend.Basis = Cup{Size: Amount{Value: 100, Of: Volume}}, Volume
	for i := range p.Glazes {
		p.Glazes[i].Recipe, p.Glazes[i].Additions, p.Glazes[i].SG, p.Glazes[i].WaterPer = nil, nil, 0, 0
	}
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	b, err := test.WetBucket(3, Asked, Amount{Value: 5000, Of: Volume}, p.Kit)
	if err != nil || math.Abs(b.ML[0]-3500) > 1e-9 || math.Abs(b.ML[1]-1500) > 1e-9 {
		t.Errorf("70 and 30 parts are %+v, %v", b, err)
	}
	if _, err := test.WetBucket(3, Asked, Amount{Value: 5000, Of: Dry}, p.Kit); err == nil {
		t.Error("glazes without SG have a dry weight")
	}
}
