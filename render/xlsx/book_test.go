package xlsx

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"pourboard/render/xlsx/xlsxtest"

	tealeg "github.com/tealeg/xlsx/v3"

	"pourboard/blend/record"
)

// sampleBook is a small workbook with one of everything.
func sampleBook(t testing.TB) []byte {
	t.Helper()
	b := New("Copper & rutile <test>")
	in := b.Sheet("Inputs")
	in.Page = Page{Paper: "A4", HeadRows: [2]int{1, 2}, Left: "Copper & rutile", Right: "inputs", Foot: "mark MR"}
	in.Row()
	in.Text(Title, "Inputs")
	in.Row()
	in.Text(Head, "What")
	in.Text(Head, "Value")
	in.Text(Head, "Hint")
	row := in.Row()
	in.Text(Label, "Scale step, g")
	b.Define("Scale_step", in.At(1, row))
	in.Number(Input, Decimals(2), 0.1)
	in.Text(Hint, "the smallest step that the scale shows")
	in.Between(Address(1, row), "0.001", "100", "in g", "a step between 0.001 g and 100 g")
	row = in.Row()
	in.Text(Label, "Surface")
	in.Blank(Input, General)
	in.List(Address(1, row), Address(1, row), []string{"matte", "satin", "glossy"})
	in.Width(0, 2, 22)
	in.Lock()

	out := b.Sheet("Outputs")
	out.Page = Page{Paper: "Letter", Landscape: true, HeadRows: [2]int{1, 1}}
	out.Freeze(1, 1)
	out.TallRow(30)
	for _, head := range []string{"Mark", "Asked, g", "Weigh, g", "Says"} {
		out.Text(Head, head)
	}
	for i, g := range []float64{139.65, 0.04, 12} {
		row := out.Row()
		measured := math.Round(math.Round(g/0.1*1e9)/1e9) * 0.1
		out.FormattedText(Given, AsText, fmt.Sprintf("MR%d", i+1))
		out.Number(Given, Decimals(3), g)
		out.Formula(Measured, Decimals(1), fmt.Sprintf("ROUND(ROUND(%s/Scale_step,9),0)*Scale_step", Address(1, row)), measured)
		out.TextFormula(Worked, fmt.Sprintf(`IF(%s<5*Scale_step,%s,"")`, Address(1, row), Quoted(`too "little"`)),
			map[bool]string{true: `too "little"`, false: ""}[g < 0.5])
	}
	out.SkipRow()
	out.Row()
	out.Skip(1)
	out.Text(Plain, "=1+1 is text, _x0041_ too, \x07 & < > \n next line ")
	out.Filter(3, 4)
	return written(t, b)
}

// written is the file of a workbook.
func written(t testing.TB, b *Book) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := b.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestSameBytes(t *testing.T) {
	if !bytes.Equal(sampleBook(t), sampleBook(t)) {
		t.Error("the same book gives other bytes")
	}
}

// TestReadBack reads the written book with the package's own reader.
func TestReadBack(t *testing.T) {
	data := sampleBook(t)
	tables, err := Read("book.xlsx", bytes.NewReader(data), int64(len(data)), testLimits)
	if err != nil {
		t.Fatal(err)
	}
	compareSample(t, tables)
}

// compareSample compares what was read with what sampleBook writes.
func compareSample(t *testing.T, tables []record.Sheet) {
	t.Helper()
	var got strings.Builder
	for _, table := range tables {
		fmt.Fprintf(&got, "%s\n", table.Name)
		for _, row := range table.Rows {
			for i, v := range row.Cells {
				if v != (record.Cell{}) {
					fmt.Fprintf(&got, "%s %d %q\n", Address(i, row.Number), v.Kind, v.Text)
				}
			}
		}
	}
	want := `Inputs
A1 1 "Inputs"
A2 1 "What"
B2 1 "Value"
C2 1 "Hint"
A3 1 "Scale step, g"
B3 2 "0.1"
C3 1 "the smallest step that the scale shows"
A4 1 "Surface"
Outputs
A1 1 "Mark"
B1 1 "Asked, g"
C1 1 "Weigh, g"
D1 1 "Says"
A2 1 "MR1"
B2 2 "139.65"
C2 2 "139.7"
A3 1 "MR2"
B3 2 "0.04"
C3 2 "0"
D3 1 "too \"little\""
A4 1 "MR3"
B4 2 "12"
C4 2 "12"
B6 1 "=1+1 is text, _x0041_ too, � & < > \n next line "
`
	if got.String() != want {
		t.Errorf("read\n%s\nwant\n%s", got.String(), want)
	}
}

// TestLibraryReads checks the written book with the spreadsheet library's own
// reader, styles and formulas included.
func TestLibraryReads(t *testing.T) {
	f, err := tealeg.OpenBinary(sampleBook(t))
	if err != nil {
		t.Fatal(err)
	}
	cell, err := f.Sheet["Outputs"].Cell(1, 2)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := cell.Formula(), "ROUND(ROUND(B2/Scale_step,9),0)*Scale_step"; got != want {
		t.Errorf("formula %q, want %q", got, want)
	}
	if x, err := cell.Float(); err != nil || math.Abs(x-139.7) > 1e-9 {
		t.Errorf("value %v %v, want 139.7", x, err)
	}
	if cell.NumFmt != "0.0" || !cell.GetStyle().Font.Bold {
		t.Errorf("number format %q, bold %v", cell.NumFmt, cell.GetStyle().Font.Bold)
	}
}

// TestStyles checks that every look keeps its own style and lock, whatever the
// order in which looks come.
func TestStyles(t *testing.T) {
	b := New("styles")
	s := b.Sheet("A")
	s.Row()
	for l := looks; l > 0; l-- {
		s.Number(l-1, Decimals(int(l)), 1)
	}
	data := written(t, b)
	_, xfs, _ := strings.Cut(xlsxtest.Unzipped(t, data)["xl/styles.xml"], "<cellXfs")
	for i, xf := range strings.Split(xfs, "<xf ")[2:] { // behind the one of cells without look
		look := looks - 1 - Look(i)
		if got := strings.Contains(xf, `locked="0"`); got != look.Open() {
			t.Errorf("look %d is unlocked %v: %s", look, got, xf)
		}
	}
	f, err := tealeg.OpenBinary(data)
	if err != nil {
		t.Fatal(err)
	}
	for i := range int(looks) {
		cell, err := f.Sheets[0].Cell(0, i)
		if err != nil {
			t.Fatal(err)
		}
		look := looks - 1 - Look(i)
		want, got := styles[look], cell.GetStyle()
		font := cmp.Or(want.font, `<sz val="11"/>`)
		if got.Font.Bold != strings.Contains(font, "<b/>") || !strings.Contains(font, fmt.Sprintf(`<sz val="%d"/>`, int(got.Font.Size))) ||
			got.Fill.FgColor != want.tint || got.Border.Left != want.line || got.Alignment.WrapText != strings.Contains(want.align, "wrap") {
			t.Errorf("look %d: style %+v, want %+v", look, got, want)
		}
		if want := string(Decimals(int(look) + 1)); cell.NumFmt != want {
			t.Errorf("look %d: number format %q, want %q", look, cell.NumFmt, want)
		}
	}
}

// TestRefused lists what a book refuses, each with the sentence that says so.
func TestRefused(t *testing.T) {
	for name, test := range map[string]struct {
		write func(*Book, *Sheet)
		want  string
	}{
		"not a number":   {func(b *Book, s *Sheet) { s.Number(Plain, General, math.NaN()) }, "cell A1: NaN is not a number"},
		"infinite":       {func(b *Book, s *Sheet) { s.Formula(Plain, General, "1/0", math.Inf(1)) }, "+Inf is not a number"},
		"formula with =": {func(b *Book, s *Sheet) { s.Formula(Plain, General, "=1", 1) }, `"=1" cannot stand`},
		"empty formula":  {func(b *Book, s *Sheet) { s.TextFormula(Plain, "", "") }, "cannot stand"},
		"long choices":   {func(b *Book, s *Sheet) { s.List("A1", "A1", []string{strings.Repeat("x", 256)}) }, "too long for a check"},
		"too many rows":  {func(b *Book, s *Sheet) { s.row = maxRows; s.Row() }, "1048576 rows"},
	} {
		t.Run(name, func(t *testing.T) {
			b := New("refused")
			s := b.Sheet("A")
			s.Row()
			test.write(b, s)
			if err := b.Write(io.Discard); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error %v, want %q", err, test.want)
			}
		})
	}
}

func TestLongText(t *testing.T) {
	b := New("long")
	s := b.Sheet("A")
	s.Row()
	s.Text(Plain, strings.Repeat("ä", maxText))
	s.Text(Plain, strings.Repeat("𝛼", maxText))
	if w := b.Warnings(); len(w) != 1 || !strings.Contains(w[0], "cell B1: text longer than 32767") {
		t.Errorf("warnings %q", w)
	}
	data := written(t, b)
	tables, err := Read("book.xlsx", bytes.NewReader(data), int64(len(data)), testLimits)
	if err != nil {
		t.Fatal(err)
	}
	row := tables[0].Rows[0]
	if got := row.Cells[0].Text; got != strings.Repeat("ä", maxText) {
		t.Errorf("a text of just the limit was changed: %d units", units(got))
	}
	if got := row.Cells[1].Text; units(got) != maxText || !strings.HasSuffix(got, "𝛼…") {
		t.Errorf("a text over the limit has %d units", units(got))
	}
}

// BenchmarkWrite writes one sheet of 20 columns, a third of them formulas.
func BenchmarkWrite(b *testing.B) {
	for _, n := range []int{66, 1326, 5151} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				book := New("benchmark")
				s := book.Sheet("A")
				for r := range n {
					s.Row()
					for c := range 20 {
						look := Given + Look(c%4)
						switch c % 3 {
						case 0:
							s.Number(look, Decimals(1), float64(r)*0.1+float64(c))
						case 1:
							s.Formula(look, Decimals(2), fmt.Sprintf("ROUND(ROUND(A%d*Scale/Step,9),0)*Step", r+1), float64(r)*0.1)
						case 2:
							s.Text(look, "Magnesia matte")
						}
					}
				}
				if err := book.Write(io.Discard); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
