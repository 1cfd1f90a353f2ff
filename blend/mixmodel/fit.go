package mixmodel

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat/distuv"
)

// dictated is the leverage from which a cup counts as fitted whatever it is:
// leaving it out would leave a coefficient without a reading.
const dictated = 1 - 1e-9

// precision is the working precision of a fit as a fraction of the largest
// reading. Readings, shares and the solver round to some 1e-16 each, which all
// terms of the largest designs together bring to 1e-14 or so; nobody reads
// twelve digits off a tile. What is below it is arithmetic and no scatter, and
// counts as 0: as digits it would be printed as if it meant something.
const precision = 1e-12

// Term is one term of a model with its coefficient, in units of the readings
// (in percent: per percent to the term's power).
type Term struct {
	Name     string // "Wood ash", "Wood ash×Soda blue", "constant"
	Coef, SE float64
}

// Model is a model fitted to the means of cups by least squares, each cup
// counting once. Everything is in the units of the readings.
type Model struct {
	Kind  Kind
	Terms []Term // of the mixture
	// Offsets of the factors: those within cups as in the design, then those
	// between cups, which are terms of this model.
	Offsets []Offset
	N       int // cups
	DF      int // degrees of freedom of S: cups less terms, those of factors between cups included
	// S is the residual standard deviation √(Σe²/DF) of cup means; 0, and with
	// it every standard error, when the model fits them to the working precision.
	S float64
	// R2 is the share of the cups' scatter about their mean that the model
	// explains: 1 − Σe²/Σ(y − ȳ)². It is centred for Scheffé models also,
	// though they have no constant, since a constant lies in their span (the
	// shares add up to 1); uncentred values, as programs for regression
	// through the origin print them, are higher and say less. AdjR2 is
	// 1 − (Σe²/DF)/(Σ(y − ȳ)²/(N − 1)) and can be negative.
	R2, AdjR2 float64
	// PRESS is the sum of squares of the leave-one-out errors e/(1 − h), each
	// cup predicted from all others; LOO is their root mean square √(PRESS/N).
	// Offsets within cups are not estimated anew for it.
	PRESS, LOO float64
	Lack       LackOfFit

	design  *Design
	terms   []term
	squares *leastSquares
	coefs   []float64 // of the terms, then of the factors between cups
	noise   float64   // precision, in the units of the readings
}

// settled is a figure, or 0 where it is below the working precision: noise in the
// readings times the standard error spread that readings of standard deviation 1 give it.
func settled(x, noise, spread float64) float64 {
	if math.Abs(x) <= noise*spread {
		return 0
	}
	return x
}

// Gap says why a lack of fit cannot be told.
type Gap int

// The reasons.
const (
	NoGap        Gap = iota
	NoRepeats        // no cup was made twice
	RepeatsApart     // cups made alike differ in firing or block
	Saturated        // the model has as many terms as there are different mixtures
	ExactRepeats     // repeated cups agree exactly
)

// LackOfFit splits the residual sum of squares of cup means into what repeated
// cups differ by (pure error) and what the means of mixtures are off the model
// by (NIST/SEMATECH e-Handbook of Statistical Methods, 4.4.4.6). A large F, or a
// small P, says that the model misses more than scatter explains. Tiles of one
// cup are no repeats.
type LackOfFit struct {
	SumSquares, PureSumSquares float64
	DF, PureDF                 int
	F                          float64
	P                          float64 // probability of an F as large if the model were right
	Gap                        Gap     // why there are no F and P
}

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
	var means []float64
	for _, cup := range d.Cups {
		means = append(means, cup.Mean)
	}
	// Models that predict equally well differ by rounding, which must not choose.
	rounding := 1e-9 * (floats.Max(means) - floats.Min(means))
	var choice Choice
	for _, kind := range Kinds(d.Space, len(d.Names)) {
		model, err := d.Fit(kind)
		candidate := Candidate{Kind: kind, Model: model}
		if err != nil {
			candidate.Refused = err.Error()
		} else if choice.Chosen == nil || model.LOO < choice.Chosen.LOO-rounding {
			choice.Chosen = model
		}
		choice.Candidates = append(choice.Candidates, candidate)
	}
	return choice
}

// Fit fits one of the Kinds of the design's space. The error says in a sentence
// why the cups cannot carry the model.
func (d *Design) Fit(kind Kind) (*Model, error) {
	terms := terms(d.Space, len(d.Names), kind)
	n, p := len(d.Cups), len(terms)+len(d.between)
	if d.kinds < len(terms) {
		return nil, fmt.Errorf("the %s model needs %d different mixtures; %d were read", kind, len(terms), d.kinds)
	}
	if n <= p {
		return nil, fmt.Errorf("the %s model has %d terms and needs %d cups; %d were read", kind, p, p+1, n)
	}
	x, y := make([][]float64, n), make([]float64, n)
	for i, cup := range d.Cups {
		x[i] = append(row(terms, cup.Point), cup.between...)
		y[i] = cup.Mean
	}
	refused := func(why string, a ...any) error {
		return fmt.Errorf("the %s model cannot be fitted: "+why, append([]any{kind}, a...)...)
	}
	m := &Model{Kind: kind, N: n, DF: n - p, design: d, terms: terms, squares: factorise(rows(x))}
	m.noise = precision * floats.Norm(y, math.Inf(1))
	if i := m.squares.dependent(); i >= len(terms) {
		factor := d.Factors[d.between[i-len(terms)].factor].Name
		return nil, refused("%s goes with the mixtures, so their effects are mixed up", factor)
	} else if i >= 0 {
		return nil, refused("the cups read do not show %s apart from its other terms", terms[i].name(kind, d.Names))
	}
	leverages := make([]float64, n)
	for i := range x {
		spread := m.squares.spread(x[i])
		if leverages[i] = spread * spread; leverages[i] >= dictated {
			return nil, refused("cup %d alone fixes one of its terms (make that cup twice)", d.Cups[i].Number)
		}
	}
	coefs, residuals := m.squares.solve(y)
	m.coefs = coefs
	if floats.Norm(residuals, math.Inf(1)) <= m.noise {
		clear(residuals)
	}
	m.goodness(y, residuals, leverages)
	m.lackOfFit(y, residuals)
	m.name()
	return m, nil
}

// goodness computes S, R² and the leave-one-out error.
func (m *Model) goodness(y, residuals, leverages []float64) {
	_, total := about(y)
	left := floats.Dot(residuals, residuals)
	for i, e := range residuals {
		out := e / (1 - leverages[i])
		m.PRESS += out * out
	}
	m.S = math.Sqrt(left / float64(m.DF))
	m.LOO = math.Sqrt(m.PRESS / float64(m.N))
	if total > 0 {
		m.R2 = max(0, 1-left/total) // below 0 only by rounding: the mean is in the span
		m.AdjR2 = 1 - left/float64(m.DF)/(total/float64(m.N-1))
	}
}

// name gives the coefficients their names and errors.
func (m *Model) name() {
	d := m.design
	m.Offsets = slices.Clone(d.Offsets)
	for i, coef := range m.coefs {
		spread := m.squares.spread(unit(len(m.coefs), i))
		coef, se := settled(coef, m.noise, spread), m.S*spread
		if i < len(m.terms) {
			m.Terms = append(m.Terms, Term{m.terms[i].name(m.Kind, d.Names), coef, se})
		} else {
			m.Offsets = append(m.Offsets, d.offset(d.between[i-len(m.terms)], coef, se, m.DF))
		}
	}
}

func (m *Model) lackOfFit(y, residuals []float64) {
	groups := m.design.repeats()
	means := map[int][]float64{}
	for i, group := range groups {
		means[group] = append(means[group], y[i])
	}
	lack := LackOfFit{DF: len(means) - (m.N - m.DF), PureDF: m.N - len(means)}
	for i, group := range groups {
		mean, _ := about(means[group])
		pure, off := y[i]-mean, mean-(y[i]-residuals[i])
		lack.PureSumSquares += pure * pure
		lack.SumSquares += off * off
	}
	switch {
	case lack.PureDF == 0 && m.design.kinds < m.N:
		lack.Gap = RepeatsApart
	case lack.PureDF == 0:
		lack.Gap = NoRepeats
	case lack.DF == 0:
		lack.Gap = Saturated
	case lack.PureSumSquares <= float64(m.N)*m.noise*m.noise:
		lack.Gap = ExactRepeats
	default:
		lack.F = lack.SumSquares / float64(lack.DF) / (lack.PureSumSquares / float64(lack.PureDF))
		lack.P = distuv.F{D1: float64(lack.DF), D2: float64(lack.PureDF)}.Survival(lack.F)
	}
	m.Lack = lack
}
