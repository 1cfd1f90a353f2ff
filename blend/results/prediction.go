package results

import (
	"math"
	"strconv"

	"pourboard/blend/mixmodel"
	"pourboard/blend/record"
)

// Best is a predicted mixture with the cell that comes nearest to it.
type Best struct {
	mixmodel.Best
	Cell   int    // number
	Is     bool   // the mixture is that of the cell
	Beyond string // of a rating that is predicted above or below the scale: which end that is beyond
}

// beyond says which end of the rating's scale a predicted mean lies beyond by
// more than is printed, or nothing.
func beyond(mean float64) string {
	const printed = 0.005
	switch {
	case mean > record.MostRating+printed:
		return "above the scale, which ends at " + strconv.Itoa(record.MostRating)
	case mean < record.LeastRating-printed:
		return "below the scale, which begins at " + strconv.Itoa(record.LeastRating)
	}
	return ""
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
