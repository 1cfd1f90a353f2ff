package blend

import (
	"cmp"
	"fmt"
	"math/bits"
	"slices"
)

// point is one cell of a design before anything is poured.
type point struct {
	row, column, layer int
	shares             []float64 // family A: by end; family B: by series, where its step lies
}

// LatticeCount is the number of points of the simplex lattice {q,m},
// C(q+m−1, m), or MaxCells+1 when it is larger than that (NIST/SEMATECH
// e-Handbook of Statistical Methods, 5.5.4.2).
func LatticeCount(q, m int) int {
	if q < 1 || m < 0 {
		return 0
	}
	n := int64(1) // an int may have 32 bits
	for i := 1; i < q; i++ {
		if m > 10*MaxCells {
			return MaxCells + 1
		}
		n = n * int64(m+i) / int64(i)
		if n > MaxCells {
			return MaxCells + 1
		}
	}
	return int(n)
}

// Count is the number of cells before bounds and interior take any away. It is
// computed, not counted, so that a plan of a million cells costs nothing; more
// than MaxCells is given as MaxCells+1.
func (b Blend) Count() int {
	n := 0
	switch b.Kind {
	case Line:
		n = b.Cells
		if b.HasSeries() {
			n = len(b.Series[0].Percents)
		}
	case Biaxial:
		c, r := b.grid()
		if c > MaxCells || r > MaxCells {
			return MaxCells + 1
		}
		n = int(min(int64(c)*int64(r), MaxCells+1))
	case Triaxial:
		n = LatticeCount(3, b.Divisions)
	case Quadraxial:
		n = LatticeCount(4, b.Divisions)
	case List:
		n = len(b.Parts)
	case Centroid:
		n = 1<<len(b.Ends) - 1
	}
	return min(n, MaxCells+1)
}

// grid is the columns and rows of a biaxial.
func (b Blend) grid() (columns, rows int) {
	if b.HasSeries() {
		return len(b.Series[0].Percents), len(b.Series[1].Percents)
	}
	return b.Columns, b.Rows
}

// points lays out the design in the order in which its cells are numbered.
func (b Blend) points() ([]point, error) {
	n := b.Count()
	if n > MaxCells {
		return nil, fmt.Errorf("more than %d cups", MaxCells)
	}
	if n < 1 || (b.Kind == Triaxial || b.Kind == Quadraxial) && b.Divisions < 1 {
		return nil, fmt.Errorf("a %s without cups", b.Kind)
	}
	q := len(b.Ends)
	if b.HasSeries() {
		q = len(b.Series)
	}
	flat := make([]float64, 0, n*q)
	all := make([]point, 0, n)
	add := func(row, column, layer int, shares ...float64) {
		start := len(flat)
		flat = append(flat, shares...)
		all = append(all, point{row: row, column: column, layer: layer, shares: flat[start:len(flat):len(flat)]})
	}
	switch b.Kind {
	case Line:
		for i := range n {
			if b.HasSeries() {
				add(0, i, 0, b.Series[0].Percents[i])
				continue
			}
			second := along(i, n)
			add(0, i, 0, 1-second, second)
		}
	case Biaxial:
		columns, rows := b.grid()
		for r := range rows {
			for c := range columns {
				if b.HasSeries() {
					add(r, c, 0, b.Series[0].Percents[c], b.Series[1].Percents[r])
					continue
				}
				u, v := along(c, columns), along(r, rows)
				add(r, c, 0, (1-u)*(1-v), u*(1-v), (1-u)*v, u*v)
			}
		}
	case Triaxial:
		m := b.Divisions
		for r := range m + 1 {
			for j := range r + 1 {
				add(r, j, 0, of(m-r, m), of(r-j, m), of(j, m))
			}
		}
	case Quadraxial:
		m := b.Divisions
		for k := range m + 1 {
			for r := range m - k + 1 {
				for j := range r + 1 {
					add(r, j, k, of(m-k-r, m), of(r-j, m), of(j, m), of(k, m))
				}
			}
		}
	case List:
		for i, parts := range b.Parts {
			add(0, i, 0, ofSum(parts)...)
		}
	case Centroid:
		for size := 1; size <= q; size++ {
			for column, set := range subsets(q, size) {
				add(size-1, column, 0, inEqualParts(set, q)...)
			}
		}
	default:
		return nil, fmt.Errorf("no design is called %q", b.Kind)
	}
	b.zoom(all)
	all = b.within(all)
	if len(all) == 0 {
		return nil, fmt.Errorf("no cup is left inside the bounds")
	}
	return all, nil
}

// ofSum is parts as shares of their sum.
func ofSum(parts []float64) []float64 {
	sum := 0.0
	for _, x := range parts {
		sum += x
	}
	shares := make([]float64, len(parts))
	for e, x := range parts {
		shares[e] = x / sum
	}
	return shares
}

// inEqualParts is the shares of q ends of which those of a set, a bit mask, are
// alike and the others 0.
func inEqualParts(set, q int) []float64 {
	shares := make([]float64, q)
	for e := range shares {
		if set&(1<<e) != 0 {
			shares[e] = 1 / float64(bits.OnesCount(uint(set)))
		}
	}
	return shares
}

// along is the place of step i of n between 0 and 1; a single step lies at 0.
func along(i, n int) float64 {
	if n < 2 {
		return 0
	}
	return of(i, n-1)
}

func of(part, whole int) float64 { return float64(part) / float64(whole) }

// subsets lists the sets of size out of q ends as bit masks, in the order of
// the handbook: with the earliest ends first.
func subsets(q, size int) []int {
	var all []int
	for set := 1; set < 1<<q; set++ {
		if bits.OnesCount(uint(set)) == size {
			all = append(all, set)
		}
	}
	// Ends are bits, the earliest the lowest: the first set has the lowest bit in
	// which two differ.
	slices.SortFunc(all, func(a, b int) int {
		differ := a ^ b
		lowest := differ & -differ
		return cmp.Compare(b&lowest, a&lowest)
	})
	return all
}

// tightened returns the bounds with the lower ones raised to what the upper
// ones of the other ends imply: of two ends, at most 60 % of one is at least
// 40 % of the other. Without bounds it returns nil.
func (b Blend) tightened() []Bound {
	if b.Bounds == nil {
		return nil
	}
	tight := make([]Bound, len(b.Bounds))
	for i, bound := range b.Bounds {
		rest := 0.0
		for j, other := range b.Bounds {
			if j != i {
				rest += other.Hi
			}
		}
		tight[i] = Bound{Lo: max(bound.Lo, 1-rest), Hi: bound.Hi}
	}
	return tight
}

// zoom lays the lattice over the simplex that the lower bounds leave: a share
// is Lᵢ + (1 − ΣL)·zᵢ with the pseudo-component zᵢ on the lattice
// (J. A. Cornell, Experiments with Mixtures; from memory).
func (b Blend) zoom(all []point) {
	bounds := b.tightened()
	room := 1.0
	for _, bound := range bounds {
		room -= bound.Lo
	}
	if bounds == nil || room == 1 {
		return
	}
	for _, p := range all {
		for i := range p.shares {
			p.shares[i] = bounds[i].Lo + room*p.shares[i]
		}
	}
}

// within leaves out the cells beyond an upper bound, and with Interior those
// that lack an end. A lattice point on a bound is inside it.
func (b Blend) within(all []point) []point {
	interior := b.Interior && !b.HasSeries()
	if b.Bounds == nil && !interior {
		return all
	}
	kept := all[:0]
	for _, p := range all {
		inside := true
		for i, x := range p.shares {
			inside = inside && (b.Bounds == nil || x <= b.Bounds[i].Hi+hair) && !(interior && x == 0)
		}
		if inside {
			kept = append(kept, p)
		}
	}
	return kept
}
