package sheets

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/plan"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/page/pagetest"
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

// sheetsOf are the sheets of a test plan, changed by the given functions before
// it is worked out.
func sheetsOf(t testing.TB, name string, change ...func(*blend.Plan)) Sheets {
	t.Helper()
	src, err := os.ReadFile("../../testdata/plans/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	p, _, err := plan.Read(name, src)
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
	return Sheets{Test: test, Places: layout.Boards(test), Advice: advice, Notes: wording.Notes(test.Notes)}
}

// onPaper changes a plan's paper.
func onPaper(t testing.TB, name string) func(*blend.Plan) {
	size, err := quantity.ReadPaper(name)
	if err != nil {
		t.Fatal(err)
	}
	return func(p *blend.Plan) { p.Board.Paper, p.Board.PaperW, p.Board.PaperH = size.Name, size.W, size.H }
}

func written(t testing.TB, s Sheets) []byte {
	t.Helper()
	var out bytes.Buffer
	if _, err := s.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// onRequest are the parts that are printed on request alone. Two pages of three have
// tiles at life size, and those of many are like those of few: of more than 60 they
// are drawn under POURBOARD_OUTSIDE=1.
func onRequest(s Sheets) []string {
	many := len(s.Places.Tiles) > 60 && os.Getenv("POURBOARD_OUTSIDE") != "1"
	_, more, _ := s.Chosen()
	return slices.DeleteFunc(more, func(part string) bool {
		return many && slices.Contains([]string{"trays", "board", "mat"}, part)
	})
}

// lifeSize are the parts with pages at life size, which may have few words.
var lifeSizeParts = []string{"Tray cards", "Board", "Mat", "Labels"}

// Every test plan on every paper, with all parts on request: no text over
// another, nothing near an edge, no page nearly empty, qpdf clean, and the same
// bytes each time.
func TestSheets_everyPlanAndPaper(t *testing.T) {
	for i, name := range planNames(t) {
		for _, size := range pagetest.Papers(i) {
			t.Run(name+"/"+size, func(t *testing.T) {
				t.Parallel()
				s := sheetsOf(t, name, onPaper(t, size))
				s.Also = onRequest(s)
				d, err := s.drawn()
				if err != nil {
					t.Fatal(err)
				}
				var out bytes.Buffer
				if err := d.doc.Write(&out); err != nil {
					t.Fatal(err)
				}
				// To look at them: POURBOARD_PICTURES=DIR go test -run everyPlan ./render/sheets
				if dir := os.Getenv("POURBOARD_PICTURES"); dir != "" {
					if err := os.WriteFile(filepath.Join(dir, name+"-"+size+".pdf"), out.Bytes(), 0o666); err != nil {
						t.Fatal(err)
					}
				}
				if size == "A4" && !bytes.Equal(out.Bytes(), written(t, s)) {
					t.Error("the same sheets twice are not the same bytes")
				}
				pages := pagetest.Read(t, out.Bytes())
				pagetest.Check(t, withoutLabels(d, pages))
				for i, p := range pages {
					part := d.doc.Pages()[i].Part()
					if few := p.Lines() < 5+2; few && !strings.Contains(strings.Join(lifeSizeParts, ","), part) {
						t.Errorf("page %d, %s, has %d lines", i+1, part, p.Lines())
					}
				}
				if size == "Letter" {
					pagetest.Clean(t, out.Bytes())
				}
			})
		}
	}
}

// withoutLabels leaves out the sheets of labels, which are used to their edges.
func withoutLabels(d *drawer, pages []pagetest.Page) []pagetest.Page {
	var rest []pagetest.Page
	for i, p := range pages {
		if d.doc.Pages()[i].Part() != "Labels" {
			rest = append(rest, p)
		}
	}
	return rest
}

// The targets of pages, on A4 and Letter, and the map on one page.
func TestSheets_fewPages(t *testing.T) {
	bodies := func(n, repeats int) func(*blend.Plan) {
		return func(p *blend.Plan) {
			p.Tiles.Bodies = []string{"Porcelain", "White", "Dark", "Buff", "Red"}[:n]
			p.Tiles.Repeats = repeats
		}
	}
	doses := func(n int) func(*blend.Plan) {
		return func(p *blend.Plan) {
			p.Blend.Series[0].Percents = []float64{0, 0.5, 1, 1.5, 2, 3, 4, 5, 7, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19}[:n]
		}
	}
	cups := func(n int) func(*blend.Plan) { return func(p *blend.Plan) { p.Blend.Cells = n } }
	for _, c := range []struct {
		name   string
		plan   string
		change []func(*blend.Plan)
		most   int
	}{
		{"10 cups on 3 bodies", "line-series", []func(*blend.Plan){doses(10), bodies(3, 1)}, 5},
		{"11 cups on 3 bodies", "line", []func(*blend.Plan){cups(11), bodies(3, 1)}, 6},
		{"5 × 5", "biaxial", []func(*blend.Plan){func(p *blend.Plan) { p.Blend.Columns, p.Blend.Rows = 5, 5 }}, 12},
		{"{4,4}", "quadraxial", []func(*blend.Plan){func(p *blend.Plan) { p.Blend.Divisions = 4 }}, 13},
		{"66 cups on 2 bodies", "cells-66", []func(*blend.Plan){bodies(2, 1)}, 16},
		{"4 cups weighed dry", "line-weigh", nil, 4},
		{"15 cups weighed dry", "triaxial-weigh", nil, 5},
		{"40 cups × 5 bodies × 3", "line", []func(*blend.Plan){cups(40), bodies(5, 3)}, 40},
	} {
		for _, size := range []string{"A4", "Letter"} {
			t.Run(c.name+"/"+size, func(t *testing.T) {
				t.Parallel()
				d, err := sheetsOf(t, c.plan, append(c.change, onPaper(t, size))...).drawn()
				if err != nil {
					t.Fatal(err)
				}
				maps := 0
				for i, p := range d.doc.Pages() {
					part := p.Part()
					t.Log(i+1, part)
					if part == "Map" {
						maps++
					}
				}
				if maps > 1 {
					t.Errorf("the map takes %d pages", maps)
				}
				if n := len(d.doc.Pages()); n > c.most {
					t.Errorf("%d pages, want at most %d", n, c.most)
				}
			})
		}
	}
}

// Printed lengths are those that the plan asks for, also on a printer that
// shrinks or stretches.
func TestLifeSize_measured(t *testing.T) {
	for _, c := range []struct {
		paper    string
		measured float64
	}{{"A4", 100}, {"A4", 97.4}, {"A4", 103}, {"Letter", 97.4}, {"A5", 97.4}, {"A3", 97.4}} {
		t.Run(c.paper, func(t *testing.T) {
			t.Parallel()
			s := sheetsOf(t, "triaxial", onPaper(t, c.paper))
			s.MeasuredMM = c.measured
			s.Only = []string{"board", "trays", "tiles", "mat"}
			d, err := s.drawn()
			if err != nil {
				t.Fatal(err)
			}
			var out bytes.Buffer
			if err := d.doc.Write(&out); err != nil {
				t.Fatal(err)
			}
			paths := map[string][][2]float64{}
			for i, page := range pagetest.Paths(t, out.Bytes()) {
				part := d.doc.Pages()[i].Part()
				paths[part] = append(paths[part], page...)
			}
			for part, want := range map[string]int{"Board": 84, "Tray cards": 84, "Tiles": 1} {
				got := paths[part]
				if n := pagetest.Count(got, c.measured, 50, 100); n != want && !(part == "Tiles" && c.paper == "A5") {
					t.Errorf("%s: %d tile outlines of 50 x 100 mm, want %d", part, n, want)
				}
				if part == "Tiles" {
					continue
				}
				if n := pagetest.Count(got, c.measured, 100, 0); n != 1 {
					t.Errorf("%s: %d bars of 100 mm, want 1", part, n)
				}
				if n := pagetest.Count(got, c.measured, 50, 50); n != 1 {
					t.Errorf("%s: %d squares of 50 mm, want 1", part, n)
				}
			}
			if n := pagetest.Count(paths["Mat"], c.measured, 70, 70); n != 28 {
				t.Errorf("%d circles of 70 mm, want one for each of 28 cups", n)
			}
		})
	}
}

// Every mark, above and underneath, is on the tiles' sheet, every tile on the
// log, every cup on the card, with the amount that the table has.
func TestSheets_printTheTable(t *testing.T) {
	for _, name := range []string{"triaxial", "line-series", "line-stock", "quadraxial", "biaxial-pour", "bodies-4"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := sheetsOf(t, name)
			text := func(parts ...string) string {
				s.Only = parts
				all := ""
				for _, p := range pagetest.Read(t, written(t, s)) {
					all += " " + p.Text() + " "
				}
				return all
			}
			tiles, log, card := text("tiles"), text("log"), text("pour")
			for _, tile := range s.Places.Tiles {
				for sheet, want := range map[string]string{tiles: tile.Under, log: tile.Mark} {
					if !strings.Contains(sheet, " "+want+" ") {
						t.Errorf("%s is missing", want)
					}
				}
			}
			for _, c := range s.Test.Cells {
				for _, p := range c.Pours {
					if want := wording.PourText(s.Test, p); p.Steps > 0 && !strings.Contains(strings.ReplaceAll(card, "*", " "), " "+want+" ") {
						t.Errorf("cup %d: %s mL is not on the card", c.Number, want)
					}
				}
			}
		})
	}
}

// One cup, 600 tiles, names of 60 characters, accents, letters that no font
// has, ten materials and eleven additions, four ends and five bodies: nothing
// over anything, no cut name without its whole form.
func TestSheets_extremes(t *testing.T) {
	long := func(p *blend.Plan) {
		for i := range p.Glazes {
			p.Glazes[i].Name = strings.Repeat("Très longue glaçure ", 3) + string(rune('A'+i))
		}
		for i := range p.Tiles.Bodies {
			p.Tiles.Bodies[i] = strings.Repeat("Überlänge", 6) + "X" + string(rune('A'+i))
		}
		p.Title = strings.Repeat("W", 60)
	}
	five := func(p *blend.Plan) { p.Tiles.Bodies = []string{"Porcelain", "White", "Dark", "Buff", "Red 漢字"} }
	many := func(p *blend.Plan) {
		five(p)
		p.Tiles.Repeats = 3
	}
	materials := func(p *blend.Plan) {
		g := &p.Glazes[0]
		g.Recipe, g.Additions = nil, nil
		for i := range 10 {
			g.Recipe = append(g.Recipe, blend.Part{Material: "Material number " + string(rune('A'+i)), Percent: 10})
		}
		for i := range 11 {
			g.Additions = append(g.Additions, blend.Part{Material: "Addition number " + string(rune('A'+i)), Percent: 0.5})
		}
	}
	for i, c := range []struct {
		name, plan string
		change     []func(*blend.Plan)
	}{
		{"long names", "triaxial", []func(*blend.Plan){long}},
		{"long names, bench", "line-series", []func(*blend.Plan){long}},
		{"long names, four ends", "quadraxial", []func(*blend.Plan){long, five, func(p *blend.Plan) { p.Blend.Divisions = 2 }}},
		{"600 tiles", "line", []func(*blend.Plan){many, func(p *blend.Plan) { p.Blend.Cells = 40 }}},
		{"materials", "line-series", []func(*blend.Plan){materials}},
		{"materials, triaxial", "triaxial", []func(*blend.Plan){materials}},
		{"one cup", "one-cell", []func(*blend.Plan){five}},
		{"12 coats", "triaxial", []func(*blend.Plan){func(p *blend.Plan) { p.Tiles.Coats = 12 }}},
		{"large tiles", "line-series", []func(*blend.Plan){func(p *blend.Plan) { p.Tiles.WidthMM, p.Tiles.HeightMM = 250, 320 }}},
	} {
		for _, size := range pagetest.Papers(i) {
			t.Run(c.name+"/"+size, func(t *testing.T) {
				t.Parallel()
				s := sheetsOf(t, c.plan, append(c.change, onPaper(t, size))...)
				s.Also = onRequest(s)
				d, err := s.drawn()
				if err != nil {
					t.Fatal(err)
				}
				var out bytes.Buffer
				if err := d.doc.Write(&out); err != nil {
					t.Fatal(err)
				}
				if dir := os.Getenv("POURBOARD_PICTURES"); dir != "" {
					if err := os.WriteFile(filepath.Join(dir, strings.ReplaceAll(c.name, " ", "-")+"-"+size+".pdf"), out.Bytes(), 0o666); err != nil {
						t.Fatal(err)
					}
				}
				pages := pagetest.Read(t, out.Bytes())
				pagetest.Check(t, pages)
				whole := ""
				for _, p := range pages {
					whole += strings.ReplaceAll(p.Text(), " ", "")
				}
				for _, cut := range d.doc.Cut() {
					if !strings.Contains(strings.ReplaceAll(whole, "-", ""), strings.ReplaceAll(strings.Join(strings.Fields(cut), ""), "-", "")) {
						t.Errorf("%q is cut and nowhere whole", cut)
					}
				}
			})
		}
	}
}
