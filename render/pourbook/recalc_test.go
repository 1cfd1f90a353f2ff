package pourbook

import (
	"bytes"
	"fmt"
	"html"
	"maps"
	"math"
	"os"
	"path/filepath"
	"pourboard/render/xlsx"
	"pourboard/render/xlsx/xlsxtest"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Checks with a spreadsheet engine that is not ours: LibreOffice works the
// formulas out anew and must come to the values that they carry.

var (
	formulaCell = regexp.MustCompile(`<c r="([A-Z]+)([0-9]+)"[^>]*?( t="str")?><f[^>]*>([^<]*)</f><v>([^<]*)</v></c>`)
	storedValue = regexp.MustCompile(`</f><v>[^<]*</v>`)
	definedName = regexp.MustCompile(`<definedName name="([A-Za-z_0-9]+)"[^>]*>([^<]*)</definedName>`)
)

// sheetParts are the sheets of a written workbook by the names of their parts.
func sheetParts(parts map[string]string) []string {
	var all []string
	for name := range parts {
		if strings.HasPrefix(name, "xl/worksheets/sheet") {
			all = append(all, name)
		}
	}
	slices.SortFunc(all, func(a, b string) int { return len(a) - len(b) + strings.Compare(a, b)/2 })
	return all
}

// bare is a workbook without the values of its formulas, and with other
// numbers in the cells of the given inputs; NaN empties one.
func bare(t testing.TB, data []byte, inputs map[string]float64) []byte {
	t.Helper()
	typed := map[string]any{}
	for name, x := range inputs {
		typed[name] = x
	}
	return retyped(t, data, typed)
}

// retyped is bare with numbers and texts in inputs and in cells by their
// address, "Pours!B5".
func retyped(t testing.TB, data []byte, typed map[string]any) []byte {
	t.Helper()
	parts := xlsxtest.Unzipped(t, data)
	places := map[string]string{}
	for _, m := range definedName.FindAllStringSubmatch(parts["xl/workbook.xml"], -1) {
		places[m[1]] = m[2]
	}
	for place, value := range typed {
		if at := places[place+"_typed"]; at != "" {
			place = strings.ReplaceAll(html.UnescapeString(at), "'", "")
		}
		sheet, cell, _ := strings.Cut(strings.ReplaceAll(place, "$", ""), "!")
		number := regexp.MustCompile(`<sheet name="` + sheet + `" sheetId="([0-9]+)"`).FindStringSubmatch(parts["xl/workbook.xml"])
		if number == nil {
			t.Fatalf("no input or cell %s", place)
		}
		part := "xl/worksheets/sheet" + number[1] + ".xml"
		at := regexp.MustCompile(`(<c r="` + cell + `" s="[0-9]+")(/>|( t="s")?>(<f>[^<]*</f>)?<v>[^<]*</v></c>)`)
		if !at.MatchString(parts[part]) {
			t.Fatalf("no cell %s", place)
		}
		with := "/>" // somebody empties the cell
		switch x := value.(type) {
		case string:
			with = ` t="inlineStr"><is><t>` + html.EscapeString(x) + "</t></is></c>"
		case float64:
			if !math.IsNaN(x) {
				with = "><v>" + strconv.FormatFloat(x, 'g', -1, 64) + "</v></c>"
			}
		}
		parts[part] = at.ReplaceAllString(parts[part], "${1}"+with)
	}
	for _, name := range sheetParts(parts) {
		parts[name] = storedValue.ReplaceAllString(parts[name], "</f>")
	}
	return xlsxtest.Zipped(parts)
}

// recalculate has LibreOffice open workbooks without values and save them.
func recalculate(t *testing.T, files map[string][]byte) map[string][]byte {
	t.Helper()
	xlsxtest.Tool(t, "soffice")
	dir := t.TempDir()
	names := slices.Sorted(maps.Keys(files))
	for _, name := range names {
		if err := os.WriteFile(filepath.Join(dir, name+".xlsx"), files[name], 0o644); err != nil {
			t.Fatal(err)
		}
	}
	// Many at a time, for starting takes longest; not all, for it has limits.
	for batch := range slices.Chunk(names, 50) {
		args := []string{"-env:UserInstallation=file://" + filepath.Join(dir, "profile"), "--headless",
			"--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", filepath.Join(dir, "out")}
		for _, name := range batch {
			args = append(args, filepath.Join(dir, name+".xlsx"))
		}
		xlsxtest.Run(t, "soffice", args...)
	}
	out := map[string][]byte{}
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(dir, "out", name+".xlsx"))
		if err != nil {
			t.Fatal(err)
		}
		out[name] = data
	}
	return out
}

// valuesOf are the cells of a workbook by sheet and address: "Pours!B4".
func valuesOf(t *testing.T, data []byte) map[string]xlsx.Value {
	t.Helper()
	tables, err := xlsx.Read("book.xlsx", bytes.NewReader(data), int64(len(data)), xlsx.LimitsFor(20_000, 300))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]xlsx.Value{}
	for _, table := range tables {
		for _, row := range table.Rows {
			for c, v := range row.Cells {
				if v.Kind != xlsx.KindBlank || v.Unsaved {
					all[table.Name+"!"+xlsx.Address(c, row.Number)] = v
				}
			}
		}
	}
	return all
}

// compareFormulas checks that every formula of a written workbook carries the
// value that a spreadsheet engine came to, and returns how many there are.
// skip leaves out what depends on an input as it was typed.
func compareFormulas(t *testing.T, name string, written []byte, values map[string]xlsx.Value, skip func(at, formula string) bool) int {
	t.Helper()
	parts := xlsxtest.Unzipped(t, written)
	sheets := regexp.MustCompile(`<sheet name="([^"]+)"`).FindAllStringSubmatch(parts["xl/workbook.xml"], -1)
	n, wrong := 0, 0
	for i, sheet := range sheets {
		for _, m := range formulaCell.FindAllStringSubmatch(parts[fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)], -1) {
			at := sheet[1] + "!" + m[1] + m[2]
			if skip != nil && skip(at, m[4]) {
				continue
			}
			n++
			got := values[at]
			if m[3] != "" {
				if got.Text != m[5] {
					wrong++
				} else {
					continue
				}
			} else {
				want, err := strconv.ParseFloat(m[5], 64)
				if err == nil && got.Kind == xlsx.KindNumber && math.Abs(got.Number-want) <= 1e-9*(1+math.Abs(want)) {
					continue
				}
				wrong++
			}
			if wrong <= 5 {
				t.Errorf("%s, %s: %s = %q in LibreOffice, %q here", name, at, m[4], got.Text, m[5])
			}
		}
	}
	if wrong > 5 {
		t.Errorf("%s: %d of %d formulas differ", name, wrong, n)
	}
	return n
}

func TestPour_recalculated(t *testing.T) {
	if testing.Short() {
		t.Skip("starting LibreOffice takes seconds")
	}
	written, files := map[string][]byte{}, map[string][]byte{}
	for name, p := range xlsxtest.Plans(t) {
		written[name] = pourOf(t, p)
		files[name] = bare(t, written[name], nil)
	}
	n := 0
	for name, data := range recalculate(t, files) {
		n += compareFormulas(t, name, written[name], valuesOf(t, data), nil)
	}
	t.Logf("%d formulas of %d workbooks agree with LibreOffice", n, len(files))
}
