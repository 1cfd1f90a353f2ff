package record

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// Sheet is a sheet of a log as it was read, from a workbook or from CSV.
type Sheet struct {
	Name string // empty for CSV
	Rows []Row  // those that hold something, in order
}

// Row is one row of a Sheet.
type Row struct {
	Number int    // in its sheet, from 1; of CSV the line
	Cells  []Cell // by column from 0; short where the rest is blank
	Width  int    // of CSV how many fields the line has, blank ones too; 0 of a workbook
	Hidden bool   // by hand or by a filter
	Struck bool   // its first cell is crossed out
}

// cell is the cell in a column, blank beyond the last one.
func (r Row) cell(column int) Cell {
	if column < 0 || column >= len(r.Cells) {
		return Cell{}
	}
	return r.Cells[column]
}

// blank reports whether a row holds nothing.
func (r Row) blank() bool {
	return !slices.ContainsFunc(r.Cells, func(c Cell) bool { return !c.blank() })
}

// Kind is what a cell of a log holds.
type Kind uint8

// The kinds of cell.
const (
	Blank  Kind = iota
	Text        // as typed
	Number      // a number; Text is its shortest form with a point before the decimals
	Truth       // TRUE or FALSE
	Date        // a date or a time; Text is 2025-03-01, 2025-03-01 14:30 or 14:30
	Fault       // an error of the spreadsheet program, such as #DIV/0!
	Stale       // a formula whose value the saving program left out
)

// Cell is one cell of a log.
type Cell struct {
	Kind   Kind
	Text   string
	Number float64 // of a Number
}

// numberCell is a cell that holds x.
func numberCell(x float64) Cell {
	return Cell{Kind: Number, Text: strconv.FormatFloat(x, 'f', -1, 64), Number: x}
}

// blank reports whether a cell holds nothing but spaces.
func (c Cell) blank() bool {
	return c.Kind == Blank || c.Kind == Text && strings.TrimSpace(c.Text) == ""
}

// text is what a cell of free text says.
func (c Cell) text() string { return strings.TrimSpace(c.Text) }

// says reports whether a cell is a text that reads as another, such as a head.
func (c Cell) says(text string) bool { return c.Kind == Text && fold(c.Text) == fold(text) }

// readable reports whether a cell has a text that a person sees too.
func (c Cell) readable() bool { return !c.blank() && c.Kind != Fault && c.Kind != Stale }

// fault is why a cell cannot be read at all, nil where it can.
func (c Cell) fault() *Complaint {
	switch c.Kind {
	case Fault:
		return skipped("", "the error "+short(c.Text), "enter the reading")
	case Stale:
		return skipped("", "a formula without its value", "save the log again in a spreadsheet program, or type the value")
	}
	return nil
}

// fold is a text by which heads, labels and choices are compared: without case
// and without any blank, unlike quantity.Fold, for programs break and join heads.
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '\u200b' || r == '\ufeff' {
			return -1
		}
		return unicode.ToLower(r)
	}, s)
}

// labelled is the first text of a row and the cells from the next one on.
func labelled(row Row) (label string, beside []Cell) {
	for i, cell := range row.Cells {
		switch {
		case !cell.readable():
		case label == "":
			label = cell.text()
		default:
			return label, row.Cells[i:]
		}
	}
	return label, nil
}

// joined are the texts of cells as one.
func joined(cells []Cell) string {
	var all []string
	for _, cell := range cells {
		if cell.readable() {
			all = append(all, cell.text())
		}
	}
	return strings.Join(all, " ")
}
