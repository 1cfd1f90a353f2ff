package mixmodel

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/floats"
)

// By hand: along the edge from A to C the yarn's elongation is
// 11.7 a + 16.4 c + 11.4 a c; with c = 1 − a its derivative 11.4 − 4.7 − 22.8 a
// vanishes at a = 6.7/22.8, and B lowers it everywhere near. The grid has 60
// steps on an edge, and the top is flat: half a step beside it costs at most
// 11.4/120².
func TestHighest_yarn(t *testing.T) {
	best := fit(t, reference(t, "mixture_yarn.csv"), Quadratic).Highest()
	a := 6.7 / 22.8
	want := 11.7*a + 16.4*(1-a) + 11.4*a*(1-a)
	if !near(best.Point[0], a, 1./120) || !near(best.Point[1], 0, 1e-12) || !near(best.Mean, want, 11.4/120/120) || !best.Inside {
		t.Errorf("best %+v; by hand %.6f at A %.6f, C %.6f", best, want, a, 1-a)
	}
}

// The grid lies within the cups read, which are in it, and reaches the border.
func TestGrid(t *testing.T) {
	cut := slices.DeleteFunc(lattice(3, 6), func(p []float64) bool { return p[0] > 0.7 || p[1] > 0.6 })
	corner := slices.DeleteFunc(lattice(4, 4), func(p []float64) bool { return p[3] > 0.6 })
	for name, c := range map[string]struct {
		space  Space
		points [][]float64
		holds  func(p []float64) bool // exactly what the hull holds
		least  int
	}{
		"two ends":    {Shares, lattice(2, 6), func(p []float64) bool { return true }, 101},
		"triangle":    {Shares, lattice(3, 6), func(p []float64) bool { return true }, 1891},
		"zoomed in":   {Shares, zoomed(lattice(3, 5), []float64{0.2, 0.3, 0.1}), func(p []float64) bool { return p[0] > 0.2-1e-9 && p[1] > 0.3-1e-9 && p[2] > 0.1-1e-9 }, 1891},
		"cut":         {Shares, cut, func(p []float64) bool { return p[0] < 2./3+0.002 && p[1] < 0.502 }, 1000},
		"tetrahedron": {Shares, lattice(4, 4), func(p []float64) bool { return true }, 1771},
		"frustum":     {Shares, corner, func(p []float64) bool { return p[3] < 0.502 }, 1200},
		"one series":  {Percent, [][]float64{{0}, {0.5}, {1}, {4}}, func(p []float64) bool { return p[0] <= 4 }, 101},
		"two series":  {Percent, grid2(5, 5, 0.5, 3), func(p []float64) bool { return p[0] <= 2 && p[1] <= 12 }, 3721},
		"half plane":  {Percent, slices.DeleteFunc(grid2(5, 5, 1, 1), func(p []float64) bool { return p[0]+p[1] > 4 }), func(p []float64) bool { return p[0]+p[1] < 4.01 }, 1850},
	} {
		h := newHull(c.points)
		grid := h.grid(c.space)
		for _, p := range grid {
			if !c.holds(p) {
				t.Errorf("%s: %v lies outside", name, p)
				break
			}
		}
		if len(grid) < c.least {
			t.Errorf("%s: %d points, want %d", name, len(grid), c.least)
		}
		for _, p := range c.points {
			if !h.contains(p) {
				t.Errorf("%s: %v is not inside", name, p)
			}
		}
	}
	// Four points in space: the corners are out of it, the middle is in.
	h := newHull([][]float64{{0.5, 0.5, 0, 0}, {0.5, 0, 0.5, 0}, {0.5, 0, 0, 0.5}, {0, 0.5, 0.5, 0}})
	for p, want := range map[[4]float64]bool{
		{0.375, 0.25, 0.25, 0.125}: true, {1, 0, 0, 0}: false, {0, 0.5, 0, 0.5}: false, {0.5, 0.25, 0.25, 0}: true, {0.25, 0.25, 0.25, 0.25}: true, {0.2, 0.2, 0.2, 0.4}: false,
	} {
		if got := h.contains(p[:]); got != want {
			t.Errorf("%v inside: %v, want %v", p, got, want)
		}
	}
}

// No cup and no point of a finer grid is better by more than the model bends
// within a step.
func TestBest_finerGrid(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 5))
	for range 10 {
		y := make([]float64, 28)
		for i := range y {
			y[i] = 50 + 10*random.NormFloat64()
		}
		d := design(t, Shares, abc, lattice(3, 6), y)
		for _, kind := range Kinds(Shares, 3)[1:] {
			m := fit(t, d, kind)
			high, low := m.Highest(), m.Lowest()
			var bend float64
			for _, term := range m.Terms[min(3, len(m.Terms)):] {
				bend += math.Abs(term.Coef)
			}
			slack := 2*bend/60/60 + 1e-9
			for _, p := range lattice(3, 107) {
				mean := floats.Dot(m.coefs, row(m.terms, p))
				if mean > high.Mean+slack || mean < low.Mean-slack {
					t.Fatalf("%s: %v predicts %.9g; highest %+v, lowest %+v", kind, p, mean, high, low)
				}
			}
		}
	}
}

// A prediction beyond the cups read is marked.
func TestPredict_outside(t *testing.T) {
	m := fit(t, design(t, Percent, []string{"Cu"}, [][]float64{{1}, {2}, {3}, {4}}, []float64{1, 2.1, 2.9, 4}), Linear)
	for _, c := range []struct {
		at     float64
		inside bool
	}{{0.9, false}, {1, true}, {4, true}, {4.1, false}} {
		if p := m.Predict([]float64{c.at}); p.Inside != c.inside {
			t.Errorf("at %g: %+v", c.at, p)
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
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				fit(b, design(b, Shares, c.names, c.points, y), SpecialCubic).Highest()
			}
		})
	}
}
