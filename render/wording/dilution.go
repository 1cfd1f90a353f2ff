package wording

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// Dilutions is how doses that are too small for the scale are
// weighed in a mix with dry base: a line for each mix and each dose in it.
func Dilutions(t *blend.Test) []string {
	var lines []string
	for _, d := range t.Dilutions {
		lines = append(lines, mixText(t, d))
		for _, x := range d.Doses {
			lines = append(lines, fmt.Sprintf("%s (%s %%): weigh %s g of mix %s instead. %s",
				capital(quantity.Cups(x.Cups, 60)),
				quantity.PercentText(x.Percent), DosingText(t, x.MixG), blend.SeriesLetter(d.Series), leaveOut(t, x)))
		}
	}
	return lines
}

// CupDilutions is the part of Dilutions that one cup has, by its number.
func CupDilutions(t *blend.Test, cup int) []string {
	var lines []string
	for _, d := range t.Dilutions {
		for _, x := range d.Doses {
			if slices.Contains(x.Cups, cup) {
				lines = append(lines, fmt.Sprintf("weigh %s g of mix %s. %s %s", DosingText(t, x.MixG),
					blend.SeriesLetter(d.Series), leaveOut(t, x), mixText(t, d)))
			}
		}
	}
	return lines
}

// mixText says how a mix is made.
func mixText(t *blend.Test, d blend.Dilution) string {
	return fmt.Sprintf("Mix %s, 1 + %d: grind %s g of %s with %s g of dry base.", blend.SeriesLetter(d.Series),
		d.Parts-1,
		DosingText(t, d.ColourantG), t.Plan.Blend.Series[d.Series].Material, DosingText(t, d.BaseG))
}

// leaveOut says what a cup does without for the base in a mix.
func leaveOut(t *blend.Test, x blend.DilutedDose) string {
	var what []string
	switch {
	case x.LessSteps > 0:
		what = append(what, fmt.Sprintf("Pour %s %s less.", t.Plan.Kit.Pour.Format(x.LessSteps), t.Plan.Kit.Pour.Unit))
	case x.LessG > 0:
		what = append(what, fmt.Sprintf("Take out %s g of wet glaze.", DosingText(t, x.LessG)))
	}
	if x.WaterG > 0 {
		what = append(what, fmt.Sprintf("Add %s g of water.", quantity.Fixed(x.WaterG, 0)))
	}
	return strings.Join(what, " ")
}
