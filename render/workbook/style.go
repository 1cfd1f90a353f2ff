package workbook

import (
	"strings"

	"github.com/tealeg/xlsx/v3"
)

// cellLook is how a cell looks and whether it may be typed into. Looks differ by
// border and weight as well as by tint, so that they can be told apart on a
// black and white print.
type cellLook uint8

// The looks. lookInput and lookField are open in a protected sheet, all others locked.
const (
	lookPlain     cellLook = iota // running text
	lookRemark                    // running text, broken into lines
	lookTitle                     // the sheet's title
	lookHead                      // head of a column: bold, wrapped, on grey
	lookSection                   // head of a part of a sheet, over its whole width
	lookLabel                     // name of a row or of an input
	lookUnit                      // of the amount to its left
	lookHint                      // small grey explanation, wrapped
	lookGiven                     // a value of the plan that is not to be changed here
	lookGivenText                 // a text of the plan: clear of the number to its left, broken into lines
	lookWorked                    // a worked-out amount
	lookMeasured                  // an amount to be measured: large and bold
	lookInput                     // a value that everything follows from, to be changed at will
	lookField                     // a blank to be filled in
	looks
)

// Open reports whether a cell of this look may be typed into when its sheet is
// protected.
func (l cellLook) Open() bool { return l == lookInput || l == lookField }

// numberFormat is a number format in the code of the workbook.
type numberFormat string

// The formats beside decimals.
const (
	general    numberFormat = "general"
	asText     numberFormat = "@" // what is typed stays text: marks, file names
	dateFormat numberFormat = "yyyy-mm-dd"
)

// decimals is the format of a number with n digits after the point, at least 0.
func decimals(n int) numberFormat {
	if n <= 0 {
		return "0"
	}
	return numberFormat("0." + strings.Repeat("0", n))
}

// cellFormat is one combination of look and number format.
type cellFormat struct {
	look   cellLook
	format numberFormat
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
func newStyle(l cellLook) *xlsx.Style {
	s := xlsx.NewStyle()
	s.Font = xlsx.Font{Name: fontName, Size: fontSize, Family: 2}
	s.ApplyFont, s.ApplyAlignment = true, true
	s.Alignment.Vertical = "center"
	switch l {
	case lookTitle:
		s.Font.Size, s.Font.Bold = 16, true
	case lookRemark:
		s.Alignment.WrapText = true
	case lookHead:
		s.Font.Bold = true
		s.Alignment.WrapText = true
		s.Alignment.Horizontal = "center"
		tint(s, headTint)
		frame(s, "thin")
	case lookSection:
		s.Font.Size, s.Font.Bold = 12, true
		tint(s, headTint)
	case lookLabel:
		s.Alignment.WrapText = true
	case lookUnit:
		s.Alignment.Indent, s.Alignment.Horizontal = 1, "left"
	case lookHint:
		s.Font.Size, s.Font.Italic, s.Font.Color = 9, true, hintInk
		s.Alignment.WrapText = true
	case lookGiven:
		tint(s, givenTint)
		frame(s, "hair")
	case lookGivenText:
		s.Alignment.Indent, s.Alignment.Horizontal = 1, "left"
		s.Alignment.WrapText = true
		tint(s, givenTint)
		frame(s, "hair")
	case lookWorked:
		frame(s, "hair")
	case lookMeasured:
		s.Font.Size, s.Font.Bold = 14, true
		frame(s, "thin")
	case lookInput:
		tint(s, inputTint)
		frame(s, "medium")
	case lookField:
		s.Alignment.WrapText = true
		frame(s, "thin")
	}
	return s
}

func tint(s *xlsx.Style, colour string) {
	s.Fill = *xlsx.NewFill(xlsx.Solid_Cell_Fill, colour, "")
	s.ApplyFill = true
}

func frame(s *xlsx.Style, line string) {
	b := xlsx.NewBorder(line, line, line, line)
	b.LeftColor, b.RightColor, b.TopColor, b.BottomColor = lineTint, lineTint, lineTint, lineTint
	s.Border, s.ApplyBorder = *b, true
}
