package text

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/blend/mixmodel"
	"pourboard/blend/quantity"
	"pourboard/blend/results"
	"pourboard/render/wording"
)

// mostRecipes is how many recipes of the best cups are printed.
const mostRecipes = 5

// Results prints what was learnt from a crate of fired tiles: first what came out
// and what to do next, then the details: maps by rating (or by the first number,
// if nothing was rated), recipes, scatter and models. plan is the plan's file, for
// the commands that go on from here. What was skipped of the log is not among it:
// see record.Log.
func Results(w io.Writer, scheme mark.Scheme, r *results.Results, plan string) error {
	p := printer{r: r}
	p.line("%s", r.Test.Plan.Title)
	p.line("%s", wording.Summary(r.Test))
	p.line("")
	p.read(scheme)
	judged := r.Judged()
	if len(judged) > 0 {
		p.best(judged)
		p.checks(judged)
	} else {
		p.line("No ratings or numbers: cups cannot be ranked.")
	}
	p.written(judged)
	p.next(plan)
	if len(judged) > 0 {
		p.line("")
		p.line("Details: %s", wording.EndsText(r))
		p.maps(judged[0])
		p.rankings(judged)
		p.recipes()
		p.models(judged)
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

// read lists how much was recorded, and what is missing.
func (p *printer) read(scheme mark.Scheme) {
	g := grid{left: []bool{true, true}}
	g.add("tiles", fmt.Sprintf("%d of %d recorded", p.r.Tiles, scheme.Tiles()))
	for _, m := range slices.Concat(p.r.Judged(), p.r.Coats()) {
		g.add("", fmt.Sprintf("%s of %d", m.Head, m.N))
	}
	for _, text := range wording.MissingText(p.r, p.r.Missing, "no entries") {
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
	for _, firing := range p.r.Log.Firings {
		for _, e := range firing.Entries {
			g.add("firing "+firing.Letter, e.Label+": "+e.Value)
		}
	}
	p.grid(g)
}

// maps are the maps of a measure in the shape of the design, a body each.
func (p *printer) maps(m *results.Measure) {
	p.line("")
	p.line("Maps: %s. Left: first cup of the row. –: not read.", wording.ShapeText(p.r))
	for body, means := range m.Means {
		if results.CellsRead(means) == 0 {
			continue // it is among what is missing
		}
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

// A spot is a cup's place in a map: half is counted in halves of a place,
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

// best is the cups in the first places: by the first measure on each body, all
// bodies together before, by the others one line each.
func (p *printer) best(judged []*results.Measure) {
	p.line("")
	first := judged[0]
	p.line("Best by %s", first.Head)
	g := grid{left: []bool{true, true}}
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
		p.line("%s on %s: %s", m.Head, wording.BodyText(p.r, body), text)
	}
}

// places are ranks with what the only cup of a place is.
func (p *printer) places(m *results.Measure, body int, ranks []results.Rank) string {
	var texts []string
	for _, k := range ranks {
		text := wording.RankedText(p.r, m, body, k)
		if len(k.Cells) == 1 {
			text += " (" + wording.CellText(p.r, k.Cells[0]) + ")"
		}
		texts = append(texts, text)
	}
	return strings.Join(texts, "; ")
}

// rankings are all places of all measures.
func (p *printer) rankings(judged []*results.Measure) {
	p.line("")
	p.line("Ranks")
	for _, m := range judged {
		p.ranking(m, "highest", m.Highest)
		p.ranking(m, "lowest", m.Lowest)
	}
}

// checks are the cups that were kept out of the models.
func (p *printer) checks(judged []*results.Measure) {
	var lines []string
	for _, m := range judged {
		for _, model := range m.Models {
			for _, c := range model.Checks {
				lines = append(lines, fmt.Sprintf("  %s, %s: %s", m.Head, wording.BodyText(p.r, model.Body), wording.CheckText(m, c)))
			}
		}
	}
	if lines != nil {
		p.line("")
		p.line("Check cups, by models that they are kept out of")
		for _, line := range lines {
			p.line("%s", line)
		}
	}
}

// written is what was entered in words: of the best cups, or of all where none is.
func (p *printer) written(judged []*results.Measure) {
	cells := make([]int, len(p.r.Test.Cells))
	for i := range cells {
		cells[i] = i + 1
	}
	head := "Notes by cup"
	if len(judged) > 0 {
		cells, head = ranked(judged[0]), "Notes on the best cups by "+judged[0].Head
	}
	p.observations(head, cells)
}

// next is what can be done with the best cups.
func (p *printer) next(plan string) {
	steps, bucket := p.r.Next()
	if bucket == 0 {
		return
	}
	p.line("")
	p.line("Next, from the best on %s", wording.BodyText(p.r, p.r.Chooser().Body))
	if len(steps) > 0 {
		p.line("  finer steps:  pourboard next %s --cup %s", plan, strings.ReplaceAll(strings.Trim(fmt.Sprint(steps), "[]"), " ", ","))
	}
	size := `--dry "5 kg"`
	if p.r.Test.WithoutRecipe(bucket-1) != nil {
		size = `--volume "5 L"`
	}
	p.line("  a bucket:     pourboard batch %s --cup %d %s", plan, bucket, size)
}

// mostNoted is how many cups are reported in words.
const mostNoted = 8

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

// observations is what was written of cups in words, a line each.
func (p *printer) observations(head string, cells []int) {
	var lines []string
	for _, cell := range cells {
		if s := p.r.Observations(cell, results.AllBodies); !s.Empty() {
			lines = append(lines, fmt.Sprintf("  cup %d: %s", cell, strings.Join(wording.ObservationTexts(s), "; ")))
		}
	}
	if lines == nil {
		return
	}
	p.line("")
	p.line("%s", head)
	for _, line := range lines[:min(len(lines), mostNoted)] {
		p.line("%s", line)
	}
	if more := len(lines) - mostNoted; more > 0 {
		p.line("  and %d more cups, in the PDF", more)
	}
}

func (p *printer) ranking(m *results.Measure, view string, all []results.Ranking) {
	for _, ranking := range all {
		var places []string
		for _, k := range ranking.Ranks {
			places = append(places, wording.RankedText(p.r, m, ranking.Body, k))
		}
		p.line("  %s %s on %s, of %s: %s", view, m.Head, wording.BodyText(p.r, ranking.Body), quantity.Plural(ranking.Of, "cup", "cups"), strings.Join(places, "; "))
	}
}

// recipes are those of the cups in a first place, as they were measured.
func (p *printer) recipes() {
	cups := p.r.Firsts()
	p.line("")
	p.line("Recipes of the first, as measured (+ = addition, over the 100)")
	for _, n := range cups[:min(len(cups), mostRecipes)] {
		recipe, additions := p.r.Test.Recipe(n-1, blend.Measured)
		if without := p.r.Test.WithoutRecipe(n - 1); without != nil {
			p.line("  cup %d (%s): unknown; %s without recipe", n, wording.CellText(p.r, n), strings.Join(without, ", "))
			continue
		}
		p.line("  cup %d (%s): %s", n, wording.CellText(p.r, n), recipeText(blend.Written(recipe, blend.Measured), additions))
	}
	if more := len(cups) - mostRecipes; more > 0 {
		rest := slices.Sorted(slices.Values(cups[mostRecipes:]))
		p.line("  and %s: pourboard batch gives their recipes", quantity.Cups(rest, 20))
	}
}

// models are the models in short.
func (p *printer) models(judged []*results.Measure) {
	p.line("")
	p.line("Models, fitted to the means of cups (± are 95 %% limits)")
	for _, m := range judged {
		p.line("  %s: %s", m.Head, wording.ScatterText(m))
		for _, model := range m.Models {
			if len(model.Bodies) > 0 {
				p.model(m, model)
			}
		}
	}
	if bare := noRepeats(judged); bare != nil {
		p.line("  %s", wording.LackText(bare))
	}
	p.line("  nothing is predicted beyond the cups read")
}

// noRepeats is a model of cups of which none was made twice, if there is one.
func noRepeats(judged []*results.Measure) *mixmodel.Model {
	for _, m := range judged {
		for _, model := range m.Models {
			if chosen := model.Choice.Chosen; chosen != nil && chosen.Lack.Gap == mixmodel.NoRepeats {
				return chosen
			}
		}
	}
	return nil
}

// model is what came of modelling one body, or all.
func (p *printer) model(m *results.Measure, model results.Model) {
	p.line("  %s on %s", m.Head, wording.ModelText(p.r, model))
	if model.Design != nil {
		for _, text := range wording.DesignTexts(model.Design) {
			p.line("    %s", text)
		}
	}
	chosen := model.Choice.Chosen
	if chosen == nil {
		return
	}
	for _, text := range wording.OffsetTexts(chosen) {
		p.line("    %s", text)
	}
	for _, c := range model.Choice.Candidates {
		if c.Model == nil && chosen.Kind != mixmodel.Mean { // the first is enough
			p.line("    %s", c.Refused)
			break
		}
	}
	if model.Highest == nil {
		return // nothing is predicted
	}
	p.line("    highest %s", wording.BestText(p.r, model.Highest))
	if model.Lowest != nil {
		p.line("    lowest %s", wording.BestText(p.r, model.Lowest))
	}
	if chosen.Lack.Gap != mixmodel.NoRepeats { // which is printed once for all
		p.line("    %s", wording.LackText(chosen))
	}
}
