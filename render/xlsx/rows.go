package xlsx

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// readRows reads the values of one sheet. Cells and rows without an address
// stand after the one before.
func (w *reading) readRows(name, part string) ([]TableRow, error) {
	s, err := w.scan(part)
	if err != nil {
		return nil, err
	}
	defer s.close()
	var rows []TableRow
	last := 0 // number of the row before
	for {
		token, err := s.next()
		if err == io.EOF {
			return rows, nil
		}
		if err != nil {
			return nil, err
		}
		e, ok := token.(xml.StartElement)
		if !ok || e.Name.Local != "row" {
			continue
		}
		row := TableRow{Number: last + 1, Hidden: truth(attribute(e, "hidden"))}
		if r := attribute(e, "r"); r != "" {
			if row.Number, err = strconv.Atoi(r); err != nil || row.Number <= last || row.Number > maxRows {
				return nil, s.broken(fmt.Sprintf("has a row numbered %.20q after row %d", r, last))
			}
		}
		last = row.Number
		if err := w.readCells(s, &row); err != nil {
			return nil, err
		}
		if len(row.Cells) == 0 {
			continue
		}
		if row.Number > w.limits.Rows {
			return nil, fmt.Errorf("has a value in row %d of sheet %.40q, far below its table: clear it there (row %d is the last that is read)",
				row.Number, name, w.limits.Rows)
		}
		rows = append(rows, row)
	}
}

// readCells reads the cells of the row that was just begun.
func (w *reading) readCells(s *scanner, row *TableRow) error {
	inRow := len(s.open)
	next := 0 // column after the cell before
	for {
		token, err := s.next()
		if err == io.EOF {
			return s.broken("ends in the middle")
		}
		if err != nil {
			return err
		}
		if len(s.open) < inRow {
			return nil
		}
		e, ok := token.(xml.StartElement)
		if !ok || e.Name.Local != "c" {
			continue
		}
		column := next
		if r := attribute(e, "r"); r != "" {
			c, number, ok := parseAddress(r)
			if !ok || number != row.Number || c < next {
				return s.broken(fmt.Sprintf("has a cell %.20q in row %d", r, row.Number))
			}
			column = c
		}
		next = column + 1
		value, err := w.readCell(s, e, column, row.Number)
		if err != nil {
			return err
		}
		if value == (Value{}) {
			continue
		}
		if column >= w.limits.Columns {
			return fmt.Errorf("has a value in cell %s, far beside its table: clear it there (column %s is the last that is read)",
				Address(column, row.Number), Letters(w.limits.Columns-1))
		}
		if first := len(row.Cells) == 0; first {
			row.Struck = w.isStruck(attribute(e, "s"))
		}
		// The blanks before a value take as much memory as it does.
		if w.cells += column + 1 - len(row.Cells); w.cells > w.limits.Cells {
			return tooLarge("its rows come to more than %d cells", w.limits.Cells)
		}
		for len(row.Cells) < column {
			row.Cells = append(row.Cells, Value{})
		}
		row.Cells = append(row.Cells, value)
	}
}

// readCell reads the cell that was just begun.
func (w *reading) readCell(s *scanner, e xml.StartElement, column, row int) (Value, error) {
	var raw strings.Builder // of v
	var inline string
	var formula, saved bool
	inCell := len(s.open)
	for len(s.open) >= inCell {
		token, err := s.next()
		if err == io.EOF {
			return Value{}, s.broken("ends in the middle")
		}
		if err != nil {
			return Value{}, err
		}
		switch t := token.(type) {
		case xml.StartElement:
			switch t.Name.Local {
			case "f":
				formula = true
			case "v":
				saved = true
			case "is":
				if inline, err = s.text(); err != nil {
					return Value{}, err
				}
			}
		case xml.CharData:
			if len(s.open) == inCell+1 && s.open[inCell] == "v" {
				if raw.Len()+len(t) > maxToken {
					return Value{}, s.longText()
				}
				raw.Write(t)
			}
		}
	}
	text := raw.String()
	if units(text) > maxText {
		return Value{}, s.longText()
	}
	bare := strings.TrimSpace(text)
	kind := attribute(e, "t")
	if formula && (!saved || bare == "" && kind != "str") {
		return Value{Unsaved: true}, nil
	}
	switch kind {
	case "s":
		if bare == "" {
			return Value{}, nil
		}
		i, err := strconv.Atoi(bare)
		if err != nil || i < 0 || i >= len(w.texts) {
			return Value{}, s.broken(fmt.Sprintf("refers in cell %s to text %.20q of %d",
				Address(column, row), bare, len(w.texts)))
		}
		return textValue(w.texts[i]), nil
	case "inlineStr":
		return textValue(inline), nil
	case "str":
		return textValue(unescapeUnder(text)), nil
	case "b":
		if bare == "" {
			return Value{}, nil
		}
		return Value{Kind: KindBool, Text: strings.ToUpper(strconv.FormatBool(truth(bare)))}, nil
	case "e":
		return Value{Kind: KindFault, Text: bare}, nil
	case "d":
		return Value{Kind: KindMoment, Text: strings.TrimSuffix(strings.Replace(bare, "T", " ", 1), " 00:00:00")}, nil
	}
	return w.numberValue(bare, attribute(e, "s")), nil
}

// isStruck reports whether a cell format crosses its text out.
func (w *reading) isStruck(format string) bool {
	i, err := strconv.Atoi(format)
	return err == nil && i >= 0 && i < len(w.struck) && w.struck[i]
}

func textValue(text string) Value {
	if text == "" {
		return Value{}
	}
	return Value{Kind: KindText, Text: text}
}

// numberValue reads a cell that holds a number, shown by a cell format.
func (w *reading) numberValue(bare, format string) Value {
	if bare == "" {
		return Value{}
	}
	x, err := strconv.ParseFloat(bare, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return Value{Kind: KindText, Text: bare} // left to whoever needs a number to complain
	}
	if i, err := strconv.Atoi(format); err == nil && i >= 0 && i < len(w.moments) && w.moments[i] != plainNumber {
		if text, ok := w.moment(x, w.moments[i]); ok {
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
