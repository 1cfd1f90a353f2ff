package mixmodel

import "slices"

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
	directions := [][]float64{nil}
	reach := []int{1, 1, 8, 3, 2}[len(h.low)] // whole numbers of each coordinate's range
	for i := range h.low {
		wide := h.high[i] - h.low[i]
		if wide <= 0 {
			wide = 1
		}
		var longer [][]float64
		for _, d := range directions {
			for k := -reach; k <= reach; k++ {
				longer = append(longer, append(slices.Clone(d), float64(k)/wide))
			}
		}
		directions = longer
	}
	for _, normal := range directions {
		most := inner(normal, points[0])
		for _, p := range points[1:] {
			most = max(most, inner(normal, p))
		}
		h.planes = append(h.planes, plane{normal, most + within})
	}
	return h
}

// contains says whether the point lies in the hull or on its border.
func (h *hull) contains(p []float64) bool {
	for _, bound := range h.planes {
		if inner(bound.normal, p) > bound.most {
			return false
		}
	}
	return true
}

// grid is the points read and those of a grid between them: of shares a simplex
// lattice laid over what was read, of percentages even steps of each.
func (h *hull) grid(space Space) [][]float64 {
	if h.nodes != nil {
		return h.nodes
	}
	lattice := h.steps
	if space == Shares {
		lattice = h.shares
	}
	h.nodes = slices.Clone(h.points)
	for _, point := range lattice() {
		if h.contains(point) {
			h.nodes = append(h.nodes, point)
		}
	}
	return h.nodes
}

// shares is the lattice over the least simplex that holds the points.
func (h *hull) shares() [][]float64 {
	free := 1.0
	for _, v := range h.low {
		free -= v
	}
	var all [][]float64
	for _, weights := range lattice(len(h.low), divisions(len(h.low)-1)) {
		point := slices.Clone(h.low)
		for i, w := range weights {
			point[i] += free * w
		}
		all = append(all, point)
	}
	return all
}

// steps is the grid over the least box that holds the points.
func (h *hull) steps() [][]float64 {
	all := [][]float64{nil}
	n := divisions(len(h.low))
	for i := range h.low {
		var longer [][]float64
		for _, point := range all {
			for k := range n + 1 {
				longer = append(longer, append(slices.Clone(point), h.low[i]+(h.high[i]-h.low[i])*float64(k)/float64(n)))
			}
		}
		all = longer
	}
	return all
}

// divisions of the grid in so many dimensions: a percent of a line, a hundredth
// or two of more, some thousands of points in all.
func divisions(dims int) int { return []int{1, 100, 60, 20}[dims] }

func inner(a, b []float64) float64 {
	var sum float64
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}
