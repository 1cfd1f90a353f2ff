package layout

import (
	"math"
	"slices"
)

// arm is half the size of a registration cross where nothing is in its way, mm.
const arm = 4.0

// register puts crosses on pages that are laid together: on the cut lines above
// and below the pages of a band, where no spot is, at the same place of the
// board on both pages. Where they share too little, the rulers alone place them.
func (c *cutter) register(pages []Page) {
	starts := make([]int, len(c.bands)+1) // pages[starts[k]:starts[k+1]] are of band k
	for i, p := range pages {
		starts[p.Row+1] = i + 1
	}
	for k, b := range c.bands {
		row := pages[starts[k]:starts[k+1]]
		for i := 1; i < len(row); i++ {
			if lo, hi := row[i].View.X, row[i-1].View.Right(); hi-lo > Overlap-hair {
				share(&row[i-1], &row[i], c.free(k), (lo+hi)/2, (lo+hi)/2)
				share(&row[i-1], &row[i], c.free(k+1), (lo+hi)/2, (lo+hi)/2)
			}
		}
		if k == 0 || c.bands[k-1].y1-b.y0 < Overlap-hair {
			continue
		}
		above := pages[starts[k-1]:starts[k]]
		for i, j := 0, 0; i < len(row) && j < len(above); {
			p, q := &above[j], &row[i]
			lo, hi := max(p.View.X, q.View.X), min(p.View.Right(), q.View.Right())
			if hi-lo > Overlap-hair {
				share(p, q, c.free(k), lo+Overlap/2, (lo+hi)/2)
				share(p, q, c.free(k), hi-Overlap/2, (lo+hi)/2)
			}
			if p.View.Right() < q.View.Right() {
				j++
			} else {
				i++
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
	from := c.bands[k].from
	return Cross{Point{Y: c.bands[k].trim}, arm, min(arm, (c.lines[from].top-c.lines[from-1].bottom)/2)}
}

// share puts a cross on both pages, between two places of its line where it
// overprints none that either has: as near to the first as goes.
func share(p, q *Page, at Cross, from, to float64) {
	for step := 0.0; step <= math.Abs(to-from); step++ {
		at.X = math.Round(1000*(from+math.Copysign(step, to-from))) / 1000
		near := func(c Cross) bool { return c.Y == at.Y && c.X != at.X && math.Abs(c.X-at.X) < 2*arm }
		if slices.ContainsFunc(p.Crosses, near) || slices.ContainsFunc(q.Crosses, near) {
			continue
		}
		for _, page := range []*Page{p, q} {
			if !slices.Contains(page.Crosses, at) {
				page.Crosses = append(page.Crosses, at)
			}
		}
		return
	}
}
