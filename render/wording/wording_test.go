package wording

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/plan"
)

// testOf is a plan of testdata/plans, changed and worked out.
func testOf(t *testing.T, file string, change func(*blend.Plan)) *blend.Test {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../../testdata/plans", file))
	if err != nil {
		t.Fatal(err)
	}
	p, _, err := plan.Read(file, text)
	if err != nil {
		t.Fatal(err)
	}
	change(p)
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return test
}

func grams(size float64) measure.Step { return measure.Step{Size: size, Unit: measure.Gram} }

// dosed is a biaxial of two colourants in cups of 100 g dry, weighed on a scale
// of 1 g: 0.25 % is 0.25 g and comes to nothing, 0.5 % and 1 % are both 1 g
// (halves are rounded up), 2 % is 2 g.
func dosed(t *testing.T, change func(*blend.Plan)) *blend.Test {
	return testOf(t, "biaxial-series.toml", func(p *blend.Plan) {
		p.Blend.Series = []blend.Series{
			{Material: "Cobalt carbonate", Percents: []float64{0, 0.25, 0.5, 1, 2}},
			{Material: "Titanium dioxide", Percents: []float64{0, 4}},
		}
		p.Cup = blend.Cup{Size: blend.Amount{Value: 100, Of: blend.Dry}}
		p.Kit.Scale, p.Kit.Fine = grams(1), measure.Step{}
		p.Kit.Worst = 0.05
		// 1 g of recipe in a mL, so that the jug pours 100 g.
		p.Glazes[0].SG, p.Glazes[0].Solids, p.Glazes[0].Additions, p.Glazes[0].WaterPer = 1.625, 2.6666666666666665, nil, 0
		change(p)
	})
}

// What is too little for the scale is skipped, and nothing says 0 g of it.
func TestSkippedDoses(t *testing.T) {
	test := dosed(t, func(*blend.Plan) {})
	d := test.Cells[1].Doses[0]
	for _, x := range []struct{ got, want string }{
		{DoseText(test, d), "none"}, {DosePlusMinus(d), "–"},
		{DoseText(test, test.Cells[0].Doses[0]), "–"}, {DoseText(test, test.Cells[2].Doses[0]), "1"},
	} {
		if x.got != x.want {
			t.Errorf("got %q, want %q", x.got, x.want)
		}
	}
	all := strings.Join(Notes(test.Notes), "\n")
	for _, part := range []string{
		"cups 2, 7: no Cobalt carbonate: a 1 g scale cannot weigh 0.25 g (0.25 %); cups 1 and 2; 6 and 7 are then identical (use a 0.01 g scale)",
		"cups 3 and 4; 8 and 9: will be identical",
	} {
		if !strings.Contains(all, part) {
			t.Errorf("no note says %q:\n%s", part, all)
		}
	}
}

// What a tile is said to hold: as asked where that is what it holds.
func TestHolds(t *testing.T) {
	test := dosed(t, func(*blend.Plan) {})
	for cell, want := range map[int]string{
		1: "0 % Cobalt carbonate, 0 % Titanium dioxide",
		2: "0.25 % Cobalt carbonate asked, none made; 0 % Titanium dioxide",
		3: "0.5 % Cobalt carbonate asked, 1 made; 0 % Titanium dioxide",
		9: "1 % Cobalt carbonate, 4 % Titanium dioxide",
	} {
		if got := Contents(test, test.Cells[cell-1]); got != want {
			t.Errorf("cell %d: %q, want %q", cell, got, want)
		}
	}
	if got := DoseBrief(test.Cells[1].Doses[0]); got != "none" {
		t.Errorf("briefly %q, want none", got)
	}
}

func TestWaterText(t *testing.T) {
	test := testOf(t, "line.toml", func(p *blend.Plan) {
		p.Kit.Pour = measure.Step{Size: 5, Unit: measure.Millilitre}
		for i, sg := range []float64{1.48, 1.40} {
			p.Glazes[p.Blend.Ends[i]].SG, p.Glazes[p.Blend.Ends[i]].WaterPer = sg, 0
		}
	})
	uneven := blend.NotesOf[blend.UnevenGravity](test)
	if len(uneven) != 1 || uneven[0].ThinSG != test.CommonSG {
		t.Fatalf("%+v; want the cup of the common gravity %g", uneven, test.CommonSG)
	}
	thin, thick := uneven[0].Thin-1, uneven[0].Thick-1
	if got := WaterText(test, test.Cells[thin], test.CommonSG); got != "–" {
		t.Errorf("water into the thinnest cup: %q, want none", got)
	}
	if got := WaterText(test, test.Cells[thin], test.Cells[thick].Got.SG); got != "too thin already" {
		t.Errorf("water to bring the thinnest cup to the thickest: %q", got)
	}
	// By hand: x = (W − ρV)/(ρ − 1), in whole mL of the syringe.
	c, sg := test.Cells[thick].Got, test.CommonSG
	want := measure.Step{Size: 1}.Format(int64(math.Round((c.G - sg*c.ML) / (sg - 1))))
	if got := WaterText(test, test.Cells[thick], sg); got != want {
		t.Errorf("water into the thickest cup: %q, want %q", got, want)
	}
}

// Every plan's notes and advice have a line, without a sentence of more than 25
// words (WORDS: 20 where it can be, 25 never exceeded).
func TestSentences(t *testing.T) {
	files, err := filepath.Glob("../../testdata/plans/*.toml")
	if err != nil || files == nil {
		t.Fatal("no plans", err)
	}
	for _, file := range files {
		test := testOf(t, filepath.Base(file), func(*blend.Plan) {})
		advice, err := blend.Advise(test)
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range slices.Concat(Advice(advice, test.Plan), Dilutions(test), Notes(test.Notes)) {
			for _, sentence := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(":;()", r) }) {
				for _, s := range strings.Split(sentence, ". ") {
					if n := len(strings.Fields(s)); n > 25 {
						t.Errorf("%s: %d words: %s", filepath.Base(file), n, s)
					}
				}
			}
		}
	}
}

// By hand: a fifth of 10 g dry at some 0.7 g/mL is 3 mL, less than a step
// of 10 mL: it was asked, and nothing is poured.
func TestPourText_nothing(t *testing.T) {
	test := testOf(t, "line.toml", func(p *blend.Plan) {
		p.Kit.Pour = measure.Step{Size: 10, Unit: measure.Millilitre}
		p.Cup = blend.Cup{Size: blend.Amount{Value: 10, Of: blend.Dry}}
	})
	none := 0
	for _, c := range test.Cells {
		for _, p := range c.Pours {
			got := PourText(test, p)
			switch {
			case p.ML == 0 && got != "–", p.ML >= 10 && (got == "none" || got == "–"):
				t.Errorf("cup %d: %.1f mL read %q", c.Number, p.ML, got)
			case p.ML > 0 && p.Steps == 0:
				none++
				if got != "none" {
					t.Errorf("cup %d: %.1f mL read %q", c.Number, p.ML, got)
				}
			}
		}
	}
	if none == 0 {
		t.Error("no pour rounds to nothing; the test tests nothing")
	}
}
