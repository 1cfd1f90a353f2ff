package design

import (
	"cmp"
	"slices"
)

// Neighbours returns each two cups that lie one step apart along an axis of the
// design, as indexes into its points, the lower first, in ascending order. Lists
// and centroid designs have no axes; a cup that is made again has no neighbour.
func (b Blend) Neighbours(all []Point) (pairs [][2]int) {
	all = all[:len(all)-len(b.Repeat)]
	for _, line := range b.axes(all) {
		slices.SortStableFunc(line, func(a, b onAxis) int { return cmp.Compare(a.at, b.at) })
		for n := 1; n < len(line); n++ {
			a, b := line[n-1].cup, line[n].cup
			pairs = append(pairs, [2]int{min(a, b), max(a, b)})
		}
	}
	slices.SortFunc(pairs, func(a, b [2]int) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	return pairs
}

// onAxis is a cup, by index, and where it lies along an axis.
type onAxis struct {
	cup int
	at  float64
}

// axes are the lines of cups along the axes of the design.
func (b Blend) axes(all []Point) [][]onAxis {
	switch b.Kind {
	case List, Centroid:
		return nil
	case Pairs:
		return b.pairAxes(all)
	case Rows:
		return b.rowAxes(all)
	}
	var lines [][]onAxis
	for _, step := range b.steps() {
		index := map[[3]float64]int{} // of the line through a place
		for i, p := range all {
			if p.Again != 0 {
				continue
			}
			place := b.place(p)
			at := place[slices.Index(step[:], 1)]
			for k, d := range step {
				place[k] -= at * d
			}
			n, ok := index[place]
			if !ok {
				n = len(lines)
				index[place], lines = n, append(lines, nil)
			}
			lines[n] = append(lines[n], onAxis{i, at})
		}
	}
	return lines
}

// place is the layer, row and column of a point. Percentages of a series may be
// written in any order and are neighbours by size, so they are places themselves.
func (b Blend) place(p Point) [3]float64 {
	place := [3]float64{float64(p.Layer), float64(p.Row), float64(p.Column)}
	if b.HasSeries() && b.Kind != Triaxial {
		for k, percent := range p.Shares {
			place[2-k] = percent
		}
	}
	return place
}

// steps are the steps to a neighbour: layers, rows, columns.
func (b Blend) steps() [][3]float64 {
	steps := [][3]float64{{0, 0, 1}, {0, 1, 0}}
	switch b.Kind {
	case Triaxial:
		steps = append(steps, [3]float64{0, 1, 1})
	case Quadraxial:
		// One share of the fourth end is taken from the first, second or third.
		steps = append(steps, [3]float64{0, 1, 1}, [3]float64{1, 0, 0}, [3]float64{1, -1, 0}, [3]float64{1, -1, -1})
	}
	return steps
}

// rowAxes are the rows, each from the base alone that all share, where they do.
func (b Blend) rowAxes(all []Point) [][]onAxis {
	lines := make([][]onAxis, len(b.Series))
	for i, p := range all {
		for k := range lines {
			if shared := b.SharedZero && i == 0; shared || p.Again == 0 && p.Row == k+b.firstRow() {
				lines[k] = append(lines[k], onAxis{i, p.Shares[k]})
			}
		}
	}
	return lines
}

// pairAxes are the pairs, each from one end alone to the other where there are
// such cups.
func (b Blend) pairAxes(all []Point) (lines [][]onAxis) {
	for first := range b.Ends {
		for second := first + 1; second < len(b.Ends); second++ {
			var line []onAxis
			for i, p := range all {
				if p.Again == 0 && p.Shares[first]+p.Shares[second] > 1-hair {
					line = append(line, onAxis{i, p.Shares[second]})
				}
			}
			lines = append(lines, line)
		}
	}
	return lines
}
