package design

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
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
		b := Spec{Kind: Centroid, Ends: q}
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

// The numbering that DESIGN settles: first end at the top, rows from second to
// third end; layers by the fourth.
func TestOrder(t *testing.T) {
	for _, c := range []struct {
		b    Spec
		cell int
		want []float64
	}{
		{Spec{Kind: Line, Ends: 2, Cells: 3}, 1, []float64{1, 0}},
		{Spec{Kind: Line, Ends: 2, Cells: 3}, 3, []float64{0, 1}},
		{Spec{Kind: Triaxial, Ends: 3, Divisions: 6}, 1, []float64{1, 0, 0}},
		{Spec{Kind: Triaxial, Ends: 3, Divisions: 6}, 5, []float64{4. / 6, 1. / 6, 1. / 6}},
		{Spec{Kind: Triaxial, Ends: 3, Divisions: 6}, 22, []float64{0, 1, 0}},
		{Spec{Kind: Triaxial, Ends: 3, Divisions: 6}, 28, []float64{0, 0, 1}},
		{Spec{Kind: Biaxial, Ends: 4, Columns: 3, Rows: 2}, 2, []float64{0.5, 0.5, 0, 0}},
		{Spec{Kind: Biaxial, Ends: 4, Columns: 3, Rows: 2}, 4, []float64{0, 0, 1, 0}},
		{Spec{Kind: Quadraxial, Ends: 4, Divisions: 2}, 7, []float64{0.5, 0, 0, 0.5}},
		{Spec{Kind: Quadraxial, Ends: 4, Divisions: 2}, 10, []float64{0, 0, 0, 1}},
		{Spec{Kind: Line, Ends: 2, Cells: 5, Bounds: []Bound{{0, 1}, {0.2, 0.6}}}, 1, []float64{0.8, 0.2}},
		{Spec{Kind: Line, Ends: 2, Cells: 5, Bounds: []Bound{{0, 1}, {0.2, 0.6}}}, 5, []float64{0.4, 0.6}},
		{Spec{Kind: Centroid, Ends: 3}, 5, []float64{0.5, 0, 0.5}},
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
