package xlsx

import (
	"strings"

	tealeg "github.com/tealeg/xlsx/v3"
)

// Look is how a cell looks and whether it may be typed into. Looks differ by
// border and weight as well as by tint, so that they can be told apart on a
// black and white print.
type Look uint8

// The looks. lookInput and lookField are open in a protected sheet, all others locked.
const (
	Plain     Look = iota // running text
	Remark                // running text, broken into lines
	Title                 // the sheet's title
	Head                  // head of a column: bold, wrapped, on grey
	Section               // head of a part of a sheet, over its whole width
	Label                 // name of a row or of an input
	Unit                  // of the amount to its left
	Hint                  // small grey explanation, wrapped
	Given                 // a value of the plan that is not to be changed here
	GivenText             // a text of the plan: clear of the number to its left, broken into lines
	Worked                // a worked-out amount
	Measured              // an amount to be measured: large and bold
	Input                 // a value that everything follows from, to be changed at will
	Field                 // a blank to be filled in
	looks
)

// Open reports whether a cell of this look may be typed into when its sheet is
// protected.
func (l Look) Open() bool { return l == Input || l == Field }

// Format is a number format in the code of the workbook.
type Format string

// The formats beside decimals.
const (
	General Format = "general"
	AsText  Format = "@" // what is typed stays text: marks, file names
	Date    Format = "yyyy-mm-dd"
)

// Decimals is the format of a number with n digits after the point, at least 0.
func Decimals(n int) Format {
	if n <= 0 {
		return "0"
	}
	return Format("0." + strings.Repeat("0", n))
}

// cellFormat is one combination of look and number format.
type cellFormat struct {
	look   Look
	format Format
}

// The font of all cells and its size in points. Its digits are as wide as
// those of the workbook's default font, by which widths of columns count.
const (
	fontName = "Arial"
	fontSize = 11
)

// The tints, alpha first.
const (
	headTint  = "FFD9D9D9"
	inputTint = "FFFFF4CC"
	givenTint = "FFF5F5F5"
	lineTint  = "FF808080"
	hintInk   = "FF595959"
)

// newStyle is the library's style of a look. One value serves all cells of a
// workbook that have the look.
func newStyle(l Look) *tealeg.Style {
	s := tealeg.NewStyle()
	s.Font = tealeg.Font{Name: fontName, Size: fontSize, Family: 2}
	s.ApplyFont, s.ApplyAlignment = true, true
	s.Alignment.Vertical = "center"
	switch l {
	case Title:
		s.Font.Size, s.Font.Bold = 16, true
	case Remark:
		s.Alignment.WrapText = true
	case Head:
		s.Font.Bold = true
		s.Alignment.WrapText = true
		s.Alignment.Horizontal = "center"
		tint(s, headTint)
		frame(s, "thin")
	case Section:
		s.Font.Size, s.Font.Bold = 12, true
		tint(s, headTint)
	case Label:
		s.Alignment.WrapText = true
	case Unit:
		s.Alignment.Indent, s.Alignment.Horizontal = 1, "left"
	case Hint:
		s.Font.Size, s.Font.Italic, s.Font.Color = 10, true, hintInk
		s.Alignment.WrapText = true
	case Given:
		tint(s, givenTint)
		frame(s, "hair")
	case GivenText:
		s.Alignment.Indent, s.Alignment.Horizontal = 1, "left"
		s.Alignment.WrapText = true
		tint(s, givenTint)
		frame(s, "hair")
	case Worked:
		frame(s, "hair")
	case Measured:
		s.Font.Size, s.Font.Bold = 14, true
		s.Alignment.Indent, s.Alignment.Horizontal = 1, "right"
		frame(s, "thin")
	case Input:
		tint(s, inputTint)
		frame(s, "medium")
	case Field: // a number is not to touch the text to its right
		s.Alignment.Indent, s.Alignment.Horizontal = 1, "left"
		s.Alignment.WrapText = true
		frame(s, "thin")
	}
	return s
}

func tint(s *tealeg.Style, colour string) {
	s.Fill = *tealeg.NewFill(tealeg.Solid_Cell_Fill, colour, "")
	s.ApplyFill = true
}

func frame(s *tealeg.Style, line string) {
	b := tealeg.NewBorder(line, line, line, line)
	b.LeftColor, b.RightColor, b.TopColor, b.BottomColor = lineTint, lineTint, lineTint, lineTint
	s.Border, s.ApplyBorder = *b, true
}

// WithNought is a format that shows a text for 0: a dash for none, or "none"
// for a dose that is asked and comes to nothing. It stays a number for what is
// worked out from it.
func WithNought(f Format, text string) Format {
	if f == General {
		f = "General" // as the code of a part of a format
	}
	return f + ";-" + f + `;"` + Format(text) + `"`
}

// Literal is a number within a formula.
func Literal(x float64) string { return string(appendNumber(nil, x)) }

// AtLeast is the format of a number with n digits after the point, and more if
// it has them.
func AtLeast(n int) Format { return Decimals(n) + "##" }
