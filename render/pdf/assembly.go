package pdf

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/layout"
)

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
	f.need(side*k + 20)
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
	if slices.ContainsFunc(spreads, spread.shared) {
		how = append(how, "Small "+a.noun+"s share a page: cut them apart along the dashed line between them.")
	}
	if len(spreads) == 1 {
		b := spreads[0].board
		how = append(how, fmt.Sprintf("The whole is %.0f × %.0f mm, on %s.", b.W, b.H, counted(most, "page", "pages")))
	}
	f.items("–", how, ft)
	s.shapes(f, spreads)
	if len(spreads) == 1 { // the heads of its pages say the rest
		f.longTexts()
		return
	}
	t := table{together: true, columns: []column{
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
			words(s.readAs(sp.board.Spots[0])), words(s.readAs(sp.board.Spots[len(sp.board.Spots)-1])),
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
	mostW, mostH := f.width(), 45.0
	if len(spreads) > len(s.plan.Tiles.Bodies)*s.plan.Tiles.Repeats { // layers
		mostW, mostH = (f.width()-gap)/2, 40
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
