package crate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/layout"
)

func TestColumns(t *testing.T) {
	for _, test := range []struct {
		plan   string
		change func(p *blend.Plan)
		want   string
	}{
		{"triaxial", nil, "Mark|Cell|Magnesia matte %|Field ash runny %|Soda blue %|Body|Place|Coat 1|Coat 2|Coat 3|Surface|Defects|Colour|Rating|Gloss|Run length mm|Photograph|Notes"},
		{"biaxial-series", func(p *blend.Plan) { p.Tiles.Repeats = 2; p.Tiles.Coats = 1 }, "Mark|Cell|Copper carbonate %|Rutile %|Body|Repeat|Place|Coat 1|Surface|Defects|Colour|Rating|Photograph|Notes"},
		{"biaxial-series", func(p *blend.Plan) { p.Tiles.Coats = 1; p.Log.Numbers = []string{"photograph", "RUTILE %"} }, "Mark|Cell|Copper carbonate %|Rutile %|Body|Place|Coat 1|Surface|Defects|Colour|Rating|photograph|RUTILE % (2)|Photograph (2)|Notes"},
	} {
		m := planned(t, test.plan, test.change)
		var heads []string
		for _, c := range Columns(m.test.Plan) {
			heads = append(heads, c.Head)
			if c.Chars < len([]rune(c.Head)) {
				t.Errorf("%s: %q is %d wide", test.plan, c.Head, c.Chars)
			}
		}
		if got := strings.Join(heads, "|"); got != test.want {
			t.Errorf("%s:\n got %s\nwant %s", test.plan, got, test.want)
		}
	}
}

func TestPrinted(t *testing.T) {
	m := planned(t, "triaxial", nil)
	var got []string
	for _, c := range Columns(m.test.Plan) {
		got = append(got, c.Printed(m.test, m.places, 4).Text) // cell 2, second body
	}
	for i, want := range []string{m.places.Tiles[4].Mark, "2", "83.333333", "16.666667", "0", "Buff"} {
		if got[i] != want {
			t.Errorf("column %d: %q, want %q", i, got[i], want)
		}
	}
	spot := m.places.Boards[m.places.Tiles[4].Board].Spots[m.places.Tiles[4].Spot]
	if want := fmt.Sprintf("board %d, row %d, place %d", m.places.Boards[m.places.Tiles[4].Board].Number, spot.Row+1, spot.Column+1); got[6] != want {
		t.Errorf("place %q, want %q", got[6], want)
	}
	m = planned(t, "triaxial-series", nil)
	c := Columns(m.test.Plan)[2]
	if got := c.Printed(m.test, m.places, 0); got.Number != 3 { // the first cell is the first series' corner
		t.Errorf("first cell has %v %% %s", got.Number, c.Head)
	}
}

func TestRead_asWritten(t *testing.T) {
	m := planned(t, "triaxial", nil)
	log := m.read(t, m.blankLog())
	if len(log.Readings) != 0 || len(log.Complaints) != 0 || len(log.Notes) != 0 || len(log.Firing) != 0 || log.Origin.Other {
		t.Errorf("a blank log reads as %+v", log)
	}
	if log.Origin.Fingerprint != m.fingerprint {
		t.Errorf("fingerprint %q, want %q", log.Origin.Fingerprint, m.fingerprint)
	}
}

func TestRead_filled(t *testing.T) {
	m := planned(t, "triaxial", nil)
	sheets := m.blankLog()
	s := &sheets[0]
	mark := m.places.Tiles[5].Mark
	for head, c := range map[string]Cell{
		"Coat 1": numberCell(3), "Coat 2": words(" breaks to rust "), "Surface": words("SATIN"), "Defects": words("a crack"),
		"Colour": words("grey"), "Rating": words("4"), "Gloss": words("61,5"), "Run length mm": numberCell(1.234),
		"Photograph": words("p12.jpg"), "Notes": {Kind: Date, Text: "2026-03-01"},
	} {
		put(t, s, mark, head, c)
	}
	sheets[1].Rows[1].Cells[1] = words("8")
	sheets[1].Rows = append(sheets[1].Rows, Row{Number: 20, Cells: []Cell{words("Cooling:"), words("slow"), words("to 900 °C")}})
	sheets[1].Rows[2].Cells[1] = numberCell(1255)
	log := m.read(t, sheets)
	if len(log.Readings) != 1 || len(log.Complaints) != 0 {
		t.Fatalf("%d readings, complaints %s", len(log.Readings), complaints(log))
	}
	want := Reading{
		Tile: m.places.Tiles[5].Tile, Row: 7,
		Coats:   []Coat{{"3", Amount{3, true, 0}}, {"breaks to rust", Amount{}}, {}},
		Surface: "satin", Defects: "a crack", Colour: "grey", Rating: 4,
		Numbers: []Amount{{61.5, true, 1}, {1.234, true, 3}}, Photo: "p12.jpg", Notes: "2026-03-01",
	}
	if !reflect.DeepEqual(log.Readings[0], want) {
		t.Errorf("got  %+v\nwant %+v", log.Readings[0], want)
	}
	if want := []Entry{{"Cone", "8"}, {"Top temperature °C", "1255"}, {"Cooling:", "slow to 900 °C"}}; !slices.Equal(log.Firing, want) {
		t.Errorf("firing %v, want %v", log.Firing, want)
	}
}

// Whatever is done to the form of a log, the same is read.
func TestRead_form(t *testing.T) {
	m := planned(t, "triaxial", nil)
	filled := func() []Sheet {
		sheets := m.blankLog()
		m.fill(t, &sheets[0], "Rating", func(tile layout.Tile) float64 { return float64(tile.Index%5 + 1) })
		m.fill(t, &sheets[0], "Gloss", func(tile layout.Tile) float64 { return float64(tile.Index) / 4 })
		return sheets
	}
	want := m.read(t, filled()).Readings
	for name, change := range map[string]func(sheets []Sheet) []Sheet{
		"renamed":     func(s []Sheet) []Sheet { s[0].Name = "März"; return s },
		"other order": func(s []Sheet) []Sheet { slices.Reverse(s); return s },
		"other sheets": func(s []Sheet) []Sheet {
			return append([]Sheet{{Name: "Mine"}, {Name: "x", Rows: []Row{{Number: 4}}}}, s...)
		},
		"alone":           func(s []Sheet) []Sheet { return s[:1] },
		"reversed rows":   func(s []Sheet) []Sheet { slices.Reverse(s[0].Rows[1:]); return s },
		"heads at bottom": func(s []Sheet) []Sheet { slices.Reverse(s[0].Rows); return s },
		"title above": func(s []Sheet) []Sheet {
			s[0].Rows = append([]Row{{Number: 1, Cells: []Cell{words("Copper, first firing")}}, {Number: 2, Cells: []Cell{{}, words("mine")}}}, s[0].Rows...)
			return s
		},
		"heads again": func(s []Sheet) []Sheet {
			s[0].Rows = slices.Insert(s[0].Rows, 20, Row{Number: 500, Cells: slices.Clone(s[0].Rows[0].Cells)})
			return s
		},
		"blank rows":       func(s []Sheet) []Sheet { s[0].Rows = slices.Insert(s[0].Rows, 9, Row{Number: 300}, Row{}); return s },
		"columns reversed": func(s []Sheet) []Sheet { eachRow(s[0], slices.Reverse[[]Cell]); return s },
		"column inserted": func(s []Sheet) []Sheet {
			for i := range s[0].Rows {
				s[0].Rows[i].Cells = slices.Insert(s[0].Rows[i].Cells, 3, words(fmt.Sprint("mine ", i)))
			}
			return s
		},
		"columns deleted": func(s []Sheet) []Sheet {
			for i := range s[0].Rows {
				s[0].Rows[i].Cells = slices.Delete(s[0].Rows[i].Cells, 1, 10)
			}
			return s
		},
		"heads typed otherwise": func(s []Sheet) []Sheet {
			for i, c := range s[0].Rows[0].Cells {
				s[0].Rows[0].Cells[i].Text = " " + strings.ToUpper(strings.ReplaceAll(c.Text, " ", "\n")) + "\u00a0"
			}
			return s
		},
		"text for numbers": func(s []Sheet) []Sheet {
			for i := range s[0].Rows {
				for j, c := range s[0].Rows[i].Cells {
					if c.Kind == Number {
						s[0].Rows[i].Cells[j] = words(c.Text)
					}
				}
			}
			return s
		},
		"decimal commas": func(s []Sheet) []Sheet {
			for i := range s[0].Rows[1:] {
				for j, c := range s[0].Rows[i+1].Cells {
					if c.Kind == Number {
						s[0].Rows[i+1].Cells[j] = words(strings.ReplaceAll(c.Text, ".", ","))
					}
				}
			}
			return s
		},
		"underside marks": func(s []Sheet) []Sheet {
			for i := range s[0].Rows[1:] {
				s[0].Rows[i+1].Cells[0] = words(strings.ToLower(m.places.Tiles[i].Under))
			}
			return s
		},
		"copy of the blank sheet": func(s []Sheet) []Sheet { return append(m.blankLog()[:1:1], s...) },
	} {
		log := m.read(t, change(filled()))
		for i := range log.Readings {
			log.Readings[i].Row = want[i].Row
		}
		if !reflect.DeepEqual(log.Readings, want) {
			t.Errorf("%s: %d readings, want %d; %s", name, len(log.Readings), len(want), complaints(log))
		}
		if len(log.Complaints) > 0 {
			t.Errorf("%s: %s", name, complaints(log))
		}
	}
}

func eachRow(s Sheet, change func([]Cell)) {
	for _, row := range s.Rows {
		change(row.Cells)
	}
}

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
			`sheet "Tiles", row 20, Mark: mark "MR70A" has a number beyond the 28 cells: marks are MR1 to MR28 with one of the letters A C D; the row is left out (nearest`, all - 1, all - 1},
		{"a date for a mark", func(s *Sheet) { rowOf(t, s, mark(7, 0)).Cells[0] = Cell{Kind: Date, Text: "2026-03-01"} },
			`sheet "Tiles", row 20, Mark: 2026-03-01 is a date, not a mark; the row is left out (the mark as text: spreadsheet programs take marks such as MAR1 for a day)`, all - 1, all - 1},
		{"formula for a mark", func(s *Sheet) { rowOf(t, s, mark(7, 0)).Cells[0] = Cell{Kind: Stale} },
			`sheet "Tiles", row 20, Mark: a formula without its value is left out and the row with it (marks are MR1 to MR28 with one of the letters A C D)`, all - 1, all - 1},
		{"no mark", func(s *Sheet) { rowOf(t, s, mark(7, 0)).Cells[0] = words("  ") },
			`sheet "Tiles", row 20, Mark: the row has no mark and is left out (the mark painted on the tile)`, all - 1, all - 1},
		{"cell of another mark", func(s *Sheet) { put(t, s, mark(7, 0), "Cell", numberCell(8)) },
			`sheet "Tiles", row 20, Cell: it reads "8", which is not what belongs to mark MR7A; the row is left out (MR7A is cell 7)`, all - 1, all - 1},
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
	if len(log.Complaints) != 1 || log.Complaints[0].Right != "nearest is MR12C, cell 12 on Buff" {
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

func TestRead_otherPlan(t *testing.T) {
	m := planned(t, "triaxial", nil)
	other := planned(t, "triaxial", func(p *blend.Plan) { p.Blend.Divisions = 5 })
	sheets := other.blankLog()
	other.fill(t, &sheets[0], "Rating", func(layout.Tile) float64 { return 2 })
	log := m.read(t, sheets)
	if !log.Origin.Other || log.Origin.Fingerprint != other.fingerprint {
		t.Fatalf("origin %+v", log.Origin)
	}
	if !slices.Equal(log.Origin.Was, []string{"divisions: 5"}) || !slices.Equal(log.Origin.Is, []string{"divisions: 6"}) {
		t.Errorf("was %q, is %q", log.Origin.Was, log.Origin.Is)
	}
	if !slices.Equal(log.Origin.Outline, other.outline) {
		t.Errorf("outline %q", log.Origin.Outline)
	}
	if n := len(log.Notes); n != 3 || log.Notes[1] != "made for: divisions: 5" || log.Notes[2] != "the plan is now: divisions: 6" {
		t.Errorf("notes %q", log.Notes)
	}
}

// A table from CSV has no name, no fingerprint, and lines instead of rows.
func TestRead_table(t *testing.T) {
	m := planned(t, "triaxial", nil)
	sheets := m.blankLog()[:1]
	sheets[0].Name = ""
	put(t, &sheets[0], "MR7A", "Rating", words("9"))
	log := m.read(t, sheets)
	if log.Origin.Other || log.Origin.Fingerprint != "" || len(log.Notes) != 1 || !strings.Contains(log.Notes[0], "no fingerprint") {
		t.Errorf("origin %+v, notes %q", log.Origin, log.Notes)
	}
	if got := complaints(log); got != "line 20, Rating: 9 is left out (a whole number from 1 to 5)" {
		t.Errorf("%s", got)
	}
}

func TestRead_notes(t *testing.T) {
	m := planned(t, "triaxial", nil)
	sheets := m.blankLog()
	s := &sheets[0]
	s.Rows[0].Cells[column(t, *s, "Gloss")] = words("Shine")
	s.Rows[0].Cells = append(s.Rows[0].Cells, words("RATING"))
	second := m.blankLog()[0]
	second.Name = "Second reader"
	second.Rows[1].Cells[column(t, second, "Rating")] = numberCell(4)
	log := m.read(t, append(sheets, second))
	if log.Sheet != "Second reader" || len(log.Notes) != 0 { // it has all heads, and nothing is filled in in the other
		t.Errorf("read %q, notes %q", log.Sheet, log.Notes)
	}
	third := m.blankLog()[0]
	third.Name = "Third reader"
	for i := range 3 {
		third.Rows[i+1].Cells[column(t, third, "Rating")] = numberCell(4)
	}
	log = m.read(t, append(sheets, second, third))
	if want := []string{`sheet "Second reader" has tiles filled in too and is not read, for sheet "Third reader" has more`}; !slices.Equal(log.Notes, want) {
		t.Errorf("notes %q, want %q", log.Notes, want)
	}
	log = m.read(t, sheets)
	want := []string{
		"columns that are missing: Gloss",
		"columns that the log does not know and that are not read: Shine",
		"columns that stand there twice and are read where they stand first: RATING",
	}
	if !slices.Equal(log.Notes, want) {
		t.Errorf("notes %q, want %q", log.Notes, want)
	}
}

func TestRead_refused(t *testing.T) {
	m := planned(t, "triaxial", nil)
	blank := m.blankLog()
	noMark := m.blankLog()[:1]
	noMark[0].Rows[0].Cells[0] = words("Tile")
	for _, test := range []struct {
		sheets []Sheet
		want   string
	}{
		{nil, "no sheet with a row of heads such as Mark, Coat 1, Coat 2, Coat 3, Surface, Defects"},
		{blank[1:], "no sheet with a row of heads such as Mark, Coat 1, Coat 2, Coat 3, Surface, Defects"},
		{noMark, `sheet "Tiles" has no column "Mark": every row of a log begins with the mark of its tile`},
	} {
		if log, err := Read(m.test, m.places, test.sheets, "", nil); err == nil || err.Error() != test.want {
			t.Errorf("got %v, %v\nwant %s", log, err, test.want)
		}
	}
}

// Neither the order of the rows nor that of the columns changes what is read
// and worked out.
func TestRead_shuffled(t *testing.T) {
	for _, name := range []string{"triaxial", "biaxial-series", "quadraxial", "line-series"} {
		m := planned(t, name, func(p *blend.Plan) { p.Tiles.Repeats = 2; p.Log.Numbers = []string{"Gloss"} })
		filled := func() []Sheet {
			sheets := m.blankLog()
			random := rand.New(rand.NewPCG(4, 4))
			m.fill(t, &sheets[0], "Rating", func(layout.Tile) float64 { return float64(random.IntN(6)) }) // 0 is out of range
			m.fill(t, &sheets[0], "Gloss", func(layout.Tile) float64 { return 50 + 20*random.NormFloat64() })
			m.fill(t, &sheets[0], "Coat 1", func(layout.Tile) float64 { return float64(random.IntN(5) + 1) })
			return sheets
		}
		asWritten := m.read(t, filled())
		want := Evaluate(m.test, asWritten)
		for seed := range uint64(4) {
			sheets := filled()
			shuffle(sheets[0].Rows[1:], seed)
			log := m.read(t, sheets)
			if len(log.Complaints) != len(asWritten.Complaints) {
				t.Errorf("%s: %d complaints, want %d", name, len(log.Complaints), len(asWritten.Complaints))
			}
			for i := range log.Readings {
				log.Readings[i].Row = asWritten.Readings[i].Row
			}
			log.Complaints = asWritten.Complaints
			if got := Evaluate(m.test, log); !reflect.DeepEqual(got, want) {
				t.Errorf("%s: other results after shuffling with seed %d", name, seed)
			}
		}
	}
}

// No cell, wherever it stands, makes reading or evaluating panic, and what is
// read keeps to its ranges.
func FuzzRead(f *testing.F) {
	m := planned(f, "triaxial", func(p *blend.Plan) { p.Tiles.Repeats = 2 })
	f.Add(0, 0, uint8(1), "MR1A", 0.0, 3, 4, uint8(2), "1,5", 1.5, false)
	f.Add(5, 14, uint8(1), "1,234", 0.0, 9, 1, uint8(1), "ten", 0.0, true)
	f.Add(5, 14, uint8(2), "", math.Inf(1), 0, 3, uint8(6), "Rating", math.NaN(), false)
	f.Add(1, 0, uint8(4), "2026-03-01", 46000.0, 2, 0, uint8(1), "MR?*..----", -1.0, true)
	f.Add(170, 16, uint8(2), "1e18", 1e18, 171, 16, uint8(1), "-", -1e15, false)
	f.Fuzz(func(t *testing.T, row1, column1 int, kind1 uint8, text1 string, number1 float64,
		row2, column2 int, kind2 uint8, text2 string, number2 float64, everywhere bool) {
		sheets := m.blankLog()
		m.fill(t, &sheets[0], "Rating", func(tile layout.Tile) float64 { return float64(tile.Index%5 + 1) })
		at := func(n, of int) int { return ((n % of) + of) % of }
		for i := range sheets {
			s := &sheets[i]
			put := func(row, column int, c Cell) {
				r := &s.Rows[at(row, len(s.Rows))]
				r.Cells[at(column, len(r.Cells))] = c
			}
			put(row1, column1, Cell{Kind(kind1 % 7), text1, number1})
			put(row2, column2, Cell{Kind(kind2 % 7), text2, number2})
			if everywhere {
				for r := range s.Rows {
					put(r, column1, Cell{Kind(kind1 % 7), text1, number1})
				}
			}
		}
		log, err := Read(m.test, m.places, sheets, m.fingerprint, m.outline)
		if err != nil {
			if strings.Contains(err.Error(), "\n") {
				t.Errorf("error of several lines: %q", err)
			}
			return
		}
		for _, r := range log.Readings {
			if r.Rating < 0 || r.Rating > MostRating {
				t.Errorf("rating %d", r.Rating)
			}
			for _, a := range r.Numbers {
				if math.IsNaN(a.Value) || math.Abs(a.Value) > mostAmount {
					t.Errorf("number %v", a.Value)
				}
			}
		}
		for _, c := range log.Complaints {
			if strings.Contains(c.String(), "\n") {
				t.Errorf("complaint of several lines: %q", c)
			}
		}
		results := Evaluate(m.test, log)
		for _, measure := range results.Measures {
			for _, model := range measure.Models {
				results.ModelText(model)
			}
		}
	})
}
