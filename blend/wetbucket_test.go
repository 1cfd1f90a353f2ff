package blend

import (
	"math"
	"testing"

	"pourboard/blend/measure"
)

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
