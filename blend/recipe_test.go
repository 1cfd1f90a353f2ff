package blend

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Worked by hand: three thirds at one decimal leave a tenth, which the first has.
func TestWritten(t *testing.T) {
	for _, c := range []struct {
		view     View
		is, want []float64
	}{
		{Measured, []float64{59.99, 24.99, 15.02}, []float64{60, 25, 15}},
		{Measured, []float64{100.0 / 3, 100.0 / 3, 100.0 / 3}, []float64{33.4, 33.3, 33.3}},
		{Asked, []float64{100.0 / 3, 100.0 / 3, 100.0 / 3}, []float64{33.34, 33.33, 33.33}},
		{Measured, []float64{99.7, 0.3}, []float64{99.7, 0.3}},
		{Measured, []float64{74.968, 24.99, 0.042}, []float64{74.968, 24.99, 0.042}},
		{Asked, []float64{44, 22, 16, 10, 8}, []float64{44, 22, 16, 10, 8}},
	} {
		parts := make([]Part, len(c.is))
		for i, x := range c.is {
			parts[i].Percent = x
		}
		for i, p := range Written(parts, c.view) {
			if p.Percent != c.want[i] {
				t.Errorf("%v reads %v in part %d, want %v", c.is, p.Percent, i+1, c.want[i])
			}
		}
	}
}

// Whatever the recipe, its parts sum to 100 as printed, none vanishes, and none
// is further off than a step.
func TestWrittenSums(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 2000 {
		parts, sum := make([]Part, 1+r.IntN(9)), 0.0
		for i := range parts {
			parts[i].Percent = 0.1 + r.ExpFloat64()
			sum += parts[i].Percent
		}
		for i := range parts {
			parts[i].Percent *= 100 / sum
		}
		total := int64(0)
		for i, p := range Written(parts, View(r.IntN(2))) {
			total += int64(math.Round(p.Percent * 1000))
			if p.Percent <= 0 || math.Abs(p.Percent-parts[i].Percent) > 0.1 {
				t.Fatalf("%v reads %v", parts[i].Percent, p.Percent)
			}
		}
		if total != 100000 {
			t.Fatalf("%v sums to %v thousandths", parts, total)
		}
	}
}
