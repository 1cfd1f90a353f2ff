package measure

import "math"

// Convenient rounds x up to a figure that is easy to weigh and to remember: a
// multiple of a twentieth of its power of ten, so 163 becomes 165 and 1480
// becomes 1500.
//
// The logarithm is settled before it is cut to a whole number, so that what is
// a hair below a power of ten counts as that power whatever the logarithm of
// the machine makes of it. With s = 10^INT(ROUND(LOG10(x),9))/20 a spreadsheet
// gets the same by ROUND(ROUNDUP(ROUND(x/s,9),0)*s,9).
func Convenient(x float64) float64 {
	if !(x > 0) {
		return 0
	}
	step := math.Pow(10, math.Floor(settle(math.Log10(x)))) / 20
	return settle(math.Ceil(settle(x/step)) * step)
}

// ConvenientBelow rounds x down to 1, 1.5, 2, 2.5, 3, 4, 5, 6 or 8 times a
// power of ten.
func ConvenientBelow(x float64) float64 { return below(x, 8, 6, 5, 4, 3, 2.5, 2, 1.5, 1) }

// ScaleBelow rounds x down to 1, 2 or 5 times a power of ten, for the steps of
// a scale that is drawn.
func ScaleBelow(x float64) float64 { return below(x, 5, 2, 1) }

func below(x float64, figures ...float64) float64 {
	if !(x > 0) {
		return 0
	}
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, figure := range figures {
		if figure*power <= x*(1+1e-9) {
			return settle(figure * power)
		}
	}
	return settle(power / 2) // x is a hair below a power that Log10 rounded up to
}
