package blend

import "pourboard/blend/measure"

// limitsTooSmall is how many of the plan's limits a pour's own ± may exceed
// before the pour card marks it.
const limitsTooSmall = 4

// TooSmall reports whether the instrument is too coarse for a pour: whether
// its own ± (2u of one reading) is more than four times the plan's limit.
func (t *Test) TooSmall(p Pour) bool {
	return p.Steps > 0 && measure.Coverage*t.Plan.Kit.Pour.Reading() > limitsTooSmall*t.Plan.Kit.Worst*p.Measured
}

// FinerPour is the coarsest convenient instrument that measures a pour to the
// plan's limit.
func (t *Test) FinerPour(p Pour) measure.Step {
	per := measure.Coverage * measure.Step{Size: 1}.Reading() // ± of a step of 1
	return measure.Step{Size: measure.ScaleBelow(t.Plan.Kit.Worst * p.Measured / per), Unit: t.Plan.Kit.Pour.Unit}
}
