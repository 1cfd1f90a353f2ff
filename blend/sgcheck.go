package blend

import "pourboard/blend/slip"

// SGCheck says what to do by the specific gravity that is read of a mixed glaze.
type SGCheck struct {
	Low, High float64    // between these it is as expected
	Thinnings []Thinning // what to do with thicker readings, thin to thick
}

// Thinning is the water that brings a glaze of a specific gravity to the expected one.
type Thinning struct {
	SG            float64 // read
	WaterPerLitre float64 // mL in a litre of wet glaze
}

// The readings of a check lie so far above the expected specific gravity: steps that
// a 100 mL jug on a scale shows (common practice, no source). Few are for small pages.
var (
	thickerBy    = []float64{0.02, 0.03, 0.05, 0.07, 0.10}
	thickerByFew = []float64{0.03, 0.05, 0.10}
)

// CheckSG is the check of a glaze that is expected at sg. A reading is as expected
// where it moves the dry content by at most half of worst, a fraction: the pours have
// the other half.
func CheckSG(sg, worst float64, few bool) SGCheck {
	leeway := slip.Leeway(sg, worst/2)
	check, by := SGCheck{Low: sg - leeway, High: sg + leeway}, thickerBy
	if few {
		by = thickerByFew
	}
	for _, more := range by {
		if more > leeway+0.009 { // a hundredth away, which can be read
			check.Thinnings = append(check.Thinnings, Thinning{sg + more, slip.WaterPerLitre(sg+more, sg)})
		}
	}
	return check
}
