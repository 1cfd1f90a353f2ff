package pdf

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"testing"
)

func TestFileIsSound(t *testing.T) {
	out := mustWrite(t, sample(t))
	got := outside(t, out, "qpdf", "--check", "FILE")
	if !strings.Contains(got, "No syntax or stream encoding errors found") || strings.Contains(got, "WARNING") {
		t.Errorf("qpdf --check: %s", got)
	}
}

// The sizes are those of ISO 216 and of the Letter sheet in points, as poppler
// reads them, cut to two decimals.
func TestProperties(t *testing.T) {
	out := mustWrite(t, sample(t))
	got := outside(t, out, "pdfinfo", "-f", "1", "-l", "9", "FILE")
	for _, want := range []string{
		`Title: +Copper and rutile over a magnesia matte, Ærøskøbing Ж\n`,
		`Subject: +test\n`, `Creator: +pourboard\n`,
		`Page +1 size: +595.28 x 841.89 pts \(A4\)`, `Page +4 size: +1190.55 x 841.89 pts \(A3\)`,
		`Page +5 size: +612 x 792 pts \(letter\)`,
	} {
		if !regexp.MustCompile(want).MatchString(got) {
			t.Errorf("pdfinfo does not say %s:\n%s", want, got)
		}
	}
	if strings.Contains(got, "Date") {
		t.Errorf("the file bears a date:\n%s", got)
	}
}

func TestCatalog(t *testing.T) {
	out := mustWrite(t, sample(t))
	got := strings.Join(strings.Fields(outside(t, out, "mutool", "show", "FILE", "trailer/Root")), "")
	for _, want := range []string{"/PrintScaling/None", "/DisplayDocTitletrue", "/Lang(en-GB)", "/PageMode/UseOutlines"} {
		if !strings.Contains(got, want) {
			t.Errorf("the catalog has no %s: %s", want, got)
		}
	}
	got = outside(t, out, "mutool", "show", "FILE", "trailer")
	if !regexp.MustCompile(`/ID \[ *(<[0-9A-Fa-f]{32}>) *(<[0-9A-Fa-f]{32}>) *\]`).MatchString(got) {
		t.Errorf("the trailer has no identifier of two times 16 bytes: %s", got)
	}
}

func TestBookmarks(t *testing.T) {
	out := mustWrite(t, sample(t))
	got := outside(t, out, "mutool", "show", "FILE", "outline")
	// MuPDF counts y from the top of the page, and pages from 1; all lead to the top.
	var titles []string
	for line := range strings.Lines(got) {
		m := regexp.MustCompile(`"([^"]*)"\s+#(page=\d+)&zoom=nan,0,0\s*$`).FindStringSubmatch(line)
		if m == nil {
			t.Fatalf("mutool show outline: %q", line)
		}
		titles = append(titles, m[1]+" "+m[2])
	}
	want := "[Pour sheet page=1 Board page=4 Porcelain page=4 End page=5]"
	if fmt.Sprint(titles) != want {
		t.Errorf("bookmarks %v, want %s", titles, want)
	}
}

// TestWordsOnPaper asks poppler where the words are: none touches another and
// none lies within 10 mm of an edge.
func TestWordsOnPaper(t *testing.T) {
	out := mustWrite(t, sample(t))
	page := regexp.MustCompile(`<page width="([\d.]+)" height="([\d.]+)">`)
	word := regexp.MustCompile(`<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*)</word>`)
	var widthPt, heightPt float64
	words := 0
	var boxes []box
	finish := func() {
		for _, s := range overlaps(boxes) {
			t.Error("words overlap: " + s)
		}
		boxes = nil
	}
	for line := range strings.Lines(outside(t, out, "pdftotext", "-bbox", "FILE", "-")) {
		if m := page.FindStringSubmatch(line); m != nil {
			finish()
			fmt.Sscan(m[1], &widthPt)
			fmt.Sscan(m[2], &heightPt)
		}
		m := word.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		var b box
		for i, v := range []*float64{&b.x0, &b.y0, &b.x1, &b.y1} {
			fmt.Sscan(m[i+1], v)
			*v *= mmPerPt
		}
		b.text = m[5]
		words++
		if b.x0 < edgeMM || b.y0 < edgeMM || b.x1 > widthPt*mmPerPt-edgeMM || b.y1 > heightPt*mmPerPt-edgeMM {
			t.Errorf("the word %+v is within %g mm of an edge", b, edgeMM)
		}
		boxes = append(boxes, b)
	}
	finish()
	if words < 300 {
		t.Errorf("only %d words in the file", words)
	}
}

func TestSplitObjectsRefusesOthers(t *testing.T) {
	for _, raw := range []string{"", "startxref\n", "startxref\n5\n", "xref\n0 3\nstartxref\n0\n", "startxref\n-1\n"} {
		if _, err := splitObjects([]byte(raw)); err == nil {
			t.Errorf("%q: no error", raw)
		}
	}
	d := sample(t)
	regular, bold := d.subsets()
	raw, _, err := d.emit(regular, bold)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := splitObjects(raw); err != nil {
		t.Fatal(err)
	}
	for _, cut := range []int{1, 100, len(raw) / 2, len(raw) - 30} {
		if _, err := splitObjects(raw[cut:]); err == nil {
			t.Errorf("without its first %d bytes: no error", cut)
		}
	}
	broken := bytes.Replace(raw, []byte("7 0 obj"), []byte("8 0 obj"), 1)
	if _, err := splitObjects(broken); err == nil {
		t.Error("an object of the wrong number: no error")
	}
}
