package results

import "math"

// placesFor is how many digits after the point show so many significant digits
// of x, at most 9.
func placesFor(x float64, digits int) int {
	if x == 0 || math.IsInf(x, 0) {
		return 0
	}
	return min(9, max(0, digits-1-int(math.Floor(math.Log10(math.Abs(x))))))
}
