package mixmodel

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat/distuv"
)

// dictated is the leverage from which a reading counts as fitted whatever it
// is: leaving it out would leave a coefficient without a reading.
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

// Model is a model fitted to readings by least squares. Everything is in the
// units of the readings.
type Model struct {
	Kind  Kind
	Terms []Term
	N     int // readings
	DF    int // degrees of freedom of S: readings less terms
	// S is the residual standard deviation √(Σe²/DF); 0, and with it every
	// standard error, when the model fits the readings to the working precision.
	S float64
	// R2 is the share of the readings' scatter about their mean that the model
	// explains: 1 − Σe²/Σ(y − ȳ)². It is centred for Scheffé models also,
	// though they have no constant, since a constant lies in their span (the
	// shares add up to 1); uncentred values, as programs for regression
	// through the origin print them, are higher and say less. AdjR2 is
	// 1 − (Σe²/DF)/(Σ(y − ȳ)²/(N − 1)) and can be negative.
	R2, AdjR2 float64
	// PRESS is the sum of squares of the leave-one-out errors e/(1 − h), each
	// reading predicted from all others; LOO is their root mean square
	// √(PRESS/N). Of a cell read more than once the other readings stay in,
	// so that LOO is a little kinder to cells with repeats.
	PRESS, LOO float64
	// Fitted, Residuals (reading − fitted) and Leverages, one per reading.
	Fitted, Residuals, Leverages []float64
	Lack                         LackOfFit

	design    *Design
	exponents [][]int
	squares   leastSquares
	noise     float64 // precision, in the units of the readings
}

// settled is a figure, which readings of standard deviation 1 would give the
// standard error spread, or 0 where it is below the working precision.
func (m *Model) settled(x, spread float64) float64 {
	if math.Abs(x) <= m.noise*spread {
		return 0
	}
	return x
}

// LackOfFit splits the residual sum of squares into what repeats of one cell
// differ by (pure error) and what the means of the cells are off the model by
// (NIST/SEMATECH e-Handbook of Statistical Methods, 4.4.4.6). A large F, or a
// small P, says that the model misses more than scatter explains.
type LackOfFit struct {
	SumSquares, PureSumSquares float64
	DF, PureDF                 int
	F                          float64
	P                          float64 // probability of an F as large if the model were right
	Missing                    string  // why there are no F and P; empty when there are
}

// Fit fits one model to the readings y, one for each of the design's points.
// The error says in a sentence why the readings cannot be used or the cells
// cannot carry the model.
func (d *Design) Fit(kind Kind, y []float64) (*Model, error) {
	if err := d.checkReadings(y); err != nil {
		return nil, err
	}
	exponents, err := d.exponents(kind)
	if err != nil {
		return nil, err
	}
	n, p := len(y), len(exponents)
	if len(d.cells) < p {
		return nil, fmt.Errorf("the %s model needs readings of %d different cells or more; there are %d", kind, p, len(d.cells))
	}
	if n == p {
		return nil, fmt.Errorf("the %s model has %d terms and needs %d readings or more; there are %d", kind, p, p+1, n)
	}
	x := make([][]float64, n)
	for i, point := range d.Points {
		x[i] = row(exponents, point)
	}
	m := &Model{Kind: kind, N: n, DF: n - p, design: d, exponents: exponents, squares: factorise(x), noise: precision * magnitude(y)}
	if t := m.squares.dependent(); t >= 0 {
		return nil, m.dependence(t, x)
	}
	for i := range y {
		h := m.squares.leverage(i)
		if h >= dictated {
			return nil, fmt.Errorf("reading %d (%s) settles a term of the %s model alone and cannot be predicted from the others; read that cell twice", i+1, d.describe(d.Points[i]), kind)
		}
		m.Leverages = append(m.Leverages, h)
	}
	coefs, residuals := m.squares.solve(y)
	m.Residuals = residuals
	if m.noise >= magnitude(residuals) {
		clear(residuals)
	}
	m.judge(y)
	for t, coef := range coefs {
		unit := make([]float64, p)
		unit[t] = 1
		spread := m.squares.spread(unit)
		m.Terms = append(m.Terms, Term{termName(kind, d.Names, exponents[t]), m.settled(coef, spread), m.S * spread})
	}
	return m, nil
}

// judge computes all that follows from readings, residuals and leverages.
func (m *Model) judge(y []float64) {
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
	m.R2 = max(0, 1-left/total) // below 0 only by rounding: the mean is in the span
	m.AdjR2 = 1 - left/float64(m.DF)/(total/float64(m.N-1))
	m.Lack = m.lackOfFit(y)
}

func (m *Model) lackOfFit(y []float64) LackOfFit {
	cells := len(m.design.cells)
	means, count := make([]float64, cells), make([]float64, cells)
	for i, cell := range m.design.cellOf {
		count[cell]++
		means[cell] += (y[i] - means[cell]) / count[cell]
	}
	lack := LackOfFit{DF: cells - (m.N - m.DF), PureDF: m.N - cells}
	for i, cell := range m.design.cellOf {
		pure, off := y[i]-means[cell], means[cell]-m.Fitted[i]
		lack.PureSumSquares += pure * pure
		lack.SumSquares += off * off
	}
	switch {
	case lack.PureDF == 0:
		lack.Missing = "no cup was read more than once, so that lack of fit cannot be told from scatter"
	case lack.DF == 0:
		lack.Missing = "the model has as many terms as there are different cells, so that it goes through the mean of each"
	case lack.PureSumSquares <= float64(m.N)*m.noise*m.noise:
		lack.Missing = "the readings of each cup agree exactly, so that there is no scatter to judge the model by"
	default:
		lack.F = lack.SumSquares / float64(lack.DF) / (lack.PureSumSquares / float64(lack.PureDF))
		lack.P = distuv.F{D1: float64(lack.DF), D2: float64(lack.PureDF)}.Survival(lack.F)
	}
	return lack
}

// checkReadings refuses readings that no model can be fitted to.
func (d *Design) checkReadings(y []float64) error {
	if len(y) != len(d.Points) {
		return fmt.Errorf("there are %d readings for %d points", len(y), len(d.Points))
	}
	for i, v := range y {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("reading %d is %v and must be a number", i+1, v)
		}
		if math.Abs(v) > largest {
			return fmt.Errorf("reading %d is %v, too large to compute with", i+1, v)
		}
	}
	if len(y) < 2 {
		return errors.New("a model needs 2 readings or more; there is 1")
	}
	if slices.Max(y)-slices.Min(y) <= precision*max(magnitude(y), 1/largest) {
		return fmt.Errorf("all %d readings are %g: there is nothing to model", len(y), y[0])
	}
	return nil
}

// magnitude is the largest |v|.
func magnitude(values []float64) float64 {
	var largest float64
	for _, v := range values {
		largest = max(largest, math.Abs(v))
	}
	return largest
}

// dependence says why term t cannot be estimated from the rows x.
func (m *Model) dependence(t int, x [][]float64) error {
	name := termName(m.Kind, m.design.Names, m.exponents[t])
	if !slices.ContainsFunc(x, func(row []float64) bool { return row[t] != 0 }) {
		var factors []string
		for i, power := range m.exponents[t] {
			if power > 0 {
				factors = append(factors, m.design.Names[i])
			}
		}
		if len(factors) == 1 {
			return fmt.Errorf("the %s model cannot be fitted: no cup read has any %s", m.Kind, name)
		}
		last := len(factors) - 1
		return fmt.Errorf("the %s model cannot be fitted: no cup read has %s and %s together", m.Kind, strings.Join(factors[:last], ", "), factors[last])
	}
	return fmt.Errorf("the %s model cannot be fitted: in the cells read, %s follows from its other terms", m.Kind, name)
}

// describe is "Matte 0.5, Ash 0.5" for a message.
func (d *Design) describe(point []float64) string {
	var parts []string
	for i, v := range point {
		if d.Space == Percent {
			parts = append(parts, fmt.Sprintf("%s %.4g %%", d.Names[i], v))
		} else if v > 0 {
			parts = append(parts, fmt.Sprintf("%s %.4g", d.Names[i], v))
		}
	}
	return strings.Join(parts, ", ")
}
