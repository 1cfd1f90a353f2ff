package report

import (
	"fmt"
	"math"
	"slices"

	"pourboard/blend/results"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// A class of a map is shown three ways, since paper, printers and eyes differ:
// by its grey, by how many squares are in the place, and by the value itself.
const (
	darkest = 0.62 // grey of the highest class: figures on it are still black on light
	pip     = 1.3  // side of a square, mm
	mostW   = 24.0 // of a place, mm
	mostH   = 15.0
	easyW   = 14.0
	easyH   = 8.0
	leastW  = 8.6
	leastH  = 7.2
)

// measure is one column of numbers: a map for each body, and what was read.
func (p *report) measure(m *results.Measure) {
	f := p.begin(m.Head, fmt.Sprintf("Read of %d tiles. %s. %s", m.N, wording.EndsText(p.r), wording.Sentence(wording.ShapeText(p.r))))
	lines := []string{wording.Sentence(wording.ScatterText(m))}
	for _, text := range wording.MissingText(p.r, m.Missing, "no "+m.Head) {
		lines = append(lines, "Missing: "+text)
	}
	for _, model := range m.Models {
		lines = append(lines, wording.Sentence(wording.ModelText(p.r, model)))
	}
	f.Items(fine, lines)
	p.legend(f, m)
	var bodies []int
	for b, means := range m.Means {
		if results.CellsRead(means) > 0 { // otherwise it is among what is missing
			bodies = append(bodies, b)
		}
	}
	// All on this page, if their places can be so small.
	most := f.Rest().H/float64(max(1, len(bodies))) - mapHead
	for _, b := range bodies {
		p.resultMap(f, m, b, most)
	}
	if slices.Index(p.r.Judged(), m) > 0 { // the first is on the first page; a coat is no judgement
		p.rankings(f, "Highest and lowest", m)
	}
}

// headH is what the head of a page that goes on takes, mm.
const headH = 16.0

// mapHead is what the title of a map takes, and the room below it, mm.
const mapHead = 13.0

// classGrey is the grey of a class.
func classGrey(k, of int) float64 {
	if of == 1 {
		return 1
	}
	return 1 - (1-darkest)*float64(k)/float64(of-1)
}

// pips draws as many squares as the class has steps, ending at x.
func pips(p *page.Page, x, y float64, class int) {
	for i := range class + 1 {
		p.Shade(page.Rect{X: x - pip - 1.5*pip*float64(i), Y: y - pip/2, W: pip, H: pip}, 0)
	}
}

// legend says what values each class has.
func (p *report) legend(f *page.Flow, m *results.Measure) {
	const w, h, gap = 14.0, 5.5, 5.0
	f.Y += 1
	f.Para(fine, "Small figure: cup. Large figure: reading. Darker, and more squares, is more.")
	r := f.Rest()
	x := r.X
	for k := range m.Classes {
		text := wording.ClassText(m, k)
		wide := w + 2 + p.doc.Width(text, fine)
		if x > r.X && x+wide > r.Right() {
			x = r.X
			f.Y += h + 1.5
		}
		box := page.Rect{X: x, Y: f.Y, W: w, H: h}
		f.Page.Shade(box, classGrey(k, len(m.Classes)))
		f.Page.Box(box, page.Thin)
		pips(f.Page, box.Right()-1, f.Y+h/2, k)
		f.Page.Text(page.Rect{X: x + w + 2, Y: f.Y, W: wide, H: h}, fine, text)
		x += wide + gap
	}
	f.Y += h + 2
}

// resultMap is the map of one body, on one page.
func (p *report) resultMap(f *page.Flow, m *results.Measure, b int, mostH float64) {
	in := f.Page.Inside()
	shape, w, h := p.fit(in.W, mostH)
	for _, most := range []float64{(in.H-headH)/2 - mapHead, in.H - 35} { // two on a page, or one
		if w < leastW || h < leastH {
			shape, w, h = p.fit(in.W, most)
		}
	}
	whole := shape.H*h + 3
	f.Heading(m.Head+" on "+wording.BodyText(p.r, b), min(whole, in.H-32))
	if w < leastW || h < leastH {
		p.valueList(f, m, b)
		return
	}
	top := f.Take(whole)
	for _, at := range shape.Places {
		p.resultPlace(f.Page, page.Rect{X: top.X + at.X*w, Y: top.Y + at.Y*h, W: w, H: h}, m, b, at.Cup)
	}
}

// fit finds the places with which the map goes on w × h mm: a line, or layers, as
// far across as leaves places that are read with ease, otherwise the largest.
func (p *report) fit(w, h float64) (best layout.Map, placeW, placeH float64) {
	for wide := math.Floor(w / leastW); wide >= 1; wide-- {
		try := layout.MapOf(p.test, wide)
		x, y := min(mostW, w/try.W), min(mostH, h/try.H)
		if y = min(y, 0.62*max(x, leastH/0.62)); x*y > 1.1*placeW*placeH {
			best, placeW, placeH = try, x, y
			if x >= easyW && y >= easyH {
				break
			}
		}
	}
	return best, placeW, placeH
}

// resultPlace draws one cup: its number, its class, and what was read.
func (p *report) resultPlace(at *page.Page, r page.Rect, m *results.Measure, b, cup int) {
	mean := m.Means[b][cup-1]
	text := "–"
	if mean.N > 0 {
		at.Shade(r, classGrey(mean.Class, len(m.Classes)))
		text = wording.ValueText(m, mean.Value, mean.N)
	}
	at.Box(r, page.Thin)
	at.Text(page.Rect{X: r.X + 0.6, Y: r.Y + 0.3, W: r.W - 1, H: small.LineH()}, small, fmt.Sprint(cup))
	if squares := 1.5 * pip * float64(len(m.Classes)); mean.N > 0 && squares+p.doc.Width(fmt.Sprint(cup), small)+1.5 < r.W {
		pips(at, r.Right()-0.7, r.Y+0.3+small.LineH()/2, mean.Class)
	}
	rest := page.Rect{X: r.X + 0.5, Y: r.Y + small.LineH(), W: r.W - 1, H: r.H - small.LineH()}
	style := page.Bold(min(13, math.Floor(rest.H/page.MMPerPt)))
	at.Text(rest, style.At(max(style.Pt, page.Least)).To(page.Centre), text)
}

// valueList is the values of a map whose places are too small for them.
func (p *report) valueList(f *page.Flow, m *results.Measure, b int) {
	cup, reading := page.Column{Head: "cup", Style: page.Bold(page.Small).To(page.Right)}, page.Column{Head: "reading", Style: fine.To(page.Decimal)}
	for i, mean := range m.Means[b] {
		text := "–"
		if mean.N > 0 {
			text = wording.ValueText(m, mean.Value, mean.N)
		}
		cup.Texts, reading.Texts = append(cup.Texts, fmt.Sprint(i+1)), append(reading.Texts, text)
	}
	f.Grid(page.Grid{Columns: []page.Column{cup, reading}, Rows: len(cup.Texts), HeadH: 5, RowH: 4.4, Strips: 6, Even: true})
}
