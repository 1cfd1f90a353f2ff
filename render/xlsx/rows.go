package xlsx

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// readRows reads the values of one sheet. Cells and rows without an address
// stand after the one before.
func (w *reading) readRows(name, part string) (rows []TableRow, err error) {
	last := 0 // number of the row before
	err = w.each(part, func(s *scanner) error {
		if string(s.name) != "row" {
			return nil
		}
		row := TableRow{Number: last + 1, Hidden: truth(string(s.attribute("hidden")))}
		if r := s.attribute("r"); len(r) > 0 {
			var err error
			if row.Number, err = strconv.Atoi(string(r)); err != nil || row.Number <= last || row.Number > maxRows {
				return s.broken(fmt.Sprintf("has a row numbered %.20q after row %d", r, last))
			}
		}
		last = row.Number
		if err := w.readCells(s, &row); err != nil || len(row.Cells) == 0 {
			return err
		}
		if row.Number > w.limits.Rows {
			return fmt.Errorf("has a value in row %d of sheet %.40q, far below its table: clear it there (row %d is the last that is read)",
				row.Number, name, w.limits.Rows)
		}
		rows = append(rows, row)
		return nil
	})
	return rows, err
}

// readCells reads the cells of the row that was just begun.
func (w *reading) readCells(s *scanner, row *TableRow) error {
	inRow := s.depth
	w.line = w.line[:0]
	next := 0 // column after the cell before
	for {
		kind, err := s.next()
		switch {
		case err != nil:
			return err
		case s.depth < inRow:
			row.Cells = slices.Clone(w.line)
			return nil
		case kind != startTag || string(s.name) != "c":
			continue
		}
		c := cell{row: row.Number, column: next}
		if r := s.attribute("r"); len(r) > 0 {
			column, number, ok := parseAddress(string(r))
			if !ok || number != row.Number || column < next {
				return s.broken(fmt.Sprintf("has a cell %.20q in row %d", r, row.Number))
			}
			c.column = column
		}
		next = c.column + 1
		value, err := w.readCell(s, &c)
		if err != nil {
			return err
		}
		if value == (Value{}) {
			continue
		}
		if c.column >= w.limits.Columns {
			return fmt.Errorf("has a value in cell %s, far beside its table: clear it there (column %s is the last that is read)",
				c, Letters(w.limits.Columns-1))
		}
		if len(w.line) == 0 {
			row.Struck = c.format < len(w.struck) && w.struck[c.format]
		}
		// The blanks before a value take as much memory as it does.
		if w.cells += next - len(w.line); w.cells > w.limits.Cells {
			return tooLarge("its rows come to more than %d cells", w.limits.Cells)
		}
		for len(w.line) < c.column {
			w.line = append(w.line, Value{})
		}
		w.line = append(w.line, value)
	}
}

// cell is a cell while it is read.
type cell struct {
	row, column int
	kind        string // as its attribute t says
	format      int    // index into the cell formats
	text        string // of v
	inline      string
	formula     bool
	saved       bool // v is there
}

func (c cell) String() string { return Address(c.column, c.row) }

// readCell reads the cell that was just begun.
func (w *reading) readCell(s *scanner, c *cell) (Value, error) {
	c.kind = cellKind(s.attribute("t"))
	c.format = math.MaxInt
	if i, err := strconv.Atoi(string(s.attribute("s"))); err == nil && i >= 0 {
		c.format = i
	}
	w.raw = w.raw[:0]
	inCell := s.depth
	for s.depth >= inCell {
		kind, err := s.next()
		switch {
		case err != nil:
			return Value{}, err
		case kind == characters && s.depth == inCell+1 && s.isIn("/v"):
			if w.raw = append(w.raw, s.chars...); len(w.raw) > maxToken {
				return Value{}, s.longText()
			}
		case kind == startTag:
			switch string(s.name) {
			case "f":
				c.formula = true
			case "v":
				c.saved = true
			case "is":
				if c.inline, err = s.readText(); err != nil {
					return Value{}, err
				}
			}
		}
	}
	if c.text = string(w.raw); units(c.text) > maxText {
		return Value{}, s.longText()
	}
	return w.value(s, c)
}

// The types of cell (ECMA-376-1, 18.18.11, ST_CellType), but for numbers.
const (
	sharedCell  = "s"
	inlineCell  = "inlineStr"
	formulaCell = "str"
	boolCell    = "b"
	faultCell   = "e"
	momentCell  = "d"
)

// cellKind is the type of a cell, empty for a number.
func cellKind(t []byte) string {
	for _, kind := range []string{sharedCell, inlineCell, formulaCell, boolCell, faultCell, momentCell} {
		if string(t) == kind {
			return kind
		}
	}
	return ""
}

// value is what a cell holds.
func (w *reading) value(s *scanner, c *cell) (Value, error) {
	bare := strings.TrimSpace(c.text)
	if c.formula && (!c.saved || bare == "" && c.kind != formulaCell) {
		return Value{Unsaved: true}, nil
	}
	switch c.kind {
	case inlineCell:
		return textValue(c.inline), nil
	case formulaCell:
		return textValue(unescapeUnder(c.text)), nil
	case faultCell:
		return Value{Kind: KindFault, Text: bare}, nil
	case momentCell:
		return Value{Kind: KindMoment, Text: strings.TrimSuffix(strings.Replace(bare, "T", " ", 1), " 00:00:00")}, nil
	}
	if bare == "" {
		return Value{}, nil
	}
	switch c.kind {
	case boolCell:
		return Value{Kind: KindBool, Text: strings.ToUpper(strconv.FormatBool(truth(bare)))}, nil
	case sharedCell:
		i, err := strconv.Atoi(bare)
		if err != nil || i < 0 || i >= len(w.texts) {
			return Value{}, s.broken(fmt.Sprintf("refers in cell %s to text %.20q of %d", c, bare, len(w.texts)))
		}
		return textValue(w.texts[i]), nil
	}
	return w.numberValue(bare, c.format), nil
}

func textValue(text string) Value {
	if text == "" {
		return Value{}
	}
	return Value{Kind: KindText, Text: text}
}

// numberValue reads a number, shown by a cell format.
func (w *reading) numberValue(bare string, format int) Value {
	x, err := strconv.ParseFloat(bare, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return Value{Kind: KindText, Text: bare} // left to whoever needs a number to complain
	}
	if format < len(w.moments) && w.moments[format] != plainNumber {
		if text, ok := w.moment(x, w.moments[format]); ok {
			return Value{Kind: KindMoment, Text: text, Number: x}
		}
	}
	// Programs show 15 digits at most; the noise beyond them was not typed.
	shown, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 15, 64), 64)
	return Value{Kind: KindNumber, Text: strconv.FormatFloat(shown, 'f', -1, 64), Number: x}
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
