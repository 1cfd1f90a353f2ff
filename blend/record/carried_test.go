package record_test

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/mark"
	"pourboard/blend/measure"
	"pourboard/blend/plan"
	. "pourboard/blend/record"
	"pourboard/blend/record/recordtest"
)

// By the amounts that it carries, a log gives back the cups that were measured,
// whatever flags they were made with and whatever the plan says since.
func TestAsMeasured(t *testing.T) {
	t.Parallel()
	plans, err := os.ReadDir("../../testdata/plans")
	if err != nil {
		t.Fatal(err)
	}
	same, other := 0, 0
	for _, file := range plans {
		name := strings.TrimSuffix(file.Name(), ".toml")
		is := recordtest.Planned(t, name, nil)
		if len(is.Test.Cells) > 40 {
			continue // only longer than others
		}
		for what, change := range map[string]func(p *blend.Plan){
			"cup":  func(p *blend.Plan) { p.Cup.Size.Value *= 1.3 },
			"pour": func(p *blend.Plan) { p.Kit.Pour.Size *= 2 },
			"unit": func(p *blend.Plan) {
				p.Kit.Pour = measure.Step{Size: 1, Unit: measure.Gram}
			},
			"scale": func(p *blend.Plan) { p.Kit.Scale.Size, p.Kit.Fine = 1, measure.Step{} },
			"sg": func(p *blend.Plan) {
				p.Glazes = slices.Clone(p.Glazes)
				p.Glazes[0].SG, p.Glazes[0].WaterPer = 1.38, 0
			},
			"less": func(p *blend.Plan) {
				p.Have = []blend.Have{{Glaze: p.Glazes[max(p.Blend.Base, 0)].Name, ML: 400}}
			},
			"all": func(p *blend.Plan) {
				p.Have, p.ShareAll = []blend.Have{{Glaze: p.Glazes[max(p.Blend.Base, 0)].Name, ML: 3000}}, true
			},
		} {
			p := *is.Test.Plan
			change(&p)
			if _, err := blend.New(&p); err != nil {
				continue // this plan cannot be changed so
			}
			made := recordtest.Replanned(t, &p)
			got, err := Carry(fullLog(made)).AsMeasured(is.Test)
			if err != nil {
				t.Errorf("%s, %s: %v", name, what, err)
				continue
			}
			want := fmt.Sprint(measured(made.Test))
			if fmt.Sprint(measured(got)) != want {
				t.Errorf("%s, %s: measured %.200s, want %.200s", name, what, fmt.Sprint(measured(got)), want)
			}
			if same++; fmt.Sprint(measured(is.Test)) != want {
				other++
			}
		}
	}
	if same < 100 || other < 80 {
		t.Errorf("%d logs, %d of other amounts than the plan's", same, other)
	}
}

// fullLog is a blank log with the amounts and the text of the plan.
func fullLog(m recordtest.Made) []Sheet {
	amounts, text := [][]string{{HeadAmounts}}, [][]string{}
	for _, line := range identity.AmountsOf(m.Test.Plan).Lines() {
		amounts = append(amounts, []string{line})
	}
	for _, line := range strings.Split(string(plan.Write(m.Test.Plan)), "\n") {
		text = append(text, []string{line})
	}
	return append(m.BlankLog(), recordtest.SheetOf("Amounts", amounts...), recordtest.SheetOf(SheetText, text...))
}

// measured is what was poured and dosed into the cups of a test.
func measured(t *blend.Test) (all []string) {
	for _, c := range t.Cells {
		for _, p := range c.Pours {
			all = append(all, fmt.Sprintf("%.6g", p.Got.Shown(t.Plan.Kit)))
		}
		for _, d := range c.Doses {
			all = append(all, fmt.Sprintf("%.6g/%.6g", d.MeasuredG, d.MeasuredML))
		}
	}
	return all
}

// The first version counted dry glaze with its additions: 103 g of it were
// 103/c mL at c = (ρ−1)·S/(S−1) g in a mL, and a dose was a percentage of all of
// it. Of a recipe with 2 % of bentonite that is 1.02 as much of the recipe.
func TestAsMeasured_firstVersion(t *testing.T) {
	m := recordtest.Planned(t, "line-series", func(p *blend.Plan) { p.Cup.Size.Value = 103 })
	sheets := fullLog(m)
	about := &sheets[2]
	letters := slices.IndexFunc(about.Rows, func(r Row) bool { return r.Cells[0].Text == HeadFingerprint })
	about.Rows = about.Rows[letters:] // the first version had none
	carried := Carry(sheets)
	if !carried.First || carried.Letters.Bodies != "ACDEKMT" {
		t.Fatalf("%+v", carried)
	}
	got, err := carried.AsMeasured(m.Test)
	if err != nil {
		t.Fatal(err)
	}
	solids := m.Test.Ends[0].Solids
	dryPerML := (1.45 - 1) * solids / (solids - 1)
	poured := 5 * math.Round(103/dryPerML/5) // the jug is marked every 5 mL
	for i, percent := range []float64{0, 0.5, 1, 2, 3, 4} {
		c := got.Cells[i]
		dose := math.Round(percent*dryPerML*poured) / 100 // the fine scale shows 0.01 g
		if c.Pours[0].Got.ML != poured || math.Abs(c.Doses[0].MeasuredG-dose) > 1e-9 {
			t.Errorf("cup %d: %g mL and %g g, want %g and %g", i+1, c.Pours[0].Got.ML, c.Doses[0].MeasuredG, poured, dose)
		}
		if want := 100 * dose / (dryPerML * poured / 1.02); math.Abs(c.Doses[0].GotPercent-want) > 1e-9 || c.Doses[0].Percent != percent {
			t.Errorf("cup %d: asked %g %%, comes to %g %%, want %g", i+1, c.Doses[0].Percent, c.Doses[0].GotPercent, want)
		}
	}
	if m.Test.Cells[0].Pours[0].Got.ML == poured {
		t.Error("both versions pour alike; the test shows nothing")
	}
}

// What cups come to is held against the test where that has the plan and the amounts
// of the log.
func TestRead_comesTo(t *testing.T) {
	was := recordtest.Planned(t, "line-series", func(p *blend.Plan) { p.Cup.Size.Value, p.Kit.Fine = 130, measure.Step{} })
	const made = "Copper carbonate comes to %"
	sheets := fullLog(was)
	was.Fill(t, &sheets[0], "Rating", func(mark.Tile) float64 { return 3 })
	other := recordtest.Planned(t, "line-series", nil).BlankLog()[0]
	recordtest.Put(t, &sheets[0], "MC2P", made, recordtest.RowOf(t, &other, "MC2P").Cells[recordtest.Column(t, other, made)])
	recordtest.Put(t, &sheets[0], "MC3P", made, recordtest.Words("9"))
	recordtest.Put(t, &sheets[0], "MC4P", made, Cell{})
	log := was.Read(t, sheets)
	got := recordtest.Complaints(log)
	if len(log.Readings) != was.Scheme.Tiles()-2 || strings.Count(got, "\n") != 1 ||
		!strings.Contains(got, `row 8, Copper carbonate comes to %: it reads 9, and cup 3 is `) {
		t.Errorf("%d readings: %s", len(log.Readings), got)
	}
	// Of other amounts, of a changed plan and of CSV nothing can be said of what they gave.
	for _, sheets := range [][]Sheet{sheets, sheets[:1]} {
		for _, is := range []recordtest.Made{
			recordtest.Planned(t, "line-series", nil),
			recordtest.Planned(t, "line-series", func(p *blend.Plan) { p.Glazes[0].Solids = 2.5 }),
		} {
			if log := is.Read(t, sheets); len(log.Complaints) > 0 || len(log.Readings) != was.Scheme.Tiles() {
				t.Errorf("%d readings: %s", len(log.Readings), recordtest.Complaints(log))
			}
		}
	}
}

// A body that has another name in the plan keeps its rows where all else of the
// bodies is as it was and the log says what they were.
func TestRead_renamedBody(t *testing.T) {
	bodies := func(names ...string) recordtest.Made {
		return recordtest.Planned(t, "line-series", func(p *blend.Plan) { p.Tiles.Bodies = names })
	}
	was := bodies("Porcelain", "Buff", "Red")
	for _, c := range []struct {
		is   []string
		csv  bool
		read string // bodies
		note string
	}{
		{[]string{"Porcelain", "Buff", "Terracotta"}, false, "Porcelain Buff Terracotta", `body "Red" is now called "Terracotta"; its rows count (letter R)`},
		{[]string{"Porcelain", "Terracotta", "Buff"}, false, "Porcelain Buff", ""},
		{[]string{"Porcelain", "White", "Terracotta"}, false, "Porcelain", ""},
		{[]string{"Porcelain", "Buff", "Terracotta", "Red"}, false, "Porcelain Buff Red", ""},
		{[]string{"Porcelain", "Buff"}, false, "Porcelain Buff", ""},
		{[]string{"Porcelain", "Buff", "Terracotta"}, true, "Porcelain Buff", ""},
	} {
		sheets := fullLog(was)
		was.Fill(t, &sheets[0], "Rating", func(tile mark.Tile) float64 { return float64(tile.Body + 1) })
		if c.csv {
			sheets = sheets[:1]
		}
		is := bodies(c.is...)
		log := is.Read(t, sheets)
		var read []string
		for _, r := range log.Readings {
			body := c.is[r.Body]
			if !slices.Contains(read, body) {
				read = append(read, body)
			}
			if was.Test.Plan.Tiles.Bodies[int(r.Rating)-1] != body && body != "Terracotta" {
				t.Errorf("%q: %s is read as %s", c.is, r.Mark, body)
			}
			if tile := is.Scheme.Tile(r.Index); tile.Cell != r.Cell || tile.Body != r.Body {
				t.Errorf("%q: %s has index %d, of %+v", c.is, r.Mark, r.Index, tile)
			}
		}
		if got := strings.Join(read, " "); got != c.read {
			t.Errorf("%q: read %s, want %s", c.is, got, c.read)
		}
		if notes := strings.Join(log.Notes, "\n"); c.note != "" && !strings.Contains(notes, c.note) || c.note == "" && strings.Contains(notes, "now called") {
			t.Errorf("%q: notes %s", c.is, notes)
		}
		if c.note != "" { // and its tiles keep the letter that is painted on them
			kept := mark.Keep(is.Test.Plan, 6, was.Scheme.Letters())
			if got := kept.Behind(2, 0); got != "R" {
				t.Errorf("Terracotta is %s", got)
			}
		}
	}
}
