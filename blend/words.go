package blend

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"pourboard/blend/measure"
)

// The printed forms of numbers: every sheet, table and workbook takes them
// from here, so that one amount looks alike wherever it stands.

// ShareText is a share as a percentage: "33.3", "100", "8.3".
func ShareText(share float64) string { return atMost(1, 100*share) }

// PercentText is a percentage as it is printed: as many digits as it has, at
// most four after the point.
func PercentText(p float64) string { return atMost(4, p) }

// AmountText is a cup's size as it is said: "100 g dry", "180 mL", "250 g of slip".
func AmountText(size float64, of Basis) string {
	text := PercentText(size)
	switch of {
	case Volume:
		return text + " mL"
	case Weight:
		return text + " g of slip"
	default:
		return text + " g dry"
	}
}

// VolumeText is mL to one digit after the point below 100, otherwise whole.
func VolumeText(ml float64) string { return fewDigits(ml) }

// MassText is g to one digit after the point below 100, otherwise whole; it is
// for amounts to know, not to measure: those are whole steps of an instrument.
func MassText(g float64) string { return fewDigits(g) }

func fewDigits(x float64) string {
	if x < 99.95 {
		return strconv.FormatFloat(x, 'f', 1, 64)
	}
	return strconv.FormatFloat(x, 'f', 0, 64)
}

// LengthText is a length as it is measured off by hand, in whole mm: "53 mm".
func LengthText(mm float64) string { return strconv.FormatFloat(math.Round(mm), 'f', 0, 64) + " mm" }

// SGText is a specific gravity: "1.45".
func SGText(sg float64) string { return strconv.FormatFloat(sg, 'f', 2, 64) }

// GlazeLetter and SeriesLetter are what the ends of a test and the materials of
// its series go by where there is no room for names: P to S and X to Z. None
// of these tells the tiles of one cup apart in a mark (layout/marks.go).
func GlazeLetter(end int) string { return string(rune('P' + end)) }

// SeriesLetter is described at GlazeLetter.
func SeriesLetter(series int) string { return string(rune('X' + series)) }

// StockLabel is what is written on the bottle of a stock suspension, and what
// every sheet and table calls it by: "X1", "X2" of the series X.
func (t *Test) StockLabel(stock int) string {
	n := 1
	for _, s := range t.Stocks[:stock] {
		if s.Series == t.Stocks[stock].Series {
			n++
		}
	}
	return SeriesLetter(t.Stocks[stock].Series) + strconv.Itoa(n)
}

// PercentText is the percentage that was asked of a dose, as it is printed
// wherever the dose is: one of up to three significant digits as it is, any
// other with two significant digits and on to the first one of its ±. So 4/3 %
// that can be off by 0.065 is "1.33", and 0.25 % stays what was typed.
func (d Dose) PercentText() string {
	text := PercentText(d.Percent)
	if d.PlusMinus == 0 || len(strings.TrimLeft(strings.Replace(text, ".", "", 1), "0")) <= 3 {
		return text
	}
	first := func(x float64) int { return -int(math.Floor(math.Log10(x) + 1e-9)) } // its digit after the point
	decimals := min(4, max(0, first(d.PlusMinus), first(d.Percent)+1))
	return atMost(decimals, d.Percent)
}

// PlusMinusText is a ± in percentage points with two significant digits:
// "0.082", "1.4", "12".
func PlusMinusText(points float64) string {
	switch {
	case points == 0:
		return "0"
	case points < 0.095:
		return strconv.FormatFloat(points, 'f', 3, 64)
	case points < 0.95:
		return strconv.FormatFloat(points, 'f', 2, 64)
	case points < 9.5:
		return strconv.FormatFloat(points, 'f', 1, 64)
	}
	return strconv.FormatFloat(points, 'f', 0, 64)
}

// FractionText is a fraction as a percentage with its sign, of two significant
// digits where there are as many: "4.1 %", "16 %", "0.3 %", "under 0.1 %".
func FractionText(x float64) string {
	percent := 100 * x
	switch {
	case percent >= 9.5:
		return strconv.FormatFloat(percent, 'f', 0, 64) + " %"
	case percent > 0 && percent < 0.05:
		return "under 0.1 %"
	}
	return atMost(1, percent) + " %"
}

// GotText is a percentage as it came out, with a digit more than it was asked
// with: "0.098", "1.02", "33.3".
func GotText(percent float64) string {
	switch {
	case percent < 0.9995:
		return strconv.FormatFloat(percent, 'f', 3, 64)
	case percent < 9.995:
		return strconv.FormatFloat(percent, 'f', 2, 64)
	}
	return strconv.FormatFloat(percent, 'f', 1, 64)
}

// UnityText is moles of a unity formula: "3.10", "0.30", "0.012".
func UnityText(mol float64) string {
	if mol < 0.0995 {
		return strconv.FormatFloat(mol, 'f', 3, 64)
	}
	return strconv.FormatFloat(mol, 'f', 2, 64)
}

// LossText is a loss on ignition in percent, negative for what takes up oxygen.
func LossText(percent float64) string { return strconv.FormatFloat(percent, 'f', 1, 64) }

// BasisText says what a basis counts: "of dry matter".
func BasisText(b Basis) string {
	switch b {
	case Volume:
		return "of slip volume"
	case Weight:
		return "of slip weight"
	default:
		return "of dry matter"
	}
}

// PourText is a measured pour without its unit, or a dash for none.
func (t *Test) PourText(p Pour) string {
	if p.ML == 0 {
		return "–"
	}
	return t.Plan.Kit.Pour.Format(p.Steps)
}

// ReadingText is what the scale reads when a pour is in, or a dash for none.
func (t *Test) ReadingText(p Pour) string {
	if p.ML == 0 {
		return "–"
	}
	return t.Plan.Kit.Pour.Format(p.Reading)
}

// DoseText is the measured amount of a dose without its unit, in g weighed dry
// or in mL of stock, or a dash for none. Nothing is measured of a series that
// is poured from end slips.
func (t *Test) DoseText(d Dose) string {
	switch {
	case d.Percent == 0 || t.Plan.Blend.Method == ByPour:
		return "–"
	case d.None():
		return none
	case t.Plan.Blend.Method == ByStock:
		return t.Plan.Kit.Syringe.Format(d.Steps)
	}
	return t.Plan.Kit.Dosing().Format(d.Steps)
}

// DoseAmount is DoseText with its unit: "1.2 g", "none, too little".
func (t *Test) DoseAmount(d Dose) string {
	if d.None() {
		return none + ", too little"
	}
	return t.DoseText(d) + " " + string(t.DoseUnit())
}

// DosePlusMinus is the ± of a dose, in percentage points; a dash where none of
// it is dosed, which is not off by 0 but no dose.
func (t *Test) DosePlusMinus(d Dose) string {
	if d.None() {
		return "–"
	}
	return PlusMinusText(d.PlusMinus)
}

// DoseUnit is the unit of DoseText.
func (t *Test) DoseUnit() measure.Unit {
	if t.Plan.Blend.Method == ByStock {
		return measure.Millilitre
	}
	return measure.Gram
}

// DoseInstrument is what measures doses, with its step: "scale of 0.1 g".
func (t *Test) DoseInstrument() string {
	switch t.Plan.Blend.Method {
	case ByStock:
		return "syringe of " + t.Plan.Kit.Syringe.String()
	case ByPour:
		return "jug of " + t.Plan.Kit.Pour.String()
	}
	return "scale of " + t.Plan.Kit.Dosing().String()
}

// ScaleText is g as the scale that weighs batches shows them, without the unit.
func (t *Test) ScaleText(g float64) string {
	return t.Plan.Kit.Scale.Format(t.Plan.Kit.Scale.Count(g))
}

// WeighedText is the dry matter that a batch is weighed from, in g to the last
// digit that any of its scales shows, without the unit.
func (t *Test) WeighedText(b Batch) string {
	digits := t.Plan.Kit.Scale.Decimals()
	for _, x := range b.Apart {
		digits = max(digits, x.Step.Decimals())
	}
	return strconv.FormatFloat(b.WeighedG, 'f', digits, 64)
}

// DosingText is g as the scale that weighs doses shows them, without the unit.
func (t *Test) DosingText(g float64) string {
	return t.Plan.Kit.Dosing().Format(t.Plan.Kit.Dosing().Count(g))
}

// DoseSum writes out how a dose comes about: "140 mL hold 102.4 g dry; 1 % of
// that is 1.02 g". It has one digit more than the scale shows.
func (t *Test) DoseSum(c Cell, series int) string {
	d, pour := c.Doses[series], t.Plan.Kit.Pour
	return fmt.Sprintf("%s %s hold %s g dry; %s %% of that is %s g", pour.Format(c.Pours[0].Steps), pour.Unit, fourFigures(c.Got.RecipeG),
		PercentText(d.Percent), strconv.FormatFloat(d.G, 'f', t.Plan.Kit.Dosing().Decimals()+1, 64))
}

// figures is a number with three significant digits, or whole when it has more.
func figures(x float64) string {
	if x >= 100 {
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.3g", x)
}

// fourFigures is a number with four significant digits, or whole when it has
// more, without zeros at its end.
func fourFigures(x float64) string {
	decimals := 0
	for limit := 999.5; decimals < 6 && x < limit; limit /= 10 {
		decimals++
	}
	return atMost(decimals, x)
}

// atMost is a number rounded to so many decimals, without zeros at its end.
func atMost(decimals int, x float64) string {
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	if decimals == 0 {
		return text
	}
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// WaterStep is the instrument that measures water into a cup: the scale when
// slips are poured on one (1 g is 1 mL), otherwise the syringe.
func (t *Test) WaterStep() measure.Step {
	if t.OnScale() {
		return t.Plan.Kit.Pour
	}
	return t.Plan.Kit.Syringe
}

// WaterSteps is the water that brings a cup, as measured, to a specific
// gravity, in whole steps of WaterStep; negative where it is too thin already.
func (t *Test) WaterSteps(c Cell, sg float64) int64 { return t.WaterStep().Count(c.WaterTo(sg)) }

// WaterText is WaterSteps as an amount without its unit; a dash for none, and
// "too thin already" for less than none.
func (t *Test) WaterText(c Cell, sg float64) string {
	switch n := t.WaterSteps(c, sg); {
	case n < 0:
		return "too thin already"
	case n == 0:
		return "–"
	default:
		return t.WaterStep().Format(n)
	}
}

// Summary is a test in one line: "triaxial, 28 cups of 100 g dry, shares of
// dry matter".
func (t *Test) Summary() string {
	p := t.Plan
	cups := "cups"
	if len(t.Cells) == 1 {
		cups = "cup"
	}
	text := fmt.Sprintf("%s, %d %s of %s", p.Blend.Kind, len(t.Cells), cups, AmountText(p.Cup.Size, p.Cup.Of))
	if p.Blend.HasSeries() {
		return text + " of base, percentages of the dry base in the cup"
	}
	return text + ", shares " + BasisText(p.Blend.Basis)
}

// Dosed reports whether something is weighed or drawn into the cups after they
// are poured.
func (t *Test) Dosed() bool { return t.Plan.Blend.HasSeries() && t.Plan.Blend.Method != ByPour }

// OnScale reports whether slips are poured onto a scale, so that readings run.
func (t *Test) OnScale() bool { return t.Plan.Kit.Pour.Unit == measure.Gram }

// RecipeText is a material's percentage of a recipe: two digits after the
// point, without noughts at the end.
func RecipeText(percent float64) string { return atMost(2, percent) }

// StrengthText is the strength of a stock suspension: "6 g in 100 mL".
func StrengthText(gPerML float64) string { return figures(100*gPerML) + " g in 100 mL" }

// Numbers names cells in a sentence: "cups 3, 7-9", at most limit spans.
func Numbers(cells []int, limit int) string {
	text, spans := "", 0
	for i := 0; i < len(cells); {
		j := i
		for j+1 < len(cells) && cells[j+1] == cells[j]+1 {
			j++
		}
		if spans == limit {
			return "cups " + text + " and " + strconv.Itoa(len(cells)-i) + " more"
		}
		if spans++; text != "" {
			text += ", "
		}
		text += strconv.Itoa(cells[i])
		if j > i {
			text += "-" + strconv.Itoa(cells[j])
		}
		i = j + 1
	}
	if len(cells) == 1 {
		return "cup " + text
	}
	return "cups " + text
}
