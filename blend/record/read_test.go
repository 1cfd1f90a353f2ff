package record_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/blend/quantity"
	. "pourboard/blend/record"
	"pourboard/blend/record/recordtest"
	"pourboard/blend/results"
	"pourboard/render/wording"
)

func TestRead_asWritten(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	log := m.Read(t, m.BlankLog())
	if len(log.Readings) != 0 || len(log.Complaints) != 0 || len(log.Notes) != 0 || len(log.Firings) != 0 || log.Origin.Other {
		t.Errorf("a blank log reads as %+v", log)
	}
	if log.Origin.Fingerprint != m.Fingerprint {
		t.Errorf("fingerprint %q, want %q", log.Origin.Fingerprint, m.Fingerprint)
	}
}

func TestRead_filled(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	sheets := m.BlankLog()
	s := &sheets[0]
	mark := m.Scheme.Tile(5).Mark
	for head, c := range map[string]Cell{
		"Coat 1": recordtest.Number(3), "Coat 2": recordtest.Words(" breaks to rust "), "Surface": recordtest.Words("SATIN"), "Defects": recordtest.Words("a crack"),
		"Colour": recordtest.Words("grey"), "Rating": recordtest.Words("4"), "Gloss": recordtest.Words("61,5"), "Run length mm": recordtest.Number(1.234),
		"Photograph": recordtest.Words("p12.jpg"), "Notes": {Kind: Date, Text: "2026-03-01"},
	} {
		recordtest.Put(t, s, mark, head, c)
	}
	sheets[1].Rows[1].Cells[1] = recordtest.Words("8")
	sheets[1].Rows = append(sheets[1].Rows, Row{Number: 20, Cells: []Cell{recordtest.Words("Cooling:"), recordtest.Words("slow"), recordtest.Words("to 900 °C")}})
	sheets[1].Rows[2].Cells[1] = recordtest.Number(1255)
	log := m.Read(t, sheets)
	if len(log.Readings) != 1 || len(log.Complaints) != 0 {
		t.Fatalf("%d readings, complaints %s", len(log.Readings), recordtest.Complaints(log))
	}
	want := Reading{
		Tile: m.Scheme.Tile(5), Row: 7, Firing: "A",
		Coats:   []Coat{{"3", Amount{3, true, 0}}, {"breaks to rust", Amount{}}, {}},
		Surface: "satin", Defects: "a crack", Colour: "grey", Rating: 4,
		Numbers: []Amount{{61.5, true, 1}, {1.234, true, 3}}, Photo: "p12.jpg", Notes: "2026-03-01",
	}
	if !reflect.DeepEqual(log.Readings[0], want) {
		t.Errorf("got  %+v\nwant %+v", log.Readings[0], want)
	}
	if want := []Entry{{"Cone", "8"}, {"Top temperature °C", "1255"}, {"Cooling:", "slow to 900 °C"}}; len(log.Firings) != 1 || !slices.Equal(log.Firings[0].Entries, want) {
		t.Errorf("firing %v, want %v", log.Firings, want)
	}
}

// Whatever is done to the form of a log, the same is read.
func TestRead_form(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	filled := func() []Sheet {
		sheets := m.BlankLog()
		m.Fill(t, &sheets[0], "Rating", func(tile mark.Tile) float64 { return float64(tile.Index%5 + 1) })
		m.Fill(t, &sheets[0], "Gloss", func(tile mark.Tile) float64 { return float64(tile.Index) / 4 })
		return sheets
	}
	want := m.Read(t, filled()).Readings
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
			s[0].Rows = append([]Row{{Number: 1, Cells: []Cell{recordtest.Words("Copper, first firing")}}, {Number: 2, Cells: []Cell{{}, recordtest.Words("mine")}}}, s[0].Rows...)
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
				s[0].Rows[i].Cells = slices.Insert(s[0].Rows[i].Cells, 3, recordtest.Words(fmt.Sprint("mine ", i)))
			}
			return s
		},
		"columns deleted": func(s []Sheet) []Sheet {
			for i := range s[0].Rows {
				s[0].Rows[i].Cells = slices.Delete(s[0].Rows[i].Cells, 12, 20)
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
						s[0].Rows[i].Cells[j] = recordtest.Words(c.Text)
					}
				}
			}
			return s
		},
		"decimal commas": func(s []Sheet) []Sheet {
			for i := range s[0].Rows[1:] {
				for j, c := range s[0].Rows[i+1].Cells {
					if c.Kind == Number {
						s[0].Rows[i+1].Cells[j] = recordtest.Words(strings.ReplaceAll(c.Text, ".", ","))
					}
				}
			}
			return s
		},
		"underside marks": func(s []Sheet) []Sheet {
			for i := range s[0].Rows[1:] {
				s[0].Rows[i+1].Cells[0] = recordtest.Words(strings.ToLower(m.Scheme.Tile(i).Under))
			}
			return s
		},
		"copy of the blank sheet": func(s []Sheet) []Sheet { return append(m.BlankLog()[:1:1], s...) },
	} {
		log := m.Read(t, change(filled()))
		for i := range log.Readings {
			log.Readings[i].Row = want[i].Row
		}
		if !reflect.DeepEqual(log.Readings, want) {
			t.Errorf("%s: %d readings, want %d; %s", name, len(log.Readings), len(want), recordtest.Complaints(log))
		}
		if len(log.Complaints) > 0 {
			t.Errorf("%s: %s", name, recordtest.Complaints(log))
		}
	}
}

// Rows below heads in another order are refused one by one, also where there is nothing
// below the first heads.
func TestRead_otherHeads(t *testing.T) {
	m := recordtest.Planned(t, "line-series", nil)
	sheets := m.BlankLog()[:1]
	s := &sheets[0]
	recordtest.Put(t, s, "MC1P", "Rating", recordtest.Number(3))
	wide := len(s.Rows[0].Cells)
	for i, texts := range [][]string{{"Mark", "Rating"}, {"MC2P", "4"}, {"", "5"}, {"", ""}} {
		row := Row{Number: 90 + i, Cells: make([]Cell, wide)}
		for _, text := range texts {
			row.Cells = append(row.Cells, recordtest.Words(text))
		}
		s.Rows = append(s.Rows, row)
	}
	log := m.Read(t, sheets)
	if got := recordtest.Complaints(log); len(log.Readings) != 1 || strings.Count(got, "\n") != 1 ||
		!strings.Contains(got, "row 91, Mark: the row is below heads in another order; skipped (keep one row of heads)") {
		t.Errorf("%d readings: %s", len(log.Readings), got)
	}
}

func eachRow(s Sheet, change func([]Cell)) {
	for _, row := range s.Rows {
		change(row.Cells)
	}
}

func TestRead_otherPlan(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	other := recordtest.Planned(t, "triaxial", func(p *blend.Plan) { p.Blend.Divisions = 5 })
	sheets := other.BlankLog()
	other.Fill(t, &sheets[0], "Rating", func(mark.Tile) float64 { return 2 })
	log := m.Read(t, sheets)
	if !log.Origin.Other || log.Origin.Fingerprint != other.Fingerprint {
		t.Fatalf("origin %+v", log.Origin)
	}
	if !slices.Equal(log.Origin.Outline.Lines(), other.Outline) {
		t.Errorf("outline %q", log.Origin.Outline)
	}
	if n := len(log.Notes); n != 2 || log.Notes[1] != "changed since: divisions: was 5, is 6" {
		t.Fatalf("notes %q", log.Notes)
	}
	// Of the 21 mixtures of five steps only the first end alone keeps its number.
	const want = `sheet "Tiles", row 5, Magnesia matte %: it reads 80, and cup 2 is 83.3333 %; skipped (the plan has changed since the log was made)`
	if len(log.Complaints) != 60 || log.Complaints[0].String() != want {
		t.Errorf("%d complaints, %q, want 60, %q", len(log.Complaints), log.Complaints[0], want)
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
	return quantity.Cups(slices.Compact(cells), 20), true
}

// What of a log of a changed plan is read: the cups that are what they were.
func TestRead_changedPlan(t *testing.T) {
	series := func(percents ...float64) func(*blend.Plan) {
		return func(p *blend.Plan) { p.Blend.Series[0].Percents = percents }
	}
	for _, c := range []struct {
		what    string
		was, is recordtest.Made
		cells   string // read
		fails   string
	}{
		{"a step of a series was changed", recordtest.Planned(t, "line-series", series(0, 1, 2, 4)), recordtest.Planned(t, "line-series", series(0, 1, 2, 3)), "cups 1-3", ""},
		{"a recipe was corrected", recordtest.Planned(t, "line-series", func(p *blend.Plan) { p.Glazes[0].Recipe[0].Percent++ }), recordtest.Planned(t, "line-series", nil), "cups 1-6", ""},
		{"a base was renamed", recordtest.Planned(t, "line-series", func(p *blend.Plan) { p.Glazes[0].Name = "Magnesia mat" }), recordtest.Planned(t, "line-series", nil), "cups 1-6", ""},
		{"its base is Ash", recordtest.Planned(t, "line-series", func(p *blend.Plan) { p.Glazes[0].Name = "Ash"; p.Glazes[0].Recipe[0].Percent++ }), recordtest.Planned(t, "line-series", nil),
			"", "another test than the plan: its base is Ash"},
		{"a base renamed and changed in its additions", recordtest.Planned(t, "line-series", func(p *blend.Plan) {
			p.Glazes[0].Name = "Ash"
			p.Glazes[0].Additions = append(p.Glazes[0].Additions, blend.Part{Material: "Tin oxide", Percent: 8})
		}), recordtest.Planned(t, "line-series", nil), "", "its base is Ash"},
		{"another colourant", recordtest.Planned(t, "line-series", func(p *blend.Plan) { p.Blend.Series[0].Material = "Manganese dioxide" }), recordtest.Planned(t, "line-series", nil),
			"", `it has no column "Copper carbonate %"`},
		{"a second colourant now", recordtest.Planned(t, "line-series", nil), recordtest.Planned(t, "biaxial-series", func(p *blend.Plan) {
			p.Mark = "MC"
			p.Glazes = recordtest.Planned(t, "line-series", nil).Test.Plan.Glazes
			p.Blend.Base = 0
		}),
			"cups 1-4", ""},
		{"another glaze for an end", recordtest.Planned(t, "triaxial", func(p *blend.Plan) { p.Glazes[2].Name = "Ash"; p.Glazes[2].Recipe[0].Percent++ }), recordtest.Planned(t, "triaxial", nil), "cups 1-2, 4, 7, 11, 16, 22", ""},
		{"another basis", recordtest.Planned(t, "triaxial", func(p *blend.Plan) { p.Blend.Basis = blend.Volume }), recordtest.Planned(t, "triaxial", nil), "", "its shares are of volume"},
		{"a blend for a series", recordtest.Planned(t, "line", nil), recordtest.Planned(t, "line-series", nil), "", "it has no column \"Copper carbonate %\""},
		{"an end was renamed", recordtest.Planned(t, "triaxial", func(p *blend.Plan) { p.Glazes[2].Name = "Soda bleu" }), recordtest.Planned(t, "triaxial", nil), "cups 1-28", ""},
		{"a thirds plan as it is", recordtest.Planned(t, "triaxial", nil), recordtest.Planned(t, "triaxial", nil), "cups 1-28", ""},
	} {
		if c.was.Test.Plan.Mark != c.is.Test.Plan.Mark {
			p := *c.was.Test.Plan
			p.Mark = c.is.Test.Plan.Mark
			c.was = recordtest.Replanned(t, &p)
		}
		sheets := c.was.BlankLog()
		c.was.Fill(t, &sheets[0], "Rating", func(mark.Tile) float64 { return 2 })
		log, err := Read(c.is.Test, sheets)
		got, ok := cellsRead(t, c.what, log, err, c.fails)
		if !ok {
			continue
		}
		if got != c.cells || len(log.Readings)+len(log.Complaints) != c.was.Scheme.Tiles() {
			t.Errorf("%s: %s are read, want %s; %s", c.what, got, c.cells, recordtest.Complaints(log))
		}
	}
}

// A percentage that stands by the mark of another cup is reported, and one that a
// program has rounded is not.
func TestRead_percentages(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	for _, c := range []struct {
		cell Cell
		want string
	}{
		{recordtest.Number(83.333333), ""},
		{recordtest.Words("83.3"), ""},
		{recordtest.Words("83,33"), ""},
		{recordtest.Words("83.3 % asked, 80.1 made"), ""},
		{recordtest.Words("83"), "it reads 83, and cup 2 is 83.3333 %; skipped"},
		{recordtest.Words("about 80"), ""},
		{Cell{}, ""},
		{recordtest.Number(83), "it reads 83, and cup 2 is 83.3333 %; skipped"},
		{recordtest.Words("66.7"), "it reads 66.7, and cup 2 is 83.3333 %; skipped"},
		{recordtest.Words("66.7 % asked, 68 made"), "reads 66.7 % asked, 68 made, and cup 2"},
	} {
		sheets := m.BlankLog()
		mark := m.Scheme.Tile(m.Scheme.IndexOf(2, 0, 0)).Mark
		recordtest.Put(t, &sheets[0], mark, "Rating", recordtest.Words("3"))
		recordtest.Put(t, &sheets[0], mark, "Magnesia matte %", c.cell)
		log := m.Read(t, sheets)
		switch {
		case c.want == "" && (len(log.Complaints) > 0 || len(log.Readings) != 1):
			t.Errorf("%q: %s", c.cell.Text, recordtest.Complaints(log))
		case c.want != "" && (len(log.Complaints) != 1 || !strings.Contains(log.Complaints[0].What, c.want)):
			t.Errorf("%q: %s, want %q", c.cell.Text, recordtest.Complaints(log), c.want)
		}
	}
}

// Neither the order of the rows nor that of the columns changes what is read
// and worked out.
func TestRead_shuffled(t *testing.T) {
	for _, name := range []string{"triaxial", "biaxial-series", "quadraxial", "line-series"} {
		m := recordtest.Planned(t, name, func(p *blend.Plan) { p.Tiles.Repeats = 2; p.Log.Numbers = []string{"Gloss"} })
		filled := func() []Sheet {
			sheets := m.BlankLog()
			random := rand.New(rand.NewPCG(4, 4))
			m.Fill(t, &sheets[0], "Rating", func(mark.Tile) float64 { return float64(random.IntN(6)) }) // 0 is out of range
			m.Fill(t, &sheets[0], "Gloss", func(mark.Tile) float64 { return 50 + 20*random.NormFloat64() })
			m.Fill(t, &sheets[0], "Coat 1", func(mark.Tile) float64 { return float64(random.IntN(5) + 1) })
			return sheets
		}
		asWritten := m.Read(t, filled())
		want := results.Evaluate(m.Test, asWritten)
		for seed := range uint64(4) {
			sheets := filled()
			shuffle(sheets[0].Rows[1:], seed)
			log := m.Read(t, sheets)
			if len(log.Complaints) != len(asWritten.Complaints) {
				t.Errorf("%s: %d complaints, want %d", name, len(log.Complaints), len(asWritten.Complaints))
			}
			for i := range log.Readings {
				log.Readings[i].Row = asWritten.Readings[i].Row
			}
			log.Complaints = asWritten.Complaints
			if got := results.Evaluate(m.Test, log); !reflect.DeepEqual(got, want) {
				t.Errorf("%s: other results after shuffling with seed %d", name, seed)
			}
		}
	}
}

// No cell, wherever it stands, makes reading or evaluating panic, and what is
// read keeps to its ranges.
func FuzzRead(f *testing.F) {
	m := recordtest.Planned(f, "triaxial", func(p *blend.Plan) { p.Tiles.Repeats = 2 })
	f.Add(0, 0, uint8(1), "MR1A", 0.0, 3, 4, uint8(2), "1,5", 1.5, false)
	f.Add(5, 14, uint8(1), "1,234", 0.0, 9, 1, uint8(1), "ten", 0.0, true)
	f.Add(5, 14, uint8(2), "", math.Inf(1), 0, 3, uint8(6), "Rating", math.NaN(), false)
	f.Add(1, 0, uint8(4), "2026-03-01", 46000.0, 2, 0, uint8(1), "MR?*..----", -1.0, true)
	f.Add(170, 16, uint8(2), "1e18", 1e18, 171, 16, uint8(1), "-", -1e15, false)
	f.Fuzz(func(t *testing.T, row1, column1 int, kind1 uint8, text1 string, number1 float64,
		row2, column2 int, kind2 uint8, text2 string, number2 float64, everywhere bool) {
		sheets := m.BlankLog()
		m.Fill(t, &sheets[0], "Rating", func(tile mark.Tile) float64 { return float64(tile.Index%5 + 1) })
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
		log, err := Read(m.Test, sheets)
		if err != nil {
			if strings.Contains(err.Error(), "\n") {
				t.Errorf("error of several lines: %q", err)
			}
			return
		}
		for _, r := range log.Readings {
			if r.Rating < 0 || r.Rating > MostRating {
				t.Errorf("rating %g", r.Rating)
			}
			for _, a := range r.Numbers {
				if math.IsNaN(a.Value) || math.Abs(a.Value) > 1e15 {
					t.Errorf("number %v", a.Value)
				}
			}
		}
		for _, c := range log.Complaints {
			if strings.Contains(c.String(), "\n") {
				t.Errorf("complaint of several lines: %q", c)
			}
		}
		found := results.Evaluate(m.Test, log)
		for _, measure := range found.Measures {
			for _, model := range measure.Models {
				wording.ModelText(found, model)
			}
		}
	})
}

// A CSV says nothing of its plan but what its percentages say.
func TestRead_csvOfAnotherPlan(t *testing.T) {
	csv := func(m recordtest.Made, without ...string) []Sheet {
		tiles := m.BlankLog()[0]
		m.Fill(t, &tiles, "Rating", func(mark.Tile) float64 { return 3 })
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
	series := func(percents ...float64) recordtest.Made {
		return recordtest.Planned(t, "line-series", func(p *blend.Plan) { p.Blend.Series[0].Percents = percents })
	}
	steps := series(0, 0.1, 0.25, 0.5, 1, 2, 3)
	for _, c := range []struct {
		what   string
		is     recordtest.Made
		sheets []Sheet
		cells  string // read
		fails  string
	}{
		{"its own", steps, csv(steps), "cups 1-7", ""},
		{"steps that round alike", series(0.05, 0.14, 0.25, 0.54, 1.4, 2.5, 3.5), csv(steps), "cup 3", ""},
		{"whole steps", series(0, 1, 2.4, 3), csv(series(0, 1, 2, 3)), "cups 1-2, 4", ""},
		{"marks alone", series(0, 1), csv(series(0, 2), "Copper carbonate %", "Cup", "Body", "Plan code"), "cups 1-2", ""},
		{"another colourant", series(0, 1), csv(recordtest.Planned(t, "line-series", func(p *blend.Plan) { p.Blend.Series[0].Material = "Rutile" })), "", `the plan has no column "Rutile %"`},
		{"a blend", recordtest.Planned(t, "line", func(p *blend.Plan) { p.Mark = "MC" }), csv(steps), "", "another test"},
	} {
		log, err := Read(c.is.Test, c.sheets)
		got, ok := cellsRead(t, c.what, log, err, c.fails)
		if !ok {
			continue
		}
		if got != c.cells {
			t.Errorf("%s: %s are read, want %s; %s", c.what, got, c.cells, recordtest.Complaints(log))
		}
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

// One line of the sheet of the firing is enough, and each firing has its column.
func TestRead_firings(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	sheets := m.BlankLog()
	sheets[1].Rows[1].Cells[1] = recordtest.Words("6")
	if got := fmt.Sprint(m.Read(t, sheets).Firings); got != "[{A [{Cone 6}]}]" {
		t.Errorf("firings %s", got)
	}
	sheets[1] = recordtest.SheetOf("Kiln book", []string{"Firing", "a", "B"}, []string{"Cone:", "6", "10"}, []string{"Date", "", "3.10.2026"}, []string{"Kept in", "Crate 1", ""})
	if got := fmt.Sprint(m.Read(t, sheets).Firings); got != "[{A [{Cone 6} {Kept in Crate 1}]} {B [{Cone 10} {Date 3.10.2026}]}]" {
		t.Errorf("firings %s", got)
	}
}
