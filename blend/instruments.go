package blend

import (
	"strconv"
	"strings"

	"pourboard/blend/measure"
)

// glazeLetters are letters that no mark has. Painted by hand they read as figures, so
// package mark gives them to no body and takes none for a check letter.
const glazeLetters = "QSVBGZ"

// GlazeLetter and SeriesLetter are what the end glazes of a test and the
// materials of its series go by where there is no room for names: Q S V B, and X
// Y Z. The seventh glaze and those after it have a figure too.
func GlazeLetter(end int) string {
	letter := glazeLetters[end%len(glazeLetters) : end%len(glazeLetters)+1]
	if round := end / len(glazeLetters); round > 0 {
		letter += strconv.Itoa(round + 1)
	}
	return letter
}

// seriesLetters are those of no body either. Q is left out: it is the base, the first
// end glaze.
const seriesLetters = "XYZSVBG"

// SeriesLetter is described at GlazeLetter. After the seventh series letters are
// doubled: XX.
func SeriesLetter(series int) string {
	at := series % len(seriesLetters)
	return strings.Repeat(seriesLetters[at:at+1], 1+series/len(seriesLetters))
}

// DoseUnit is the unit that doses are measured in.
func (t *Test) DoseUnit() measure.Unit {
	if t.Plan.Blend.Method == ByStock {
		return measure.Millilitre
	}
	return measure.Gram
}

// Dosed reports whether something is weighed or drawn into the cups after they
// are poured.
func (t *Test) Dosed() bool {
	return t.Plan.Blend.HasSeries() && t.Plan.Blend.Method != ByPour && t.Plan.Blend.Method != ByWeigh
}

// DoseStep is the step of the instrument that measures doses.
func (t *Test) DoseStep() measure.Step {
	switch t.Plan.Blend.Method {
	case ByStock:
		return t.Plan.Kit.Syringe
	case ByPour:
		return t.Plan.Kit.Pour
	}
	return t.Plan.Kit.Dosing()
}
