package blend_test

import (
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/plan"
)

// worked is a plan of testdata, worked out.
func worked(t *testing.T, name string) *blend.Test {
	t.Helper()
	text, err := os.ReadFile("../testdata/plans/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	p, _, err := plan.Read(name, text)
	if err != nil {
		t.Fatal(err)
	}
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return test
}

// One cell of a series gives the same base in quarters of the steps beside it,
// or, of two series, in halves. The steps were worked out by hand.
func TestRefine_oneCellOfASeries(t *testing.T) {
	for _, c := range []struct {
		plan string
		cell int // from 1
		want [][]float64
	}{
		// 0, 0.5, 1, 2, 3, 4
		{"line-series", 4, [][]float64{{1.25, 1.5, 1.75, 2, 2.25, 2.5, 2.75}}},
		{"line-series", 3, [][]float64{{0.625, 0.75, 0.875, 1, 1.25, 1.5, 1.75}}},
		{"line-series", 1, [][]float64{{0, 0.125, 0.25, 0.375}}},
		{"line-series", 6, [][]float64{{3.25, 3.5, 3.75, 4}}},
		// 0.1, 0.2, 0.4, 0.8, 1.6
		{"line-stock", 3, [][]float64{{0.25, 0.3, 0.35, 0.4, 0.5, 0.6, 0.7}}},
		// 1, 1.5, 2, 2.5, 3, 3.5, 4
		{"line-pour", 2, [][]float64{{1.125, 1.25, 1.375, 1.5, 1.625, 1.75, 1.875}}},
	} {
		test := worked(t, c.plan)
		next, err := test.Refine([]int{c.cell - 1}, blend.Measured, blend.Biaxial, "QX")
		if err != nil {
			t.Errorf("%s: %v", c.plan, err)
			continue
		}
		var got [][]float64
		for _, s := range next.Blend.Series {
			got = append(got, s.Percents)
		}
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s, cell %d: %v, want %v", c.plan, c.cell, got, c.want)
		}
	}
}

// Whatever the cell, the next plan reads as it was made, keeps the base and the
// method, has the chosen mixture in it, and stays between the neighbours.
func TestRefine_anyCellOfASeries(t *testing.T) {
	for _, name := range []string{"line-series", "line-stock", "line-pour", "biaxial-series", "biaxial-pour"} {
		test := worked(t, name)
		for i, cell := range test.Cells {
			next, err := test.Refine([]int{i}, blend.Measured, blend.Biaxial, "QX")
			if err != nil {
				t.Fatalf("%s, cell %d: %v", name, i+1, err)
			}
			again, _, err := plan.Read("next", plan.Write(next))
			for i := range next.Glazes { // of its file
				next.Glazes[i].Line = again.Glazes[i].Line
			}
			if err != nil || !reflect.DeepEqual(again, next) {
				t.Fatalf("%s, cell %d: does not come back: %v", name, i+1, err)
			}
			if next.Blend.Method != test.Plan.Blend.Method || next.Glazes[next.Blend.Base].Name != test.Plan.Glazes[test.Plan.Blend.Base].Name || next.Mark != "QX" {
				t.Errorf("%s: method %s, mark %s", name, next.Blend.Method, next.Mark)
			}
			for n, s := range next.Blend.Series {
				best := cell.Doses[n].Percent
				if cell.Doses[n].AsMade {
					near := slices.ContainsFunc(s.Percents, func(x float64) bool {
						return math.Abs(x-cell.Doses[n].GotPercent) <= cell.Doses[n].GotPercent/200
					})
					if !near || !slices.IsSorted(s.Percents) {
						t.Errorf("%s, cell %d: %v without %v as made", name, i+1, s.Percents, cell.Doses[n].GotPercent)
					}
					continue
				}
				steps := slices.Clone(test.Plan.Blend.Series[n].Percents)
				slices.Sort(steps)
				at := slices.Index(steps, best)
				if !slices.Contains(s.Percents, best) || !slices.IsSorted(s.Percents) {
					t.Errorf("%s, cell %d: %v without %v", name, i+1, s.Percents, best)
				}
				if lowest := s.Percents[0]; at > 0 && lowest <= steps[at-1] || at == 0 && lowest != best {
					t.Errorf("%s, cell %d: %v begins below the neighbour of %v", name, i+1, s.Percents, best)
				}
				if highest := s.Percents[len(s.Percents)-1]; at+1 < len(steps) && highest >= steps[at+1] || at+1 == len(steps) && highest != best {
					t.Errorf("%s, cell %d: %v ends above the neighbour of %v", name, i+1, s.Percents, best)
				}
			}
			if _, err := blend.New(next); err != nil {
				t.Errorf("%s, cell %d: %v", name, i+1, err)
			}
		}
	}
}

// The chosen cup is in the next test whatever digits its percentage has, also at
// the end of a series, where rounding up would leave the series.
func TestRefine_digits(t *testing.T) {
	for _, percents := range [][]float64{{0, 2.0 / 3}, {2.0 / 3, 1}, {0, 2.0 / 3, 1}, {0, 1e-6, 2e-6}} {
		p := *worked(t, "line-series").Plan
		p.Blend.Series = []blend.Series{{Material: p.Blend.Series[0].Material, Percents: percents}}
		test, err := blend.New(&p)
		if err != nil {
			t.Fatal(err)
		}
		for i, best := range percents {
			next, err := test.Refine([]int{i}, blend.Asked, blend.Biaxial, "QX")
			if err != nil {
				continue // there is nothing finer between steps of the last digit
			}
			if got := next.Blend.Series[0].Percents; !slices.Contains(got, best) || !slices.IsSorted(got) {
				t.Errorf("%v, cell %d: %v, want %v among them", percents, i+1, got, best)
			}
		}
	}
}

// Three cups are refused when, and only when, what they are asked to hold lies
// on one line: shares of two ends in a triaxial, percentages of two colourants
// in a biaxial. Of one colourant alone there is a series.
func TestRefine_onOneLine(t *testing.T) {
	for _, name := range []string{"triaxial", "biaxial-series"} {
		test := worked(t, name)
		place := func(c blend.Cell, axis int) float64 {
			if len(c.Doses) > 0 {
				return c.Doses[axis].Percent
			}
			return c.Shares[axis]
		}
		strays := func(c blend.Cell) bool { return c.AsMade && len(c.Doses) == 0 }
		for c := range test.Cells {
			for b := range c {
				for a := range b {
					p, q, r := test.Cells[a], test.Cells[b], test.Cells[c]
					x1, y1, x2, y2 := place(q, 0)-place(p, 0), place(q, 1)-place(p, 1), place(r, 0)-place(p, 0), place(r, 1)-place(p, 1)
					onLine := math.Abs(x1*y2-x2*y1) < 1e-9
					for axis := range p.Doses {
						onLine = onLine && place(p, axis)+place(q, axis)+place(r, axis) > 0
					}
					for _, view := range []blend.View{blend.Asked, blend.Measured} {
						if view == blend.Measured && slices.ContainsFunc([]blend.Cell{p, q, r}, strays) {
							continue // it may well lie beside the line then
						}
						_, err := test.Refine([]int{a, b, c}, view, blend.Biaxial, "QX")
						if line := err != nil && strings.Contains(err.Error(), "on one line"); line != onLine {
							t.Errorf("%s, cups %d, %d, %d, view %d: %v", name, a+1, b+1, c+1, view, err)
						}
					}
				}
			}
		}
	}
	_, err := worked(t, "line").Refine([]int{1, 4, 3, 2}, blend.Measured, blend.Biaxial, "QX")
	if err == nil || !strings.Contains(err.Error(), "name its ends, cups 2 and 5)") {
		t.Errorf("four cups of a line: %v", err)
	}
}

// Cups that differ in one colourant give the same base with quarters of the steps
// between them, whether the base has a recipe or not, and from the same batch.
// The steps were worked out by hand.
func TestRefine_cupsOfASeries(t *testing.T) {
	for _, c := range []struct {
		plan  string
		cells []int
		want  []float64
	}{
		{"line-series", []int{2, 3}, []float64{1, 1.25, 1.5, 1.75, 2}}, // 0, 0.5, 1, 2, 3, 4
		{"line-series", []int{4, 0, 2}, []float64{0, 0.25, 0.5, 0.75, 1, 1.5, 2, 2.5, 3}},
		{"line-pour", []int{0, 2}, []float64{1, 1.25, 1.5, 1.75, 2}}, // 1, 1.5, 2, …
	} {
		for _, bought := range []bool{false, true} {
			p := *worked(t, c.plan).Plan
			p.Cup = blend.Cup{BatchG: 2000}
			if p.Blend.Method == blend.ByPour {
				p.Cup = blend.Cup{Size: blend.Amount{Value: 200, Of: blend.Volume}}
			}
			if bought {
				p.Glazes = slices.Clone(p.Glazes)
				p.Glazes[p.Blend.Base].Recipe, p.Glazes[p.Blend.Base].Additions = nil, nil
			}
			test, err := blend.New(&p)
			if err != nil {
				t.Fatal(err)
			}
			next, err := test.Refine(c.cells, blend.Asked, blend.Biaxial, "QX")
			if err != nil {
				t.Errorf("%s %v: %v", c.plan, c.cells, err)
				continue
			}
			again, _, err := plan.Read("next", plan.Write(next))
			if err != nil || !reflect.DeepEqual(again.Blend, next.Blend) || again.Cup != next.Cup || next.Cup.BatchG != p.Cup.BatchG {
				t.Errorf("%s %v: does not come back: %v", c.plan, c.cells, err)
			}
			if got := next.Blend.Series[0].Percents; !slices.Equal(got, c.want) {
				t.Errorf("%s %v: %v, want %v", c.plan, c.cells, got, c.want)
			}
		}
	}
}

// One cup of a plan that shares out a batch goes on with the batch.
func TestRefine_batch(t *testing.T) {
	p := *worked(t, "line-series").Plan
	p.Cup = blend.Cup{BatchG: 2000}
	test, err := blend.New(&p)
	if err != nil {
		t.Fatal(err)
	}
	next, err := test.Refine([]int{3}, blend.Asked, blend.Biaxial, "QX")
	if err != nil || next.Cup.BatchG != p.Cup.BatchG || next.Cup.Size.Value != p.Cup.Size.Value {
		t.Errorf("cup %+v, %v; want the batch alone", next.Cup, err)
	}
}

// Bought glazes are blended again, in the shares between the cups: a triangle of
// {3,4} over cups 5 (50, 25, 25), 8 (25, 50, 25) and 9 (25, 25, 50), worked out by
// hand; a pair of cups leaves out the glaze that neither holds.
func TestRefine_boughtGlazes(t *testing.T) {
	p := &blend.Plan{Title: "Bought", Mark: "B", Cup: blend.Cup{Size: blend.Amount{Value: 100, Of: blend.Volume}},
		Kit:    measure.Kit{Pour: measure.Step{Size: 5, Unit: measure.Millilitre}, Worst: 0.05},
		Glazes: []blend.Glaze{{Name: "A"}, {Name: "B"}, {Name: "C"}},
		Blend:  blend.Blend{Kind: blend.Triaxial, Ends: []int{0, 1, 2}, Basis: blend.Volume, Divisions: 4},
		Tiles:  blend.Tiles{Bodies: []string{"Buff"}, Coats: 1, Repeats: 1}}
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	next, err := test.Refine([]int{4, 7, 8}, blend.Asked, blend.Biaxial, "QX")
	if err != nil {
		t.Fatal(err)
	}
	for k, want := range map[int][]float64{0: {50, 25, 25}, 3: {37.5, 37.5, 25}, 10: {25, 50, 25}, 14: {25, 25, 50}} {
		if got := next.Blend.Parts[k]; !slices.Equal(got, want) {
			t.Errorf("cup %d: %v, want %v", k+1, got, want)
		}
	}
	if len(next.Blend.Parts) != 15 || len(next.Glazes) != 3 {
		t.Errorf("%d cups of %d glazes", len(next.Blend.Parts), len(next.Glazes))
	}
	next, err = test.Refine([]int{0, 3}, blend.Asked, blend.Biaxial, "QX")
	if err != nil || !slices.Equal(next.Blend.Ends, []int{0, 1}) || !slices.Equal(next.Blend.Parts[3], []float64{75, 25}) {
		t.Errorf("between cups 1 and 4: %+v, %v", next.Blend, err)
	}
	if _, err = test.Refine([]int{0, 1, 3}, blend.Asked, blend.Biaxial, "QX"); err == nil || !strings.Contains(err.Error(), "on one line") {
		t.Errorf("cups of one side: %v", err)
	}
}

func TestRefine_refused(t *testing.T) {
	for _, c := range []struct {
		plan  string
		cells []int
		want  string
	}{
		{"triaxial", []int{3}, "name two, three or four"},
		{"triaxial-series", []int{3}, "name two, three or four"},
		{"line-series", []int{0, 1, 2, 3, 4}, "two, three or four cups"},
		{"line-series", nil, "two, three or four cups"},
	} {
		_, err := worked(t, c.plan).Refine(c.cells, blend.Asked, blend.Biaxial, "QX")
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s %v: %v; want %q", c.plan, c.cells, err, c.want)
		}
	}
}

// The title of a test that was refined twice is that of the first.
func TestRefine_title(t *testing.T) {
	test := worked(t, "line-series")
	next, err := test.Refine([]int{3}, blend.Asked, blend.Biaxial, "QX")
	if err != nil {
		t.Fatal(err)
	}
	second, err := blend.New(next)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		cells []int
		want  string
	}{{[]int{2}, ": about cup 3 of QX"}, {[]int{2, 4}, ": between cups 3 and 5 of QX"}} {
		last, err := second.Refine(c.cells, blend.Asked, blend.Biaxial, "QY")
		if err != nil || last.Title != test.Plan.Title+c.want {
			t.Errorf("%v: title %q, %v", c.cells, last.Title, err)
		}
	}
}

// A cup that was made the same is no neighbour: the steps go on to the next one
// that was made otherwise. On a scale of 0.5 g, 100 g of base get 0, 0, 0.5,
// 0.5, 1, 1, 2 and 3 g.
func TestRefine_alikeNeighbours(t *testing.T) {
	p := *worked(t, "line-series").Plan
	p.Blend.Series = []blend.Series{{Material: "Cobalt carbonate", Percents: []float64{0, 0.2, 0.4, 0.6, 1, 1.2, 2, 3}}}
	p.Kit.Scale, p.Kit.Fine = measure.Step{Size: 0.5, Unit: measure.Gram}, measure.Step{}
	test, err := blend.New(&p)
	if err != nil {
		t.Fatal(err)
	}
	for cell, want := range map[int][2]float64{4: {0.5, 2}, 5: {0.5, 2}} {
		next, err := test.Refine([]int{cell}, blend.Measured, blend.Biaxial, "QX")
		if err != nil {
			t.Fatal(err)
		}
		steps := next.Blend.Series[0].Percents
		first, last := steps[0], steps[len(steps)-1]
		if first < want[0] || first > want[0]+0.2 || last > want[1] || last < want[1]-0.3 {
			t.Errorf("about cup %d: %v, want from %g to %g", cell+1, steps, want[0], want[1])
		}
	}
}

// The dry matter of a cup of one glaze is as dense as its materials, whatever its
// batch was weighed to: 102 g of matte over the volumes of its parts, by hand.
func TestRefine_solids(t *testing.T) {
	next, err := worked(t, "triaxial-weight").Refine([]int{0, 1}, blend.Measured, blend.Biaxial, "QX")
	if err != nil {
		t.Fatal(err)
	}
	volume := 44/2.56 + 22/2.65 + 16/2.75 + 10/2.71 + 8/2.6 + 2/2.5
	if want := math.Round(102/volume*1000) / 1000; next.Glazes[0].Solids != want {
		t.Errorf("solids %v g/mL, want %v", next.Glazes[0].Solids, want)
	}
}
