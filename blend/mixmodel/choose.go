package mixmodel

// Candidate is a model that was tried: fitted, or refused in a sentence.
type Candidate struct {
	Kind    Kind
	Model   *Model // nil when refused
	Refused string
}

// Choice is what came of trying every model of a space.
type Choice struct {
	Candidates []Candidate // the simplest first
	// Chosen is the candidate of least leave-one-out error, nil when the cups
	// carry none. When it is the mean, no model in the mixture predicts a
	// cup left out better than the mean of the others does.
	Chosen *Model
}

// Choose fits every model of the design's space and takes the one of least
// leave-one-out error (Model.LOO); of models that are equal in it, the simplest.
func (d *Design) Choose() Choice {
	low, high := d.Cups[0].Mean, d.Cups[0].Mean
	for _, cup := range d.Cups {
		low, high = min(low, cup.Mean), max(high, cup.Mean)
	}
	// Models that predict equally well differ by rounding, which must not choose.
	rounding := 1e-9 * (high - low)
	var choice Choice
	for _, kind := range Kinds(d.Space, len(d.Names)) {
		model, err := d.Fit(kind)
		if err != nil {
			choice.Candidates = append(choice.Candidates, Candidate{Kind: kind, Refused: err.Error()})
			continue
		}
		choice.Candidates = append(choice.Candidates, Candidate{Kind: kind, Model: model})
		if choice.Chosen == nil || model.LOO < choice.Chosen.LOO-rounding {
			choice.Chosen = model
		}
	}
	return choice
}
