package workbook

import (
	"fmt"
	"math"
	"testing"
)

// sampleBook is a small workbook with one of everything.
func sampleBook(t testing.TB) []byte {
	t.Helper()
	b := NewBook("Copper & rutile <test>")
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
	b.Define("Scale_step", in.At(in.Column(), row))
	in.Number(Input, Decimals(2), 0.1)
	in.Text(Hint, "the smallest step that the scale shows")
	in.Between(Area{1, row, 1, row}, 0.001, 100, false, Check{Title: "Scale step", Prompt: "in g", Message: "a step between 0.001 g and 100 g"})
	row = in.Row()
	in.Text(Label, "Surface")
	in.Blank(Input, General)
	in.List(Area{1, row, 1, row}, []string{"matte", "satin", "glossy"}, Check{Title: "Surface", Message: "choose one of the list", Lenient: true})
	in.List(Area{2, row, 2, row}, []string{"matte, dry", `"sugar"`}, Check{Title: "Surface", Message: "choose one of the list"})
	in.Width(0, 2, 22)
	in.Lock()

	out := b.Sheet("inputs") // the same name when case does not count
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
	out.SkipRows(1)
	out.Row()
	out.Skip(1)
	out.Text(Plain, "=1+1 is text, _x0041_ too, \x07 & < > \n next line ")
	out.Filter(0, 1, 3, 4)
	data, err := b.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return data
}
