// Package recordtest makes the logs that tests read: of a plan in testdata, as
// they are written, to be filled in and spoilt.
package recordtest

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/mark"
	"pourboard/blend/plan"
	"pourboard/blend/record"
)

// Made is a test with the marks of its tiles.
type Made struct {
	Test        *blend.Test
	Scheme      mark.Scheme
	Fingerprint string
	Outline     []string
}

// Planned makes the test of a plan in testdata, changed as change says. The
// test that calls it lies two folders below the top.
func Planned(t testing.TB, name string, change func(p *blend.Plan)) Made {
	t.Helper()
	src, err := os.ReadFile(filepath.Join("..", "..", "testdata", "plans", name+".toml"))
	if err != nil {
		t.Fatal(err)
	}
	p, _, err := plan.Read(name, src)
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		change(p)
	}
	return Replanned(t, p)
}

// Replanned is a plan worked out.
func Replanned(t testing.TB, p *blend.Plan) Made {
	t.Helper()
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return Made{test, mark.New(p, len(test.Cells)), identity.Fingerprint(p), identity.OutlineOf(p).Lines()}
}

// BlankLog is a log as it is written, with nothing filled in.
func (m Made) BlankLog() []record.Sheet {
	columns := record.Columns(m.Test.Plan)
	tiles := record.Sheet{Name: record.SheetTiles, Rows: []record.Row{{Number: 1}}}
	for _, c := range columns {
		tiles.Rows[0].Cells = append(tiles.Rows[0].Cells, Words(c.Head))
	}
	for i := range m.Scheme.Tiles() {
		row := record.Row{Number: i + 2}
		for _, c := range columns {
			cell := c.Printed(m.Test, m.Scheme.Tile(i))
			if c.Field == record.PlanField {
				cell = Words(m.Fingerprint)
			}
			row.Cells = append(row.Cells, cell)
		}
		tiles.Rows = append(tiles.Rows, row)
	}
	var fire, about [][]string
	for _, l := range record.FiringLabels() {
		fire = append(fire, []string{l.Label, ""})
	}
	for _, line := range slices.Concat([]string{record.HeadLetters}, m.Scheme.Letters().Lines()) {
		about = append(about, []string{line})
	}
	about = append(about, []string{record.HeadFingerprint, m.Fingerprint})
	for _, line := range m.Outline {
		about = append(about, []string{line})
	}
	return []record.Sheet{tiles, SheetOf(record.SheetFirings, fire...), SheetOf(record.SheetPlan, about...)}
}

// SheetOf is a sheet with rows of texts.
func SheetOf(name string, rows ...[]string) record.Sheet {
	s := record.Sheet{Name: name}
	for i, texts := range rows {
		row := record.Row{Number: i + 1}
		for _, text := range texts {
			row.Cells = append(row.Cells, Words(text))
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}

// Read reads a log that must be readable.
func (m Made) Read(t testing.TB, sheets []record.Sheet) *record.Log {
	t.Helper()
	log, err := record.Read(m.Test, sheets)
	if err != nil {
		t.Fatal(err)
	}
	return log
}

// Column is the place of a head in the sheet of tiles.
func Column(t testing.TB, s record.Sheet, head string) int {
	t.Helper()
	i := slices.IndexFunc(s.Rows[0].Cells, func(c record.Cell) bool { return c.Text == head })
	if i < 0 {
		t.Fatalf("no column %q", head)
	}
	return i
}

// RowOf is the row of a mark.
func RowOf(t testing.TB, s *record.Sheet, mark string) *record.Row {
	t.Helper()
	i := slices.IndexFunc(s.Rows, func(r record.Row) bool { return r.Cells[0].Text == mark })
	if i < 0 {
		t.Fatalf("no row of mark %q", mark)
	}
	return &s.Rows[i]
}

// Put fills in a cell.
func Put(t testing.TB, s *record.Sheet, mark, head string, c record.Cell) {
	t.Helper()
	RowOf(t, s, mark).Cells[Column(t, *s, head)] = c
}

// Words is a cell of text.
func Words(text string) record.Cell {
	if text == "" {
		return record.Cell{}
	}
	return record.Cell{Kind: record.Text, Text: text}
}

// Number is a cell that holds x.
func Number(x float64) record.Cell {
	return record.Cell{Kind: record.Number, Text: strconv.FormatFloat(x, 'f', -1, 64), Number: x}
}

// Fill gives every tile a number in a column.
func (m Made) Fill(t testing.TB, s *record.Sheet, head string, value func(tile mark.Tile) float64) {
	t.Helper()
	at := Column(t, *s, head)
	for i := range s.Rows[1:] {
		s.Rows[i+1].Cells[at] = Number(value(m.Scheme.Tile(i)))
	}
}

// Complaints are those of a log, one a line.
func Complaints(log *record.Log) string {
	var lines []string
	for _, c := range log.Complaints {
		lines = append(lines, c.String())
	}
	return strings.Join(lines, "\n")
}
