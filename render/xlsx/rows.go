package xlsx

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/record"
)

// readRows reads the values of one sheet. Cells and rows without an address
// come after the one before.
func (w *reading) readRows(name, part string) (rows []record.Row, err error) {
	last := 0 // number of the row before
	err = w.each(part, func(s *scanner) error {
		if string(s.name) != "row" {
			return nil
		}
		row := record.Row{Number: last + 1, Hidden: truth(s.attribute("hidden"))}
		if r := s.attribute("r"); len(r) > 0 {
			var err error
			if row.Number, err = strconv.Atoi(r); err != nil || row.Number <= last || row.Number > maxRows {
				return s.broken(fmt.Sprintf("has a row numbered %.20q after row %d", r, last))
			}
		}
		last = row.Number
		if err := w.readCells(s, &row); err != nil || len(row.Cells) == 0 {
			return err
		}
		if row.Number > w.limits.Rows {
			return fmt.Errorf("has a value in row %d of sheet %.40q, far below its table "+
				"(clear it there; row %d is the last that is read)", row.Number, name, w.limits.Rows)
		}
		rows = append(rows, row)
		return nil
	})
	return rows, err
}

// readCells reads the cells of the row that was just begun.
func (w *reading) readCells(s *scanner, row *record.Row) error {
	w.line = w.line[:0]
	next := 0 // column after the cell before
	err := s.within(func(kind token) error {
		if kind != startTag || string(s.name) != "c" {
			return nil
		}
		column := next
		if r := s.attribute("r"); len(r) > 0 {
			var number int
			var ok bool
			if column, number, ok = parseAddress(r); !ok || number != row.Number || column < next {
				return s.broken(fmt.Sprintf("has a cell %.20q in row %d", r, row.Number))
			}
		}
		next = column + 1
		format := s.format()
		value, err := w.readCell(s, row.Number, format)
		if err != nil || value == (record.Cell{}) {
			return err
		}
		if column >= w.limits.Columns {
			return fmt.Errorf("has a value in cell %s, far beside its table "+
				"(clear it there; column %s is the last that is read)", Address(column, row.Number), Letters(w.limits.Columns-1))
		}
		if len(w.line) == 0 {
			row.Struck = format < len(w.formats) && w.formats[format].struck
		}
		// The blanks before a value take as much memory as it does.
		if w.cells += next - len(w.line); w.cells > w.limits.Cells {
			return tooLarge("its rows come to more than %d cells", w.limits.Cells)
		}
		for len(w.line) < column {
			w.line = append(w.line, record.Cell{})
		}
		w.line = append(w.line, value)
		return nil
	})
	row.Cells = slices.Clone(w.line)
	return err
}

// format is the index of the format of a cell, of which the tag was read last; one that
// no cell has where it says none.
func (s *scanner) format() int {
	if i, err := strconv.Atoi(s.attribute("s")); err == nil && i >= 0 {
		return i
	}
	return math.MaxInt
}

// readCell reads the cell that was just begun.
func (w *reading) readCell(s *scanner, row, format int) (record.Cell, error) {
	kind, text := s.attribute("t"), ""
	formula, saved := false, false
	err := s.within(func(on token) (err error) {
		if on != startTag {
			return nil
		}
		switch string(s.name) {
		case "f":
			formula = true
		case "v":
			saved = true
			text, err = s.readText("/v")
		case "is":
			text, err = s.readText("/t")
		}
		return err
	})
	if err != nil || formula && (!saved || strings.TrimSpace(text) == "" && kind != formulaCell) {
		return record.Cell{Kind: record.Stale}, err
	}
	return w.value(s, row, kind, text, format)
}

// value is what a cell of a type holds, by the text of it.
func (w *reading) value(s *scanner, row int, kind, text string, format int) (record.Cell, error) {
	if kind == inlineCell || kind == formulaCell {
		return textValue(text), nil
	}
	if text = strings.TrimSpace(text); kind != sharedCell || text == "" {
		return w.plainValue(kind, text, format), nil
	}
	if i, err := strconv.Atoi(text); err == nil && i >= 0 && i < len(w.texts) {
		return textValue(w.texts[i]), nil
	}
	return record.Cell{}, s.broken(fmt.Sprintf("refers in row %d to text %.20q of %d", row, text, len(w.texts)))
}

// plainValue is what a cell holds that refers to no text, by its type.
func (w *reading) plainValue(kind, text string, format int) record.Cell {
	switch kind {
	case faultCell:
		return record.Cell{Kind: record.Fault, Text: text}
	case momentCell:
		return record.Cell{Kind: record.Date, Text: strings.TrimSuffix(strings.Replace(text, "T", " ", 1), " 00:00:00")}
	}
	if text == "" {
		return record.Cell{}
	}
	if kind == boolCell {
		return record.Cell{Kind: record.Truth, Text: strings.ToUpper(strconv.FormatBool(truth(text)))}
	}
	return w.numberValue(text, format)
}

// The types of cell (ECMA-376-1, 18.18.11, ST_CellType); any other is a number.
const (
	sharedCell  = "s"
	inlineCell  = "inlineStr"
	formulaCell = "str"
	boolCell    = "b"
	faultCell   = "e"
	momentCell  = "d"
)

func textValue(text string) record.Cell {
	if text == "" {
		return record.Cell{}
	}
	return record.Cell{Kind: record.Text, Text: text}
}

// numberValue reads a number, shown by a cell format.
func (w *reading) numberValue(bare string, format int) record.Cell {
	x, err := strconv.ParseFloat(bare, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return record.Cell{Kind: record.Text, Text: bare} // left to whoever needs a number to complain
	}
	if format < len(w.formats) && w.formats[format].moment != plainNumber {
		if text, ok := moment(x, w.formats[format].moment); ok {
			return record.Cell{Kind: record.Date, Text: text}
		}
	}
	// Programs show 15 digits at most; the noise beyond them was not typed.
	shown, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 15, 64), 64)
	return record.Cell{Kind: record.Number, Text: strconv.FormatFloat(shown, 'f', -1, 64), Number: x}
}

// parseAddress reads a cell's address: B7 is column 1, row 7.
func parseAddress(s string) (column, row int, ok bool) {
	i := 0
	for ; i < len(s) && i < 4; i++ {
		c := s[i] &^ 0x20
		if c < 'A' || c > 'Z' {
			break
		}
		column = column*26 + int(c-'A') + 1
	}
	row, err := strconv.Atoi(s[i:])
	if i == 0 || column > maxColumns || err != nil || row < 1 || s[i] == '+' {
		return 0, 0, false
	}
	return column - 1, row, true
}
