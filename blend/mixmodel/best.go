package mixmodel

import (
	"errors"
	"math"
)

// Coverage is the factor k of ± k·s.e. in Prediction.PlusMinus. With many
// degrees of freedom ± 2 s.e. holds the true mean in about 95 of 100 cases
// (JCGM 100:2008, 6.3.3), with few of them in fewer.
const Coverage = 2

// Prediction is the mean that a model predicts at a point, in the units of
// the readings.
type Prediction struct {
	Mean float64
	// SE is the standard error of the mean, not the scatter of one tile, if
	// the form of the model is right.
	SE float64
	// Inside says whether the point lies within the cells that were read
	// (their convex hull); outside the prediction is extrapolated.
	Inside bool
}

// PlusMinus is Coverage standard errors.
func (p Prediction) PlusMinus() float64 { return Coverage * p.SE }

// Predict predicts the mean at a point of the model's space.
func (m *Model) Predict(point []float64) (Prediction, error) {
	point, err := m.design.checked(point)
	if err != nil {
		return Prediction{}, err
	}
	return m.predict(point), nil
}

func (m *Model) predict(point []float64) Prediction {
	spread := m.squares.spread(row(m.exponents, point))
	return Prediction{m.settled(m.mean(point), spread), m.S * spread, m.design.region.contains(point)}
}

// mean is the prediction as it is computed, with its rounding.
func (m *Model) mean(point []float64) float64 {
	var sum float64
	for t, powers := range m.exponents {
		sum += m.Terms[t].Coef * product(powers, point)
	}
	return sum
}

// Best is the best mixture within the cells that were read, corners and
// borders included: their convex hull.
type Best struct {
	Point []float64 // shares or percent, as the design's points
	Prediction
}

// Highest is where the model predicts most. Of equal places it is always the
// same one.
func (m *Model) Highest() (Best, error) { return m.extreme(1) }

// Lowest is where the model predicts least.
func (m *Model) Lowest() (Best, error) { return m.extreme(-1) }

// mostMoves is how far the search goes from one point of the grid. A hundred or
// two lead to a top; along a ridge that lies across all its directions it would
// creep for seconds, gaining nothing that is printed.
const mostMoves = 2000

// extreme finds the point of greatest sign × mean in the region: on a grid over
// each of its pieces the points that no neighbour exceeds, then from each a
// search that moves weight from one corner of the piece to another in ever
// smaller steps. Such moves span all directions that stay in a simplex, so
// the search ends at a top.
func (m *Model) extreme(sign float64) (Best, error) {
	if m.Kind == Mean {
		return Best{}, errors.New("the mean predicts the same for every mixture, so none is best")
	}
	best, bestValue := make([]float64, len(m.design.Names)), math.Inf(-1)
	divisions := m.design.region.divisions()
	var grid [][]float64 // of weights: all pieces have the same number of corners
	for _, piece := range m.design.region.pieces {
		if grid == nil {
			grid = lattice(len(piece), divisions)
		}
		c := climber{model: m, sign: sign, piece: piece, weights: make([]float64, len(piece)), point: make([]float64, len(best))}
		keep := func() {
			if c.reached > bestValue {
				bestValue = c.reached
				blendInto(best, piece, c.weights)
			}
		}
		for _, weights := range grid {
			copy(c.weights, weights)
			c.reached = c.value()
			keep() // where all is level, rounding can let each point seem lower than the next
			step := 1 / float64(divisions)
			if c.climb(step) {
				continue // to a point of the grid that has its own turn
			}
			moves := 0
			for step /= 2; step > 1e-10 && moves < mostMoves; moves++ {
				if !c.climb(step) {
					step /= 2
				}
			}
			keep()
		}
	}
	return Best{best, m.predict(best)}, nil
}

// climber stands at a place of one piece of the region.
type climber struct {
	model   *Model
	sign    float64
	piece   [][]float64
	weights []float64 // of the piece's corners
	point   []float64 // room for the place in the model's space
	reached float64   // sign × mean at the place
}

// value is sign × mean at the climber's weights.
func (c *climber) value() float64 {
	blendInto(c.point, c.piece, c.weights)
	return c.sign * c.model.mean(c.point)
}

// climb goes to the first neighbour that lies higher, up to step of one
// corner's weight moved to another's, and reports whether there is one.
func (c *climber) climb(step float64) bool {
	w := c.weights
	for from := range w {
		by := min(step, w[from])
		if by <= 0 {
			continue
		}
		for to := range w {
			if to == from {
				continue
			}
			was := [2]float64{w[from], w[to]}
			w[from] -= by
			w[to] += by
			if v := c.value(); v > c.reached {
				c.reached = v
				return true
			}
			w[from], w[to] = was[0], was[1]
		}
	}
	return false
}

// divisions of an edge of a piece on the search grid: in all some hundreds of
// points, however many pieces the region has.
func (g region) divisions() int {
	dims := len(g.axes)
	if dims == 0 {
		return 1
	}
	whole := []float64{60, 30, 14}[dims-1]
	return int(max(4, whole/math.Pow(float64(len(g.pieces)), 1/float64(dims))))
}
