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
	f.Para(fine, "Small figure: cup. Large figure: reading. Darker is more.")
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
			if values[i].Text = "–"; mean.N > 0 {
				values[i] = page.Value{Text: wording.ValueText(m, mean.Value, mean.N), Shade: m.Shade(mean.Value)}
			}
		}
		of := func(wide float64) layout.Map { return layout.MapOf(p.test, wide) }
		f.Values(m.Head+" on "+wording.BodyText(p.r, b), of, values, rest)
	}
	if slices.Index(p.r.Judged(), m) > 0 { // the first is on the first page; a coat is no judgement
		p.rankings(f, "Highest and lowest", m)
	}
}
