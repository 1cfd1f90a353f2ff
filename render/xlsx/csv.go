package xlsx

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// readCSV reads a table of text. The sign between the fields is the one of
// , ; and tab that the first line has most of.
func readCSV(r io.Reader, limits Limits) (Table, error) {
	data, err := io.ReadAll(io.LimitReader(r, limits.PartBytes+1))
	if err != nil {
		return Table{}, fmt.Errorf("cannot be read: %w", err)
	}
	if int64(len(data)) > limits.PartBytes {
		return Table{}, tooLarge("it is larger than %s", byteCount(limits.PartBytes))
	}
	text, err := plainText(data)
	data = nil
	if err != nil {
		return Table{}, err
	}
	skipped := 0
	delimiter := rune(0)
	if sep, rest, ok := strings.Cut(text, "\n"); ok && len(sep) == 5 && strings.HasPrefix(sep, "sep=") {
		// The first line of some programs names the sign.
		delimiter, text, skipped = rune(sep[4]), rest, 1
	}
	if !strings.ContainsRune(",;\t", delimiter) {
		delimiter = sniff(text)
	}
	if line := overlong(text, delimiter); line > 0 {
		return Table{}, tooLarge("line %d has more than %d fields, or is longer than %s", line+skipped, maxColumns, byteCount(maxRecord))
	}
	c := csv.NewReader(strings.NewReader(text))
	c.Comma = delimiter
	c.FieldsPerRecord = -1
	c.ReuseRecord = true

	var t Table
	cells := 0
	for {
		record, err := c.Read()
		if err == io.EOF {
			return t, nil
		}
		if err != nil {
			var where *csv.ParseError
			if errors.As(err, &where) {
				return Table{}, fmt.Errorf("cannot be read: line %d has a quotation mark in the wrong place", where.Line+skipped)
			}
			return Table{}, fmt.Errorf("cannot be read: %w", err)
		}
		line, _ := c.FieldPos(0)
		row := TableRow{Number: line + skipped, Width: len(record)}
		for column, field := range record {
			if field == "" {
				continue
			}
			if cells++; cells > limits.Cells {
				return Table{}, tooLarge("more than %d fields are filled", limits.Cells)
			}
			if column >= limits.Columns {
				return Table{}, tooLarge("line %d has more than %d fields", row.Number, limits.Columns)
			}
			for len(row.Cells) < column {
				row.Cells = append(row.Cells, Value{})
			}
			row.Cells = append(row.Cells, Value{Kind: KindText, Text: clean(field)})
		}
		if len(row.Cells) == 0 {
			continue
		}
		if len(t.Rows) >= limits.Rows {
			return Table{}, tooLarge("more than %d lines are filled", limits.Rows)
		}
		t.Rows = append(t.Rows, row)
	}
}

// plainText decodes a text file, with line feeds for all line ends.
func plainText(data []byte) (string, error) {
	switch {
	case bytes.HasPrefix(data, []byte("\xFF\xFE")), bytes.HasPrefix(data, []byte("\xFE\xFF")):
		if len(data)%2 != 0 {
			return "", errors.New("cannot be read: it ends in the middle of a character")
		}
		big := data[0] == 0xFE
		at := func(i int) rune {
			if i >= len(data) {
				return 0
			}
			a, b := data[i], data[i+1]
			if !big {
				a, b = b, a
			}
			return rune(a)<<8 | rune(b)
		}
		plain := make([]byte, 0, len(data)/2)
		for i := 2; i < len(data); i += 2 {
			r := at(i)
			if utf16.IsSurrogate(r) {
				if pair := utf16.DecodeRune(r, at(i+2)); pair != utf8.RuneError {
					r, i = pair, i+2
				}
			}
			plain = utf8.AppendRune(plain, r)
		}
		data = plain
	default:
		data = bytes.TrimPrefix(data, []byte("\xEF\xBB\xBF"))
	}
	if bytes.IndexByte(data, 0) >= 0 {
		return "", errors.New("is not a table of text: save it as CSV (UTF-8) or .xlsx")
	}
	if !utf8.Valid(data) {
		return "", errors.New("is not written in UTF-8: save it as CSV (UTF-8) or .xlsx")
	}
	if bytes.IndexByte(data, '\r') >= 0 {
		data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
		data = bytes.ReplaceAll(data, []byte("\r"), []byte("\n"))
	}
	return string(data), nil
}

// maxRecord is how many bytes a record may have: a few of the longest cells.
const maxRecord = 1 << 20

// overlong is the line where a record begins that has more fields than a
// spreadsheet has columns, or more bytes than maxRecord, 0 when there is none.
// The reader of CSV makes all fields of a record at once, each larger than the
// sign that it is made of.
func overlong(text string, delimiter rune) int {
	line, from, start, fields, quoted := 1, 1, 0, 1, false
	for i := range len(text) {
		if i-start > maxRecord {
			return from
		}
		switch c := text[i]; {
		case c == '"':
			quoted = !quoted
		case c == '\n':
			line++
			if !quoted {
				from, start, fields = line, i, 1
			}
		case rune(c) == delimiter && !quoted:
			if fields++; fields > maxColumns {
				return from
			}
		}
	}
	return 0
}

// sniff finds the sign between the fields of the first line that is not empty.
func sniff(text string) rune {
	counts := map[rune]int{}
	quoted := false
	line := strings.TrimLeft(text, "\n")
	for _, r := range line {
		if r == '"' {
			quoted = !quoted
		}
		if quoted {
			continue
		}
		if r == '\n' {
			break
		}
		counts[r]++
	}
	best := ','
	for _, r := range []rune{';', '\t'} {
		if counts[r] > counts[best] {
			best = r
		}
	}
	return best
}
