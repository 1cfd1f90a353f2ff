package results

import (
	"math"

	"pourboard/blend/mixmodel"
	"pourboard/blend/record"
)

// Best is a predicted mixture with the cell that comes nearest to it.
type Best struct {
	mixmodel.Best
	Cell   int  // number
	Is     bool // the mixture is that of the cell
	Beyond int  // of a rating: 1 where it is predicted above the scale, -1 below it
}

// beyond says on which side of the rating's scale a predicted mean lies by more than
// is printed.
func beyond(mean float64) int {
	const printed = 0.005
	switch {
	case mean > record.MostRating+printed:
		return 1
	case mean < record.LeastRating-printed:
		return -1
	}
	return 0
}

// best adds the nearest cell, the first of those that are equally near.
func (r *Results) best(b mixmodel.Best) *Best {
	points := make([][]float64, len(r.Test.Cells))
	for i := range points {
		points[i] = r.Point(i + 1)
	}
	// Percentages of series differ in size: each counts by its own range.
	wide := make([]float64, len(r.Ends))
	for i := range wide {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, p := range points {
			lo, hi = min(lo, p[i]), max(hi, p[i])
		}
		wide[i] = 1
		if r.Space == mixmodel.Percent && hi > lo {
			wide[i] = hi - lo
		}
	}
	near, cell := math.Inf(1), 0
	for i, p := range points {
		var squares float64
		for e, x := range p {
			squares += (x - b.Point[e]) * (x - b.Point[e]) / (wide[e] * wide[e])
		}
		if squares < near-1e-12 {
			near, cell = squares, i+1
		}
	}
	return &Best{Best: b, Cell: cell, Is: near < 1e-12}
}
