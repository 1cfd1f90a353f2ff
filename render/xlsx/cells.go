package xlsx

import (
	"fmt"
	"math"
	"strconv"
)

// Row begins the next row and returns its number, from 1.
func (s *Sheet) Row() int {
	s.height += rowHeight
	return s.beginRow("")
}

// LastRow is the number of the row that was begun last, from 1; 0 before the first.
func (s *Sheet) LastRow() int { return s.row }

// Merge makes one cell of those from one column to another in the row that was
// begun last. Columns are counted from 0.
func (s *Sheet) Merge(first, last int) {
	s.merged = append(s.merged, Address(first, s.row)+":"+Address(last, s.row))
}

// rowHeight is the height in points of a row of one line.
const rowHeight = 15

// TallRow begins the next row with a height in points and returns its number.
// Other rows are as high as their text asks for.
func (s *Sheet) TallRow(points float64) int {
	s.height += points
	return s.beginRow(` ht="` + strconv.FormatFloat(points, 'f', -1, 64) + `" customHeight="1"`)
}

func (s *Sheet) beginRow(attributes string) int {
	s.endRow()
	s.row++
	s.col = 0
	if s.row > maxRows {
		s.book.Fail(fmt.Errorf("sheet %q has more than the %d rows that a workbook can hold", s.Name, maxRows))
		s.row = maxRows
	}
	s.rows = fmt.Appendf(s.rows, `<row r="%d"%s>`, s.row, attributes)
	s.open = true
	return s.row
}

// Remark writes a row of running text over the first columns, which are so many
// digits wide together. It is broken into lines, so that a narrow sheet prints
// all of it.
func (s *Sheet) Remark(text string, columns int, width float64) {
	s.TallRow(LineHeight(text, width))
	s.Text(Remark, text)
	if columns > 1 {
		s.Merge(0, columns-1)
	}
}

// titleHeight is the height in points of a row with a sheet's title.
const titleHeight = 24

// Title writes a row with the sheet's title.
func (s *Sheet) Title(text string) {
	s.TallRow(titleHeight)
	s.Text(Title, text)
}

// TitleFormula writes a row with a title that is worked out: a formula without
// "=", and the text that it comes to.
func (s *Sheet) TitleFormula(formula, value string) {
	s.TallRow(titleHeight)
	s.TextFormula(Title, formula, value)
}

// Section writes a row with the head of a part of the sheet over the first columns.
func (s *Sheet) Section(text string, columns int) {
	s.TallRow(20)
	s.Text(Section, text)
	for range columns - 1 {
		s.Blank(Section, General)
	}
}

// SkipRow leaves a row empty.
func (s *Sheet) SkipRow() {
	s.endRow()
	s.row++
	s.height += rowHeight
}

func (s *Sheet) endRow() {
	if s.open {
		s.rows = append(s.rows, "</row>"...)
		s.open = false
		if len(s.rows) > mostRows {
			s.pack()
		}
	}
	s.wide = max(s.wide, s.col)
}

// Skip leaves n cells without content or look.
func (s *Sheet) Skip(n int) { s.col += n }

// cell writes the next cell; kind is its type, "" for a number. Texts are handed on in
// pieces: joining them first takes half as long again.
func (s *Sheet) cell(look Look, format Format, kind string, content ...string) {
	at := s.book.place(cellFormat{look, format})
	s.write(`<c r="`, Letters(s.col), strconv.Itoa(s.row), `" s="`, strconv.Itoa(at), `"`)
	if kind != "" {
		s.write(` t="`, kind, `"`)
	}
	if content == nil {
		s.write("/>")
	} else {
		s.write(">")
		s.write(content...)
		s.write("</c>")
	}
	s.col++
}

// write adds to the rows.
func (s *Sheet) write(pieces ...string) {
	for _, piece := range pieces {
		s.rows = append(s.rows, piece...)
	}
}

// Blank writes an empty cell, to be filled in or to complete a frame.
func (s *Sheet) Blank(look Look, format Format) { s.cell(look, format, "") }

// Text writes a text, which stays text whatever it looks like.
func (s *Sheet) Text(look Look, text string) { s.FormattedText(look, General, text) }

// FormattedText is Text in a cell whose number format matters when somebody
// types into it later.
func (s *Sheet) FormattedText(look Look, format Format, text string) {
	if text = s.fit(text); text == "" {
		s.Blank(look, format)
		return
	}
	s.cell(look, format, inlineCell, `<is><t xml:space="preserve">`, escaped(escapeUnder(text)), "</t></is>")
}

// Number writes a number, which must be finite.
func (s *Sheet) Number(look Look, format Format, x float64) {
	s.cell(look, format, "", "<v>", s.number(x), "</v>")
}

// Formula writes a formula, without "=", and the number that it comes to.
func (s *Sheet) Formula(look Look, format Format, formula string, value float64) {
	s.cell(look, format, "", "<f>", s.formula(formula), "</f><v>", s.number(value), "</v>")
}

// TextFormula writes a formula, without "=", and the text that it comes to.
func (s *Sheet) TextFormula(look Look, formula, value string) {
	s.cell(look, General, formulaCell, "<f>", s.formula(formula), "</f><v>", escaped(escapeUnder(s.fit(value))), "</v>")
}

// number is the number of a cell.
func (s *Sheet) number(x float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		s.book.Fail(fmt.Errorf("%s: %v is not a number that a workbook can hold", s.place(), x))
	}
	return Literal(x)
}

// formula is the formula of a cell.
func (s *Sheet) formula(formula string) string {
	tooLong := len(formula) > maxFormula && units(formula) > maxFormula
	if formula == "" || formula[0] == '=' || tooLong || clean(formula) != formula {
		s.book.Fail(fmt.Errorf("%s: the formula %.40q cannot stand in a workbook", s.place(), formula))
	}
	return escaped(formula)
}

// fit makes a text fit a cell and warns when it had to be cut.
func (s *Sheet) fit(text string) string {
	text, wasCut := Cut(clean(text), maxText)
	if wasCut {
		s.book.warnings = append(s.book.warnings,
			fmt.Sprintf("%s: text longer than %d characters is cut", s.place(), maxText))
	}
	return text
}

// place names the next cell in a message.
func (s *Sheet) place() string {
	return fmt.Sprintf("sheet %q, cell %s", s.Name, Address(s.col, s.row))
}

// Literal is a number within a formula: the shortest text that reads back as x.
func Literal(x float64) string {
	if x == 0 {
		x = 0 // no "-0"
	}
	return strconv.FormatFloat(x, 'g', -1, 64)
}
