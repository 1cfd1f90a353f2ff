package sheets

import (
	"fmt"
	"strings"

	"pourboard/render/page"
)

// The styles of the sheets.
var (
	body   = page.Regular(page.Body)
	strong = page.Bold(page.Body)
	fine   = page.Regular(page.Small)
	amount = page.Bold(page.Amount)
	cupNo  = page.Bold(page.Amount)
)

// titleH is the height of a sheet's title with what stands beside it, mm.
const titleH = 10.0

// begin begins a part on a new page under its title and a line or two of what
// to do. signed pages have room for who did it and when.
func (d *drawer) begin(title, lead string, signed bool) *page.Flow {
	return d.beginOn(d.w, d.h, title, lead, signed)
}

func (d *drawer) beginOn(w, h float64, title, lead string, signed bool) *page.Flow {
	return page.NewFlow(d.doc.Add(d.part.title, w, h), d.head(title, lead, signed))
}

// head draws the title of a sheet, the test on its right, and below that the
// lead, over a rule.
func (d *drawer) head(title, lead string, signed bool) func(*page.Page, bool) float64 {
	return func(p *page.Page, continued bool) float64 {
		in := p.Inside()
		name := title
		if continued {
			name += ", continued"
		}
		style := page.Bold(page.Title)
		if continued {
			style = page.Bold(page.Amount)
		}
		w := min(d.doc.Width(name, style), in.W*0.62)
		p.Text(page.Rect{X: in.X, Y: in.Y, W: w, H: titleH}, style, name)
		right := page.Rect{X: in.X + w + 5, Y: in.Y, W: in.W - w - 5, H: titleH}
		if signed {
			right.H = titleH / 2
			d.blanks(p, page.Rect{X: right.X, Y: in.Y + titleH/2, W: right.W, H: titleH / 2}, "name", "date")
		}
		p.Fitted(right, strong.To(page.Right), d.plan.Title)
		y := in.Y + titleH + 1
		if !continued {
			if d.Tried != "" {
				y = p.Para(page.Rect{X: in.X, Y: y, W: in.W}, strong, d.Tried) + 0.3
			}
			if lead != "" {
				y = p.Para(page.Rect{X: in.X, Y: y, W: in.W}, body, lead) + 0.6
			}
		}
		p.Line(in.X, y, in.Right(), y, page.Medium)
		return y + 2
	}
}

// blanks sets lines to write on, right-aligned, with a word before each.
func (d *drawer) blanks(p *page.Page, r page.Rect, words ...string) {
	const line, gap = 24.0, 3.0
	w := gap * float64(len(words)-1)
	for _, word := range words {
		w += d.doc.Width(word, fine) + 1 + line
	}
	x, long := r.Right()-w, line
	if w > r.W {
		long -= (w - r.W) / float64(len(words))
		x = r.X
	}
	base := r.Bottom() - 1
	for _, word := range words {
		p.At(x, base, fine, word)
		x += d.doc.Width(word, fine) + 1
		p.Line(x, base+0.4, x+long, base+0.4, page.Thin)
		x += long + gap
	}
}

// counted is a number of things in words: "1 tile", "28 tiles".
func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprint(n, " ", one, "s")
}

// ordinal is the number of a coat: "1st".
func ordinal(n int) string {
	suffix := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			suffix = "st"
		case 2:
			suffix = "nd"
		case 3:
			suffix = "rd"
		}
	}
	return fmt.Sprint(n, suffix)
}

// sentence ends a text with a full stop and begins it with a capital.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	r := []rune(text)
	return strings.ToUpper(string(r[:1])) + strings.TrimSuffix(string(r[1:]), ".") + "."
}
