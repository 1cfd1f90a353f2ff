package layout

import "pourboard/blend"

// Sheet is paper and the part of it that is printed on, as it is fed upright.
type Sheet struct {
	W, H   float64 // mm
	Usable Rect    // at least Margin from every edge
}

// What is kept free on every page, mm.
const (
	Margin  = 10.0 // all round: nothing is printed nearer to an edge
	Header  = 12.0 // at the top: title, page code, key of the pages
	Footer  = 6.0  // at the bottom
	Ruler   = 7.0  // below the header and along the left side
	Overlap = 10.0 // at least, of neighbouring pages
)

// SheetOf is the paper of a plan with Margin all round.
func SheetOf(b blend.Board) Sheet {
	return Sheet{W: b.PaperW, H: b.PaperH, Usable: Rect{W: b.PaperW, H: b.PaperH}.Inset(Margin)}
}

// page shares out a sheet that is upright or turned on its side: View is the room
// for a board, from its corner.
func (s Sheet) page(turned bool) Page {
	w, h, u := s.W, s.H, s.Usable
	if turned {
		w, h = h, w
		u = Rect{X: u.Y, Y: u.X, W: u.H, H: u.W}
	}
	at := Point{u.X + Ruler, u.Y + Header + Ruler}
	view := Rect{W: u.Right() - at.X, H: u.Bottom() - Footer - at.Y}
	return Page{
		PaperW: w, PaperH: h, View: view, At: at, ScaleX: 1, ScaleY: 1,
		Header: Rect{X: u.X, Y: u.Y, W: u.W, H: Header},
		RulerX: Rect{X: at.X, Y: at.Y - Ruler, W: view.W, H: Ruler},
		RulerY: Rect{X: u.X, Y: at.Y, W: Ruler, H: view.H},
	}
}

// HandPaper is the paper, upright in mm, of the sheets that are read in the hand: the
// plan's own from A5 to Legal, otherwise Letter for Tabloid and A4 for all others.
func HandPaper(b blend.Board) (w, h float64) {
	short, long := min(b.PaperW, b.PaperH), max(b.PaperW, b.PaperH)
	switch {
	case short >= 148 && short <= 216 && long >= 200 && long <= 356:
		return short, long
	case b.Paper == "Tabloid":
		return 215.9, 279.4
	}
	return 210, 297
}
