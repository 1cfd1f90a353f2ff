package mixmodel

import (
	"math"

	"gonum.org/v1/gonum/floats"
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
		all = append(all, Check{cup, m.predict(cup.Point, cup.between)})
	}
	return all
}

// predict predicts the mean of a mixture with values of the columns between cups,
// nil for those of no factor.
func (m *Model) predict(point, between []float64) Prediction {
	full := make([]float64, len(m.coefs))
	copy(full, row(m.terms, point))
	copy(full[len(m.terms):], between)
	spread := m.squares.spread(full)
	se := m.S * spread
	return Prediction{
		Mean: settled(floats.Dot(m.coefs, full), m.noise, spread), SE: se,
		Limit: limit(se, m.DF), NewLimit: limit(math.Hypot(se, m.S), m.DF),
		Inside: m.design.hull.contains(point),
	}
}

// Best is the best mixture of a fine grid within the cups that were read.
type Best struct {
	Point []float64 // shares or percent, as the design's points
	Prediction
}

// Highest is where the model predicts most. Of equal places it is always the
// same one.
func (m *Model) Highest() Best { return m.extreme(1) }

// Lowest is where the model predicts least.
func (m *Model) Lowest() Best { return m.extreme(-1) }

// extreme is the point of greatest sign × mean among the cups and the points of
// the grid between them.
func (m *Model) extreme(sign float64) Best {
	var best []float64
	most := math.Inf(-1)
	for _, point := range m.design.hull.grid(m.design.Space) {
		// Where all is level, rounding must not choose.
		if v := sign * floats.Dot(m.coefs[:len(m.terms)], row(m.terms, point)); best == nil || v > most+1e-9*math.Abs(most) {
			best, most = point, v
		}
	}
	return Best{best, m.predict(best, nil)}
}
