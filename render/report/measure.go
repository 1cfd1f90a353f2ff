package report

import (
	"fmt"
	"slices"

	"pourboard/blend/mixmodel"
	"pourboard/blend/record"
	"pourboard/blend/results"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// measure is one column of numbers: a map for each body, and what was read.
func (p *report) measure(m *results.Measure) {
	shape := wording.Sentence(wording.ShapeText(p.r))
	f := p.begin(m.Head, fmt.Sprintf("Read of %d tiles. %s. %s", m.N, wording.EndsText(p.r), shape))
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

// models says which models were tried on a measure, what the chosen ones are,
// and what they predict.
func (p *report) models(m *results.Measure) {
	if len(m.Models) == 0 {
		return
	}
	f := p.begin(m.Head+": models", "")
	f.Items(fine, modelNotes(m))
	for _, model := range m.Models {
		p.model(f, m, model)
	}
}

// modelNotes say how the figures of models are to be read.
func modelNotes(m *results.Measure) []string {
	notes := []string{
		"The model chosen is the one that best predicts each cup from the others. " +
			"Leave-one-out error: how far off it is (root mean square).",
		"± of a prediction: the 95 % limit of the mean (Student’s t), if the form of the model is right. " +
			"A new cup scatters more.",
		"Each cup counts once, by the mean of its tiles, at its shares as made. Nothing is predicted beyond the cups read.",
	}
	if m.Field == record.RatingField {
		notes = append(notes, fmt.Sprintf("Ratings count as numbers with equal steps. "+
			"The model does not know that they end at %d and %d.", record.LeastRating, record.MostRating))
	}
	return notes
}

// model is what came of modelling one body, or all.
func (p *report) model(f *page.Flow, m *results.Measure, model results.Model) {
	f.Heading("On "+wording.BodyText(p.r, model.Body), 40)
	f.Para(body, wording.Sentence(wording.ModelText(p.r, model)))
	var lines []string
	for _, text := range wording.ModelTexts(p.r, m, model) {
		lines = append(lines, wording.Sentence(text))
	}
	f.Items(fine, lines)
	if model.Highest != nil {
		coefficients(f, model.Choice.Chosen)
	}
	attempts(f, model.Choice)
	p.charts(f, m, model)
}

// coefficients is the table of a model's terms.
func coefficients(f *page.Flow, m *mixmodel.Model) {
	var rows [][]string
	for _, t := range m.Terms {
		rows = append(rows, []string{t.Name, wording.StatisticText(t.Coef), "± " + wording.ErrorText(t.SE)})
	}
	f.Table(figures("term", "coefficient", "standard error"), rows)
}

// attempts are the models that were fitted, and why others were not.
func attempts(f *page.Flow, choice mixmodel.Choice) {
	var rows [][]string
	var refused []string
	for _, c := range choice.Candidates {
		if c.Model == nil {
			refused = append(refused, wording.Sentence(c.Refused))
			continue
		}
		name := string(c.Kind)
		if c.Model == choice.Chosen {
			name += " (chosen)"
		}
		m := c.Model
		rows = append(rows, []string{name, fmt.Sprint(len(m.Terms)), wording.ErrorText(m.LOO), wording.ErrorText(m.S),
			wording.RatioText(m.R2), wording.RatioText(m.AdjR2)})
	}
	if rows != nil {
		f.Table(figures("tried", "terms", "leave-one-out error", "standard deviation", "R²", "adjusted R²"), rows)
	}
	f.Items(fine, refused)
}

// figures are the columns of a table of figures behind a name.
func figures(name string, heads ...string) []page.Column {
	columns := []page.Column{{Head: name, Style: fine}}
	for _, head := range heads {
		columns = append(columns, page.Column{Head: head, Style: fine.To(page.Right)})
	}
	return columns
}
