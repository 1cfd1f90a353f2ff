package logbook

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	tealeg "github.com/tealeg/xlsx/v3"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/record"
	"pourboard/layout"
	"pourboard/render/xlsx/xlsxtest"
)

func logOf(t testing.TB, p *blend.Plan) (data []byte, test *blend.Test, places *layout.Places) {
	t.Helper()
	test = xlsxtest.Test(t, p)
	places = layout.Boards(test)
	var out bytes.Buffer
	warnings, err := Write(&out, test, places, planText, nil)
	if err != nil || len(warnings) > 0 {
		t.Fatalf("%v, warnings %q", err, warnings)
	}
	return out.Bytes(), test, places
}

func readLog(t testing.TB, data []byte, tiles int) []record.Sheet {
	t.Helper()
	sheets, err := Read("log.xlsx", bytes.NewReader(data), int64(len(data)), tiles)
	if err != nil {
		t.Fatal(err)
	}
	return sheets
}

// TestLog_blank writes the log of every plan and reads it back: every tile is
// there as it is printed, nothing is filled in, nothing is complained of, and
// the plan is known again.
func TestLog_blank(t *testing.T) {
	for name, p := range xlsxtest.Plans(t) {
		data, test, places := logOf(t, p)
		sheets := readLog(t, data, len(places.Tiles))
		log, err := record.Read(test, sheets)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if len(log.Readings) > 0 || len(log.Complaints) > 0 || len(log.Notes) > 0 {
			t.Errorf("%s: a blank log reads as %+v, complaints %v, notes %q", name, log.Readings, log.Complaints, log.Notes)
		}
		carried := record.Carry(sheets)
		if carried.Fingerprint != identity.Fingerprint(p) || !slices.Equal(carried.Outline.Lines(), identity.OutlineOf(p).Lines()) || carried.First {
			t.Errorf("%s: the plan reads as %+v", name, carried)
		}
		if !slices.Equal(carried.Amounts.Lines(), identity.AmountsOf(p).Lines()) {
			t.Errorf("%s: the amounts read as %q, want %q", name, carried.Amounts.Lines(), identity.AmountsOf(p).Lines())
		}
		columns := record.Columns(p)
		tiles := sheets[0]
		if len(tiles.Rows) != len(places.Tiles)+1 {
			t.Fatalf("%s: %d rows for %d tiles", name, len(tiles.Rows), len(places.Tiles))
		}
		for i := range places.Tiles {
			row := tiles.Rows[i+1]
			for c, column := range columns {
				want := column.Printed(test, places.Scheme.Tile(i))
				if column.Field == record.PlanField {
					want = record.Cell{Kind: record.Text, Text: identity.Fingerprint(p)}
				}
				got := record.Cell{}
				if c < len(row.Cells) {
					got = row.Cells[c]
				}
				if got.Kind != want.Kind || got.Kind == record.Text && got.Text != want.Text || got.Number != want.Number {
					t.Fatalf("%s, tile %d, %s: %+v, want %+v", name, i, column.Head, got, want)
				}
			}
		}
	}
}

// A plan that is too long is not carried, and that is said.
func TestLog_longPlan(t *testing.T) {
	test := xlsxtest.Test(t, xlsxtest.Plans(t)["line"])
	for lines, want := range map[int]int{mostPlanLines: 0, mostPlanLines + 1: 1} {
		var out bytes.Buffer
		text := strings.Repeat("# a line\n", lines)
		warnings, err := Write(&out, test, layout.Boards(test), text, nil)
		if err != nil || len(warnings) != want {
			t.Fatalf("%d lines: %v, warnings %q", lines, err, warnings)
		}
		if got := record.Carry(readLog(t, out.Bytes(), 9)).PlanText; (got == text) != (want == 0) {
			t.Errorf("%d lines: %d characters are carried", lines, len(got))
		}
	}
}

// TestLog_phone adds up columns as wide as a screen of 390 px shows them at full
// size, a digit 7 px and 5 px to a column (ECMA-376-1, 18.3.1.13): the mark, which
// stays, and the rating fit beside each other, and so do a cup's number, its
// amount and the field for what it came out as.
func TestLog_phone(t *testing.T) {
	for name, p := range xlsxtest.Plans(t) {
		data, _, _ := logOf(t, p)
		file, err := tealeg.OpenBinary(data)
		if err != nil {
			t.Fatal(err)
		}
		for sheet, columns := range map[string]int{record.SheetTiles: 2, record.SheetCups: 3} {
			px, heads := 0.0, file.Sheet[sheet]
			heads.Cols.ForEach(func(_ int, c *tealeg.Col) {
				for n := c.Min; n <= c.Max && n <= columns; n++ {
					px += 7**c.Width + 5
				}
			})
			if px == 0 || px > 390 {
				t.Errorf("%s: the first %d columns of %s take %.0f px", name, columns, sheet, px)
			}
		}
		if second, _ := file.Sheet[record.SheetTiles].Cell(0, 1); second.Value != "Rating" {
			t.Errorf("%s: %s stands beside the mark", name, second.Value)
		}
	}
}

func TestReadLog_csv(t *testing.T) {
	data := []byte("Mark;Rating;Notes\nMR1A;4;\"a; b\"\n")
	sheets, err := Read("log.csv", bytes.NewReader(data), int64(len(data)), 84)
	if err != nil {
		t.Fatal(err)
	}
	want := []record.Cell{{Kind: record.Text, Text: "MR1A"}, {Kind: record.Text, Text: "4"}, {Kind: record.Text, Text: "a; b"}}
	if len(sheets) != 1 || len(sheets[0].Rows) != 2 || !slices.Equal(sheets[0].Rows[1].Cells, want) {
		t.Errorf("read %+v", sheets)
	}
}

// planText is a plan's text with lines that look like formulas.
const planText = "title = \"x\"\n\n=1+1\n"
