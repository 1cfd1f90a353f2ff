package crate

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/plan"
	"pourboard/layout"
)

// made is a test with the places of its tiles.
type made struct {
	test        *blend.Test
	places      *layout.Places
	fingerprint string
	outline     []string
}

// planned makes the test of a plan in testdata, changed as change says.
func planned(t testing.TB, name string, change func(p *blend.Plan)) made {
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
	return replanned(t, p)
}

// replanned is a plan worked out.
func replanned(t testing.TB, p *blend.Plan) made {
	t.Helper()
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return made{test, layout.Boards(test), plan.Fingerprint(p), plan.Outline(p)}
}

// blankLog is a log as it is written, with nothing filled in.
func (m made) blankLog() []Sheet {
	columns := Columns(m.test.Plan)
	tiles := Sheet{Name: SheetTiles, Rows: []Row{{Number: 1}}}
	for _, c := range columns {
		tiles.Rows[0].Cells = append(tiles.Rows[0].Cells, words(c.Head))
	}
	for i := range m.places.Tiles {
		row := Row{Number: i + 2}
		for _, c := range columns {
			row.Cells = append(row.Cells, c.Printed(m.test, m.places, i))
		}
		tiles.Rows = append(tiles.Rows, row)
	}
	fire := Sheet{Name: SheetFiring}
	for i, l := range FiringLabels() {
		fire.Rows = append(fire.Rows, Row{Number: i + 1, Cells: []Cell{words(l.Label), {}}})
	}
	about := Sheet{Name: SheetPlan, Rows: []Row{{Number: 1, Cells: []Cell{words(HeadFingerprint), words(m.fingerprint)}}}}
	for i, line := range m.outline {
		about.Rows = append(about.Rows, Row{Number: i + 2, Cells: []Cell{words(line)}})
	}
	return []Sheet{tiles, fire, about}
}

func (m made) read(t testing.TB, sheets []Sheet) *Log {
	t.Helper()
	log, err := Read(m.test, m.places, sheets, m.fingerprint, m.outline)
	if err != nil {
		t.Fatal(err)
	}
	return log
}

// column is the place of a head in the sheet of tiles.
func column(t testing.TB, s Sheet, head string) int {
	t.Helper()
	for i, c := range s.Rows[0].Cells {
		if c.Text == head {
			return i
		}
	}
	t.Fatalf("no column %q", head)
	return 0
}

// rowOf is the row of a mark.
func rowOf(t testing.TB, s *Sheet, mark string) *Row {
	t.Helper()
	for i := range s.Rows {
		if s.Rows[i].Cells[0].Text == mark {
			return &s.Rows[i]
		}
	}
	t.Fatalf("no row of mark %q", mark)
	return nil
}

// put fills in a cell.
func put(t testing.TB, s *Sheet, mark, head string, c Cell) {
	t.Helper()
	rowOf(t, s, mark).Cells[column(t, *s, head)] = c
}

// words is a cell of text.
func words(text string) Cell {
	if text == "" {
		return Cell{}
	}
	return Cell{Kind: Text, Text: text}
}

// fill gives every tile a number in a column.
func (m made) fill(t testing.TB, s *Sheet, head string, value func(tile layout.Tile) float64) {
	t.Helper()
	at := column(t, *s, head)
	for i := range s.Rows[1:] {
		s.Rows[i+1].Cells[at] = numberCell(value(m.places.Tiles[i].Tile))
	}
}

// shuffle puts rows in another order, numbers of the rows and all.
func shuffle(rows []Row, seed uint64) {
	random := rand.New(rand.NewPCG(seed, 1))
	random.Shuffle(len(rows), func(a, b int) { rows[a], rows[b] = rows[b], rows[a] })
	for i := range rows {
		rows[i].Number = i + 2
	}
}

// complaints are those of a log, one a line.
func complaints(log *Log) string {
	var lines []string
	for _, c := range log.Complaints {
		lines = append(lines, c.String())
	}
	return strings.Join(lines, "\n")
}
