package mixmodel

import "slices"

// Node is a point of a surface's lattice.
type Node struct {
	Shares []float64
	Prediction
}

// Surface is a model's prediction over the triangle of three ends, on a
// simplex lattice, for drawing.
type Surface struct {
	// Corners are the shares at the corners of the triangle drawn: the least
	// that holds all cups read and has each end's corner on that end's side.
	// They are the pure ends unless the design is zoomed in.
	Corners [3][]float64
	// Divisions of an edge.
	Divisions int
	// Nodes row by row as a triaxial design has its cells: from the first
	// corner, row r = 0 … Divisions with r + 1 nodes from second to third.
	Nodes []Node
}

// Surface predicts on a lattice of n divisions an edge; 40 to 80 draw smoothly.
// The design must be of shares of 3 ends, and have cups of two mixtures or more.
func (m *Model) Surface(n int) Surface {
	least := m.design.hull.low
	free := 1 - least[0] - least[1] - least[2]
	s := Surface{Divisions: n}
	for i := range s.Corners {
		s.Corners[i] = slices.Clone(least)
		s.Corners[i][i] += free
	}
	for r := range n + 1 {
		for j := range r + 1 {
			shares := slices.Clone(least)
			for i, steps := range []int{n - r, r - j, j} {
				shares[i] += free * float64(steps) / float64(n)
			}
			s.Nodes = append(s.Nodes, Node{shares, m.predict(shares, nil)})
		}
	}
	return s
}

// edge of the lattice, between two nodes, the lower number first.
type edge [2]int

// Contour is the lines on which a value of the surface, its mean or its error, has
// a level: polylines of points in shares, within the cups read; a closed one ends
// with its first point. It goes through the small triangles of the lattice: in each
// that the level crosses it enters by one edge and leaves by another.
func (s Surface) Contour(level float64, value func(Prediction) float64) (lines [][][]float64) {
	at := func(node int) float64 { return value(s.Nodes[node].Prediction) }
	next := map[edge][]edge{}
	var order []edge // so that the lines come out the same every time
	for _, corners := range s.triangles() {
		var crossed []edge
		for i, a := range corners {
			b := corners[(i+1)%3]
			if (at(a) >= level) != (at(b) >= level) {
				crossed = append(crossed, edge{min(a, b), max(a, b)})
			}
		}
		for i, e := range crossed { // none or two
			if next[e] == nil {
				order = append(order, e)
			}
			next[e] = append(next[e], crossed[1-i])
		}
	}
	done := map[edge]bool{}
	for _, ends := range []int{1, 2} { // lines from border to border, then closed ones
		for _, start := range order {
			if done[start] || len(next[start]) != ends {
				continue
			}
			var line [][]float64
			for e, more := start, true; more; {
				done[e] = true
				line = append(line, s.crossing(e, level, at))
				to := slices.IndexFunc(next[e], func(to edge) bool { return !done[to] })
				if more = to >= 0; more {
					e = next[e][to]
				}
			}
			if ends == 2 {
				line = append(line, line[0])
			}
			lines = append(lines, line)
		}
	}
	return lines
}

// triangles lists the small triangles of the lattice within the cups read, by
// their nodes.
func (s Surface) triangles() (all [][3]int) {
	add := func(a, b, c int) {
		if s.Nodes[a].Inside && s.Nodes[b].Inside && s.Nodes[c].Inside {
			all = append(all, [3]int{a, b, c})
		}
	}
	for r := range s.Divisions {
		for j := range r + 1 {
			top := r*(r+1)/2 + j
			below := top + r + 1
			add(top, below, below+1)
			if j < r {
				add(top, top+1, below+1)
			}
		}
	}
	return all
}

// crossing is where the level lies on an edge, in proportion to the values of its
// nodes.
func (s Surface) crossing(e edge, level float64, at func(node int) float64) []float64 {
	t := (level - at(e[0])) / (at(e[1]) - at(e[0]))
	point := make([]float64, 3)
	for i := range point {
		point[i] = (1-t)*s.Nodes[e[0]].Shares[i] + t*s.Nodes[e[1]].Shares[i]
	}
	return point
}
