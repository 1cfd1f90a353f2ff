// Package pagetest checks printed pages by poppler, mupdf and qpdf, which share
// no code with the library that writes them. It is for tests only.
package pagetest

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const mm = 25.4 / 72

// Outside runs a program on a file with the given content; FILE among the
// arguments stands for its path. It skips the test if the program is missing,
// and fails it instead under POURBOARD_OUTSIDE=1.
func Outside(t testing.TB, content []byte, program string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		if os.Getenv("POURBOARD_OUTSIDE") == "1" {
			t.Fatalf("%s is not installed", program)
		}
		t.Skipf("%s is not installed", program)
	}
	file := filepath.Join(t.TempDir(), "sheets.pdf")
	if err := os.WriteFile(file, content, 0o666); err != nil {
		t.Fatal(err)
	}
	for i := range args {
		if args[i] == "FILE" {
			args[i] = file
		}
	}
	var out, complaints bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stdout, cmd.Stderr = &out, &complaints
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s %q: %v\n%s%s", program, args, err, out.String(), complaints.String())
	}
	return out.String()
}

// Word is a word on a page, with its box in mm.
type Word struct {
	X0, Y0, X1, Y1 float64
	Text           string
}

// Page is a page as poppler reads it, mm.
type Page struct {
	W, H  float64
	Words []Word
}

// Lines counts the lines of text, headers and footers included: baselines that
// differ by more than 1 mm.
func (p Page) Lines() int {
	var ys []float64
	for _, w := range p.Words {
		ys = append(ys, w.Y1)
	}
	slices.Sort(ys)
	n := 0
	for i, y := range ys {
		if i == 0 || y-ys[i-1] > 1 {
			n++
		}
	}
	return n
}

// Text is the page's words in the order of the file.
func (p Page) Text() string {
	var words []string
	for _, w := range p.Words {
		words = append(words, w.Text)
	}
	return strings.Join(words, " ")
}

// Read is one text extraction of a file.
func Read(t testing.TB, pdf []byte) []Page {
	t.Helper()
	var doc struct {
		Pages []struct {
			W     float64 `xml:"width,attr"`
			H     float64 `xml:"height,attr"`
			Words []struct {
				X0   float64 `xml:"xMin,attr"`
				Y0   float64 `xml:"yMin,attr"`
				X1   float64 `xml:"xMax,attr"`
				Y1   float64 `xml:"yMax,attr"`
				Text string  `xml:",chardata"`
			} `xml:"word"`
		} `xml:"body>doc>page"`
	}
	if err := xml.Unmarshal([]byte(Outside(t, pdf, "pdftotext", "-bbox", "FILE", "-")), &doc); err != nil {
		t.Fatal(err)
	}
	var pages []Page
	for _, p := range doc.Pages {
		page := Page{W: p.W * mm, H: p.H * mm}
		for _, w := range p.Words {
			page.Words = append(page.Words, Word{w.X0 * mm, w.Y0 * mm, w.X1 * mm, w.Y1 * mm, w.Text})
		}
		pages = append(pages, page)
	}
	return pages
}

// ink is where a word has ink: across the line its box is as wide as the font
// goes anywhere. Which way a short word runs cannot be told from its box.
func (w Word) ink() Word {
	x, y := w.X1-w.X0, w.Y1-w.Y0
	if x < 1.2*y && len([]rune(w.Text)) > 1 {
		w.X0, w.X1 = w.X0+0.22*x, w.X1-0.22*x
	}
	if y < 1.2*x || len([]rune(w.Text)) == 1 {
		w.Y0, w.Y1 = w.Y0+0.24*y, w.Y1-0.24*y
	}
	return w
}

// Check checks every page: no word over another, and none nearer than 10 mm to
// an edge.
func Check(t testing.TB, pages []Page) {
	t.Helper()
	const margin, slack = 10, 0.1
	faults := 0
	for i, p := range pages {
		words := slices.Clone(p.Words)
		for k := range words {
			words[k] = words[k].ink()
		}
		slices.SortFunc(words, func(a, b Word) int { return int(math.Copysign(1, a.Y0-b.Y0)) })
		for k, a := range words {
			if a.X0 < margin-slack || a.X1 > p.W-margin+slack || a.Y0 < margin-slack || a.Y1 > p.H-margin+slack {
				t.Errorf("page %d: %q lies at %.1f %.1f to %.1f %.1f on paper of %.0f × %.0f", i+1, a.Text, a.X0, a.Y0, a.X1, a.Y1, p.W, p.H)
				faults++
			}
			for _, b := range words[k+1:] {
				if b.Y0 > a.Y1 {
					break
				}
				if a.X0 < b.X1-slack && b.X0 < a.X1-slack && a.Y0 < b.Y1-slack && b.Y0 < a.Y1-slack {
					t.Errorf("page %d: %q at %.1f %.1f and %q at %.1f %.1f overlap", i+1, a.Text, a.X0, a.Y0, b.Text, b.X0, b.Y0)
					faults++
				}
			}
			if faults > 20 {
				t.Fatal("and so on")
			}
		}
	}
}

// Paths gives the width and height in mm of each path of a file, as mupdf
// finds them. Of a curve the end points count: those of a circle drawn as four
// curves are its extremes.
func Paths(t testing.TB, pdf []byte) [][2]float64 {
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
	for dec := xml.NewDecoder(strings.NewReader(Outside(t, pdf, "mutool", "trace", "FILE"))); ; {
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
				sizes = append(sizes, [2]float64{(x1 - x0) * mm, (y1 - y0) * mm})
			}
		}
	}
}

// Count counts the paths that measure w × h mm within 0.05 mm on a printer
// whose 100 mm bar measures so much.
func Count(paths [][2]float64, measured, w, h float64) (n int) {
	for _, p := range paths {
		if math.Abs(p[0]*measured/100-w) <= 0.05 && math.Abs(p[1]*measured/100-h) <= 0.05 {
			n++
		}
	}
	return n
}

// Clean checks a file by qpdf.
func Clean(t testing.TB, pdf []byte) {
	t.Helper()
	if out := Outside(t, pdf, "qpdf", "--check", "FILE"); strings.Contains(out, "WARNING") {
		t.Error(fmt.Sprint("qpdf: ", out))
	}
}
