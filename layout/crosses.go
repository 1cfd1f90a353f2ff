package layout

import (
	"math"
	"slices"
)

// arm is half the size of a registration cross where nothing is in its way, mm.
const arm = 4.0

// register puts crosses on pages that are laid together: on the cut lines above
// and below the pages of a band, where no spot is, at the same place of the
// board on both pages.
func (c *cutter) register(pages []Page) {
	starts := make([]int, len(c.bands)+1) // pages[starts[k]:starts[k+1]] are of band k
	for i, p := range pages {
		starts[p.Row+1] = i + 1
	}
	for k, b := range c.bands {
		row := pages[starts[k]:starts[k+1]]
		top, bottom := c.free(k), c.free(k+1)
		for i := 1; i < len(row); i++ {
			lo, hi := row[i].View.X, row[i-1].View.Right()
			if hi-lo < Overlap-hair {
				continue // a gap in the board: the rulers alone place the page
			}
			for _, at := range []Cross{top, bottom} {
				at.X = (lo + hi) / 2
				share(&row[i-1], &row[i], at, lo, hi)
			}
		}
		if k == 0 {
			continue
		}
		above := pages[starts[k-1]:starts[k]]
		if c.bands[k-1].y1-b.y0 < Overlap-hair {
			continue
		}
		first := 0
		for i := range row {
			for first < len(above)-1 && above[first].View.Right() < row[i].View.X {
				first++
			}
			for j := first; j < len(above) && above[j].View.X < row[i].View.Right(); j++ {
				lo := max(above[j].View.X, row[i].View.X)
				hi := min(above[j].View.Right(), row[i].View.Right())
				at := top
				middle := (lo + hi) / 2
				switch width := hi - lo; {
				case width < Overlap-hair:
				case width < 4*Overlap:
					at.X = middle
					share(&above[j], &row[i], at, lo, hi)
				default:
					at.X = lo + Overlap/2
					share(&above[j], &row[i], at, lo, middle)
					at.X = hi - Overlap/2
					share(&above[j], &row[i], at, middle, hi)
				}
			}
		}
	}
}

// free is a cross on the line above band k, or below the last, with arms that
// stay clear of the rows.
func (c *cutter) free(k int) Cross {
	switch {
	case k == 0:
		return Cross{Point{Y: Edge / 2}, arm, Edge / 2}
	case k == len(c.bands):
		return Cross{Point{Y: c.b.H - Edge/2}, arm, Edge / 2}
	}
	b := c.bands[k]
	room := Overlap // between the slices of one row nothing is kept free
	if b.from > c.bands[k-1].from {
		room = c.lines[b.from].top - c.lines[b.from-1].bottom
	}
	return Cross{Point{Y: b.trim}, arm, min(arm, room/2)}
}

// share puts a cross on both pages, unless both have it. Where it would overprint
// another of theirs it is that other, or moved as far as it takes between lo and
// hi, which both pages show.
func share(p, q *Page, at Cross, lo, hi float64) {
	alone := func(x float64) bool {
		for _, list := range [][]Cross{p.Crosses, q.Crosses} {
			for _, c := range list {
				apart := math.Abs(c.X - x)
				if math.Abs(c.Y-at.Y) < hair && apart > hair && apart < 2*arm {
					return false
				}
			}
		}
		return x == at.X || x-arm > lo-hair && x+arm < hi+hair
	}
	if !alone(at.X) {
		var tries []float64
		for _, list := range [][]Cross{p.Crosses, q.Crosses} {
			for _, c := range list {
				if math.Abs(c.Y-at.Y) < hair && math.Abs(c.X-at.X) < 2*arm {
					tries = append(tries, c.X)
				}
			}
		}
		for step := 1.0; step < hi-lo; step++ {
			tries = append(tries, at.X+step, at.X-step)
		}
		if i := slices.IndexFunc(tries, alone); i >= 0 {
			at.X = tries[i]
		}
	}
	has := func(p *Page) bool {
		for _, c := range p.Crosses {
			if math.Abs(c.X-at.X) < hair && math.Abs(c.Y-at.Y) < hair {
				return true
			}
		}
		return false
	}
	inP, inQ := has(p), has(q)
	if !inP {
		p.Crosses = append(p.Crosses, at)
	}
	if !inQ {
		q.Crosses = append(q.Crosses, at)
	}
}
