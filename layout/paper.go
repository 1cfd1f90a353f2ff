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
	return Sheet{W: b.PaperW, H: b.PaperH, Usable: Rect{X: Margin, Y: Margin, W: b.PaperW - 2*Margin, H: b.PaperH - 2*Margin}}
}

// frame is how a page is shared out: places on paper, mm.
type frame struct {
	w, h           float64
	header, footer Rect
	rulerX, rulerY Rect
	view           Rect // where the board is drawn
}

// frame shares out a page that is upright or turned on its side.
func (s Sheet) frame(turned bool) frame {
	w, h, u := s.W, s.H, s.Usable
	if turned {
		w, h = h, w
		u = Rect{X: u.Y, Y: u.X, W: u.H, H: u.W}
	}
	top := u.Y + Header + Ruler
	view := Rect{X: u.X + Ruler, Y: top, W: u.W - Ruler, H: u.Bottom() - Footer - top}
	return frame{
		w:      w,
		h:      h,
		header: Rect{X: u.X, Y: u.Y, W: u.W, H: Header},
		footer: Rect{X: u.X, Y: u.Bottom() - Footer, W: u.W, H: Footer},
		rulerX: Rect{X: view.X, Y: u.Y + Header, W: view.W, H: Ruler},
		rulerY: Rect{X: u.X, Y: view.Y, W: Ruler, H: view.H},
		view:   view,
	}
}

// HandPaper is the paper, upright in mm, of the sheets that are read in the hand: the plan's
// own from A5 to Legal, otherwise the common size of its kind.
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
