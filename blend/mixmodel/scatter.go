package mixmodel

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Scatter is how much readings of one mixture differ, in two parts: variance
// components of a nested analysis of variance (tiles within cups, cups within
// mixtures).
type Scatter struct {
	// Tiles is the standard deviation between tiles of one cup, with TileDF
	// degrees of freedom; 0 when no cup has two tiles to compare.
	Tiles  float64
	TileDF int
	// Cups is the standard deviation between cups of one mixture, with CupDF
	// degrees of freedom; what their tiles scatter by is taken off, and nothing
	// is left where tiles explain it all. 0 without repeated cups. With a
	// single tile in each cup it holds the scatter of tiles too.
	Cups  float64
	CupDF int
	// CupMeans is the standard deviation between the means of repeated cups.
	CupMeans float64
}

// Nested is a reading in a cup, of a group of cups that were made alike. No cup is
// in two groups.
type Nested struct {
	Group, Cup int
	Value      float64
}

// NewScatter computes the components from readings.
func NewScatter(readings []Nested) (s Scatter) {
	var cups, groups []int // in the order of the readings
	tiles := map[int][]float64{}
	groupOf := map[int]int{}
	for _, r := range readings {
		if tiles[r.Cup] == nil {
			cups = append(cups, r.Cup)
		}
		tiles[r.Cup] = append(tiles[r.Cup], r.Value)
		groupOf[r.Cup] = r.Group
	}
	var tileSquares, cupSquares, inverse float64
	means, inverses := map[int][]float64{}, map[int]float64{} // by group; Σ 1/n of its cups
	for _, cup := range cups {
		mean, squares := about(tiles[cup])
		n, g := len(tiles[cup]), groupOf[cup]
		tileSquares += squares
		s.TileDF += n - 1
		if means[g] == nil {
			groups = append(groups, g)
		}
		means[g] = append(means[g], mean)
		inverses[g] += 1 / float64(n)
	}
	for _, g := range groups {
		_, squares := about(means[g])
		k := len(means[g])
		cupSquares += squares
		s.CupDF += k - 1
		inverse += float64(k-1) * inverses[g] / float64(k)
	}
	if s.TileDF > 0 {
		s.Tiles = math.Sqrt(tileSquares / float64(s.TileDF))
	}
	if s.CupDF > 0 {
		df := float64(s.CupDF)
		s.CupMeans = math.Sqrt(cupSquares / df)
		s.Cups = math.Sqrt(max(0, cupSquares/df-s.Tiles*s.Tiles*inverse/df))
	}
	return s
}

// about is the mean of values and their sum of squares about it.
func about(values []float64) (mean, squares float64) {
	for i, v := range values {
		step := v - mean
		mean += step / float64(i+1)
		squares += step * (v - mean) // Welford's running sum of squares
	}
	return mean, squares
}

// repeats numbers the groups of cups that are alike in mixture and in what
// varies between cups, by index of the cup.
func (d *Design) repeats() []int {
	groups := make([]int, len(d.Cups))
	for i, cup := range d.Cups {
		groups[i] = i
		for k, other := range d.Cups[:i] {
			if same(cup.Point, other.Point) && same(cup.between, other.between) {
				groups[i] = groups[k]
				break
			}
		}
	}
	return groups
}

// limit is the 95 % limit of a figure with the standard error se: Student's t
// for the degrees of freedom there are, times se.
func limit(se float64, df int) float64 {
	if df < 1 {
		return 0
	}
	return studentT(df) * se
}

// studentT is the two-sided 95 % point of Student's t distribution.
func studentT(df int) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(df)}.Quantile(0.975)
}

// chance is the probability of a figure at least as far from 0, if it were 0.
func chance(value, se float64, df int) float64 {
	if df < 1 || se == 0 {
		return 1
	}
	return 2 * distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(df)}.Survival(math.Abs(value/se))
}
