package mixmodel

import (
	"slices"

	"gonum.org/v1/gonum/floats"
)

// hull is where a model is trusted: the convex hull of the mixtures that were
// read, as bounded by planes in a fixed fan of directions. Lattices, zoomed in or
// cut by bounds, and steps of percentages are bounded by them exactly; what a
// list of odd mixtures holds is at most a hundredth or so too wide.
type hull struct {
	points    [][]float64
	low, high []float64
	planes    []plane
	nodes     [][]float64 // of the grid, once it was asked for
}

// A plane bounds the hull: normal·x ≤ most for every x inside.
type plane struct {
	normal []float64
	most   float64
}

// within is the slack of a plane, in widths of the hull: a share typed with six
// decimals is inside.
const within = 1e-5

// newHull is the hull of different points, one or more.
func newHull(points [][]float64) *hull {
	h := &hull{points: points, low: slices.Clone(points[0]), high: slices.Clone(points[0])}
	for _, p := range points {
		for i, v := range p {
			h.low[i], h.high[i] = min(h.low[i], v), max(h.high[i], v)
		}
	}
	reach := []int{1, 1, 8, 3, 2}[len(h.low)] // whole numbers of each coordinate's range
	slopes := make([][]float64, len(h.low))
	for i := range slopes {
		wide := h.high[i] - h.low[i]
		if wide <= 0 {
			wide = 1
		}
		for k := -reach; k <= reach; k++ {
			slopes[i] = append(slopes[i], float64(k)/wide)
		}
	}
	for _, normal := range box(slopes) {
		most := floats.Dot(normal, points[0])
		for _, p := range points[1:] {
			most = max(most, floats.Dot(normal, p))
		}
		h.planes = append(h.planes, plane{normal, most + within})
	}
	return h
}

// contains says whether the point lies in the hull or on its border.
func (h *hull) contains(p []float64) bool {
	return !slices.ContainsFunc(h.planes, func(bound plane) bool { return floats.Dot(bound.normal, p) > bound.most })
}

// grid is the points read and those between them of even steps in each coordinate;
// of shares the last one is what the others leave.
func (h *hull) grid(space Space) [][]float64 {
	if h.nodes != nil {
		return h.nodes
	}
	free := len(h.low)
	if space == Shares {
		free--
	}
	n := []int{1, 100, 60, 20}[free] // some thousands of points in all
	steps := make([][]float64, free)
	for i := range steps {
		for k := range n + 1 {
			steps[i] = append(steps[i], h.low[i]+(h.high[i]-h.low[i])*float64(k)/float64(n))
		}
	}
	h.nodes = slices.Clone(h.points)
	for _, point := range box(steps) {
		if space == Shares {
			rest := 1.0
			for _, v := range point {
				rest -= v
			}
			point = append(point, rest)
		}
		if h.contains(point) {
			h.nodes = append(h.nodes, point)
		}
	}
	return h.nodes
}

// box is every point that has one of the values of each axis.
func box(axes [][]float64) [][]float64 {
	all := [][]float64{nil}
	for _, axis := range axes {
		var longer [][]float64
		for _, point := range all {
			for _, v := range axis {
				longer = append(longer, append(slices.Clone(point), v))
			}
		}
		all = longer
	}
	return all
}
