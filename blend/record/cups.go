package record

import (
	"pourboard/blend"
	"pourboard/blend/measure"
)

// CupField is what a column of the sheet of cups holds.
type CupField string

// The fields of the sheet of cups: what the plan says of a cup, and what was
// done otherwise.
const (
	CupNumber    CupField = "cup"
	PourAsked    CupField = "pour"    // amount of an end glaze, in Unit
	PourEntered  CupField = "poured"  // the amount that it came out as
	DoseAsked    CupField = "dose"    // amount of a series' material, in Unit
	DoseEntered  CupField = "dosed"   // the amount that it came out as
	MishapField  CupField = "mishap"  // one of Mishaps
	CupNoteField CupField = "remarks" // free text
)

// CupColumn is one column of the sheet of cups.
type CupColumn struct {
	Head    string // unique in the sheet
	Field   CupField
	Index   int    // of the end in Test.Ends, or of the series, from 0
	Unit    string // of an amount: "mL" or "g"
	Fill    bool   // filled in by hand
	Choices []string
}

// Mishaps are what can have befallen a cup: its tiles are skipped.
func Mishaps() []string { return []string{"forgotten", "spilled"} }

// CupColumns are the columns of the sheet of cups in order.
func CupColumns(t *blend.Test) []CupColumn {
	all := []CupColumn{{Head: HeadCup, Field: CupNumber}}
	pair := func(name, unit, done string, asked, entered CupField, index int) {
		all = append(all,
			CupColumn{Head: name + " " + unit, Field: asked, Index: index, Unit: unit},
			CupColumn{Head: name + " " + done + " " + unit, Field: entered, Index: index, Unit: unit, Fill: true})
	}
	unit := "mL"
	if t.Plan.Kit.Pour.Unit == measure.Gram {
		unit = "g"
	}
	for i, end := range t.Ends {
		pair(end.Name, unit, "poured", PourAsked, PourEntered, i)
	}
	for i, s := range t.Plan.Blend.Series {
		switch t.Plan.Blend.Method {
		case blend.ByPour:
		case blend.ByStock:
			pair(s.Label()+" stock", "mL", "poured", DoseAsked, DoseEntered, i)
		default:
			pair(s.Label(), "g", "weighed", DoseAsked, DoseEntered, i)
		}
	}
	return append(all,
		CupColumn{Head: HeadMishap, Field: MishapField, Fill: true, Choices: Mishaps()},
		CupColumn{Head: HeadNotes, Field: CupNoteField, Fill: true})
}
