package layout

import (
	"math"
	"slices"
	"strconv"
)

// Page is one sheet of a board split over paper.
type Page struct {
	Code           string // "B2": row of pages, and number in it
	Board          *Board
	Row, Column    int     // of pages, from 0
	PaperW, PaperH float64 // as the page is turned
	Header, Footer Rect    // on paper
	RulerX         Rect    // on paper: along the top, counting board mm from View.X; empty on a map
	RulerY         Rect    // on paper: along the left side, counting board mm from View.Y; empty on a map
	View           Rect    // what of the board the page shows, board mm
	At             Point   // where View's top left corner lies on paper
	ScaleX, ScaleY float64 // mm on paper for a mm of the board, both 1 at life size
	Spots          []int   // indexes of the spots drawn here whole: every spot is on one page of its board
	Parts          []int   // of spots larger than a page, those of which a part is shown here
	Heads          []int   // indexes of the board's Heads drawn here
	Crosses        []Cross
	Trim           []Segment
}

// OnPaper is a place of the board on the page's paper.
func (p *Page) OnPaper(q Point) Point {
	return Point{p.At.X + (q.X-p.View.X)*p.ScaleX, p.At.Y + (q.Y-p.View.Y)*p.ScaleY}
}

// RectOnPaper is a rectangle of the board on the page's paper.
func (p *Page) RectOnPaper(r Rect) Rect {
	at := p.OnPaper(Point{r.X, r.Y})
	return Rect{X: at.X, Y: at.Y, W: r.W * p.ScaleX, H: r.H * p.ScaleY}
}

// Cross is a registration cross in board mm. Pages that are laid together show
// the same crosses.
type Cross struct {
	Point
	ArmX, ArmY float64 // half its width and height
}

// Segment is a straight piece of the line along which a page is trimmed to be
// laid over its neighbour above or to the left; board mm. It runs between
// spots, never through one that a page holds whole.
type Segment struct{ From, To Point }

// Pages splits a board at life size over sheets of paper: as few pages as rows
// of whole spots allow, upright or turned. Neighbouring pages share at least
// Overlap of the board. In a triangle, whose rows are offset by half a place,
// no straight line runs between the spots of several rows: there the sheets
// overlap by more and are trimmed in steps.
func Pages(b *Board, s Sheet) []Page {
	return fewest(b, s.frame(false), s.frame(true), func(frame) (float64, float64) { return 1, 1 }, true)
}

// PagesFor is the pages of one board for another that is alike.
func PagesFor(b *Board, pages []Page) []Page {
	pages = slices.Clone(pages)
	for i := range pages {
		pages[i].Board = b
	}
	return pages
}

// Text of a map, mm: a line of 8 pt with its leading, and the narrowest place
// that a mark or a share in 8 pt goes into.
const (
	MapLine  = 3.2
	MapWidth = 16.0
)

// FitPages draws a board small, as a map on one page. Its two scales differ
// where that leaves more room for text, so that it is no measure and has
// neither rulers nor crosses. Each place, with its caption, has room for that
// many lines of MapLine; a board for which one page is too small even so takes
// several.
func FitPages(b *Board, s Sheet, lines int) []Page {
	scales := func(f frame) (x, y float64) {
		x = max(min(1, f.view.W/b.W), MapWidth/b.pitchX)
		y = max(min(1, f.view.H/b.H), (MapLine*float64(lines)+1)/b.pitchY)
		return x, y
	}
	return fewest(b, s.frame(false).withoutRulers(), s.frame(true).withoutRulers(), scales, false)
}

// fewest splits a board over pages that are all upright or all turned:
// whichever cut no spot; then whichever are fewer; then whichever show it
// larger; then upright.
func fewest(b *Board, upright, turned frame, scales func(frame) (x, y float64), life bool) []Page {
	var best []Page
	most, cut := 0.0, false
	for _, f := range []frame{upright, turned} {
		x, y := scales(f)
		c := newCutter(b, f.view.W/x, f.view.H/y)
		if best != nil && !cut && c.total > len(best) {
			continue
		}
		pages := c.pages()
		size := min(x*b.pitchX/MapWidth, y*b.pitchY/MapLine)
		cuts := slices.ContainsFunc(pages, func(p Page) bool { return len(p.Parts) > 0 })
		if best != nil {
			switch {
			case cuts && !cut:
				continue
			case cuts != cut:
			case len(pages) > len(best), len(pages) == len(best) && size <= most+hair:
				continue
			}
		}
		if life {
			c.register(pages)
		}
		for i := range pages {
			p := &pages[i]
			p.Code = letters(p.Row) + strconv.Itoa(p.Column+1)
			p.Board, p.PaperW, p.PaperH = b, f.w, f.h
			p.Header, p.Footer, p.RulerX, p.RulerY = f.header, f.footer, f.rulerX, f.rulerY
			p.At, p.ScaleX, p.ScaleY = Point{f.view.X, f.view.Y}, x, y
			if !life {
				p.Trim = nil
			} else {
				p.RulerX.W, p.RulerY.H = p.View.W, p.View.H
			}
		}
		best, most, cut = pages, size, cuts
	}
	return best
}

// letters counts rows of pages A to Z, AA, AB …
func letters(n int) string {
	s := ""
	for n++; n > 0; n = (n - 1) / 26 {
		s = string(rune('A'+(n-1)%26)) + s
	}
	return s
}

// band is the rows of spots that one row of pages takes, or a slice of a row
// that is taller than a page.
type band struct {
	from, to int // rows, to exclusive
	y0, y1   float64
	trim     float64 // where the pages are trimmed below their neighbours above, 0 in the first band
	sliced   bool
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

// cutter splits one board over views of w x h board mm.
type cutter struct {
	b     *Board
	w, h  float64
	lines []line
	cuts  []float64 // cuts[i] is above lines[i], the last one below all
	bands []band
	total int // pages
}

func newCutter(b *Board, w, h float64) *cutter {
	// Less than two overlaps would never get on; no sheet that can be named is so small.
	c := &cutter{b: b, w: max(w, 2*Overlap) + hair, h: max(h, 2*Overlap) + hair}
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
	c.chooseBands()
	return c
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
			y0, y1 := c.extent(i, j)
			slices := 1
			if y1-y0 > c.h {
				if j > i+1 {
					break
				}
				slices = len(c.slices(y0, y1, c.h))
			}
			pages := slices*c.countAcross(i, j) + least[j]
			if next[i] == 0 || pages <= least[i] {
				least[i], next[i] = pages, j
			}
		}
	}
	c.total = least[0]
	for i := 0; i < n; i = next[i] {
		y0, y1 := c.extent(i, next[i])
		if y1-y0 <= c.h {
			trim := c.cuts[i]
			c.bands = append(c.bands, band{from: i, to: next[i], y0: y0, y1: y1, trim: trim})
			continue
		}
		for k, y := range c.slices(y0, y1, c.h) {
			trim := y + Overlap/2
			if k == 0 {
				trim = c.cuts[i]
			}
			c.bands = append(c.bands, band{from: i, to: next[i], y0: y, y1: y + c.h - hair, trim: trim, sliced: true})
		}
	}
}

// slices is where pieces of length size start that cover from a to b and
// overlap by Overlap or more; the last ends at b.
func (c *cutter) slices(a, b, size float64) []float64 {
	size -= hair
	var at []float64
	for ; a+size < b-hair; a += size - Overlap {
		at = append(at, a)
	}
	return append(at, b-size)
}

// piece is the part of a band that one page takes.
type piece struct {
	x0, x1 float64
	first  []int // for each line of the band, the first spot that is not on an earlier page
	upto   []int // and the first that is on a later page; places in line.spots
	cut    bool  // spots are wider than the page, and this is a slice of them
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
		x0, x1, any := c.fill(lines, done, before)
		switch {
		case !any:
			return all
		case x1 == x0:
			return c.sliceAcross(lines)
		}
		all = append(all, piece{x0: x0, x1: x1, first: first, upto: slices.Clone(done)})
		before = x1
	}
}

// countAcross is the number of pages that across gives.
func (c *cutter) countAcross(from, to int) int {
	lines := c.lines[from:to]
	done := make([]int, len(lines))
	n := 0
	for before := math.Inf(1); ; n++ {
		x0, x1, any := c.fill(lines, done, before)
		switch {
		case !any:
			return n
		case x1 == x0:
			return len(c.sliceAcross(lines))
		}
		before = x1
	}
}

// fill fills one page with spots of lines, counts them as done, and gives the
// page's ends, which are one if not even a spot goes on it. before is where the
// page before ends, +Inf for the first. It says whether any spots were left.
func (c *cutter) fill(lines []line, done []int, before float64) (x0, x1 float64, any bool) {
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

// sliceAcross cuts lines whose spots are wider than a page into slices of a
// page's width.
func (c *cutter) sliceAcross(lines []line) []piece {
	x0, x1 := math.Inf(1), 0.0
	first, upto := make([]int, len(lines)), make([]int, len(lines))
	for i, l := range lines {
		x0 = min(x0, l.lead[0])
		x1 = max(x1, l.trail[len(l.spots)-1])
		upto[i] = len(l.spots)
	}
	var all []piece
	for _, x := range c.slices(x0, x1, c.w) {
		all = append(all, piece{x0: x, x1: x + c.w - hair, first: first, upto: upto, cut: true})
	}
	return all
}

// pages turns bands and pieces into pages with their spots and trim lines.
func (c *cutter) pages() []Page {
	out := make([]Page, 0, c.total)
	for row, band := range c.bands {
		lines := c.lines[band.from:band.to]
		pieces := c.across(band.from, band.to)
		for column, p := range pieces {
			page := Page{
				Row: row, Column: column,
				View: Rect{X: p.x0, Y: band.y0, W: p.x1 - p.x0, H: band.y1 - band.y0},
			}
			for i, l := range lines {
				for j := p.first[i]; j < p.upto[i]; j++ {
					switch s := c.b.Spots[l.spots[j]]; {
					case !p.cut && !band.sliced:
						page.Spots = append(page.Spots, l.spots[j])
					case s.Whole().Meets(page.View):
						page.Parts = append(page.Parts, l.spots[j])
					}
				}
				if l.head < 0 {
					continue
				}
				starts := p.first[i] == 0 && p.upto[i] > 0
				if starts && c.b.Heads[l.head].Y >= page.View.Y-hair && c.b.Heads[l.head].Bottom() <= page.View.Bottom()+hair {
					page.Heads = append(page.Heads, l.head)
				}
			}
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
	if p.cut {
		put(p.x0+Overlap/2, band.y0, band.y1)
		return steps
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
