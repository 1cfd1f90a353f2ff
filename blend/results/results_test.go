package results_test

import (
	"encoding/csv"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/blend/measure"
	"pourboard/blend/mixmodel"
	. "pourboard/blend/record"
	"pourboard/blend/record/recordtest"
	. "pourboard/blend/results"
	"pourboard/render/wording"
)

func measureOf(t testing.TB, r *Results, head string) *Measure {
	t.Helper()
	for i := range r.Measures {
		if r.Measures[i].Head == head {
			return &r.Measures[i]
		}
	}
	t.Fatalf("no measure %q", head)
	return nil
}

// The yarn data of the NIST/SEMATECH e-Handbook of Statistical Methods,
// 5.5.4.2, read off a log: its {3,2} lattice is a triaxial of 2 divisions. On
// it the quadratic goes through the means of the cells, so that its residual
// standard deviation is the scatter of repeats.
func TestEvaluate_yarn(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", "mixture_yarn.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	// Each run is a cup, measured so finely that it is made as asked.
	m := recordtest.Planned(t, "triaxial", func(p *blend.Plan) {
		p.Tiles.Repeats, p.Tiles.Bodies, p.Log.Numbers = 1, []string{"Buff"}, []string{"Elongation"}
		p.Kit.Pour.Size = 1e-6
		p.Blend = blend.Blend{Kind: blend.List, Ends: p.Blend.Ends, Basis: p.Blend.Basis}
		for _, record := range records[1:] {
			var parts []float64
			for _, text := range record[:3] {
				parts = append(parts, map[string]float64{"0": 0, "1/2": 1, "1": 2}[text])
			}
			p.Blend.Parts = append(p.Blend.Parts, parts)
		}
	})
	sheets := m.BlankLog()
	for i, record := range records[1:] {
		recordtest.Put(t, &sheets[0], m.Scheme.Tile(i).Mark, "Elongation", recordtest.Words(record[3]))
	}
	r := Evaluate(m.Test, m.Read(t, sheets))
	got := measureOf(t, r, "Elongation")
	if got.N != 15 || r.Tiles != 15 || len(r.Missing) != 0 || len(got.Missing) != 0 {
		t.Errorf("%d readings of %d tiles, missing %v", got.N, r.Tiles, got.Missing)
	}
	if s := got.Scatter; math.Abs(s.Cups-0.85375) > 5e-6 || s.CupDF != 9 || s.TileDF != 0 {
		t.Errorf("scatter %+v", s)
	}
	quadratic := got.Models[0].Choice.Candidates[2].Model
	for i, want := range []float64{11.7, 9.4, 16.4, 19.0, 11.4, -9.6} {
		if math.Abs(quadratic.Terms[i].Coef-want) > 1e-4 {
			t.Errorf("%s: %v, want %v", quadratic.Terms[i].Name, quadratic.Terms[i].Coef, want)
		}
	}
	if got.Models[0].Choice.Chosen != quadratic {
		t.Errorf("chosen is the %s model", got.Models[0].Choice.Chosen.Kind)
	}
	if len(got.Models) != 1 || len(got.Highest) != 1 {
		t.Errorf("one body has %d models and %d rankings", len(got.Models), len(got.Highest))
	}
}

// truth is a model that a log is made from.
type truth struct {
	plan   string
	change func(p *blend.Plan)
	kind   mixmodel.Kind
	terms  map[string]float64 // by the name of the term
	best   []float64          // where it is highest within the cells
}

// A log made from a known model, with scatter, gives that model back within
// six standard errors of each term, of few degrees of freedom.
func TestEvaluate_knownModel(t *testing.T) {
	copper := func(percents ...float64) func(p *blend.Plan) {
		return func(p *blend.Plan) { p.Blend.Series[0].Percents = percents }
	}
	for _, test := range []truth{
		{"triaxial", nil, mixmodel.Quadratic, map[string]float64{"Q": 30, "S": 50, "V": 20, "Q×S": 60, "Q×V": -40, "S×V": 8}, nil},
		{"triaxial-weight", nil, mixmodel.Linear, map[string]float64{"Q": 30, "S": 50, "V": 20}, []float64{0, 1, 0}},
		{"line", nil, mixmodel.Quadratic, map[string]float64{"Q": 20, "S": 40, "Q×S": 80}, []float64{0.375, 0.625}}, // of 20+100b−80b²
		{"quadraxial", nil, mixmodel.Quadratic, map[string]float64{"Q": 20, "S": 40, "V": 60, "B": 30, "Q×S": 80, "Q×V": 20, "Q×B": 30, "S×V": -50, "S×B": 10, "V×B": 60}, nil},
		{"triaxial-series", nil, mixmodel.Linear, map[string]float64{"X": 10, "Y": 70, "Z": 40}, []float64{0, 1, 0}},
		{"line-series", copper(0, 0.5, 1, 1.5, 2, 3, 4), mixmodel.Quadratic, map[string]float64{"constant": 20, "X": 30, "X²": -5}, []float64{3}},
		{"biaxial-series", nil, mixmodel.Linear, map[string]float64{"constant": 10, "X": 8, "Y": 5}, []float64{2, 4}},
	} {
		m := recordtest.Planned(t, test.plan, func(p *blend.Plan) {
			if test.change != nil {
				test.change(p)
			}
			p.Tiles.Repeats, p.Tiles.Bodies, p.Log.Numbers = 3, []string{"Buff", "Red"}, []string{"Gloss"}
		})
		const scatter = 0.5
		random := rand.New(rand.NewPCG(11, uint64(len(test.plan))))
		sheets := m.BlankLog()
		m.Fill(t, &sheets[0], "Gloss", func(tile mark.Tile) float64 {
			return test.at(PointOf(m.Test, tile.Cell)) + scatter*random.NormFloat64()
		})
		r := Evaluate(m.Test, m.Read(t, sheets))
		got := measureOf(t, r, "Gloss")
		if len(got.Models) != 3 || got.Models[2].Body != AllBodies || got.Models[2].Tiles != m.Scheme.Tiles() || len(got.Models[2].Design.Cups) != len(m.Test.Cells) {
			t.Fatalf("%s: %d models", test.plan, len(got.Models))
		}
		if s := got.Scatter; s.TileDF != 4*len(m.Test.Cells) || s.Tiles < 0.7*scatter || s.Tiles > 1.4*scatter {
			t.Errorf("%s: scatter %+v", test.plan, s)
		}
		for _, model := range got.Models {
			name := test.plan + " on " + wording.BodyText(r, model.Body)
			var fitted *mixmodel.Model
			for _, c := range model.Choice.Candidates {
				if c.Kind == test.kind {
					fitted = c.Model
				}
			}
			if fitted == nil {
				t.Errorf("%s: no %s model", name, test.kind)
				continue
			}
			for _, term := range fitted.Terms {
				if math.Abs(term.Coef-test.terms[term.Name]) > 6*term.SE+1e-6 {
					t.Errorf("%s: %s is %v ± %v, want %v", name, term.Name, term.Coef, term.SE, test.terms[term.Name])
				}
			}
			if model.Highest == nil || model.Lowest == nil || model.Refused != "" {
				t.Errorf("%s: no prediction: %s", name, model.Refused)
				continue
			}
			if at := test.at(model.Highest.Point); math.Abs(at-model.Highest.Mean) > 2*model.Highest.Limit+0.3 {
				t.Errorf("%s: predicted %v ± %v where the truth is %v", name, model.Highest.Mean, model.Highest.Limit, at)
			}
			if !model.Highest.Inside || !model.Lowest.Inside {
				t.Errorf("%s: the best mixture lies outside the cells", name)
			}
			for i, x := range test.best {
				if math.Abs(model.Highest.Point[i]-x) > 0.05*max(1, x) {
					t.Errorf("%s: highest at %v, want %v", name, model.Highest.Point, test.best)
				}
			}
		}
	}
}

// at is the truth at a point.
func (t truth) at(point []float64) float64 {
	sum := 0.0
	for name, coef := range t.terms {
		if name != "constant" {
			for _, factor := range strings.Split(name, "×") {
				x := point[strings.Index("QSVBXYZ", factor[:1])%4]
				if strings.HasSuffix(factor, "²") {
					x *= x
				}
				coef *= x
			}
		}
		sum += coef
	}
	return sum
}

// Means, scatter, ranks, classes and gaps of a few tiles, worked by hand.
func TestEvaluate_byHand(t *testing.T) {
	m := recordtest.Planned(t, "line", func(p *blend.Plan) {
		p.Tiles.Repeats, p.Tiles.Bodies, p.Tiles.Coats, p.Log.Numbers = 2, []string{"Buff", "Red"}, 2, []string{"Gloss"}
		p.Blend.Cells = 5
	})
	sheets := m.BlankLog()
	s := &sheets[0]
	tile := func(cell, body, repeat int) string {
		return m.Scheme.Tile(m.Scheme.IndexOf(cell, body, repeat)).Mark
	}
	for _, r := range []struct {
		cell, body, repeat int
		rating, gloss      string
	}{
		{1, 0, 0, "5", "10"}, {1, 0, 1, "4", "13"}, // 4.5, 11.5
		{2, 0, 0, "4", "20.5"}, {2, 0, 1, "5", "21.5"}, // 4.5, 21
		{3, 0, 0, "3", "30"}, // only one of two
		{1, 1, 0, "2", "14"}, {1, 1, 1, "2", ""},
		{2, 1, 0, "", "60"},
		{4, 1, 0, "5", ""},
	} {
		recordtest.Put(t, s, tile(r.cell, r.body, r.repeat), "Rating", recordtest.Words(r.rating))
		recordtest.Put(t, s, tile(r.cell, r.body, r.repeat), "Gloss", recordtest.Words(r.gloss))
	}
	recordtest.Put(t, s, tile(5, 1, 0), "Coat 1", recordtest.Words("thin"))
	recordtest.Put(t, s, tile(5, 1, 1), "Coat 1", recordtest.Number(2))
	recordtest.Put(t, s, tile(5, 1, 1), "Coat 2", recordtest.Number(2))
	r := Evaluate(m.Test, m.Read(t, sheets))

	if len(r.Measures) != 3 || r.Measures[2].Head != "Gloss" || r.Measures[1].Head != "Coat 2" || r.Measures[0].Head != "Rating" {
		t.Fatalf("measures %v", r.Measures)
	}
	gaps := func(all []Gap) string {
		return strings.Join(wording.MissingText(r, all, "none"), "; ")
	}
	if got := gaps(r.Missing); got != "Buff: none for cups 4-5; Red: none for cup 3" {
		t.Errorf("missing: %s", got)
	}
	rating, gloss := &r.Measures[0], &r.Measures[2]
	if got := gaps(gloss.Missing); got != "Buff: none for cups 4-5; Red: none for cups 3-5" {
		t.Errorf("gloss missing: %s", got)
	}
	if got := gaps(r.Measures[1].Missing); got != "Buff: none for any cup; Red: none for cups 1-4" {
		t.Errorf("coat missing: %s", got)
	}
	if len(r.Measures[1].Models) != 0 {
		t.Error("a coat has models")
	}
	// Σ(y − ȳ)²: 2·1.5² + 2·0.5² = 5 with 2 degrees of freedom.
	if s := gloss.Scatter; s.TileDF != 2 || s.CupDF != 0 || math.Abs(s.Tiles-math.Sqrt(2.5)) > 1e-12 {
		t.Errorf("gloss scatter %+v", s)
	}
	// 2·0.5² + 2·0.5² + 0 = 1 with 3.
	if s := rating.Scatter; s.TileDF != 3 || s.CupDF != 0 || math.Abs(s.Tiles-math.Sqrt(1.0/3)) > 1e-12 {
		t.Errorf("rating scatter %+v", s)
	}
	rankings := func(m *Measure, all []Ranking) string {
		var lines []string
		for _, k := range all {
			line := wording.BodyText(r, k.Body) + " of " + strconv.Itoa(k.Of)
			for _, rank := range k.Ranks {
				line += ", " + strings.TrimSuffix(wording.RankedText(r, m, k.Body, rank), " ("+wording.CellText(r, rank.Cells[0])+")")
			}
			lines = append(lines, line)
		}
		return strings.Join(lines, "; ")
	}
	if got, want := rankings(rating, rating.Highest), "all bodies of 1, 1. cup 1: 3.3; Buff of 3, 1. cups 1-2 (tie): 4.5, 3. cup 3: 3; Red of 2, 1. cup 4: 5, 2. cup 1: 2.0"; got != want {
		t.Errorf("rating:\n got %s\nwant %s", got, want)
	}
	// On all bodies cup 1, then 2 and 1 by gloss; on one body the tie of 1 and 2
	// by rating on Buff, 4 on Red, 3 by gloss on Buff.
	if got := r.Firsts(); !slices.Equal(got, []int{1, 2, 4, 3}) {
		t.Errorf("firsts %v", got)
	}
	if judged, coats := r.Judged(), r.Coats(); len(judged) != 2 || judged[0] != rating || judged[1] != gloss || len(coats) != 1 || coats[0].Head != "Coat 2" {
		t.Errorf("judged %v, coats %v", judged, coats)
	}
	if len(rating.Lowest) != 0 {
		t.Error("the worst ratings are ranked")
	}
	if got, want := rankings(gloss, gloss.Highest), "all bodies of 2, 1. cup 2: 40.50, 2. cup 1: 12.75; Buff of 3, 1. cup 3: 30.0, 2. cup 2: 21.00, 3. cup 1: 11.50; Red of 2, 1. cup 2: 60.0, 2. cup 1: 14.0"; got != want {
		t.Errorf("gloss:\n got %s\nwant %s", got, want)
	}
	if got := rankings(gloss, gloss.Lowest[1:2]); got != "Buff of 3, 1. cup 1: 11.50, 2. cup 2: 21.00, 3. cup 3: 30.0" {
		t.Errorf("lowest gloss: %s", got)
	}
	// Gloss goes from 11.5 to 60, a rating from 1 to 5.
	for value, want := range map[float64]float64{11.5: 0, 60: 1, 35.75: 0.5} {
		if got := gloss.Shade(value); math.Abs(got-want) > 1e-9 {
			t.Errorf("gloss %g has the shade %g, want %g", value, got, want)
		}
	}
	if got := rating.Shade(4); got != 0.75 {
		t.Errorf("a rating of 4 has the shade %g", got)
	}
	if red := gloss.Models[1]; red.Tiles != 2 || red.Highest != nil || red.Refused == "" {
		t.Errorf("two readings on Red give %s", wording.ModelText(r, red))
	}
	if all := gloss.Models[2]; all.Tiles != 7 {
		t.Errorf("%d readings of all bodies", all.Tiles)
	}
}

// A mixture that makes no difference gets no prediction.
func TestEvaluate_noDifference(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	sheets := m.BlankLog()
	m.Fill(t, &sheets[0], "Rating", func(mark.Tile) float64 { return 3 })
	r := Evaluate(m.Test, m.Read(t, sheets))
	for _, model := range measureOf(t, r, "Rating").Models {
		if model.Highest != nil || !strings.Contains(wording.ModelText(r, model), "no prediction, ") {
			t.Errorf("%s", wording.ModelText(r, model))
		}
	}
	if len(r.Measures) != 1 {
		t.Errorf("columns without a number are measures: %v", r.Measures)
	}
}

func TestEvaluate_blank(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	r := Evaluate(m.Test, m.Read(t, m.BlankLog()))
	if len(r.Measures) != 0 || r.Tiles != 0 || len(r.Missing) != 3 || len(r.Missing[0].Cells) != 28 {
		t.Errorf("a blank log gives %+v", r)
	}
}

func TestEvaluate_everyPlan(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "plans", "*.toml"))
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".toml")
		if name == "cells-500" {
			continue // the same as others, and slow
		}
		m := recordtest.Planned(t, name, nil)
		random := rand.New(rand.NewPCG(2, 2))
		sheets := m.BlankLog()
		m.Fill(t, &sheets[0], "Rating", func(mark.Tile) float64 { return float64(random.IntN(5) + 1) })
		log := m.Read(t, sheets)
		if len(log.Complaints) != 0 || len(log.Notes) != 0 || len(log.Readings) != m.Scheme.Tiles() {
			t.Errorf("%s: %s %s", name, recordtest.Complaints(log), log.Notes)
		}
		r := Evaluate(m.Test, log)
		rating := measureOf(t, r, "Rating")
		if len(rating.Missing) != 0 || len(r.Ends) == 0 {
			t.Errorf("%s: %+v", name, rating)
		}
		for i := range m.Test.Cells {
			point := PointOf(m.Test, i+1)
			if len(point) != len(r.Ends) {
				t.Errorf("%s: point %v", name, point)
			}
			for e, d := range m.Test.Cells[i].Doses {
				if to := r.Ends[e].To; to > 0 && math.Abs(point[e]*to-d.GotPercent) > 0.05*to {
					t.Errorf("%s: cell %d has %v %% and a share of %v", name, i+1, d.GotPercent, point[e])
				}
			}
		}
		for _, model := range rating.Models {
			if model.Refused == "" && len(model.Choice.Candidates) == 0 || wording.ModelText(r, model) == "" {
				t.Errorf("%s: %+v", name, model)
			}
		}
	}
}

func BenchmarkResults(b *testing.B) {
	m := recordtest.Planned(b, "cells-66", func(p *blend.Plan) {
		p.Tiles.Bodies, p.Log.Numbers = []string{"Buff"}, []string{"Gloss", "Run length mm", "Chroma"}
	})
	random := rand.New(rand.NewPCG(1, 1))
	sheets := m.BlankLog()
	m.Fill(b, &sheets[0], "Rating", func(mark.Tile) float64 { return float64(random.IntN(5) + 1) })
	for _, head := range m.Test.Plan.Log.Numbers {
		m.Fill(b, &sheets[0], head, func(tile mark.Tile) float64 {
			x := m.Test.Cells[tile.Cell-1].Shares
			return 20*x[0] + 50*x[1] + 60*x[0]*x[1] + random.NormFloat64()
		})
	}
	for b.Loop() {
		log, err := Read(m.Test, sheets)
		if err != nil {
			b.Fatal(err)
		}
		if r := Evaluate(m.Test, log); len(r.Measures) != 4 || len(r.Measures[3].Models) != 1 {
			b.Fatal("not four models")
		}
	}
}

// Cups that a coarse scale makes the same are repeats of one mixture: 0.4 % and
// 0.3 % are both 0 g where the scale has steps of 1 g.
func TestScatterOfCupsMadeAlike(t *testing.T) {
	m := recordtest.Planned(t, "line-series", func(p *blend.Plan) {
		p.Blend.Series[0].Percents = []float64{0, 0.3, 0.4, 2}
		p.Kit.Scale, p.Kit.Fine = measure.Step{Size: 1, Unit: measure.Gram}, measure.Step{}
		p.Log.Numbers = []string{"Gloss"}
	})
	sheets := m.BlankLog()
	gloss := []float64{10, 13, 16, 40}
	m.Fill(t, &sheets[0], "Gloss", func(tile mark.Tile) float64 { return gloss[tile.Cell-1] + 5*float64(tile.Body) })
	// On each of three bodies 3² + 0² + 3² = 18 with 2 degrees of freedom.
	s := measureOf(t, Evaluate(m.Test, m.Read(t, sheets)), "Gloss").Scatter
	if s.TileDF != 0 || s.CupDF != 6 || math.Abs(s.Cups-3) > 1e-12 {
		t.Errorf("scatter %+v", s)
	}
}
