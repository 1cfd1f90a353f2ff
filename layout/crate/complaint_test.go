package crate

import (
	"slices"
	"strings"
	"testing"

	"pourboard/layout"
)

// What is wrong in a log is listed, and nothing else is left out.
func TestRead_complaints(t *testing.T) {
	m := planned(t, "triaxial", nil)
	all := len(m.places.Tiles)
	mark := func(cell, body int) string {
		return m.places.Tiles[m.places.Scheme.IndexOf(cell, body, 0)].Mark
	}
	for _, test := range []struct {
		name   string
		change func(s *Sheet)
		want   string // nothing when there is no complaint
		rating int    // how many ratings are read
		gloss  int
	}{
		{"rating too high", func(s *Sheet) { put(t, s, mark(7, 0), "Rating", numberCell(6)) },
			`sheet "Tiles", row 20, Rating: 6 is left out (a whole number from 1 to 5)`, all - 1, all},
		{"rating 0", func(s *Sheet) { put(t, s, mark(7, 0), "Rating", numberCell(0)) },
			`sheet "Tiles", row 20, Rating: 0 is left out (a whole number from 1 to 5)`, all - 1, all},
		{"rating and a half", func(s *Sheet) { put(t, s, mark(7, 0), "Rating", words("3,5")) },
			`sheet "Tiles", row 20, Rating: 3,5 is left out (a whole number from 1 to 5)`, all - 1, all},
		{"rating in words", func(s *Sheet) { put(t, s, mark(7, 0), "Rating", words("good")) },
			`sheet "Tiles", row 20, Rating: "good" is left out (a whole number from 1 to 5)`, all - 1, all},
		{"number in words", func(s *Sheet) { put(t, s, mark(7, 0), "Gloss", words("60 or so")) },
			`sheet "Tiles", row 20, Gloss: "60 or so" is not a number and is left out (a number such as 12.5)`, all, all - 1},
		{"number with a unit", func(s *Sheet) { put(t, s, mark(7, 0), "Gloss", words("60 GU")) },
			`sheet "Tiles", row 20, Gloss: "60 GU" is not a number and is left out (a number such as 12.5)`, all, all - 1},
		{"ambiguous comma", func(s *Sheet) { put(t, s, mark(7, 0), "Gloss", words("1,234")) },
			`sheet "Tiles", row 20, Gloss: "1,234" can be read in two ways and is left out (1234 for the large number, 1.2340 for the small one)`, all, all - 1},
		{"ambiguous point", func(s *Sheet) { put(t, s, mark(7, 0), "Gloss", words("-12.345")) },
			`sheet "Tiles", row 20, Gloss: "-12.345" can be read in two ways and is left out (-12345 for the large number, -12.3450 for the small one)`, all, all - 1},
		{"not ambiguous", func(s *Sheet) { put(t, s, mark(7, 0), "Gloss", words("0,125")) }, ``, all, all},
		{"number too large", func(s *Sheet) { put(t, s, mark(7, 0), "Gloss", numberCell(1e300)) },
			`is out of range and is left out (a number read off a tile)`, all, all - 1},
		{"date for a number", func(s *Sheet) { put(t, s, mark(7, 0), "Gloss", Cell{Kind: Date, Text: "2026-05-01", Number: 46143}) },
			`sheet "Tiles", row 20, Gloss: the date or time 2026-05-01 is left out (a number: spreadsheet programs take 1.5 or 1-5 for a day unless the cell is formatted as a number)`, all, all - 1},
		{"truth", func(s *Sheet) { put(t, s, mark(7, 0), "Gloss", Cell{Kind: Truth, Text: "TRUE"}) },
			`sheet "Tiles", row 20, Gloss: TRUE is not a number and is left out (a number such as 12.5)`, all, all - 1},
		{"error", func(s *Sheet) { put(t, s, mark(7, 0), "Notes", Cell{Kind: Fault, Text: "#REF!"}) },
			`sheet "Tiles", row 20, Notes: the error #REF! is left out (what was read off the tile)`, all, all},
		{"stale formula", func(s *Sheet) { put(t, s, mark(7, 0), "Rating", Cell{Kind: Stale}) },
			`sheet "Tiles", row 20, Rating: a formula without its value is left out (open the log in a spreadsheet program and save it again, or type the value)`, all - 1, all},
		{"unknown mark", func(s *Sheet) { rowOf(t, s, mark(7, 0)).Cells[0] = words("MR7Y") },
			`sheet "Tiles", row 20, Mark: mark "MR7Y"`, all - 1, all - 1},
		{"number beyond the cells", func(s *Sheet) { rowOf(t, s, mark(7, 0)).Cells[0] = words("MR70A") },
			`sheet "Tiles", row 20, Mark: mark "MR70A" has a number beyond the 28 cups: marks are MR1 to MR28 with one of the letters A C D; the row is left out (nearest`, all - 1, all - 1},
		{"a date for a mark", func(s *Sheet) { rowOf(t, s, mark(7, 0)).Cells[0] = Cell{Kind: Date, Text: "2026-03-01"} },
			`sheet "Tiles", row 20, Mark: 2026-03-01 is a date, not a mark; the row is left out (the mark as text: spreadsheet programs take marks such as MAR1 for a day)`, all - 1, all - 1},
		{"formula for a mark", func(s *Sheet) { rowOf(t, s, mark(7, 0)).Cells[0] = Cell{Kind: Stale} },
			`sheet "Tiles", row 20, Mark: a formula without its value is left out and the row with it (marks are MR1 to MR28 with one of the letters A C D)`, all - 1, all - 1},
		{"no mark", func(s *Sheet) { rowOf(t, s, mark(7, 0)).Cells[0] = words("  ") },
			`sheet "Tiles", row 20, Mark: the row has no mark and is left out (the mark painted on the tile)`, all - 1, all - 1},
		{"cell of another mark", func(s *Sheet) { put(t, s, mark(7, 0), "Cup", numberCell(8)) },
			`sheet "Tiles", row 20, Cup: it reads "8", which is not what belongs to mark MR7A; the row is left out (MR7A is cup 7)`, all - 1, all - 1},
		{"cell of another mark, in a log of an earlier version", func(s *Sheet) {
			put(t, s, mark(7, 0), "Cup", numberCell(8))
			s.Rows[0].Cells[column(t, *s, "Cup")] = words("Cell")
		}, `sheet "Tiles", row 20, Cup: it reads "8", which is not what belongs to mark MR7A; the row is left out (MR7A is cup 7)`, all - 1, all - 1},
		{"body of another mark", func(s *Sheet) { put(t, s, mark(7, 0), "Body", words("Red")) },
			`sheet "Tiles", row 20, Body: it reads "Red", which is not what belongs to mark MR7A; the row is left out (MR7A is Porcelain)`, all - 1, all - 1},
		{"doubled and different", func(s *Sheet) {
			rowOf(t, s, mark(8, 0)).Cells = slices.Clone(rowOf(t, s, mark(7, 0)).Cells)
			row := &s.Rows[22]
			row.Cells[column(t, *s, "Rating")] = numberCell(5)
			row.Cells[column(t, *s, "Gloss")] = numberCell(99)
		}, `sheet "Tiles", row 20, Mark: MR7A stands in rows 20, 23, which differ in Rating, Gloss; all are left out (one row for each tile)`, all - 2, all - 2},
		{"doubled and alike", func(s *Sheet) {
			s.Rows = append(s.Rows, Row{Number: 200, Cells: slices.Clone(rowOf(t, s, mark(7, 0)).Cells)})
		}, `sheet "Tiles", row 20, Mark: MR7A stands in rows 20, 200, which agree; it is read once (one row for each tile)`, all, all},
		{"doubled, each a part", func(s *Sheet) {
			row := Row{Number: 200, Cells: slices.Clone(rowOf(t, s, mark(7, 0)).Cells)}
			row.Cells[column(t, *s, "Rating")] = Cell{}
			put(t, s, mark(7, 0), "Gloss", Cell{})
			s.Rows = append(s.Rows, row)
		}, `sheet "Tiles", row 20, Mark: MR7A stands in rows 20, 200, which agree; it is read once (one row for each tile)`, all, all},
	} {
		sheets := m.blankLog()
		s := &sheets[0]
		m.fill(t, s, "Rating", func(tile layout.Tile) float64 { return float64(tile.Index%4 + 1) })
		m.fill(t, s, "Gloss", func(tile layout.Tile) float64 { return float64(tile.Index) })
		test.change(s)
		log := m.read(t, sheets)
		got := complaints(log)
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
	m := planned(t, "triaxial", nil)
	sheets := m.blankLog()
	rowOf(t, &sheets[0], "MR12C").Cells[0] = words("MR-12CZ")
	log := m.read(t, sheets)
	if len(log.Complaints) != 1 || log.Complaints[0].Right != "nearest is MR12C, cup 12 on Buff" {
		t.Errorf("got %s", complaints(log))
	}
}

// Sorting one column alone makes readings of other tiles: nothing of that is
// read.
func TestRead_oneColumnSorted(t *testing.T) {
	m := planned(t, "triaxial", nil)
	sheets := m.blankLog()
	s := &sheets[0]
	m.fill(t, s, "Rating", func(layout.Tile) float64 { return 3 })
	marks := make([]Cell, 0, len(s.Rows))
	for _, row := range s.Rows[1:] {
		marks = append(marks, row.Cells[0])
	}
	for i := range s.Rows[1:] {
		s.Rows[i+1].Cells[0] = marks[(i+1)%len(marks)]
	}
	log := m.read(t, sheets)
	if len(log.Readings) != 0 || len(log.Complaints) < len(marks) {
		t.Errorf("%d readings, %d complaints", len(log.Readings), len(log.Complaints))
	}
}
