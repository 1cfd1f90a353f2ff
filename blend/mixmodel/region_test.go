package mixmodel

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// volume of a simplex in units of the unit simplex's: |det| of its edges along
// the region's axes.
func volume(g region, piece [][]float64) float64 {
	dims := len(g.axes)
	first, _ := g.inward(piece[0])
	m := make([][]float64, dims)
	for k := range m {
		z, _ := g.inward(piece[k+1])
		m[k] = minus(z, first)
	}
	switch dims {
	case 1:
		return math.Abs(m[0][0])
	case 2:
		return math.Abs(m[0][0]*m[1][1] - m[0][1]*m[1][0])
	default:
		return math.Abs(m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) - m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) + m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0]))
	}
}

func TestRegion(t *testing.T) {
	cube := [][]float64{}
	for i := range 27 {
		cube = append(cube, []float64{float64(i % 3), float64(i / 3 % 3), float64(i / 9)})
	}
	for _, c := range []struct {
		name                string
		points              [][]float64
		dims, faces, pieces int
		in, out             []float64
	}{
		{"one cell", [][]float64{{0.5, 0.5}}, 0, 0, 1, []float64{0.5, 0.5}, []float64{0.6, 0.4}},
		{"line", [][]float64{{1, 0}, {0.5, 0.5}, {0, 1}}, 1, 2, 1, []float64{0.3, 0.7}, []float64{1.1, -0.1}},
		{"line inside the triangle", [][]float64{{1, 0, 0}, {0.5, 0.25, 0.25}, {0, 0.5, 0.5}}, 1, 2, 1, []float64{0.2, 0.4, 0.4}, []float64{0.2, 0.5, 0.3}},
		{"triangle", lattice(3, 6), 2, 3, 1, []float64{0.5, 0.5, 0}, []float64{-0.1, 0.6, 0.5}},
		{"triangle less a corner", [][]float64{{0.5, 0.5, 0}, {0.5, 0, 0.5}, {0, 1, 0}, {0, 0, 1}, {0.2, 0.4, 0.4}}, 2, 4, 2, []float64{0.4, 0.3, 0.3}, []float64{0.6, 0.2, 0.2}},
		{"tetrahedron", lattice(4, 5), 3, 4, 1, []float64{0.1, 0.2, 0.3, 0.4}, []float64{-0.1, 0.4, 0.3, 0.4}},
		{"rectangle in percent", [][]float64{{0, 0}, {4, 0}, {0, 10}, {4, 10}, {2, 5}}, 2, 4, 2, []float64{4, 10}, []float64{4.1, 5}},
		{"cube in percent", cube, 3, 6, 6, []float64{1.9, 0.1, 2}, []float64{1, 2.1, 1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := newRegion(c.points)
			if len(g.axes) != c.dims || len(g.faces) != c.faces || len(g.pieces) != c.pieces {
				t.Errorf("%d dimensions, %d faces, %d pieces; want %d, %d, %d", len(g.axes), len(g.faces), len(g.pieces), c.dims, c.faces, c.pieces)
			}
			if !g.contains(c.in) || g.contains(c.out) {
				t.Errorf("contains %v: %v, %v: %v; want true, false", c.in, g.contains(c.in), c.out, g.contains(c.out))
			}
		})
	}
}

// Whatever the points, each lies inside, the pieces do, and together they are
// as large as the hull: as many random points fall in them as in the hull.
func TestRegion_random(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 1))
	for trial := range 300 {
		dims := 1 + trial%3
		var points [][]float64
		for range dims + 1 + random.IntN(12) {
			p := make([]float64, dims)
			for k := range p {
				p[k] = random.Float64() * []float64{1, 10, 0.1}[k]
				if trial%2 == 0 { // on a coarse grid: many on one line or face
					p[k] = math.Floor(random.Float64()*4) * []float64{1, 5, 0.1}[k]
				}
			}
			if !slices.ContainsFunc(points, func(q []float64) bool { return same(p, q) }) {
				points = append(points, p)
			}
		}
		g := newRegion(points)
		if len(g.pieces) == 0 {
			t.Fatalf("trial %d: no pieces for %v", trial, points)
		}
		for _, p := range points {
			if !g.contains(p) {
				t.Fatalf("trial %d: %v of %v lies outside", trial, p, points)
			}
		}
		if len(g.axes) < dims {
			continue
		}
		var sum float64
		for _, piece := range g.pieces {
			sum += volume(g, piece)
		}
		// The hull's own size by counting, with the factor of a unit simplex.
		const tries = 4000
		hits := 0
		for range tries {
			p := make([]float64, dims)
			for k := range p {
				p[k] = g.origin[k]
				low, high := points[0][k], points[0][k]
				for _, q := range points {
					low, high = min(low, q[k]), max(high, q[k])
				}
				p[k] = low + random.Float64()*(high-low)
			}
			if g.contains(p) {
				hits++
			}
		}
		counted := float64(hits) / tries * []float64{1, 1, 2, 6}[dims] // scaled coordinates: the box is 1 across
		if math.Abs(sum-counted) > 0.05*[]float64{1, 1, 2, 6}[dims] {
			t.Errorf("trial %d: pieces hold %.3f, the hull %.3f: %v", trial, sum, counted, points)
		}
	}
}
