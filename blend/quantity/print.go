package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Fixed is x with so many decimals, halves away from zero as in a spreadsheet:
// 1.615 is 1.62, though binary arithmetic holds it as a little less. The noise
// below nine digits after the rounding place is settled first.
func Fixed(x float64, decimals int) string {
	scale := math.Pow10(decimals)
	if scaled := x * scale; math.Abs(scaled) < 1e6 {
		scaled = math.Round(math.Round(scaled*1e9) / 1e9)
		if scaled == 0 {
			scaled = 0 // never -0
		}
		x = scaled / scale
	}
	return strconv.FormatFloat(x, 'f', decimals, 64)
}

// AtMost is x with at most so many decimals, without zeros at its end.
func AtMost(x float64, decimals int) string {
	text := Fixed(x, decimals)
	if decimals == 0 {
		return text
	}
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// Significant is x with so many significant digits, or whole when it has more,
// without zeros at its end: "0.425", "12.5", "1234".
func Significant(x float64, digits int) string {
	if x == 0 {
		return "0"
	}
	decimals := digits - 1 - int(math.Floor(math.Log10(math.Abs(x))+1e-9))
	return AtMost(x, min(max(decimals, 0), 9))
}

// ShareText is a share of 0 to 1 as a percentage: "33.3", "100", "8.3".
func ShareText(share float64) string { return AtMost(100*share, 1) }

// PlainText is a number as a person types it: as many digits as it has, at most
// four after the point.
func PlainText(x float64) string { return AtMost(x, 4) }

// PercentText is a percentage as a plan has it.
func PercentText(p float64) string { return PlainText(p) }

// RecipeText is a material's percentage of a recipe, with at most two decimals.
func RecipeText(percent float64) string { return AtMost(percent, 2) }

// VolumeText is mL with one decimal below 100, otherwise whole.
func VolumeText(ml float64) string { return fewDigits(ml) }

// MassText is g with one decimal below 100, otherwise whole; it is for amounts
// to know, not to measure: those are whole steps of an instrument.
func MassText(g float64) string { return fewDigits(g) }

func fewDigits(x float64) string { return Fixed(x, decimals(x, 1, 99.95)) }

// decimals is most, and one fewer for each limit that x reaches.
func decimals(x float64, most int, limits ...float64) int {
	for _, limit := range limits {
		if x >= limit {
			most--
		}
	}
	return most
}

// LengthText is a length as it is measured off by hand, in whole mm: "53 mm".
func LengthText(mm float64) string { return Fixed(mm, 0) + " mm" }

// SGText is a specific gravity: "1.45".
func SGText(sg float64) string { return Fixed(sg, 2) }

// PlusMinusText is a ± in percentage points with two significant digits:
// "0.082", "1.4", "12".
func PlusMinusText(points float64) string {
	if points == 0 {
		return "0"
	}
	return Fixed(points, decimals(points, 3, 0.095, 0.95, 9.5))
}

// FractionText is a fraction as a percentage with its sign, of two significant
// digits where there are as many: "4.1 %", "16 %", "0.3 %", "under 0.1 %".
func FractionText(x float64) string {
	percent := 100 * x
	switch {
	case percent >= 9.5:
		return Fixed(percent, 0) + " %"
	case percent > 0 && percent < 0.05:
		return "under 0.1 %"
	}
	return AtMost(percent, 1) + " %"
}

// GotText is a percentage as it came out, with a digit more than it was asked
// with: "0.098", "1.02", "33.3".
func GotText(percent float64) string { return Fixed(percent, decimals(percent, 3, 0.9995, 9.995)) }

// UnityText is moles of a unity formula: "3.10", "0.30", "0.012".
func UnityText(mol float64) string { return Fixed(mol, decimals(mol, 3, 0.0995)) }

// LossText is a loss on ignition in percent, negative for what takes up oxygen.
func LossText(percent float64) string { return Fixed(percent, 1) }

// StrengthText is the strength of a stock, from its g per mL: "6 g in 100 mL".
func StrengthText(gPerML float64) string { return Significant(100*gPerML, 3) + " g in 100 mL" }

// DosePercentText is the percentage asked of a dose: one of up to three
// significant digits as it is, any other with two significant digits and on to
// the first one of its ±, in percentage points. So 4/3 % that can be off by
// 0.065 is "1.33", and 0.25 % stays what was typed.
func DosePercentText(percent, plusMinus float64) string {
	text := PercentText(percent)
	if plusMinus == 0 || len(strings.TrimLeft(strings.Replace(text, ".", "", 1), "0")) <= 3 {
		return text
	}
	first := func(x float64) int { return -int(math.Floor(math.Log10(x) + 1e-9)) } // its digit after the point
	return AtMost(percent, min(4, max(0, first(plusMinus), first(percent)+1)))
}

// Cups names cups in a sentence by their numbers in ascending order: "cup 3",
// "cups 3, 7-9". After so many spans it says how many more there are.
func Cups(numbers []int, spans int) string {
	text, n := "", 0
	for i := 0; i < len(numbers); {
		j := i
		for j+1 < len(numbers) && numbers[j+1] == numbers[j]+1 {
			j++
		}
		if n == spans {
			return "cups " + text + " and " + strconv.Itoa(len(numbers)-i) + " more"
		}
		if n++; text != "" {
			text += ", "
		}
		text += strconv.Itoa(numbers[i])
		if j > i {
			text += "-" + strconv.Itoa(numbers[j])
		}
		i = j + 1
	}
	if len(numbers) == 1 {
		return "cup " + text
	}
	return "cups " + text
}

// Plural is a number with its noun: "1 tile", "3 tiles".
func Plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// Nothing is printed for an amount that was asked for and came to 0.
const Nothing = "none"

// MadeText is a dose as it was made in percent, in few digits: "0.83", "4.1", "none".
func MadeText(percent float64) string {
	if percent == 0 {
		return Nothing
	}
	return AtMost(percent, decimals(percent, 3, 0.095, 0.95))
}

// Ordinal is the number of a coat, of which there are twelve at most: "1st".
func Ordinal(n int) string {
	if n <= 3 {
		return [...]string{"1st", "2nd", "3rd"}[n-1]
	}
	return strconv.Itoa(n) + "th"
}
