// Package layout says where everything lies, in millimetres: which mark a tile
// bears, where it lies on its board, how a board is split over sheets of paper
// at life size, where cups stand on their mat and labels on their sheet.
//
// The way through it is
//
//	places := layout.Boards(test)              // tiles, their marks, their boards
//	sheet := layout.SheetOf(test.Plan.Board)   // what of the paper can be printed on
//	pages := layout.Pages(&places.Boards[0], sheet)
//
// and layout.Mat(test) for the cup mat, whose boards are split by the same Pages.
//
// Lengths are mm; x runs right and y runs down from the top left corner of the
// board, or of the paper. The package draws nothing, reads no file, and gives
// the same answer to the same test every time: places in random order come
// from the seed that the plan states.
package layout

// Point is a place on a board or on paper, mm.
type Point struct{ X, Y float64 }

// Rect is an upright rectangle, mm, by its top left corner.
type Rect struct{ X, Y, W, H float64 }

// Right is the x of the right edge.
func (r Rect) Right() float64 { return r.X + r.W }

// Bottom is the y of the lower edge.
func (r Rect) Bottom() float64 { return r.Y + r.H }

// Inset is the rectangle without mm along each edge.
func (r Rect) Inset(mm float64) Rect {
	return Rect{X: r.X + mm, Y: r.Y + mm, W: r.W - 2*mm, H: r.H - 2*mm}
}

// Upper is the upper mm of the rectangle; Below is the rest.
func (r Rect) Upper(mm float64) Rect { return Rect{X: r.X, Y: r.Y, W: r.W, H: mm} }

// Below is described at Upper.
func (r Rect) Below(mm float64) Rect { return Rect{X: r.X, Y: r.Y + mm, W: r.W, H: r.H - mm} }

// Before is the left mm of the rectangle; After is the rest.
func (r Rect) Before(mm float64) Rect { return Rect{X: r.X, Y: r.Y, W: mm, H: r.H} }

// After is described at Before.
func (r Rect) After(mm float64) Rect { return Rect{X: r.X + mm, Y: r.Y, W: r.W - mm, H: r.H} }

// hair is the length below which two edges count as one: sums of millimetres
// in floating point differ by far less, and no printer shows it.
const hair = 1e-6

// around is the smallest rectangle that holds r and s.
func (r Rect) around(s Rect) Rect {
	x, y := min(r.X, s.X), min(r.Y, s.Y)
	return Rect{X: x, Y: y, W: max(r.Right(), s.Right()) - x, H: max(r.Bottom(), s.Bottom()) - y}
}
