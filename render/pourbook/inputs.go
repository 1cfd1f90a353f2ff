package pourbook

import (
	"cmp"
	"fmt"

	"pourboard/render/xlsx"
)

// input is a line of the sheet Inputs.
type input struct {
	name        string // of the cell with the value as it is used
	label       string
	unit        string
	help        string
	value       float64
	format      xlsx.Format // General where it is not set
	least, most string      // limits: numbers or formulas; no most is a million
	right       string      // what would be right, "" for the limits
	need        bool        // nothing can be worked out without it; others may be empty, which is 0
	holds       string      // what it must be to be used, "" for least and most
	used        string      // the formula for the value that is used, "" for what is typed
	helpNow     string      // a formula for the help where it fits, "" for help
	says        string      // what that comes to, "" for help
}

// typed is the cell that an input is typed into. What formulas refer to is the
// input as it is used, beside it: the same where it fits, and what was planned
// where it does not, so that nothing is divided by an empty cell and no text is
// added up. All amounts are 0 then (Inputs_fit).
func (in input) typed() string { return in.name + "_typed" }

// fits is the formula for whether an input can be used. Checks stop what is
// typed, but not what is pasted: a text, or the error of another sheet.
func (in input) fits() string {
	t, holds := in.typed(), in.holds
	if holds == "" {
		holds = fmt.Sprintf("%[1]s>=%[2]s,%[1]s<=%[3]s", t, in.least, cmp.Or(in.most, million))
	}
	fits := "AND(ISNUMBER(" + t + ")," + holds + ")"
	if !in.need {
		fits = "OR(ISBLANK(" + t + ")," + fits + ")"
	}
	return "IFERROR(" + fits + ",FALSE)"
}

const million = "1000000"

// shouldBe says what could be typed instead.
func (in input) shouldBe() string {
	text := in.right
	switch {
	case text != "":
	case in.most == "":
		text = in.least + " " + in.unit + " or more"
	default:
		text = in.least + " to " + in.most + " " + in.unit
	}
	if !in.need {
		text += ", or nothing"
	}
	return text
}

// usedColumn is the column, not printed, of the inputs as they are used; the next one
// says whether they fit.
const usedColumn = 5

// The widths of the labels of inputs and of their help, in digits: with box and
// unit they go across an upright A4 at four fifths of the full size.
const (
	inputLabel = 34
	inputHelp  = 38
)

// inputHeight is the height of a row with a label and help, enough for both and for
// the line that says what is wrong in place of the help.
func inputHeight(label, help string) float64 {
	return max(28, xlsx.LineHeight(label, inputLabel), xlsx.LineHeight(help, inputHelp))
}

// writeInputs writes the sheet of what can be changed on the day.
func (b *pourBook) writeInputs() {
	s := b.inputs
	for i, width := range []float64{inputLabel, 11, 14, inputHelp, 2, 12, 8} {
		s.Width(i, i, width)
	}
	s.Page.Columns, s.Page.Pages = 4, 1
	s.Title("Inputs")
	s.Row()
	s.Text(xlsx.Plain, "Fill in the framed boxes. The other sheets follow. Then print the card again.")

	for _, group := range b.inputGroups() {
		if group.inputs == nil {
			continue
		}
		s.Section(group.head, 4)
		for _, in := range group.inputs {
			b.writeInput(in)
		}
	}
	b.writeResult()
}

// writeInput writes a line: label, box, unit, help, and the value as it is used.
func (b *pourBook) writeInput(in input) {
	b.typed = append(b.typed, in)
	s, format := b.inputs, cmp.Or(in.format, xlsx.General)
	row := s.TallRow(inputHeight(in.label, in.help))
	s.Text(xlsx.Label, in.label)
	b.Define(in.typed(), s.At(1, row))
	s.Between(xlsx.Address(1, row), in.least, cmp.Or(in.most, million), in.help, "Enter "+in.shouldBe()+".")
	if !in.need && in.value == 0 {
		s.Blank(xlsx.Input, format)
	} else {
		s.Number(xlsx.Input, format, in.value)
	}
	s.Text(xlsx.Unit, in.unit)
	fits := fmt.Sprintf("$%s%d=1", xlsx.Letters(usedColumn+1), row)
	begin := "NOT POSSIBLE"
	if in.need {
		begin = "NEEDED"
	}
	wrong := fmt.Sprintf(`"%s"&IF(ISTEXT(%s)," (the cell holds text, not a number): ",": ")&%s`,
		begin, in.typed(), xlsx.Quoted(in.shouldBe()))
	help := cmp.Or(in.helpNow, xlsx.Quoted(in.help))
	s.TextFormula(xlsx.Hint, fmt.Sprintf("IF(%s,%s,%s)", fits, help, wrong), cmp.Or(in.says, in.help))
	s.Skip(1)
	b.Define(in.name, s.At(usedColumn, row))
	used := cmp.Or(in.used, "N("+in.typed()+")")
	s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("IF(%s,%s,%s)", fits, used, xlsx.Literal(in.value)), in.value)
	s.Formula(xlsx.Worked, xlsx.General, "IF("+in.fits()+",1,0)", 1)
}
