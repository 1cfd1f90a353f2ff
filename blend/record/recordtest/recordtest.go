// Package recordtest makes the logs that tests read: of a plan in testdata, as
// they are written, to be filled in and spoilt.
package recordtest

import (
	"math/rand/v2"
	"os"
	"path/filepath"
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
	fire := record.Sheet{Name: record.SheetFirings}
	for i, l := range record.FiringLabels() {
		fire.Rows = append(fire.Rows, record.Row{Number: i + 1, Cells: []record.Cell{Words(l.Label), {}}})
	}
	about := record.Sheet{Name: record.SheetPlan}
	line := func(texts ...string) {
		row := record.Row{Number: len(about.Rows) + 1}
		for _, text := range texts {
			row.Cells = append(row.Cells, Words(text))
		}
		about.Rows = append(about.Rows, row)
	}
	line(record.HeadLetters)
	for _, text := range m.Scheme.Letters().Lines() {
		line(text)
	}
	line(record.HeadFingerprint, m.Fingerprint)
	for _, text := range m.Outline {
		line(text)
	}
	return []record.Sheet{tiles, fire, about}
}

// FullLog is BlankLog with the amounts and the text of the plan.
func (m Made) FullLog() []record.Sheet {
	sheets := m.BlankLog()
	amounts := record.Sheet{Name: "Amounts"}
	text := record.Sheet{Name: record.SheetText}
	add := func(s *record.Sheet, line string) {
		s.Rows = append(s.Rows, record.Row{Number: len(s.Rows) + 1, Cells: []record.Cell{Words(line)}})
	}
	add(&amounts, record.HeadAmounts)
	for _, line := range identity.AmountsOf(m.Test.Plan).Lines() {
		add(&amounts, line)
	}
	for _, line := range strings.Split(string(plan.Write(m.Test.Plan)), "\n") {
		add(&text, line)
	}
	return append(sheets, amounts, text)
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
	for i, c := range s.Rows[0].Cells {
		if c.Text == head {
			return i
		}
	}
	t.Fatalf("no column %q", head)
	return 0
}

// RowOf is the row of a mark.
func RowOf(t testing.TB, s *record.Sheet, mark string) *record.Row {
	t.Helper()
	for i := range s.Rows {
		if s.Rows[i].Cells[0].Text == mark {
			return &s.Rows[i]
		}
	}
	t.Fatalf("no row of mark %q", mark)
	return nil
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

// Shuffle puts rows in another order, numbers of the rows and all.
func Shuffle(rows []record.Row, seed uint64) {
	random := rand.New(rand.NewPCG(seed, 1))
	random.Shuffle(len(rows), func(a, b int) { rows[a], rows[b] = rows[b], rows[a] })
	for i := range rows {
		rows[i].Number = i + 2
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
