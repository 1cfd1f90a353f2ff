package design

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"
)

// Points and counts of NIST/SEMATECH e-Handbook 5.5.4.2 and 5.5.4.3.
func TestHandbookPoints(t *testing.T) {
	rows := readCSV(t, "simplex_design_points.csv")
	want := map[string]map[string]bool{}
	for _, r := range rows {
		denominator, _ := strconv.Atoi(r[4])
		var shares []string
		for _, n := range strings.Fields(r[3]) {
			numerator, _ := strconv.Atoi(n)
			shares = append(shares, fmt.Sprintf("%.9f", float64(numerator)/float64(denominator)))
		}
		name := r[0] + " " + r[1] + " " + r[2]
		if want[name] == nil {
			want[name] = map[string]bool{}
		}
		want[name][strings.Join(shares, " ")] = true
	}
	for name, points := range want {
		f := strings.Fields(name)
		q, _ := strconv.Atoi(f[1])
		b := Blend{Kind: Centroid, Ends: make([]int, q)}
		if f[0] == "lattice" {
			m, _ := strconv.Atoi(f[2])
			b.Kind, b.Divisions, b.Cells = map[int]Kind{2: Line, 3: Triaxial, 4: Quadraxial}[q], m, m+1
		}
		got, err := b.Points()
		if err != nil {
			t.Fatal(err)
		}
		if len(got) != len(points) || b.Count() != len(points) {
			t.Errorf("%s: %d points and a count of %d, the handbook has %d", name, len(got), b.Count(), len(points))
		}
		for _, p := range got {
			var shares []string
			for _, x := range p.Shares {
				shares = append(shares, fmt.Sprintf("%.9f", x))
			}
			if !points[strings.Join(shares, " ")] {
				t.Errorf("%s: %v is not a point of the handbook", name, shares)
			}
		}
	}
}

func TestHandbookCounts(t *testing.T) {
	for _, r := range readCSV(t, "simplex_lattice_counts.csv") {
		q, _ := strconv.Atoi(r[0])
		for m := 1; m < len(r); m++ {
			want, _ := strconv.Atoi(r[m])
			if got := LatticeCount(q, m); got != want {
				t.Errorf("{%d,%d} has %d points, the handbook %d", q, m, got, want)
			}
		}
	}
	if got := LatticeCount(4, 1<<30); got != MaxCups+1 {
		t.Errorf("a lattice beyond all counting has %d", got)
	}
}

func readCSV(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// Cups are numbered from the first end at the top, along rows from the second end to
// the third, in layers by the fourth. Marks on fired tiles rest on this order.
func TestOrder(t *testing.T) {
	for _, c := range []struct {
		b    Blend
		cell int
		want []float64
	}{
		{Blend{Kind: Line, Ends: make([]int, 2), Cells: 3}, 1, []float64{1, 0}},
		{Blend{Kind: Line, Ends: make([]int, 2), Cells: 3}, 3, []float64{0, 1}},
		{Blend{Kind: Triaxial, Ends: make([]int, 3), Divisions: 6}, 1, []float64{1, 0, 0}},
		{Blend{Kind: Triaxial, Ends: make([]int, 3), Divisions: 6}, 5, []float64{4. / 6, 1. / 6, 1. / 6}},
		{Blend{Kind: Triaxial, Ends: make([]int, 3), Divisions: 6}, 22, []float64{0, 1, 0}},
		{Blend{Kind: Triaxial, Ends: make([]int, 3), Divisions: 6}, 28, []float64{0, 0, 1}},
		{Blend{Kind: Biaxial, Ends: make([]int, 4), Columns: 3, Rows: 2}, 2, []float64{0.5, 0.5, 0, 0}},
		{Blend{Kind: Biaxial, Ends: make([]int, 4), Columns: 3, Rows: 2}, 4, []float64{0, 0, 1, 0}},
		{Blend{Kind: Quadraxial, Ends: make([]int, 4), Divisions: 2}, 7, []float64{0.5, 0, 0, 0.5}},
		{Blend{Kind: Quadraxial, Ends: make([]int, 4), Divisions: 2}, 10, []float64{0, 0, 0, 1}},
		{Blend{Kind: Line, Ends: make([]int, 2), Cells: 5, Bounds: []Bound{{0, 1}, {0.2, 0.6}}}, 1, []float64{0.8, 0.2}},
		{Blend{Kind: Line, Ends: make([]int, 2), Cells: 5, Bounds: []Bound{{0, 1}, {0.2, 0.6}}}, 5, []float64{0.4, 0.6}},
		{Blend{Kind: Centroid, Ends: make([]int, 3)}, 5, []float64{0.5, 0, 0.5}},
	} {
		points, err := c.b.Points()
		if err != nil {
			t.Fatal(err)
		}
		for i, x := range points[c.cell-1].Shares {
			if math.Abs(x-c.want[i]) > 1e-12 {
				t.Errorf("%s cell %d: shares %v, want %v", c.b.Kind, c.cell, points[c.cell-1].Shares, c.want)
				break
			}
		}
	}
}

// Pairs are n(n−1)/2 times the shares, plus n alone; the shares of a cup sum to
// one and are of two ends.
func TestPairs_counts(t *testing.T) {
	for n := 3; n <= MaxEnds; n++ {
		for _, shares := range [][]float64{{50}, {25, 50, 75}} {
			for _, alone := range []bool{false, true} {
				s := Blend{Kind: Pairs, Ends: make([]int, n), PairShares: shares, Alone: alone}
				want := n * (n - 1) / 2 * len(shares)
				if alone {
					want += n
				}
				all, err := s.Points()
				if err != nil || len(all) != want || s.Count() != want {
					t.Fatalf("%d ends at %v: %d cups, counted %d, want %d (%v)", n, shares, len(all), s.Count(), want, err)
				}
				at := map[[2]int]bool{}
				for i, p := range all {
					sum, of := 0.0, 0
					for _, x := range p.Shares {
						sum += x
						if x > 0 {
							of++
						}
					}
					if math.Abs(sum-1) > 1e-12 || of > 2 || of < 1 || (of == 1) != (i >= want-n && alone) {
						t.Errorf("%d ends, cup %d: %v", n, i+1, p.Shares)
					}
					if at[[2]int{p.Row, p.Column}] {
						t.Errorf("%d ends, cup %d lies on another", n, i+1)
					}
					at[[2]int{p.Row, p.Column}] = true
				}
			}
		}
	}
}

// Pairs come as a half matrix, 1–2, 1–3, 2–3; then each end alone.
func TestPairs_order(t *testing.T) {
	s := Blend{Kind: Pairs, Ends: make([]int, 3), PairShares: []float64{25, 75}, Alone: true}
	all, err := s.Points()
	if err != nil {
		t.Fatal(err)
	}
	want := []Point{
		{0, 0, 0, []float64{0.25, 0.75, 0}, 0}, {0, 1, 0, []float64{0.75, 0.25, 0}, 0},
		{0, 2, 0, []float64{0.25, 0, 0.75}, 0}, {0, 3, 0, []float64{0.75, 0, 0.25}, 0},
		{1, 2, 0, []float64{0, 0.25, 0.75}, 0}, {1, 3, 0, []float64{0, 0.75, 0.25}, 0},
		{2, 0, 0, []float64{1, 0, 0}, 0}, {2, 2, 0, []float64{0, 1, 0}, 0}, {2, 4, 0, []float64{0, 0, 1}, 0},
	}
	if !reflect.DeepEqual(all, want) {
		t.Errorf("%v, want %v", all, want)
	}
	var pairs []string
	for _, p := range s.Neighbours(all) {
		pairs = append(pairs, fmt.Sprintf("%d-%d", p[0]+1, p[1]+1))
	}
	// from the first end alone to the second
	if got := strings.Join(pairs, " "); got != "1-2 1-8 2-7 3-4 3-9 4-7 5-6 5-9 6-8" {
		t.Errorf("neighbours %s", got)
	}
}

func TestRows(t *testing.T) {
	series := [][]float64{{0, 1, 2}, {4, 0}}
	for _, c := range []struct {
		shared     bool
		want       []Point
		neighbours string
	}{
		{false, []Point{
			{0, 0, 0, []float64{0, 0}, 0}, {0, 1, 0, []float64{1, 0}, 0}, {0, 2, 0, []float64{2, 0}, 0},
			{1, 0, 0, []float64{0, 4}, 0}, {1, 1, 0, []float64{0, 0}, 0},
		}, "1-2 2-3 4-5"},
		{true, []Point{
			{0, 0, 0, []float64{0, 0}, 0},
			{1, 0, 0, []float64{1, 0}, 0}, {1, 1, 0, []float64{2, 0}, 0},
			{2, 0, 0, []float64{0, 4}, 0},
		}, "1-2 1-4 2-3"},
	} {
		s := Blend{Kind: Rows, Series: inSteps(series...), SharedZero: c.shared}
		all, err := s.Points()
		if err != nil || !reflect.DeepEqual(all, c.want) || s.Count() != len(c.want) {
			t.Errorf("%v (%d counted, %v), want %v", all, s.Count(), err, c.want)
		}
		var pairs []string
		for _, p := range s.Neighbours(all) {
			pairs = append(pairs, fmt.Sprintf("%d-%d", p[0]+1, p[1]+1))
		}
		if got := strings.Join(pairs, " "); got != c.neighbours {
			t.Errorf("shared %v: neighbours %s, want %s", c.shared, got, c.neighbours)
		}
	}
}

// The cells of a line count the cups there will be: 9 without ends go from
// 90/10 to 10/90.
func TestLine_interior(t *testing.T) {
	for _, c := range []struct {
		bounds      []Bound
		first, last float64 // of the second end
	}{
		{nil, 0.1, 0.9},
		{[]Bound{{0, 1}, {0.2, 0.6}}, 0.2, 0.6}, // both ends are in every cup
		{[]Bound{{0, 1}, {0.1, 1}}, 0.1, 0.9},   // nine steps of ten, the last left out
	} {
		s := Blend{Kind: Line, Ends: make([]int, 2), Cells: 9, Interior: true, Bounds: c.bounds}
		all, err := s.Points()
		if err != nil || len(all) != 9 {
			t.Fatalf("%v: %d cups, %v", c.bounds, len(all), err)
		}
		if first, last := all[0].Shares[1], all[8].Shares[1]; math.Abs(first-c.first) > 1e-12 || math.Abs(last-c.last) > 1e-12 {
			t.Errorf("%v: from %g to %g, want %g to %g", c.bounds, first, last, c.first, c.last)
		}
	}
	one, err := Blend{Kind: Line, Ends: make([]int, 2), Cells: 1, Interior: true}.Points()
	if err != nil || len(one) != 1 || one[0].Shares[0] != 0.5 {
		t.Errorf("one cup between two ends: %v, %v", one, err)
	}
}

// A percentage twice, or a mixture twice in a list, is the same cup again, and
// repeat adds cups below the design, which are nobody's neighbours.
func TestAgain(t *testing.T) {
	for _, c := range []struct {
		s          Blend
		again      []int // by cup
		neighbours int
	}{
		{Blend{Kind: Line, Series: inSteps([]float64{0, 0, 1, 2})}, []int{0, 1, 0, 0}, 2},
		{Blend{Kind: Line, Series: inSteps([]float64{2, 0, 1, 0}), Repeat: []int{1, 4}}, []int{0, 0, 0, 2, 1, 2}, 2},
		{Blend{Kind: Biaxial, Series: inSteps([]float64{0, 1, 1}, []float64{0, 2})}, []int{0, 0, 2, 0, 0, 5}, 4},
		{Blend{Kind: List, Ends: make([]int, 2), Parts: [][]float64{{2, 1}, {4, 2}, {1, 1}}}, []int{0, 1, 0}, 0},
		{Blend{Kind: Triaxial, Ends: make([]int, 3), Divisions: 1, Repeat: []int{3, 1, 3, 2}}, []int{0, 0, 0, 3, 1, 3, 2}, 3},
		{Blend{Kind: Quadraxial, Ends: make([]int, 4), Divisions: 1, Repeat: []int{1}}, []int{0, 0, 0, 0, 1}, 6},
		{Blend{Kind: Pairs, Ends: make([]int, 3), PairShares: []float64{50}, Repeat: []int{2}}, []int{0, 0, 0, 2}, 0},
		{Blend{Kind: Rows, Series: inSteps([]float64{0, 1}, []float64{0, 1, 1}), Repeat: []int{1}}, []int{0, 0, 0, 0, 4, 1}, 2},
	} {
		all, err := c.s.Points()
		if err != nil || len(all) != len(c.again) || c.s.Count() != len(c.again) {
			t.Errorf("%+v: %d cups, %d counted, %v", c.s, len(all), c.s.Count(), err)
			continue
		}
		at := map[[3]int]bool{}
		for i, p := range all {
			if p.Again != c.again[i] {
				t.Errorf("%+v: cup %d is cup %d again, want %d", c.s, i+1, p.Again, c.again[i])
			}
			if p.Again > 0 && !reflect.DeepEqual(p.Shares, all[p.Again-1].Shares) && c.s.Kind != List {
				t.Errorf("%+v: cup %d is %v, cup %d %v", c.s, i+1, p.Shares, p.Again, all[p.Again-1].Shares)
			}
			place := [3]int{p.Layer, p.Row, p.Column}
			if at[place] {
				t.Errorf("%+v: cup %d lies on another", c.s, i+1)
			}
			at[place] = true
		}
		n := len(c.s.Neighbours(all))
		if n != c.neighbours {
			t.Errorf("%+v: %d neighbours, want %d", c.s, n, c.neighbours)
		}
	}
}

// Steps of a lattice: a point inside a triangle has six neighbours, one of a
// tetrahedron's lattice has 12, so that {3,3} has 18 pairs and {4,2} 24.
func TestNeighbours_lattice(t *testing.T) {
	for _, c := range []struct {
		s    Blend
		want int
	}{
		{Blend{Kind: Triaxial, Ends: make([]int, 3), Divisions: 3}, 18},
		{Blend{Kind: Quadraxial, Ends: make([]int, 4), Divisions: 2}, 24},
		{Blend{Kind: Biaxial, Ends: make([]int, 4), Columns: 3, Rows: 2}, 7},
		{Blend{Kind: Line, Ends: make([]int, 2), Cells: 5}, 4},
		{Blend{Kind: Centroid, Ends: make([]int, 3)}, 0},
	} {
		all, err := c.s.Points()
		if err != nil {
			t.Fatal(err)
		}
		n := len(c.s.Neighbours(all))
		if n != c.want {
			t.Errorf("%s: %d pairs, want %d", c.s.Kind, n, c.want)
		}
	}
}

func TestCollinear(t *testing.T) {
	for _, c := range []struct {
		points [][]float64
		a, b   int
		ok     bool
	}{
		{[][]float64{{0, 1}, {1, 0}, {0.5, 0.5}}, 0, 1, true},
		{[][]float64{{0.5, 0.5}, {0, 1}, {1, 0}}, 1, 2, true},
		{[][]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}, 0, 1, false},
		{[][]float64{{100, 0.1}, {100, 0.2}, {100, 0.3}}, 0, 2, true},
		{[][]float64{{1, 1}, {1, 1}}, 0, 0, true},
	} {
		a, b, ok := Collinear(c.points)
		if ok != c.ok || ok && (a != c.a || b != c.b) {
			t.Errorf("%v: %d, %d, %v", c.points, a, b, ok)
		}
	}
}

// inSteps is series of these percentages.
func inSteps(percents ...[]float64) (all []Series) {
	for _, p := range percents {
		all = append(all, Series{Percents: p})
	}
	return all
}
