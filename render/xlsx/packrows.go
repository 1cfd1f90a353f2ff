package xlsx

import (
	"bytes"
	"compress/flate"
	"io"
	"iter"
	"strings"
)

// mostRows is how many bytes of rows are kept as they are. A record book of a
// thousand tests has a hundred times as much; packed it is a tenth of that.
const mostRows = 1 << 20

// packRows packs the rows so far if they have become many.
func (s *Sheet) packRows() {
	if len(s.rows) < mostRows {
		return
	}
	var out bytes.Buffer
	w, err := flate.NewWriter(&out, flate.BestSpeed)
	if err == nil {
		_, err = w.Write(s.rows)
	}
	if err == nil {
		err = w.Close()
	}
	if err != nil {
		s.book.Fail(err)
	}
	s.packed = append(s.packed, bytes.Clone(out.Bytes()))
	s.rows, s.began = s.rows[:0], 0
}

// What the rows stand between in the part of a sheet.
const (
	rowsBegin = "<sheetData>"
	rowsEnd   = "</sheetData>"
)

// pieces cuts a part into pieces of the size of room, which they share. The
// rows of a sheet come into their place.
func (b *Book) pieces(name, part string, room []byte) iter.Seq[[]byte] {
	return func(yield func([]byte) bool) {
		head, tail := part, ""
		var rows *Sheet
		for i, s := range b.sheets {
			if name == partOfSheet(i) {
				at := strings.Index(part, rowsBegin) + len(rowsBegin)
				head, tail, rows = part[:at], part[at:], s
			}
		}
		readers := []io.Reader{strings.NewReader(head)}
		if rows != nil {
			for _, packed := range rows.packed {
				readers = append(readers, flate.NewReader(bytes.NewReader(packed)))
			}
			readers = append(readers, bytes.NewReader(rows.rows))
		}
		all := io.MultiReader(append(readers, strings.NewReader(tail))...)
		for {
			n, err := all.Read(room)
			if n > 0 && !yield(room[:n]) {
				return
			}
			if err != nil { // the end: what is read lies in memory
				return
			}
		}
	}
}
