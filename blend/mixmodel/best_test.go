package mixmodel

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// cases of regions of every shape, with points to try that lie closer than
// the search's grid and not on it.
func searchCases(t *testing.T) map[string]struct {
	design *Design
	fine   [][]float64
} {
	type c = struct {
		design *Design
		fine   [][]float64
	}
	cut := slices.DeleteFunc(lattice(3, 6), func(p []float64) bool { return p[0] > 0.7 || p[1] > 0.6 })
	corner := slices.DeleteFunc(lattice(4, 4), func(p []float64) bool { return p[3] > 0.6 || p[0] > 0.8 })
	var cube [][]float64
	for i := range 25 * 25 * 25 {
		cube = append(cube, []float64{float64(i%25) / 8, float64(i/25%25) / 4, float64(i/625) / 80})
	}
	var line [][]float64
	for i := range 2001 {
		line = append(line, []float64{float64(i) / 500})
	}
	return map[string]c{
		"two ends":            {design(t, Shares, abc[:2], lattice(2, 6)), lattice(2, 1499)},
		"triangle":            {design(t, Shares, abc, lattice(3, 6)), lattice(3, 107)},
		"triangle zoomed in":  {design(t, Shares, abc, zoomed(lattice(3, 5), []float64{0.2, 0.3, 0.1})), zoomed(lattice(3, 101), []float64{0.2, 0.3, 0.1})},
		"triangle cut":        {design(t, Shares, abc, cut), lattice(3, 107)},
		"tetrahedron":         {design(t, Shares, []string{"A", "B", "C", "D"}, lattice(4, 4)), lattice(4, 29)},
		"tetrahedron cut":     {design(t, Shares, []string{"A", "B", "C", "D"}, corner), lattice(4, 29)},
		"one series":          {design(t, Percent, abc[:1], [][]float64{{0}, {0.5}, {1}, {2}, {3}, {4}}), line},
		"two series":          {design(t, Percent, abc[:2], grid2(5, 5, 0.5, 3)), grid2(101, 121, 0.02, 0.1)},
		"three series (cube)": {design(t, Percent, abc, lattice3(4)), cube},
	}
}

// No point of a fine grid in the region predicts more or less than the one
// found.
func TestBest_fineGrid(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 5))
	for name, c := range searchCases(t) {
		d := c.design
		inside := slices.DeleteFunc(c.fine, func(p []float64) bool { return !d.region.contains(p) })
		if len(inside) < 400 {
			t.Fatalf("%s: only %d points to try", name, len(inside))
		}
		for range 4 {
			y := make([]float64, len(d.Points))
			for i := range y {
				y[i] = 50 + 10*random.NormFloat64()
			}
			for _, kind := range Kinds(d.Space)[1:] {
				m, err := d.Fit(kind, y)
				if err != nil {
					continue
				}
				high, errHigh := m.Highest()
				low, errLow := m.Lowest()
				if errHigh != nil || errLow != nil {
					t.Fatal(errHigh, errLow)
				}
				slack := 1e-9 * (math.Abs(high.Mean) + math.Abs(low.Mean))
				for _, p := range inside {
					v := m.mean(p)
					if v > high.Mean+slack || v < low.Mean-slack {
						t.Errorf("%s, %s: %v predicts %.9g; highest %+v, lowest %+v", name, kind, p, v, high, low)
						break
					}
				}
				for _, best := range []Best{high, low} {
					p, err := m.Predict(best.Point)
					if err != nil || !best.Inside || !near(p.Mean, best.Mean, slack) || best.SE != p.SE && !near(best.SE, p.SE, slack) {
						t.Errorf("%s, %s: best %+v is predicted %+v, %v", name, kind, best, p, err)
					}
					if best.PlusMinus() != 2*best.SE {
						t.Errorf("± %g for a standard error %g", best.PlusMinus(), best.SE)
					}
				}
				if again, _ := m.Highest(); !slices.Equal(again.Point, high.Point) {
					t.Errorf("%s, %s: found %v, then %v", name, kind, high.Point, again.Point)
				}
			}
		}
	}
}

// By hand: along the edge from A to C the yarn's elongation is
// 11.7 a + 16.4 c + 11.4 a c; with c = 1 − a its derivative 11.4 − 4.7 − 22.8 a
// vanishes at a = 6.7/22.8, and B lowers it everywhere near.
func TestHighest_yarn(t *testing.T) {
	d, y := reference(t, "mixture_yarn.csv")
	best, err := fit(t, d, Quadratic, y).Highest()
	a := 6.7 / 22.8
	want := 11.7*a + 16.4*(1-a) + 11.4*a*(1-a)
	if err != nil || !near(best.Point[0], a, 1e-5) || best.Point[1] != 0 || !near(best.Mean, want, 1e-9) || !best.Inside {
		t.Errorf("best %+v, %v; by hand %.6f at A %.6f, C %.6f", best, err, want, a, 1-a)
	}
}

func TestBest_refused(t *testing.T) {
	d, y := reference(t, "mixture_yarn.csv")
	mean, quadratic := fit(t, d, Mean, y), fit(t, d, Quadratic, y)
	const same = "the mean predicts the same for every mixture, so none is best"
	if _, err := mean.Highest(); err == nil || err.Error() != same {
		t.Error(err)
	}
	if _, err := mean.Lowest(); err == nil || err.Error() != same {
		t.Error(err)
	}
	if _, err := quadratic.Predict([]float64{0.5, 0.6, 0}); err == nil || err.Error() != "the shares add up to 1.1 and must add up to 1" {
		t.Error(err)
	}
}

// A prediction beyond the cells read is marked.
func TestPredict_outside(t *testing.T) {
	d := design(t, Percent, []string{"Cu"}, [][]float64{{1}, {2}, {3}, {4}})
	m := fit(t, d, Linear, []float64{1, 2.1, 2.9, 4})
	for _, c := range []struct {
		at     float64
		inside bool
	}{{0.9, false}, {1, true}, {4, true}, {4.1, false}} {
		if p, err := m.Predict([]float64{c.at}); err != nil || p.Inside != c.inside {
			t.Errorf("at %g: %+v, %v", c.at, p, err)
		}
	}
}

func BenchmarkHighest(b *testing.B) {
	random := rand.New(rand.NewPCG(7, 6))
	for _, c := range []struct {
		name   string
		names  []string
		points [][]float64
	}{{"triangle", abc, lattice(3, 10)}, {"tetrahedron", []string{"A", "B", "C", "D"}, lattice(4, 5)}} {
		y := make([]float64, len(c.points))
		for i := range y {
			y[i] = 50 + 10*random.NormFloat64()
		}
		m := fit(b, design(b, Shares, c.names, c.points), SpecialCubic, y)
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := m.Highest(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
