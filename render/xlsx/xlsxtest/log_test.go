package xlsxtest

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pourboard/blend/identity"
	"pourboard/blend/record"
	"pourboard/layout"
	"pourboard/render/logbook"
	"pourboard/render/xlsx"
)

// TestLogFilled has openpyxl fill a log in as a person does, sort its rows and set
// a filter, and LibreOffice save it anew: what was typed is read with the marks
// that it stands beside.
func TestLogFilled(t *testing.T) {
	t.Parallel()
	o := theOffice(t)
	interpreter := Python(t)
	p := *Plans(t)["triaxial"]
	p.Log.Numbers = []string{"Gloss"}
	test, written := Test(t, &p), logBytes(t, &p)
	places := layout.Boards(test)
	in := filepath.Join(t.TempDir(), "log.xlsx")
	if err := os.WriteFile(in, written, 0o644); err != nil {
		t.Fatal(err)
	}
	Run(t, interpreter, "-c", `
import sys, datetime, openpyxl
w = openpyxl.load_workbook(sys.argv[1])
s = w["Tiles"]
at = {c.value: c.column for c in s[1]}
for row, entries in {2: {"Coat 1": "thin", "Surface": "gloss", "Rating": 4, "Gloss": 81.5, "Notes": "=1+1 it says"},
                     7: {"Surface": "sugary", "Rating": 2, "Colour": "grün", "Gloss": "12,5"}}.items():
    for head, value in entries.items():
        c = s.cell(row, at[head]); c.value = value
        if head == "Notes": c.data_type = "s"
rows = [[c.value for c in r] for r in s.iter_rows(min_row=2)]
rows.sort(key=lambda r: (r[at["Body"] - 1], -r[at["Cup"] - 1]))
for n, r in enumerate(rows, 2):
    for c, value in enumerate(r, 1):
        s.cell(n, c).value = value
        if isinstance(value, str): s.cell(n, c).data_type = "s"
s.auto_filter.add_filter_column(at["Body"] - 1, ["Buff"])
for n in range(2, s.max_row + 1): s.row_dimensions[n].hidden = s.cell(n, at["Body"]).value != "Buff"
f = w["Firings"]
for row in f.iter_rows():
    if row[0].value == "Cone": row[1].value = "6"
    if row[0].value == "Date": row[1].value = datetime.date(2025, 3, 1)
w.save(sys.argv[1])
`, in)
	filled, err := os.ReadFile(in)
	if err != nil {
		t.Fatal(err)
	}
	kinds := kindsOf(t, filled, len(places.Tiles))
	for _, kind := range []record.Kind{record.Text, record.Number, record.Date} {
		if !slices.ContainsFunc(kinds, func(text string) bool { return strings.HasSuffix(text, fmt.Sprint(kind)) }) {
			t.Errorf("no cell of kind %v is filled in", kind)
		}
	}
	resaved := o.resaved(t, filled)
	if got := kindsOf(t, resaved, len(places.Tiles)); !slices.Equal(got, kinds) {
		t.Errorf("LibreOffice changes the kinds of cells from\n%q to\n%q", kinds, got)
	}
	for by, data := range map[string][]byte{"openpyxl": filled, "LibreOffice": resaved} {
		if xlsx.Untouched(bytes.NewReader(data), int64(len(data))) {
			t.Errorf("what %s saved counts as untouched", by)
		}
		sheets, err := logbook.Read("log.xlsx", bytes.NewReader(data), int64(len(data)), len(places.Tiles))
		if err != nil {
			t.Fatal(err)
		}
		log, err := record.Read(test, sheets)
		if err != nil {
			t.Fatal(err)
		}
		if len(log.Complaints) > 0 || len(log.Readings) != 2 {
			t.Fatalf("%s: %d readings, complaints %v", by, len(log.Readings), log.Complaints)
		}
		first, second := log.Readings[0], log.Readings[1]
		if first.Mark != places.Tiles[0].Mark || first.Rating != 4 || second.Mark != places.Tiles[5].Mark || second.Rating != 2 {
			t.Errorf("%s: read %+v and %+v", by, first, second)
		}
		got := fmt.Sprintf("%+v", log.Readings)
		for _, want := range []string{"thin", "gloss", "81.5", "=1+1 it says", "sugary", "grün", "12.5"} {
			if !strings.Contains(got, want) {
				t.Errorf("%s: %q is not in %s", by, want, got)
			}
		}
		carried := record.Carry(sheets)
		if carried.Fingerprint != identity.Fingerprint(&p) || !slices.Equal(carried.Outline.Lines(), identity.OutlineOf(&p).Lines()) || carried.PlanText != planText {
			t.Errorf("%s: the plan reads as %+v", by, carried)
		}
	}
}

// kindsOf is of what kind each cell of a log is that has something, by its place.
func kindsOf(t *testing.T, data []byte, tiles int) (all []string) {
	t.Helper()
	sheets, err := logbook.Read("log.xlsx", bytes.NewReader(data), int64(len(data)), tiles)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range sheets {
		for _, row := range s.Rows {
			for c, cell := range row.Cells {
				if cell.Kind != record.Blank {
					all = append(all, fmt.Sprintf("%s!%s%d %v", s.Name, xlsx.Letters(c), row.Number, cell.Kind))
				}
			}
		}
	}
	return all
}

// TestPourResaved has LibreOffice save a pour workbook anew, with nothing typed:
// that is no longer ours to replace.
func TestPourResaved(t *testing.T) {
	t.Parallel()
	data := theOffice(t).resaved(t, pourBytes(t, Plans(t)["triaxial"]))
	if xlsx.Untouched(bytes.NewReader(data), int64(len(data))) {
		t.Error("what LibreOffice saved counts as untouched")
	}
}
