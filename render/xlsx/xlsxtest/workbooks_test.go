package xlsxtest

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/logbook"
	"pourboard/render/pourbook"
	"pourboard/render/xlsx"
	"testing"
)

var update = flag.Bool("update", false, "write what openpyxl reads")

// TestWorkbooks_openpyxl checks what another reader makes of both workbooks:
// names, checks, protection, print set-up, and that the maker's texts are texts.
func TestWorkbooks_openpyxl(t *testing.T) {
	interpreter := Python(t)
	dir := t.TempDir()
	p := Plans(t)["odd-text"]
	data := logBytes(t, p)
	for name, data := range map[string][]byte{"pour": pourBytes(t, p), "log": data} {
		if err := os.WriteFile(filepath.Join(dir, name+".xlsx"), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got := Run(t, interpreter, "-W", "error::UserWarning", "-c", `
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
	if *update {
		if err := os.WriteFile("testdata/openpyxl.txt", []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile("testdata/openpyxl.txt")
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("openpyxl reads\n%s\nwant\n%s", got, want)
	}
}

func TestWorkbooks_sameBytes(t *testing.T) {
	for name, p := range Plans(t) {
		for _, write := range []func(testing.TB, *blend.Plan) []byte{logBytes, pourBytes} {
			data := write(t, p)
			if !xlsx.Untouched(bytes.NewReader(data), int64(len(data))) {
				t.Errorf("%s: a workbook as it was written is not known again", name)
			}
			if !bytes.Equal(data, write(t, p)) {
				t.Errorf("%s: the same plan gives other bytes", name)
			}
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
	for name, p := range Plans(t) {
		data := logBytes(t, p)
		for kind, data := range map[string][]byte{"pour": pourBytes(t, p), "log": data} {
			in := filepath.Join(dir, name+"-"+kind+".xlsx")
			if err := os.WriteFile(in, data, 0o644); err != nil {
				t.Fatal(err)
			}
			Run(t, "bash", script, in)
		}
	}
}

// BenchmarkWorkbooks writes both workbooks of triaxials with three bodies.
func BenchmarkWorkbooks(b *testing.B) {
	p := *Plans(b)["triaxial"]
	for _, divisions := range []int{10, 50, 100} {
		p.Blend.Divisions = divisions
		test := Test(b, &p)
		places := layout.Boards(test)
		for name, write := range map[string]func() error{
			"pour": func() error { _, err := pourbook.Write(new(bytes.Buffer), test); return err },
			"log": func() error {
				_, err := logbook.Write(new(bytes.Buffer), test, places, planText, nil)
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

// What other programs save is not untouched, even if nothing was typed.
func TestUntouched_savedElsewhere(t *testing.T) {
	interpreter := Python(t)
	dir := t.TempDir()
	file := filepath.Join(dir, "pour.xlsx")
	if err := os.WriteFile(file, pourBytes(t, Plans(t)["triaxial"]), 0o644); err != nil {
		t.Fatal(err)
	}
	saved := func(file, by string) {
		t.Helper()
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if xlsx.Untouched(bytes.NewReader(data), int64(len(data))) {
			t.Errorf("what %s saved counts as untouched", by)
		}
	}
	Run(t, interpreter, "-c", "import sys, openpyxl; openpyxl.load_workbook(sys.argv[1]).save(sys.argv[1])", file)
	saved(file, "openpyxl")
}

func pourBytes(t testing.TB, p *blend.Plan) []byte {
	t.Helper()
	var out bytes.Buffer
	if warnings, err := pourbook.Write(&out, Test(t, p)); err != nil || len(warnings) > 0 {
		t.Fatalf("%v, warnings %q", err, warnings)
	}
	return out.Bytes()
}

func logBytes(t testing.TB, p *blend.Plan) []byte {
	t.Helper()
	test := Test(t, p)
	var out bytes.Buffer
	if warnings, err := logbook.Write(&out, test, layout.Boards(test), planText, nil); err != nil || len(warnings) > 0 {
		t.Fatalf("%v, warnings %q", err, warnings)
	}
	return out.Bytes()
}

// planText is a plan's text with lines that look like formulas.
const planText = "title = \"x\"\n\n=1+1\n"
