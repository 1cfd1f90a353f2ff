package xlsx

import (
	"bytes"
	"os"
	"path/filepath"
	"pourboard/render/xlsx/xlsxtest"
	"testing"

	"pourboard/blend/record"
)

// checkRead checks what must hold for anything that is read.
func checkRead(t *testing.T, tables []record.Sheet, err error, name string) {
	t.Helper()
	if err != nil {
		checkSentence(t, err, name, "")
		return
	}
	cells := 0
	for _, table := range tables {
		last := 0
		for _, row := range table.Rows {
			if row.Number <= last || row.Number > maxRows || len(row.Cells) == 0 || len(row.Cells) > testLimits.Columns {
				t.Fatalf("row %d after %d with %d cells", row.Number, last, len(row.Cells))
			}
			last = row.Number
			for _, v := range row.Cells {
				if v != (record.Cell{}) {
					cells++
				}
				if v.Kind == record.Blank && v.Text != "" {
					t.Fatalf("blank with text %q", v.Text)
				}
			}
		}
	}
	if cells > testLimits.Cells {
		t.Fatalf("%d cells", cells)
	}
}

func FuzzReadWorkbook(f *testing.F) {
	for _, h := range hostileFiles() {
		f.Add(h.data, "")
	}
	f.Add(sampleBook(f), "")
	// The second argument is a sheet's rows: mutations of a zip seldom get
	// past its checksums.
	f.Add([]byte{}, goodRows)
	f.Add([]byte{}, `<row><c t="inlineStr"><is><r><t>a</t></r><rPh><t>b</t></rPh></is></c><c s="1"><v>45717.5</v></c><c t="b"><f>1</f><v>1</v></c></row>`)
	f.Fuzz(func(t *testing.T, data []byte, sheet string) {
		if sheet != "" {
			data = rows(sheet)
		}
		tables, err := readBytes("log.xlsx", data)
		checkRead(t, tables, err, "log.xlsx")
	})
}

// TestValues reads cells as different programs write them.
func TestValues(t *testing.T) {
	head := `<row r="1">`
	for cell, want := range map[string]record.Cell{
		`<c r="A1"><v>4.5</v></c>`:                                             {Kind: record.Number, Text: "4.5", Number: 4.5},
		`<c r="A1" t="n"><v>1E-007</v></c>`:                                    {Kind: record.Number, Text: "0.0000001", Number: 1e-7},
		`<c r="A1"><v>0.30000000000000004</v></c>`:                             {Kind: record.Number, Text: "0.3", Number: 0.30000000000000004},
		`<c r="A1" s="1"/>`:                                                    {},
		`<c r="A1" t="s"><v></v></c>`:                                          {},
		`<c r="A1" t="s"><v>1</v></c>`:                                         {Kind: record.Text, Text: "MR1"},
		`<c r="A1" t="inlineStr"><is><t xml:space="preserve"> a </t></is></c>`: {Kind: record.Text, Text: " a "},
		`<c r="A1" t="inlineStr"><is><r><t>a</t></r><r><rPr><b/></rPr><t>b</t></r><rPh sb="0" eb="1"><t>c</t></rPh></is></c>`: {Kind: record.Text, Text: "ab"},
		`<c r="A1" t="str"><f>A2</f><v>x_x0041_</v></c>`:                                                                      {Kind: record.Text, Text: "xA"},
		`<c r="A1" t="str"><f>A2</f><v></v></c>`:                                                                              {},
		`<c r="A1"><f>A2</f><v></v></c>`:                                                                                      {Kind: record.Stale},
		`<c r="A1"><f>A2</f></c>`:                                                                                             {Kind: record.Stale},
		`<c r="A1"><f>A2</f><v>7</v></c>`:                                                                                     {Kind: record.Number, Text: "7", Number: 7},
		`<c r="A1" t="b"><v>1</v></c>`:                                                                                        {Kind: record.Truth, Text: "TRUE"},
		`<c r="A1" t="b"><f>FALSE()</f><v>0</v></c>`:                                                                          {Kind: record.Truth, Text: "FALSE"},
		`<c r="A1" t="e"><v>#DIV/0!</v></c>`:                                                                                  {Kind: record.Fault, Text: "#DIV/0!"},
		`<c r="A1" t="d"><v>2025-03-01T14:30:00</v></c>`:                                                                      {Kind: record.Date, Text: "2025-03-01 14:30:00"},
		`<c r="A1" s="1"><v>45717</v></c>`:                                                                                    {Kind: record.Date, Text: "2025-03-01"},
		`<c r="A1" s="1"><v>45717.604166666664</v></c>`:                                                                       {Kind: record.Date, Text: "2025-03-01 14:30"},
		`<c r="A1" s="1"><v>0.35416666666666669</v></c>`:                                                                      {Kind: record.Date, Text: "08:30"},
		`<c r="A1" s="1"><v>61</v></c>`:                                                                                       {Kind: record.Date, Text: "1900-03-01"},
		`<c><v>4</v></c>`:                                                                                                     {Kind: record.Number, Text: "4", Number: 4},
		`<c r="A1"><v>abc</v></c>`:                                                                                            {Kind: record.Text, Text: "abc"},
		`<c r="A1" t="zz"><v>4</v></c>`:                                                                                       {Kind: record.Number, Text: "4", Number: 4},
		`<x:c xmlns:x="y" r="A1"><x:v>4</x:v></x:c>`:                                                                          {Kind: record.Number, Text: "4", Number: 4},
	} {
		tables, err := readBytes("log.xlsx", rows(head+cell+`</row>`))
		if err != nil {
			t.Errorf("%s: %v", cell, err)
			continue
		}
		got := record.Cell{}
		if len(tables[0].Rows) > 0 {
			got = tables[0].Rows[0].Cells[0]
		}
		if got != want {
			t.Errorf("%s reads as %+v, want %+v", cell, got, want)
		}
	}
}

func TestCodeMoment(t *testing.T) {
	for code, want := range map[string]momentKind{
		"General": plainNumber, "0.00": plainNumber, "# ##0,00": plainNumber, `0.0" days"`: plainNumber,
		`0\d`: plainNumber, "[Red]0.0": plainNumber, "[$-407]0": plainNumber, "@": plainNumber, "": plainNumber,
		"yyyy-mm-dd": dateOrTime, `yyyy\-mm\-dd`: dateOrTime, "[$-809]d mmmm yyyy;@": dateOrTime, "h:mm AM/PM": dateOrTime,
		"[h]:mm": span, "[mm]:ss": span, "0.0_d": plainNumber, "\"": plainNumber, "[": plainNumber, `\`: plainNumber,
	} {
		if got := codeMoment(code); got != want {
			t.Errorf("%q shows %d, want %d", code, got, want)
		}
	}
}

// The log as people fill it in: programs save it anew, and every program
// writes it its own way. The date is a serial day; B4 is typed as text.
func filledLog(t *testing.T) []byte {
	t.Helper()
	b := New("log")
	s := b.Sheet("Tiles")
	s.Row()
	for _, head := range []string{"Mark", "Gloss", "Surface", "Fired", "Twice"} {
		s.Text(Head, head)
	}
	for i, gloss := range []float64{12.25, 1234.5, 1e-7} {
		row := s.Row()
		s.FormattedText(Field, AsText, "MR"+string(rune('1'+i)))
		if i == 2 {
			s.Text(Field, "1,234")
		} else {
			s.Number(Field, General, gloss)
		}
		s.Text(Field, []string{"matte, dry", " two\nlines ", "grün ₂ 𝛼"}[i])
		s.Number(Field, Date, 45717)
		s.Formula(Worked, Decimals(1), "2*"+Address(0, 1+row)+"*0+7", 7)
	}
	return written(t, b)
}

func checkFilled(t *testing.T, data []byte, formulas string) {
	t.Helper()
	tables, err := readBytes("log.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	want := "1|Mark|Gloss|Surface|Fired|Twice\n" +
		"2|MR1|12.25|matte, dry|2025-03-01" + formulas + "\n" +
		"3|MR2|1234.5| two\nlines |2025-03-01" + formulas + "\n" +
		"4|MR3|1,234|grün ₂ 𝛼|2025-03-01" + formulas + "\n"
	if got := flat(tables[0]); got != want {
		t.Errorf("read\n%s\nwant\n%s", got, want)
	}
	for i, row := range tables[0].Rows[1:] {
		kinds := [4]record.Kind{row.Cells[0].Kind, row.Cells[1].Kind, row.Cells[2].Kind, row.Cells[3].Kind}
		wantKinds := [4]record.Kind{record.Text, record.Number, record.Text, record.Date}
		if i == 2 {
			wantKinds[1] = record.Text
		}
		if kinds != wantKinds {
			t.Errorf("row %d: kinds %v, want %v", row.Number, kinds, wantKinds)
		}
		if unsaved := row.Cells[4].Kind == record.Stale; unsaved != (formulas == "|") {
			t.Errorf("row %d: formula without a value: %v", row.Number, unsaved)
		}
	}
}

func TestFilledLog(t *testing.T) { checkFilled(t, filledLog(t), "|7") }

func TestResavedByOpenpyxl(t *testing.T) {
	t.Parallel()
	interpreter := xlsxtest.Python(t)
	in := filepath.Join(t.TempDir(), "log.xlsx")
	if err := os.WriteFile(in, filledLog(t), 0o644); err != nil {
		t.Fatal(err)
	}
	xlsxtest.Run(t, interpreter, "-c", "import sys, openpyxl\nw = openpyxl.load_workbook(sys.argv[1])\nw.save(sys.argv[1])", in)
	data, err := os.ReadFile(in)
	if err != nil {
		t.Fatal(err)
	}
	checkFilled(t, data, "|") // openpyxl drops the values of formulas
}

// TestOpenpyxlReads checks what another reader makes of the page set-up, the
// checks, the protection and the names.
func TestOpenpyxlReads(t *testing.T) {
	t.Parallel()
	interpreter := xlsxtest.Python(t)
	in := filepath.Join(t.TempDir(), "book.xlsx")
	if err := os.WriteFile(in, sampleBook(t), 0o644); err != nil {
		t.Fatal(err)
	}
	got := xlsxtest.Run(t, interpreter, "-W", "error::UserWarning", "-c", `
import sys, openpyxl
w = openpyxl.load_workbook(sys.argv[1])
print(w.properties.title, w.properties.creator, sep="|")
for s in w:
    p = s.page_setup
    print(s.title, s.sheet_state, s.freeze_panes, s.print_title_rows, p.paperSize, p.orientation, p.fitToWidth, p.fitToHeight, s.sheet_properties.pageSetUpPr.fitToPage, s.protection.sheet, s.auto_filter.ref, s.oddHeader.right.text, sep="|")
    for v in s.data_validations.dataValidation:
        print(v.type, v.sqref, v.operator, v.formula1, v.formula2, v.errorStyle, v.error, v.showErrorMessage, sep="|")
    for r in s.iter_rows():
        for c in r:
            if not c.protection.locked: print(c.coordinate, "open")
names = w.defined_names
names = names.definedName if hasattr(names, "definedName") else names.values()
print([(n.name, n.attr_text) for n in names if not n.name.startswith("_")])
`, in)
	want := `Copper & rutile <test>|pourboard
Inputs|visible|None|$1:$2|9|portrait|1|0|True|True|None|inputs
decimal|B3|None|0.001|100|None|a step between 0.001 g and 100 g|True
list|B4|None|"matte,satin,glossy"|None|None|None|True
B3 open
B4 open
Outputs|visible|B2|$1:$1|1|landscape|1|0|True|False|A1:D4|None
[('Scale_step', "'Inputs'!$B$3")]
`
	if got != want {
		t.Errorf("openpyxl reads\n%s\nwant\n%s", got, want)
	}
}

// TestSchema checks the written book against the schemas of ECMA-376 with the
// script that POURBOARD_OOXML names.
func TestSchema(t *testing.T) {
	script := os.Getenv("POURBOARD_OOXML")
	if script == "" {
		t.Skip("POURBOARD_OOXML names no script that checks against the schemas")
	}
	for name, data := range map[string][]byte{"book": sampleBook(t), "log": filledLog(t)} {
		in := filepath.Join(t.TempDir(), name+".xlsx")
		if err := os.WriteFile(in, data, 0o644); err != nil {
			t.Fatal(err)
		}
		xlsxtest.Run(t, "bash", script, in)
	}
}

// BenchmarkRead reads the log of 66 tiles with 25 columns, half of them filled.
func BenchmarkRead(b *testing.B) {
	book := New("log")
	s := book.Sheet("Tiles")
	for r := range 67 {
		s.Row()
		for c := range 25 {
			switch {
			case c%2 == 1:
				s.Blank(Field, General)
			case c < 10:
				s.Text(Field, Address(c, r+1))
			default:
				s.Number(Field, Decimals(1), float64(r)/10)
			}
		}
	}
	data := written(b, book)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := readBytes("log.xlsx", data); err != nil {
			b.Fatal(err)
		}
	}
}

// growing is a file that has more at its end each time that it is read.
type growing struct{ data []byte }

func (g *growing) ReadAt(p []byte, at int64) (int, error) {
	g.data = append(g.data, "\nMR9,5,added while it is read"...)
	return bytes.NewReader(g.data).ReadAt(p, at)
}

// A file that grows while it is read is read as it was when it was opened.
func TestRead_growing(t *testing.T) {
	for name, data := range map[string][]byte{"log.xlsx": filledLog(t), "log.csv": []byte("Mark,Rating\nMR1,4\n")} {
		want, err := readBytes(name, data)
		if err != nil {
			t.Fatal(err)
		}
		g := &growing{bytes.Clone(data)}
		got, err := Read(name, g, int64(len(data)), testLimits)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if len(g.data) == len(data) || len(got) != len(want) || flat(got[0]) != flat(want[0]) {
			t.Errorf("%s has grown to %d bytes and is read as %v, want %v", name, len(g.data), got, want)
		}
	}
}
