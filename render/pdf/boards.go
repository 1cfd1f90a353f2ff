package pdf

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/layout"
)

// A spread is a board or a mat with the pages that it is printed on.
type spread struct {
	board  *layout.Board
	pages  []layout.Page
	codeMM float64 // width of the widest code of a page in the head of each
	words  headWords
}

// headWords are the words in the head of a board's pages, which are the same on
// all where they have the same room.
type headWords struct {
	wMM         float64 // of the room
	key         string
	title, text fitted
	tells       bool // what the letters mean
}

func (s *sheets) spread(b *layout.Board, pages []layout.Page) spread {
	sp := spread{board: b, pages: pages}
	for i := range pages {
		sp.codeMM = max(sp.codeMM, s.doc.width(pages[i].Code, codeFont))
	}
	return sp
}

// shared reports whether the board stands on the page of the one before it.
func (sp spread) shared() bool { return sp.pages[0].Shared }

// codeFont is that of a page's code in its head.
var codeFont = bold(26)

// covered reports whether any page has no room for captions but inside the spots.
func covered(spreads []spread) bool {
	for _, sp := range spreads {
		for i := range sp.pages {
			for _, k := range sp.pages[i].Parts {
				if _, where := besidePart(&sp.pages[i], sp.board.Spots[k]); where == inIt {
					return true
				}
			}
		}
	}
	return false
}

// boards are the boards at life size: the outline of every tile, and beside it
// what the tile is, so that it can be read with the tile lying there.
func (s *sheets) boards() {
	spreads := s.lifeSize(s.Places.Boards)
	c := s.captions()
	key := "Figures in " + strings.TrimPrefix(s.shareBase(), "in ")
	if c.lettered {
		key = s.shareKey()
	}
	if c.brief {
		key += madeKey
	}
	beside := "Beside each spot"
	if covered(spreads) {
		beside = "Beside each spot, and inside it on pages that have no room beside it"
	}
	s.assembly(spreads, assembly{
		needs: "scissors, adhesive tape, the marked tiles",
		lead:  s.boardLead(),
		key:   beside + ": the mark on the tile, its cup, and what is in it. " + key + ".",
		noun:  "board",
	})
	s.drawLife(spreads, func(p *page, at layout.Spot) {
		p.rect(at.X, at.Y, at.W, at.H, thin)
	}, c.draw, key)
}

// boardLead says how the tiles lie.
func (s *sheets) boardLead() string {
	if !s.plan.Board.Shuffle {
		return ""
	}
	return fmt.Sprintf("The tiles lie in random order, from the seed %d of the plan: so what the place in the kiln does is not taken for what the glaze does.", s.plan.Board.Seed)
}

// lifeSize splits boards over the pages of the plan's paper: so that they also
// go on the other of A4 and Letter where that costs no more pages.
func (s *sheets) lifeSize(boards []layout.Board) []spread {
	both := s.split(boards, layout.SheetBoth(s.plan.Board))
	own := s.split(boards, layout.SheetOf(s.plan.Board))
	count := func(list []spread) (n int) {
		for _, sp := range list {
			n += len(sp.pages)
			if sp.shared() {
				n--
			}
		}
		return n
	}
	if count(both) <= count(own) {
		return both
	}
	return own
}

// split splits boards over pages of a sheet, whose margins it widens for a
// printer that stretches or shrinks.
func (s *sheets) split(boards []layout.Board, sheet layout.Sheet) []spread {
	u := &sheet.Usable
	if x := s.doc.lifeMarginMM(sheet.W); u.X < x {
		u.X, u.W = x, sheet.W-2*x
	}
	if y := s.doc.lifeMarginMM(sheet.H); u.Y < y {
		u.Y, u.H = y, sheet.H-2*y
	}
	list := make([]spread, len(boards))
	for i := range boards {
		b := &boards[i]
		if i > 0 && b.Alike(&boards[i-1]) {
			list[i] = s.spread(b, layout.PagesFor(b, list[i-1].pages))
		} else {
			list[i] = s.spread(b, layout.Pages(b, sheet))
		}
	}
	s.together(list, sheet)
	return list
}

// together puts neighbouring boards that each take a part of a page on common
// pages, as far as they go on them.
func (s *sheets) together(list []spread, sheet layout.Sheet) {
	for from := 0; from < len(list); {
		to := from
		for to < len(list) && len(list[to].pages) == 1 && len(list[to].pages[0].Parts) == 0 {
			to++
		}
		if to-from < 2 {
			from = to + 1
			continue
		}
		var boards []*layout.Board
		var heads []float64
		for _, sp := range list[from:to] {
			boards = append(boards, sp.board)
			heads = append(heads, s.headMM(sp.board))
		}
		for i, page := range layout.Together(boards, heads, sheet) {
			list[from+i].pages = []layout.Page{page}
		}
		from = to
	}
}

// headMM is the width that the header of a board of one page needs for its name
// on one line and its first and last mark on two.
func (s *sheets) headMM(b *layout.Board) float64 {
	const apart, ragged = 3.0, 1.2
	name, marks := s.doc.width(boardTitle(b), bold(headLeastPt)), s.doc.width(s.firstAndLast(b), regular(headLeastPt))
	return max(name, marks/2*ragged) + apart + s.doc.width("to you", regular(footerPt))
}

// headLeastPt is the least size of what stands in the header of a board.
const headLeastPt = 7.0

// drawLife draws the pages of boards at life size. outline draws a whole spot
// at its place on the page, and caption what stands beside it.
func (s *sheets) drawLife(spreads []spread, outline func(*page, layout.Spot), caption func(*page, layout.Rect, layout.Spot), key string) {
	var p *page
	for k := range spreads {
		sp := &spreads[k]
		for i := range sp.pages {
			from := &sp.pages[i]
			if !from.Shared {
				p = s.doc.addLifePage(s.section.title, from.PaperW, from.PaperH)
			}
			if i == 0 && len(spreads) > 1 {
				s.doc.bookmark(1, sp.board.Name)
			}
			p.foot, p.toYou = from.Footer, true
			s.boardHeader(p, sp, i, key, "first")
			p.ruler(from.RulerX.X, from.RulerX.Y+rulerHalfMM, from.View.X, from.RulerX.W, false)
			p.ruler(from.RulerY.X+rulerHalfMM, from.RulerY.Y, from.View.Y, from.RulerY.H, true)
			s.frame(p, from)
			for _, k := range from.Spots {
				spot := sp.board.Spots[k]
				caption(p, from.RectOnPaper(spot.Caption), spot)
				spot.Rect = from.RectOnPaper(spot.Rect)
				outline(p, spot)
			}
			for _, k := range from.Parts {
				spot := sp.board.Spots[k]
				p.part(from, spot, sp.board.Round)
				if at, where := besidePart(from, spot); where != nowhere {
					caption(p, at, spot)
				}
			}
			for _, k := range from.Heads {
				head := sp.board.Heads[k]
				if r := from.RectOnPaper(common(head.Rect, clear(from))); r.W > 0 {
					p.textIn(r.X, r.Y, r.W, r.H, s.plan.Tiles.Bodies[head.Body], bold(12), 7, left)
				}
			}
		}
	}
	if len(s.doc.long.fresh) > 0 {
		f := &flow{doc: s.doc, section: s.section.title, wMM: s.wMM, hMM: s.hMM}
		f.nextPage()
		f.longTexts()
	}
}

// captionMM is how wide the caption of a spot is set that has a box of so many
// mm for it: no wider than can be read on each page that shows a part of a wide
// spot, and of one that leaves little of a page free, than goes beside it.
func captionMM(boxMM float64) float64 {
	if boxMM > 120 {
		return 45
	}
	return min(boxMM, 60)
}

// clear is what a page shows of its board, clear of the rulers and, where it
// shows parts of spots, of the line that its left side is cut along; board mm.
func clear(from *layout.Page) layout.Rect {
	v := from.View
	x0 := v.X + 1
	for _, t := range from.Trim {
		if len(from.Parts) > 0 && t.From.X == t.To.X {
			x0 = max(x0, t.From.X+1)
		}
	}
	return layout.Rect{X: x0, Y: v.Y + 1, W: v.Right() - 1 - x0, H: v.H - 2}
}

// Where the caption of a spot goes that is larger than a page.
type whereabouts int

const (
	nowhere  whereabouts = iota
	besideIt             // the tile or cup leaves it free
	inIt                 // it is covered by it
)

// besidePart is the place on paper for the caption of a spot of which a page
// shows a part: where the board has it, below the spot; or to the right of it,
// where the paper is free; or else inside.
func besidePart(from *layout.Page, spot layout.Spot) (layout.Rect, whereabouts) {
	w, h := captionMM(spot.Caption.W), spot.Caption.H
	view := from.RectOnPaper(clear(from))
	if at := common(from.RectOnPaper(spot.Caption), view); at.W >= w && at.H >= h-1e-6 {
		at.W = w
		return at, besideIt
	}
	shown := common(from.RectOnPaper(spot.Rect), view)
	const gap = 2.0
	if from.View.Right() >= spot.Right()-1e-6 {
		at := layout.Rect{X: shown.Right() + gap, Y: shown.Y, W: w, H: h}
		if at.Right() <= from.Header.Right() && moveClear(from, &at, spot, view.Bottom()) {
			return at, besideIt
		}
	}
	at := layout.Rect{X: shown.X + gap, Y: shown.Y + gap, W: w, H: h}
	if at.Right() <= shown.Right()-gap && moveClear(from, &at, spot, shown.Bottom()-gap) {
		return at, inIt
	}
	return layout.Rect{}, nowhere
}

// moveClear moves a caption down a page until it is clear of the crosses, of the
// lines to cut along and of the other spots, and says whether it is above
// bottom then.
func moveClear(from *layout.Page, at *layout.Rect, of layout.Spot, bottom float64) bool {
	var taken []layout.Rect
	for _, c := range from.Crosses {
		taken = append(taken, from.RectOnPaper(layout.Rect{X: c.X - c.ArmX, Y: c.Y - c.ArmY, W: 2 * c.ArmX, H: 2 * c.ArmY}))
	}
	for _, t := range from.Trim {
		taken = append(taken, from.RectOnPaper(layout.Rect{X: t.From.X, Y: t.From.Y, W: t.To.X - t.From.X, H: t.To.Y - t.From.Y}))
	}
	for _, list := range [][]int{from.Spots, from.Parts} {
		for _, k := range list {
			if other := from.Board.Spots[k]; other.Rect != of.Rect {
				taken = append(taken, from.RectOnPaper(other.Whole()))
			}
		}
	}
	slices.SortFunc(taken, func(a, b layout.Rect) int { return cmp.Compare(a.Y, b.Y) })
	const gap = 1.0
	for _, r := range taken {
		if both := common(*at, r); both.W > -gap && both.H > -gap {
			at.Y = r.Bottom() + gap
		}
	}
	return at.Bottom() <= bottom
}

// common is what two rectangles have in common; its width or height is not
// above 0 where that is nothing.
func common(a, b layout.Rect) layout.Rect {
	x, y := max(a.X, b.X), max(a.Y, b.Y)
	return layout.Rect{X: x, Y: y, W: min(a.Right(), b.Right()) - x, H: min(a.Bottom(), b.Bottom()) - y}
}

// part draws what a page shows of a spot that is larger than a page.
func (p *page) part(from *layout.Page, spot layout.Spot, round bool) {
	r := from.RectOnPaper(spot.Rect)
	v := from.RectOnPaper(from.View)
	inX := func(x float64) bool { return x >= v.X-1e-6 && x <= v.Right()+1e-6 }
	inY := func(y float64) bool { return y >= v.Y-1e-6 && y <= v.Bottom()+1e-6 }
	if round {
		// Chords that stray less than 0.01 mm from the circle.
		radius := r.W / 2
		n := 4 * int(math.Ceil(math.Pi/math.Acos(1-0.01/radius)/4))
		at := func(i int) point {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			return point{r.X + radius + radius*cos, r.Y + radius + radius*sin}
		}
		for i := range n {
			a, b := at(i), at(i+1)
			if inX(a.x) && inX(b.x) && inY(a.y) && inY(b.y) {
				p.line(a.x, a.y, b.x, b.y, thin)
			}
		}
		return
	}
	x0, x1 := max(r.X, v.X), min(r.Right(), v.Right())
	y0, y1 := max(r.Y, v.Y), min(r.Bottom(), v.Bottom())
	for _, y := range []float64{r.Y, r.Bottom()} {
		if inY(y) && x0 < x1 {
			p.line(x0, y, x1, y, thin)
		}
	}
	for _, x := range []float64{r.X, r.Right()} {
		if inX(x) && y0 < y1 {
			p.line(x, y0, x, y1, thin)
		}
	}
}

// frame draws what holds pages together and shows which way up they lie:
// registration crosses, lines to trim along, and the corner of the board. Which
// edge is the reader's stands in the footer, clear of all that is on the board.
func (s *sheets) frame(p *page, from *layout.Page) {
	for _, c := range from.Crosses {
		at := from.OnPaper(c.Point)
		p.cross(at.X, at.Y, c.ArmX, c.ArmY)
	}
	for _, t := range from.Trim {
		a, b := from.OnPaper(t.From), from.OnPaper(t.To)
		p.line(a.X, a.Y, b.X, b.Y, pen{mm: 0.2, grey: 0.3}.dashed(3, 2))
	}
	const corner = layout.Edge
	if from.Row == 0 && from.Column == 0 {
		at := from.At
		p.fill([]point{{at.X, at.Y}, {at.X + corner, at.Y}, {at.X, at.Y + corner}}, 0)
	}
}

// boardHeader is the head of a page of a board: its code, its board, the first
// and the last mark, what the letters mean, the way to the reader, and
// a key of all pages with this one black. What the letters mean may have no
// room: then it names the page of the section that tells it, "first" or "last",
// and tells is false.
func (s *sheets) boardHeader(p *page, sp *spread, i int, key, elsewhere string) (tells bool) {
	from := &sp.pages[i]
	h := from.Header
	const gap = 3.0
	x, end := h.X, h.Right()
	if len(sp.pages) > 1 {
		p.text(x, h.Y+(h.H-1)/2+0.36*codeFont.pt*mmPerPt, from.Code, codeFont, left)
		x += sp.codeMM + gap
		w := pageKey(p, end, h.Y, min(36, h.W/4), h.H-1, sp, i)
		end -= w + gap
	}
	// An arrow to the reader, with its words beside it.
	you := regular(footerPt)
	youMM := s.doc.width("to you", you)
	p.arrow(end-youMM/2, h.Y+you.lineMM(), end-youMM/2, h.Y+h.H-1, pen{mm: 0.9})
	p.text(end-youMM/2, h.Y+you.ascentMM(), "to you", you, centre)
	end -= youMM + gap

	w := end - x
	if sp.words.wMM != w || sp.words.key != key {
		sp.words = s.headWords(sp.board, w, h.H-headTitleMM-0.1, key, elsewhere)
	}
	p.fitted(x, h.Y, w, headTitleMM, sp.words.title, left)
	p.fitted(x, h.Y+headTitleMM, w, h.H-headTitleMM-0.1, sp.words.text, left)
	return sp.words.tells
}

// headTitleMM is the height of the board's name in a head.
const headTitleMM = 4.7

// headWords fits the words in the head of a board: its name, and in the height
// below that the first and the last mark and what the letters mean, as far as
// there is room.
func (s *sheets) headWords(b *layout.Board, wMM, hMM float64, key, elsewhere string) headWords {
	words := headWords{wMM: wMM, key: key, title: s.doc.fit(boardTitle(b), wMM, headTitleMM, bold(benchPt), headLeastPt)}
	marks, small := s.firstAndLast(b), regular(8.5)
	if words.text, words.tells = s.doc.fitWhole(marks+". "+key, wMM, hMM, small, headLeastPt); words.tells {
		return words
	}
	var ok bool
	if words.text, ok = s.doc.fitWhole(marks+". For the letters see the "+elsewhere+" page of this section", wMM, hMM, small, headLeastPt); !ok {
		words.text = s.doc.fit(marks, wMM, hMM, small, headLeastPt)
	}
	return words
}

// boardTitle names a board or a mat in its header.
func boardTitle(b *layout.Board) string {
	if b.Round {
		return b.Name
	}
	return fmt.Sprintf("Board %d: %s", b.Number, b.Name)
}

// readAs names the tile of a spot by its mark and by its signs in words, or its
// cup on a mat.
func (s *sheets) readAs(spot layout.Spot) string {
	if spot.Tile < 0 {
		return fmt.Sprint(spot.Cell)
	}
	mark := s.Places.Tiles[spot.Tile].Mark
	return mark + " (" + spelled(mark) + ")"
}

// firstAndLast names the first and the last spot of a board: cups of a mat by
// their numbers, tiles by their marks, which are spelled out, so that they cannot
// be taken for others upside down.
func (s *sheets) firstAndLast(b *layout.Board) string {
	first, last := b.Spots[0], b.Spots[len(b.Spots)-1]
	if first.Tile < 0 {
		if len(b.Spots) == 1 {
			return "Only cup " + fmt.Sprint(first.Cell)
		}
		return fmt.Sprintf("First cup %d, last cup %d", first.Cell, last.Cell)
	}
	text := s.readAs(first)
	if len(b.Spots) == 1 {
		return "Only: " + text
	}
	return "First, at the top: " + text + "; last, at the bottom: " + s.readAs(last)
}

// mostKeyed are the most pages that a key shows one by one. Of more it would
// show a hatching, and take more of each page than all that is on it.
const mostKeyed = 100

// pageKey draws the pages of a board small, up to the right edge x1, with page
// i black, and gives the width that it takes. Pages are shown by the spots on
// them, as their views overlap.
func pageKey(p *page, x1, y, wMM, hMM float64, sp *spread, i int) float64 {
	k := min(wMM/sp.board.W, hMM/sp.board.H)
	x := x1 - sp.board.W*k
	draw := func(r layout.Rect, black bool) {
		rx, ry, rw, rh := x+r.X*k, y+r.Y*k, r.W*k, r.H*k
		if black {
			p.fillRect(rx, ry, rw, rh, 0)
		}
		p.rect(rx, ry, rw, rh, thin)
	}
	if len(sp.pages) > mostKeyed {
		draw(layout.Rect{W: sp.board.W, H: sp.board.H}, false)
		draw(own(&sp.pages[i]), true)
	} else {
		for j := range sp.pages {
			draw(own(&sp.pages[j]), j == i)
		}
	}
	return sp.board.W * k
}

// own is the part of the board that the spots of a page take.
func own(from *layout.Page) layout.Rect {
	if len(from.Spots) == 0 {
		return from.View
	}
	x0, y0 := math.Inf(1), math.Inf(1)
	x1, y1 := math.Inf(-1), math.Inf(-1)
	for _, k := range from.Spots {
		r := from.Board.Spots[k].Whole()
		x0, y0 = min(x0, r.X), min(y0, r.Y)
		x1, y1 = max(x1, r.Right()), max(y1, r.Bottom())
	}
	return layout.Rect{X: x0, Y: y0, W: x1 - x0, H: y1 - y0}
}
