package results

import (
	"math"

	"pourboard/blend/record"
)

// Shade is how far a mean lies from the lowest (0) to the highest (1) mean of all
// bodies, so that the maps of the bodies can be held against each other. Ratings go
// from the least to the most that can be given.
func (m *Measure) Shade(x float64) float64 {
	least, most := float64(record.LeastRating), float64(record.MostRating)
	if m.Field != record.RatingField {
		least, most = x, x
		for _, means := range m.Means {
			for _, mean := range means {
				if mean.N > 0 {
					least, most = min(least, mean.Value), max(most, mean.Value)
				}
			}
		}
	}
	if tied(least, most) {
		return 0
	}
	return (x - least) / (most - least)
}

// Places is how many digits after the point show so many significant digits of x,
// at most 9.
func Places(x float64, digits int) int {
	if x == 0 || math.IsInf(x, 0) {
		return 0
	}
	return min(9, max(0, digits-1-int(math.Floor(math.Log10(math.Abs(x))))))
}
