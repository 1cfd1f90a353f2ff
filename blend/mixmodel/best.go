package mixmodel

import (
	"errors"
	"fmt"
	"math"
	"slices"
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
	return Prediction{m.mean(point), m.se(point), m.design.region.contains(point)}
}

func (m *Model) mean(point []float64) float64 {
	var sum float64
	for t, v := range row(m.exponents, point) {
		sum += m.Terms[t].Coef * v
	}
	return sum
}

func (m *Model) se(point []float64) float64 {
	return m.S * m.squares.spread(row(m.exponents, point))
}

// Best is the best mixture within the cells that were read, corners and
// borders included: their convex hull.
type Best struct {
	Point []float64 // shares or percent, as the design's points
	Prediction
}

// Highest is where the model predicts most. Of equal places it is always the
// same one.
func (m *Model) Highest() (Best, error) { return m.extreme(m.mean) }

// Lowest is where the model predicts least.
func (m *Model) Lowest() (Best, error) {
	return m.extreme(func(point []float64) float64 { return -m.mean(point) })
}

// NearestTo is where the prediction comes nearest to a target. Where a whole
// line of mixtures reaches it, the one of least standard error, as far as the
// search grid tells.
func (m *Model) NearestTo(target float64) (Best, error) {
	if math.IsNaN(target) || math.IsInf(target, 0) {
		return Best{}, fmt.Errorf("the target is %v and must be a number", target)
	}
	low, err := m.Lowest()
	if err != nil {
		return Best{}, err
	}
	high, err := m.Highest()
	switch {
	case err != nil:
		return Best{}, err
	case target <= low.Mean:
		return low, nil
	case target >= high.Mean:
		return high, nil
	}
	best := m.best(m.crossing(low.Point, high.Point, target))
	divisions := m.design.region.divisions()
	for _, piece := range m.design.region.pieces {
		for _, weights := range lattice(len(piece), divisions) {
			here := blend(piece, weights)
			if m.mean(here) > target {
				continue
			}
			for _, next := range neighbours(weights, 1/float64(divisions)) {
				there := blend(piece, next)
				if m.mean(there) < target {
					continue
				}
				if found := m.best(m.crossing(here, there, target)); found.SE < best.SE {
					best = found
				}
			}
		}
	}
	return best, nil
}

func (m *Model) best(point []float64) Best { return Best{point, m.predict(point)} }

// crossing is the point between one that predicts the target or less and one
// that predicts it or more where the target is reached, by bisection.
func (m *Model) crossing(below, above []float64, target float64) []float64 {
	ends := [][]float64{below, above}
	low, high := 0.0, 1.0
	for {
		middle := (low + high) / 2
		point := blend(ends, []float64{1 - middle, middle})
		if middle == low || middle == high {
			return point
		}
		if m.mean(point) < target {
			low = middle
		} else {
			high = middle
		}
	}
}

// extreme finds the point of greatest value in the region: on a grid over
// each of its pieces the points that no neighbour exceeds, then from each a
// search that moves weight from one corner of the piece to another in ever
// smaller steps. Such moves span all directions that stay in a simplex, so
// the search ends at a top.
func (m *Model) extreme(value func(point []float64) float64) (Best, error) {
	if m.Kind == Mean {
		return Best{}, errors.New("the mean predicts the same for every mixture, so none is best")
	}
	var best []float64
	bestValue := math.Inf(-1)
	divisions := m.design.region.divisions()
	for _, piece := range m.design.region.pieces {
		step := 1 / float64(divisions)
		// climb goes from weights to a neighbour that exceeds them, if any does.
		climb := func(weights []float64, from, step float64) (to []float64, reached float64) {
			for _, next := range neighbours(weights, step) {
				if v := value(blend(piece, next)); v > from {
					return next, v
				}
			}
			return nil, from
		}
		for _, at := range lattice(len(piece), divisions) {
			reached := value(blend(piece, at))
			if next, _ := climb(at, reached, step); next != nil {
				continue
			}
			for step := step / 2; step > 1e-10; {
				next, v := climb(at, reached, step)
				if next == nil {
					step /= 2
					continue
				}
				at, reached = next, v
			}
			if reached > bestValue {
				best, bestValue = blend(piece, at), reached
			}
		}
	}
	return m.best(best), nil
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

// lattice lists the weights of a simplex lattice, in a fixed order.
func lattice(corners, divisions int) [][]float64 {
	var all [][]float64
	for _, parts := range products(corners, divisions, divisions) {
		weights := make([]float64, corners)
		for i, n := range parts {
			weights[i] = float64(n) / float64(divisions)
		}
		all = append(all, weights)
	}
	return all
}

// neighbours are the weights with up to step of one corner's weight moved to
// another's.
func neighbours(weights []float64, step float64) [][]float64 {
	var all [][]float64
	for from, w := range weights {
		for to := range weights {
			if by := min(step, w); from != to && by > 0 {
				next := slices.Clone(weights)
				next[from] -= by
				next[to] += by
				all = append(all, next)
			}
		}
	}
	return all
}

// blend is the weighted mean of points.
func blend(points [][]float64, weights []float64) []float64 {
	mix := make([]float64, len(points[0]))
	for k, w := range weights {
		for i, v := range points[k] {
			mix[i] += w * v
		}
	}
	return mix
}
