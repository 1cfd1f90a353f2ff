package text

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"pourboard/blend"
	"pourboard/blend/results"
	"pourboard/layout"
	"pourboard/render/wording"
)

// mostRecipes is how many recipes of the best cups are printed.
const mostRecipes = 5

// Results prints what was learnt from a crate of fired tiles: what was read, a
// map by rating (or by the first number, if nothing was rated), the best cups
// with recipes, the scatter of repeats and the models in short. What was left
// out of the log is not among it: see record.Log.
func Results(w io.Writer, places *layout.Places, r *results.Results) error {
	p := printer{r: r}
	p.line("%s", r.Test.Plan.Title)
	p.line("%s", r.Test.Summary())
	p.line("")
	p.read(places)
	if judged := r.Judged(); len(judged) > 0 {
		p.line("%s", wording.EndsText(r))
		p.maps(judged[0])
		p.best(judged)
		p.recipes()
		p.models(judged)
	} else {
		p.line("neither ratings nor numbers were read, so no cup is better than another")
		var all []int
		for i := range r.Test.Cells {
			all = append(all, i+1)
		}
		p.said("what was written of the cups", all)
	}
	p.line("")
	p.line("%s", wording.NoProof)
	_, err := io.WriteString(w, p.String())
	return err
}

// printer collects the lines of one output.
type printer struct {
	strings.Builder
	r *results.Results
}

func (p *printer) line(format string, args ...any) {
	p.WriteString(strings.TrimRight(oneLine(fmt.Sprintf(format, args...)), " ") + "\n")
}

func (p *printer) grid(g grid) {
	for _, row := range g.rows {
		for i := range row {
			row[i] = oneLine(row[i])
		}
	}
	g.write(&p.Builder) // a Builder takes all
}

// read says what was read, and what was not.
func (p *printer) read(places *layout.Places) {
	g := grid{left: []bool{true, true}}
	g.add("tiles", fmt.Sprintf("something is written down of %d of %d", p.r.Tiles, places.Scheme.Tiles()))
	for _, m := range slices.Concat(p.r.Judged(), p.r.Coats()) {
		g.add("", fmt.Sprintf("%s of %d", m.Head, m.N))
	}
	for _, text := range wording.MissingText(p.r, p.r.Missing, "nothing is written down") {
		g.add("missing", text)
	}
	for _, m := range p.r.Judged() {
		same := func(a, b results.Gap) bool { return a.Body == b.Body && slices.Equal(a.Cells, b.Cells) }
		if slices.EqualFunc(m.Missing, p.r.Missing, same) {
			continue
		}
		for _, text := range wording.MissingText(p.r, m.Missing, "no "+m.Head) {
			g.add("missing", text)
		}
	}
	for _, e := range p.r.Log.Firing {
		g.add("firing", e.Label+": "+e.Value)
	}
	p.grid(g)
	p.line("")
}

// maps are the maps of a measure in the shape of the design, a body each.
func (p *printer) maps(m *results.Measure) {
	p.line("")
	p.line("maps: %s; at the left is the first cup of each row, – is where nothing was read", wording.ShapeText(p.r))
	for body, means := range m.Means {
		p.line("")
		p.line("%s on %s", m.Head, wording.BodyText(p.r, body))
		p.body(m, means)
	}
}

// body is the map of one body.
func (p *printer) body(m *results.Measure, means []results.Mean) {
	texts := make([]string, len(means))
	wide := 0
	for i, mean := range means {
		texts[i] = "–"
		if mean.N > 0 {
			texts[i] = wording.ValueText(m, mean.Value, mean.N)
		}
		wide = max(wide, utf8.RuneCountInString(texts[i]))
	}
	wide += wide%2 + 2 // an even number, so that a row may be offset by half of it
	label := len(strconv.Itoa(len(means)))
	spots := p.spots()
	least := 0
	for _, s := range spots {
		least = min(least, s.half)
	}
	for i := 0; i < len(spots); {
		if layers := p.r.Test.Layers; layers > 1 && (i == 0 || spots[i].layer != spots[i-1].layer) {
			p.line("layer %d of %d", spots[i].layer+1, layers)
		}
		line := fmt.Sprintf("%*d ", label, i+1)
		at := 0
		first := spots[i]
		for ; i < len(spots) && spots[i].row == first.row && spots[i].layer == first.layer; i++ {
			end := (spots[i].half-least)*wide/2 + wide // of the figure, which is set to the right
			n := utf8.RuneCountInString(texts[i])
			line += strings.Repeat(" ", max(1, end-at-n)) + texts[i]
			at = end
		}
		p.line("%s", line)
	}
}

// A spot is where a cup stands in a map: half is counted in halves of a place,
// so that rows can be offset.
type spot struct{ row, half, layer int }

func (p *printer) spots() []spot {
	const perRow = 10 // where the design gives no rows
	var all []spot
	for i, c := range p.r.Test.Cells {
		s := spot{c.Row, 2 * c.Column, c.Layer}
		switch p.r.Test.Plan.Blend.Kind {
		case blend.Triaxial, blend.Quadraxial:
			s.half -= c.Row
		case blend.Line, blend.List:
			s.row, s.half = i/perRow, 2*(i%perRow)
		}
		all = append(all, s)
	}
	return all
}

// best is the rankings.
func (p *printer) best(judged []*results.Measure) {
	p.line("")
	p.line("best cups")
	for _, m := range judged {
		p.rankings(m, "highest", m.Highest)
		p.rankings(m, "lowest", m.Lowest)
		p.line("  %s: %s", m.Head, wording.ScatterText(m))
	}
	p.said("what was written of the best by "+judged[0].Head+", of all their tiles", ranked(judged[0]))
}

// mostSaid is how many cups are told of in words.
const mostSaid = 12

// ranked are the cups in the places of a measure's rankings, those of all bodies
// together first.
func ranked(m *results.Measure) (cells []int) {
	for _, ranking := range slices.Backward(m.Highest) { // of all bodies together first
		for _, k := range ranking.Ranks {
			for _, cell := range k.Cells {
				if !slices.Contains(cells, cell) {
					cells = append(cells, cell)
				}
			}
		}
	}
	return cells
}

// said is what was written of cups in words, a line each.
func (p *printer) said(head string, cells []int) {
	var lines []string
	for _, cell := range cells {
		if s := p.r.Said(cell, results.AllBodies); !s.Empty() {
			lines = append(lines, fmt.Sprintf("  cup %d: %s", cell, strings.Join(saidTexts(s), "; ")))
		}
	}
	if lines == nil {
		return
	}
	p.line("")
	p.line("%s", head)
	for _, line := range lines[:min(len(lines), mostSaid)] {
		p.line("%s", line)
	}
	if more := len(lines) - mostSaid; more > 0 {
		p.line("  and of %d more, which the PDF has", more)
	}
}

// saidTexts are the columns of words of a cup, the defects first.
func saidTexts(s results.Said) []string {
	texts := []string{"no defects written down"}
	if len(s.Defects) > 0 {
		texts[0] = "defects " + wording.CountsText(s, s.Defects)
	}
	if len(s.Surface) > 0 {
		texts = append(texts, "surface "+wording.CountsText(s, s.Surface))
	}
	if len(s.Colour) > 0 {
		texts = append(texts, "colour "+wording.CountsText(s, s.Colour))
	}
	return append(texts, s.Notes...)
}

func (p *printer) rankings(m *results.Measure, which string, all []results.Ranking) {
	for _, ranking := range all {
		var places []string
		for _, k := range ranking.Ranks {
			places = append(places, wording.RankedText(p.r, m, ranking.Body, k))
		}
		p.line("  %s %s on %s, of %d: %s", which, m.Head, wording.BodyText(p.r, ranking.Body), ranking.Of, strings.Join(places, "; "))
	}
}

// recipes are those of the cups in a first place, as they were measured.
func (p *printer) recipes() {
	cups := p.r.Firsts()
	p.line("")
	p.line("recipes of the first, as measured, in percent of the dry recipe; + is over the 100")
	for _, n := range cups[:min(len(cups), mostRecipes)] {
		recipe, additions := p.r.Test.Recipe(n-1, blend.Measured)
		var parts []string
		for _, part := range recipe {
			parts = append(parts, blend.RecipeText(part.Amount)+" "+part.Material)
		}
		for _, part := range additions {
			parts = append(parts, "+ "+blend.RecipeText(part.Amount)+" "+part.Material)
		}
		p.line("  cup %d (%s): %s", n, wording.CellText(p.r, n), strings.Join(parts, ", "))
	}
	if more := len(cups) - mostRecipes; more > 0 {
		rest := slices.Sorted(slices.Values(cups[mostRecipes:]))
		p.line("  and of %s, which the command batch gives", blend.Numbers(rest, 20))
	}
}

// models are the models in short.
func (p *printer) models(judged []*results.Measure) {
	p.line("")
	p.line("models")
	for _, m := range judged {
		for _, model := range m.Models {
			p.line("  %s on %s", m.Head, wording.ModelText(p.r, model))
			if model.Highest == nil {
				continue // nothing is predicted
			}
			p.line("    highest %s", wording.BestText(p.r, model.Highest))
			if model.Lowest != nil {
				p.line("    lowest %s", wording.BestText(p.r, model.Lowest))
			}
			if lack := wording.LackText(model.Choice.Chosen); lack != "" {
				p.line("    %s", lack)
			}
		}
	}
	p.line("  nothing is predicted beyond the cups that were read; ± is of the mean, if the form of the model is right")
}
