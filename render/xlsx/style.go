package xlsx

import (
	"cmp"
	"fmt"
	"strings"
)

// Look is how a cell looks and whether it may be typed into. Looks differ by
// border and weight as well as by tint, so that they can be told apart on a
// black and white print.
type Look uint8

// The looks. Input and Field are open in a protected sheet, all others locked.
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

// The font of all cells. Its digits are as wide as those of the workbook's default
// font, by which widths of columns count.
const fontName = "Arial"

// The tints, alpha first.
const (
	headTint  = "FFD9D9D9"
	inputTint = "FFFFF4CC"
	givenTint = "FFF5F5F5"
	lineTint  = "FF808080"
)

// style is how the cells of a look are drawn.
type style struct {
	font  string // elements in the order of ECMA-376-1, 18.8.22, CT_Font; "" for 11 points
	tint  string
	line  string // of the frame, "" for none
	align string // attributes
}

// Attributes of alignments. Texts to one side have an indent.
const (
	wrapped = ` wrapText="1"`
	left    = ` horizontal="left" indent="1"`
	right   = ` horizontal="right" indent="1"`
)

var styles = [looks]style{
	Title:     {font: `<b/><sz val="16"/>`},
	Remark:    {align: wrapped},
	Head:      {font: `<b/><sz val="11"/>`, tint: headTint, line: "thin", align: ` horizontal="center"` + wrapped},
	Section:   {font: `<b/><sz val="12"/>`, tint: headTint},
	Label:     {align: wrapped},
	Unit:      {align: left},
	Hint:      {font: `<i/><sz val="10"/><color rgb="FF595959"/>`, align: wrapped},
	Given:     {tint: givenTint, line: "hair"},
	GivenText: {tint: givenTint, line: "hair", align: left + wrapped},
	Worked:    {line: "hair"},
	Measured:  {font: `<b/><sz val="14"/>`, line: "thin", align: right},
	Input:     {tint: inputTint, line: "medium"},
	Field:     {line: "thin", align: left + wrapped}, // a number is not to touch the text to its right
}

// xml are the font, the fill and the border of a style.
func (s style) xml() (font, fill, border string) {
	font = "<font>" + cmp.Or(s.font, `<sz val="11"/>`) + `<name val="` + fontName + `"/><family val="2"/></font>`
	fill = `<fill><patternFill patternType="none"/></fill>`
	if s.tint != "" {
		fill = `<fill><patternFill patternType="solid"><fgColor rgb="` + s.tint + `"/></patternFill></fill>`
	}
	for _, side := range []string{"left", "right", "top", "bottom"} {
		if s.line == "" {
			border += "<" + side + "/>"
		} else {
			border += fmt.Sprintf(`<%[1]s style="%s"><color rgb="%s"/></%[1]s>`, side, s.line, lineTint)
		}
	}
	return font, fill, "<border>" + border + "</border>"
}

// stylesXML is the part with the table of cell formats, in the order in which the rows
// count them: each look has a font, a fill behind the two of the format, and a border.
func (b *Book) stylesXML() string {
	fonts, borders, cells, numbers := "", "", "", ""
	fills := `<fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>`
	for _, s := range styles {
		font, fill, border := s.xml()
		fonts, fills, borders = fonts+font, fills+fill, borders+border
	}
	ids := map[Format]int{General: 0}
	for _, f := range b.formats {
		if _, known := ids[f.format]; !known {
			ids[f.format] = 164 + len(ids) - 1 // those before are built in
			numbers += fmt.Sprintf(`<numFmt numFmtId="%d" formatCode="%s"/>`, ids[f.format], escaped(string(f.format)))
		}
		protection := ""
		if f.look.Open() {
			protection = `<protection locked="0"/>`
		}
		cells += fmt.Sprintf(`<xf numFmtId="%[1]d" fontId="%[2]d" fillId="%[3]d" borderId="%[2]d" xfId="0" `+
			`applyNumberFormat="1" applyFont="1" applyFill="1" applyBorder="1" applyAlignment="1" applyProtection="1">`+
			`<alignment vertical="center"%[4]s/>%[5]s</xf>`, ids[f.format], f.look, f.look+2, styles[f.look].align, protection)
	}
	if numbers != "" {
		numbers = fmt.Sprintf(`<numFmts count="%d">%s</numFmts>`, len(ids)-1, numbers)
	}
	return `<styleSheet xmlns="` + mainNames + `">` + numbers +
		fmt.Sprintf(`<fonts count="%d">%s</fonts><fills count="%d">%s</fills><borders count="%[1]d">%[5]s</borders>`,
			looks, fonts, looks+2, fills, borders) +
		`<cellStyleXfs count="1"><xf/></cellStyleXfs>` +
		fmt.Sprintf(`<cellXfs count="%d">%s</cellXfs>`, len(b.formats), cells) +
		`<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`
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

// AtLeast is the format of a number with n digits after the point, and more if
// it has them.
func AtLeast(n int) Format { return Decimals(n) + "##" }
