package results

import "pourboard/blend"

// Tied is for the tests, which lie outside the package so that they may print
// results in words.
var Tied = tied

// FitWithoutFiring models a column of several logs as if all were of one firing.
func FitWithoutFiring(all []*Results, head string) Model {
	samples := measured(all, head)
	for i := range samples {
		samples[i].firing = ""
	}
	return all[0].fit(samples, AllBodies, true)
}

// PointOf is where a cell of a test lies.
func PointOf(t *blend.Test, cell int) []float64 { return (&Results{Test: t}).Point(cell) }
