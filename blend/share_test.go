package blend

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pourboard/blend/measure"
)

// Worked by hand: at SG 1.45 and solids 2.6 a mL holds 0.73125 g, so 1000 g are
// 1367.52 mL. Ten cups get 136.75 mL each: 130 in steps of 10 mL, 135 in steps
// of 5. With 100 mL left in the jug they are 126.75, with 1 mL lost at each pour
// 135.75. On a scale of 1 g they are 198 g of 198.29.
func TestBatchIsShared(t *testing.T) {
	for _, c := range []struct {
		step       measure.Step
		dead, loss float64
		want, ml   float64
	}{
		{measure.Step{Size: 10, Unit: measure.Millilitre}, 0, 0, 130, 130},
		{measure.Step{Size: 5, Unit: measure.Millilitre}, 0, 0, 135, 135},
		{measure.Step{Size: 5, Unit: measure.Millilitre}, 100, 0, 125, 125},
		{measure.Step{Size: 5, Unit: measure.Millilitre}, 0, 2, 130, 130},
		{measure.Step{Size: 1, Unit: measure.Gram}, 0, 0, 198, 198 / 1.45},
	} {
		p := planOf(Blend{Kind: Line, Series: []Series{{Material: "Red iron oxide", Percents: []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}}}})
		p.Glazes[0].Additions = nil
		p.Cup = Cup{BatchG: 1000}
		p.Kit.Pour, p.Kit.Dead, p.Kit.Loss = c.step, c.dead, c.loss
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, cell := range test.Cells {
			if pour := cell.Pours[0]; pour.Got.Shown(test.Plan.Kit) != c.want || math.Abs(pour.ML-c.ml) > 1e-9 || math.Abs(pour.Got.ML-c.ml) > 1e-9 {
				t.Errorf("%s, %g left, %g lost: cup %d gets %g, exactly %g mL, want %g", c.step, c.dead, c.loss, cell.Number, pour.Got.Shown(test.Plan.Kit), pour.ML, c.want)
			}
		}
		if b := test.Batches[0]; b.RecipeG != 1000 || math.Abs(b.ML-1367.52) > 0.01 || b.NeedML > b.ML-c.dead {
			t.Errorf("the batch is %+v", b)
		}
		if p.Cup.Size.Value != 0 {
			t.Errorf("the plan was changed to cups of %g", p.Cup.Size.Value)
		}
	}
}

// A batch too small for the cups is a fault with its line and a size that works.
func TestBatchTooSmall(t *testing.T) {
	for _, x := range []struct {
		batch, dead float64
		loss        float64
	}{{30, 0, 0}, {90, 100, 0}, {50, 20, 3}} {
		p := planOf(Blend{Kind: Line, Series: []Series{{Material: "Red iron oxide", Percents: []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}}}})
		p.Cup = Cup{BatchG: x.batch}
		p.Kit.Pour.Size, p.Kit.Dead, p.Kit.Loss = 10, x.dead, x.loss
		_, err := New(p)
		var fault *Fault
		if !errors.As(err, &fault) {
			t.Fatalf("%+v: %v", x, err)
		}
		_, text, _ := strings.Cut(fault.Fix, `"`)
		text, _, _ = strings.Cut(text, " ")
		least, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatalf("no number in %q", fault.Fix)
		}
		p.Cup.BatchG = least
		if _, err := New(p); err != nil {
			t.Errorf("%+v: %g g do not work: %v", x, least, err)
		}
	}
	p := planOf(Blend{Kind: Line, Ends: []int{0, 1}, Cells: 5})
	p.Cup = Cup{BatchG: 1000}
	if _, err := New(p); err == nil || !strings.Contains(err.Error(), "one base") {
		t.Errorf("two glazes share one batch: %v", err)
	}
}

// The batch that is proposed is good enough when it is planned, and one a tenth
// smaller is not.
func TestBatchFor(t *testing.T) {
	for _, pour := range []measure.Step{{Size: 5, Unit: measure.Millilitre}, {Size: 1, Unit: measure.Gram}} {
		p := planOf(Blend{Kind: Line, Series: []Series{{Material: "Red iron oxide", Percents: []float64{0, 1, 2, 4}}}})
		p.Cup, p.Kit.Pour, p.Kit.Loss, p.Kit.Dead = Cup{BatchG: 200}, pour, 1, 20
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		enough := test.Smallest
		if !enough.Found || enough.BatchG <= 200 {
			t.Fatalf("by %s: %+v", pour, enough)
		}
		for _, x := range []struct {
			batch float64
			good  bool
		}{{enough.BatchG, true}, {0.9 * enough.BatchG, false}} {
			p.Cup.BatchG = x.batch
			if test, err = New(p); err != nil || (test.worst() <= p.Kit.Worst) != x.good {
				t.Errorf("by %s, a batch of %g g: ± %g, want good %v (%v)", pour, x.batch, test.worst(), x.good, err)
			}
		}
	}
}
