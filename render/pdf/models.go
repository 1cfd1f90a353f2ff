package pdf

import (
	"fmt"

	"pourboard/blend/mixmodel"
	"pourboard/blend/record"
	"pourboard/blend/results"
	"pourboard/render/wording"
)

// models says which models were tried on a measure, what the chosen ones are,
// and what they predict.
func (p *report) models(f *flow, m *results.Measure) {
	f.need(40)
	f.subheading("Models")
	f.doc.bookmark(1, m.Head+": models")
	f.items("–", p.modelNotes(m), regular(deskPt))
	for _, model := range m.Models {
		p.model(f, m, model)
	}
}

// modelNotes say how the figures of models are to be read.
func (p *report) modelNotes(m *results.Measure) []string {
	notes := []string{
		"Of the models that the cups can carry, the one is chosen that best predicts a cup left out, from all others: the leave-one-out error is how far off it is (root mean square).",
		"R² and adjusted R² are about the mean of the readings (centred), for blends as well.",
		"± of a prediction is the 95 % limit of the mean (Student's t), if the form of the model is right; a new cup scatters more.",
		"Each cup counts once, by the mean of its tiles, at what it was made of. Nothing is predicted beyond the cups that were read.",
	}
	if m.Field == record.RatingField {
		notes = append(notes, fmt.Sprintf("Ratings are taken for numbers, as if all steps were of one size; the model does not know that they end at %d and %d.",
			record.LeastRating, record.MostRating))
	}
	return notes
}

// model is what came of modelling one body, or all.
func (p *report) model(f *flow, m *results.Measure, model results.Model) {
	const textMM = 112 // of a usual model
	charts, drawn := p.chartPlan(f, model)
	if drawn && charts.abreast {
		f.need(min(f.whole(), textMM+charts.needMM()))
	} else {
		f.need(60)
	}
	title := fmt.Sprintf("%s on %s: model", m.Head, wording.BodyText(p.r, model.Body))
	f.subheading(title)
	f.para(sentence(wording.ModelText(p.r, model)), regular(benchPt))
	if model.Design != nil {
		f.items("–", wording.DesignTexts(model.Design), regular(benchPt))
	}
	if model.Choice.Chosen != nil {
		f.items("–", wording.OffsetTexts(model.Choice.Chosen), regular(benchPt))
	}
	for _, c := range model.Checks {
		f.para(sentence(wording.CheckText(m, c)), regular(benchPt))
	}
	if model.Highest != nil {
		facts := []fact{{"Highest", wording.BestText(p.r, model.Highest)}}
		if model.Lowest != nil {
			facts = append(facts, fact{"Lowest", wording.BestText(p.r, model.Lowest)})
		}
		f.facts(facts)
		if lack := wording.LackText(model.Choice.Chosen); lack != "" {
			f.para(sentence(lack), regular(benchPt))
		}
		terms := coefficients(model.Choice.Chosen)
		high := float64(len(terms.rows)+1) * (regular(terms.pt).lineMM() + 2*terms.padMM + 0.5)
		f.need(min(high, f.whole())) // in one piece
		f.table(terms)
	}
	tried(f, model.Choice)
	if drawn {
		p.charts(f, m, model, charts)
	}
}

// coefficients is the table of a model's terms.
func coefficients(m *mixmodel.Model) table {
	t := table{pt: 10, padMM: 0.5, columns: []column{
		{title: "term"}, {title: "coefficient", align: right, whole: true}, {title: "standard error", align: right, whole: true},
	}}
	for _, term := range m.Terms {
		t.rows = append(t.rows, row{cells: []cell{words(term.Name), words(wording.StatisticText(term.Coef)), words("± " + wording.ErrorText(term.SE))}})
	}
	return t
}

// tried are the models that were fitted, side by side, and why others were not.
func tried(f *flow, choice mixmodel.Choice) {
	t := table{pt: 10, padMM: 0.5, columns: []column{
		{title: "tried"},
		{title: "terms", align: right, whole: true},
		{title: "leave-one-out error", align: right, whole: true},
		{title: "standard deviation", align: right, whole: true},
		{title: "R²", align: right, whole: true},
		{title: "adjusted R²", align: right, whole: true},
	}}
	var refused []string
	for _, c := range choice.Candidates {
		if c.Model == nil {
			refused = append(refused, sentence(c.Refused))
			continue
		}
		name := string(c.Kind)
		if c.Model == choice.Chosen {
			name += " (chosen)"
		}
		t.rows = append(t.rows, row{bold: c.Model == choice.Chosen, cells: []cell{
			words(name), words(fmt.Sprint(len(c.Model.Terms))), words(wording.ErrorText(c.Model.LOO)), words(wording.ErrorText(c.Model.S)),
			words(wording.RatioText(c.Model.R2)), words(wording.RatioText(c.Model.AdjR2)),
		}})
	}
	if len(t.rows) > 0 {
		row := regular(t.pt).lineMM() + 2*t.padMM + 0.5
		refusedMM := f.itemsMM("–", refused, regular(benchPt))
		f.need(min(f.whole(), float64(len(t.rows)+2)*row+2+refusedMM)) // in one piece, and its head of two lines
		f.table(t)
	}
	if len(refused) > 0 {
		f.items("–", refused, regular(benchPt))
	}
}
