package page

// Flow sets texts and tables down the pages of one part, and goes on to a next
// page where one is full.
type Flow struct {
	Page  *Page
	Y     float64 // where the next thing goes
	Lines int     // set on this page so far, of paragraphs and rows
	X, W  float64 // of its column; the width of the page where W is 0

	Breaks int // pages begun after the first
	Head   func(p *Page, continued bool) (y float64)
}

// NewFlow begins a flow on a page. head draws the head of each page and gives
// the y below it.
func NewFlow(p *Page, head func(p *Page, continued bool) (y float64)) *Flow {
	return &Flow{Page: p, Y: head(p, false), Head: head}
}

// Rest is what is left of the page.
func (f *Flow) Rest() Rect {
	in := f.Page.Inside()
	r := Rect{X: in.X, Y: f.Y, W: in.W, H: in.Bottom() - f.Y}
	if f.W > 0 {
		r.X, r.W = f.X, f.W
	}
	return r
}

// Split is two columns from here on, the left one a part of the width, with gap mm
// between them.
func (f *Flow) Split(part, gap float64) (left, right *Flow) {
	l, r, rest := *f, *f, f.Rest()
	l.X, l.W = rest.X, rest.W*part
	r.X, r.W = rest.X+l.W+gap, rest.W-l.W-gap
	return &l, &r
}

// Join goes on below both columns.
func (f *Flow) Join(left, right *Flow) {
	last := left
	if right.Breaks > left.Breaks || right.Breaks == left.Breaks && right.Y > left.Y {
		last = right
	}
	f.Page, f.Y, f.Breaks, f.Lines = last.Page, last.Y, last.Breaks, left.Lines+right.Lines
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
	f.Breaks++
	f.Y = f.Head(f.Page, true)
}

// Need goes on to the next page if this one has less than h mm left.
func (f *Flow) Need(h float64) {
	if f.Rest().H < h {
		f.Break()
	}
}

// Para sets a paragraph, if there is one.
func (f *Flow) Para(s Style, text string) {
	if text != "" {
		f.lines(s, text, 0)
		f.Y += 0.6
	}
}

// lines sets a text in lines, indent mm from the left.
func (f *Flow) lines(s Style, text string, indent float64) {
	for _, line := range f.Page.doc.Lines(text, s, f.Rest().W-indent) {
		f.Need(s.LineH())
		r := f.Take(s.LineH())
		f.Page.Para(Rect{X: r.X + indent, Y: r.Y, W: r.W - indent}, s, line)
		f.Lines++
	}
}

// Heading sets a heading, and keeps h mm of what follows on its page.
func (f *Flow) Heading(text string, h float64) {
	f.Need(Bold(Head).LineH() + 3 + h)
	f.Y += 2.5
	f.Page.Text(f.Take(Bold(Head).LineH()), Bold(Head), text)
	f.Y += 0.5
}

// List sets items under a heading, if there are any.
func (f *Flow) List(title string, s Style, items []string) {
	if len(items) > 0 {
		f.Heading(title, 10)
		f.Items(s, items)
	}
}

// Items sets paragraphs with a dot before each; one stays whole where it can.
func (f *Flow) Items(s Style, texts []string) {
	const indent = 3.2
	for _, text := range texts {
		h := float64(len(f.Page.doc.Lines(text, s, f.Rest().W-indent))) * s.LineH()
		f.Need(min(h, f.Page.Inside().H/2))
		f.Page.Para(f.Rest(), s, "•")
		f.lines(s, text, indent)
		f.Y += 0.5
	}
}
