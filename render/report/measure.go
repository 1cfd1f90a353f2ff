package report

import (
	"fmt"
	"slices"

	"pourboard/blend/results"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
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
	rest := f.Rest().H / float64(max(1, len(bodies)))
	for _, b := range bodies {
		values := make([]page.Value, len(m.Means[b]))
		for i, mean := range m.Means[b] {
			if values[i] = (page.Value{Text: "–", Class: -1}); mean.N > 0 {
				values[i] = page.Value{Text: wording.ValueText(m, mean.Value, mean.N), Class: mean.Class}
			}
		}
		of := func(wide float64) layout.Map { return layout.MapOf(p.test, wide) }
		f.Values(m.Head+" on "+wording.BodyText(p.r, b), of, values, len(m.Classes), rest)
	}
	if slices.Index(p.r.Judged(), m) > 0 { // the first is on the first page; a coat is no judgement
		p.rankings(f, "Highest and lowest", m)
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
		f.Page.Value(box, "", page.Value{Class: k}, len(m.Classes))
		f.Page.Text(page.Rect{X: x + w + 2, Y: f.Y, W: wide, H: h}, fine, text)
		x += wide + gap
	}
	f.Y += h + 2
}
