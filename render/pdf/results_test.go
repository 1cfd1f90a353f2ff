package pdf

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
	"pourboard/blend/quantity"
	"pourboard/blend/record"
	"pourboard/blend/results"
	"pourboard/layout"
	"pourboard/render/wording"
)

// resultsOf are the results of a test plan and of a log invented for it: the
// numbers are quadratic in the shares, or in the percentages, and scatter; every
// seventeenth tile is missing.
func resultsOf(t testing.TB, name string, change ...func(*blend.Plan)) (*layout.Places, *results.Results) {
	t.Helper()
	p := packetOf(t, name, change...)
	return p.Places, results.Evaluate(p.Test, invented(p.Test, p.Places, func(tile mark.Tile) bool { return tile.Index%17 != 5 }))
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
		Firing:     []record.Entry{{Label: "Cone", Value: "6"}, {Label: "Schedule", Value: "100 °C/h to 600 °C, 150 °C/h to the top, 15 min hold"}},
		Complaints: []record.Complaint{{Sheet: "Tiles", Row: 3, Column: "Rating", What: "8 is left out", Right: "a whole number from 1 to 5"}},
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
		it.Rating = int(max(record.LeastRating, min(record.MostRating, math.Round((sum-38)/6))))
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

// withNumbers gives a plan columns of numbers.
func withNumbers(names ...string) func(*blend.Plan) {
	return func(p *blend.Plan) { p.Log.Numbers = names }
}

// mustDrawResults draws results and writes them, and checks the pages.
func mustDrawResults(t testing.TB, places *layout.Places, r *results.Results) (*report, []byte) {
	t.Helper()
	d, err := drawResults(places, r, "")
	if err != nil {
		t.Fatal(err)
	}
	out := mustWrite(t, d.doc)
	checkPages(t, d.doc)
	// To look at them: POURBOARD_PICTURES=DIR go test -run Results ./render/pdf
	if dir := os.Getenv("POURBOARD_PICTURES"); dir != "" {
		name := strings.NewReplacer("/", "-", "TestResults_", "").Replace(t.Name()) + "-results.pdf"
		if err := os.WriteFile(filepath.Join(dir, name), out, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return d, out
}

// Every test plan on every paper: no text over another, nothing near an edge,
// and the same bytes each time.
func TestResults_everyPlanAndPaper(t *testing.T) {
	for _, name := range planNames(t) {
		for _, size := range []string{"A4", "Letter", "A5"} {
			t.Run(name+"/"+size, func(t *testing.T) {
				changes := []func(*blend.Plan){onPaper(t, size)}
				if name != "odd-text" {
					changes = append(changes, withNumbers("Gloss", "Run length mm"))
				}
				places, r := resultsOf(t, name, changes...)
				_, out := mustDrawResults(t, places, r)
				if size == "A4" {
					var again bytes.Buffer
					if _, err := Results(&again, places, r, ""); err != nil || !bytes.Equal(out, again.Bytes()) {
						t.Errorf("the same results twice are not the same bytes: %v", err)
					}
				}
			})
		}
	}
}

// What is printed is what the results say, read back from the paper: rankings,
// the values of every map in their order, models with their coefficients.
func TestResults_textIsThatOfTheResults(t *testing.T) {
	for _, name := range []string{"triaxial", "biaxial-series", "quadraxial", "bodies-4"} {
		places, r := resultsOf(t, name, withNumbers("Gloss", "Run length mm"), func(p *blend.Plan) { p.Tiles.Repeats = 2 })
		var out bytes.Buffer
		if _, err := Results(&out, places, r, "pours in steps of 1 mL, by --pour; the plan's file says 5 mL"); err != nil {
			t.Fatal(err)
		}
		outside(t, out.Bytes(), "qpdf", "--check", "FILE")
		text := strings.Join(strings.Fields(outside(t, out.Bytes(), "pdftotext", "-raw", "FILE", "-")), " ")
		holds := func(want string) {
			t.Helper()
			if !strings.Contains(text, strings.Join(strings.Fields(want), " ")) {
				t.Errorf("%s: no %q on the paper", name, want)
			}
		}
		holds("Pours in steps of 1 mL, by --pour; the plan's file says 5 mL.")
		d := &report{r: r}
		holds(wording.EndsText(r))
		holds(wording.ShapeText(r))
		holds(`sheet "Tiles", row 3, Rating: 8 is left out (a whole number from 1 to 5)`)
		holds("does not show that a glaze is fit for food")
		for _, m := range r.Judged() {
			holds(sentence(wording.ScatterText(m)))
			for i, ranking := range m.Highest {
				holds(d.ranks(m, ranking))
				if i < len(m.Lowest) {
					holds(d.ranks(m, m.Lowest[i]))
				}
			}
			for body, means := range m.Means {
				var places []string
				for i, mean := range means {
					if r.Test.Layers > 1 && (i == 0 || r.Test.Cells[i].Layer != r.Test.Cells[i-1].Layer) {
						places = append(places, fmt.Sprintf("Layer %d of %d", r.Test.Cells[i].Layer+1, r.Test.Layers))
					}
					value := "–"
					if mean.N > 0 {
						value = wording.ValueText(m, mean.Value, mean.N)
					}
					places = append(places, fmt.Sprint(i+1), value)
				}
				if r.Test.Layers == 1 { // layers go over several pages, with footers between
					holds(m.Head + " on " + wording.BodyText(r, body) + " " + strings.Join(places, " "))
				}
			}
			for _, model := range m.Models {
				holds(sentence(wording.ModelText(r, model)))
				if model.Highest == nil {
					continue
				}
				holds("Highest " + wording.BestText(r, model.Highest))
				holds(sentence(wording.LackText(model.Choice.Chosen)))
				var terms []string
				for _, term := range model.Choice.Chosen.Terms {
					terms = append(terms, term.Name, wording.StatisticText(term.Coef), "±", wording.ErrorText(term.SE))
				}
				holds(strings.Join(terms, " "))
			}
		}
		for i := range r.Test.Cells {
			if s := r.Said(i+1, results.AllBodies); len(s.Defects) > 0 {
				holds(fmt.Sprintf("%d %d %s", s.Cell, s.Tiles, wording.CountsText(s, s.Defects)[:8]))
			}
		}
		for _, cup := range r.Firsts()[:min(mostRecipes, len(r.Firsts()))] {
			holds(cupText(cup))
		}
	}
}

// A recipe's table has, for each cup, what the engine says was measured into it.
func TestResults_recipes(t *testing.T) {
	places, r := resultsOf(t, "triaxial")
	d, err := drawResults(places, r, "")
	if err != nil {
		t.Fatal(err)
	}
	cups := []int{1, 13}
	table := d.recipeTable(cups)
	got := map[string][]string{}
	for _, row := range table.rows {
		got[row.cells[0].text] = []string{row.cells[1].text, row.cells[2].text}
	}
	for k, cup := range cups {
		recipe, additions := r.Test.Recipe(cup-1, blend.Measured)
		count := 0
		for sign, parts := range map[string][]blend.Part{"": recipe, "+ ": additions} {
			for _, part := range parts {
				count++
				if row := got[sign+part.Material]; row == nil || row[k] != quantity.RecipeText(part.Amount) {
					t.Errorf("cup %d: %s%s is %v, want %s", cup, sign, part.Material, row, quantity.RecipeText(part.Amount))
				}
			}
		}
		dashes := 0
		for _, row := range got {
			if row[k] == "–" {
				dashes++
			}
		}
		if len(got) != 1+count+dashes { // and what was asked
			t.Errorf("cup %d: %d rows for %d parts and %d dashes", cup, len(got), count, dashes)
		}
	}
}

// A place of a map tells its class by grey and by squares.
func TestResultMap_classes(t *testing.T) {
	places, r := resultsOf(t, "line", withNumbers("Gloss"))
	d, err := drawResults(places, r, "")
	if err != nil {
		t.Fatal(err)
	}
	m := r.Judged()[1]
	page := d.doc.addPage("test", 210, 297)
	shape := d.newMap(186, 200)
	look := d.placeLook(m, 0, shape)
	last := 2.0
	for class := range m.Classes {
		for k := range len(m.Means) * len(m.Means[0]) {
			body, i := k/len(m.Means[0]), k%len(m.Means[0])
			if mean := m.Means[body][i]; mean.N == 0 || mean.Class != class {
				continue
			}
			page.ops = nil
			d.resultPlace(page, 20, 20, shape, look, m, body, i+1)
			squares, grey := 0, -1.0
			for _, o := range page.ops {
				switch {
				case o.kind == opFill && o.pen.grey == 0:
					squares++
				case o.kind == opFill:
					grey = o.pen.grey
				}
			}
			if squares != class+1 || !(grey <= last) {
				t.Errorf("class %d: %d squares on grey %v after %v", class, squares, grey, last)
			}
			last = grey
		}
	}
	if len(m.Classes) != 5 || last > 0.7 {
		t.Errorf("%d classes, the darkest is %v", len(m.Classes), last)
	}
}

func TestResults_extremes(t *testing.T) {
	long := strings.Repeat("A name beyond all reason for the length of its words ", 12)
	for name, change := range map[string]func(p *blend.Plan){
		"long names": func(p *blend.Plan) {
			p.Title, p.Tiles.Bodies[0], p.Glazes[0].Name = long, long, long
			p.Glazes[0].Recipe[0].Material = strings.Repeat("Unbroken", 30)
			p.Log.Numbers = []string{long, strings.Repeat("Wordwithoutend", 20)}
		},
		"no numbers": func(p *blend.Plan) { p.Log.Numbers = nil },
	} {
		t.Run(name, func(t *testing.T) {
			places, r := resultsOf(t, "triaxial", change)
			mustDrawResults(t, places, r)
		})
	}
	p := packetOf(t, "triaxial")
	t.Run("nothing read", func(t *testing.T) {
		log := invented(p.Test, p.Places, func(mark.Tile) bool { return false })
		mustDrawResults(t, p.Places, results.Evaluate(p.Test, log))
	})
	t.Run("one tile", func(t *testing.T) {
		log := invented(p.Test, p.Places, func(tile mark.Tile) bool { return tile.Index == 4 })
		mustDrawResults(t, p.Places, results.Evaluate(p.Test, log))
	})
	t.Run("an edge of the triangle", func(t *testing.T) {
		log := invented(p.Test, p.Places, func(tile mark.Tile) bool { return p.Test.Cells[tile.Cell-1].Shares[2] == 0 })
		mustDrawResults(t, p.Places, results.Evaluate(p.Test, log))
	})
	t.Run("great values and many complaints", func(t *testing.T) {
		log := invented(p.Test, p.Places, func(mark.Tile) bool { return true })
		for i := range log.Readings {
			log.Readings[i].Numbers[0].Value *= -1e13
		}
		for i := range 300 {
			log.Complaints = append(log.Complaints, record.Complaint{Sheet: "Tiles", Row: i + 9, What: `"MR99Z" is no mark; the row is left out`, Right: "nearest is MR9A"})
			log.Notes = append(log.Notes, "made for: "+long)
		}
		mustDrawResults(t, p.Places, results.Evaluate(p.Test, log))
	})
}
