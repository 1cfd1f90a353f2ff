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
func SheetOf(b blend.Board) Sheet { return sheet(b.PaperW, b.PaperH, b.PaperW, b.PaperH) }

// SheetBoth is the paper of a plan with only the part used that A4 and Letter
// have in common when the page is centred on either: 190 x 259.4 mm. Paper that
// is neither of the two is taken as it is.
func SheetBoth(b blend.Board) Sheet {
	const (
		a4W, a4H         = 210, 297     // ISO 216
		letterW, letterH = 215.9, 279.4 // ANSI A
	)
	if b.PaperW == a4W && b.PaperH == a4H || b.PaperW == letterW && b.PaperH == letterH {
		return sheet(b.PaperW, b.PaperH, a4W, letterH)
	}
	return SheetOf(b)
}

// sheet is paper of w x h with the middle of it used, as much as a sheet of
// usedW x usedH has between its margins.
func sheet(w, h, usedW, usedH float64) Sheet {
	return Sheet{W: w, H: h, Usable: Rect{
		X: (w-usedW)/2 + Margin,
		Y: (h-usedH)/2 + Margin,
		W: usedW - 2*Margin,
		H: usedH - 2*Margin,
	}}
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

// withoutRulers is the frame of a page that is no measure.
func (f frame) withoutRulers() frame {
	f.view = f.view.around(Rect{X: f.rulerY.X, Y: f.rulerX.Y, W: f.rulerY.W, H: f.rulerX.H})
	f.rulerX, f.rulerY = Rect{}, Rect{}
	return f
}
