package blend

import (
	"pourboard/blend/measure"
)

// starLimits is how many of the plan's limits a pour's own ± may come to before
// the pour card stars it: its share of the cup is then mostly guesswork.
const starLimits = 4

// StarBelow is the amount, in the pouring instrument's unit, below which a pour
// is starred: its own ± is more than starLimits times the plan's limit.
func (t *Test) StarBelow() float64 {
	return measure.Smallest(t.Plan.Kit.OnePourU(), starLimits*t.Plan.Kit.Worst)
}

// Starred reports whether a pour is too little for its instrument.
func (t *Test) Starred(p Pour) bool { return p.Steps > 0 && p.Got.Shown(t.Plan.Kit) < t.StarBelow() }

// FinerPour is the coarsest convenient syringe, in mL, that measures a pour to
// the plan's limit.
func (t *Test) FinerPour(p Pour) measure.Step {
	per := measure.Coverage * measure.Step{Size: 1}.Reading() // ± of a step of 1
	return measure.Step{Size: measure.ScaleBelow(t.Plan.Kit.Worst * p.Got.ML / per), Unit: measure.Millilitre}
}
