package mixmodel

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// firing simulates a triaxial of 15 cups, three tiles each, with a linear truth;
// so many of its cups are made twice.
func firing(random *rand.Rand, twice int, cups, tiles float64) []Tile {
	points := lattice(3, 4)
	points = append(points, points[:twice]...)
	var all []Tile
	for i, p := range points {
		cup := cups * random.NormFloat64()
		for range 3 {
			all = append(all, Tile{Cup: i + 1, Point: p, Value: truth(p) + cup + tiles*random.NormFloat64()})
		}
	}
	return all
}

func truth(p []float64) float64 { return 40*p[0] + 20*p[1] + 30*p[2] }

// With cups that scatter as well as tiles, a model that is right is called wrong
// in about 5 of 100, never without repeated cups, and 95 % limits hold the truth,
// and the next cup, in about 95 of 100.
func TestSimulation(t *testing.T) {
	const runs = 400
	for _, c := range []struct{ cups, tiles float64 }{{3, 1}, {3, 3}, {0, 3}} {
		t.Run(fmt.Sprintf("%g/%g", c.cups, c.tiles), func(t *testing.T) {
			t.Parallel()
			random := rand.New(rand.NewPCG(14, uint64(10*c.cups+c.tiles)))
			var alarms, unasked, held, heldChosen, heldNew, tried int
			var cupVariance, tileVariance float64
			for range runs {
				tiles := firing(random, 6, c.cups, c.tiles)
				d, err := NewDesign(Shares, abc, nil, tiles)
				if err != nil {
					t.Fatal(err)
				}
				m := fit(t, d, Linear)
				if m.Lack.Gap != NoGap {
					t.Fatalf("no lack of fit: %+v", m.Lack)
				}
				if m.Lack.P < 0.05 {
					alarms++
				}
				cupVariance += scatterOf(d, tiles).CupMeans * scatterOf(d, tiles).CupMeans / runs
				tileVariance += scatterOf(d, tiles).Tiles * scatterOf(d, tiles).Tiles / runs
				p := []float64{0.2, 0.3, 0.5}
				predicted := m.Predict(p)
				next := truth(p) + c.cups*random.NormFloat64() + c.tiles/math.Sqrt(3)*random.NormFloat64()
				tried++
				if math.Abs(predicted.Mean-truth(p)) <= predicted.Limit {
					held++
				}
				if math.Abs(predicted.Mean-next) <= predicted.NewLimit {
					heldNew++
				}
				if chosen := d.Choose().Chosen.Predict(p); math.Abs(chosen.Mean-truth(p)) <= chosen.Limit {
					heldChosen++
				}
				bare, err := NewDesign(Shares, abc, nil, firing(random, 0, c.cups, c.tiles))
				if err != nil {
					t.Fatal(err)
				}
				if lack := fit(t, bare, Linear).Lack; lack.Gap != NoRepeats || lack.F != 0 {
					unasked++
				}
			}
			percent := func(n int) float64 { return 100 * float64(n) / float64(tried) }
			if got := percent(alarms); got < 1 || got > 9 {
				t.Errorf("a right model is called wrong in %.1f of 100, nominally 5", got)
			}
			if unasked > 0 {
				t.Errorf("%d verdicts without repeated cups", unasked)
			}
			for name, n := range map[string]int{"the mean": held, "the mean, by the chosen model": heldChosen, "the next cup": heldNew} {
				if got := percent(n); got < 90 || got > 98 {
					t.Errorf("95 %% limits of %s hold in %.1f of 100", name, got)
				}
			}
			if want := c.tiles * c.tiles; !near(tileVariance, want, 0.05*want) {
				t.Errorf("tiles scatter with a variance of %.3f, made with %.3f", tileVariance, want)
			}
			if want := c.cups*c.cups + c.tiles*c.tiles/3; !near(cupVariance, want, 0.1*want) {
				t.Errorf("means of repeated cups scatter with a variance of %.3f, made with %.3f", cupVariance, want)
			}
		})
	}
}

// Two bodies an offset of 20 apart, on which not every cup has a tile of each:
// the offset is no scatter, and the limits still hold.
func TestSimulation_bodies(t *testing.T) {
	random := rand.New(rand.NewPCG(14, 20))
	bodies := []Factor{{"Body", []string{"Buff", "Red"}}}
	const runs = 300
	var held, heldOffset int
	for range runs {
		var tiles []Tile
		for _, tile := range firing(random, 6, 3, 1) {
			k := len(tiles) % 3
			tile.Levels = []int{0}
			if k == 1 || k == 2 && tile.Cup%4 == 0 {
				tile.Levels[0] = 1
				tile.Value += 20
			}
			tiles = append(tiles, tile)
		}
		d, err := NewDesign(Shares, abc, bodies, tiles)
		if err != nil {
			t.Fatal(err)
		}
		m := fit(t, d, Linear)
		if m.S > 8 || scatterOf(d, tiles).Tiles > 2 {
			t.Fatalf("the offset of bodies was taken for scatter: %.2f, %.2f", m.S, scatterOf(d, tiles).Tiles)
		}
		p := []float64{0.2, 0.3, 0.5}
		predicted := m.Predict(p)
		if math.Abs(predicted.Mean-truth(p)-10) <= predicted.Limit { // half way between the bodies
			held++
		}
		if o := m.Offsets[0]; math.Abs(o.Value-20) <= o.Limit() {
			heldOffset++
		}
	}
	for name, n := range map[string]int{"the mean": held, "the offset": heldOffset} {
		if got := 100 * float64(n) / runs; got < 91 || got > 98 {
			t.Errorf("95 %% limits of %s hold in %.1f of 100", name, got)
		}
	}
}

// Cups with other numbers of tiles count once each, offsets or not.
func TestCups_countOnce(t *testing.T) {
	points := lattice(2, 3)
	y := []float64{1, 4, 4, 9}
	var tiles []Tile
	for i, p := range points {
		for k := range 1 + 3*i%4 {
			tiles = append(tiles, Tile{Cup: i, Point: p, Value: y[i] + float64(k) - float64(3*i%4)/2})
		}
	}
	many, once := fit(t, build(t, Shares, abc[:2], nil, tiles), Linear), fit(t, design(t, Shares, abc[:2], points, y), Linear)
	for i := range once.Terms {
		if !near(many.Terms[i].Coef, once.Terms[i].Coef, 1e-12) || !near(many.Terms[i].SE, once.Terms[i].SE, 1e-12) {
			t.Errorf("%+v with more tiles, %+v with one", many.Terms[i], once.Terms[i])
		}
	}
	if many.N != 4 || many.DF != 2 {
		t.Errorf("%d cups, %d degrees of freedom, want 4 and 2", many.N, many.DF)
	}
}

// A factor that tells nothing of its own is named and left out, or refuses the
// models in which it goes with the mixtures.
func TestFactors_told(t *testing.T) {
	points := lattice(2, 5)
	build := func(factors []Factor, levels func(cup, tile int) []int) *Design {
		var tiles []Tile
		for cup, p := range points {
			for k := range 2 {
				tiles = append(tiles, Tile{Cup: cup + 1, Point: p, Levels: levels(cup, k), Value: 10*p[0] + float64((cup*7+k*3)%5)})
			}
		}
		return build(t, Shares, abc[:2], factors, tiles)
	}
	body, shelf := Factor{"Body", []string{"Buff", "Red"}}, Factor{"Shelf", []string{"top", "middle", "low"}}
	d := build([]Factor{body, shelf}, func(cup, k int) []int { return []int{k, 1} })
	if len(d.Alone) != 1 || d.Alone[0] != "Shelf" || len(d.Offsets) != 1 || len(d.Confused) != 0 {
		t.Errorf("alone %v, offsets %v, confused %v", d.Alone, d.Offsets, d.Confused)
	}
	d = build([]Factor{body, shelf}, func(cup, k int) []int { return []int{k, 2 * k} })
	if len(d.Confused) != 1 || d.Confused[0] != "Shelf low" || len(d.Offsets) != 1 {
		t.Errorf("confused %v, offsets %v", d.Confused, d.Offsets)
	}
	d = build([]Factor{shelf}, func(cup, k int) []int { return []int{cup / 3} })
	choice := d.Choose()
	if choice.Chosen == nil || choice.Candidates[0].Model == nil || len(choice.Candidates[0].Model.Offsets) != 1 {
		t.Fatalf("%+v", choice)
	}
	points = [][]float64{{1, 0}, {1, 0}, {0, 1}, {0, 1}}
	d = build([]Factor{shelf}, func(cup, k int) []int { return []int{cup / 2} })
	if _, err := d.Fit(Linear); err == nil || err.Error() != "the linear model cannot be fitted: Shelf goes with the mixtures, so their effects are mixed up" {
		t.Error(err)
	}
	if d.Choose().Chosen == nil {
		t.Error("no model at all, though shelves alone can be had")
	}
}

// Cups that are kept out change nothing and are held against the model.
func TestChecks(t *testing.T) {
	points := lattice(2, 6)
	var tiles, more []Tile
	for i, p := range points {
		tiles = append(tiles, Tile{Cup: i + 1, Point: p, Levels: []int{i % 2}, Value: 50 + 10*p[0] + float64(i%3) + 5*float64(i%2)})
	}
	firings := []Factor{{"Firing", []string{"A", "B"}}}
	more = append(more, tiles...)
	more = append(more,
		Tile{Cup: 20, Point: []float64{0.4, 0.6}, Levels: []int{1}, Value: 61, Check: true},
		Tile{Cup: 20, Point: []float64{0.4, 0.6}, Levels: []int{1}, Value: 63, Check: true},
		Tile{Cup: 21, Point: []float64{0.4, 0.6}, Levels: []int{0}, Value: 90, Check: true})
	a, b := fit(t, build(t, Shares, abc[:2], firings, tiles), Linear), fit(t, build(t, Shares, abc[:2], firings, more), Linear)
	if a.S != b.S || a.Terms[0] != b.Terms[0] || a.N != b.N {
		t.Errorf("check cups changed the fit: %+v, %+v", a, b)
	}
	checks := b.Checks()
	if len(checks) != 2 || checks[0].Number != 20 || checks[0].Cup.Mean != 62 || checks[0].Tiles != 2 {
		t.Fatalf("checks %+v", checks)
	}
	middle := b.Predict([]float64{0.4, 0.6})
	if want := middle.Mean + b.Offsets[0].Value/2; !near(checks[0].Prediction.Mean, want, 1e-9) {
		t.Errorf("predicted %g in firing B, want %g", checks[0].Prediction.Mean, want)
	}
	if checks[0].Missed() || !checks[1].Missed() {
		t.Errorf("62 missed: %v, 90 missed: %v (± %.2f)", checks[0].Missed(), checks[1].Missed(), checks[0].NewLimit)
	}
}
