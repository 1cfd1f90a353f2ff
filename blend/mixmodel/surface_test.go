package mixmodel

import (
	"cmp"
	"slices"
	"testing"
)

func meanOf(p Prediction) float64 { return p.Mean }

// endsOf are the ends of the pieces of a contour.
func endsOf(pieces [][2][]float64) (all [][]float64) {
	for _, p := range pieces {
		all = append(all, p[0], p[1])
	}
	return all
}

func errorOf(p Prediction) float64 { return p.SE }

func TestSurface_nodes(t *testing.T) {
	d := reference(t, "mixture_yarn.csv")
	m := fit(t, d, Quadratic)
	const n = 6
	s := m.Surface(n)
	i := 0
	for r := 0; r <= n; r++ { // the order of a triaxial design: (m−r, r−j, j)/m
		for j := 0; j <= r; j++ {
			want := []float64{float64(n-r) / n, float64(r-j) / n, float64(j) / n}
			p := m.Predict(want)
			if got := s.Nodes[i]; !same(got.Shares, want) || !near(got.Mean, p.Mean, 1e-12) || !near(got.SE, p.SE, 1e-12) || !got.Inside {
				t.Errorf("node %d is %+v, want %v %+v", i, got, want, p)
			}
			i++
		}
	}
	if len(s.Nodes) != i || s.Divisions != n {
		t.Errorf("%d nodes, want %d", len(s.Nodes), i)
	}
}

// Zoomed in, the triangle drawn is the sub-simplex that was read.
func TestSurface_zoomed(t *testing.T) {
	least := []float64{0.3, 0.2, 0.1}
	points := zoomed(lattice(3, 3), least)
	y := make([]float64, len(points))
	for i, p := range points {
		y[i] = p[0]*p[1] + 0.01*float64(i%3)
	}
	d := design(t, Shares, abc, points, y)
	s := fit(t, d, Linear).Surface(4)
	for i, want := range [][]float64{{0.7, 0.2, 0.1}, {0.3, 0.6, 0.1}, {0.3, 0.2, 0.5}} {
		if !same(s.Corners[i], want) {
			t.Errorf("corner %d is %v, want %v", i, s.Corners[i], want)
		}
	}
	for _, node := range s.Nodes {
		if !node.Inside {
			t.Errorf("%v lies outside", node.Shares)
		}
	}
}

// A reading that is the share of A has straight contours of equal A.
func TestContours_straight(t *testing.T) {
	points := lattice(3, 4)
	y := make([]float64, len(points))
	for i, p := range points {
		y[i] = 10 * p[0]
	}
	m := fit(t, design(t, Shares, abc, points, y), Linear)
	s := m.Surface(25)
	lines := s.Contour(5.03, meanOf)
	if len(lines) == 0 || len(s.Contour(12, meanOf)) != 0 {
		t.Fatalf("contours %+v, want a line at 5.03 and none at 12", lines)
	}
	var line [][]float64
	for _, piece := range lines {
		line = append(line, piece[:]...)
	}
	slices.SortFunc(line, func(a, b []float64) int { return cmp.Compare(a[1], b[1]) })
	for _, p := range line {
		if !near(p[0], 0.503, 1e-9) {
			t.Errorf("%v on the contour of A = 0.503", p)
		}
	}
	ends := [][]float64{line[0], line[len(line)-1]}
	if !near(ends[0][1], 0, 1e-9) || !near(ends[1][2], 0, 1e-9) {
		t.Errorf("the line ends at %v, want the edges of the triangle", ends)
	}
}

// Each point of a contour has the level as
// closely as straight lines between nodes allow: along an edge of length h the
// model differs from them by at most h²/8 times its second derivative there,
// which for x₁x₂ and x₁x₂x₃ is at most 2 of the coefficient.
func TestContours_closed(t *testing.T) {
	d := reference(t, "mixture_etch.csv")
	m := fit(t, d, SpecialCubic)
	const n = 60
	s := m.Surface(n)
	off := 2 * (689.5 + 58.1 + 9243.3) / 8 / (n * n)
	check := func(levels []float64, value func(Prediction) float64, off float64) {
		for _, level := range levels {
			for _, p := range endsOf(s.Contour(level, value)) {
				if v := m.Predict(p); !v.Inside || !near(value(v), level, off) {
					t.Errorf("%v on the contour of %g: %+v", p, level, v)
				}
			}
		}
	}
	check([]float64{300, 400, 500, 600, 700, 800}, meanOf, off)
	check([]float64{12, 14, 16, 18}, errorOf, 0.2)
}

// Contours end where the cells read end.
func TestContours_clipped(t *testing.T) {
	points := slices.DeleteFunc(lattice(3, 5), func(p []float64) bool { return p[0] > 0.5 || p[1] > 0.7 })
	y := make([]float64, len(points))
	for i, p := range points {
		y[i] = p[1] - p[2]
	}
	m := fit(t, design(t, Shares, abc, points, y), Linear)
	s := m.Surface(12)
	line := endsOf(s.Contour(0.01, meanOf))
	most := 0.0
	for _, p := range line {
		if v := m.Predict(p); !v.Inside {
			t.Errorf("%v lies outside", p)
		}
		most = max(most, p[0])
	}
	if most > 0.4 || most < 0.4-1./12 {
		t.Errorf("the line reaches A = %g, want 0.4, the most that was read, or up to a step of the lattice less", most)
	}
	if outside := slices.ContainsFunc(s.Nodes, func(n Node) bool { return !n.Inside }); !outside {
		t.Error("no node is marked as outside")
	}
}

// A round contour that leaves the cells read and comes back is not closed by
// a chord along their border: half way of each segment has the level as well.
func TestContours_reentering(t *testing.T) {
	points := slices.DeleteFunc(lattice(3, 6), func(p []float64) bool { return p[0] > 0.51 })
	y := make([]float64, len(points))
	for i, p := range points {
		y[i] = -(p[0]-0.45)*(p[0]-0.45) - (p[1]-0.3)*(p[1]-0.3)
	}
	m := fit(t, design(t, Shares, abc, points, y), Quadratic)
	const level = -0.15 * 0.15
	lines := m.Surface(80).Contour(level, meanOf)
	if len(lines) == 0 {
		t.Fatal("no contour")
	}
	reach := 0.0
	for _, piece := range lines {
		middle := middleOf(piece[0], piece[1])
		if v := m.Predict(middle); !v.Inside || !near(v.Mean, level, 1e-3) {
			t.Errorf("half way of a piece, %v: %+v", middle, v)
		}
		reach = max(reach, piece[0][0], piece[1][0])
	}
	if reach > 0.5+1e-9 || reach < 0.5-1./80 {
		t.Errorf("the contour reaches A = %g, want the border at 0.5, or up to a step of the lattice less", reach)
	}
}

// A design that fills no triangle has a surface without contours.
func TestSurface_flat(t *testing.T) {
	// Cells on a line of the triangle: a surface, nothing of it tested, no contour.
	line := [][]float64{{1, 0, 0}, {0.8, 0.1, 0.1}, {0.6, 0.2, 0.2}, {0.4, 0.3, 0.3}}
	m := fit(t, design(t, Shares, abc, line, []float64{1, 2, 3, 5}), Mean)
	if lines := m.Surface(7).Contour(0.5, errorOf); len(lines) != 0 {
		t.Errorf("%d lines", len(lines))
	}
}
