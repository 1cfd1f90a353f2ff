package design

import (
	"cmp"
	"slices"
)

// Neighbours calls yield for each two cups that lie one step apart along an
// axis of the design, as indexes into its points with a < b. Lists and centroid
// designs have no axes; a cup that is made again is no neighbour.
func (s Spec) Neighbours(all []Point, yield func(a, b int)) {
	all = all[:len(all)-len(s.Repeat)]
	switch s.Kind {
	case List, Centroid:
	case Pairs:
		s.pairNeighbours(all, yield)
	case Rows:
		s.rowNeighbours(all, yield)
	default:
		s.gridNeighbours(all, yield)
	}
}

// gridNeighbours goes by the places of a line, a rectangle or a lattice.
func (s Spec) gridNeighbours(all []Point, yield func(a, b int)) {
	var layers, rows, columns int
	for _, p := range all {
		layers, rows, columns = max(layers, p.Layer+1), max(rows, p.Row+1), max(columns, p.Column+1)
	}
	at := make([]int32, layers*rows*columns) // 0 is no cup, otherwise its number
	place := func(layer, row, column int) int {
		if layer < 0 || row < 0 || column < 0 || layer >= layers || row >= rows || column >= columns {
			return -1
		}
		return (layer*rows+row)*columns + column
	}
	rankRow, rankColumn := s.ranks(rows, columns)
	for i, p := range all {
		if p.Again == 0 {
			at[place(p.Layer, rankRow[p.Row], rankColumn[p.Column])] = int32(i + 1)
		}
	}
	for i, p := range all {
		if p.Again != 0 {
			continue
		}
		for _, step := range s.steps() {
			to := place(p.Layer+step[0], rankRow[p.Row]+step[1], rankColumn[p.Column]+step[2])
			if to >= 0 && at[to] > 0 {
				yield(min(i, int(at[to])-1), max(i, int(at[to])-1))
			}
		}
	}
}

// steps are the steps to a neighbour: layers, rows, columns.
func (s Spec) steps() [][3]int {
	steps := [][3]int{{0, 0, 1}, {0, 1, 0}}
	switch s.Kind {
	case Triaxial:
		steps = append(steps, [3]int{0, 1, 1})
	case Quadraxial:
		// One share of the fourth end is taken from the first, second or third.
		steps = append(steps, [3]int{0, 1, 1}, [3]int{1, 0, 0}, [3]int{1, -1, 0}, [3]int{1, -1, -1})
	}
	return steps
}

// ranks is the places of rows and columns along the axes of the design: as they
// are, but for a series, whose percentages may be written in any order and are
// neighbours by size. Equal ones have one rank.
func (s Spec) ranks(rows, columns int) (row, column []int) {
	row, column = upTo(rows), upTo(columns)
	if s.dosed() && s.Kind != Triaxial {
		column = bySize(s.Series[0])
		if s.Kind == Biaxial {
			row = bySize(s.Series[1])
		}
	}
	return row, column
}

// bySize is the rank of each percentage, from 0; equal ones have one rank.
func bySize(percents []float64) []int {
	order := upTo(len(percents))
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(percents[a], percents[b]) })
	rank := make([]int, len(percents))
	for n, i := range order {
		if n > 0 {
			rank[i] = rank[order[n-1]]
			if percents[i] > percents[order[n-1]] {
				rank[i]++
			}
		}
	}
	return rank
}

func upTo(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

// chain yields the neighbours along cups (indexes) that lie on one line, ordered
// by a value of theirs.
func chain(cups []int, value func(i int) float64, yield func(a, b int)) {
	slices.SortStableFunc(cups, func(a, b int) int { return cmp.Compare(value(a), value(b)) })
	for n := 1; n < len(cups); n++ {
		yield(min(cups[n-1], cups[n]), max(cups[n-1], cups[n]))
	}
}

// rowNeighbours goes along each row, from the base alone that all share, where
// they do.
func (s Spec) rowNeighbours(all []Point, yield func(a, b int)) {
	first := 0
	if s.SharedZero {
		first = 1
	}
	for series := range s.Series {
		var cups []int
		for i, p := range all {
			if p.Again == 0 && (p.Row == first+series || s.SharedZero && i == 0) {
				cups = append(cups, i)
			}
		}
		chain(cups, func(i int) float64 { return all[i].Shares[series] }, yield)
	}
}

// pairNeighbours goes along each pair, from one end alone to the other where
// there are such cups.
func (s Spec) pairNeighbours(all []Point, yield func(a, b int)) {
	each := len(s.Shares)
	alone := s.Ends * (s.Ends - 1) / 2 * each
	start := 0
	for a := range s.Ends {
		for b := a + 1; b < s.Ends; b++ {
			cups := make([]int, 0, each+2)
			for k := range each {
				cups = append(cups, start+k)
			}
			start += each
			if s.Alone {
				cups = append(cups, alone+a, alone+b)
			}
			chain(cups, func(i int) float64 { return all[i].Shares[b] }, yield)
		}
	}
}
