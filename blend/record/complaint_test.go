package record_test

import (
	"slices"
	"strings"
	"testing"

	"pourboard/blend/mark"
	. "pourboard/blend/record"
	"pourboard/blend/record/recordtest"
)

// What is wrong in a log is listed, and nothing else skipped.
func TestRead_complaints(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	all := m.Scheme.Tiles()
	painted := func(cell, body int) string {
		return m.Scheme.Tile(m.Scheme.IndexOf(cell, body, 0)).Mark
	}
	for _, test := range []struct {
		name   string
		change func(s *Sheet)
		want   string // nothing when there is no complaint
		rating int    // how many ratings are read
		gloss  int
	}{
		{"rating too high", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Rating", recordtest.Number(6)) },
			`sheet "Tiles", row 20, Rating: 6 skipped (1 to 5, whole or half)`, all - 1, all},
		{"rating 0", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Rating", recordtest.Number(0)) },
			`sheet "Tiles", row 20, Rating: 0 skipped (1 to 5, whole or half)`, all - 1, all},
		{"rating and a half", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Rating", recordtest.Words("3,5")) }, ``, all, all},
		{"rating and a quarter", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Rating", recordtest.Words("3.25")) },
			`sheet "Tiles", row 20, Rating: 3.25 skipped (1 to 5, whole or half)`, all - 1, all},
		{"rating in words", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Rating", recordtest.Words("good")) },
			`sheet "Tiles", row 20, Rating: good skipped (1 to 5, whole or half)`, all - 1, all},
		{"number in words", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Gloss", recordtest.Words("60 or so")) },
			`sheet "Tiles", row 20, Gloss: "60 or so" is not a number; skipped (a number such as 12.5)`, all, all - 1},
		{"number with a unit", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Gloss", recordtest.Words("60 GU")) },
			`sheet "Tiles", row 20, Gloss: "60 GU" is not a number; skipped (a number such as 12.5)`, all, all - 1},
		{"ambiguous comma", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Gloss", recordtest.Words("1,234")) },
			`sheet "Tiles", row 20, Gloss: "1,234" is ambiguous; skipped (write 1234 or 1.2340)`, all, all - 1},
		{"ambiguous point", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Gloss", recordtest.Words("-12.345")) },
			`sheet "Tiles", row 20, Gloss: "-12.345" is ambiguous; skipped (write -12345 or -12.3450)`, all, all - 1},
		{"not ambiguous", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Gloss", recordtest.Words("0,125")) }, ``, all, all},
		{"number too large", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Gloss", recordtest.Number(1e300)) },
			`is out of range; skipped (a number read off a tile)`, all, all - 1},
		{"date for a number", func(s *Sheet) {
			recordtest.Put(t, s, painted(7, 0), "Gloss", Cell{Kind: Date, Text: "2026-05-01", Number: 46143})
		},
			`sheet "Tiles", row 20, Gloss: 2026-05-01 is a date, not a number; skipped (format the cell as a number and type it again)`, all, all - 1},
		{"truth", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Gloss", Cell{Kind: Truth, Text: "TRUE"}) },
			`sheet "Tiles", row 20, Gloss: "TRUE" is not a number; skipped (a number such as 12.5)`, all, all - 1},
		{"error", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Notes", Cell{Kind: Fault, Text: "#REF!"}) },
			`sheet "Tiles", row 20, Notes: the error #REF!; skipped (enter the reading)`, all, all},
		{"stale formula", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Rating", Cell{Kind: Stale}) },
			`sheet "Tiles", row 20, Rating: a formula without its value; skipped (save the log again in a spreadsheet program, or type the value)`, all - 1, all},
		{"unknown mark", func(s *Sheet) { recordtest.RowOf(t, s, painted(7, 0)).Cells[0] = recordtest.Words("MR7Y") },
			`sheet "Tiles", row 20, Mark: mark "MR7Y"`, all - 1, all - 1},
		{"number beyond the cells", func(s *Sheet) { recordtest.RowOf(t, s, painted(7, 0)).Cells[0] = recordtest.Words("MR70A") },
			`sheet "Tiles", row 20, Mark: mark "MR70A" has a number beyond the 28 cups: marks are MR1 to MR28, then P, U or R; skipped (nearest`, all - 1, all - 1},
		{"a date for a mark", func(s *Sheet) { recordtest.RowOf(t, s, painted(7, 0)).Cells[0] = Cell{Kind: Date, Text: "2026-03-01"} },
			`sheet "Tiles", row 20, Mark: 2026-03-01 is a date, not a mark; skipped (enter the mark as text: spreadsheet programs take marks such as MAR1 for a day)`, all - 1, all - 1},
		{"formula for a mark", func(s *Sheet) { recordtest.RowOf(t, s, painted(7, 0)).Cells[0] = Cell{Kind: Stale} },
			`sheet "Tiles", row 20, Mark: a formula without its value; skipped (marks are MR1 to MR28, then P, U or R)`, all - 1, all - 1},
		{"no mark", func(s *Sheet) { recordtest.RowOf(t, s, painted(7, 0)).Cells[0] = recordtest.Words("  ") },
			`sheet "Tiles", row 20, Mark: the row has no mark; skipped (enter the mark painted on the tile)`, all - 1, all - 1},
		{"cell of another mark", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Cup", recordtest.Number(8)) },
			`sheet "Tiles", row 20, Cup: it reads 8, and MR7P is cup 7; skipped (enter the mark of this row, or remove another test's row)`, all - 1, all - 1},
		{"cell of another mark, in a log of an earlier version", func(s *Sheet) {
			recordtest.Put(t, s, painted(7, 0), "Cup", recordtest.Number(8))
			s.Rows[0].Cells[recordtest.Column(t, *s, "Cup")] = recordtest.Words("Cell")
		}, `sheet "Tiles", row 20, Cup: it reads 8, and MR7P is cup 7; skipped (enter the mark of this row, or remove another test's row)`, all - 1, all - 1},
		{"body of another mark", func(s *Sheet) { recordtest.Put(t, s, painted(7, 0), "Body", recordtest.Words("Red")) },
			`sheet "Tiles", row 20, Body: it reads Red, and MR7P is Porcelain; skipped (enter the mark of this row, or remove another test's row)`, all - 1, all - 1},
		{"doubled and different", func(s *Sheet) {
			recordtest.RowOf(t, s, painted(8, 0)).Cells = slices.Clone(recordtest.RowOf(t, s, painted(7, 0)).Cells)
			row := &s.Rows[22]
			row.Cells[recordtest.Column(t, *s, "Rating")] = recordtest.Number(5)
			row.Cells[recordtest.Column(t, *s, "Gloss")] = recordtest.Number(99)
		}, `sheet "Tiles", row 20, Mark: MR7P has rows 20, 23, which disagree on Rating, Gloss; all skipped (keep one, or give a second firing its letter)`, all - 2, all - 2},
		{"doubled and alike", func(s *Sheet) {
			s.Rows = append(s.Rows, Row{Number: 200, Cells: slices.Clone(recordtest.RowOf(t, s, painted(7, 0)).Cells)})
		}, `sheet "Tiles", row 20, Mark: MR7P has rows 20, 200, which agree; read once (keep one row for each tile and firing)`, all, all},
		{"doubled, each a part", func(s *Sheet) {
			row := Row{Number: 200, Cells: slices.Clone(recordtest.RowOf(t, s, painted(7, 0)).Cells)}
			row.Cells[recordtest.Column(t, *s, "Rating")] = Cell{}
			recordtest.Put(t, s, painted(7, 0), "Gloss", Cell{})
			s.Rows = append(s.Rows, row)
		}, `sheet "Tiles", row 20, Mark: MR7P has rows 20, 200, which agree; read once (keep one row for each tile and firing)`, all, all},
	} {
		sheets := m.BlankLog()
		s := &sheets[0]
		m.Fill(t, s, "Rating", func(tile mark.Tile) float64 { return float64(tile.Index%4 + 1) })
		m.Fill(t, s, "Gloss", func(tile mark.Tile) float64 { return float64(tile.Index) })
		test.change(s)
		log := m.Read(t, sheets)
		got := recordtest.Complaints(log)
		if (test.want == "") != (got == "") || !strings.Contains(got, test.want) || strings.Contains(got, "\n") {
			t.Errorf("%s:\n got %s\nwant %s", test.name, got, test.want)
		}
		ratings, gloss := 0, 0
		for _, r := range log.Readings {
			if r.Rating != 0 {
				ratings++
			}
			if r.Numbers[0].Given {
				gloss++
			}
		}
		if ratings != test.rating || gloss != test.gloss {
			t.Errorf("%s: %d ratings and %d numbers are read, want %d and %d", test.name, ratings, gloss, test.rating, test.gloss)
		}
	}
}

// A tile that was marked wrong is named with its cell and body.
func TestRead_nearest(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	sheets := m.BlankLog()
	recordtest.Put(t, &sheets[0], "MR12U", "Rating", recordtest.Number(3))
	recordtest.RowOf(t, &sheets[0], "MR12U").Cells[0] = recordtest.Words("MR-12UZ")
	log := m.Read(t, sheets)
	if len(log.Complaints) != 1 || log.Complaints[0].Right != "nearest is MR12U" {
		t.Errorf("got %s", recordtest.Complaints(log))
	}
}

// Sorting one column alone makes readings of other tiles: nothing of that is
// read.
func TestRead_oneColumnSorted(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	sheets := m.BlankLog()
	s := &sheets[0]
	m.Fill(t, s, "Rating", func(mark.Tile) float64 { return 3 })
	marks := make([]Cell, 0, len(s.Rows))
	for _, row := range s.Rows[1:] {
		marks = append(marks, row.Cells[0])
	}
	for i := range s.Rows[1:] {
		s.Rows[i+1].Cells[0] = marks[(i+1)%len(marks)]
	}
	log := m.Read(t, sheets)
	if len(log.Readings) != 0 || len(log.Complaints) < len(marks) {
		t.Errorf("%d readings, %d complaints", len(log.Readings), len(log.Complaints))
	}
}

// Of one kind the first three are told one by one; the third has the rows of the
// rest. Other kinds, and what is about whole rows, stay as they are.
func TestAlike(t *testing.T) {
	var all []Complaint
	for row := 2; row < 9; row++ {
		all = append(all, Complaint{Sheet: "Tiles", Row: row, Column: "Rating", What: "2,4 skipped", Right: "1 to 5, whole or half"},
			Complaint{Sheet: "Tiles", Row: row, What: "mark missing"})
	}
	all = append(all, Complaint{Sheet: "Tiles", Row: 9, Column: "Gloss", What: "odd", Right: "a number such as 12.5"})
	told := Alike(all)
	if len(told) != 3+7+1 {
		t.Fatalf("%d are told: %v", len(told), told)
	}
	if got, want := told[4].String(), `sheet "Tiles", row 4, Rating: 2,4 skipped; likewise in 4 more rows: 5, 6, 7, 8 (1 to 5, whole or half)`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if few := Alike(all[:8]); len(few) != 8 {
		t.Errorf("four of a kind become %v", few)
	}
}
