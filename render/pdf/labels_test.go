package pdf

import (
	"math"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/wording"
)

// Every label's text lies on its own label, on a page of the stock's size that
// has nothing else on it.
func TestLabels(t *testing.T) {
	for name, c := range map[string]struct {
		stock blend.Labels
		free  []int
		pages int // of 28 labels
	}{
		"3 x 8": {blend.Labels{Columns: 3, Rows: 8, WidthMM: 70, HeightMM: 37, TopMM: 0.5, SheetW: 210, SheetH: 297, Sheet: "A4"}, nil, 2},
		"part-used": {blend.Labels{Columns: 3, Rows: 8, WidthMM: 70, HeightMM: 37, TopMM: 0.5, SheetW: 210, SheetH: 297, Sheet: "A4"},
			[]int{3, 4, 20}, 3},
		"5 x 13": {blend.Labels{Columns: 5, Rows: 13, WidthMM: 38.1, HeightMM: 21.2, LeftMM: 4.7, TopMM: 10.7, GapXMM: 2.5, SheetW: 210, SheetH: 297}, nil, 1},
		"narrow": {blend.Labels{Columns: 2, Rows: 2, WidthMM: 20, HeightMM: 60, LeftMM: 5, TopMM: 5, GapXMM: 3, GapYMM: 3, SheetW: 100, SheetH: 150}, nil, 7},
		"tiny":   {blend.Labels{Columns: 8, Rows: 20, WidthMM: 15, HeightMM: 9, LeftMM: 20, TopMM: 20, GapXMM: 2, GapYMM: 1, SheetW: 215.9, SheetH: 279.4}, nil, 1},
	} {
		for _, measured := range []float64{0, 97.4} {
			t.Run(name, func(t *testing.T) {
				p := packetOf(t, "triaxial", func(p *blend.Plan) { p.Labels = &c.stock })
				p.Free, p.MeasuredMM = c.free, measured
				s, _ := mustDraw(t, only(p, "labels"))
				places := layout.Labels(&c.stock, len(p.Test.Cells), c.free)
				if len(places) != 28 {
					t.Fatalf("%d labels, want 28", len(places))
				}
				sheets := 0
				for _, page := range s.doc.pages {
					if !page.bare {
						continue // texts in full
					}
					if math.Abs(page.wMM-c.stock.SheetW) > 1e-9 || math.Abs(page.hMM-c.stock.SheetH) > 1e-9 {
						t.Errorf("a page of %g x %g mm", page.wMM, page.hMM)
					}
					numbers := 0
					for _, b := range textBoxes(page) {
						on := 0
						for _, l := range places {
							box := layout.Rect{X: b.x0, Y: b.y0, W: b.x1 - b.x0, H: b.y1 - b.y0}
							if l.Sheet == sheets && box.Inside(l.Rect) {
								on++
								if b.text == label(l.Cell)[1:len(label(l.Cell))-1] {
									numbers++
								}
							}
						}
						if on != 1 {
							t.Errorf("the text %q at %.1f, %.1f lies on %d labels", b.text, b.x0, b.y0, on)
						}
					}
					for _, s := range overlaps(textBoxes(page)) {
						t.Errorf("texts overlap: %s", s)
					}
					want := 0
					for _, l := range places {
						if l.Sheet == sheets {
							want++
						}
					}
					if numbers != want {
						t.Errorf("sheet %d: %d cup numbers on their labels, want %d", sheets+1, numbers, want)
					}
					sheets++
				}
				if sheets != c.pages {
					t.Errorf("%d sheets of labels, want %d", sheets, c.pages)
				}
			})
		}
	}
}

// Every label names the test, also the narrower ones at the edges of a sheet,
// and a title that is too long is cut short and not left out.
func TestLabels_title(t *testing.T) {
	stock := blend.Labels{Columns: 3, Rows: 8, WidthMM: 70, HeightMM: 37, TopMM: 0.5, SheetW: 210, SheetH: 297}
	for title, want := range map[string]string{
		"Rutile": "MR: Rutile",
		"Copper carbonate and rutile over a magnesia matte, second try": "MR: Copper carbonate",
		"Überlängenglasurversuchsreihenfortsetzungsbezeichnung":         "MR:",
	} {
		p := packetOf(t, "triaxial", func(p *blend.Plan) { p.Labels, p.Title = &stock, title })
		s, _ := mustDraw(t, only(p, "labels"))
		checkPages(t, s.doc)
		named := 0
		for _, page := range s.doc.pages {
			for _, o := range page.ops {
				if o.kind == opText && o.font.bold && strings.HasPrefix(o.text, want) {
					named++
				}
			}
		}
		if named != 28 {
			t.Errorf("%q: %d labels of 28 begin with %q", title, named, want)
		}
	}
}

// What is printed on labels at the edges of a sheet lies 10 mm from them, unless
// that would take much of a small label.
func TestLabels_edge(t *testing.T) {
	sheet := &page{wMM: 210, hMM: 297}
	for _, c := range []struct{ label, want layout.Rect }{
		{layout.Rect{X: 0, Y: 0.5, W: 70, H: 37}, layout.Rect{X: 10, Y: 10, W: 57.5, H: 25}},
		{layout.Rect{X: 140, Y: 259.5, W: 70, H: 37}, layout.Rect{X: 142.5, Y: 262, W: 57.5, H: 25}},
		{layout.Rect{X: 70, Y: 100, W: 70, H: 37}, layout.Rect{X: 72.5, Y: 102.5, W: 65, H: 32}},
		{layout.Rect{X: 2, Y: 100, W: 20, H: 20}, layout.Rect{X: 5, Y: 102.5, W: 14.5, H: 15}},
	} {
		if got := labelInside(c.label, sheet); got != c.want {
			t.Errorf("%v: %v, want %v", c.label, got, c.want)
		}
	}
}

// A small label says what its cup holds as made, in letters where names have no
// room, and not by the number of a text elsewhere.
func TestLabels_small(t *testing.T) {
	stock := blend.Labels{Columns: 5, Rows: 13, WidthMM: 38.1, HeightMM: 21.2, LeftMM: 4.7, TopMM: 10.7, GapXMM: 2.5, SheetW: 210, SheetH: 297}
	p := packetOf(t, "triaxial", func(p *blend.Plan) { p.Labels = &stock })
	s, _ := mustDraw(t, only(p, "labels"))
	if len(s.doc.long.all) > 0 {
		t.Errorf("texts that had no room: %q", s.doc.long.all)
	}
	text := pageTexts(s.doc.pages[0])
	for _, c := range p.Test.Cells {
		for end := range c.Pours {
			if !c.MadeOther(end) {
				continue
			}
			if made := strings.ReplaceAll(blend.GlazeLetter(end)+" "+wording.ShareBrief(c, end), " ", "\u00A0"); !strings.Contains(text, made) {
				t.Errorf("cup %d: no label says %q", c.Number, made)
			}
		}
	}
	if last := pageTexts(s.doc.pages[len(s.doc.pages)-1]); !strings.Contains(last, "On the labels: ") || !strings.Contains(last, "percentages as made") {
		t.Errorf("the letters are not told: %q", last)
	}
}
