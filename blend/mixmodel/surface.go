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

// Contour is the lines on which a value of the surface, its mean or its error, has
// a level, within the cups read: a straight piece, from one mixture to another, for
// each small triangle of the lattice that the level crosses.
func (s Surface) Contour(level float64, value func(Prediction) float64) (pieces [][2][]float64) {
	for _, corners := range s.triangles() {
		var piece [][]float64
		for i, k := range corners {
			a, b := s.Nodes[k], s.Nodes[corners[(i+1)%3]]
			x, y := value(a.Prediction), value(b.Prediction)
			if (x >= level) == (y >= level) {
				continue
			}
			crossing := make([]float64, 3)
			for e := range crossing {
				crossing[e] = a.Shares[e] + (b.Shares[e]-a.Shares[e])*(level-x)/(y-x)
			}
			piece = append(piece, crossing)
		}
		if len(piece) == 2 {
			pieces = append(pieces, [2][]float64(piece))
		}
	}
	return pieces
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
