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
	if n := len(log.Notes); n != 4 || log.Notes[1] != "made for: divisions: 5" || log.Notes[2] != "the plan is now: divisions: 6" {
		t.Fatalf("notes %q", log.Notes)
	}
	// Of the 21 mixtures of five steps only the first end alone keeps its number.
	if want := "60 rows are left out, of cups 2-21: the mark means another mixture now (row 5: Magnesia matte % reads 80, and cup 2 is 83.3333 %)"; log.Notes[3] != want {
		t.Errorf("%q, want %q", log.Notes[3], want)
	}
	for _, r := range log.Readings {
		if r.Cell != 1 {
			t.Errorf("cup %d is read", r.Cell)
		}
	}
	if len(log.Readings) != 3 {
		t.Errorf("%d readings of cup 1, want one on each of three bodies", len(log.Readings))
	}
}

// cellsRead names the cups of which a log was read; ok is false when it was
// refused, which must be with the words of fails.
func cellsRead(t *testing.T, what string, log *Log, err error, fails string) (cups string, ok bool) {
	t.Helper()
	if fails != "" {
		if err == nil || !strings.Contains(err.Error(), fails) {
			t.Errorf("%s: %v, want %q", what, err, fails)
		}
		return "", false
	}
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	var cells []int
	for _, r := range log.Readings {
		cells = append(cells, r.Cell)
	}
	slices.Sort(cells)
	return blend.Numbers(slices.Compact(cells), 20), true
}

// What of a log of a changed plan is read: the cups that are what they were.
func TestRead_changedPlan(t *testing.T) {
	series := func(percents ...float64) func(*blend.Plan) {
		return func(p *blend.Plan) { p.Blend.Series[0].Percents = percents }
	}
	for _, c := range []struct {
		what     string
		was, is  made
		cells    string // read
		fails    string
		complain int
	}{
		{"a step of a series was changed", planned(t, "line-series", series(0, 1, 2, 4)), planned(t, "line-series", series(0, 1, 2, 3)), "cups 1-3", "", 0},
		{"a recipe was corrected", planned(t, "line-series", func(p *blend.Plan) { p.Glazes[0].Recipe[0].Amount++ }), planned(t, "line-series", nil), "cups 1-6", "", 0},
		{"a base was renamed", planned(t, "line-series", func(p *blend.Plan) { p.Glazes[0].Name = "Magnesia mat" }), planned(t, "line-series", nil), "cups 1-6", "", 0},
		{"another base", planned(t, "line-series", func(p *blend.Plan) { p.Glazes[0].Name = "Ash"; p.Glazes[0].Recipe[0].Amount++ }), planned(t, "line-series", nil),
			"", "another test than the plan: its colourants went into another base; it was made for base: Ash", 0},
		{"a base renamed and changed in its additions", planned(t, "line-series", func(p *blend.Plan) {
			p.Glazes[0].Name = "Ash"
			p.Glazes[0].Additions = append(p.Glazes[0].Additions, blend.Part{Material: "Tin oxide", Amount: 8})
		}), planned(t, "line-series", nil), "", "another base", 0},
		{"another colourant", planned(t, "line-series", func(p *blend.Plan) { p.Blend.Series[0].Material = "Manganese dioxide" }), planned(t, "line-series", nil),
			"", `it has no column "Copper carbonate %"; it was made for series "Manganese dioxide"`, 0},
		{"a second colourant now", planned(t, "line-series", nil), planned(t, "biaxial-series", func(p *blend.Plan) {
			p.Mark = "MC"
			p.Glazes = planned(t, "line-series", nil).test.Plan.Glazes
			p.Blend.Base = 0
		}),
			"cups 1-4", "", 0},
		{"another glaze for an end", planned(t, "triaxial", func(p *blend.Plan) { p.Glazes[2].Name = "Ash"; p.Glazes[2].Recipe[0].Amount++ }), planned(t, "triaxial", nil), "cups 1-2, 4, 7, 11, 16, 22", "", 0},
		{"another basis", planned(t, "triaxial", func(p *blend.Plan) { p.Blend.Basis = blend.Volume }), planned(t, "triaxial", nil), "", "its shares are on another basis; it was made for basis: volume", 0},
		{"a blend for a series", planned(t, "line", nil), planned(t, "line-series", nil), "", "it has no column \"Copper carbonate %\"", 0},
		{"an end was renamed", planned(t, "triaxial", func(p *blend.Plan) { p.Glazes[2].Name = "Soda bleu" }), planned(t, "triaxial", nil), "cups 1-28", "", 0},
		{"a thirds plan as it is", planned(t, "triaxial", nil), planned(t, "triaxial", nil), "cups 1-28", "", 0},
	} {
		if c.was.test.Plan.Mark != c.is.test.Plan.Mark {
			p := *c.was.test.Plan
			p.Mark = c.is.test.Plan.Mark
			c.was = replanned(t, &p)
		}
		sheets := c.was.blankLog()
		c.was.fill(t, &sheets[0], "Rating", func(layout.Tile) float64 { return 2 })
		log, err := Read(c.is.test, c.is.places, sheets, c.is.fingerprint, c.is.outline)
		got, ok := cellsRead(t, c.what, log, err, c.fails)
		if !ok {
			continue
		}
		if got != c.cells || len(log.Complaints) != c.complain {
			t.Errorf("%s: %s are read, want %s; %s", c.what, got, c.cells, complaints(log))
		}
	}
}

// A percentage that stands by the mark of another cup is told of, and one that a
// program has rounded is not.
func TestRead_percentages(t *testing.T) {
	m := planned(t, "triaxial", nil)
	for _, c := range []struct {
		cell Cell
		want string
	}{
		{numberCell(83.333333), ""},
		{words("83.3"), ""},
		{words("83,33"), ""},
		{words("83.3 % asked, 80.1 made"), ""},
		{words("83"), "it reads 83, and cup 2 is 83.3333 %; the row is left out"},
		{words("about 80"), ""},
		{Cell{}, ""},
		{numberCell(83), "it reads 83, and cup 2 is 83.3333 %; the row is left out"},
		{words("66.7"), "it reads 66.7, and cup 2 is 83.3333 %; the row is left out"},
		{words("66.7 % asked, 68 made"), "reads 66.7 % asked, 68 made, and cup 2"},
	} {
		sheets := m.blankLog()
		mark := ""
		for _, tile := range m.places.Tiles {
			if tile.Cell == 2 {
				mark = tile.Mark
				break
			}
		}
		put(t, &sheets[0], mark, "Rating", words("3"))
		put(t, &sheets[0], mark, "Magnesia matte %", c.cell)
		log := m.read(t, sheets)
		switch {
		case c.want == "" && (len(log.Complaints) > 0 || len(log.Readings) != 1):
			t.Errorf("%q: %s", c.cell.Text, complaints(log))
		case c.want != "" && (len(log.Complaints) != 1 || !strings.Contains(log.Complaints[0].What, c.want)):
			t.Errorf("%q: %s, want %q", c.cell.Text, complaints(log), c.want)
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

// A CSV says nothing of its plan but what its percentages say.
func TestRead_csvOfAnotherPlan(t *testing.T) {
	csv := func(m made, without ...string) []Sheet {
		tiles := m.blankLog()[0]
		m.fill(t, &tiles, "Rating", func(layout.Tile) float64 { return 3 })
		tiles.Name = ""
		for column, head := range slices.Clone(tiles.Rows[0].Cells) {
			for _, row := range tiles.Rows {
				if slices.Contains(without, head.Text) {
					row.Cells[column] = Cell{}
				} else if row.Cells[column].Kind == Number {
					row.Cells[column].Kind = Text
				}
			}
		}
		return []Sheet{tiles}
	}
	series := func(percents ...float64) made {
		return planned(t, "line-series", func(p *blend.Plan) { p.Blend.Series[0].Percents = percents })
	}
	steps := series(0, 0.1, 0.25, 0.5, 1, 2, 3)
	for _, c := range []struct {
		what   string
		is     made
		sheets []Sheet
		cells  string // read
		fails  string
	}{
		{"its own", steps, csv(steps), "cups 1-7", ""},
		{"steps that round alike", series(0.05, 0.14, 0.25, 0.54, 1.4, 2.5, 3.5), csv(steps), "cup 3", ""},
		{"whole steps", series(0, 1, 2.4, 3), csv(series(0, 1, 2, 3)), "cups 1-2, 4", ""},
		{"marks alone", series(0, 1), csv(series(0, 2), "Copper carbonate %", "Cup", "Body"), "cups 1-2", ""},
		{"another colourant", series(0, 1), csv(planned(t, "line-series", func(p *blend.Plan) { p.Blend.Series[0].Material = "Rutile" })), "", `it has no column "Copper carbonate %"`},
		{"a blend", planned(t, "line", func(p *blend.Plan) { p.Mark = "MC" }), csv(steps), "", "another test"},
	} {
		log, err := Read(c.is.test, c.is.places, c.sheets, c.is.fingerprint, c.is.outline)
		got, ok := cellsRead(t, c.what, log, err, c.fails)
		if !ok {
			continue
		}
		if got != c.cells {
			t.Errorf("%s: %s are read, want %s; %s", c.what, got, c.cells, complaints(log))
		}
	}
}
