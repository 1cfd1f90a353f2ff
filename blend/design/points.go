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
func (b Blend) Points() ([]Point, error) {
	lay, ok := map[Kind]func(*points){
		Line: b.line, Biaxial: b.biaxial, Triaxial: b.lattice, Quadraxial: b.lattice,
		List: b.list, Centroid: b.centroid, Pairs: b.pairs, Rows: b.rows,
	}[b.Kind]
	if !ok {
		return nil, fmt.Errorf("no design is called %q", b.Kind)
	}
	if err := b.check(); err != nil {
		return nil, err
	}
	p := make(points, 0, b.Count())
	lay(&p)
	b.zoom(p)
	all := b.within(p)
	if len(all) == 0 {
		return nil, fmt.Errorf("no cup is left inside the bounds")
	}
	b.findAgain(all)
	return b.repeated(all), nil
}

// line has as many cups as there will be: without its ends it has no less.
func (b Blend) line(p *points) {
	if b.HasSeries() {
		for i, x := range b.Series[0].Percents {
			p.add(0, i, 0, x)
		}
		return
	}
	first, n := b.LineSteps()
	for i := range b.Cells {
		second := along(first+i, n)
		p.add(0, i, 0, 1-second, second)
	}
}

// LineSteps returns how many points a line of two ends has from bound to bound,
// and which of them is its first cup, from 0: without its ends it has as many
// cups and more points.
func (b Blend) LineSteps() (first, points int) {
	points = b.Cells
	if !b.Interior {
		return 0, points
	}
	// An end glaze that has a lower bound is in every cup already.
	bounds := b.Tightened()
	if bounds == nil || bounds[1].Lo == 0 {
		first, points = 1, points+1
	}
	if bounds == nil || bounds[0].Lo == 0 {
		points++
	}
	return first, points
}

// biaxial goes row by row from the top; shares are bilinear.
func (b Blend) biaxial(p *points) {
	columns, rows := b.grid()
	for r := range rows {
		for c := range columns {
			if b.HasSeries() {
				p.add(r, c, 0, b.Series[0].Percents[c], b.Series[1].Percents[r])
				continue
			}
			u, v := along(c, columns), along(r, rows)
			p.add(r, c, 0, (1-u)*(1-v), u*(1-v), (1-u)*v, u*v)
		}
	}
}

// lattice goes by layers of a quadraxial, of which a triaxial has one.
func (b Blend) lattice(p *points) {
	m, layers := b.Divisions, 0
	if b.Kind == Quadraxial {
		layers = m
	}
	for k := range layers + 1 {
		for r := range m - k + 1 {
			for j := range r + 1 {
				shares := []float64{of(m-k-r, m), of(r-j, m), of(j, m), of(k, m)}
				if b.Kind == Triaxial {
					shares = shares[:3]
				}
				p.add(r, j, k, shares...)
			}
		}
	}
}

// list has the parts of each cup as shares of their sum.
func (b Blend) list(p *points) {
	for i, parts := range b.Parts {
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
func (b Blend) centroid(p *points) {
	ends := len(b.Ends)
	for size := 1; size <= ends; size++ {
		column := 0
		for set := uint(1)<<ends - 1; set > 0; set-- {
			if bits.OnesCount(set) != size {
				continue
			}
			shares := make([]float64, ends)
			for e := range shares {
				shares[e] = float64(set>>(ends-1-e)&1) / float64(size)
			}
			p.add(size-1, column, 0, shares...)
			column++
		}
	}
}

// pairs goes 1–2, 1–3, …, 2–3, …: a row for each first end, in it the others in
// order, for each the shares as given. Ends alone are a row of their own.
func (b Blend) pairs(p *points) {
	shares, each := make([]float64, len(b.Ends)), len(b.PairShares)
	for first := range shares {
		for second := first + 1; second < len(shares); second++ {
			for k, percent := range b.PairShares {
				shares[first], shares[second] = percent/100, 1-percent/100
				p.add(first, (second-1)*each+k, 0, shares...)
			}
			shares[second] = 0
		}
		shares[first] = 0
	}
	for e := range shares {
		if b.Alone {
			shares[e] = 1
			p.add(len(shares)-1, e*each, 0, shares...)
			shares[e] = 0
		}
	}
}

// rows has a row for each series, below one cup of base alone where all share
// it.
func (b Blend) rows(p *points) {
	percents := make([]float64, len(b.Series))
	if b.SharedZero {
		p.add(0, 0, 0, percents...)
	}
	for row, series := range b.Series {
		for column, x := range b.inRow(series) {
			percents[row] = x
			p.add(b.firstRow()+row, column, 0, percents...)
		}
		percents[row] = 0
	}
}

// firstRow is the place of the first series of a Rows, below the shared base.
func (b Blend) firstRow() int {
	if b.SharedZero {
		return 1
	}
	return 0
}

// findAgain notes which cups are asked to be the same as one before. The rows
// of a Rows are told apart: each has its own base alone, unless they share one.
func (b Blend) findAgain(all []Point) {
	if b.Kind != List && b.Kind != Pairs && !b.HasSeries() {
		return // no two points of a lattice are the same
	}
	seen := map[string]int{}
	for i := range all {
		key := fmt.Sprint(all[i].Shares)
		if b.Kind == Rows {
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
func (b Blend) repeated(all []Point) []Point {
	last := all[len(all)-1]
	row, wide := 0, 1
	for _, p := range all {
		if p.Layer == last.Layer {
			row = max(row, p.Row+1)
		}
		wide = max(wide, p.Column+1)
	}
	for i, number := range b.Repeat {
		p := all[number-1]
		p.Row, p.Column, p.Layer = row+i/wide, i%wide, last.Layer
		if p.Again == 0 {
			p.Again = number
		}
		all = append(all, p)
	}
	return all
}
