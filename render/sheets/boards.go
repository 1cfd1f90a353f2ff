package sheets

import (
	"fmt"
	"math"
	"slices"

	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/page"
)

// A spread is a board or a mat with the pages that it is printed on.
type spread struct {
	board *layout.Board
	pages []layout.Page
}

// boards are the boards at life size over taped pages, or, where the plan says
// so, each on one page.
func (d *drawer) boards() {
	if d.plan.Board.Scale == blend.Fit {
		d.fitBoards()
		return
	}
	spreads := d.lifeSize(d.Places.Boards)
	d.layingOut("Board", "The places of the tiles at life size"+d.tileOrder("")+". Lay each tile on the place with its mark. "+sentence(d.holdsKey())+" "+d.letterKey(), spreads)
	for _, s := range spreads {
		d.drawLife(s, func(p *page.Page, r page.Rect, at layout.Spot) { d.caption(p, r, at.Tile) })
	}
}

// tileOrder says that the places of tiles are in random order, or another thing.
func (d *drawer) tileOrder(otherwise string) string {
	if !d.plan.Board.Shuffle {
		return otherwise
	}
	return fmt.Sprintf(", in random order (seed %d) to even out the kiln", d.plan.Board.Seed)
}

// fitBoards draws each board small on one page: the places of the tiles with
// their marks, and what is in them.
func (d *drawer) fitBoards() {
	const leastW, leastH = 16.0, 12.0
	for i := range d.Places.Boards {
		b := &d.Places.Boards[i]
		for _, from := range layout.FitPages(b, layout.SheetOf(d.plan.Board), leastW, leastH) {
			p := d.doc.Add(d.part.title, from.PaperW, from.PaperH)
			p.FootRect, p.Foot = from.Footer, "Not to scale. This edge is yours."
			h := from.Header
			h.W -= d.toYou(p, h) + 3
			p.Text(page.Rect{X: h.X, Y: h.Y, W: h.W, H: 5}, page.Bold(11), boardTitle(b))
			p.Fitted(page.Rect{X: h.X, Y: h.Y + 5, W: h.W, H: h.H - 5.2}, fine, d.span(b)+". "+sentence(d.holdsKey()))
			for _, k := range from.Spots {
				r := from.RectOnPaper(b.Spots[k].Whole())
				r = page.Rect{X: r.X + 0.4, Y: r.Y + 0.4, W: r.W - 0.8, H: r.H - 0.8}
				p.Box(r, page.Thin)
				tile := d.Places.Tiles[b.Spots[k].Tile]
				style := page.Bold(12)
				style.Pt = min(style.Pt, style.Pt*(r.W-1.6)/d.doc.Width(tile.Mark, style))
				d.mark(p, r.X+0.8, r.Y+1+style.CapMM(), style, tile.Mark)
				p.Fitted(page.Rect{X: r.X + 0.8, Y: r.Y + 6, W: r.W - 1.6, H: r.H - 6.4}, page.Regular(10), d.holdsLine(d.Test.Cells[tile.Cell-1]))
			}
		}
	}
}

// lifeSize splits boards over the pages of the plan's paper, so that they also
// go on the other of A4 and Letter where that costs no more pages.
func (d *drawer) lifeSize(boards []layout.Board) []spread {
	both, own := d.split(boards, layout.SheetBoth(d.plan.Board)), d.split(boards, layout.SheetOf(d.plan.Board))
	count := func(list []spread) (n int) {
		for _, s := range list {
			for _, p := range s.pages {
				if !p.Shared {
					n++
				}
			}
		}
		return n
	}
	d.doc.OneSided = true
	if count(both) <= count(own) {
		return both
	}
	return own
}

// split splits boards over pages of a sheet; neighbours that take a part of a
// page each share one.
func (d *drawer) split(boards []layout.Board, sheet layout.Sheet) []spread {
	sheet = d.widened(sheet)
	list := make([]spread, len(boards))
	for i := range boards {
		b := &boards[i]
		if i > 0 && b.SameShape(&boards[i-1]) {
			list[i] = spread{b, layout.PagesFor(b, list[i-1].pages)}
		} else {
			list[i] = spread{b, layout.Pages(b, sheet)}
		}
	}
	for from := 0; from < len(list); {
		to := from
		var together []*layout.Board
		var heads []float64
		for ; to < len(list) && len(list[to].pages) == 1 && len(list[to].pages[0].Parts) == 0; to++ {
			together = append(together, list[to].board)
			heads = append(heads, d.headWidth(list[to].board))
		}
		if to-from > 1 {
			for i, p := range layout.Together(together, heads, sheet) {
				list[from+i].pages = []layout.Page{p}
			}
		}
		from = to + 1
	}
	return list
}

// headWidth is the width that the header of a small board needs, mm.
func (d *drawer) headWidth(b *layout.Board) float64 {
	return max(d.doc.Width(boardTitle(b), page.Bold(9)), d.doc.Width(d.span(b), fine)*0.6) + 14
}

// boardTitle names a board or a mat in its header.
func boardTitle(b *layout.Board) string {
	if b.Round {
		return b.Name
	}
	return fmt.Sprintf("Board %d: %s", b.Number, b.Name)
}

// span names the first and the last place of a board.
func (d *drawer) span(b *layout.Board) string {
	first, last := b.Spots[0], b.Spots[len(b.Spots)-1]
	if first.Tile < 0 {
		return fmt.Sprintf("First cup %d, last cup %d", first.Cell, last.Cell)
	}
	return d.firstAndLast(first.Tile, last.Tile)
}

// layingOut is the page before boards or mats: how to check the printer, how to
// lay the pages together, and which they are.
func (d *drawer) layingOut(title, lead string, spreads []spread) {
	f := d.begin(title, lead, false)
	d.checkPrinter(f)
	most, shared := 0, false
	var names, pages, sizes, spans []string
	for _, s := range spreads {
		most = max(most, len(s.pages))
		shared = shared || s.pages[0].Shared
		names, pages = append(names, boardTitle(s.board)), append(pages, fmt.Sprint(len(s.pages)))
		sizes = append(sizes, fmt.Sprintf("%.0f × %.0f", s.board.W, s.board.H))
		spans = append(spans, d.span(s.board))
	}
	how := []string{"The arrow points to you. The black corner lies at the far left."}
	if most > 1 {
		how = append(how,
			"Lay the pages by their codes: A1, A2 … make the far row, B1, B2 … the next.",
			"Cut along the dashed lines. Lay each page over the one to its left and the one above, crosses on crosses. Tape them.",
			"Measure once across the whole: the rulers count on from page to page.")
	}
	if shared {
		how = append(how, "Small boards share a page. Cut them apart along the dashed line.")
	}
	f.Heading("Lay it out", 20)
	f.Items(body, how)
	name := d.doc.Texts("name", names, strong, 4)
	name.W = min(name.W, 60)
	span := d.doc.Texts("first and last", spans, fine, 1)
	span.W, span.Grow = min(span.W, f.Rest().W-name.W-45), 1
	span.Cell = func(p *page.Page, r page.Rect, row int) { p.Fitted(r, fine, spans[row]) }
	f.Y += 2
	f.Grid(page.Grid{
		Columns: []page.Column{name, d.doc.Texts("pages", pages, body.To(page.Right), 4), d.doc.Texts("size, mm", sizes, body.To(page.Right), 4), span},
		Rows:    len(names), HeadH: 5, RowH: 8, Rule: page.EveryRow,
	})
}

// drawLife draws a board at life size: the outline of each place, and its
// caption beside it.
func (d *drawer) drawLife(s spread, caption func(*page.Page, page.Rect, layout.Spot)) {
	for i := range s.pages {
		from := &s.pages[i]
		p := d.doc.Page(d.doc.Pages() - 1)
		if !from.Shared {
			p = d.doc.AddLife(d.part.title, from.PaperW, from.PaperH)
			p.FootRect, p.Foot = from.Footer, "This edge is yours."
		}
		d.boardHead(p, s, i)
		p.Ruler(from.RulerX, from.View.X)
		p.Ruler(from.RulerY, from.View.Y)
		frame(p, from)
		for _, k := range from.Spots {
			spot := s.board.Spots[k]
			caption(p, from.RectOnPaper(spot.Caption), spot)
			r := from.RectOnPaper(spot.Rect)
			if s.board.Round {
				p.Circle(r, page.Thin)
			} else {
				p.Box(r, page.Thin)
			}
		}
		for _, k := range from.Parts {
			spot := s.board.Spots[k]
			drawPart(p, from, spot)
			if r, ok := besidePart(from, spot); ok {
				caption(p, r, spot)
			}
		}
		for _, k := range from.Heads {
			head := s.board.Heads[k]
			if r := common(from.RectOnPaper(head.Rect), from.RectOnPaper(from.View)); r.W > 0 {
				p.Text(r, strong, d.plan.Tiles.Bodies[head.Body])
			}
		}
	}
}

// frame draws what holds pages together: crosses, lines to cut along, and the
// corner of the board.
func frame(p *page.Page, from *layout.Page) {
	for _, c := range from.Crosses {
		at := from.OnPaper(c.Point)
		p.Line(at.X-c.ArmX, at.Y, at.X+c.ArmX, at.Y, page.Thin)
		p.Line(at.X, at.Y-c.ArmY, at.X, at.Y+c.ArmY, page.Thin)
		r := min(c.ArmX, c.ArmY) / 2
		p.Circle(page.Rect{X: at.X - r, Y: at.Y - r, W: 2 * r, H: 2 * r}, page.Thin)
	}
	for _, t := range from.Trim {
		a, b := from.OnPaper(t.From), from.OnPaper(t.To)
		p.Line(a.X, a.Y, b.X, b.Y, page.Thin.Dashed(3, 2))
	}
	if at := from.At; from.Row == 0 && from.Column == 0 {
		p.Fill([]page.Point{{X: at.X, Y: at.Y}, {X: at.X + layout.Edge - 1, Y: at.Y}, {X: at.X, Y: at.Y + layout.Edge - 1}}, 0)
	}
}

// boardHead is the head of a page of a board: its code, its board, the first
// and the last mark, the way to the reader, and a key of all pages.
func (d *drawer) boardHead(p *page.Page, s spread, i int) {
	h := s.pages[i].Header
	if len(s.pages) > 1 {
		code := page.Bold(page.Title)
		w := d.doc.Width(s.pages[i].Code, code)
		p.Text(page.Rect{X: h.X, Y: h.Y, W: w, H: h.H - 1}, code, s.pages[i].Code)
		h.X, h.W = h.X+w+3, h.W-w-3
		h.W -= pageKey(p, page.Rect{X: h.Right() - min(36, h.W/4), Y: h.Y, W: min(36, h.W/4), H: h.H - 1}, s, i) + 3
	}
	h.W -= d.toYou(p, h) + 3
	p.Text(page.Rect{X: h.X, Y: h.Y, W: h.W, H: 5}, page.Bold(11), boardTitle(s.board))
	p.Fitted(page.Rect{X: h.X, Y: h.Y + 5, W: h.W, H: h.H - 5.2}, fine, d.span(s.board))
}

// mostKeyed are the most pages that a key shows one by one.
const mostKeyed = 100

// pageKey draws the pages of a board small at the right of a rectangle, with
// page i black, and gives the width that it takes.
func pageKey(p *page.Page, r page.Rect, s spread, i int) float64 {
	k := min(r.W/s.board.W, r.H/s.board.H)
	x := r.Right() - s.board.W*k
	draw := func(of page.Rect, black bool) {
		q := page.Rect{X: x + of.X*k, Y: r.Y + of.Y*k, W: of.W * k, H: of.H * k}
		if black {
			p.Shade(q, 0)
		}
		p.Box(q, page.Thin)
	}
	if len(s.pages) > mostKeyed {
		draw(page.Rect{W: s.board.W, H: s.board.H}, false)
		draw(own(&s.pages[i]), true)
	} else {
		for j := range s.pages {
			draw(own(&s.pages[j]), j == i)
		}
	}
	return s.board.W * k
}

// own is the part of the board that the places of a page take.
func own(from *layout.Page) page.Rect {
	if len(from.Spots) == 0 {
		return from.View
	}
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, k := range from.Spots {
		r := from.Board.Spots[k].Whole()
		x0, y0, x1, y1 = min(x0, r.X), min(y0, r.Y), max(x1, r.Right()), max(y1, r.Bottom())
	}
	return page.Rect{X: x0, Y: y0, W: x1 - x0, H: y1 - y0}
}

// common is what two rectangles have in common; its width or height is not
// above 0 where that is nothing.
func common(a, b page.Rect) page.Rect {
	x, y := max(a.X, b.X), max(a.Y, b.Y)
	return page.Rect{X: x, Y: y, W: min(a.Right(), b.Right()) - x, H: min(a.Bottom(), b.Bottom()) - y}
}

// drawPart draws what a page shows of a place that is larger than a page.
func drawPart(p *page.Page, from *layout.Page, spot layout.Spot) {
	r, v := from.RectOnPaper(spot.Rect), from.RectOnPaper(from.View)
	var at []page.Point
	if from.Board.Round { // chords that stray less than 0.01 mm from the circle
		radius := r.W / 2
		n := 4 * int(math.Ceil(math.Pi/math.Acos(1-0.01/radius)/4))
		for i := range n + 1 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			at = append(at, page.Point{X: r.X + radius + radius*cos, Y: r.Y + radius + radius*sin})
		}
	} else {
		at = []page.Point{{X: r.X, Y: r.Y}, {X: r.Right(), Y: r.Y}, {X: r.Right(), Y: r.Bottom()}, {X: r.X, Y: r.Bottom()}, {X: r.X, Y: r.Y}}
	}
	for i := 1; i < len(at); i++ {
		a, b := at[i-1], at[i]
		box := common(page.Rect{X: min(a.X, b.X), Y: min(a.Y, b.Y), W: math.Abs(a.X - b.X), H: math.Abs(a.Y - b.Y)}, v)
		switch {
		case box.W < -1e-9 || box.H < -1e-9:
		case from.Board.Round:
			if box.W >= math.Abs(a.X-b.X)-1e-9 && box.H >= math.Abs(a.Y-b.Y)-1e-9 {
				p.Line(a.X, a.Y, b.X, b.Y, page.Thin)
			}
		default: // upright or level
			p.Line(box.X, box.Y, box.Right(), box.Bottom(), page.Thin)
		}
	}
}

// besidePart is the place on paper for the caption of a place of which a page
// shows a part: where the board has it, to the right, or else inside.
func besidePart(from *layout.Page, spot layout.Spot) (page.Rect, bool) {
	view := from.RectOnPaper(from.View)
	view = page.Rect{X: view.X + 1, Y: view.Y + 1, W: view.W - 2, H: view.H - 2}
	w, h := min(spot.Caption.W, 45), spot.Caption.H
	shown := common(from.RectOnPaper(spot.Rect), view)
	tries := []page.Rect{from.RectOnPaper(spot.Caption), {X: shown.Right() + 2, Y: shown.Y}, {X: shown.X + 3, Y: shown.Y + 2}}
	for _, r := range tries {
		r.W, r.H = w, h
		for ; r.Bottom() <= view.Bottom(); r.Y += 2 {
			if r.X >= view.X && r.Right() <= view.Right() && r.Y >= view.Y && isFree(from, r, spot) {
				return r, true
			}
		}
	}
	return page.Rect{}, false
}

// isFree reports whether nothing else of a page lies in a rectangle.
func isFree(from *layout.Page, r page.Rect, of layout.Spot) bool {
	var taken []page.Rect
	for _, c := range from.Crosses {
		taken = append(taken, layout.Rect{X: c.X - c.ArmX, Y: c.Y - c.ArmY, W: 2 * c.ArmX, H: 2 * c.ArmY})
	}
	for _, t := range from.Trim {
		taken = append(taken, layout.Rect{X: min(t.From.X, t.To.X), Y: min(t.From.Y, t.To.Y), W: math.Abs(t.To.X - t.From.X), H: math.Abs(t.To.Y - t.From.Y)})
	}
	for _, k := range slices.Concat(from.Spots, from.Parts) {
		if other := from.Board.Spots[k]; other.Rect != of.Rect {
			taken = append(taken, other.Whole())
		}
	}
	// The outline of the place itself may not run through it.
	o := of.Rect
	taken = append(taken, layout.Rect{X: o.X, Y: o.Y, W: o.W}, layout.Rect{X: o.X, Y: o.Bottom(), W: o.W}, layout.Rect{X: o.X, Y: o.Y, H: o.H}, layout.Rect{X: o.Right(), Y: o.Y, H: o.H})
	return !slices.ContainsFunc(taken, func(t layout.Rect) bool {
		both := common(r, from.RectOnPaper(t))
		return both.W > -0.8 && both.H > -0.8
	})
}
