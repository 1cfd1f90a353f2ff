package layout

// Page is one sheet of a board split over paper.
type Page struct {
	Code           string  // "B2": row of pages, and number in it
	Row, Column    int     // of pages, from 0
	PaperW, PaperH float64 // as the page is turned
	Header         Rect    // on paper
	RulerX, RulerY Rect    // on paper: along the top and the left side, counting board mm from View's corner
	View           Rect    // what of the board the page shows, board mm
	At             Point   // where View's top left corner lies on paper
	ScaleX, ScaleY float64 // mm on paper for a mm of the board, both 1 at life size
	Spots          []int   // indexes of the spots drawn here: every spot is whole on one page of its board
	Crosses        []Cross
	Trim           []Segment
}

// Spread is a board or a mat with the pages that it is printed on.
type Spread struct {
	Board *Board
	Pages []Page
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

// Pages splits a board at life size over sheets of paper, rows of whole spots on
// each: upright or turned, and with as many rows a page, as takes the fewest. It is
// nil where a spot is larger than a page. Neighbouring pages share at least Overlap
// of the board. In a triangle, whose rows are offset by half a place, no straight
// line runs between the spots of several rows: there the sheets overlap by more
// and are trimmed in steps.
func Pages(b *Board, s Sheet) []Page {
	var best []Page
	for _, turned := range []bool{false, true} {
		sheet := s.page(turned)
		for rows := min(b.rows(), int(sheet.View.H/b.pitchY)+1); rows > 0; rows-- {
			for _, skip := range []int{0, (rows - b.rows()%rows) % rows} { // the short page last, or first
				if pages := b.cut(sheet, rows, skip); pages != nil && (best == nil || len(pages) < len(best)) {
					best = pages
				}
			}
		}
	}
	b.register(best)
	return best
}

// Fits reports whether a board can be split: no spot is larger than a page.
func Fits(b *Board, s Sheet) bool {
	return b.cut(s.page(false), 1, 0) != nil || b.cut(s.page(true), 1, 0) != nil
}

// FitPage draws a board small, as a map on one page. Its two scales differ where
// that leaves more room for text, so that it is no measure and has neither rulers
// nor crosses.
func FitPage(b *Board, s Sheet) Page {
	var best Page
	for _, turned := range []bool{false, true} {
		p := s.page(turned)
		room := Rect{X: p.At.X, Y: p.At.Y, W: p.View.W, H: p.View.H}.around(Rect{X: p.RulerY.X, Y: p.RulerX.Y})
		p.At, p.View, p.RulerX, p.RulerY = Point{room.X, room.Y}, Rect{W: b.W, H: b.H}, Rect{}, Rect{}
		p.ScaleX, p.ScaleY = min(1, room.W/b.W), min(1, room.H/b.H)
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
