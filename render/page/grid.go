package page

import (
	"slices"
	"strings"
)

// Column is one column of a grid: of texts, or drawn in the rectangles that it is
// given, or of several columns with one head over theirs.
type Column struct {
	Head  string
	Style Style    // of its texts; its head is aligned alike
	Texts []string // by row
	W     float64  // mm, at least; 0 for as wide as the texts are
	Grow  float64  // its part of the width that is left over
	Draw  func(p *Page, r Rect, row int)
	Parts []Column // the last grows; Style is that of the head over them

	after float64    // of numbers, see Figure
	lines [][]string // of texts that wrap, by row
}

// Grid is a table. With rows of one height, each text is on one line, and the rows
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
	Even    bool              // as many strips as go, also where one would do

	tops []float64 // of each row and of what is below all, mm below the head
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

// headStyle is that of heads.
var headStyle = Regular(Small)

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
// grids below.
func (f *Flow) Grid(g Grid) {
	room := f.Rest().W
	g.Measure(f.Page.doc, room)
	for k := g.Keep + 1; g.Keep > 0 && k < len(g.Columns); k++ {
		if width(g.Columns[:k+1]) > room+1e-6 {
			rest := g
			rest.Columns = slices.Concat(g.Columns[:g.Keep], g.Columns[k:])
			g.Columns = g.Columns[:k]
			defer f.Grid(rest)
		}
	}
	if g.LeastH > 0 {
		h := g.RowH
		for least := f.pages(&g, g.LeastH); f.pages(&g, h) > least; {
			h = max(g.LeastH, h-0.1)
		}
		g.RowH = h
		g.setRows()
	}
	for row := 0; row < g.Rows; {
		row = f.rows(&g, row)
	}
}

// Width is the least width of a strip, mm, when the grid is measured.
func (g *Grid) Width() float64 { return width(g.Columns) }

// width is how wide some columns are, mm, without the gap behind the last.
func width(columns []Column) float64 {
	w := 0.0
	for _, c := range columns {
		w += c.W
	}
	if columns[len(columns)-1].Texts != nil {
		w -= columnGap
	}
	return w
}

// Measure gives the columns of texts their widths in a room, mm, and the rows and
// the head their heights. Columns that wrap share what the others leave.
func (g *Grid) Measure(d *Doc, room float64) {
	if g.Rule == nil {
		g.Rule = func(int) Pen { return Hair }
	}
	grown := 0.0
	for k := range g.Columns {
		c := &g.Columns[k]
		if g.measure(d, c, room/3); g.RowH == 0 && c.Grow > 0 {
			grown, c.W = grown+c.Grow, 0
		}
	}
	free, given := room-g.Width(), g.HeadH
	for k := range g.Columns {
		c := &g.Columns[k]
		if g.RowH == 0 && c.Grow > 0 {
			c.W = max(12, free*c.Grow/grown)
		}
		if given == 0 && c.Head != "" {
			g.HeadH = max(g.HeadH, headStyle.LineH()*float64(len(d.Lines(c.Head, headStyle, c.W-columnGap)))+0.5)
		}
	}
	if g.RowH == 0 {
		g.wrap(d)
	}
	g.setRows()
}

// measure gives a column its least width: of texts at most so many mm.
func (g *Grid) measure(d *Doc, c *Column, most float64) {
	if c.W > 0 {
		return
	}
	for k := range c.Parts {
		part := &c.Parts[k]
		head := part.Head
		part.Head = "" // it may go over the next part
		g.measure(d, part, most)
		part.Head = head
		c.W += part.W
	}
	if c.Parts != nil { // the head goes in two lines, in small type, if the column is wide enough
		last := &c.Parts[len(c.Parts)-1]
		for c.W < 34 && len(d.Lines(c.Head, c.Style.At(Small), c.W-columnGap)) > 2 {
			c.W, last.W = c.W+1, last.W+1
		}
	}
	if c.Texts == nil {
		return
	}
	before := 0.0
	for _, text := range c.Texts {
		if c.Style.Align == Decimal {
			whole, rest := splitPoint(text)
			text, c.after = whole, max(c.after, d.Width(rest, c.Style))
		}
		before = max(before, d.Widest(strings.Split(text, "\n"), c.Style))
	}
	head := d.Width(c.Head, headStyle)
	if g.RowH == 0 {
		head = max(d.Widest(strings.Fields(c.Head), headStyle), min(shortHead, head))
	}
	c.W = min(most, max(before+c.after, head)) + columnGap
}

// wrap breaks the texts of all rows into lines; a row of more than half a page is
// parted.
func (g *Grid) wrap(d *Doc) {
	const most = 25
	rows := 0
	for row := range g.Rows {
		parts := 1
		for k := range g.Columns {
			c := &g.Columns[k]
			c.lines = append(c.lines, slices.Collect(slices.Chunk(d.Lines(c.Texts[row], c.Style, c.W-columnGap), most))...)
			parts = max(parts, len(c.lines)-rows)
		}
		rows += parts
		for k := range g.Columns {
			c := &g.Columns[k]
			c.lines = append(c.lines, make([][]string, rows-len(c.lines))...)
		}
	}
	g.Rows = rows
}

// setRows sets where the rows begin.
func (g *Grid) setRows() {
	g.tops = []float64{0}
	for row := range g.Rows {
		high := g.RowH
		for _, c := range g.Columns {
			if g.RowH == 0 {
				high = max(high, float64(len(c.lines[row]))*c.Style.LineH()+2*textPad)
			}
		}
		g.tops = append(g.tops, g.tops[row]+high)
	}
}

// high is how high some rows are, mm.
func (g *Grid) high(from, to int) float64 { return g.tops[to] - g.tops[from] }

// fit is how many rows go in so many mm: at least one.
func (g *Grid) fit(row int, room float64) int {
	to := row + 1
	for to < g.Rows && g.high(row, to+1) <= room+1e-6 {
		to++
	}
	return to - row
}

// strips is how many strips go side by side on w mm.
func (g *Grid) strips(w float64) int {
	n := int((w + stripGap + 1e-6) / (g.Width() + stripGap))
	return max(1, min(max(g.Strips, 1), n))
}

// pages is how many pages the grid takes from where the flow is, with rows of h
// mm.
func (f *Flow) pages(g *Grid, h float64) int {
	perPage := func(room float64) int { return max(0, int((room-g.HeadH+1e-6)/h)*g.strips(f.Rest().W)) }
	first := perPage(f.Rest().H)
	if g.Rows <= first {
		return 1
	}
	full := max(1, perPage(f.Page.Inside().H-18)) // under the head of a page
	return min(first, 1) + (g.Rows-first+full-1)/full
}

// rows sets rows from one on, as many as the page takes, and gives the next row.
func (f *Flow) rows(g *Grid, row int) int {
	f.Need(g.HeadH + min(g.high(row, min(row+2, g.Rows)), f.Page.Inside().H/2))
	rest := f.Rest()
	left, strips, most := g.Rows-row, g.strips(rest.W), g.fit(row, rest.H-g.HeadH)
	if left <= strips*most {
		if !g.Even {
			strips = (left + most - 1) / most
		}
		most = (left + strips - 1) / strips
	}
	// No page for a few rows: this one leaves it some.
	if more := left - strips*most; more > 0 && more < leastRows && most > leastRows {
		most -= (leastRows - more + strips - 1) / strips
	}
	from := row
	r := Rect{X: rest.X, Y: rest.Y, W: (rest.W - stripGap*float64(strips-1)) / float64(strips)}
	if g.grown() == 0 {
		r.W = min(r.W, g.Width())
	}
	for range strips {
		to := g.until(row, row+min(most, g.fit(row, rest.H-g.HeadH)))
		g.strip(f.Page, r, row, to)
		f.Y = max(f.Y, r.Y+g.HeadH+g.high(row, to))
		r.X += r.W + stripGap
		if row = to; row == g.Rows {
			break
		}
	}
	f.Y += 1.5
	f.Lines += (row - from + strips - 1) / strips
	return row
}

// until is the row before which a strip ends, with its group whole if that can be.
func (g *Grid) until(from, to int) int {
	if g.Group == nil || to >= g.Rows {
		return min(to, g.Rows)
	}
	for cut := to; cut > from; cut-- {
		if g.Group(cut-1) != g.Group(to) {
			return cut
		}
	}
	return to
}

// grown is the sum of Grow, by which the width that is left over is shared.
func (g *Grid) grown() float64 {
	sum := 0.0
	for _, c := range g.Columns {
		sum += c.Grow
	}
	return sum
}

// strip draws rows from the top of a rectangle, its columns grown to its width.
func (g *Grid) strip(p *Page, r Rect, from, to int) {
	grown, spare := g.grown(), max(0, r.W-g.Width())
	head := r.Upper(g.HeadH)
	for _, c := range g.Columns {
		if head.W = c.W; c.Grow > 0 {
			head.W += spare * c.Grow / grown
		}
		g.column(p, head, c, from, to)
		head.X += head.W
	}
	for i := from; i <= to; i++ {
		pen := Medium
		if i > from && i < to {
			pen = g.Rule(i)
		}
		if pen.MM > 0 {
			p.Rule(Rect{X: r.X, Y: head.Bottom() + g.high(from, i), W: r.W}, pen)
		}
	}
}

// column draws rows of a column below its head.
func (g *Grid) column(p *Page, head Rect, c Column, from, to int) {
	if c.Parts != nil {
		g.parts(p, head, c, from, to)
		return
	}
	w := head.W
	if c.Texts != nil {
		w -= columnGap
	}
	if s := headStyle.To(min(c.Style.Align, Right)); c.Head != "" {
		wide := w
		if g.RowH > 0 {
			wide = max(w, p.doc.Width(c.Head, s))
		}
		h := s.LineH() * float64(len(p.doc.Lines(c.Head, s, wide)))
		p.Para(Rect{X: head.X, Y: head.Bottom() - 0.5 - h, W: wide}, s, c.Head)
	}
	for i := from; i < to; i++ {
		cell := Rect{X: head.X, Y: head.Bottom() + g.high(from, i), W: head.W, H: g.high(i, i+1)}
		if c.Draw != nil {
			c.Draw(p, cell, i)
		} else {
			g.cell(p, cell.Before(w), c, i)
		}
	}
}

// cell sets the texts of a column in a row.
func (g *Grid) cell(p *Page, r Rect, c Column, row int) {
	if g.RowH > 0 {
		p.Figure(r, c.Style, c.Texts[row], c.after)
		return
	}
	largest := 0.0 // the first lines of a row have one baseline
	for _, o := range g.Columns {
		largest = max(largest, o.Style.Pt)
	}
	r.Y, r.H = r.Y+textPad+ascentEm*(largest-c.Style.Pt)*MMPerPt, c.Style.LineH()
	for _, line := range c.lines[row] {
		p.Figure(r, c.Style, line, c.after)
		r.Y += r.H
	}
}

// parts draws rows of several columns below the head over them, whose last line is
// just above their own heads.
func (g *Grid) parts(p *Page, head Rect, c Column, from, to int) {
	named := Rect{X: head.X, Y: head.Y, W: head.W - columnGap, H: head.H - headStyle.LineH()}
	if p.doc.Width(c.Head, c.Style) <= named.W {
		named = named.Below(named.H - c.Style.LineH())
	}
	p.Fitted(named, c.Style, c.Head)
	for i, part := range c.Parts {
		w := part.W
		if i == len(c.Parts)-1 {
			w = head.W
		}
		g.column(p, head.Before(w), part, from, to)
		head = head.After(w)
	}
}

// Each is what there is of each row, such as the texts of a column.
func Each[Row, Value any](rows []Row, of func(Row) Value) []Value {
	list := make([]Value, len(rows))
	for i, row := range rows {
		list[i] = of(row)
	}
	return list
}

// Figure sets a text on one line, in a Decimal style with its decimal point after mm
// from the right.
func (p *Page) Figure(r Rect, s Style, text string, after float64) {
	if s.Align != Decimal {
		p.Text(r, s, text)
		return
	}
	whole, rest := splitPoint(text)
	x := r.Right() - max(after, p.doc.Width(rest, s)) - p.doc.Width(whole, s)
	p.At(x, r.Y+r.H/2+s.CapMM()/2, s.To(Left), text)
}

// splitPoint parts a number before its decimal point.
func splitPoint(text string) (whole, rest string) {
	whole, _, _ = strings.Cut(text, ".")
	return whole, text[len(whole):]
}
