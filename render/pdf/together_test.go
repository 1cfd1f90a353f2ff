package pdf

import (
	"fmt"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/mixmodel"
)

// The models that were tried and those that were refused stand on one page,
// wherever the table of them begins.
func TestTried_inOnePiece(t *testing.T) {
	choice := mixmodel.Choice{Candidates: []mixmodel.Candidate{
		{Kind: mixmodel.Linear, Model: &mixmodel.Model{}},
		{Kind: mixmodel.Quadratic, Refused: "the quadratic model cannot be fitted: no cup read has A and B together"},
		{Kind: mixmodel.SpecialCubic, Refused: "the special cubic model cannot be fitted: no cup read has A, B and C together"},
	}}
	for left := 2.0; left < 60; left++ {
		f := mustDoc(t, "t").startSection("s", 210, 297)
		f.y = f.bottom() - left
		tried(f, choice)
		on := map[*page]bool{}
		for _, p := range f.doc.pages {
			for _, o := range p.ops {
				if strings.HasPrefix(o.text, "linear") || strings.Contains(o.text, "cannot be fitted") {
					on[p] = true
				}
			}
		}
		if len(on) != 1 {
			t.Errorf("with %g mm left they stand on %d pages", left, len(on))
		}
	}
}

// What the letters behind the number mean stands on one page with its list.
func TestBodyKey_inOnePiece(t *testing.T) {
	s, _ := mustDraw(t, only(packetOf(t, "triaxial", onPaper(t, "A5"), func(p *blend.Plan) {
		p.Tiles.Bodies, p.Tiles.Repeats = []string{"Porcelain", "Buff", "Red", "Raku"}, 3
	}), "marks"))
	for left := 2.0; left < 60; left++ {
		f := s.doc.startSection("s", s.wMM, s.hMM)
		first := len(s.doc.pages) - 1
		f.y = f.bottom() - left
		s.bodyKey(f)
		on := map[int]bool{}
		for i, p := range s.doc.pages[first:] {
			for _, o := range p.ops {
				if strings.HasPrefix(o.text, "Letters behind") || o.text == "Porcelain" || o.text == "Raku" {
					on[i] = true
				}
			}
		}
		if len(on) != 1 {
			t.Errorf("with %g mm left they stand on %d pages", left, len(on))
		}
	}
}

// Of one cup there is no plot of one point.
func TestNoPlotOfOneCup(t *testing.T) {
	s, _ := mustDraw(t, only(packetOf(t, "one-cell"), "chemistry"))
	for _, p := range s.doc.pages {
		if text := pageTexts(p); strings.Contains(text, "against") {
			t.Errorf("a plot: %q", text)
		}
	}
}

// A material of which a word of its name tells a hazard is not called unknown,
// and is not passed over.
func TestNotKnown(t *testing.T) {
	s, _ := mustDraw(t, only(packetOf(t, "triaxial", func(p *blend.Plan) {
		p.Glazes[0].Recipe[0].Material, p.Glazes[0].Recipe[1].Material = "Straw ash", "Pond mud"
	}), "marks"))
	want := `["Unknown here: Pond mud. See the supplier's safety data sheet." ` +
		`"Known here by name only: Straw ash. See the supplier's safety data sheet for the rest."]`
	if got := fmt.Sprintf("%q", s.notKnown(s.test.Materials())); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
