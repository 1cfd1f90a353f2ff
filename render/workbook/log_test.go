package workbook

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/plan"
	"pourboard/layout"
	"pourboard/layout/crate"
)

func logOf(t testing.TB, p *blend.Plan) (data []byte, test *blend.Test, places *layout.Places) {
	t.Helper()
	test = testOf(t, p)
	places = layout.Boards(test)
	var out bytes.Buffer
	warnings, err := WriteLog(&out, test, places, plan.Fingerprint(p), plan.Outline(p), plan.Amounts(p))
	if err != nil || len(warnings) > 0 {
		t.Fatalf("%v, warnings %q", err, warnings)
	}
	return out.Bytes(), test, places
}

func readLog(t testing.TB, data []byte, tiles int) []crate.Sheet {
	t.Helper()
	sheets, err := ReadLog("log.xlsx", bytes.NewReader(data), int64(len(data)), tiles)
	if err != nil {
		t.Fatal(err)
	}
	return sheets
}

// TestLog_blank writes the log of every plan and reads it back: every tile is
// there as it is printed, nothing is filled in, nothing is complained of, and
// the plan is known again.
func TestLog_blank(t *testing.T) {
	for name, p := range testPlans(t) {
		data, test, places := logOf(t, p)
		sheets := readLog(t, data, len(places.Tiles))
		log, err := crate.Read(test, places, sheets, plan.Fingerprint(p), plan.Outline(p))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if len(log.Readings) > 0 || len(log.Complaints) > 0 || len(log.Notes) > 0 || len(log.Firing) > 0 {
			t.Errorf("%s: a blank log reads as %+v, complaints %v, notes %q, firing %v", name, log.Readings, log.Complaints, log.Notes, log.Firing)
		}
		fingerprint, outline := crate.Carried(sheets)
		if fingerprint != plan.Fingerprint(p) || !slices.Equal(outline, plan.Outline(p)) {
			t.Errorf("%s: the plan reads as %q %q", name, fingerprint, outline)
		}
		if amounts := crate.CarriedAmounts(sheets); !slices.Equal(amounts, plan.Amounts(p)) {
			t.Errorf("%s: the amounts read as %q, want %q", name, amounts, plan.Amounts(p))
		}
		columns := crate.Columns(p)
		tiles := sheets[0]
		if len(tiles.Rows) != len(places.Tiles)+1 {
			t.Fatalf("%s: %d rows for %d tiles", name, len(tiles.Rows), len(places.Tiles))
		}
		for i := range places.Tiles {
			row := tiles.Rows[i+1]
			for c, column := range columns {
				want := column.Printed(test, places, i)
				got := crate.Cell{}
				if c < len(row.Cells) {
					got = row.Cells[c]
				}
				if got.Kind != want.Kind || got.Kind == crate.Text && got.Text != want.Text || got.Number != want.Number {
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
	interpreter := python(t)
	tool(t, "soffice")
	p := *testPlans(t)["triaxial"]
	p.Log.Numbers = []string{"Gloss"}
	data, test, places := logOf(t, &p)
	dir := t.TempDir()
	in := filepath.Join(dir, "log.xlsx")
	if err := os.WriteFile(in, data, 0o644); err != nil {
		t.Fatal(err)
	}
	run(t, interpreter, "-c", `
import sys, datetime, openpyxl
w = openpyxl.load_workbook(sys.argv[1])
s = w["Tiles"]
at = {c.value: c.column for c in s[1]}
for row, entries in {2: {"Coat 1": "thin", "Surface": "gloss", "Rating": 4, "Gloss": 81.5, "Notes": "=1+1 it says"},
                     7: {"Surface": "matte", "Rating": 2, "Colour": "grün", "Gloss": "12,5"}}.items():
    for head, value in entries.items():
        c = s.cell(row, at[head]); c.value = value
        if head == "Notes": c.data_type = "s"
f = w["Firing"]
for row in f.iter_rows():
    if row[0].value == "Cone": row[1].value = "6"
    if row[0].value == "Date": row[1].value = datetime.date(2025, 3, 1)
w.save(sys.argv[1])
`, in)
	run(t, "soffice", "-env:UserInstallation=file://"+filepath.Join(dir, "profile"), "--headless",
		"--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", filepath.Join(dir, "out"), in)
	for _, file := range []string{in, filepath.Join(dir, "out", "log.xlsx")} {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		sheets := readLog(t, data, len(places.Tiles))
		log, err := crate.Read(test, places, sheets, plan.Fingerprint(&p), plan.Outline(&p))
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
		if want := []crate.Entry{{Label: "Cone", Value: "6"}, {Label: "Date", Value: "2025-03-01"}}; !slices.Equal(log.Firing, want) {
			t.Errorf("%s: firing %v, want %v", file, log.Firing, want)
		}
		if fingerprint, outline := crate.Carried(sheets); fingerprint != plan.Fingerprint(&p) || !slices.Equal(outline, plan.Outline(&p)) {
			t.Errorf("%s: the plan reads as %q %q", file, fingerprint, outline)
		}
	}
}

func TestReadLog_csv(t *testing.T) {
	data := []byte("Mark;Rating;Notes\nMR1A;4;\"a; b\"\n")
	sheets, err := ReadLog("log.csv", bytes.NewReader(data), int64(len(data)), 84)
	if err != nil {
		t.Fatal(err)
	}
	want := []crate.Cell{{Kind: crate.Text, Text: "MR1A"}, {Kind: crate.Text, Text: "4"}, {Kind: crate.Text, Text: "a; b"}}
	if len(sheets) != 1 || len(sheets[0].Rows) != 2 || !slices.Equal(sheets[0].Rows[1].Cells, want) {
		t.Errorf("read %+v", sheets)
	}
}

// TestWorkbooks_openpyxl checks what another reader makes of both workbooks:
// names, checks, protection, print set-up, and that the maker's texts are texts.
func TestWorkbooks_openpyxl(t *testing.T) {
	interpreter := python(t)
	dir := t.TempDir()
	p := testPlans(t)["odd-text"]
	data, _, _ := logOf(t, p)
	for name, data := range map[string][]byte{"pour": pourOf(t, p), "log": data} {
		if err := os.WriteFile(filepath.Join(dir, name+".xlsx"), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got := run(t, interpreter, "-W", "error::UserWarning", "-c", `
import sys, os, openpyxl
for name in ("pour", "log"):
    w = openpyxl.load_workbook(os.path.join(sys.argv[1], name + ".xlsx"))
    print(name, w.properties.title, w.properties.creator, sep="|")
    for s in w:
        p, l = s.page_setup, s.protection
        opened = sum(not c.protection.locked for r in s.iter_rows() for c in r)
        kinds = "".join(sorted({c.data_type for r in s.iter_rows() for c in r if c.value is not None}))
        print(s.title, s.sheet_state, s.freeze_panes, s.print_title_rows, p.orientation, p.fitToWidth, p.fitToHeight, s.sheet_properties.pageSetUpPr.fitToPage,
              l.sheet, l.password, l.sort, l.autoFilter, s.auto_filter.ref, opened, kinds, bool(s.oddHeader.left.text), s.oddFooter.right.text, sep="|")
        for v in s.data_validations.dataValidation:
            print("", v.type, v.sqref, v.operator, v.formula1, v.formula2, v.errorStyle, v.showErrorMessage, sep="|")
    names = w.defined_names
    names = names.definedName if hasattr(names, "definedName") else names.values()
    print(" ".join(n.name for n in names if not n.name.startswith("_")))
    texts = [c.value for s in w for r in s.iter_rows() for c in r if isinstance(c.value, str) and c.data_type == "s" and c.value[:1] in "=+-@"]
    print(sorted(set(texts)))
`, dir)
	want, err := os.ReadFile("testdata/openpyxl.txt")
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("openpyxl reads\n%s\nwant\n%s", got, want)
	}
}

func TestWorkbooks_sameBytes(t *testing.T) {
	for name, p := range testPlans(t) {
		one, _, _ := logOf(t, p)
		two, _, _ := logOf(t, p)
		if !bytes.Equal(pourOf(t, p), pourOf(t, p)) || !bytes.Equal(one, two) {
			t.Errorf("%s: the same plan gives other bytes", name)
		}
	}
}

// TestWorkbooks_schema checks the workbooks of every plan with the script that
// POURBOARD_OOXML names.
func TestWorkbooks_schema(t *testing.T) {
	script := os.Getenv("POURBOARD_OOXML")
	if script == "" {
		t.Skip("POURBOARD_OOXML names no script that checks against the schemas")
	}
	dir := t.TempDir()
	for name, p := range testPlans(t) {
		data, _, _ := logOf(t, p)
		for kind, data := range map[string][]byte{"pour": pourOf(t, p), "log": data} {
			in := filepath.Join(dir, name+"-"+kind+".xlsx")
			if err := os.WriteFile(in, data, 0o644); err != nil {
				t.Fatal(err)
			}
			run(t, "bash", script, in)
		}
	}
}

// BenchmarkWorkbooks writes both workbooks of triaxials with three bodies.
func BenchmarkWorkbooks(b *testing.B) {
	p := *testPlans(b)["triaxial"]
	for _, divisions := range []int{10, 50, 100} {
		p.Blend.Divisions = divisions
		test := testOf(b, &p)
		places := layout.Boards(test)
		for name, write := range map[string]func() error{
			"pour": func() error { _, err := WritePour(new(bytes.Buffer), test); return err },
			"log": func() error {
				_, err := WriteLog(new(bytes.Buffer), test, places, plan.Fingerprint(&p), plan.Outline(&p), plan.Amounts(&p))
				return err
			},
		} {
			b.Run(fmt.Sprintf("%s-%d", name, len(test.Cells)), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if err := write(); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
