package blend

import (
	"math"

	"pourboard/blend/measure"
)

// strayPart is how much of what was asked an end or a colourant may be off,
// however large its ±, before its cup is given as made (DESIGN section 4).
const strayPart = 0.05

// noiseOff is a difference in percentage points that is of the arithmetic.
const noiseOff = 1e-9

// tenths are percentages with one decimal.
var tenths = measure.Step{Size: 0.1}

// Hundred returns shares as percentages with one decimal. Shares that sum to 1
// come to 100 by largest remainder; others are rounded each by itself.
func Hundred(shares []float64) []float64 {
	percents, sum := make([]float64, len(shares)), 0.0
	for i, x := range shares {
		percents[i] = 100 * x
		sum += x
	}
	if math.Abs(sum-1) < noiseOff {
		for i, n := range tenths.Apportion(percents) {
			percents[i] = tenths.Amount(n)
		}
		return percents
	}
	for i, x := range percents {
		percents[i] = tenths.Amount(tenths.Count(x))
	}
	return percents
}

// A tile's label gives what was asked, as long as it holds that. Where what was made
// differs noticeably, both are given, for the tile is read weeks later, when
// nobody remembers what the scale could not show.

// label works out the percentages that a cup is labelled with. One end that is
// noticeably off makes all ends of the cup be given as made, so that they sum
// to 100; each percentage of a series is by itself.
func (t *Test) label(c *Cell) {
	c.AsMade = false
	if !t.Plan.Blend.HasSeries() {
		made := make([]float64, len(c.Pours))
		for e, p := range c.Pours {
			made[e] = p.GotShare
			c.AsMade = c.AsMade || c.strays(e)
		}
		asked, made := Hundred(c.Shares), Hundred(made)
		for e := range c.Pours {
			c.Pours[e].Percent, c.Pours[e].GotPercent = asked[e], made[e]
		}
		return
	}
	for s := range c.Doses {
		d := &c.Doses[s]
		d.AsMade = d.strays()
		c.AsMade = c.AsMade || d.AsMade
	}
}

// strays reports whether the share of an end is noticeably other than asked. Of
// cups that are weighed dry the materials are measured, not the ends.
func (c *Cell) strays(end int) bool {
	p := c.Pours[end]
	return c.Weighings == nil && p.ML > 0 && (p.Steps == 0 || strays(100*p.GotShare, 100*c.Shares[end], 100*p.PlusMinus))
}

// strays reports whether a dose is made noticeably other than asked.
func (d Dose) strays() bool {
	return d.None() || d.Percent > 0 && strays(d.GotPercent, d.Percent, d.PlusMinus)
}

// strays reports whether a percentage is off what was asked by more than its own
// ±, or by more than strayPart of it.
func strays(got, asked, plusMinus float64) bool {
	off := math.Abs(got - asked)
	return off > plusMinus+noiseOff || off > (strayPart+hair)*asked
}

// MadeOther reports whether the cup is labelled as made and one of its ends
// reads otherwise then.
func (c Cell) MadeOther(end int) bool {
	p := c.Pours[end]
	return c.AsMade && p.ML > 0 && (p.Steps == 0 || p.Percent != p.GotPercent)
}
