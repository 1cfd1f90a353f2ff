package blend

import (
	"math"
	"testing"
)

// Worked by hand. At 1.45 half of 5 % is 0.025·0.45 = 0.011, 0.01 as it is read; a litre
// of 1.47 takes 20/0.45 = 44.4 mL. At 1.60 half of 10 % is 0.05·0.60 = 0.03, from which
// 0.03 itself cannot be told; 1.65 takes 50/0.60 = 83.3 mL. At 1.20 half of 5 % is
// 0.025·0.20 = 0.005, less than a hundredth.
func TestCheckSG(t *testing.T) {
	for _, c := range []struct {
		sg, worst float64
		few       bool
		low, high float64
		want      []Thinning
	}{
		{1.45, 0.05, false, 1.44, 1.46, []Thinning{{1.47, 44.44}, {1.48, 66.67}, {1.50, 111.11}, {1.52, 155.56}, {1.55, 222.22}}},
		{1.45, 0.05, true, 1.44, 1.46, []Thinning{{1.48, 66.67}, {1.50, 111.11}, {1.55, 222.22}}},
		{1.60, 0.10, false, 1.57, 1.63, []Thinning{{1.65, 83.33}, {1.67, 116.67}, {1.70, 166.67}}},
		{1.20, 0.05, true, 1.20, 1.20, []Thinning{{1.23, 150}, {1.25, 250}, {1.30, 500}}},
	} {
		got := CheckSG(c.sg, c.worst, c.few)
		if math.Abs(got.Low-c.low) > 1e-9 || math.Abs(got.High-c.high) > 1e-9 || len(got.Thinnings) != len(c.want) {
			t.Fatalf("%+v: %+v", c, got)
		}
		for i, x := range got.Thinnings {
			if math.Abs(x.SG-c.want[i].SG) > 1e-9 || math.Abs(x.WaterPerLitre-c.want[i].WaterPerLitre) > 0.005 {
				t.Errorf("%g, reading %d: %+v, want %+v", c.sg, i+1, x, c.want[i])
			}
		}
	}
}
