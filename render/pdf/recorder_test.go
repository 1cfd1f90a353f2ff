package pdf

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// box is the place that a text takes on its page, in mm.
type box struct {
	x0, y0, x1, y1 float64
	text           string
}

// textBoxes gives the boxes of the texts of a page, from their font's height
// above the baseline and depth below it. Texts must be level or upright.
func textBoxes(p *page) []box {
	var boxes []box
	for _, o := range p.ops {
		if o.kind != opText {
			continue
		}
		sin, cos := math.Sincos(o.degrees * math.Pi / 180)
		b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1), o.text}
		for _, along := range []float64{0, o.widthMM} {
			for _, up := range []float64{-o.font.descentMM(), o.font.ascentMM()} {
				x := o.at[0].x + along*cos - up*sin
				y := o.at[0].y - along*sin - up*cos
				b.x0, b.x1 = min(b.x0, x), max(b.x1, x)
				b.y0, b.y1 = min(b.y0, y), max(b.y1, y)
			}
		}
		boxes = append(boxes, b)
	}
	return boxes
}

// overlaps says of boxes that two of them share more than a hair.
func overlaps(boxes []box) []string {
	const hair = 0.01
	var found []string
	for i, a := range boxes {
		for _, b := range boxes[i+1:] {
			if a.x0 < b.x1-hair && b.x0 < a.x1-hair && a.y0 < b.y1-hair && b.y0 < a.y1-hair {
				found = append(found, fmt.Sprintf("%q and %q at %.1f, %.1f mm", a.text, b.text, max(a.x0, b.x0), max(a.y0, b.y0)))
			}
		}
	}
	return found
}

// nearEdge gives what a page has nearer to an edge than edgeMM.
func nearEdge(p *page) []string {
	var found []string
	check := func(x0, y0, x1, y1 float64, what string) {
		const hair = 1e-6
		if x0 < edgeMM-hair || y0 < edgeMM-hair || x1 > p.wMM-edgeMM+hair || y1 > p.hMM-edgeMM+hair {
			found = append(found, fmt.Sprintf("%s from %.2f, %.2f to %.2f, %.2f mm on a page of %g x %g mm", what, x0, y0, x1, y1, p.wMM, p.hMM))
		}
	}
	for _, o := range p.ops {
		if o.kind == opText {
			continue
		}
		for _, at := range o.at {
			check(at.x-o.radiusMM, at.y-o.radiusMM, at.x+o.radiusMM, at.y+o.radiusMM, "a line or a shape")
		}
	}
	for _, b := range textBoxes(p) {
		check(b.x0, b.y0, b.x1, b.y1, fmt.Sprintf("the text %q", b.text))
	}
	return found
}

// checkPages fails if on any page two texts overlap or something lies nearer
// to an edge than edgeMM. Sections call it for all their pages. It must be
// called after write, which draws the footers.
func checkPages(t testing.TB, d *doc) {
	t.Helper()
	for i, p := range d.pages {
		for _, s := range overlaps(textBoxes(p)) {
			t.Errorf("page %d (%s): texts overlap: %s", i+1, p.section, s)
		}
		if p.bare {
			continue // labels: their stock says how near to an edge they lie
		}
		for _, s := range nearEdge(p) {
			t.Errorf("page %d (%s): within %g mm of an edge: %s", i+1, p.section, edgeMM, s)
		}
	}
}

func TestOverlapsAreFound(t *testing.T) {
	d := mustDoc(t, "t")
	p := d.addPage("s", 100, 100)
	p.text(20, 50, "one", regular(11), left)
	p.text(25, 52, "two", regular(11), left)
	p.textUp(60, 60, "three", regular(11), left)
	p.text(55, 56, "four", regular(11), left)
	p.text(20, 80, "five", regular(11), left)
	p.text(20, 80+regular(11).lineMM(), "six", regular(11), left)
	if got := overlaps(textBoxes(p)); len(got) != 2 {
		t.Errorf("overlaps: %q, want one-two and three-four", got)
	}
	if got := nearEdge(p); len(got) != 0 {
		t.Errorf("near the edge: %q, want none", got)
	}
	p.text(9, 50, "out", regular(11), left)
	p.line(50, 50, 91, 50, thin)
	if got := nearEdge(p); len(got) != 2 {
		t.Errorf("near the edge: %q, want a text and a line", got)
	}
}

// outside runs a program that is no part of the project on a file with the
// given content; FILE among the arguments stands for its path. It skips the
// test if the program is missing, and fails it instead under POURBOARD_OUTSIDE=1.
func outside(t *testing.T, content []byte, program string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		if os.Getenv("POURBOARD_OUTSIDE") == "1" {
			t.Fatalf("%s is not installed", program)
		}
		t.Skipf("%s is not installed", program)
	}
	file := filepath.Join(t.TempDir(), "packet.pdf")
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
