package results

import (
	"math"

	"pourboard/blend/measure"
	"pourboard/blend/mixmodel"
)

// Chart is a model's prediction over the triangle of three ends, to be drawn.
type Chart struct {
	mixmodel.Surface
	Means  []Line // contours of the predicted mean
	Errors []Line // contours of its standard error
}

// Line is the contour of a level.
type Line struct {
	Level    float64
	Decimals int            // digits after the point that the level is written with
	Pieces   [][2][]float64 // straight, from one mixture to another, in shares
}

// chartDivisions of an edge of the triangle: fine enough that a contour drawn
// in straight pieces looks smooth on a page.
const chartDivisions = 60

// Chart draws a model up; ok is false when there is no prediction, or not three
// ends.
func (r *Results) Chart(m *Model) (c Chart, ok bool) {
	if m.Highest == nil || r.Space != mixmodel.Shares || len(r.Ends) != 3 {
		return Chart{}, false
	}
	s := m.Choice.Chosen.Surface(chartDivisions)
	return Chart{
		Surface: s,
		Means:   contours(s, func(p mixmodel.Prediction) float64 { return p.Mean }),
		Errors:  contours(s, func(p mixmodel.Prediction) float64 { return p.SE }),
	}, true
}

// contours are those at every convenient step of 1, 2 or 5 times a power of
// ten between the least and the most within the cells read: four to twelve.
func contours(s mixmodel.Surface, of func(mixmodel.Prediction) float64) (lines []Line) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, n := range s.Nodes {
		if n.Inside {
			lo, hi = min(lo, of(n.Prediction)), max(hi, of(n.Prediction))
		}
	}
	if !(lo < hi) || tied(lo, hi) {
		return nil
	}
	step := measure.ScaleBelow((hi - lo) / 5)
	for k := math.Ceil(lo / step); k*step <= hi; k++ {
		if pieces := s.Contour(k*step, of); pieces != nil {
			lines = append(lines, Line{k * step, Places(step, 1), pieces})
		}
	}
	return lines
}
