package layout

import "pourboard/blend"

// Sheet is paper and the part of it that is printed on, upright.
type Sheet struct {
	W, H   float64 // the paper
	Usable Rect    // at least Margin from every edge
}

// SheetOf is the paper of a plan with Margin all round.
func SheetOf(b blend.Board) Sheet { return Sheet{} }

// SheetBoth is the paper of a plan with only that part printed on which lies
// on A4 and on Letter when either is fed and the viewer centres the page.
func SheetBoth(b blend.Board) Sheet { return Sheet{} }

// What is kept free on every page, mm.
const (
	Margin  = 10.0 // all round: nothing is printed nearer to an edge
	Header  = 12.0 // at the top: title, page code, key of the pages
	Footer  = 6.0  // at the bottom
	Ruler   = 7.0  // below the header and along the left side
	Overlap = 10.0 // of neighbouring pages
)

// Page is one sheet of a board split over paper.
type Page struct {
	Code           string // "B2": row of pages and number in it
	Board          *Board
	Row, Column    int // of pages, from 0
	PaperW, PaperH float64
	Header         Rect    // on paper
	Footer         Rect    // on paper
	RulerX         Rect    // on paper: along the top, its marks count board mm from View.X
	RulerY         Rect    // on paper: along the left side, board mm from View.Y
	View           Rect    // what of the board the page shows, board mm
	At             Point   // where View's top left corner lies on paper
	ScaleX, ScaleY float64 // paper mm for each board mm; both 1 at life size
	Spots          []int   // indexes of the spots drawn here, each on one page of the board
	Parts          []int   // spots larger than a page of which a part is shown here
	Heads          []int   // indexes of Board.Heads drawn here
	Crosses        []Cross // board mm
	Trim           []Segment
}

// OnPaper is a place of the board on the page's paper.
func (p *Page) OnPaper(q Point) Point {
	return Point{p.At.X + (q.X-p.View.X)*p.ScaleX, p.At.Y + (q.Y-p.View.Y)*p.ScaleY}
}

// Cross is a registration cross; the same one is on every page that shows it.
type Cross struct {
	Point
	ArmX, ArmY float64 // half its width and height, mm
}

// Segment is a straight piece of the line along which a page is trimmed to be
// laid over its neighbour above or to the left; board mm.
type Segment struct{ From, To Point }

// Pages splits a board at life size over sheets of paper.
func Pages(b *Board, s Sheet) []Page { return nil }

// FitPages makes a board small enough for one page, as a map: the two scales
// differ where that makes its text larger. Each place has room for lines of
// text of MapText mm; where that is impossible it takes several pages.
func FitPages(b *Board, s Sheet, lines int) []Page { return nil }
