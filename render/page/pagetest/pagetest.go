// Package pagetest checks printed pages by poppler, mupdf and qpdf, which share
// no code with the library that writes them. It is for tests only.
package pagetest

import (
	"bytes"
	"fmt"
	"html"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
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

// Read is one text extraction of a file. Poppler writes a page or a word to a line.
func Read(t testing.TB, pdf []byte) []Page {
	t.Helper()
	var pages []Page
	for line := range strings.Lines(Outside(t, pdf, "pdftotext", "-bbox", "FILE", "-")) {
		switch name, v := element(line); name {
		case "page":
			pages = append(pages, Page{W: v["width"] * mm, H: v["height"] * mm})
		case "word":
			_, text, _ := strings.Cut(line, ">")
			text, _, _ = strings.Cut(text, "</word>")
			p := &pages[len(pages)-1]
			p.Words = append(p.Words,
				Word{v["xMin"] * mm, v["yMin"] * mm, v["xMax"] * mm, v["yMax"] * mm, html.UnescapeString(text)})
		}
	}
	return pages
}

var attribute = regexp.MustCompile(`(\w+)="(-?[0-9.]+)"`)

// element reads the name of the element that a line begins with, and its attributes
// that are numbers. encoding/xml takes longer for a file than all that is checked of it.
func element(line string) (name string, numbers map[string]float64) {
	tag, _, _ := strings.Cut(strings.TrimSpace(line), ">")
	name, _, _ = strings.Cut(strings.TrimPrefix(tag, "<"), " ")
	numbers = map[string]float64{}
	for _, match := range attribute.FindAllStringSubmatch(tag, -1) {
		numbers[match[1]], _ = strconv.ParseFloat(match[2], 64)
	}
	return name, numbers
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

// slack is what poppler's boxes may be off by, mm.
const slack = 0.1

// over reports whether two words overlap.
func (w Word) over(o Word) bool {
	return w.X0 < o.X1-slack && o.X0 < w.X1-slack && w.Y0 < o.Y1-slack && o.Y0 < w.Y1-slack
}

// Check checks every page: no word over another, and none nearer than 10 mm to
// an edge.
func Check(t testing.TB, pages []Page) {
	t.Helper()
	const margin = 10
	faults := 0
	for i, p := range pages {
		words := slices.Clone(p.Words)
		for k := range words {
			words[k] = words[k].ink()
		}
		slices.SortFunc(words, func(a, b Word) int { return int(math.Copysign(1, a.Y0-b.Y0)) })
		for k, a := range words {
			if a.X0 < margin-slack || a.X1 > p.W-margin+slack || a.Y0 < margin-slack || a.Y1 > p.H-margin+slack {
				t.Errorf("page %d: %q lies at %.1f %.1f to %.1f %.1f on paper of %.0f × %.0f",
					i+1, a.Text, a.X0, a.Y0, a.X1, a.Y1, p.W, p.H)
				faults++
			}
			for _, b := range words[k+1:] {
				if b.Y0 > a.Y1 {
					break
				}
				if a.over(b) {
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

// Paths gives the width and height in mm of each path of each page of a file, as
// mupdf finds them. Of a curve the end points count: those of a circle drawn as
// four curves are its extremes.
func Paths(t testing.TB, pdf []byte) (pages [][][2]float64) {
	t.Helper()
	var x0, y0, x1, y1 float64
	for line := range strings.Lines(Outside(t, pdf, "mutool", "trace", "FILE")) {
		if strings.HasPrefix(line, "        <g ") { // a glyph, which most lines are
			continue
		}
		switch name, v := element(line); name {
		case "page":
			pages = append(pages, nil)
		case "fill_path", "stroke_path":
			x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
		case "moveto", "lineto":
			x0, x1, y0, y1 = min(x0, v["x"]), max(x1, v["x"]), min(y0, v["y"]), max(y1, v["y"])
		case "curveto":
			x0, x1, y0, y1 = min(x0, v["x3"]), max(x1, v["x3"]), min(y0, v["y3"]), max(y1, v["y3"])
		case "/fill_path", "/stroke_path":
			last := &pages[len(pages)-1]
			*last = append(*last, [2]float64{(x1 - x0) * mm, (y1 - y0) * mm})
		}
	}
	return pages
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

// Papers are the papers that plan number i is drawn on in a test: all of them
// under POURBOARD_OUTSIDE=1, otherwise one by turns, since reading every page
// back takes longer than anything else in the tests.
func Papers(i int) []string {
	all := []string{"A4", "Letter", "A5"}
	if os.Getenv("POURBOARD_OUTSIDE") == "1" {
		return all
	}
	return all[i%len(all) : i%len(all)+1]
}
