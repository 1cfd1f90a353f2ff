package mixmodel

import "slices"

// Candidate is a model that was tried: fitted, or refused in a sentence.
type Candidate struct {
	Kind    Kind
	Model   *Model // nil when refused
	Refused string
}

// Choice is what came of trying every model of a space.
type Choice struct {
	Candidates []Candidate // the simplest first
	// Chosen is the candidate of least leave-one-out error, nil when the cells
	// carry none. When it is the mean, no model in the mixture predicts a
	// reading left out better than the mean of the others does.
	Chosen *Model
}

// Choose fits every model of the design's space to the readings and takes the
// one of least leave-one-out error (Model.LOO); of models that are equal in
// it, the simplest. The error is about the readings, not about a model.
func (d *Design) Choose(y []float64) (Choice, error) {
	if err := d.checkReadings(y); err != nil {
		return Choice{}, err
	}
	// Models that predict equally well differ by rounding, which must not choose.
	rounding := 1e-9 * (slices.Max(y) - slices.Min(y))
	var choice Choice
	for _, kind := range Kinds(d.Space) {
		model, err := d.Fit(kind, y)
		if err != nil {
			choice.Candidates = append(choice.Candidates, Candidate{Kind: kind, Refused: err.Error()})
			continue
		}
		choice.Candidates = append(choice.Candidates, Candidate{Kind: kind, Model: model})
		if choice.Chosen == nil || model.LOO < choice.Chosen.LOO-rounding {
			choice.Chosen = model
		}
	}
	return choice, nil
}
