package xlsxtest

import (
	"bytes"
	"regexp"
	"testing"

	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/sheets"
)

var pageObject = regexp.MustCompile(`/Type\s*/Page\b`)

// samePages prints the card of a workbook: it takes as many pages as the card of
// the sheets, so that it can take its place, and no more where there are hundreds
// of cups.
func samePages(t *testing.T, w *workbook, test *blend.Test) {
	t.Helper()
	var pdf bytes.Buffer
	if _, err := (sheets.Sheets{Test: test, Places: layout.Boards(test), Only: []string{"pour"}}).Write(&pdf); err != nil {
		t.Fatal(err)
	}
	want := len(pageObject.FindAll(pdf.Bytes(), -1))
	sheet := "Pour card"
	if test.Plan.Blend.Method == blend.ByWeigh {
		sheet = "Weigh card"
	}
	var got struct{ Pages int }
	w.ask(t, map[string]any{"in": w.file, "pages": sheet}, &got)
	if want == 0 || got.Pages > want || len(test.Cells) < 100 && got.Pages != want {
		t.Errorf("the %s of the workbook takes %d pages, that of the sheets %d", sheet, got.Pages, want)
	}
}
