package slip

import "math"

// WaterPerLitre is the water in mL that thins a litre of wet glaze from the
// specific gravity that was read to the one wanted: 1000·(ρ − ρ₀)/(ρ₀ − 1).
func WaterPerLitre(read, wanted float64) float64 { return WaterTo(wanted, 1000*read, 1000) }

// Leeway is how far the specific gravity may lie from sg, either way, for the
// dry content to change by at most the fraction, in whole hundredths as it is
// read: the dry content goes with ρ − 1.
func Leeway(sg, fraction float64) float64 {
	return math.Floor(100*fraction*(sg-1)+1e-9) / 100
}
