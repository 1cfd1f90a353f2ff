package results

import (
	"math"

	"pourboard/blend/record"
)

// Places is how many digits after the point show so many significant digits of x,
// at most 9.
func Places(x float64, digits int) int {
	if x == 0 || math.IsInf(x, 0) {
		return 0
	}
	return min(9, max(0, digits-1-int(math.Floor(math.Log10(math.Abs(x))))))
}

// Class is one of the classes that a map is drawn in: a range of values with a
// step of grey and as many squares, so that it is told without
// colour.
type Class struct {
	Lo, Hi   float64 // from Lo to below Hi; the highest class holds its Hi too
	Decimals int     // digits after the point that the limits are printed with
}

// classes is how many there are, unless all values are alike.
const classes = 5

// classify gives every mean its class. Ratings have a class for each: a mean of
// repeats goes to the nearest, halves upward. Numbers have classes of equal
// width from the lowest to the highest mean of all bodies, so that the maps of
// the bodies can be held against each other; the limits are the rounded ones
// that are printed, so that the map keeps to its own legend.
func (m *Measure) classify() {
	if m.Field == record.RatingField {
		for rating := record.LeastRating; rating <= record.MostRating; rating++ {
			lo, hi := float64(rating)-0.5, float64(rating)+0.5
			m.Classes = append(m.Classes, Class{Lo: lo, Hi: hi})
		}
	} else {
		m.Classes = m.equalClasses()
	}
	for _, means := range m.Means {
		for i := range means {
			means[i].Class = -1
			if means[i].N > 0 {
				means[i].Class = m.class(means[i].Value)
			}
		}
	}
}

func (m *Measure) class(x float64) int {
	k := 0
	for k+1 < len(m.Classes) && x >= m.Classes[k+1].Lo {
		k++
	}
	return k
}

func (m *Measure) equalClasses() []Class {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, means := range m.Means {
		for _, mean := range means {
			if mean.N > 0 {
				lo, hi = min(lo, mean.Value), max(hi, mean.Value)
			}
		}
	}
	if tied(lo, hi) {
		return []Class{{Lo: lo, Hi: hi, Decimals: m.Decimals + 1}}
	}
	// Two significant digits of the width keep the limits apart and even.
	decimals := Places((hi-lo)/classes, 2)
	scale := math.Pow(10, float64(decimals))
	lo, hi = math.Floor(lo*scale)/scale, math.Ceil(hi*scale)/scale
	limit := func(k int) float64 {
		return math.Round((lo+(hi-lo)*float64(k)/classes)*scale) / scale
	}
	var all []Class
	for k := range classes {
		all = append(all, Class{Lo: limit(k), Hi: limit(k + 1), Decimals: decimals})
	}
	return all
}
