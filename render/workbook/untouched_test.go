package workbook

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func untouched(data []byte) bool { return Untouched(bytes.NewReader(data), int64(len(data))) }

// repacked is a workbook whose parts went through edit, all else as it was.
func repacked(t testing.TB, data []byte, edit func(name, part string) string) []byte {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, f := range in.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		part, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		w, err := z.Create(f.Name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(w, edit(f.Name, string(part))); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// A workbook is known again as long as no part of it is another, whatever its
// properties still say of who made it.
func TestUntouched(t *testing.T) {
	for name, p := range testPlans(t) {
		data := pourOf(t, p)
		if !untouched(data) {
			t.Errorf("%s: the workbook as it was written is not known again", name)
		}
	}
	data := pourOf(t, testPlans(t)["triaxial"])
	log, _, _ := logOf(t, testPlans(t)["triaxial"])
	if !untouched(log) {
		t.Error("the log as it was written is not known again")
	}
	if !untouched(repacked(t, data, func(_, part string) string { return part })) {
		t.Error("the same parts in another zip are not known again")
	}
	changed := 0
	for _, what := range []string{"xl/worksheets/sheet1.xml", "xl/sharedStrings.xml", "xl/workbook.xml", "docProps/app.xml", coreProperties} {
		other := repacked(t, data, func(name, part string) string {
			if name != what {
				return part
			}
			changed++
			part = strings.Replace(part, "<dc:identifier>pourboard ", "<dc:identifier>pourboard 0", 1)
			return strings.Replace(part, ">1<", ">2<", 1) + "\n"
		})
		if untouched(other) {
			t.Errorf("with another %s it counts as untouched", what)
		}
	}
	if changed != 5 {
		t.Errorf("%d parts were changed", changed)
	}
	more := repacked(t, data, func(name, part string) string {
		if name == coreProperties {
			return strings.Replace(part, "</cp:coreProperties>", strings.Repeat(" ", 70<<10)+"</cp:coreProperties>", 1)
		}
		return part
	})
	for what, data := range map[string][]byte{
		"nothing": nil, "half a workbook": data[:len(data)/2], "text": []byte("this is no workbook"), "long properties": more,
	} {
		if untouched(data) {
			t.Errorf("%s counts as untouched", what)
		}
	}
}

// What other programs save is not untouched, even if nothing was typed.
func TestUntouched_savedElsewhere(t *testing.T) {
	interpreter := python(t)
	dir := t.TempDir()
	file := filepath.Join(dir, "pour.xlsx")
	if err := os.WriteFile(file, pourOf(t, testPlans(t)["triaxial"]), 0o644); err != nil {
		t.Fatal(err)
	}
	saved := func(file, by string) {
		t.Helper()
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if untouched(data) {
			t.Errorf("what %s saved counts as untouched", by)
		}
	}
	if !testing.Short() {
		tool(t, "soffice")
		run(t, "soffice", "-env:UserInstallation=file://"+filepath.Join(dir, "profile"), "--headless",
			"--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", filepath.Join(dir, "out"), file)
		saved(filepath.Join(dir, "out", "pour.xlsx"), "LibreOffice")
	}
	run(t, interpreter, "-c", "import sys, openpyxl; openpyxl.load_workbook(sys.argv[1]).save(sys.argv[1])", file)
	saved(file, "openpyxl")
}

// No file makes looking for the seal panic.
func FuzzUntouched(f *testing.F) {
	f.Add(pourOf(f, testPlans(f)["line"]))
	f.Add([]byte("PK\x05\x06"))
	f.Fuzz(func(t *testing.T, data []byte) { untouched(data) })
}
