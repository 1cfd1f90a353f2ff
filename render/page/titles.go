package page

// titleH is the height of a sheet's title with what is beside it, mm.
const titleH = 10.0

// Titles are what is at the head of a sheet: its title, the test on its
// right, and below that what to do.
type Titles struct {
	Title, Test string
	Tried       string // what was asked for otherwise than the plan's file says
	Lead        string
	Signed      bool // there is room for who did it and when
}

// Draw draws the head of a sheet over a rule, and gives the y below it. A
// continued sheet has its title alone.
func (t Titles) Draw(p *Page, continued bool) float64 {
	in := p.Inside()
	name, style := t.Title, Bold(Title)
	if continued {
		name, style = name+", continued", Bold(Amount)
	}
	w := min(p.doc.Width(name, style), in.W*0.62)
	p.Text(Rect{X: in.X, Y: in.Y, W: w, H: titleH}, style, name)
	right := Rect{X: in.X + w + 5, Y: in.Y, W: in.W - w - 5, H: titleH}
	if t.Signed {
		right.H = titleH / 2
		p.Blanks(Rect{X: right.X, Y: in.Y + titleH/2, W: right.W, H: titleH / 2}, "name", "date")
	}
	p.Fitted(right, Bold(Body).To(Right), t.Test)
	y := in.Y + titleH + 1
	if !continued {
		for _, text := range []struct {
			s    Style
			text string
		}{{Bold(Body), t.Tried}, {Regular(Body), t.Lead}} {
			if text.text != "" {
				y = p.Para(Rect{X: in.X, Y: y, W: in.W}, text.s, text.text) + 0.5
			}
		}
	}
	p.Line(in.X, y, in.Right(), y, Medium)
	return y + 2
}

// Blanks sets lines to write on at the right of a rectangle, with a word before
// each.
func (p *Page) Blanks(r Rect, words ...string) {
	const line, gap = 24.0, 3.0
	style := Regular(Small)
	w := gap * float64(len(words)-1)
	for _, word := range words {
		w += p.doc.Width(word, style) + 1 + line
	}
	x, long := r.Right()-w, line
	if w > r.W {
		x, long = r.X, line-(w-r.W)/float64(len(words))
	}
	base := r.Bottom() - 1
	for _, word := range words {
		p.At(x, base, style, word)
		x += p.doc.Width(word, style) + 1
		p.Line(x, base+0.4, x+long, base+0.4, Thin)
		x += long + gap
	}
}
