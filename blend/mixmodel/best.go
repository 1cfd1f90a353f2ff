package mixmodel

import (
	"errors"
	"math"
)

// Prediction is the mean that a model predicts of a mixture, over all bodies
// and other factors alike, in the units of the readings.
type Prediction struct {
	Mean float64
	// SE is the standard error of the mean, if the form of the model is right.
	SE float64
	// Limit is the 95 % limit of the mean: Student's t for the model's degrees
	// of freedom, times SE. NewLimit is that of the mean of the tiles of one more
	// cup, whose own scatter S comes on top: t·√(SE² + S²).
	Limit, NewLimit float64
	// Inside says whether the mixture lies within the cups that were read
	// (their convex hull); outside the prediction is extrapolated.
	Inside bool
}

// Check is a cup that was kept out of the fit, held against its prediction.
type Check struct {
	Cup
	Prediction // with the effects of the cup's own shelf, firing and so on
}

// Missed reports whether the cup lies farther off than the limit of a new cup.
func (c Check) Missed() bool { return math.Abs(c.Cup.Mean-c.Prediction.Mean) > c.NewLimit }

// Checks holds the cups that were kept out against what the model predicts.
func (m *Model) Checks() []Check {
	var all []Check
	for _, cup := range m.design.Checks {
		c := Check{cup, m.predict(cup.Point, cup.between)}
		c.Inside = m.design.ends.contains(cup.Point)
		all = append(all, c)
	}
	return all
}

// predict predicts the mean of a mixture with values of the columns between cups,
// without telling whether it lies inside.
func (m *Model) predict(point, between []float64) Prediction {
	full := make([]float64, len(m.coefs))
	copy(full, row(m.exponents, point))
	copy(full[len(m.exponents):], between)
	var mean float64
	for t, coef := range m.coefs {
		mean += coef * full[t]
	}
	spread := m.squares.spread(full)
	se := m.S * spread
	return Prediction{Mean: m.settled(mean, spread), SE: se, Limit: m.student * se, NewLimit: m.student * math.Hypot(se, m.S)}
}

// Best is the best mixture of a fine grid within the cups that were read.
type Best struct {
	Point []float64 // shares or percent, as the design's points
	Prediction
}

// Highest is where the model predicts most. Of equal places it is always the
// same one.
func (m *Model) Highest() (Best, error) { return m.extreme(1) }

// Lowest is where the model predicts least.
func (m *Model) Lowest() (Best, error) { return m.extreme(-1) }

// extreme is the point of greatest sign × mean among the cups and the points of
// the grid between them.
func (m *Model) extreme(sign float64) (Best, error) {
	if m.Kind == Mean {
		return Best{}, errors.New("the mean is the same for every mixture, so none is best")
	}
	var best []float64
	most := math.Inf(-1)
	for _, point := range m.design.ends.grid(m.design.Space) {
		var mean float64
		for t, powers := range m.exponents {
			mean += m.coefs[t] * product(powers, point)
		}
		// Where all is level, rounding must not choose.
		if v := sign * mean; best == nil || v > most+1e-9*math.Abs(most) {
			best, most = point, v
		}
	}
	p := m.predict(best, nil)
	p.Inside = true
	return Best{best, p}, nil
}
