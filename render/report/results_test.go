package report

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/blend/plan"
	"pourboard/blend/quantity"
	"pourboard/blend/record"
	"pourboard/blend/results"
	"pourboard/layout"
	"pourboard/render/page/pagetest"
	"pourboard/render/wording"
)

// resultsOf are the results of a test plan and of a log invented for it: the
// numbers are quadratic in the shares, or in the percentages, and scatter; every
// seventeenth tile is missing.
func resultsOf(t testing.TB, name, size string, change ...func(*blend.Plan)) (*layout.Places, *results.Results) {
	t.Helper()
	src, err := os.ReadFile("../../testdata/plans/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	p, _, err := plan.Read(name, src)
	if err != nil {
		t.Fatal(err)
	}
	s, err := quantity.ReadPaper(size)
	if err != nil {
		t.Fatal(err)
	}
	p.Board.Paper, p.Board.PaperW, p.Board.PaperH = s.Name, s.W, s.H
	for _, c := range change {
		c(p)
	}
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	places := layout.Boards(test)
	return places, results.Evaluate(test, invented(test, places, func(tile mark.Tile) bool { return tile.Index%17 != 5 }))
}

// invented is a log of the tiles that read says, filled in from a known model.
func invented(test *blend.Test, places *layout.Places, read func(mark.Tile) bool) *record.Log {
	random := rand.New(rand.NewPCG(5, uint64(len(test.Cells))))
	points := results.Evaluate(test, &record.Log{})
	hundredths := func(x float64) record.Amount {
		return record.Amount{Value: math.Round(100*x) / 100, Given: true, Decimals: 2}
	}
	log := &record.Log{
		Columns:    record.Columns(test.Plan),
		Firings:    []record.Firing{{Letter: "A", Entries: []record.Entry{{Label: "Cone", Value: "6"}, {Label: "Schedule", Value: "100 °C/h to 600 °C, 150 °C/h to the top, 15 min hold"}}}},
		Complaints: []record.Complaint{{Sheet: "Tiles", Row: 3, Column: "Rating", What: "8 is left out", Right: "1 to 5, whole or half"}},
		Notes:      []string{"the log carries no fingerprint"},
	}
	for _, tile := range places.Tiles {
		scatter := random.NormFloat64()
		if !read(tile.Tile) {
			continue
		}
		sum := 40 + 3*float64(tile.Body) + scatter
		for i, x := range points.Point(tile.Cell) {
			sum += 9 * float64(i+1) * x * (1.6 - x)
		}
		it := record.Reading{Tile: tile.Tile, Coats: make([]record.Coat, test.Plan.Tiles.Coats)}
		it.Rating = max(record.LeastRating, min(record.MostRating, math.Round((sum-38)/6)))
		for i := range test.Plan.Log.Numbers {
			it.Numbers = append(it.Numbers, hundredths(sum/float64(1+9*i)))
		}
		thickness := hundredths(0.4 + scatter/20)
		it.Coats[0] = record.Coat{Text: fmt.Sprint(thickness.Value), Number: thickness}
		if tile.Index%3 == 0 {
			it.Defects, it.Surface = "crawling, pinholes", "satin"
			it.Colour, it.Notes = "a broken blue", "ran to the foot, and is thin at the rim where the second coat began"
		}
		log.Readings = append(log.Readings, it)
	}
	return log
}

// Every test plan on every paper: no text over another, nothing near an edge,
// and the same bytes each time.
func TestResults_everyPlanAndPaper(t *testing.T) {
	files, err := filepath.Glob("../../testdata/plans/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no plans to test with: %v", err)
	}
	for i, f := range files {
		name := strings.TrimSuffix(filepath.Base(f), ".toml")
		for _, size := range pagetest.Papers(i) {
			t.Run(name+"/"+size, func(t *testing.T) {
				t.Parallel()
				places, r := resultsOf(t, name, size, func(p *blend.Plan) {
					if name != "odd-text" {
						// None, one and two by turns, on each paper; two where all papers are drawn.
						p.Log.Numbers = []string{"Gloss", "Run length mm"}[:min(2, len(pagetest.Papers(i))-1+i/3%3)]
					}
				})
				var out, again bytes.Buffer
				if _, err := Results(&out, places, r, ""); err != nil {
					t.Fatal(err)
				}
				if size == "A4" {
					if _, err := Results(&again, places, r, ""); err != nil || !bytes.Equal(out.Bytes(), again.Bytes()) {
						t.Errorf("the same results twice are not the same bytes (%v)", err)
					}
				}
				// To look at them: POURBOARD_PICTURES=DIR go test ./render/report
				if dir := os.Getenv("POURBOARD_PICTURES"); dir != "" {
					if err := os.WriteFile(filepath.Join(dir, name+"-"+size+"-results.pdf"), out.Bytes(), 0o666); err != nil {
						t.Fatal(err)
					}
				}
				pagetest.Check(t, pagetest.Read(t, out.Bytes()))
				if size == "Letter" {
					pagetest.Clean(t, out.Bytes())
				}
			})
		}
	}
}

// What is printed is what the results say, read back from the paper: rankings,
// the value of every cup, models with their coefficients.
func TestResults_printTheTable(t *testing.T) {
	places, r := resultsOf(t, "triaxial", "A4", func(p *blend.Plan) { p.Log.Numbers = []string{"Gloss"}; p.Tiles.Repeats = 2 })
	var out bytes.Buffer
	if _, err := Results(&out, places, r, ""); err != nil {
		t.Fatal(err)
	}
	text := ""
	for _, p := range pagetest.Read(t, out.Bytes()) {
		text += " " + p.Text()
	}
	text += " "
	for _, m := range r.Judged() {
		for _, means := range m.Means {
			for i, mean := range means {
				if want := wording.ValueText(m, mean.Value, mean.N); mean.N > 0 && !strings.Contains(text, " "+want+" ") {
					t.Errorf("%s of cup %d, %s, is missing", m.Head, i+1, want)
				}
			}
		}
		for _, model := range m.Models {
			if model.Choice.Chosen == nil {
				continue
			}
			for _, term := range model.Choice.Chosen.Terms {
				if want := wording.StatisticText(term.Coef); !strings.Contains(text, " "+want+" ") {
					t.Errorf("%s: the coefficient %s is missing", m.Head, want)
				}
			}
		}
	}
}
