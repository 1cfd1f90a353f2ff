package results_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/blend/mixmodel"
	"pourboard/blend/record"
	"pourboard/blend/record/recordtest"
	. "pourboard/blend/results"
	"pourboard/render/wording"
)

// etch is the published runs of mixture_etch.csv (R. H. Myers, D. C. Montgomery,
// Response Surface Methodology) as cups of one or more lists, run i in list
// i modulo lists, each cup measured so finely that it is made as asked.
func etch(t *testing.T, lists int) []*Results {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", "mixture_etch.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	number := func(text string) float64 {
		above, below, _ := strings.Cut(text, "/")
		x, _ := strconv.ParseFloat(above, 64)
		if y, err := strconv.ParseFloat(below, 64); err == nil {
			x /= y
		}
		return x
	}
	var all []*Results
	for list := range lists {
		var parts [][]float64
		var read []string
		for i, row := range rows[1:] {
			if i%lists == list {
				parts = append(parts, []float64{6 * number(row[0]), 6 * number(row[1]), 6 * number(row[2])})
				read = append(read, row[3])
			}
		}
		m := recordtest.Planned(t, "triaxial", func(p *blend.Plan) {
			p.Tiles.Repeats, p.Tiles.Bodies, p.Log.Numbers = 1, []string{"Buff"}, []string{"Rate"}
			p.Kit.Pour.Size = 1e-6
			p.Blend = blend.Blend{Kind: blend.List, Ends: p.Blend.Ends, Basis: p.Blend.Basis, Parts: parts}
		})
		sheets := m.BlankLog()
		for i, text := range read {
			recordtest.Put(t, &sheets[0], m.Scheme.Tile(i).Mark, "Rate", recordtest.Words(text))
		}
		all = append(all, Evaluate(m.Test, m.Read(t, sheets)))
	}
	return all
}

// Runs split over two plans, fired together, give the published model; each of
// the plans alone cannot carry it.
func TestCompare_splitEqualsWhole(t *testing.T) {
	whole, halves := FitWithoutFiring(etch(t, 1), "Rate"), FitWithoutFiring(etch(t, 2), "Rate")
	a, b := whole.Choice.Candidates[3].Model, halves.Choice.Candidates[3].Model
	if a == nil || b == nil {
		t.Fatal("no special cubic model")
	}
	// Printed coefficients, from memory.
	for i, want := range []float64{550.2, 344.7, 268.3, 689.5, -9.0, 58.1, 9243.3} {
		if math.Abs(a.Terms[i].Coef-want) > 0.06 || math.Abs(a.Terms[i].Coef-b.Terms[i].Coef) > 1e-6 {
			t.Errorf("%s: %.4f whole, %.4f split, printed %.1f", a.Terms[i].Name, a.Terms[i].Coef, b.Terms[i].Coef, want)
		}
	}
	c := Compare(etch(t, 2))
	if !c.OneDesign || len(c.Together) != 1 || c.Together[0].Measure.Head != "Rate" {
		t.Fatalf("%+v", c)
	}
	chosen := c.Together[0].Model.Choice.Chosen
	if len(chosen.Offsets) != 1 || chosen.Offsets[0].Factor != FiringFactor || chosen.N != 14 {
		t.Errorf("offsets %+v of %d cups", chosen.Offsets, chosen.N)
	}
}

// gloss is a line of 7 cups on two bodies of which Gloss was read, as value says.
func gloss(t *testing.T, change func(p *blend.Plan), value func(tile mark.Tile, share float64) float64, more func(m recordtest.Made, s *record.Sheet)) (recordtest.Made, *Results) {
	t.Helper()
	m := recordtest.Planned(t, "line", func(p *blend.Plan) {
		p.Tiles.Repeats, p.Tiles.Bodies, p.Log.Numbers, p.Blend.Cells = 1, []string{"Buff", "Red"}, []string{"Gloss"}, 7
		if change != nil {
			change(p)
		}
	})
	sheets := m.BlankLog()
	m.Fill(t, &sheets[0], "Gloss", func(tile mark.Tile) float64 { return value(tile, float64(tile.Cell-1)/6) })
	if more != nil {
		more(m, &sheets[0])
	}
	return m, Evaluate(m.Test, m.Read(t, sheets))
}

// Two firings of one test: the tiles of a cup lie in both, so the difference
// comes from within cups, and cups still count once.
func TestCompare_firingsOfOneTest(t *testing.T) {
	wobble := func(cell int) float64 { return float64(cell * 5 % 7) }
	m, a := gloss(t, nil, func(tile mark.Tile, x float64) float64 { return 20 + 30*x + wobble(tile.Cell) + 4*float64(tile.Body) }, nil)
	sheets := m.BlankLog()
	m.Fill(t, &sheets[0], "Gloss", func(tile mark.Tile) float64 {
		return 27 + 30*float64(tile.Cell-1)/6 + wobble(tile.Cell) + 4*float64(tile.Body)
	})
	c := Compare([]*Results{a, Evaluate(m.Test, m.Read(t, sheets))})
	model := c.Together[0].Model
	if !c.OneDesign || len(model.Design.Cups) != 7 || model.Tiles != 28 {
		t.Fatalf("%d cups, %d tiles", len(model.Design.Cups), model.Tiles)
	}
	if got := strings.Join(wording.OffsetTexts(model.Choice.Chosen), "; "); got != "Red reads 4.000 above Buff; Firing 2 reads 7.000 above 1" {
		t.Error(got)
	}
}

// Two tests of one design: their cups were mixed apart, so the firing is a term
// between cups. Another recipe is another design, and there is no model.
func TestCompare_designs(t *testing.T) {
	value := func(tile mark.Tile, x float64) float64 { return 20 + 30*x + float64(tile.Cell*5%7) }
	_, a := gloss(t, nil, value, nil)
	_, b := gloss(t, func(p *blend.Plan) { p.Mark = "ZZ" }, func(tile mark.Tile, x float64) float64 { return 10 + value(tile, x) }, nil)
	c := Compare([]*Results{a, b})
	model := c.Together[0].Model
	if len(model.Design.Cups) != 14 || len(model.Choice.Chosen.Offsets) != 2 {
		t.Errorf("%d cups, offsets %+v", len(model.Design.Cups), model.Choice.Chosen.Offsets)
	}
	if o := model.Choice.Chosen.Offsets[1]; math.Abs(o.Value-10) > 1e-9 {
		t.Errorf("the second firing reads %g above the first, made with 10", o.Value)
	}
	_, other := gloss(t, func(p *blend.Plan) {
		p.Glazes[0].Recipe = append([]blend.Part{{Material: "Silica", Percent: 5}}, p.Glazes[0].Recipe...)
	}, value, nil)
	if c := Compare([]*Results{a, other}); c.OneDesign || c.Together != nil {
		t.Error("two designs were modelled together")
	}
}

// A block is a column of the log. An offset of shelves is no scatter, and one
// that says nothing is named.
func TestEvaluate_block(t *testing.T) {
	block := func(p *blend.Plan) { p.Log.Block = "Shelf" }
	shelves := func(shelf func(tile mark.Tile) string) func(m recordtest.Made, s *record.Sheet) {
		return func(m recordtest.Made, s *record.Sheet) {
			for i := range m.Scheme.Tiles() {
				tile := m.Scheme.Tile(i)
				recordtest.Put(t, s, tile.Mark, "Shelf", recordtest.Words(shelf(tile)))
			}
		}
	}
	top := func(tile mark.Tile) int { return (tile.Cell / 2) % 2 }
	value := func(tile mark.Tile, x float64) float64 {
		return 20 + 30*x + 8*float64(top(tile)) + 0.1*float64(tile.Cell*5%7)
	}
	_, r := gloss(t, block, value, shelves(func(tile mark.Tile) string { return []string{"low", "top"}[top(tile)] }))
	for _, model := range measureOf(t, r, "Gloss").Models {
		chosen := model.Choice.Chosen
		var shelf mixmodel.Offset
		for _, o := range chosen.Offsets {
			if o.Factor == "Shelf" {
				shelf = o
			}
		}
		if math.Abs(shelf.Value-8) > 0.6 || shelf.Level != "top" || chosen.S > 0.5 {
			t.Errorf("shelf %+v, s %g", shelf, chosen.S)
		}
	}
	_, r = gloss(t, block, value, shelves(func(mark.Tile) string { return "top" }))
	model := measureOf(t, r, "Gloss").Models[0]
	if got := model.Design.Alone; !slices.Equal(got, []string{"Shelf"}) || model.Choice.Chosen == nil {
		t.Error(got)
	}
}

// Check cups are kept out, then predicted.
func TestEvaluate_checkCups(t *testing.T) {
	value := func(tile mark.Tile, x float64) float64 { return 20 + 30*x + 0.5*float64(tile.Cell*5%7) }
	_, r := gloss(t, func(p *blend.Plan) { p.Log.Check = []int{4} }, value, nil)
	m := measureOf(t, r, "Gloss")
	model := m.Models[0]
	if len(model.Design.Cups) != 6 || len(model.Checks) != 1 {
		t.Fatalf("%d cups, checks %v", len(model.Design.Cups), model.Checks)
	}
	if got := wording.CheckText(m, model.Checks[0]); !strings.HasPrefix(got, "cup 4: read 38.0, predicted 3") || !strings.Contains(got, " ± ") {
		t.Error(got)
	}
}

// What a log says was poured counts for its tiles, whatever the plan measures;
// a cup that was spilled counts for nothing.
func TestEvaluate_asDone(t *testing.T) {
	m := recordtest.Planned(t, "line", func(p *blend.Plan) {
		p.Tiles.Repeats, p.Tiles.Bodies, p.Log.Numbers, p.Blend.Cells = 1, []string{"Buff"}, []string{"Gloss"}, 7
	})
	sheets := m.BlankLog()
	m.Fill(t, &sheets[0], "Gloss", func(tile mark.Tile) float64 { return float64(10 + tile.Cell) })
	log := m.Read(t, sheets)
	log.Cups = []record.CupEntry{
		{Done: blend.Done{Cup: 4, Poured: map[int]float64{0: 30, 1: 90}}},
		{Done: blend.Done{Cup: 5}, Mishap: "made again", Notes: "by Ana"},
		{Done: blend.Done{Cup: 6}, Mishap: "Spilled", Notes: "cat"},
	}
	r := Evaluate(m.Test, log)
	want := r.Test.Cells[3].Pours[1].GotShare
	if got := r.Point(4); math.Abs(got[1]-want) > 1e-9 || math.Abs(want-m.Test.Cells[3].Pours[1].GotShare) < 0.1 {
		t.Errorf("cup 4 lies at %v, planned at %v", got, PointOf(m.Test, 4))
	}
	if got := len(measureOf(t, r, "Gloss").Models[0].Design.Cups); got != 6 || r.Tiles != 6 {
		t.Errorf("%d cups of %d tiles, want 6: one was spilled", got, r.Tiles)
	}
	if r.Missing != nil {
		t.Errorf("missing %v: nothing can be entered of a spilled cup", r.Missing)
	}
	if got := strings.Join(wording.DoneTexts(m.Test, log), "; "); !strings.HasPrefix(got, "cup 4: poured 30 mL ") || !strings.HasSuffix(got, "cup 6 forgotten or spilled: tiles skipped; cup 5: made again; by Ana; cup 6: cat") {
		t.Error(got)
	}
}

// A body of which only two cups were read does not choose among the seven of the
// other; where it was read of most cups, both count.
func TestNext_bodyHardlyRead(t *testing.T) {
	for _, want := range []struct{ red, bucket int }{{2, 5}, {4, 4}} {
		m := recordtest.Planned(t, "line", func(p *blend.Plan) {
			p.Tiles.Repeats, p.Tiles.Bodies, p.Blend.Cells = 1, []string{"Buff", "Red"}, 7
		})
		sheets := m.BlankLog()
		buff, red := []float64{1, 2, 3, 4, 5, 3, 2}, []float64{2, 1, 1, 5}
		for i, rating := range buff {
			recordtest.Put(t, &sheets[0], m.Scheme.Tile(m.Scheme.IndexOf(i+1, 0, 0)).Mark, "Rating", recordtest.Number(rating))
		}
		for i, rating := range red[:want.red] {
			recordtest.Put(t, &sheets[0], m.Scheme.Tile(m.Scheme.IndexOf(i+1, 1, 0)).Mark, "Rating", recordtest.Number(rating))
		}
		if _, bucket := Evaluate(m.Test, m.Read(t, sheets)).Next(); bucket != want.bucket {
			t.Errorf("%d cups read on Red: cup %d is best, want %d", want.red, bucket, want.bucket)
		}
	}
}
