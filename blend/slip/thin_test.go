package slip

import (
	"math"
	"testing"
)

// A litre of SG 1.55 with the water added has the wanted SG: (1550 + x) g in
// (1000 + x) mL.
func TestWaterPerLitre(t *testing.T) {
	for _, c := range [][2]float64{{1.48, 1.45}, {1.55, 1.45}, {1.62, 1.5}} {
		x := WaterPerLitre(c[0], c[1])
		if got := (1000*c[0] + x) / (1000 + x); math.Abs(got-c[1]) > 1e-12 {
			t.Errorf("SG %g with %g mL a litre is %g, want %g", c[0], x, got, c[1])
		}
	}
}

// Within the leeway the dry content is off by no more than the fraction, and a
// hundredth further it is.
func TestLeeway(t *testing.T) {
	for _, c := range [][2]float64{{1.45, 0.025}, {1.5, 0.05}, {1.3, 0.01}, {1.8, 0.025}} {
		sg, fraction := c[0], c[1]
		dry := func(sg float64) float64 { return Slip{sg, 2.6}.DryPerML() }
		by := Leeway(sg, fraction)
		if off := dry(sg+by)/dry(sg) - 1; off > fraction+1e-9 {
			t.Errorf("SG %g ± %g: off by %g", sg, by, off)
		}
		if off := dry(sg+by+0.01)/dry(sg) - 1; off <= fraction {
			t.Errorf("SG %g: %g more would still do", sg, by+0.01)
		}
	}
}
