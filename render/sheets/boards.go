package sheets

import (
	"fmt"
	"slices"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
)

const edgeFoot = "Keep this edge towards you."

// The least places of a board on one page, mm.
const (
	leastFitW = 16.0
	leastFitH = 12.0
)

// lacksRoom says why a part does not go on the paper at life size, or small.
func (d *drawer) lacksRoom(part string) string {
	switch b := &d.Places.Boards[0]; { // the largest
	case part == "mat" && d.plan.Cup.DiameterMM <= 0:
		return "the cup has no diameter (give [cup] diameter)"
	case part == "mat" && !layout.Fits(&layout.Mat(d.Test)[0], d.sheet()):
		return "a cup is larger than the paper (take larger paper)"
	case part == "board" && d.plan.Board.Scale == blend.Fit:
		p := layout.FitPage(b, layout.SheetOf(d.plan.Board))
		if r := p.RectOnPaper(b.Spots[0].Whole()); r.W < leastFitW || r.H < leastFitH {
			return "too many tiles for one page (leave out scale of [board], or take larger paper)"
		}
	case part == "board" && !layout.Fits(b, d.sheet()),
		part == "trays" && layout.Trays(d.Test, d.Places, d.sheet()) == nil:
		return "a tile is larger than the paper (take larger paper)"
	}
	return ""
}

// boards are the boards at life size over taped pages, or, where the plan says
// so, each on one page.
func (d *drawer) boards() {
	if d.plan.Board.Scale == blend.Fit {
		for i := range d.Places.Boards {
			d.fitBoard(&d.Places.Boards[i])
		}
		return
	}
	spreads := d.spreads(d.Places.Boards)
	d.layingOut("Board", "The places of the tiles at life size"+d.tileOrder("")+
		". Lay each tile on the place with its mark. "+d.keys(), spreads)
	for _, s := range spreads {
		d.drawLife(s, s.Board.Name, d.tilePlace)
	}
}

// keys says what the letters of the contents and of the marks stand for.
func (d *drawer) keys() string { return wording.Sentence(d.contentsKey()) + " " + d.letterKey() }

// tileOrder says that the places of tiles are in random order, or another thing.
func (d *drawer) tileOrder(otherwise string) string {
	if !d.plan.Board.Shuffle {
		return otherwise
	}
	return fmt.Sprintf(", in random order (seed %d) to even out the kiln", d.plan.Board.Seed)
}

// fitBoard draws a board small on one page: the places of the tiles with their
// marks, and what is in them.
func (d *drawer) fitBoard(b *layout.Board) {
	from := layout.FitPage(b, layout.SheetOf(d.plan.Board))
	p := d.doc.Add(d.part.title, from.PaperW, from.PaperH)
	p.Foot = "Not to scale. " + edgeFoot
	d.lifeHead(p, from.Header, b.Name, d.span(b)+". "+wording.Sentence(d.contentsKey()))
	for _, spot := range b.Spots {
		place := from.RectOnPaper(spot.Whole()).Inset(0.4)
		p.Box(place, page.Thin)
		r, tile, style := place.Inset(0.8), d.Places.Tiles[spot.Tile], partName
		style.Pt = min(style.Pt, style.Pt*r.W/d.doc.Width(tile.Mark, style))
		d.mark(p, r.X, place.Y+1+style.CapMM(), style, tile.Mark)
		p.Fitted(r.Below(5.2).Upper(place.H-6.4), body, d.contentsLine(d.Test.Cells[tile.Cell-1]))
	}
}

// mat is the places of the cups at life size, in the shape of the design, each
// with its number and what goes in.
func (d *drawer) mat() {
	mats := layout.Mat(d.Test)
	spreads := d.spreads(mats)
	d.layingOut("Mat", "The places of the cups at life size. Cover the mat with clear film. "+
		wording.Sentence(d.contentsKey()), spreads)
	most, cup := d.doc.Width(fmt.Sprint(len(d.Test.Cells)), page.Bold(1)), mats[0].Spots[0]
	number := page.Bold(min(90, cup.W*0.5/most, cup.H*0.5/page.MMPerPt)).To(page.Centre)
	for _, s := range spreads {
		d.drawLife(s, s.Board.Name, func(p *page.Page, circle, below page.Rect, at layout.Spot) {
			p.Circle(circle, page.Thin)
			p.Text(circle, number, fmt.Sprint(at.Cell))
			p.Text(below.Upper(layout.CaptionMark), partName, fmt.Sprint("cup ", at.Cell))
			p.Fitted(below.Below(layout.CaptionMark), body, d.contentsLine(d.Test.Cells[at.Cell-1]))
		})
	}
}

// trays are loose sheets of tile places at life size, after a page that says
// how to check the printer. The places of coded squares stay free.
func (d *drawer) trays() {
	cards := layout.Trays(d.Test, d.Places, d.sheet())
	f := d.begin("Tray cards", fmt.Sprintf("%s at life size%s. Lay each tile on the place with its mark. %s",
		quantity.Plural(len(cards), "loose sheet", "loose sheets"), d.tileOrder(", in the order of the map"),
		d.keys()), false)
	d.checkPrinter(f)
	for i, c := range cards {
		first := d.Places.Tiles[c.Board.Spots[0].Tile]
		name := fmt.Sprintf("Tray %d of %d: %s", i+1, len(cards), d.plan.Tiles.Bodies[first.Body])
		if d.plan.Tiles.Repeats > 1 {
			name += fmt.Sprintf(", repeat %d", first.Repeat+1)
		}
		d.drawLife(c, name, d.tilePlace)
	}
}

// spreads are boards with the pages that they are printed on.
func (d *drawer) spreads(boards []layout.Board) []layout.Spread {
	list := make([]layout.Spread, len(boards))
	for i := range boards {
		list[i] = layout.Spread{Board: &boards[i], Pages: layout.Pages(&boards[i], d.sheet())}
	}
	return list
}

// span names the first and the last place of a board.
func (d *drawer) span(b *layout.Board) string {
	first, last := b.Spots[0], b.Spots[len(b.Spots)-1]
	if first.Tile < 0 {
		return fmt.Sprintf("First cup %d, last cup %d", first.Cell, last.Cell)
	}
	return "First " + d.Places.Tiles[first.Tile].Mark + ", last " + d.Places.Tiles[last.Tile].Mark
}

// layingOut is the page before boards or mats: how to check the printer, how to
// lay the pages together, and which they are.
func (d *drawer) layingOut(title, lead string, spreads []layout.Spread) {
	f := d.begin(title, lead, false)
	d.checkPrinter(f)
	how := []string{"The arrow points to you. The black corner lies at the far left."}
	if slices.ContainsFunc(spreads, func(s layout.Spread) bool { return len(s.Pages) > 1 }) {
		how = append(how,
			"Lay the pages by their codes: A1, A2 … make the far row, B1, B2 … the next.",
			"Cut along the dashed lines. Lay each page over the one to its left and the one above, crosses on crosses. "+
				"Tape them.",
			"Measure once across the whole: the rulers count on from page to page.")
	}
	f.List("Lay it out", body, how)
	var rows [][]string
	for _, s := range spreads {
		b := s.Board
		rows = append(rows, []string{b.Name, fmt.Sprint(len(s.Pages)), fmt.Sprintf("%.0f × %.0f", b.W, b.H), d.span(b)})
	}
	f.Y += 2
	right := body.To(page.Right)
	f.Table([]page.Column{{Head: "name", Style: strong}, {Head: "pages", Style: right}, {Head: "size, mm", Style: right},
		{Head: "first and last", Style: fine, Grow: 1}}, rows)
}

// A placeDrawer draws the place of a tile or cup, and its caption below.
type placeDrawer func(p *page.Page, outline, below page.Rect, at layout.Spot)

// drawLife draws a board at life size.
func (d *drawer) drawLife(s layout.Spread, name string, draw placeDrawer) {
	d.doc.OneSided = true
	for i := range s.Pages {
		from := &s.Pages[i]
		p := d.doc.AddLife(d.part.title, from.PaperW, from.PaperH)
		p.Foot = edgeFoot
		header := from.Header
		if len(s.Pages) > 1 {
			header = d.pageCode(p, header, s, i)
		}
		d.lifeHead(p, header, name, d.span(s.Board))
		p.Ruler(from.RulerX, from.View.X)
		p.Ruler(from.RulerY, from.View.Y)
		frame(p, from)
		row := -1
		for _, k := range from.Spots {
			spot := s.Board.Spots[k]
			outline := from.RectOnPaper(spot.Rect)
			draw(p, outline, from.RectOnPaper(spot.Caption), spot)
			if s.Board.HeadH > 0 && spot.Row != row {
				outline.Y -= s.Board.HeadH
				p.Text(outline.Upper(s.Board.HeadH), strong, d.plan.Tiles.Bodies[d.Places.Tiles[spot.Tile].Body])
			}
			row = spot.Row
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

// pageCode draws the code of page i of a board, and at the right all pages small,
// that one black. It gives the header between them.
func (d *drawer) pageCode(p *page.Page, h page.Rect, s layout.Spread, i int) page.Rect {
	style := page.Bold(page.Title)
	w := d.doc.Width(s.Pages[i].Code, style)
	p.Text(h.Before(w).Upper(h.H-1), style, s.Pages[i].Code)
	k := min(36/s.Board.W, h.W/4/s.Board.W, (h.H-1)/s.Board.H)
	key := h.After(h.W - s.Board.W*k).Upper(s.Board.H * k)
	p.Box(key, page.Thin)
	for j, from := range s.Pages {
		own := from.View.Inset(layout.Overlap / 2)
		small := page.Rect{X: key.X + own.X*k, Y: key.Y + own.Y*k, W: own.W * k, H: own.H * k}
		if j == i {
			p.Shade(small, 0)
		} else if len(s.Pages) <= mostKeyed {
			p.Box(small, page.Thin)
		}
	}
	return h.Before(h.W - key.W - 3).After(w + 3)
}

// mostKeyed are the most pages that a key shows one by one.
const mostKeyed = 100

// lifeHead draws the head of a page at life size: its board, and at the right an arrow
// to the reader.
func (d *drawer) lifeHead(p *page.Page, h page.Rect, name, span string) {
	style := page.Regular(page.Least)
	w := d.doc.Width("to you", style)
	arrow := h.After(h.W - w)
	p.Text(arrow.Upper(style.LineH()), style.To(page.Centre), "to you")
	p.Arrow(arrow.Below(style.LineH() + 0.3).Upper(h.H - style.LineH() - 1.3))
	h.W -= w + 3
	p.Text(h.Upper(5), strong, name)
	p.Fitted(h.Below(5).Upper(h.H-5.2), fine, span)
}

// tilePlace draws the outline of a tile, and below it its mark, its cup where
// there is room, and what is in it.
func (d *drawer) tilePlace(p *page.Page, outline, r page.Rect, at layout.Spot) {
	p.Box(outline, page.Thin)
	style, text, cup := partName, d.Places.Tiles[at.Tile].Mark, fmt.Sprint("cup ", at.Cell)
	room := r.W - d.doc.Width(cup, fine) - 2
	for style.Pt > page.Least && d.doc.Width(text, style) > room {
		style.Pt -= 0.5
	}
	first := r.Upper(layout.CaptionMark)
	d.mark(p, r.X, first.Y+first.H/2+style.CapMM()/2, style, text)
	if d.doc.Width(text, style) <= room {
		p.Text(first, fine.To(page.Right), cup)
	}
	p.Fitted(r.Below(first.H), body, d.contentsLine(d.Test.Cells[at.Cell-1]))
}

// sheet is the plan's paper, its margins widened for a printer that stretches or
// shrinks.
func (d *drawer) sheet() layout.Sheet {
	s := layout.SheetOf(d.plan.Board)
	u := &s.Usable
	if x := d.doc.LifeMargin(s.W); u.X < x {
		u.X, u.W = x, s.W-2*x
	}
	if y := d.doc.LifeMargin(s.H); u.Y < y {
		u.Y, u.H = y, s.H-2*y
	}
	return s
}

// checkPrinter draws what the printer is checked by, and says what to do.
func (d *drawer) checkPrinter(f *page.Flow) {
	k := d.doc.Scale() // this page is not one at life size, the bar and the square are
	side, bar := 50*k, 100*k
	f.Heading("Check the printer", side+24)
	f.Para(body, "Print on one side, at 100 % (“actual size”), never fitted to the paper. "+
		"Then measure the bar and the square with a steel ruler.")
	r := f.Take(11)
	f.Page.At(r.X+bar/2, r.Y+5, body.To(page.Centre), "100 mm bar")
	f.Page.Line(r.X+0.5, r.Y+7, r.X+0.5+bar, r.Y+7, page.Medium)
	for _, x := range []float64{r.X + 0.5, r.X + 0.5 + bar} {
		f.Page.Line(x, r.Y+4, x, r.Y+10, page.Thin)
	}
	what := "If the bar is not 100 mm long, switch the printer’s scaling off. " +
		"If it still is not, repeat make with what the bar measures, such as --measured 97.4."
	if d.MeasuredMM != 0 {
		what = fmt.Sprintf("Corrected for a bar that measured %g mm: now it must measure 100. "+
			"If it does not, print without --measured and measure again.", d.MeasuredMM)
	}
	left, right := f.Split((side+1)/r.W, 6)
	square := left.Take(side + 2)
	square = page.Rect{X: square.X + 0.5, Y: square.Y + 1, W: side, H: side}
	f.Page.Box(square, page.Medium)
	f.Page.Text(square, body.To(page.Centre), "50 mm square")
	right.Para(body, what)
	f.Join(left, right)
}
