package blend

import (
	"math"

	"pourboard/blend/measure"
)

// strayPart is by how much of what was asked an end or a colourant may be off,
// however large its ±, before its cup is labelled as made.
const strayPart = 0.05

// noiseOff is the difference in percentage points that binary arithmetic alone can make.
const noiseOff = 1e-9

// tenths are percentages with one decimal.
var tenths = measure.Step{Size: 0.1}

// Hundred returns shares as percentages with one decimal. Shares that sum to 1
// come to 100 by largest remainder; others are rounded each by itself.
func Hundred(shares []float64) []float64 {
	percents := make([]float64, len(shares))
	for i, x := range shares {
		percents[i] = 100 * x
	}
	if rounded := toHundred(percents, tenths); rounded != nil {
		return rounded
	}
	for i, x := range percents {
		percents[i] = tenths.Rounded(x)
	}
	return percents
}

// toHundred is percentages that sum to 100 in whole steps, by largest remainder; nil
// for others.
func toHundred(percents []float64, step measure.Step) (rounded []float64) {
	sum := 0.0
	for _, x := range percents {
		sum += x
	}
	if math.Abs(sum-100) > 1e-6 {
		return nil
	}
	for _, n := range step.Apportion(percents) {
		rounded = append(rounded, step.Amount(n))
	}
	return rounded
}

// label works out the percentages that a cup is labelled with: those asked, and where
// what was made strays from them, those as made too, since nobody remembers at
// unloading what the scale could not show. One end that strays makes all ends of the
// cup be given as made, so that they sum to 100; each series stands by itself. Ends
// of cups that are weighed dry never stray: their materials are measured.
func (t *Test) label(c *Cell) {
	c.AsMade = false
	for s := range c.Doses {
		d := &c.Doses[s]
		d.AsMade = d.None() || d.Percent > 0 && strays(d.GotPercent, d.Percent, d.PlusMinus)
		c.AsMade = c.AsMade || d.AsMade
	}
	if t.Plan.Blend.HasSeries() {
		return
	}
	made := make([]float64, len(c.Pours))
	for e, p := range c.Pours {
		made[e] = p.GotShare
		if c.Weighings == nil && p.ML > 0 {
			c.AsMade = c.AsMade || p.Steps == 0 || strays(100*p.GotShare, 100*c.Shares[e], 100*p.PlusMinus)
		}
	}
	asked, made := Hundred(c.Shares), Hundred(made)
	for e := range c.Pours {
		c.Pours[e].Percent, c.Pours[e].GotPercent = asked[e], made[e]
	}
}

// strays reports whether a percentage is off what was asked by more than its own
// ±, or by more than strayPart of it.
func strays(got, asked, plusMinus float64) bool {
	off := math.Abs(got - asked)
	return off > plusMinus+noiseOff || off > (strayPart+hair)*asked
}

// MadeOther reports whether the cup is labelled as made and the percentage of an end,
// as printed, is then another than was asked.
func (c Cell) MadeOther(end int) bool {
	p := c.Pours[end]
	return c.AsMade && p.ML > 0 && (p.Steps == 0 || p.Percent != p.GotPercent)
}
