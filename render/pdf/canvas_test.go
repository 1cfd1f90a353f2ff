package pdf

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
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
	p.ruler(20, 20, 0, 300, false)
	p.ruler(20, 20, 117, 200, true)
	p.cross(40, 40, 5, 5)
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

func TestSample(t *testing.T) {
	d := sample(t)
	out := mustWrite(t, d)
	checkPages(t, d)
	if got := mustWrite(t, sample(t)); !bytes.Equal(got, out) {
		t.Error("the same packet drawn twice is not the same bytes")
	}
	// To look at it: POURBOARD_PICTURES=DIR go test -run TestSample ./render/pdf
	if dir := os.Getenv("POURBOARD_PICTURES"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, "sample.pdf"), out, 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

func TestWriteRefusesWhatIsNotFinite(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, draw := range map[string]func(p *page){
		"line":      func(p *page) { p.line(1, 2, nan, 4, thin) },
		"rect":      func(p *page) { p.rect(1, 2, inf, 4, thin) },
		"fill":      func(p *page) { p.fill([]point{{1, 1}, {2, nan}, {3, 3}}, 0) },
		"circle":    func(p *page) { p.circle(1, 2, nan, thin) },
		"pen":       func(p *page) { p.line(1, 2, 3, 4, pen{mm: nan}) },
		"dash":      func(p *page) { p.line(1, 2, 3, 4, thin.dashed(1, inf)) },
		"arrow":     func(p *page) { p.arrow(1, 2, inf, 4, thin) },
		"text":      func(p *page) { p.text(nan, 2, "a", regular(11), left) },
		"font":      func(p *page) { p.text(1, 2, "a", regular(inf), left) },
		"page size": func(p *page) { p.wMM = inf },
		"scale":     func(p *page) { p.scale = 0 },
	} {
		t.Run(name, func(t *testing.T) {
			d := mustDoc(t, "t")
			draw(d.addPage("Board", 210, 297))
			var b bytes.Buffer
			err := d.write(&b)
			if err == nil || !strings.Contains(err.Error(), "page 1 (Board)") {
				t.Errorf("error %v, want one that names the page", err)
			}
			if b.Len() != 0 {
				t.Errorf("%d bytes were written all the same", b.Len())
			}
		})
	}
	if err := mustDoc(t, "t").write(io.Discard); err == nil {
		t.Error("a packet without pages was written")
	}
}

type brokenWriter struct{ err error }

func (w brokenWriter) Write([]byte) (int, error) { return 0, w.err }

func TestWriteTellsOfAWriterThatFails(t *testing.T) {
	d := mustDoc(t, "t")
	d.addPage("s", 100, 100)
	full := errors.New("disk full")
	if err := d.write(brokenWriter{full}); !errors.Is(err, full) {
		t.Errorf("error %v, want %v", err, full)
	}
}

func TestCorrectScale(t *testing.T) {
	for _, measured := range []float64{94.9, 105.1, 0, -100, math.NaN(), math.Inf(1)} {
		if err := mustDoc(t, "t").correctScale(measured); err == nil {
			t.Errorf("a bar of %g mm was accepted", measured)
		}
	}
	for _, measured := range []float64{95, 97.4, 100, 102.3, 105} {
		d := mustDoc(t, "t")
		if err := d.correctScale(measured); err != nil {
			t.Fatal(err)
		}
		// The printer shrinks the page about its middle; what lies at the
		// margin must then be on the page in the file.
		for _, length := range []float64{148, 297, 594} {
			m := d.lifeMarginMM(length)
			if inFile := length/2 + (m-length/2)*d.lifeScale; m < edgeMM || inFile < -1e-9 {
				t.Errorf("bar %g mm, page %g mm: margin %g mm lies at %g mm in the file", measured, length, m, inFile)
			}
		}
	}
}

// TestLengths measures drawings in the file with MuPDF, which shares no code
// with the library that wrote them.
func TestLengths(t *testing.T) {
	for _, measured := range []float64{100, 97.4} {
		for _, paper := range [][2]float64{{210, 297}, {420, 297}, {215.9, 279.4}} {
			d := mustDoc(t, "t")
			if err := d.correctScale(measured); err != nil {
				t.Fatal(err)
			}
			p := d.addLifePage("s", paper[0], paper[1])
			p.bare = true
			p.line(20, 30, 120, 30, medium) // the bar
			p.rect(30, 50, 50, 50, thin)    // the square
			p.circle(120, 120, 35, thin)    // a cup 70 mm across
			p.fillCircle(120, 200, 35, 0.5) // the same, filled
			trace := outside(t, mustWrite(t, d), "mutool", "trace", "FILE")
			got := tracedPaths(t, trace)
			want := [][2]float64{{100, 0}, {50, 50}, {70, 70}, {70, 70}}
			if len(got) != len(want) {
				t.Fatalf("%d paths in the file, want %d", len(got), len(want))
			}
			for i, w := range want {
				for axis := range 2 {
					if mm := got[i][axis] * measured / 100; math.Abs(mm-w[axis]) > 0.05 {
						t.Errorf("page %v, bar %g: path %d is %.3f mm along axis %d, want %.3f", paper, measured, i+1, mm, axis, w[axis])
					}
				}
			}
		}
	}
}

// tracedPaths gives the width and height in mm of each path that mutool trace
// names. A curve's end points and not its handles count: those of a circle
// drawn as four curves are its extremes.
func tracedPaths(t *testing.T, trace string) [][2]float64 {
	t.Helper()
	var sizes [][2]float64
	var x0, y0, x1, y1 float64
	number := func(e xml.StartElement, name string) float64 {
		for _, a := range e.Attr {
			if a.Name.Local == name {
				v, err := strconv.ParseFloat(a.Value, 64)
				if err != nil {
					t.Fatal(err)
				}
				return v
			}
		}
		t.Fatalf("mutool trace: %v has no %s", e, name)
		return 0
	}
	for dec := xml.NewDecoder(strings.NewReader(trace)); ; {
		token, err := dec.Token()
		if err == io.EOF {
			return sizes
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			x, y := "x", "y"
			switch e.Name.Local {
			case "fill_path", "stroke_path":
				x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
				continue
			case "curveto":
				x, y = "x3", "y3"
			case "moveto", "lineto":
			default:
				continue
			}
			x0, x1 = min(x0, number(e, x)), max(x1, number(e, x))
			y0, y1 = min(y0, number(e, y)), max(y1, number(e, y))
		case xml.EndElement:
			if e.Name.Local == "fill_path" || e.Name.Local == "stroke_path" {
				sizes = append(sizes, [2]float64{(x1 - x0) * 25.4 / 72, (y1 - y0) * 25.4 / 72})
			}
		}
	}
}

func BenchmarkEmptyPage(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		d := mustDoc(b, "t")
		d.addPage("s", 210, 297)
		if err := d.write(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkTexts draws 50 pages of 40 texts.
func BenchmarkTexts(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		d := mustDoc(b, "t")
		for i := range 50 {
			p := d.addPage("s", 210, 297)
			for j := range 40 {
				p.text(20, 20+6*float64(j), fmt.Sprintf("Cup %d: pour 135 mL of Magnesia matte %d", j, i), font{j%4 == 0, 11}, left)
			}
		}
		if err := d.write(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}
