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

// Line is a contour with how many digits after the point its level is written with.
type Line struct {
	mixmodel.Contour
	Decimals int
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
	surface, err := m.Choice.Chosen.Surface(chartDivisions)
	if err != nil {
		return Chart{}, false
	}
	c.Surface = surface
	c.Means = contours(surface, surface.MeanContours, func(n mixmodel.Node) float64 { return n.Mean })
	c.Errors = contours(surface, surface.SEContours, func(n mixmodel.Node) float64 { return n.SE })
	return c, true
}

// contours are those at every convenient step of 1, 2 or 5 times a power of
// ten between the least and the most within the cells read: four to twelve.
func contours(s mixmodel.Surface, at func(levels []float64) []mixmodel.Contour, of func(mixmodel.Node) float64) []Line {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, n := range s.Nodes {
		if n.Inside {
			lo, hi = min(lo, of(n)), max(hi, of(n))
		}
	}
	if !(lo < hi) || tied(lo, hi) {
		return nil
	}
	step := measure.ScaleBelow((hi - lo) / 5)
	var levels []float64
	for k := math.Ceil(lo / step); k*step <= hi; k++ {
		levels = append(levels, k*step)
	}
	var lines []Line
	for _, c := range at(levels) {
		if len(c.Lines) > 0 {
			lines = append(lines, Line{c, placesFor(step, 1)})
		}
	}
	return lines
}
