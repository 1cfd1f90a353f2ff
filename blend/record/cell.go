package record

import "strconv"

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
