package pdf

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"pourboard/blend"
	"pourboard/blend/plan"
	"pourboard/layout"
	"pourboard/layout/crate"
)

// filledLog is a log of a test as a person fills it in: value gives what is
// written of a tile in a column, nothing for a cell that is left blank.
func filledLog(t testing.TB, test *blend.Test, places *layout.Places, value func(c crate.Column, tile layout.Tile) string) *crate.Log {
	t.Helper()
	columns := crate.Columns(test.Plan)
	text := func(s string) crate.Cell {
		if s == "" {
			return crate.Cell{}
		}
		return crate.Cell{Kind: crate.Text, Text: s}
	}
	tiles := crate.Sheet{Name: crate.SheetTiles, Rows: []crate.Row{{Number: 1}}}
	for _, c := range columns {
		tiles.Rows[0].Cells = append(tiles.Rows[0].Cells, text(c.Head))
	}
	for i, tile := range places.Tiles {
		row := crate.Row{Number: i + 2}
		for _, c := range columns {
			cell := c.Printed(test, places, i)
			if c.Fill {
				cell = text(value(c, tile.Tile))
			}
			row.Cells = append(row.Cells, cell)
		}
		tiles.Rows = append(tiles.Rows, row)
	}
	fire := crate.Sheet{Name: crate.SheetFiring}
	for i, l := range crate.FiringLabels() {
		said := map[string]string{"Cone": "6", "Top temperature °C": "1222", "Atmosphere": "oxidation", "Schedule": "100 °C/h to 600 °C, 150 °C/h to the top, 15 min hold"}[l.Label]
		fire.Rows = append(fire.Rows, crate.Row{Number: i + 1, Cells: []crate.Cell{text(l.Label), text(said)}})
	}
	about := crate.Sheet{Name: crate.SheetPlan, Rows: []crate.Row{{Number: 1, Cells: []crate.Cell{text(crate.HeadFingerprint), text(plan.Fingerprint(test.Plan))}}}}
	log, err := crate.Read(test, places, []crate.Sheet{tiles, fire, about}, plan.Fingerprint(test.Plan), plan.Outline(test.Plan))
	if err != nil {
		t.Fatal(err)
	}
	return log
}

// invented fills in a log from a model known to the test: gloss and run length
// are quadratic in the shares, or in the percentages, and scatter; some tiles
// are missing, and one rating is out of range.
func invented(test *blend.Test) func(c crate.Column, tile layout.Tile) string {
	random := rand.New(rand.NewPCG(5, uint64(len(test.Cells))))
	r := crate.Evaluate(test, &crate.Log{})
	return func(c crate.Column, tile layout.Tile) string {
		scatter := random.NormFloat64()
		if tile.Index%17 == 5 {
			return ""
		}
		sum := 40.0
		for i, x := range r.Point(tile.Cell) {
			sum += 9 * float64(i+1) * x * (1.6 - x)
		}
		sum += 3*float64(tile.Body) + scatter
		switch c.Field {
		case crate.RatingField:
			if tile.Index == 1 {
				return "8"
			}
			return string(rune('0' + int(max(1, min(5, math.Round((sum-38)/6))))))
		case crate.NumberField:
			return fmt.Sprintf("%.2f", sum/float64(1+9*c.Index))
		case crate.SurfaceField:
			return "gloss"
		case crate.CoatField:
			if c.Index == 0 {
				return fmt.Sprintf("%.2f", 0.4+scatter/20)
			}
			return "brown, even"
		}
		return ""
	}
}

// resultsOf are the results of a test plan and of a log invented for it.
func resultsOf(t testing.TB, name string, change ...func(*blend.Plan)) (*layout.Places, *crate.Results) {
	t.Helper()
	p := packetOf(t, name, change...)
	return p.Places, crate.Evaluate(p.Test, filledLog(t, p.Test, p.Places, invented(p.Test)))
}

// numbered gives a plan columns of numbers.
func withNumbers(names ...string) func(*blend.Plan) {
	return func(p *blend.Plan) { p.Log.Numbers = names }
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
				d, err := drawResults(places, r)
				if err != nil {
					t.Fatal(err)
				}
				out := mustWrite(t, d.doc)
				checkPages(t, d.doc)
				var again bytes.Buffer
				if _, err := Results(&again, places, r); err != nil || !bytes.Equal(out, again.Bytes()) {
					t.Errorf("the same results twice are not the same bytes: %v", err)
				}
				// To look at them: POURBOARD_PICTURES=DIR go test -run Results_every ./render/pdf
				if dir := os.Getenv("POURBOARD_PICTURES"); dir != "" {
					if err := os.WriteFile(filepath.Join(dir, name+"-"+size+"-results.pdf"), out, 0o666); err != nil {
						t.Fatal(err)
					}
				}
			})
		}
	}
}
