package pdf

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/layout"
)

// A spread is a board or a mat with the pages that it is printed on.
type spread struct {
	board *layout.Board
	pages []layout.Page
}

// boards are the boards at life size: the outline of every tile, and beside it
// what the tile is, so that it can be read with the tile lying there.
func (s *sheets) boards() {
	spreads := s.lifeSize(s.Places.Boards)
	s.assembly(spreads, assembly{
		needs: "scissors, adhesive tape, the marked tiles",
		lead:  s.boardLead(),
		key:   "Beside each spot: the mark on the tile, its cup, and what is in it: " + s.shareKey() + ".",
		noun:  "board",
	})
	c := s.captions()
	s.drawLife(spreads, func(p *page, at layout.Spot) {
		p.rect(at.X, at.Y, at.W, at.H, thin)
	}, c.draw, s.shareKey())
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
		list[i] = spread{&boards[i], layout.Pages(&boards[i], sheet)}
	}
	return list
}

// drawLife draws the pages of boards at life size. outline draws a whole spot
// at its place on the page, and caption what stands beside it.
func (s *sheets) drawLife(spreads []spread, outline func(*page, layout.Spot), caption func(*page, layout.Rect, layout.Spot), key string) {
	for _, sp := range spreads {
		for i := range sp.pages {
			from := &sp.pages[i]
			p := s.doc.addLifePage(s.section.title, from.PaperW, from.PaperH)
			if i == 0 && len(spreads) > 1 {
				s.doc.bookmark(1, sp.board.Name)
			}
			p.foot = from.Footer
			s.boardHeader(p, sp, i, key)
			p.ruler(from.RulerX.X, from.RulerX.Y+rulerHalfMM, from.View.X, from.RulerX.W, false)
			p.ruler(from.RulerY.X+rulerHalfMM, from.RulerY.Y, from.View.Y, from.RulerY.H, true)
			s.frame(p, from)
			v := from.View
			view := layout.Rect{X: v.X + 1, Y: v.Y + 1, W: v.W - 2, H: v.H - 2} // clear of the rulers
			for _, k := range from.Spots {
				spot := sp.board.Spots[k]
				caption(p, from.RectOnPaper(spot.Caption), spot)
				spot.Rect = from.RectOnPaper(spot.Rect)
				outline(p, spot)
			}
			for _, k := range from.Parts {
				spot := sp.board.Spots[k]
				p.part(from, spot, sp.board.Round)
				at := spot.Caption
				if !at.Inside(view) { // it is named inside each of its parts instead
					at = common(spot.Rect, view)
					at.H = spot.Caption.H
				}
				at.W = min(at.W, captionMM)
				if at.Inside(view) && (at.W >= captionMM || at.W >= spot.Caption.W) {
					caption(p, from.RectOnPaper(at), spot)
				}
			}
			for _, k := range from.Heads {
				head := sp.board.Heads[k]
				if r := from.RectOnPaper(common(head.Rect, view)); r.W > 0 {
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

// captionMM is the widest that a caption is set, so that it can be read on each
// page that shows a part of a wide spot.
const captionMM = 60.0

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
// registration crosses, lines to trim along, the corner of the board, and which
// edge is the reader's.
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
	// The strip below the last row is free of spots.
	if from.View.Bottom() >= from.Board.H-1e-6 {
		bottom := from.OnPaper(layout.Point{X: from.View.X, Y: from.Board.H})
		p.towardsYou(bottom.X+from.View.W/2, bottom.Y, from.View.W)
	}
}

// towardsYou names the edge of a board that lies towards the reader, in the
// strip above y, which is layout.Edge high.
func (p *page) towardsYou(x, y, widthMM float64) {
	f := bold(10)
	text := "this edge to you"
	w := p.doc.width(text, f)
	const head = 3.0
	if w+4*head > widthMM-2*layout.Overlap {
		return // the header has it too
	}
	base := y - f.descentMM() - 0.1
	p.text(x, base, text, f, centre)
	for _, side := range []float64{-1, 1} {
		at := x + side*(w/2+head)
		p.fill([]point{{at - head/2, y - 4}, {at + head/2, y - 4}, {at, y - 0.8}}, 0)
	}
}

// boardHeader is the head of a page of a board: its code, its board, the first
// and the last mark in words, what the letters mean, the way to the reader, and
// a key of all pages with this one black.
func (s *sheets) boardHeader(p *page, sp spread, i int, key string) {
	from := &sp.pages[i]
	h := from.Header
	const gap = 3.0
	code := bold(26)
	codeMM := 0.0
	x, end := h.X, h.Right()
	if len(sp.pages) > 1 {
		for _, other := range sp.pages {
			codeMM = max(codeMM, s.doc.width(other.Code, code))
		}
		p.text(x, h.Y+(h.H-1)/2+0.36*code.pt*mmPerPt, from.Code, code, left)
		x += codeMM + gap
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
	name := fmt.Sprintf("Board %d: %s", sp.board.Number, sp.board.Name)
	if sp.board.Round {
		name = sp.board.Name
	}
	p.textIn(x, h.Y, w, 4.7, name, bold(benchPt), 7, left)
	text := s.firstAndLast(sp.board)
	small := regular(8.5)
	if full := text + ". " + key; s.doc.fits(full, w, h.H-4.8, small, 7) {
		text = full
	} else if short := text + ". For the letters see the first page of this section"; s.doc.fits(short, w, h.H-4.8, small, 7) {
		text = short
	}
	p.textIn(x, h.Y+4.7, w, h.H-4.8, text, small, 7, left)
}

// aloud names the tile of a spot, or its cup on a mat, in words.
func (s *sheets) aloud(spot layout.Spot) string {
	if spot.Tile < 0 {
		return "cup " + spelled(fmt.Sprint(spot.Cell))
	}
	return spelled(s.Places.Tiles[spot.Tile].Mark)
}

// firstAndLast names the first and the last spot of a board.
func (s *sheets) firstAndLast(b *layout.Board) string {
	if len(b.Spots) == 1 {
		return "Only: " + s.aloud(b.Spots[0])
	}
	return "First, at the top: " + s.aloud(b.Spots[0]) + "; last, at the bottom: " + s.aloud(b.Spots[len(b.Spots)-1])
}

// pageKey draws the pages of a board small, up to the right edge x1, with page
// i black, and gives the width that it takes. Pages are shown by the spots on
// them, as their views overlap.
func pageKey(p *page, x1, y, wMM, hMM float64, sp spread, i int) float64 {
	k := min(wMM/sp.board.W, hMM/sp.board.H)
	x := x1 - sp.board.W*k
	for j := range sp.pages {
		r := own(&sp.pages[j])
		rx, ry, rw, rh := x+r.X*k, y+r.Y*k, r.W*k, r.H*k
		if j == i {
			p.fillRect(rx, ry, rw, rh, 0)
		}
		p.rect(rx, ry, rw, rh, thin)
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

// captions are what stands beside the spots of tiles.
type captions struct {
	s      *sheets
	wMM    float64
	mark   font
	cup    font
	long   bool // "cup 7", not "7"
	shares packing
}

// captions finds the sizes that suit all captions, so that all look alike.
func (s *sheets) captions() captions {
	box := s.Places.Boards[0].Spots[0].Caption
	box.W = min(box.W, captionMM)
	c := captions{s: s, wMM: box.W}
	widest := 0.0
	for _, t := range s.Places.Tiles {
		widest = max(widest, s.doc.width(t.Mark, bold(1)))
	}
	const gap = 1.5
	most := cupText(len(s.test.Cells))
	for pt := 14.0; pt >= 6; pt -= 0.5 {
		c.mark, c.cup = bold(pt), regular(min(benchPt, pt))
		room := box.W - gap - widest*pt
		if c.long = s.doc.width(most, c.cup) <= room; c.long {
			break
		}
		if pt <= benchPt && s.doc.width(strings.TrimPrefix(most, "cup "), c.cup) <= room {
			break
		}
	}
	c.shares = s.packCaptions(s.shares, box, 7)
	return c
}

// draw sets the caption of a spot in its box on the page.
func (c captions) draw(p *page, r layout.Rect, spot layout.Spot) {
	tile := c.s.Places.Tiles[spot.Tile]
	base := r.Y + bold(14).ascentMM()
	p.mark(r.X, base, tile.Mark, c.s.Places.Scheme.Underlined(tile.Mark), c.mark, left)
	cup := fmt.Sprint(spot.Cell)
	if c.long {
		cup = cupText(spot.Cell)
	}
	p.text(r.X+c.wMM, base, cup, c.cup, right)
	c.shares.draw(p, r, spot.Cell)
}

// captionHeadMM is the first line of a caption, of 14 pt.
const captionHeadMM = 5.85

// packCaptions packs texts into the lines that captions have below their first.
func (s *sheets) packCaptions(texts func(c blend.Cell) []string, box layout.Rect, leastPt float64) packing {
	lines := max(1, int((box.H-layout.CaptionMark+1e-6)/layout.CaptionLine))
	return s.packAll(texts, lines, box.W, (box.H-captionHeadMM)/float64(lines), benchPt, leastPt)
}

// draw sets the lines of a cell below the first line of a caption.
func (k packing) draw(p *page, r layout.Rect, cell int) {
	if k.lines == nil {
		return
	}
	for i, line := range k.lines[cell-1] {
		p.text(r.X, r.Y+captionHeadMM+float64(i)*k.lineMM+k.font.ascentMM(), line, k.font, left)
	}
}

// assembly is the first page of boards or mats at life size.
type assembly struct {
	needs, lead, key string
	noun             string // "board"
}

// printerCheck draws what the printer is checked by, and says what to do.
func (s *sheets) printerCheck(f *flow) {
	d, ft := s.doc, regular(benchPt)
	const side, barMM = 50.0, 100.0
	k := d.lifeScale // this page is not one at life size, the bar and the square are
	f.para(`Print at 100 % ("actual size"), never fitted to the paper. Then measure the bar and the square with a steel ruler.`, ft)
	f.need(side*k + 10)
	x, y := f.left()+0.5, f.y+2
	p := f.page
	p.rect(x, y, side*k, side*k, medium)
	p.textIn(x+1, y+1, side*k-2, side*k-2, "50 mm square", ft, 9, centre)

	// The bar stands beside the square, or below it where the page is narrow.
	bx, by := x+side*k+8, y+8
	below := bx+barMM*k > f.right()
	if below {
		bx, by = x, y+side*k+8
	}
	p.line(bx, by, bx+barMM*k, by, medium)
	for _, end := range []float64{0, barMM * k} {
		p.line(bx+end, by-3, bx+end, by+3, thin)
	}
	p.text(bx+barMM*k/2, by-1.2, "100 mm bar", ft, centre)
	f.y = y + side*k + 4
	what := "If the bar is not 100 mm long, look first for the printer's scaling and switch it off. If it still is not, make the packet again with what the bar measures, for instance: --measured 97.4"
	if d.note != "" {
		what = fmt.Sprintf("This packet is corrected for a bar that measured %g mm: now it must measure 100. If it does not, print it again without --measured and measure anew.", s.MeasuredMM)
	}
	if below {
		f.y = by + 6
		f.para(what, ft)
		return
	}
	at := by + 6
	for _, line := range d.wrap(what, ft, f.right()-bx) {
		p.text(bx, at+ft.ascentMM(), line, ft, left)
		at += ft.lineMM()
	}
	f.y = max(f.y, at+2)
}

// assembly is the page before boards or mats at life size: how to check the
// printer, how to lay the pages together, and which they are.
func (s *sheets) assembly(spreads []spread, a assembly) {
	f := s.begin(a.needs)
	ft := regular(benchPt)
	most := 0
	for _, sp := range spreads {
		most = max(most, len(sp.pages))
	}
	if a.lead != "" {
		f.para(a.lead, ft)
	}
	f.para(a.key, ft)
	f.subheading("Check the printer")
	s.printerCheck(f)
	f.subheading("Lay it out")
	how := []string{"The arrow points to you; the black corner lies at the far left."}
	if most > 1 {
		how = append(how,
			"Lay the pages of one "+a.noun+" by their codes: A1, A2 … make the far row, B1, B2 … the next.",
			"Cut along the dashed lines, lay each page over the one to its left and the one above, crosses on crosses, and tape them.",
			"Measure once across the whole: the rulers along the pages count on from page to page.")
	}
	f.items("–", how, ft)
	s.shapes(f, spreads)
	t := table{columns: []column{
		{title: strings.ToUpper(a.noun[:1]) + a.noun[1:], align: right, bold: true, whole: true},
		{title: "Name", grow: 1},
		{title: "Pages", align: right, whole: true},
		{title: "Size, mm", align: right, whole: true},
		{title: "First mark"},
		{title: "Last mark"},
	}}
	if spreads[0].board.Round {
		t.columns[4].title, t.columns[5].title = "First cup", "Last cup"
	}
	for _, sp := range spreads {
		t.rows = append(t.rows, row{cells: []cell{
			words(fmt.Sprint(sp.board.Number)), words(sp.board.Name), words(fmt.Sprint(len(sp.pages))),
			words(fmt.Sprintf("%.0f × %.0f", sp.board.W, sp.board.H)),
			words(s.aloud(sp.board.Spots[0])), words(s.aloud(sp.board.Spots[len(sp.board.Spots)-1])),
		}})
	}
	f.table(t)
	f.longTexts()
}

// shapes draws how the pages of boards lie, once for boards that are alike.
func (s *sheets) shapes(f *flow, spreads []spread) {
	type shape struct{ w, h float64 }
	drawn := map[shape]bool{}
	f.space(2)
	const gap = 6.0
	mostW, mostH := f.width(), 60.0
	if len(spreads) > len(s.plan.Tiles.Bodies)*s.plan.Tiles.Repeats { // layers
		mostW, mostH = (f.width()-gap)/2, 45
	}
	x, rowMM := f.left(), 0.0
	ft := regular(benchPt)
	for _, sp := range spreads {
		at := shape{sp.board.W, sp.board.H}
		if drawn[at] || len(sp.pages) < 2 {
			continue
		}
		drawn[at] = true
		var names []string
		for _, other := range spreads {
			if (shape{other.board.W, other.board.H}) == at {
				names = append(names, fmt.Sprint(other.board.Number))
			}
		}
		title := "Board "
		switch {
		case sp.board.Round:
			title = "Mat "
		case len(names) > 1:
			title = "Boards "
		}
		k := min(mostW/at.w, mostH/at.h)
		w, h := at.w*k, at.h*k
		// Parts of spots overlap, and narrow spots run together: a plain grid then.
		var grid *layout.Rect
		if cut := slices.ContainsFunc(sp.pages, func(p layout.Page) bool { return len(p.Parts) > 0 }); cut || sp.board.Spots[0].W*k < 2 {
			columns, rows := 0, 0
			for _, p := range sp.pages {
				columns, rows = max(columns, p.Column+1), max(rows, p.Row+1)
			}
			grid = &layout.Rect{W: min(12, mostW/float64(columns)), H: min(8, mostH/float64(rows))}
			if grid.W < 7 || grid.H < 4 {
				continue // the codes of so many pages tell their order
			}
			w, h = grid.W*float64(columns), grid.H*float64(rows)
		}
		lines := s.doc.wrap(title+strings.Join(names, ", "), ft, max(w, 30))
		need := h + float64(len(lines))*ft.lineMM() + 2
		if x > f.left() && (x+w > f.right() || f.room() < need) {
			f.y += rowMM + gap
			x, rowMM = f.left(), 0
		}
		if f.need(need) {
			x, rowMM = f.left(), 0
		}
		y := f.y
		for i, line := range lines {
			f.page.text(x, y+ft.ascentMM()+float64(i)*ft.lineMM(), line, ft, left)
		}
		y += float64(len(lines))*ft.lineMM() + 1
		for i := range sp.pages {
			shapeOf(f.page, &sp.pages[i], x, y, k, grid)
		}
		x += max(w, 30) + gap
		rowMM = max(rowMM, need)
	}
	f.y += rowMM
	f.space(3)
}

// shapeOf draws what one page has of a small board at x, y: its spots, those of
// every other page grey, and its code in their midst; or, where a place of a
// grid is given, that place with the code.
func shapeOf(p *page, from *layout.Page, x, y, k float64, grid *layout.Rect) {
	if grid != nil {
		x, y = x+float64(from.Column)*grid.W, y+float64(from.Row)*grid.H
		p.rect(x, y, grid.W, grid.H, medium)
		p.textIn(x+0.5, y+0.5, grid.W-1, grid.H-1, from.Code, bold(12), 5, centre)
		return
	}
	put := func(r layout.Rect) layout.Rect {
		return layout.Rect{X: x + r.X*k, Y: y + r.Y*k, W: r.W * k, H: r.H * k}
	}
	for _, i := range from.Spots {
		r := put(from.Board.Spots[i].Whole())
		if (from.Row+from.Column)%2 == 1 {
			p.fillRect(r.X, r.Y, r.W, r.H, 0.8)
		}
		p.rect(r.X, r.Y, r.W, r.H, thin)
	}
	// The longest row of spots on the page has the most room for its code.
	var best layout.Rect
	for i := 0; i < len(from.Spots); {
		run := put(from.Board.Spots[from.Spots[i]].Whole())
		row := from.Board.Spots[from.Spots[i]].Row
		for ; i < len(from.Spots) && from.Board.Spots[from.Spots[i]].Row == row; i++ {
			last := put(from.Board.Spots[from.Spots[i]].Whole())
			run.W = last.Right() - run.X
		}
		if run.W > best.W {
			best = run
		}
	}
	f := bold(min(14, 0.9*best.W/p.doc.width(from.Code, bold(1)), 0.9*best.H/((ascentEm+descentEm)*mmPerPt)))
	w, h := p.doc.width(from.Code, f), f.ascentMM()
	cx, cy := best.X+best.W/2, best.Y+best.H/2
	p.fillRect(cx-w/2, cy-h/2, w, h, 1)
	p.text(cx, cy+0.36*f.pt*mmPerPt, from.Code, f, centre)
}
