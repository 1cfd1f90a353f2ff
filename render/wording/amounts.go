package wording

import (
	"pourboard/blend"
	"pourboard/blend/quantity"
	"slices"
)

// dash is printed of an amount that nothing is asked of.
const dash = "–"

// PourText is a measured pour without its unit, a dash where none is asked and
// "none" where it rounds to nothing.
func PourText(t *blend.Test, p blend.Pour) string {
	if p.ML == 0 {
		return dash
	}
	if p.Other {
		return quantity.AtMost(p.Got.Shown(t.Plan.Kit), 2)
	}
	if p.Steps == 0 {
		return quantity.Nothing
	}
	return t.Plan.Kit.Pour.Format(p.Steps)
}

// ReadingText is what the scale reads when a pour is in, or a dash for none.
func ReadingText(t *blend.Test, p blend.Pour) string {
	if p.ML == 0 {
		return dash
	}
	return t.Plan.Kit.Pour.Format(p.Reading)
}

// DoseText is the measured amount of a dose without its unit, in g weighed dry
// or in mL of stock, or a dash for none. Nothing is measured of a series that
// is poured from end glazes.
func DoseText(t *blend.Test, d blend.Dose) string {
	switch {
	case d.Percent == 0 || t.Plan.Blend.Method == blend.ByPour:
		return dash
	case d.None():
		return quantity.Nothing
	}
	return t.DoseStep().Format(d.Steps)
}

// DosePlusMinus is the ± of a dose, in percentage points; a dash where none of
// it is dosed, which is not off by 0 but no dose.
func DosePlusMinus(d blend.Dose) string {
	if d.None() {
		return dash
	}
	return quantity.PlusMinusText(d.PlusMinus)
}

// DoseInstrument is what measures doses: "0.1 g scale".
func DoseInstrument(t *blend.Test) string {
	switch t.Plan.Blend.Method {
	case blend.ByStock:
		return t.DoseStep().String() + " syringe"
	case blend.ByPour:
		return t.DoseStep().String() + " jug"
	}
	return t.DoseStep().String() + " scale"
}

// ScaleText is g as the scale that weighs batches shows them, without the unit.
func ScaleText(t *blend.Test, g float64) string {
	return t.Plan.Kit.Scale.Format(t.Plan.Kit.Scale.Count(g))
}

// BatchWaterText is the water of a batch in g, without the unit: measure.Kit.Water has
// made it a figure that a bucket can show.
func BatchWaterText(g float64) string { return quantity.AtMost(g, 3) }

// PercentTexts are the percentages of a batch's materials by their parts, the
// recipe's to a sum of 100 as blend.Written has them.
func PercentTexts(b blend.Batch, view blend.View) map[int]string {
	texts := map[int]string{}
	var parts []int
	var recipe []blend.Part
	add := func(part int, percent float64, addition bool) {
		if _, ok := texts[part]; ok {
			return
		}
		texts[part] = quantity.RecipeText(percent)
		if !addition {
			parts, recipe = append(parts, part), append(recipe, blend.Part{Percent: percent})
		}
	}
	for _, w := range slices.Concat(b.Weighings, b.Apart) {
		add(w.Part, w.Percent, w.Addition)
	}
	for i, p := range blend.Written(recipe, view) {
		texts[parts[i]] = quantity.AtMost(p.Percent, 3)
	}
	return texts
}

// DosingText is g as the scale that weighs doses shows them, without the unit.
func DosingText(t *blend.Test, g float64) string {
	return t.Plan.Kit.Dosing().Format(t.Plan.Kit.Dosing().Count(g))
}

// WaterText is the water that thins a cup to an SG, without its unit; a dash
// for none, and "too thin already" for less than none.
func WaterText(t *blend.Test, c blend.Cell, sg float64) string {
	switch n := t.ThinningSteps(c, sg); {
	case n < 0:
		return "too thin already"
	case n == 0:
		return dash
	default:
		return t.ThinningStep().Format(n)
	}
}
