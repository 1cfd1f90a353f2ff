package xlsx

import (
	"archive/zip"
	"bytes"
	"io"
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
	data := sampleBook(t)
	if !untouched(data) {
		t.Error("the workbook as it was written is not known again")
	}
	if !untouched(repacked(t, data, func(_, part string) string { return part })) {
		t.Error("the same parts in another zip are not known again")
	}
	changed := 0
	for _, what := range []string{"xl/worksheets/sheet1.xml", "xl/styles.xml", "xl/workbook.xml", "docProps/app.xml", coreProperties} {
		other := repacked(t, data, func(name, part string) string {
			if name != what {
				return part
			}
			changed++
			part = strings.Replace(part, "<dc:identifier>pourboard ", "<dc:identifier>pourboard 0", 1)
			return strings.Replace(part, "<v>", "<v>1", 1) + "\n"
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

// No file makes looking for the seal panic.
func FuzzUntouched(f *testing.F) {
	f.Add(sampleBook(f))
	f.Add([]byte("PK\x05\x06"))
	f.Fuzz(func(t *testing.T, data []byte) { untouched(data) })
}
