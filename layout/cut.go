package layout

import (
	"math"
	"slices"
)

// band is the rows of spots that one row of pages takes.
type band struct {
	from, to int // rows, to exclusive
	y0, y1   float64
	trim     float64 // where the pages are trimmed below their neighbours above, 0 in the first band
}

// line is one row of spots.
type line struct {
	spots       []int // indexes, left to right
	top, bottom float64
	head        int // index into the board's Heads, -1 when it has none
	// By place in spots: the left end of what a page has to show that starts
	// with the spot, and the right end of what it has to show that ends with it.
	lead, trail []float64
}

// cutter splits one board, whose spots are smaller than a page, over views of
// w x h mm.
type cutter struct {
	b     *Board
	w, h  float64
	lines []line
	cuts  []float64 // cuts[i] is above lines[i], the last one below all
	bands []band
	total int // pages
}

func newCutter(b *Board, w, h float64) *cutter {
	c := &cutter{b: b, w: w + hair, h: h + hair}
	for i, s := range b.Spots {
		if i == 0 || s.Row != b.Spots[i-1].Row {
			c.lines = append(c.lines, line{top: math.Inf(1), head: -1})
		}
		l := &c.lines[len(c.lines)-1]
		l.spots = append(l.spots, i)
		whole := s.Whole()
		l.top, l.bottom = min(l.top, whole.Y), max(l.bottom, whole.Bottom())
	}
	for i := range c.lines {
		l := &c.lines[i]
		l.lead, l.trail = make([]float64, len(l.spots)), make([]float64, len(l.spots))
		for j := 1; j < len(l.spots); j++ {
			between := c.between(*l, j)
			l.lead[j], l.trail[j-1] = between-Overlap/2, between+Overlap/2
		}
		l.lead[0] = b.Spots[l.spots[0]].Whole().X - Edge
		l.trail[len(l.spots)-1] = b.Spots[l.spots[len(l.spots)-1]].Whole().Right() + Edge
	}
	at := 0
	for i, head := range b.Heads {
		for b.Spots[c.lines[at].spots[0]].Row != head.Row {
			at++
		}
		c.lines[at].head = i
		c.lines[at].top = min(c.lines[at].top, head.Y)
	}
	c.cuts = make([]float64, len(c.lines)+1)
	for i := 1; i < len(c.lines); i++ {
		c.cuts[i] = (c.lines[i-1].bottom + c.lines[i].top) / 2
	}
	c.cuts[len(c.lines)] = b.H
	return c
}

// fits reports whether no spot is larger than the view.
func (c *cutter) fits() bool {
	for i, l := range c.lines {
		if y0, y1 := c.extent(i, i+1); y1-y0 > c.h {
			return false
		}
		for j := range l.spots {
			if l.trail[j]-l.lead[j] > c.w {
				return false
			}
		}
	}
	return true
}

// extent is the board that pages with lines from to to−1 have to show.
func (c *cutter) extent(from, to int) (y0, y1 float64) {
	y0, y1 = c.cuts[from], c.cuts[to]
	if from > 0 {
		y0 -= Overlap / 2
	}
	if to < len(c.lines) {
		y1 += Overlap / 2
	}
	return y0, y1
}

// chooseBands groups the lines so that the pages are the fewest, which filling
// each page from the top does not always give; among equals the first bands
// are the fullest.
func (c *cutter) chooseBands() {
	n := len(c.lines)
	least := make([]int, n+1) // pages for lines i…
	next := make([]int, n+1)
	for i := n - 1; i >= 0; i-- {
		for j := i + 1; j <= n; j++ {
			if y0, y1 := c.extent(i, j); y1-y0 > c.h && j > i+1 {
				break
			}
			pages := c.countAcross(i, j) + least[j]
			if next[i] == 0 || pages <= least[i] {
				least[i], next[i] = pages, j
			}
		}
	}
	c.total = least[0]
	for i := 0; i < n; i = next[i] {
		y0, y1 := c.extent(i, next[i])
		c.bands = append(c.bands, band{from: i, to: next[i], y0: y0, y1: y1, trim: c.cuts[i]})
	}
}

// piece is the part of a band that one page takes.
type piece struct {
	x0, x1 float64
	first  []int // for each line of the band, the first spot that is not on an earlier page
	upto   []int // and the first that is on a later page; places in line.spots
}

// between is the x half way between spots j−1 and j of a line.
func (c *cutter) between(l line, j int) float64 {
	return (c.b.Spots[l.spots[j-1]].Whole().Right() + c.b.Spots[l.spots[j]].Whole().X) / 2
}

// across shares the spots of lines from to to−1 out over pages from left to
// right, as many as each takes.
func (c *cutter) across(from, to int) []piece {
	lines := c.lines[from:to]
	done := make([]int, len(lines))
	var all []piece
	for before := math.Inf(1); ; {
		first := slices.Clone(done)
		x0, x1, some := c.fill(lines, done, before)
		if !some {
			return all
		}
		all = append(all, piece{x0: x0, x1: x1, first: first, upto: slices.Clone(done)})
		before = x1
	}
}

// countAcross is the number of pages that across gives, which is asked for far
// more often: once for every way to group the lines.
func (c *cutter) countAcross(from, to int) int {
	lines := c.lines[from:to]
	done := make([]int, len(lines))
	n := 0
	for before := math.Inf(1); ; n++ {
		_, x1, some := c.fill(lines, done, before)
		if !some {
			return n
		}
		before = x1
	}
}

// fill fills one page with spots of lines, counts them as done, and gives the
// page's ends. before is where the page before ends, +Inf for the first. It says
// whether any spots were left.
func (c *cutter) fill(lines []line, done []int, before float64) (x0, x1 float64, some bool) {
	x0 = math.Inf(1)
	for i, l := range lines {
		if done[i] < len(l.spots) {
			x0 = min(x0, l.lead[done[i]])
		}
	}
	if math.IsInf(x0, 1) {
		return x0, x0, false
	}
	// Where a row starts anew right of the page before, the sheets would
	// not meet: start earlier, as far as that costs nothing.
	if joined := min(x0, before-Overlap); c.reaches(lines, done, joined) {
		x0 = joined
	}
	x1 = x0
	for i, l := range lines {
		for done[i] < len(l.spots) && l.trail[done[i]] <= x0+c.w {
			x1 = max(x1, l.trail[done[i]])
			done[i]++
		}
	}
	return x0, x1, true
}

// reaches reports whether a page that starts at x takes a spot.
func (c *cutter) reaches(lines []line, done []int, x float64) bool {
	for i, l := range lines {
		if done[i] < len(l.spots) && l.trail[done[i]] <= x+c.w {
			return true
		}
	}
	return false
}

// pages turns bands and pieces into pages with their spots and trim lines.
func (c *cutter) pages() []Page {
	out := make([]Page, 0, c.total)
	for row, band := range c.bands {
		for column, p := range c.across(band.from, band.to) {
			page := Page{
				Row: row, Column: column,
				View: Rect{X: p.x0, Y: band.y0, W: p.x1 - p.x0, H: band.y1 - band.y0},
			}
			c.show(&page, band, p)
			left := page.View.X
			if column > 0 {
				page.Trim = c.seam(band, p)
				left = page.Trim[0].From.X
			}
			if row > 0 {
				page.Trim = append(page.Trim, Segment{Point{left, band.trim}, Point{page.View.Right(), band.trim}})
			}
			out = append(out, page)
		}
	}
	return out
}

// show lists on a page the spots and heads of its piece of a band.
func (c *cutter) show(page *Page, band band, p piece) {
	for i, l := range c.lines[band.from:band.to] {
		page.Spots = append(page.Spots, l.spots[p.first[i]:p.upto[i]]...)
		if l.head >= 0 && p.first[i] == 0 && p.upto[i] > 0 {
			page.Heads = append(page.Heads, l.head)
		}
	}
}

// seam is the line between a page and the one to its left, stepping from row to
// row.
func (c *cutter) seam(band band, p piece) []Segment {
	var steps []Segment
	put := func(x, y0, y1 float64) {
		if n := len(steps); n > 0 {
			last := &steps[n-1]
			if math.Abs(last.To.X-x) < hair {
				last.To.Y = y1
				return
			}
			steps = append(steps, Segment{last.To, Point{x, last.To.Y}})
		}
		steps = append(steps, Segment{Point{x, y0}, Point{x, y1}})
	}
	for i := range p.first {
		l := c.lines[band.from+i]
		y0, y1 := max(c.cuts[band.from+i], band.trim), min(c.cuts[band.from+i+1], band.y1)
		x := p.x0 + Overlap/2
		switch j := p.first[i]; {
		case j > 0 && j < len(l.spots):
			x = c.between(l, j)
		case j > 0: // the line has ended on an earlier page
			x = max(x, c.b.Spots[l.spots[j-1]].Whole().Right())
		default: // it starts here or later
			x = min(x, c.b.Spots[l.spots[0]].Whole().X)
		}
		put(x, y0, y1)
	}
	return steps
}
