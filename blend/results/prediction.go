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
	wide := make([]float64, len(r.Ends)) // series differ in size: each counts by its most
	for cell := range r.Test.Cells {
		for i, x := range r.Point(cell + 1) {
			wide[i] = max(wide[i], x)
		}
	}
	near, cell := math.Inf(1), 0
	for i := range r.Test.Cells {
		var squares float64
		for e, x := range r.Point(i + 1) {
			step := (x - b.Point[e]) / max(wide[e], 1e-9)
			squares += step * step
		}
		if squares < near-1e-12 {
			near, cell = squares, i+1
		}
	}
	return &Best{Best: b, Cell: cell, Is: near < 1e-12}
}
