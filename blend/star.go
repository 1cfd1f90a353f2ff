package blend

import (
	"math"

	"pourboard/blend/measure"
)

// starLimits is how many of the plan's limits a pour's own ± may come to before
// the pour card stars it: its share of the cup is then mostly guesswork.
const starLimits = 4

// StarBelow is the amount, in the pouring instrument's unit, below which a pour
// is starred: its own ± is more than starLimits times the plan's limit.
func (t *Test) StarBelow() float64 {
	return measure.Smallest(t.ownPourU(), starLimits*t.Plan.Kit.Worst)
}

// Starred reports whether a pour is too little for its instrument.
func (t *Test) Starred(p Pour) bool { return p.Steps > 0 && p.Measured < t.StarBelow() }

// ownPourU is the standard uncertainty of one pour by itself, in the pouring
// instrument's unit: of its reading, and of the one before on a scale.
func (t *Test) ownPourU() float64 {
	kit := t.Plan.Kit
	if t.OnScale() {
		return math.Sqrt2 * kit.Pour.Reading()
	}
	return kit.Pour.Reading()
}
