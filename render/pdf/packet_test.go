package pdf

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/paper"
	"pourboard/blend/plan"
	"pourboard/layout"
	"pourboard/render/wording"
)

// planNames are the plans for tests, by name.
func planNames(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob("../../testdata/plans/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no plans to test with: %v", err)
	}
	var names []string
	for _, f := range files {
		names = append(names, strings.TrimSuffix(filepath.Base(f), ".toml"))
	}
	return names
}

// packetOf is the packet of a test plan, changed by the given functions before
// it is worked out.
func packetOf(t testing.TB, name string, change ...func(*blend.Plan)) Packet {
	t.Helper()
	src, err := os.ReadFile("../../testdata/plans/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	p, notes, err := plan.Read(name, src)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range change {
		c(p)
	}
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	advice, err := blend.Advise(test)
	if err != nil {
		t.Fatal(err)
	}
	return Packet{Test: test, Places: layout.Boards(test), Advice: advice, Notes: append(notes, wording.Lines(test.Notes)...)}
}

// onPaper changes a plan's paper.
func onPaper(t testing.TB, name string) func(*blend.Plan) {
	size, err := paper.Parse(name)
	if err != nil {
		t.Fatal(err)
	}
	return func(p *blend.Plan) { p.Board.Paper, p.Board.PaperW, p.Board.PaperH = size.Name, size.W, size.H }
}

// mustDraw draws a packet and writes it, and gives the drawing too.
func mustDraw(t testing.TB, p Packet) (*sheets, []byte) {
	t.Helper()
	s, _, err := p.draw()
	if err != nil {
		t.Fatal(err)
	}
	return s, mustWrite(t, s.doc)
}

// Every test plan on every paper: no text over another, nothing near an edge,
// and the same bytes each time.
func TestPacket_everyPlanAndPaper(t *testing.T) {
	for _, name := range planNames(t) {
		for _, size := range []string{"A4", "Letter", "A5"} {
			t.Run(name+"/"+size, func(t *testing.T) {
				p := packetOf(t, name, onPaper(t, size))
				s, out := mustDraw(t, p)
				checkPages(t, s.doc)
				if size == "A4" {
					if _, again := mustDraw(t, p); !bytes.Equal(out, again) {
						t.Error("the same packet twice is not the same bytes")
					}
				}
				// To look at them: POURBOARD_PICTURES=DIR go test -run everyPlan ./render/pdf
				if dir := os.Getenv("POURBOARD_PICTURES"); dir != "" {
					if only := os.Getenv("POURBOARD_ONLY"); only != "" {
						p.Only = strings.Split(only, ",")
						_, out = mustDraw(t, p)
					}
					if err := os.WriteFile(filepath.Join(dir, name+"-"+size+".pdf"), out, 0o666); err != nil {
						t.Fatal(err)
					}
				}
			})
		}
	}
}

// Names far too long, instruments far too fine, many coats and bodies: still
// nothing over anything.
func TestPacket_extremes(t *testing.T) {
	words, word := strings.Repeat("très long nom ", 22), strings.Repeat("Überlänge", 33)
	for _, name := range []string{"triaxial", "biaxial-series", "line-stock", "line-pour", "triaxial-weight"} {
		for _, size := range []string{"A5", "Letter"} {
			t.Run(name+"/"+size, func(t *testing.T) {
				p := packetOf(t, name, onPaper(t, size), func(p *blend.Plan) {
					p.Title = word + words
					for i := range p.Glazes {
						p.Glazes[i].Name = []string{words, word}[i%2] + p.Glazes[i].Name
						for k := range p.Glazes[i].Recipe {
							p.Glazes[i].Recipe[k].Material += []string{words, word}[k%2]
						}
					}
					for i := range p.Blend.Series {
						p.Blend.Series[i].Material += word
					}
					p.Tiles.Bodies = []string{words, word, "a", "b", "c", "d", "e", "f", "g", "h", "i", "j"}
					p.Tiles.Coats = 12
					p.Kit.Scale.Size, p.Kit.Pour.Size, p.Kit.Syringe.Size = 0.0001, 0.001, 0.001
					p.Kit.Capacity = 300
					p.Cup.Size *= 40
				})
				s, _ := mustDraw(t, p)
				checkPages(t, s.doc)
			})
		}
	}
}

func TestPacket_sections(t *testing.T) {
	p := packetOf(t, "line-series")
	p.Only = []string{"dose", "pour"}
	s, _ := mustDraw(t, p)
	var got []string
	for _, page := range s.doc.pages {
		if len(got) == 0 || got[len(got)-1] != page.section {
			got = append(got, page.section)
		}
	}
	if want := []string{"Pour sheet", "Dose sheet"}; !slices.Equal(got, want) {
		t.Errorf("sections %q, want %q: in the order of work", got, want)
	}

	p.Only = []string{"stock", "log"}
	var b bytes.Buffer
	notes, err := p.Write(&b)
	if err != nil || len(notes) != 1 || !strings.Contains(notes[0].String(), "section stock: left out") {
		t.Errorf("a section that the plan does not call for: notes %v, error %v", notes, err)
	}
	b.Reset()
	for only, want := range map[string]string{
		"stock": "there is nothing to print: section stock: no colourant is poured from a stock suspension",
		"pours": `the packet has no section "pours"; it has summary, `,
	} {
		p.Only = []string{only}
		if _, err := p.Write(&b); err == nil || !strings.Contains(err.Error(), want) || b.Len() > 0 {
			t.Errorf("only %s: error %v and %d bytes; want %q and none", only, err, b.Len(), want)
		}
	}
	p.Only, p.MeasuredMM = nil, 90
	if _, err := p.Write(&b); err == nil || b.Len() > 0 {
		t.Errorf("a bar of 90 mm: error %v and %d bytes", err, b.Len())
	}
}

// Sheets for the bench have the plan's paper as long as a hand holds it.
// A long packet is told of, with as many pages as the file has.
func TestPacket_manyPages(t *testing.T) {
	for name, told := range map[string]bool{"cells-66": true, "line-series": false} {
		var file bytes.Buffer
		notes, err := packetOf(t, name).Write(&file)
		if err != nil {
			t.Fatal(err)
		}
		pages := bytes.Count(file.Bytes(), []byte("/Type /Page\n"))
		want := fmt.Sprintf("has %d pages", pages)
		if said := slices.ContainsFunc(notes, func(w wording.Line) bool { return strings.HasPrefix(w.What, want) }); said != told || pages == 0 {
			t.Errorf("%s, %d pages: told %t, want %t (%v)", name, pages, said, told, notes)
		}
	}
}

func TestBenchPaper(t *testing.T) {
	for name, want := range map[string][2]float64{
		"A5": {148, 210}, "A4": {210, 297}, "Letter": {215.9, 279.4}, "Legal": {215.9, 355.6},
		"A3": {210, 297}, "A2": {210, 297}, "Tabloid": {215.9, 279.4},
		"297 x 210 mm": {297, 210}, "100 x 100 mm": {210, 297}, "300 x 420 mm": {210, 297},
	} {
		size, err := paper.Parse(name)
		if err != nil {
			t.Fatal(err)
		}
		w, h := benchPaper(blend.Board{Paper: size.Name, PaperW: size.W, PaperH: size.H})
		if [2]float64{w, h} != want {
			t.Errorf("%s: sheets of %g x %g mm, want %v", name, w, h, want)
		}
	}
}

// A packet is not taken for the ticket of a bucket.
func TestIsBucket_packet(t *testing.T) {
	var b bytes.Buffer
	if _, err := only(packetOf(t, "triaxial"), "summary").Write(&b); err != nil || IsBucket(b.Bytes()) {
		t.Errorf("taken for a ticket: %t; %v", IsBucket(b.Bytes()), err)
	}
}

// The sections drawn are named in the order in which they are asked for, without
// those that the plan does not call for.
func TestDrawn(t *testing.T) {
	for _, c := range []struct{ only, want string }{
		{"pour,stock,summary", "pour,summary"},
		{"stock", ""},
		{"map", "map"},
	} {
		p := packetOf(t, "triaxial")
		p.Only = strings.Split(c.only, ",")
		got, err := p.Drawn()
		if strings.Join(got, ",") != c.want || (err != nil) != (c.want == "") {
			t.Errorf("only %s: %q, %v; want %s", c.only, got, err, c.want)
		}
	}
}
