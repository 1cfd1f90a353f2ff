package design

import (
	"fmt"
	"math/bits"
	"slices"
)

// points gathers the points of a design.
type points []Point

func (p *points) add(row, column, layer int, shares ...float64) {
	*p = append(*p, Point{Row: row, Column: column, Layer: layer, Shares: slices.Clone(shares)})
}

// Points lays out the design in the order in which its cups are numbered. The
// error says why there are no cups, or that there are too many.
func (s Spec) Points() ([]Point, error) {
	lay, ok := map[Kind]func(*points){
		Line: s.line, Biaxial: s.biaxial, Triaxial: s.lattice, Quadraxial: s.lattice,
		List: s.list, Centroid: s.centroid, Pairs: s.pairs, Rows: s.rows,
	}[s.Kind]
	if !ok {
		return nil, fmt.Errorf("no design is called %q", s.Kind)
	}
	if err := s.check(); err != nil {
		return nil, err
	}
	p := make(points, 0, s.Count())
	lay(&p)
	s.zoom(p)
	all := s.within(p)
	if len(all) == 0 {
		return nil, fmt.Errorf("no cup is left inside the bounds")
	}
	s.findAgain(all)
	return s.repeated(all)
}

// line has as many cups as there will be: without its ends it has no less.
func (s Spec) line(p *points) {
	if s.dosed() {
		for i, x := range s.Series[0] {
			p.add(0, i, 0, x)
		}
		return
	}
	first, n := s.LineSteps()
	for i := range s.Cells {
		second := along(first+i, n)
		p.add(0, i, 0, 1-second, second)
	}
}

// LineSteps returns how many points a line of two ends has from bound to bound,
// and which of them is its first cup, from 0: without its ends it has as many
// cups and more points.
func (s Spec) LineSteps() (first, points int) {
	points = s.Cells
	if !s.Interior {
		return 0, points
	}
	// An end glaze that has a lower bound is in every cup already.
	bounds := s.Tightened()
	if bounds == nil || bounds[1].Lo == 0 {
		first, points = 1, points+1
	}
	if bounds == nil || bounds[0].Lo == 0 {
		points++
	}
	return first, points
}

// biaxial goes row by row from the top; shares are bilinear.
func (s Spec) biaxial(p *points) {
	columns, rows := s.grid()
	for r := range rows {
		for c := range columns {
			if s.dosed() {
				p.add(r, c, 0, s.Series[0][c], s.Series[1][r])
				continue
			}
			u, v := along(c, columns), along(r, rows)
			p.add(r, c, 0, (1-u)*(1-v), u*(1-v), (1-u)*v, u*v)
		}
	}
}

// lattice goes by layers of a quadraxial, of which a triaxial has one.
func (s Spec) lattice(p *points) {
	m, layers := s.Divisions, 0
	if s.Kind == Quadraxial {
		layers = m
	}
	for k := range layers + 1 {
		for r := range m - k + 1 {
			for j := range r + 1 {
				shares := []float64{of(m-k-r, m), of(r-j, m), of(j, m), of(k, m)}
				p.add(r, j, k, shares[:s.parts()]...)
			}
		}
	}
}

// list has the parts of each cup as shares of their sum.
func (s Spec) list(p *points) {
	for i, parts := range s.Parts {
		sum := 0.0
		for _, x := range parts {
			sum += x
		}
		shares := slices.Clone(parts)
		for e := range shares {
			shares[e] /= sum
		}
		p.add(0, i, 0, shares...)
	}
}

// centroid has a row for each size of set, in it the sets in the order of the
// handbook, the earliest ends first; ends of a set have equal shares. A set is a
// bit mask whose highest bit is the first end.
func (s Spec) centroid(p *points) {
	for size := 1; size <= s.Ends; size++ {
		column := 0
		for set := uint(1)<<s.Ends - 1; set > 0; set-- {
			if bits.OnesCount(set) != size {
				continue
			}
			shares := make([]float64, s.Ends)
			for e := range shares {
				shares[e] = float64(set>>(s.Ends-1-e)&1) / float64(size)
			}
			p.add(size-1, column, 0, shares...)
			column++
		}
	}
}

// pairs goes 1–2, 1–3, …, 2–3, …: a row for each first end, in it the others in
// order, for each the shares as given. Ends alone are a row of their own.
func (s Spec) pairs(p *points) {
	shares := make([]float64, s.Ends)
	for a := range s.Ends {
		for b := a + 1; b < s.Ends; b++ {
			for k, percent := range s.Shares {
				shares[a], shares[b] = percent/100, 1-percent/100
				p.add(a, (b-1)*len(s.Shares)+k, 0, shares...)
			}
			shares[b] = 0
		}
		shares[a] = 0
	}
	if !s.Alone {
		return
	}
	for e := range s.Ends {
		shares[e] = 1
		p.add(s.Ends-1, e*len(s.Shares), 0, shares...)
		shares[e] = 0
	}
}

// rows has a row for each series, below one cup of base alone where all share
// it.
func (s Spec) rows(p *points) {
	percents := make([]float64, len(s.Series))
	if s.SharedZero {
		p.add(0, 0, 0, percents...)
	}
	for row, series := range s.Series {
		for column, x := range s.inRow(series) {
			percents[row] = x
			p.add(s.firstRow()+row, column, 0, percents...)
		}
		percents[row] = 0
	}
}

// firstRow is the place of the first series of a Rows, below the shared base.
func (s Spec) firstRow() int {
	if s.SharedZero {
		return 1
	}
	return 0
}

// findAgain notes which cups are asked to be the same as one before. The rows
// of a Rows are told apart: each has its own base alone, unless they share one.
func (s Spec) findAgain(all []Point) {
	if s.Kind != List && s.Kind != Pairs && !s.dosed() {
		return // no two points of a lattice are the same
	}
	seen := map[string]int{}
	for i := range all {
		key := fmt.Sprint(all[i].Shares)
		if s.Kind == Rows {
			key += fmt.Sprint(all[i].Row)
		}
		if number, ok := seen[key]; ok {
			all[i].Again = number
		} else {
			seen[key] = i + 1
		}
	}
}

// repeated adds the cups that are made again, in rows of their own below the
// last.
func (s Spec) repeated(all []Point) ([]Point, error) {
	if len(s.Repeat) == 0 {
		return all, nil
	}
	last := all[len(all)-1]
	row, wide := 0, 1
	for _, p := range all {
		if p.Layer == last.Layer {
			row = max(row, p.Row+1)
		}
		wide = max(wide, p.Column+1)
	}
	for i, number := range s.Repeat {
		if number < 1 || number > len(all)-i {
			return nil, fmt.Errorf("cup %d in repeat does not exist (cups are 1 to %d)", number, len(all)-i)
		}
		p := all[number-1]
		p.Row, p.Column, p.Layer = row+i/wide, i%wide, last.Layer
		if p.Again == 0 {
			p.Again = number
		}
		all = append(all, p)
	}
	return all, nil
}
