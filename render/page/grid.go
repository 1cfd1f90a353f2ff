package page

import "strings"

// Column is one column of a grid: of texts, or drawn in the rectangles that it is
// given.
type Column struct {
	Head  string
	Style Style    // of its texts, its head is aligned alike
	Texts []string // by row
	W     float64  // mm, at least; of texts their widest where 0
	Grow  float64  // its part of the width that is left over

	DrawHead func(p *Page, r Rect) // in place of Head
	Draw     func(p *Page, r Rect, row int)

	after float64 // of numbers, see Figure
}

// Grid is a table. With rows of one height, each text is on one line and the rows
// may be in several strips side by side. Otherwise texts wrap in the columns that
// grow, and each row is as high as its texts.
type Grid struct {
	Columns []Column
	Rows    int
	Keep    int     // columns at the left that each part of a table wider than the page has
	HeadH   float64 // mm; as the heads need where 0
	RowH    float64 // mm; 0 for rows as high as their texts
	LeastH  float64 // rows may be as low as this where it saves a page; 0 for RowH
	Strips  int     // side by side, at most; 0 for 1
	Rule    func(row int) Pen
	Group   func(row int) int // rows of one group stay together, may be nil
	Loose   bool              // the columns keep their widths
	Even    bool              // as many strips as go, also where one would do

	heights []float64 // of rows that are as high as their texts
	cells   [][][]string
}

// Between the columns and the strips of a grid, above and below the texts of a row,
// and of heads, mm.
const (
	columnGap = 2.5
	stripGap  = 7.0
	textPad   = 0.4
	shortHead = 16.0 // a head not wider is on one line
)

// leastRows are the fewest rows that are worth a page of their own.
const leastRows = 5

// Table sets rows of texts, each as high as its texts.
func (f *Flow) Table(columns []Column, rows [][]string) {
	for _, row := range rows {
		for k := range columns {
			columns[k].Texts = append(columns[k].Texts, row[k])
		}
	}
	f.Grid(Grid{Columns: columns, Rows: len(rows)})
}

// Grid sets a grid: the rows as high as its RowH, or lower down to LeastH where
// that saves a page. With Keep, columns beyond the width of the page go into further
// grids below; otherwise the widest column of texts is narrower.
func (f *Flow) Grid(g Grid) {
	g.measure(f)
	for k := range g.Columns {
		if g.Keep > 0 && k > g.Keep && width(g.Columns[:k+1]) > f.Rest().W+1e-6 {
			rest := g
			rest.Columns = append(g.Columns[:g.Keep:g.Keep], g.Columns[k:]...)
			g.Columns = g.Columns[:k]
			f.rows(g)
			f.Grid(rest)
			return
		}
	}
	if over := g.Width() - f.Rest().W; over > 0 {
		widest := &Column{}
		for k := range g.Columns {
			if c := &g.Columns[k]; c.Draw == nil && c.W > widest.W {
				widest = c
			}
		}
		widest.W = max(12, widest.W-over)
	}
	f.rows(g)
}

// Width is the least width of a strip, mm, when the grid is measured.
func (g *Grid) Width() float64 { return width(g.Columns) }

// width is how wide some columns are, mm, without the gap behind the last.
func width(columns []Column) float64 {
	w := 0.0
	for _, c := range columns {
		w += c.W
	}
	if last := columns[len(columns)-1]; last.Draw == nil {
		w -= columnGap
	}
	return w
}

// Measure gives the columns of texts on one line their least widths.
func (g *Grid) Measure(d *Doc) {
	for k := range g.Columns {
		if c := &g.Columns[k]; c.Draw == nil && c.W == 0 {
			c.W = max(c.widest(d), d.Width(c.Head, Regular(Small))) + columnGap
		}
	}
}

// widest is the width of the widest line of a column's texts, mm, the points of
// numbers below each other.
func (c *Column) widest(d *Doc) float64 {
	if c.Style.Align != Decimal {
		return d.Widest(strings.Split(strings.Join(c.Texts, "\n"), "\n"), c.Style)
	}
	before := 0.0
	c.after = d.After(c.Texts, c.Style)
	for _, text := range c.Texts {
		whole, _, _ := strings.Cut(text, ".")
		before = max(before, d.Width(whole, c.Style))
	}
	return before + c.after
}

// After is the width of the widest part of some numbers from the decimal point on,
// mm.
func (d *Doc) After(numbers []string, s Style) float64 {
	w := 0.0
	for _, text := range numbers {
		whole, _, _ := strings.Cut(text, ".")
		w = max(w, d.Width(text[len(whole):], s))
	}
	return w
}

// measure is Measure in the room that a flow has, and the heights of head and rows.
func (g *Grid) measure(f *Flow) {
	d := f.Page.doc
	if g.Rule == nil {
		g.Rule = func(int) Pen { return Hair }
	}
	if g.RowH > 0 {
		g.Measure(d)
		return
	}
	g.wrap(d, f.Rest().W)
	most := int(f.Page.Inside().H / 2 / Regular(Body).LineH())
	for row := range g.Rows {
		cells := make([][]string, len(g.Columns))
		for k, c := range g.Columns {
			cells[k] = d.Lines(c.Texts[row], c.Style, c.W-columnGap)
		}
		for left := true; left; { // a row of more than half a page is parted
			part, high := make([][]string, len(cells)), 0.0
			left = false
			for k, lines := range cells {
				n := min(most, len(lines))
				part[k], cells[k] = lines[:n], lines[n:]
				high = max(high, float64(n)*g.Columns[k].Style.LineH())
				left = left || len(cells[k]) > 0
			}
			g.cells, g.heights = append(g.cells, part), append(g.heights, high+2*textPad)
		}
	}
	g.Rows = len(g.cells)
	if g.HeadH == 0 {
		for _, c := range g.Columns {
			if c.Head == "" {
				continue
			}
			g.HeadH = max(g.HeadH, Regular(Small).LineH()*float64(len(d.Lines(c.Head, Regular(Small), c.W-columnGap)))+0.5)
		}
	}
}

// wrap gives the columns of texts that wrap their widths in a room, mm: those that
// do not grow are as wide as their widest text, the others share the rest.
func (g *Grid) wrap(d *Doc, room float64) {
	all, grown := 0.0, 0.0
	for k := range g.Columns {
		c := &g.Columns[k]
		if grown += c.Grow; c.Grow == 0 {
			head := max(d.Widest(strings.Fields(c.Head), Regular(Small)), min(shortHead, d.Width(c.Head, Regular(Small))))
			c.W = min(max(c.widest(d), head), room/3) + columnGap
			all += c.W
		}
	}
	for k := range g.Columns {
		if c := &g.Columns[k]; c.Grow > 0 {
			c.W = max(12, (room+columnGap-all)*c.Grow/grown)
		}
	}
}

// strips is how many strips go side by side on w mm.
func (g *Grid) strips(w float64) int {
	n := int((w + stripGap + 1e-6) / (g.Width() + stripGap))
	return max(1, min(max(g.Strips, 1), n))
}

// pages is how many pages the grid takes from where the flow is, with rows of h
// mm.
func (f *Flow) pages(g *Grid, h float64) int {
	perPage := func(room float64) int { return int((room-g.HeadH+1e-6)/h) * g.strips(f.Rest().W) }
	first := max(0, perPage(f.Rest().H))
	if g.Rows <= first {
		return 1
	}
	full := max(1, perPage(f.Page.Inside().H-18)) // under the head of a page
	n := (g.Rows - first + full - 1) / full
	if first > 0 {
		n++
	}
	return n
}

// rows sets a grid that has its widths, page by page.
func (f *Flow) rows(g Grid) {
	if g.LeastH > 0 {
		for least := f.pages(&g, g.LeastH); f.pages(&g, g.RowH) > least; {
			g.RowH = max(g.LeastH, g.RowH-0.1)
		}
	}
	for row := 0; row < g.Rows; {
		f.Need(g.HeadH + min(g.top(row, min(row+2, g.Rows)), f.Page.Inside().H/2))
		strips, most := g.strips(f.Rest().W), g.fit(row, f.Rest().H-g.HeadH)
		if left := g.Rows - row; left <= strips*most {
			if !g.Even {
				strips = (left + most - 1) / most
			}
			most = (left + strips - 1) / strips
		}
		// No page for a few rows: this one leaves it some.
		if left := g.Rows - row - strips*most; left > 0 && left < leastRows && most > leastRows {
			most -= (leastRows - left + strips - 1) / strips
		}
		next := f.page(&g, row, strips, most)
		f.Lines += (next - row + strips - 1) / strips
		row = next
	}
}

// top is how far below a row another one begins, mm.
func (g *Grid) top(from, to int) float64 {
	if g.RowH > 0 {
		return float64(to-from) * g.RowH
	}
	h := 0.0
	for _, high := range g.heights[from:to] {
		h += high
	}
	return h
}

// fit is how many rows go in so many mm: at least one.
func (g *Grid) fit(row int, room float64) int {
	to := row
	for to < g.Rows && g.top(row, to+1) <= room+1e-6 {
		to++
	}
	return max(1, to-row)
}

// page sets rows from one on in strips of at most so many rows, and gives the
// next row.
func (f *Flow) page(g *Grid, row, strips, most int) int {
	rest := f.Rest()
	r := Rect{X: rest.X, Y: rest.Y, W: (rest.W - stripGap*float64(strips-1)) / float64(strips)}
	grown, spare := 0.0, 0.0
	for _, c := range g.Columns {
		grown += c.Grow
	}
	if g.Loose || grown == 0 {
		r.W = min(r.W, g.Width())
	} else {
		spare = max(0, r.W-g.Width()) / grown
	}
	bottom := 0.0
	for range strips {
		to := g.until(row, row+min(most, g.fit(row, rest.H-g.HeadH)))
		if to == row {
			break
		}
		bottom = max(bottom, g.strip(f.Page, r, row, to, spare))
		r.X += r.W + stripGap
		row = to
	}
	f.Y = bottom + 1.5
	return row
}

// until is the row before which a strip ends, with its group whole if that can be.
func (g *Grid) until(from, to int) int {
	if to = min(to, g.Rows); g.Group == nil || to == g.Rows {
		return to
	}
	for cut := to; cut > from; cut-- {
		if g.Group(cut-1) != g.Group(to) {
			return cut
		}
	}
	return to
}

// strip draws rows from the top of a rectangle, columns widened by spare mm times
// their part, and gives the y below the last.
func (g *Grid) strip(p *Page, r Rect, from, to int, spare float64) float64 {
	x, top := r.X, r.Y+g.HeadH
	for k, c := range g.Columns {
		w := c.W + spare*c.Grow
		g.head(p, Rect{X: x, Y: r.Y, W: w, H: g.HeadH}, c)
		for i := from; i < to; i++ {
			cell := Rect{X: x, Y: top + g.top(from, i), W: w, H: g.top(i, i+1)}
			if c.Draw != nil {
				c.Draw(p, cell, i)
			} else {
				g.texts(p, cell, k, i)
			}
		}
		x += w
	}
	for i := from; i <= to; i++ {
		pen := Medium
		if i > from && i < to {
			pen = g.Rule(i)
		}
		if pen.MM > 0 {
			p.Rule(Rect{X: r.X, Y: top + g.top(from, i), W: r.W}, pen)
		}
	}
	return top + g.top(from, to)
}

// head draws the head of a column at its foot.
func (g *Grid) head(p *Page, r Rect, c Column) {
	s := Regular(Small).To(c.Style.Align)
	if s.Align == Decimal {
		s.Align = Right
	}
	switch {
	case c.DrawHead != nil:
		c.DrawHead(p, r)
	case g.RowH > 0:
		p.Text(Rect{X: r.X, Y: r.Bottom() - s.LineH(), W: r.W - columnGap, H: s.LineH()}, s, c.Head)
	default:
		lines := p.doc.Lines(c.Head, s, r.W-columnGap)
		p.Para(Rect{X: r.X, Y: r.Bottom() - 0.5 - s.LineH()*float64(len(lines)), W: r.W - columnGap}, s, c.Head)
	}
}

// texts draws a cell of a column of texts: on one line in the middle, or in lines
// from the top, where the first lines of a row are on one line.
func (g *Grid) texts(p *Page, r Rect, k, row int) {
	c := g.Columns[k]
	r.W -= columnGap
	switch {
	case g.RowH > 0 && c.Style.Align == Decimal:
		p.Figure(r, c.Style, c.Texts[row], c.after)
		return
	case g.RowH > 0:
		p.Text(r, c.Style, c.Texts[row])
		return
	}
	largest := 0.0
	for _, o := range g.Columns {
		largest = max(largest, o.Style.Pt)
	}
	r.Y += textPad + ascentEm*(largest-c.Style.Pt)*MMPerPt
	for _, line := range g.cells[row][k] {
		if c.Style.Align == Decimal {
			p.Figure(Rect{X: r.X, Y: r.Y, W: r.W, H: c.Style.LineH()}, c.Style, line, c.after)
			continue
		}
		p.line(r, r.Y+ascentEm*c.Style.Pt*MMPerPt, c.Style, line)
		r.Y += c.Style.LineH()
	}
}

// Figure sets a number with its decimal point after mm from the right.
func (p *Page) Figure(r Rect, s Style, text string, after float64) {
	whole, _, _ := strings.Cut(text, ".")
	x := r.Right() - max(after, p.doc.Width(text[len(whole):], s)) - p.doc.Width(whole, s)
	p.At(x, r.Y+r.H/2+s.CapMM()/2, s.To(Left), text)
}
