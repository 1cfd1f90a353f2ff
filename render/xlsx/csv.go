package xlsx

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"pourboard/blend/quantity"
	"pourboard/blend/record"
)

// mostCSV is how many bytes a table of text may have: twice what a log of 5000 tiles
// has. Reading takes four times as much memory.
const mostCSV = 8 << 20

// readCSV reads a table of text. The separator is the one of
// , ; and tab that the first line has most of.
func readCSV(r io.Reader, limits Limits) (t record.Sheet, err error) {
	most := min(limits.PartBytes/2, mostCSV) // the same table takes more as a workbook
	data, err := io.ReadAll(io.LimitReader(r, most+1))
	if err != nil {
		return t, fmt.Errorf("cannot be read: %w", err)
	}
	if int64(len(data)) > most {
		return t, tooLarge("it is larger than %s", byteCount(most))
	}
	text, err := plainText(data)
	if err != nil {
		return t, err
	}
	c := csv.NewReader(strings.NewReader(text))
	c.Comma, c.FieldsPerRecord, c.ReuseRecord = separator(text), -1, true
	// The reader makes all fields of a line at once.
	if strings.Count(text, string(c.Comma))+strings.Count(text, "\n") >= limits.Cells {
		return t, tooLarge("it has more than %d fields", limits.Cells)
	}
	for {
		fields, err := c.Read()
		var where *csv.ParseError
		switch {
		case err == io.EOF:
			return t, nil
		case errors.As(err, &where):
			return t, fmt.Errorf("cannot be read: line %d has a quotation mark in the wrong place", where.Line)
		case err != nil:
			return t, fmt.Errorf("cannot be read: %w", err)
		}
		line, _ := c.FieldPos(0)
		row := record.Row{Number: line, Width: len(fields)}
		for column, field := range fields {
			if field == "" {
				continue
			}
			if column >= limits.Columns {
				return t, tooLarge("line %d has more than %d fields", row.Number, limits.Columns)
			}
			row.Cells = append(row.Cells, make([]record.Cell, column-len(row.Cells))...)
			row.Cells = append(row.Cells, record.Cell{Kind: record.Text, Text: clean(field)})
		}
		if row.Cells != nil {
			t.Rows = append(t.Rows, row)
		}
		if len(t.Rows) > limits.Rows {
			return t, tooLarge("more than %d lines are filled", limits.Rows)
		}
	}
}

// plainText is the text of a file, with line feeds for all line ends.
func plainText(file []byte) (string, error) {
	data, foreign := quantity.Text(file)
	switch {
	case foreign != "":
		return "", errors.New("is " + foreign + ", not a log (give " + whichLog + ")")
	case bytes.IndexByte(data, 0) >= 0:
		return "", errors.New("is not a table of text (save it as CSV UTF-8 or .xlsx)")
	case !utf8.Valid(data):
		return "", errors.New("is not written in UTF-8 (save it as CSV UTF-8 or .xlsx)")
	}
	return string(data), nil
}

// separator is the one of , ; and tab that the first line with text has most of.
func separator(text string) rune {
	first, _, _ := strings.Cut(strings.TrimLeft(text, "\n"), "\n")
	best := ","
	for _, other := range []string{";", "\t"} {
		if strings.Count(first, other) > strings.Count(first, best) {
			best = other
		}
	}
	return rune(best[0])
}
