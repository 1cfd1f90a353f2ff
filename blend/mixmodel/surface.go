package mixmodel

import (
	"errors"
	"slices"
)

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

// Contour is the lines on which a surface has one value.
type Contour struct {
	Level float64
	// Lines are polylines of points in shares, within the cups read; a closed
	// one ends with its first point.
	Lines [][][]float64
}

// Surface predicts on a lattice of n divisions an edge, n ≥ 1; 40 to 80 draw
// smoothly. Nodes outside the cups read are marked so by Inside.
func (m *Model) Surface(n int) (Surface, error) {
	d := m.design
	if d.Space != Shares || len(d.Names) != 3 {
		return Surface{}, errors.New("only a blend of 3 ends has a triangle to draw")
	}
	if n < 1 {
		return Surface{}, errors.New("a triangle needs 1 division or more")
	}
	least := slices.Clone(d.Cups[0].Point)
	for _, cup := range d.Cups {
		for i, v := range cup.Point {
			least[i] = min(least[i], v)
		}
	}
	free := 1 - least[0] - least[1] - least[2]
	if free < within {
		return Surface{}, errors.New("all cups are of one mixture: there is no triangle to draw")
	}
	s := Surface{Divisions: n}
	for i := range s.Corners {
		s.Corners[i] = slices.Clone(least)
		s.Corners[i][i] += free
	}
	for _, weights := range lattice(3, n) {
		shares := blend(s.Corners[:], weights)
		p := m.predict(shares, nil)
		p.Inside = d.ends.contains(shares)
		s.Nodes = append(s.Nodes, Node{shares, p})
	}
	return s, nil
}

// MeanContours are the contours of the predicted mean.
func (s Surface) MeanContours(levels []float64) []Contour {
	return s.contours(levels, func(p Prediction) float64 { return p.Mean })
}

// SEContours are the contours of the standard error of the mean.
func (s Surface) SEContours(levels []float64) []Contour {
	return s.contours(levels, func(p Prediction) float64 { return p.SE })
}

func (s Surface) contours(levels []float64, value func(Prediction) float64) []Contour {
	values := make([]float64, len(s.Nodes))
	for i, node := range s.Nodes {
		values[i] = value(node.Prediction)
	}
	contours := make([]Contour, len(levels))
	for k, level := range levels {
		contours[k].Level = level
		contours[k].Lines = s.trace(values, level)
	}
	return contours
}

// edge of the lattice, between two nodes, the lower number first.
type edge [2]int

// trace follows a level through the small triangles of the lattice: in each
// that it crosses it enters by one edge and leaves by another, at the place
// that lies as the level does between the values of the edge's nodes.
func (s Surface) trace(values []float64, level float64) [][][]float64 {
	next := map[edge][]edge{}
	var order []edge // so that the lines come out the same every time
	for _, corners := range s.triangles() {
		var crossed []edge
		for i, a := range corners {
			b := corners[(i+1)%3]
			if (values[a] >= level) != (values[b] >= level) {
				crossed = append(crossed, edge{min(a, b), max(a, b)})
			}
		}
		if len(crossed) == 2 {
			for i, e := range crossed {
				if next[e] == nil {
					order = append(order, e)
				}
				next[e] = append(next[e], crossed[1-i])
			}
		}
	}
	done := map[edge]bool{}
	var lines [][][]float64
	follow := func(start edge) {
		var line [][]float64
		for e, more := start, true; more; {
			done[e] = true
			line = append(line, s.crossing(e, values, level))
			more = false
			for _, to := range next[e] {
				if !done[to] {
					e, more = to, true
					break
				}
			}
		}
		if len(next[start]) == 2 {
			line = append(line, line[0])
		}
		lines = append(lines, line)
	}
	for _, ends := range []int{1, 2} { // lines from border to border, then closed ones
		for _, e := range order {
			if !done[e] && len(next[e]) == ends {
				follow(e)
			}
		}
	}
	return lines
}

// triangles lists the small triangles of the lattice within the cups read, by
// their nodes.
func (s Surface) triangles() [][3]int {
	var all [][3]int
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

func (s Surface) crossing(e edge, values []float64, level float64) []float64 {
	t := (level - values[e[0]]) / (values[e[1]] - values[e[0]])
	return blend([][]float64{s.Nodes[e[0]].Shares, s.Nodes[e[1]].Shares}, []float64{1 - t, t})
}
