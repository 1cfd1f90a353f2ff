package pdf

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

func mustDoc(t testing.TB, title string) *doc {
	t.Helper()
	d, err := newDoc(title, "test")
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func mustWrite(t testing.TB, d *doc) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := d.write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// sample draws one of everything.
func sample(t testing.TB) *doc {
	d := mustDoc(t, "Copper and rutile over a magnesia matte, Ærøskøbing Ж")
	f := d.startSection("Pour sheet", 210, 297)
	f.para("Pour end by end through all cups, back and forth along the rows. A percentage of an addition is always of the dry base in that cup. ☐ ≥ → ₂ µ é", regular(benchPt))
	f.items("", []string{"Wear a fitted respirator when weighing dry powder.", "Stir each slip until nothing sits at the bottom of the bucket, then check its specific gravity again with a weighed cylinder."}, regular(benchPt))
	f.subheading("Cups")
	tb := table{columns: []column{
		{title: "Cup", align: right, bold: true, whole: true},
		{title: "Glaze", grow: 1},
		{title: "Pour mL", align: right, whole: true},
		{title: "until it reads", align: right, whole: true},
		{title: "Done", align: centre},
		{title: "Note", least: 30},
	}, subtotal: func(from, to int) *row {
		return &row{cells: []cell{{}, words("Sum of this page"), words(fmt.Sprint((to - from) * 5)), {}, {}, {}}}
	}}
	for i := range 60 {
		name := "Magnesia matte"
		if i%7 == 3 {
			name = "A glaze with a name that is a good deal longer than its column, by a careful person"
		}
		tb.rows = append(tb.rows, row{cells: []cell{words(fmt.Sprint(i + 1)), words(name), words("5"), words(fmt.Sprint(5 * (i + 1))), tickBox, writeLine}, rule: i%10 == 0})
	}
	f.table(tb)
	f.longTexts()

	p := d.addPage("Board", 420, 297)
	d.bookmark(0, "Board")
	d.bookmark(1, "Porcelain")
	p.ruler(20, 20, 300, false)
	p.ruler(20, 20, 200, true)
	p.cross(40, 40, 5)
	p.rect(60, 40, 50, 50, thin)
	p.line(60, 100, 160, 100, medium)
	p.circle(200, 80, 35, thick)
	p.fillCircle(300, 80, 35, 0.8)
	p.arrow(60, 130, 110, 160, thick)
	p.polygon([]point{{150, 150}, {200, 150}, {175, 190}}, thin.dashed(2, 1))
	p.fillRect(220, 150, 40, 20, 0.85)
	p.text(240, 162, "on grey", bold(12), centre)
	p.textUp(280, 190, "upwards from here", regular(12), left)
	p.textAt(300, 190, "grey", regular(20), left, 0, 0.5)
	p.textIn(60, 200, 30, 15, "Potash feldspar 200 mesh", regular(14), 8, centre)
	p.rect(60, 200, 30, 15, faint)
	p.textIn(100, 200, 20, 8, strings.Repeat("much too long ", 20), regular(14), 8, centre)
	p.rect(100, 200, 20, 8, faint)
	g := d.startSection("End", 215.9, 279.4)
	g.longTexts()
	return d
}

func TestSamplePicture(t *testing.T) {
	out := mustWrite(t, sample(t))
	if dir := os.Getenv("POURBOARD_PICTURES"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, "sample.pdf"), out, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	_ = math.Pi
	_ = exec.ErrNotFound
}
