package layout

import (
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
	Shared         bool // it stands on the paper of the page before it, which is of another board
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
	return fewest(b, s.frame(false), s.frame(true), func(frame) (x, y, size float64) { return 1, 1, 1 }, true)
}

// PagesFor is the pages of one board for another that is alike.
func PagesFor(b *Board, pages []Page) []Page {
	pages = slices.Clone(pages)
	for i := range pages {
		pages[i].Board = b
	}
	return pages
}

// FitPages draws a board small, as a map on one page. Its two scales differ
// where that leaves more room for text, so that it is no measure and has
// neither rulers nor crosses. Each place, with its caption, is at least wMM wide
// and hMM high; a board for which one page is too small even so takes several.
func FitPages(b *Board, s Sheet, wMM, hMM float64) []Page {
	place := b.Spots[0].Whole()
	scales := func(f frame) (x, y, size float64) {
		x = max(min(1, f.view.W/b.W), wMM/place.W)
		y = max(min(1, f.view.H/b.H), hMM/place.H)
		return x, y, min(x*place.W/wMM, y*place.H/hMM)
	}
	return fewest(b, s.frame(false).withoutRulers(), s.frame(true).withoutRulers(), scales, false)
}

// fewest splits a board over pages that are all upright or all turned:
// whichever cut no spot; then whichever are fewer; then whichever show it
// larger; then upright.
func fewest(b *Board, upright, turned frame, scales func(frame) (x, y, size float64), life bool) []Page {
	var best []Page
	most, cut := 0.0, false
	for _, f := range []frame{upright, turned} {
		x, y, size := scales(f)
		c := newCutter(b, f.view.W/x, f.view.H/y)
		if best != nil && !cut && c.total > len(best) {
			continue
		}
		pages := c.pages()
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
