package mixmodel

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat/distuv"
)

// dictated is the leverage from which a cup counts as fitted whatever it is:
// leaving it out would leave a coefficient without a reading.
const dictated = 1 - 1e-9

// largest magnitude of a reading: squares of residuals must stay finite.
const largest = 1e100

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
	// Fitted, Residuals (mean − fitted) and Leverages, one per cup.
	Fitted, Residuals, Leverages []float64
	Lack                         LackOfFit

	design    *Design
	exponents [][]int
	squares   leastSquares
	coefs     []float64 // of the terms, then of the factors between cups
	noise     float64   // precision, in the units of the readings
	student   float64   // studentT(DF)
}

// settled is a figure, which readings of standard deviation 1 would give the
// standard error spread, or 0 where it is below the working precision.
func (m *Model) settled(x, spread float64) float64 {
	if math.Abs(x) <= m.noise*spread {
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

// Fit fits one model. The error says in a sentence why the cups cannot carry
// the model.
func (d *Design) Fit(kind Kind) (*Model, error) {
	exponents, err := d.exponents(kind)
	if err != nil {
		return nil, err
	}
	n, terms := len(d.Cups), len(exponents)
	p := terms + len(d.terms)
	if d.kinds < terms {
		return nil, fmt.Errorf("the %s model needs %d different mixtures; %d were read", kind, terms, d.kinds)
	}
	if n <= p {
		return nil, fmt.Errorf("the %s model has %d terms and needs %d cups; %d were read", kind, p, p+1, n)
	}
	x, y := make([][]float64, n), make([]float64, n)
	for i, cup := range d.Cups {
		x[i] = append(row(exponents, cup.Point), cup.between...)
		y[i] = cup.Mean
	}
	m := &Model{
		Kind: kind, N: n, DF: n - p, design: d, exponents: exponents,
		squares: factorise(x), noise: precision * magnitude(y), student: studentT(n - p),
	}
	if t := m.squares.dependent(); t >= 0 {
		return nil, m.dependence(t, x)
	}
	for i := range y {
		h := m.squares.leverage(i)
		if h >= dictated {
			return nil, fmt.Errorf("the %s model cannot be fitted: cup %d alone fixes one of its terms (make that cup twice)", kind, d.Cups[i].Number)
		}
		m.Leverages = append(m.Leverages, h)
	}
	m.coefs, m.Residuals = m.squares.solve(y)
	if m.noise >= magnitude(m.Residuals) {
		clear(m.Residuals)
	}
	m.goodness(y)
	m.name()
	return m, nil
}

// goodness computes all that follows from readings, residuals and leverages.
func (m *Model) goodness(y []float64) {
	var mean, total, left float64
	for _, v := range y {
		mean += v / float64(m.N)
	}
	for i, e := range m.Residuals {
		total += (y[i] - mean) * (y[i] - mean)
		left += e * e
		out := e / (1 - m.Leverages[i])
		m.PRESS += out * out
		m.Fitted = append(m.Fitted, y[i]-e)
	}
	m.S = math.Sqrt(left / float64(m.DF))
	m.LOO = math.Sqrt(m.PRESS / float64(m.N))
	if total > 0 {
		m.R2 = max(0, 1-left/total) // below 0 only by rounding: the mean is in the span
		m.AdjR2 = 1 - left/float64(m.DF)/(total/float64(m.N-1))
	}
	m.Lack = m.lackOfFit(y)
}

// name gives the coefficients their names and errors.
func (m *Model) name() {
	d := m.design
	m.Offsets = slices.Clone(d.Offsets)
	for t, coef := range m.coefs {
		unit := make([]float64, len(m.coefs))
		unit[t] = 1
		spread := m.squares.spread(unit)
		coef, se := m.settled(coef, spread), m.S*spread
		if t < len(m.exponents) {
			m.Terms = append(m.Terms, Term{termName(m.Kind, d.Names, m.exponents[t]), coef, se})
			continue
		}
		term := d.terms[t-len(m.exponents)]
		factor := d.Factors[term.factor]
		m.Offsets = append(m.Offsets, Offset{
			Factor: factor.Name, Level: factor.Levels[term.level], Against: factor.Levels[term.against],
			Value: coef, SE: se, DF: m.DF, P: chance(coef, se, m.DF),
		})
	}
}

func (m *Model) lackOfFit(y []float64) LackOfFit {
	groups := m.design.repeats()
	means, count := make([]float64, m.N), make([]float64, m.N)
	different := 0
	for i, group := range groups {
		if count[group] == 0 {
			different++
		}
		count[group]++
		means[group] += (y[i] - means[group]) / count[group]
	}
	lack := LackOfFit{DF: different - (m.N - m.DF), PureDF: m.N - different}
	for i, group := range groups {
		pure, off := y[i]-means[group], means[group]-m.Fitted[i]
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
	return lack
}

// magnitude is the largest |v|.
func magnitude(values []float64) float64 {
	var largest float64
	for _, v := range values {
		largest = max(largest, math.Abs(v))
	}
	return largest
}

// dependence says why column t cannot be estimated from the rows x.
func (m *Model) dependence(t int, x [][]float64) error {
	d := m.design
	if t >= len(m.exponents) {
		return fmt.Errorf("the %s model cannot be fitted: %s goes with the mixtures, so their effects are mixed up",
			m.Kind, d.Factors[d.terms[t-len(m.exponents)].factor].Name)
	}
	name := termName(m.Kind, d.Names, m.exponents[t])
	if slices.ContainsFunc(x, func(row []float64) bool { return row[t] != 0 }) {
		return fmt.Errorf("the %s model cannot be fitted: in the cups read, %s follows from its other terms", m.Kind, name)
	}
	var factors []string
	for i, power := range m.exponents[t] {
		if power > 0 {
			factors = append(factors, d.Names[i])
		}
	}
	if len(factors) == 1 {
		return fmt.Errorf("the %s model cannot be fitted: no cup read has any %s", m.Kind, name)
	}
	last := len(factors) - 1
	return fmt.Errorf("the %s model cannot be fitted: no cup read has %s and %s together", m.Kind, strings.Join(factors[:last], ", "), factors[last])
}
