package logbook

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

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
	warnings, err := Write(&out, test, places, identity.Fingerprint(p), identity.OutlineOf(p).Lines(), identity.AmountsOf(p).Lines())
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
		log, err := record.Read(test, places.Scheme, sheets, identity.Fingerprint(p), identity.OutlineOf(p).Lines())
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if len(log.Readings) > 0 || len(log.Complaints) > 0 || len(log.Notes) > 0 || len(log.Firing) > 0 {
			t.Errorf("%s: a blank log reads as %+v, complaints %v, notes %q, firing %v", name, log.Readings, log.Complaints, log.Notes, log.Firing)
		}
		fingerprint, outline := record.Carried(sheets)
		if fingerprint != identity.Fingerprint(p) || !slices.Equal(outline, identity.OutlineOf(p).Lines()) {
			t.Errorf("%s: the plan reads as %q %q", name, fingerprint, outline)
		}
		if amounts := record.CarriedAmounts(sheets); !slices.Equal(amounts, identity.AmountsOf(p).Lines()) {
			t.Errorf("%s: the amounts read as %q, want %q", name, amounts, identity.AmountsOf(p).Lines())
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

// TestLog_filled has openpyxl fill a log in and LibreOffice save it anew: what
// was typed is read with the marks that it stands beside.
func TestLog_filled(t *testing.T) {
	if testing.Short() {
		t.Skip("starting LibreOffice takes seconds")
	}
	interpreter := xlsxtest.Python(t)
	xlsxtest.Tool(t, "soffice")
	p := *xlsxtest.Plans(t)["triaxial"]
	p.Log.Numbers = []string{"Gloss"}
	data, test, places := logOf(t, &p)
	dir := t.TempDir()
	in := filepath.Join(dir, "log.xlsx")
	if err := os.WriteFile(in, data, 0o644); err != nil {
		t.Fatal(err)
	}
	xlsxtest.Run(t, interpreter, "-c", `
import sys, datetime, openpyxl
w = openpyxl.load_workbook(sys.argv[1])
s = w["Tiles"]
at = {c.value: c.column for c in s[1]}
for row, entries in {2: {"Coat 1": "thin", "Surface": "gloss", "Rating": 4, "Gloss": 81.5, "Notes": "=1+1 it says"},
                     7: {"Surface": "matte", "Rating": 2, "Colour": "grün", "Gloss": "12,5"}}.items():
    for head, value in entries.items():
        c = s.cell(row, at[head]); c.value = value
        if head == "Notes": c.data_type = "s"
f = w["Firings"]
for row in f.iter_rows():
    if row[0].value == "Cone": row[1].value = "6"
    if row[0].value == "Date": row[1].value = datetime.date(2025, 3, 1)
w.save(sys.argv[1])
`, in)
	xlsxtest.Run(t, "soffice", "-env:UserInstallation=file://"+filepath.Join(dir, "profile"), "--headless",
		"--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", filepath.Join(dir, "out"), in)
	for _, file := range []string{in, filepath.Join(dir, "out", "log.xlsx")} {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		sheets := readLog(t, data, len(places.Tiles))
		log, err := record.Read(test, places.Scheme, sheets, identity.Fingerprint(&p), identity.OutlineOf(&p).Lines())
		if err != nil {
			t.Fatal(err)
		}
		if len(log.Complaints) > 0 || len(log.Readings) != 2 {
			t.Fatalf("%s: %d readings, complaints %v", file, len(log.Readings), log.Complaints)
		}
		first, second := log.Readings[0], log.Readings[1]
		if first.Mark != places.Tiles[0].Mark || first.Rating != 4 || second.Mark != places.Tiles[5].Mark || second.Rating != 2 {
			t.Errorf("%s: read %+v and %+v", file, first, second)
		}
		got := fmt.Sprintf("%+v", log.Readings)
		for _, want := range []string{"thin", "gloss", "81.5", "=1+1 it says", "matte", "grün", "12.5"} {
			if !strings.Contains(got, want) {
				t.Errorf("%s: %q is not in %s", file, want, got)
			}
		}
		if want := []record.Entry{{Label: "Cone", Value: "6"}, {Label: "Date", Value: "2025-03-01"}}; !slices.Equal(log.Firing, want) {
			t.Errorf("%s: firing %v, want %v", file, log.Firing, want)
		}
		if fingerprint, outline := record.Carried(sheets); fingerprint != identity.Fingerprint(&p) || !slices.Equal(outline, identity.OutlineOf(&p).Lines()) {
			t.Errorf("%s: the plan reads as %q %q", file, fingerprint, outline)
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
