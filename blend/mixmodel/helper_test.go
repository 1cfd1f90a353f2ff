package mixmodel

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
)

var abc = []string{"A", "B", "C"}

// reference reads a table of points and readings with fractions like 1/3.
func reference(t testing.TB, name string) *Design {
	t.Helper()
	file, err := os.Open("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	number := func(s string) float64 {
		above, below, fraction := strings.Cut(s, "/")
		a, err := strconv.ParseFloat(above, 64)
		if err != nil {
			t.Fatal(err)
		}
		if !fraction {
			return a
		}
		b, err := strconv.ParseFloat(below, 64)
		if err != nil {
			t.Fatal(err)
		}
		return a / b
	}
	var points [][]float64
	var y []float64
	for _, r := range rows[1:] {
		points = append(points, []float64{number(r[0]), number(r[1]), number(r[2])})
		y = append(y, number(r[3]))
	}
	return design(t, Shares, abc, points, y)
}

// design is that of one tile from each cup, made of the points.
func design(t testing.TB, space Space, names []string, points [][]float64, y []float64) *Design {
	t.Helper()
	d, err := NewDesign(space, names, nil, single(points, y))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// single is one tile from each cup.
func single(points [][]float64, y []float64) []Tile {
	var tiles []Tile
	for i, p := range points {
		tiles = append(tiles, Tile{Cup: i + 1, Point: p, Value: y[i]})
	}
	return tiles
}

func fit(t testing.TB, d *Design, kind Kind) *Model {
	t.Helper()
	m, err := d.Fit(kind)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

// grid2 is the points of a rectangle in percent, row by row.
func grid2(columns, rows int, across, down float64) [][]float64 {
	var points [][]float64
	for r := range rows {
		for c := range columns {
			points = append(points, []float64{float64(c) * across, float64(r) * down})
		}
	}
	return points
}

// zoomed lays points over the sub-simplex with the corner at least[i] shares.
func zoomed(points [][]float64, least []float64) [][]float64 {
	free := 1.0
	for _, v := range least {
		free -= v
	}
	var all [][]float64
	for _, p := range points {
		q := slices.Clone(least)
		for i := range q {
			q[i] += free * p[i]
		}
		all = append(all, q)
	}
	return all
}

// lattice3 is a cube of points in percent.
func lattice3(n int) [][]float64 {
	var points [][]float64
	for i := range n * n * n {
		points = append(points, []float64{float64(i % n), 2 * float64(i/n%n), 0.1 * float64(i/n/n)})
	}
	return points
}

// lattice lists the weights of a simplex lattice of so many divisions an edge,
// in the order of a triaxial's cells: most of the first corner first.
func lattice(corners, divisions int) [][]float64 {
	parts := make([]int, corners)
	parts[0] = divisions
	var all [][]float64
	for {
		weights := make([]float64, corners)
		for i, n := range parts {
			weights[i] = float64(n) / float64(divisions)
		}
		all = append(all, weights)
		// The next one: a part goes on from the last corner that can give one,
		// and what lay behind it comes back to its neighbour.
		last := corners - 1
		giver := last - 1
		for giver >= 0 && parts[giver] == 0 {
			giver--
		}
		if giver < 0 {
			return all
		}
		back := parts[last]
		parts[last] = 0
		parts[giver]--
		parts[giver+1] = back + 1
	}
}

// middleOf is half way between two points.
func middleOf(a, b []float64) []float64 {
	middle := make([]float64, len(a))
	for i := range a {
		middle[i] = (a[i] + b[i]) / 2
	}
	return middle
}

// scatterOf is the scatter of a design's tiles, with what its factors add within
// cups taken out.
func scatterOf(d *Design, tiles []Tile) Scatter {
	values := make([]float64, len(tiles))
	for i, tile := range tiles {
		values[i] = tile.Value
	}
	for _, c := range (&Design{Factors: d.Factors}).columns(tiles, tiles) {
		for _, o := range d.Offsets {
			if f := d.Factors[c.factor]; o.Factor == f.Name && o.Level == f.Levels[c.level] {
				for i := range values {
					values[i] -= o.Value * c.values[i]
				}
			}
		}
	}
	groups := map[int]int{}
	for i, group := range d.repeats() {
		groups[d.Cups[i].Number] = group
	}
	var readings []Nested
	for i, tile := range tiles {
		readings = append(readings, Nested{groups[tile.Cup], tile.Cup, values[i]})
	}
	s := NewScatter(readings)
	if lost := len(d.Offsets); lost > 0 { // as many degrees of freedom fewer
		s.Tiles *= math.Sqrt(float64(s.TileDF) / float64(s.TileDF-lost))
		s.TileDF -= lost
	}
	return s
}
