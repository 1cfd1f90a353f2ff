package text

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/blend/quantity"
	"pourboard/blend/results"
	"pourboard/render/wording"
)

// How many cups have their recipes printed, and how many their notes.
const (
	mostRecipes = 5
	mostNoted   = 8
)

// Results prints what was learnt from a crate of fired tiles: first what came out
// and what to do next, then the details: maps by rating (or by the first number,
// if nothing was rated), recipes, scatter and models. plan is the plan's file, with
// its flags, for the commands that go on from here. What was skipped of the log is
// not among it: see record.Log.
func Results(scheme mark.Scheme, r *results.Results, plan string) string {
	p := resultsPrinter{r: r}
	p.line("%s", r.Test.Plan.Title)
	p.line("%s", wording.Summary(r.Test))
	p.line("")
	p.read(scheme)
	judged := r.Judged()
	if len(judged) == 0 {
		p.line("No ratings or numbers: cups cannot be ranked.")
		p.notes("Notes by cup", list(r.Test.Cells, func(c blend.Cell) int { return c.Number }))
	} else {
		p.best(judged)
		p.notes("Notes on the best cups by "+judged[0].Head, ranked(judged[0]))
		p.next(plan)
		p.line("")
		p.line("Details: %s", wording.EndsText(r))
		p.maps(judged[0])
		p.recipes()
		p.models(judged)
	}
	p.line("")
	p.line("%s", wording.NoProof)
	return p.String()
}

// resultsPrinter prints results.
type resultsPrinter struct {
	printer
	r *results.Results
}

// section begins a part with its head.
func (p *resultsPrinter) section(format string, args ...any) {
	p.line("")
	p.line(format, args...)
}

// read lists how much was recorded, and what is missing.
func (p *resultsPrinter) read(scheme mark.Scheme) {
	g := &grid{align: "ll"}
	g.add("tiles", fmt.Sprintf("%d of %d recorded", p.r.Tiles, scheme.Tiles()))
	for _, m := range slices.Concat(p.r.Judged(), p.r.Coats()) {
		g.add("", fmt.Sprintf("%s of %d", m.Head, m.N))
	}
	missing := func(gaps []results.Gap, what string) {
		for _, text := range wording.MissingText(p.r, gaps, what) {
			g.add("missing", text)
		}
	}
	missing(p.r.Missing, "no entries")
	for _, m := range p.r.Judged() {
		same := func(a, b results.Gap) bool { return a.Body == b.Body && slices.Equal(a.Cells, b.Cells) }
		if !slices.EqualFunc(m.Missing, p.r.Missing, same) {
			missing(m.Missing, "no "+m.Head)
		}
	}
	for _, firing := range p.r.Log.Firings {
		for _, e := range firing.Entries {
			g.add("firing "+firing.Letter, e.Label+": "+e.Value)
		}
	}
	p.grid(g)
}

// maps are the maps of a measure in the shape of the design, a body each.
func (p *resultsPrinter) maps(m *results.Measure) {
	p.section("Maps: %s. Left: first cup of the row. –: not read.", wording.ShapeText(p.r))
	for body, means := range m.Means {
		if results.CellsRead(means) > 0 { // else it is among what is missing
			p.section("%s on %s", m.Head, wording.BodyText(p.r, body))
			p.body(list(means, func(mean results.Mean) string {
				if mean.N == 0 {
					return "–"
				}
				return wording.ValueText(m, mean.Value, mean.N)
			}))
		}
	}
}

// body is the map of one body, a text for each cup.
func (p *resultsPrinter) body(texts []string) {
	spots := p.spots()
	wide, least := 0, 0
	for i, s := range spots {
		wide, least = max(wide, utf8.RuneCountInString(texts[i])), min(least, s.half)
	}
	wide += wide%2 + 2 // an even number, so that a row may be offset by half of it
	line, at := "", 0
	for i, s := range spots {
		if i == 0 || s.row != spots[i-1].row || s.layer != spots[i-1].layer {
			if i > 0 {
				p.line("%s", line)
			}
			if layers := p.r.Test.Layers; layers > 1 && (i == 0 || s.layer != spots[i-1].layer) {
				p.line("layer %d of %d", s.layer+1, layers)
			}
			line, at = fmt.Sprintf("%*d ", len(strconv.Itoa(len(texts))), i+1), 0
		}
		end := (s.half-least)*wide/2 + wide // of the text, which is set to the right
		line += fmt.Sprintf(" %*s", end-at-1, texts[i])
		at = end
	}
	p.line("%s", line)
}

// A spot is a cup's place in a map: half is counted in halves of a place,
// so that rows can be offset.
type spot struct{ row, half, layer int }

func (p *resultsPrinter) spots() []spot {
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

// best is the cups in the first places: by the first measure on each body, all
// bodies together before, by the others one line each. The PDF has all ranks.
func (p *resultsPrinter) best(judged []*results.Measure) {
	first := judged[0]
	p.section("Best by %s", first.Head)
	g := &grid{align: "ll"}
	for k, ranking := range first.Highest {
		ranks := ranking.Ranks
		if k > 0 {
			ranks = ranks[:1]
		}
		g.add("  "+wording.RankingText(p.r, first, ranking), p.places(first, ranking.Body, ranks))
	}
	p.grid(g)
	for _, m := range judged[1:] {
		body := m.Highest[0].Body
		text := "highest " + p.places(m, body, m.Highest[0].Ranks[:1])
		if len(m.Lowest) > 0 {
			text += "; lowest " + p.places(m, body, m.Lowest[0].Ranks[:1])
		}
		p.line("%s on %s: %s", m.Head, wording.RankedBodyText(p.r, m, body), text)
	}
}

// places are ranks in a line.
func (p *resultsPrinter) places(m *results.Measure, body int, ranks []results.Rank) string {
	return strings.Join(list(ranks, func(k results.Rank) string { return wording.RankedText(p.r, m, body, k) }), "; ")
}

// next is what can be done with the best cups.
func (p *resultsPrinter) next(plan string) {
	steps, bucket := p.r.Next()
	if bucket == 0 {
		return
	}
	p.section("Next, from the best on %s", wording.BodyText(p.r, p.r.Chooser().Body))
	if len(steps) > 0 {
		p.line("  finer steps:  pourboard next %s --cup %s", plan, strings.Join(list(steps, strconv.Itoa), ","))
	}
	size := `--dry "5 kg"`
	if p.r.Test.WithoutRecipe(bucket-1) != nil {
		size = `--volume "5 L"`
	}
	p.line("  a bucket:     pourboard batch %s --cup %d %s", plan, bucket, size)
}

// ranked are the cups in the places of a measure's rankings, those of all bodies
// together first.
func ranked(m *results.Measure) (cells []int) {
	for _, ranking := range m.Highest {
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

// notes is what was written of cups in words, a line each.
func (p *resultsPrinter) notes(head string, cells []int) {
	var lines []string
	for _, cell := range cells {
		if s := p.r.Observations(cell, results.AllBodies); !s.Empty() {
			lines = append(lines, fmt.Sprintf("  cup %d: %s", cell, strings.Join(wording.ObservationTexts(s), "; ")))
		}
	}
	if lines == nil {
		return
	}
	p.section("%s", head)
	for _, line := range lines[:min(len(lines), mostNoted)] {
		p.line("%s", line)
	}
	if more := len(lines) - mostNoted; more > 0 {
		p.line("  and %s, in the PDF", quantity.Plural(more, "more cup", "more cups"))
	}
}

// recipes are those of the cups in a first place, as they were measured.
func (p *resultsPrinter) recipes() {
	cups := p.r.Firsts()
	p.section("Recipes of the first, as measured (+ = addition, over the 100)")
	for _, n := range cups[:min(len(cups), mostRecipes)] {
		p.line("  cup %d (%s): %s", n, wording.CellText(p.r, n), recipeText(p.r.Test, n, blend.Measured))
	}
	if more := len(cups) - mostRecipes; more > 0 {
		rest := slices.Sorted(slices.Values(cups[mostRecipes:]))
		p.line("  and %s: pourboard batch gives their recipes", quantity.Cups(rest, 20))
	}
}

// models are the models in short.
func (p *resultsPrinter) models(judged []*results.Measure) {
	p.section("Models, fitted to the means of cups (± are 95 %% limits)")
	for _, m := range judged {
		p.line("  %s: %s", m.Head, wording.ScatterText(m))
		for _, model := range m.Models {
			p.model(m, model)
		}
	}
	p.line("  nothing is predicted beyond the cups read")
}

// model is what came of modelling one body, or all.
func (p *resultsPrinter) model(m *results.Measure, model results.Model) {
	p.line("  %s on %s", m.Head, wording.ModelText(p.r, model))
	for _, text := range wording.ModelTexts(p.r, m, model) {
		p.line("    %s", text)
	}
}
