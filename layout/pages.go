package layout

import "strconv"

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
	Spots          []int   // indexes of the spots drawn here: every spot is whole on one page of its board
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
// of whole spots allow, upright or turned; none where a spot is larger than a
// page. Neighbouring pages share at least Overlap of the board. In a triangle,
// whose rows are offset by half a place, no straight line runs between the spots
// of several rows: there the sheets overlap by more and are trimmed in steps.
func Pages(b *Board, s Sheet) []Page {
	var best []Page
	for _, turned := range []bool{false, true} {
		f := s.frame(turned)
		c := newCutter(b, f.view.W, f.view.H)
		if !c.fits() {
			continue
		}
		if c.chooseBands(); best != nil && c.total >= len(best) {
			continue
		}
		best = c.pages()
		c.register(best)
		for i := range best {
			p := &best[i]
			p.Code = letters(p.Row) + strconv.Itoa(p.Column+1)
			p.Board, p.PaperW, p.PaperH = b, f.w, f.h
			p.Header, p.Footer, p.RulerX, p.RulerY = f.header, f.footer, f.rulerX, f.rulerY
			p.RulerX.W, p.RulerY.H = p.View.W, p.View.H
			p.At, p.ScaleX, p.ScaleY = Point{f.view.X, f.view.Y}, 1, 1
		}
	}
	return best
}

// Fits reports whether a board can be split: no spot is larger than a page.
func Fits(b *Board, s Sheet) bool {
	upright, turned := s.frame(false).view, s.frame(true).view
	return newCutter(b, upright.W, upright.H).fits() || newCutter(b, turned.W, turned.H).fits()
}

// FitPage draws a board small, as a map on one page. Its two scales differ where
// that leaves more room for text, so that it is no measure and has neither rulers
// nor crosses.
func FitPage(b *Board, s Sheet) Page {
	var best Page
	for _, turned := range []bool{false, true} {
		f := s.frame(turned)
		view := f.view.around(Rect{X: f.rulerY.X, Y: f.rulerX.Y})
		p := Page{
			Board: b, PaperW: f.w, PaperH: f.h, Header: f.header, Footer: f.footer, View: Rect{W: b.W, H: b.H},
			At: Point{view.X, view.Y}, ScaleX: min(1, view.W/b.W), ScaleY: min(1, view.H/b.H),
		}
		if min(p.ScaleX, p.ScaleY) > min(best.ScaleX, best.ScaleY) {
			best = p
		}
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
