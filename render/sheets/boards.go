package sheets

import (
	"fmt"
	"math"

	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
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
	d.layingOut("Board", "The places of the tiles at life size"+d.tileOrder("")+". Lay each tile on the place with its mark. "+wording.Sentence(d.contentsKey())+" "+d.letterKey(), spreads)
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

// The least places of a board on one page, mm.
const (
	leastFitW = 16.0
	leastFitH = 12.0
)

// lacksBoards says why there are no boards.
func (d *drawer) lacksBoards() string {
	b := &d.Places.Boards[0] // the largest
	if d.plan.Board.Scale == blend.Fit {
		p := layout.FitPage(b, layout.SheetOf(d.plan.Board))
		if r := p.RectOnPaper(b.Spots[0].Whole()); r.W < leastFitW || r.H < leastFitH {
			return "too many tiles for one page (leave out scale of [board], or take larger paper)"
		}
	} else if !layout.Fits(b, d.sheet()) {
		return "a tile is larger than the paper (take larger paper)"
	}
	return ""
}

// fitBoards draws each board small on one page: the places of the tiles with
// their marks, and what is in them.
func (d *drawer) fitBoards() {
	for i := range d.Places.Boards {
		b := &d.Places.Boards[i]
		from := layout.FitPage(b, layout.SheetOf(d.plan.Board))
		p := d.doc.Add(d.part.title, from.PaperW, from.PaperH)
		p.FootRect, p.Foot = from.Footer, "Not to scale. Keep this edge towards you."
		h := from.Header
		h.W -= d.toYou(p, h) + 3
		p.Text(page.Rect{X: h.X, Y: h.Y, W: h.W, H: 5}, strong, boardTitle(b))
		p.Fitted(page.Rect{X: h.X, Y: h.Y + 5, W: h.W, H: h.H - 5.2}, fine, d.span(b)+". "+wording.Sentence(d.contentsKey()))
		for _, spot := range b.Spots {
			r := from.RectOnPaper(spot.Whole())
			r = page.Rect{X: r.X + 0.4, Y: r.Y + 0.4, W: r.W - 0.8, H: r.H - 0.8}
			p.Box(r, page.Thin)
			tile := d.Places.Tiles[spot.Tile]
			style := page.Bold(page.Head)
			style.Pt = min(style.Pt, style.Pt*(r.W-1.6)/d.doc.Width(tile.Mark, style))
			d.mark(p, r.X+0.8, r.Y+1+style.CapMM(), style, tile.Mark)
			p.Fitted(page.Rect{X: r.X + 0.8, Y: r.Y + 6, W: r.W - 1.6, H: r.H - 6.4}, body, d.contentsLine(d.Test.Cells[tile.Cell-1]))
		}
	}
}

// lifeSize splits boards over the pages of the plan's paper.
func (d *drawer) lifeSize(boards []layout.Board) []spread {
	d.doc.OneSided = true
	list := make([]spread, len(boards))
	for i := range boards {
		list[i] = spread{&boards[i], layout.Pages(&boards[i], d.sheet())}
	}
	return list
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
	most := 0
	var names, pages, sizes, spans []string
	for _, s := range spreads {
		most = max(most, len(s.pages))
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
		p := d.doc.AddLife(d.part.title, from.PaperW, from.PaperH)
		p.FootRect, p.Foot = from.Footer, "Keep this edge towards you."
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
		p.Corner(at.X, at.Y, layout.Edge-1)
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
	p.Text(page.Rect{X: h.X, Y: h.Y, W: h.W, H: 5}, strong, boardTitle(s.board))
	p.Fitted(page.Rect{X: h.X, Y: h.Y + 5, W: h.W, H: h.H - 5.2}, fine, d.span(s.board))
}

// mostKeyed are the most pages that a key shows one by one.
const mostKeyed = 100

// pageKey draws the pages of a board small at the right of a rectangle, with
// page i black, and gives the width that it takes.
func pageKey(p *page.Page, r page.Rect, s spread, i int) float64 {
	k := min(r.W/s.board.W, r.H/s.board.H)
	x := r.Right() - s.board.W*k
	small := func(of page.Rect) page.Rect {
		return page.Rect{X: x + of.X*k, Y: r.Y + of.Y*k, W: of.W * k, H: of.H * k}
	}
	p.Shade(small(own(&s.pages[i])), 0)
	if len(s.pages) > mostKeyed {
		p.Box(small(page.Rect{W: s.board.W, H: s.board.H}), page.Thin)
		return s.board.W * k
	}
	for j := range s.pages {
		p.Box(small(own(&s.pages[j])), page.Thin)
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
