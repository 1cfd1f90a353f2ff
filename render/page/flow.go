package page

// Flow sets texts and tables down the pages of one part, and goes on to a next
// page where one is full.
type Flow struct {
	Page  *Page
	Y     float64 // where the next thing goes
	Lines int     // set on this page so far, of paragraphs and rows
	Head  func(p *Page, continued bool) (y float64)
}

// NewFlow begins a flow on a page. head draws the head of each page and gives
// the y below it.
func NewFlow(p *Page, head func(p *Page, continued bool) (y float64)) *Flow {
	return &Flow{Page: p, Y: head(p, false), Head: head}
}

// Rest is what is left of the page.
func (f *Flow) Rest() Rect {
	in := f.Page.Inside()
	return Rect{X: in.X, Y: f.Y, W: in.W, H: in.Bottom() - f.Y}
}

// Take takes the next h mm of the page.
func (f *Flow) Take(h float64) Rect {
	r := f.Rest()
	r.H = h
	f.Y += h
	return r
}

// Break goes on to the next page.
func (f *Flow) Break() {
	f.Page = f.Page.Next()
	f.Lines = 0
	f.Y = f.Head(f.Page, true)
}

// Need goes on to the next page if this one has less than h mm left.
func (f *Flow) Need(h float64) {
	if f.Rest().H < h {
		f.Break()
	}
}

// Para sets a paragraph.
func (f *Flow) Para(s Style, text string) {
	f.Need(s.LineH())
	lines := f.Page.doc.Lines(text, s, f.Rest().W)
	for _, line := range lines {
		f.Need(s.LineH())
		f.Page.Para(f.Take(s.LineH()), s, line)
		f.Lines++
	}
	f.Y += 0.6
}

// Heading sets a heading, and keeps h mm of what follows on its page.
func (f *Flow) Heading(text string, h float64) {
	f.Need(Bold(Head).LineH() + 3 + h)
	f.Y += 2.5
	f.Page.Text(f.Take(Bold(Head).LineH()), Bold(Head), text)
	f.Y += 0.5
}

// Items sets paragraphs with a dot before each; one stays whole where it can.
func (f *Flow) Items(s Style, texts []string) {
	const indent = 3.2
	for _, text := range texts {
		r := f.Rest()
		lines := f.Page.doc.Lines(text, s, r.W-indent)
		if h := float64(len(lines)) * s.LineH(); h < f.Page.Inside().H/2 {
			f.Need(h)
		}
		for i, line := range lines {
			f.Need(s.LineH())
			r := f.Take(s.LineH())
			f.Lines++
			if i == 0 {
				f.Page.Para(r, s, "•")
			}
			f.Page.Para(Rect{X: r.X + indent, Y: r.Y, W: r.W - indent, H: r.H}, s, line)
		}
		f.Y += 0.5
	}
}

// Column is one column of a grid: it draws its head and its cells in the
// rectangles that it is given.
type Column struct {
	W    float64 // mm, at least
	Grow float64 // its part of the width that is left over
	Head func(p *Page, r Rect)
	Cell func(p *Page, r Rect, row int)
}

// Grid is a table that may be in several strips side by side.
type Grid struct {
	Columns []Column
	Rows    int
	HeadH   float64
	RowH    float64
	LeastH  float64 // rows may be as low as this where it saves a page; 0 for RowH
	Strips  int     // side by side, at most; 0 for 1
	Rule    func(row int) Pen
	Group   func(row int) int // rows of one group stay together, may be nil
	Loose   bool              // the columns keep their widths
	Even    bool              // as many strips as go, also where one would do
}

// stripGap is between strips, mm.
const stripGap = 7.0

// Width is the least width of a strip, mm.
func (g *Grid) Width() float64 {
	w := 0.0
	for _, c := range g.Columns {
		w += c.W
	}
	return w
}

// strips is how many strips go side by side on w mm.
func (g *Grid) strips(w float64) int {
	n := int((w + stripGap + 1e-6) / (g.Width() + stripGap))
	return max(1, min(max(g.Strips, 1), n))
}

// Pages is how many pages the grid takes from where the flow is, with rows of
// h mm, and Grid sets it in.
func (f *Flow) Pages(g *Grid, h float64) int {
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

// leastRows are the fewest rows that are worth a page of their own.
const leastRows = 5

// Grid sets a grid: the rows as high as its RowH, or lower down to LeastH where
// that saves a page.
func (f *Flow) Grid(g Grid) {
	h := g.RowH
	if g.LeastH > 0 {
		for least := f.Pages(&g, g.LeastH); f.Pages(&g, h) > least; {
			h = max(g.LeastH, h-0.1)
		}
	}
	for row := 0; row < g.Rows; {
		if f.Rest().H < g.HeadH+h*float64(min(2, g.Rows-row)) {
			f.Break()
		}
		strips, most := g.strips(f.Rest().W), max(1, int((f.Rest().H-g.HeadH+1e-6)/h))
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
		next := f.page(&g, row, strips, most, h)
		f.Lines += (next - row + strips - 1) / strips
		row = next
	}
}

// page sets rows from one on in strips of at most so many rows, and gives the
// next row.
func (f *Flow) page(g *Grid, row, strips, most int, h float64) int {
	rest := f.Rest()
	r := Rect{X: rest.X, Y: rest.Y, W: (rest.W - stripGap*float64(strips-1)) / float64(strips)}
	grown := 0.0
	for _, c := range g.Columns {
		grown += c.Grow
	}
	if g.Loose || grown == 0 {
		r.W = min(r.W, g.Width())
	}
	spare := 0.0
	if grown > 0 {
		spare = max(0, r.W-g.Width()) / grown
	}
	bottom := 0.0
	for range strips {
		to := g.until(row, row+most)
		if to == row {
			break
		}
		bottom = max(bottom, g.strip(f.Page, r, row, to, h, spare))
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

// strip draws rows of h mm from the top of a rectangle, columns widened by spare
// mm times their part, and gives the y below the last.
func (g *Grid) strip(p *Page, r Rect, from, to int, h, spare float64) float64 {
	x, top := r.X, r.Y+g.HeadH
	for _, c := range g.Columns {
		w := c.W + spare*c.Grow
		if c.Head != nil {
			c.Head(p, Rect{X: x, Y: r.Y, W: w, H: g.HeadH})
		}
		for i := from; i < to; i++ {
			c.Cell(p, Rect{X: x, Y: top + float64(i-from)*h, W: w, H: h}, i)
		}
		x += w
	}
	for i := from; i <= to; i++ {
		pen := Medium
		if i > from && i < to {
			pen = g.Rule(i)
		}
		if pen.MM > 0 {
			p.Rule(Rect{X: r.X, Y: top + float64(i-from)*h, W: r.W}, pen)
		}
	}
	return top + float64(to-from)*h
}

// EveryRow rules every row of a grid alike.
func EveryRow(int) Pen { return Hair }

// Texts is a column of texts, as wide as the widest of them and its head, with
// pad mm behind.
func (d *Doc) Texts(head string, texts []string, s Style, pad float64) Column {
	hs := Regular(Small).To(s.Align)
	return Column{
		W:    max(d.Width(head, hs), d.Widest(texts, s)) + pad,
		Head: HeadText(head, hs, pad),
		Cell: func(p *Page, r Rect, row int) {
			r.W -= pad
			p.Text(r, s, texts[row])
		},
	}
}

// HeadText draws the head of a column in one line at its foot.
func HeadText(head string, s Style, pad float64) func(p *Page, r Rect) {
	return func(p *Page, r Rect) {
		r.Y, r.H, r.W = r.Bottom()-s.LineH(), s.LineH(), r.W-pad
		p.Text(r, s, head)
	}
}

// Figures is a column of numbers whose decimal points are below each other.
func (d *Doc) Figures(head string, texts []string, s Style, pad float64) Column {
	whole, rest := 0.0, 0.0
	for _, t := range texts {
		a, b := splitPoint(t)
		whole, rest = max(whole, d.Width(a, s)), max(rest, d.Width(b, s))
	}
	c := d.Texts(head, nil, s.To(Right), pad)
	c.W = max(c.W, whole+rest+pad)
	c.Cell = func(p *Page, r Rect, row int) {
		a, b := splitPoint(texts[row])
		x := r.Right() - pad - rest
		y := r.Y + r.H/2 + s.CapMM()/2
		p.At(x-d.Width(a, s), y, s.To(Left), a+b)
	}
	return c
}

// splitPoint parts a number before its decimal point; what is no number stands
// before it.
func splitPoint(text string) (whole, rest string) {
	for i, r := range text {
		if r == '.' {
			return text[:i], text[i:]
		}
	}
	return text, ""
}
