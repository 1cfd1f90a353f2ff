package mixmodel

import (
	"math"
	"reflect"
	"slices"
	"testing"
)

func surface(t *testing.T, m *Model, n int) Surface {
	t.Helper()
	s, err := m.Surface(n)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestSurface_nodes(t *testing.T) {
	d := reference(t, "mixture_yarn.csv")
	m := fit(t, d, Quadratic)
	const n = 6
	s := surface(t, m, n)
	i := 0
	for r := 0; r <= n; r++ { // the order of a triaxial design: (m−r, r−j, j)/m
		for j := 0; j <= r; j++ {
			want := []float64{float64(n-r) / n, float64(r-j) / n, float64(j) / n}
			p, err := m.Predict(want)
			if got := s.Nodes[i]; err != nil || !same(got.Shares, want) || !near(got.Mean, p.Mean, 1e-12) || !near(got.SE, p.SE, 1e-12) || !got.Inside {
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
	s := surface(t, fit(t, d, Linear), 4)
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
	contours := surface(t, m, 25).MeanContours([]float64{5.03, 12})
	if len(contours) != 2 || contours[0].Level != 5.03 || len(contours[0].Lines) != 1 || len(contours[1].Lines) != 0 {
		t.Fatalf("contours %+v, want one line at 5.03 and none at 12", contours)
	}
	line := contours[0].Lines[0]
	for _, p := range line {
		if !near(p[0], 0.503, 1e-9) {
			t.Errorf("%v on the contour of A = 0.503", p)
		}
	}
	ends := [][]float64{line[0], line[len(line)-1]}
	slices.SortFunc(ends, func(a, b []float64) int { return int(math.Copysign(1, a[1]-b[1])) })
	if !near(ends[0][1], 0, 1e-9) || !near(ends[1][2], 0, 1e-9) {
		t.Errorf("the line ends at %v, want the edges of the triangle", ends)
	}
}

// Around a hill the contour closes. Each point of a contour has the level as
// closely as straight lines between nodes allow: along an edge of length h the
// model differs from them by at most h²/8 times its second derivative there,
// which for x₁x₂ and x₁x₂x₃ is at most 2 of the coefficient.
func TestContours_closed(t *testing.T) {
	d := reference(t, "mixture_etch.csv")
	m := fit(t, d, SpecialCubic)
	const n = 60
	s := surface(t, m, n)
	off := 2 * (689.5 + 58.1 + 9243.3) / 8 / (n * n)
	line := s.MeanContours([]float64{790})[0].Lines
	if len(line) != 1 || !reflect.DeepEqual(line[0][0], line[0][len(line[0])-1]) {
		t.Fatalf("the contour of the hill at 790 has %d lines, want one that closes", len(line))
	}
	for _, c := range slices.Concat(s.MeanContours([]float64{300, 400, 500, 600, 700, 800}), s.SEContours([]float64{12, 14, 16, 18})) {
		for _, line := range c.Lines {
			for _, p := range line {
				v, err := m.Predict(p)
				if err != nil || !v.Inside {
					t.Fatalf("%v on a contour: %+v, %v", p, v, err)
				}
				if c.Level >= 300 && !near(v.Mean, c.Level, off) || c.Level < 300 && !near(v.SE, c.Level, 0.2) {
					t.Errorf("%v on the contour of %g: %+v", p, c.Level, v)
				}
			}
		}
	}
}

// As many crossings are drawn as the lattice has: no piece of a contour is
// lost in joining, and the lines are the same every time.
func TestContours_complete(t *testing.T) {
	d := reference(t, "mixture_etch.csv")
	s := surface(t, fit(t, d, SpecialCubic), 30)
	for level := 250.0; level < 850; level += 13 {
		segments := 0
		for _, tri := range s.triangles() {
			above := 0
			for _, node := range tri {
				if s.Nodes[node].Mean >= level {
					above++
				}
			}
			if above == 1 || above == 2 {
				segments++
			}
		}
		drawn := 0
		contour := s.MeanContours([]float64{level})
		for _, line := range contour[0].Lines {
			drawn += len(line) - 1
		}
		if drawn != segments {
			t.Errorf("level %g: %d segments drawn, %d crossed", level, drawn, segments)
		}
		if again := s.MeanContours([]float64{level}); !reflect.DeepEqual(again, contour) {
			t.Errorf("level %g drawn twice differs", level)
		}
	}
	if triangles := len(s.triangles()); triangles != 900 {
		t.Errorf("%d triangles in a lattice of 30, want 30²", triangles)
	}
}

// Contours end where the cells read end.
func TestContours_clipped(t *testing.T) {
	points := slices.DeleteFunc(lattice(3, 5), func(p []float64) bool { return p[0] > 0.5 || p[1] > 0.7 })
	y := make([]float64, len(points))
	for i, p := range points {
		y[i] = p[1] - p[2]
	}
	m := fit(t, design(t, Shares, abc, points, y), Linear)
	s := surface(t, m, 12)
	lines := s.MeanContours([]float64{0.01})[0].Lines
	if len(lines) != 1 {
		t.Fatalf("%d lines, want 1", len(lines))
	}
	most := 0.0
	for _, p := range lines[0] {
		if v, err := m.Predict(p); err != nil || !v.Inside {
			t.Errorf("%v lies outside: %v", p, err)
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
	lines := surface(t, m, 80).MeanContours([]float64{level})[0].Lines
	if len(lines) == 0 {
		t.Fatal("no contour")
	}
	reach := 0.0
	for _, line := range lines {
		for i := 1; i < len(line); i++ {
			middle := blend([][]float64{line[i-1], line[i]}, []float64{0.5, 0.5})
			if v, err := m.Predict(middle); err != nil || !v.Inside || !near(v.Mean, level, 1e-3) {
				t.Errorf("half way of a segment, %v: %+v, %v", middle, v, err)
			}
			reach = max(reach, line[i][0])
		}
	}
	if reach > 0.5+1e-9 || reach < 0.5-1./80 {
		t.Errorf("the contour reaches A = %g, want the border at 0.5, or up to a step of the lattice less", reach)
	}
}

func TestSurface_refused(t *testing.T) {
	two := fit(t, design(t, Shares, abc[:2], lattice(2, 4), []float64{1, 2, 3, 4, 6}), Linear)
	if _, err := two.Surface(10); err == nil || err.Error() != "only a blend of 3 ends has a triangle to draw" {
		t.Error(err)
	}
	d := reference(t, "mixture_yarn.csv")
	if _, err := fit(t, d, Linear).Surface(0); err == nil || err.Error() != "a triangle needs 1 division or more" {
		t.Error(err)
	}
	one := fit(t, design(t, Shares, abc, [][]float64{{0.2, 0.3, 0.5}, {0.2, 0.3, 0.5}}, []float64{1, 2}), Mean)
	if _, err := one.Surface(10); err == nil || err.Error() != "all cups are of one mixture: there is no triangle to draw" {
		t.Error(err)
	}
	// Cells on a line of the triangle: a surface, nothing of it tested, no contour.
	line := [][]float64{{1, 0, 0}, {0.8, 0.1, 0.1}, {0.6, 0.2, 0.2}, {0.4, 0.3, 0.3}}
	m := fit(t, design(t, Shares, abc, line, []float64{1, 2, 3, 5}), Mean)
	if lines := surface(t, m, 7).SEContours([]float64{0.5})[0].Lines; len(lines) != 0 {
		t.Errorf("%d lines", len(lines))
	}
}
