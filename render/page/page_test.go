package page

import (
	"bytes"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pourboard/render/page/pagetest"
)

func newDoc() *Doc {
	return New("Émail brûlé № 5", "a test", "MR1 to MR3")
}

func written(t testing.TB, d *Doc) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := d.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// Lines are no wider than asked, and nothing of a text is lost but spaces.
func TestLines(t *testing.T) {
	d := newDoc()
	random := rand.New(rand.NewPCG(1, 2))
	words := []string{"Potash", "feldspar", "0.5", "%", "±", "2", "Überlängenwörterbuch", "CaO/MgO-ratio", "Кварц", "a"}
	for range 400 {
		var text []string
		for range random.IntN(12) {
			text = append(text, words[random.IntN(len(words))])
		}
		s := Style{Pt: 6 + 12*random.Float64(), Bold: random.IntN(2) == 0}
		w := 8 + 60*random.Float64()
		lines := d.Lines(strings.Join(text, " "), s, w)
		for _, line := range lines {
			if got := d.Width(line, s); got > w+1e-6 && len([]rune(line)) > 1 {
				t.Fatalf("%q is %.2f mm wide, wider than %.2f", line, got, w)
			}
		}
		bare := func(s string) string { return strings.NewReplacer(" ", "", "-", "").Replace(s) }
		if got, want := bare(strings.Join(lines, "")), bare(strings.Join(text, "")); got != want {
			t.Fatalf("%q in lines is %q", want, got)
		}
	}
}

// The width that a text is measured to have is the one that poppler finds.
func TestWidth(t *testing.T) {
	d := newDoc()
	p := d.Add("part", 210, 297)
	const text = "MR10_0.85_feldspar"
	p.At(20, 50, Bold(20), text)
	want := d.Width(text, Bold(20))
	for _, w := range pagetest.Read(t, written(t, d))[0].Words {
		if w.Text == text && (math.Abs(w.X1-w.X0-want) > 0.05 || math.Abs(w.X0-20) > 0.05) {
			t.Errorf("%.2f mm from %.2f, want %.2f from 20", w.X1-w.X0, w.X0, want)
		}
	}
}

// A text that does not fit is set smaller, then shortened, and Cut has it whole.
func TestText_neverClipped(t *testing.T) {
	d := newDoc()
	r := Rect{W: 30, H: 8}
	for text, whole := range map[string]bool{"Magnesia matte": true, strings.Repeat("Magnesia matte ", 5): false} {
		style, set := d.fit(r.W, Regular(12), text)
		if w := d.Width(set, style); w > r.W+1e-6 || style.Pt < Least || (set == text) != whole {
			t.Errorf("%q is set as %q, %.1f mm wide in %.1f pt", text, set, w, style.Pt)
		}
	}
	style, lines := d.fitLines(r, Regular(12), strings.Repeat("Nepheline syenite ", 9))
	if high := float64(len(lines)) * style.LineH(); high > r.H || style.Pt < Least {
		t.Errorf("%q is %.1f mm high in %.1f pt", lines, high, style.Pt)
	}
	for _, line := range lines {
		if w := d.Width(line, style); w > r.W+1e-6 {
			t.Errorf("%q is %.1f mm wide", line, w)
		}
	}
	if cut := d.Cut(); len(cut) != 2 {
		t.Errorf("Cut = %q, want two texts", cut)
	}
}

// A text is black whatever was filled before it, and a page says each state once.
func TestShow_black(t *testing.T) {
	p := newDoc().Add("part", 210, 297)
	p.Shade(Rect{X: 20, Y: 20, W: 30, H: 8}, 1)
	p.At(20, 25, Regular(10), "12")
	p.At(20, 35, Regular(10), "13")
	var states []string
	for line := range strings.Lines(string(p.bytes)) {
		if strings.HasSuffix(line, " g\n") || strings.HasSuffix(line, " Tf\n") || strings.HasSuffix(line, "Tj\n") {
			states = append(states, strings.Fields(line)[0])
		}
	}
	if got, want := strings.Join(states, " "), "1 0 /Go <00140015> <00140016>"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// Characters that the first font lacks come from the second; those that none
// has, and what runs from right to left, are reported.
func TestUnprinted(t *testing.T) {
	d := newDoc()
	p := d.Add("part", 210, 297)
	for i, text := range []string{"Tiếng Việt ☐", "glaze 漢", "קרמיקה"} {
		p.At(20, 20+10*float64(i), Regular(10), text)
	}
	notes := strings.Join(d.Unprinted(), "\n")
	for text, want := range map[string]bool{"ế": false, "☐": false, "漢": true, "ק": true} {
		if strings.Contains(notes, text) != want {
			t.Errorf("%q is told of: %v, want %v, in\n%s", text, !want, want, notes)
		}
	}
	words := pagetest.Read(t, written(t, d))[0].Text()
	if !strings.Contains(words, "Tiếng Việt ☐") {
		t.Errorf("the page reads %q", words)
	}
}

// The file is clean, has title, language, bookmarks and page labels, and the
// same document is the same bytes.
func TestWrite(t *testing.T) {
	draw := func() []byte {
		d := newDoc()
		d.OneSided = true
		for _, part := range []string{"Start", "Map"} {
			p := d.Add(part, 210, 297)
			p.Bookmark(part)
			p.Text(p.Inside(), Bold(Title), part)
			p.Next().Box(Rect{X: 20, Y: 20, W: 30, H: 30}, Thin.Dashed(2, 1))
		}
		return written(t, d)
	}
	pdf := draw()
	if !bytes.Equal(pdf, draw()) {
		t.Error("the same document twice is not the same bytes")
	}
	pagetest.Clean(t, pdf)
	if out := pagetest.Outside(t, pdf, "pdfinfo", "FILE"); !strings.Contains(out, "Émail brûlé № 5") || !strings.Contains(out, "Pages:           4") {
		t.Errorf("pdfinfo: %s", out)
	}
	out := pagetest.Outside(t, pdf, "qpdf", "--json", "FILE")
	for _, want := range []string{`"/Lang": "u:en-GB"`, `"/PrintScaling": "/None"`, `"/Duplex": "/Simplex"`, `"/St": 3`, `"title": "Map"`} {
		if !strings.Contains(out, want) {
			t.Errorf("qpdf finds no %s", want)
		}
	}
	if pages := pagetest.Read(t, pdf); !strings.Contains(pages[3].Text(), "MR1 to MR3 · page 4 of 4") {
		t.Errorf("the last page reads %q", pages[3].Text())
	}
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("disk full") }

// A writer that fails, and a bar that is too far off, are errors.
func TestWrite_errors(t *testing.T) {
	d := newDoc()
	d.Add("part", 210, 297)
	if err := d.Write(brokenWriter{}); err == nil {
		t.Error("a writer that fails is not told of")
	}
	for _, mm := range []float64{80, 106, math.NaN()} {
		if d.Correct(mm) == nil {
			t.Errorf("a bar of %g mm is corrected", mm)
		}
	}
}

// A ruler's numbers stand where it reads them.
func TestRuler(t *testing.T) {
	d := newDoc()
	p := d.Add("part", 297, 210)
	p.Ruler(Rect{X: 30, Y: 30, W: 200, H: 7}, 25)
	found := 0
	for _, w := range pagetest.Read(t, written(t, d))[0].Words {
		if w.Text == "100" {
			found++
			if at := 30 + 100 - 25 + 0.6; math.Abs(w.X0-at) > 0.2 {
				t.Errorf("100 mm stands at %.2f, want %.2f", w.X0, at)
			}
		}
	}
	if found != 1 {
		t.Errorf("%d numbers 100, want 1", found)
	}
}
