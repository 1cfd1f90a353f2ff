package measure

import (
	"math"
	"strconv"
	"strings"
)

// Unit is what an instrument counts in.
type Unit string

// The units of instruments.
const (
	Gram       Unit = "g"
	Millilitre Unit = "mL"
)

// Step is the smallest graduation of an instrument, in its unit. Every amount
// that is printed to be measured is a whole number of steps.
type Step struct {
	Size float64
	Unit Unit
}

// Count is x in whole steps, halves away from zero.
//
// Binary floating point holds 139.65 as a little less, so the quotient is
// first settled to nine digits after the point; a spreadsheet that does
// ROUND(ROUND(x/step,9),0) gets the same integer.
func (s Step) Count(x float64) int64 { return int64(math.Round(settle(x / s.Size))) }

// Floor is the largest whole number of steps that is not above x.
func (s Step) Floor(x float64) int64 { return int64(math.Floor(settle(x / s.Size))) }

// Ceil is the smallest whole number of steps that is not below x.
func (s Step) Ceil(x float64) int64 { return int64(math.Ceil(settle(x / s.Size))) }

// Amount is n steps in the instrument's unit, without the noise that
// multiplying by 0.1 leaves behind.
func (s Step) Amount(n int64) float64 { return settle(float64(n) * s.Size) }

// Rounded is x in whole steps, halves away from zero, in the instrument's unit.
func (s Step) Rounded(x float64) float64 { return s.Amount(s.Count(x)) }

// RoundedUp is the smallest amount in whole steps that is not below x.
func (s Step) RoundedUp(x float64) float64 { return s.Amount(s.Ceil(x)) }

// Decimals is how many digits after the point a step needs, at most 6.
func (s Step) Decimals() int {
	text := strconv.FormatFloat(settle(s.Size), 'f', -1, 64)
	_, after, _ := strings.Cut(text, ".")
	return min(len(after), 6)
}

// Format is n steps as they are printed, without the unit: 14.0, 135, 2.75.
func (s Step) Format(n int64) string {
	return strconv.FormatFloat(s.Amount(n), 'f', s.Decimals(), 64)
}

// String is the step with its unit, as in "0.1 g".
func (s Step) String() string {
	return strconv.FormatFloat(settle(s.Size), 'f', -1, 64) + " " + string(s.Unit)
}

// settle takes the noise of binary fractions off x: nine digits after the
// point, as long as x is small enough to have them.
func settle(x float64) float64 {
	if math.Abs(x) > 1e6 {
		return x
	}
	return math.Round(x*1e9) / 1e9
}
