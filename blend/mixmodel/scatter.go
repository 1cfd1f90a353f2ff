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

// Nested is a reading in a cup, of a group of cups that were made alike.
type Nested struct {
	Group, Cup int
	Value      float64
}

// NewScatter computes the components from readings; lost is how many numbers
// were estimated within cups and taken out of the values before.
func NewScatter(readings []Nested, lost int) Scatter {
	type cup struct {
		group        int
		n            float64
		mean, square float64
	}
	var cups []*cup
	at := map[[2]int]*cup{}
	for _, r := range readings {
		c := at[[2]int{r.Group, r.Cup}]
		if c == nil {
			c = &cup{group: r.Group}
			at[[2]int{r.Group, r.Cup}] = c
			cups = append(cups, c)
		}
		c.n++
		step := r.Value - c.mean
		c.mean += step / c.n
		c.square += step * (r.Value - c.mean) // Welford's running sum of squares
	}
	var s Scatter
	var tileSquares float64
	groups := map[int][]*cup{}
	var order []int
	for _, c := range cups {
		tileSquares += c.square
		s.TileDF += int(c.n) - 1
		if groups[c.group] == nil {
			order = append(order, c.group)
		}
		groups[c.group] = append(groups[c.group], c)
	}
	s.TileDF = max(0, s.TileDF-lost)
	if s.TileDF > 0 {
		s.Tiles = math.Sqrt(tileSquares / float64(s.TileDF))
	}
	var cupSquares, inverse float64 // Σ(k−1)·mean(1/n), over groups
	for _, g := range order {
		k := float64(len(groups[g]))
		if k < 2 {
			continue
		}
		var mean, thin float64
		for _, c := range groups[g] {
			mean += c.mean / k
			thin += 1 / c.n / k
		}
		for _, c := range groups[g] {
			cupSquares += (c.mean - mean) * (c.mean - mean)
		}
		s.CupDF += int(k) - 1
		inverse += (k - 1) * thin
	}
	if s.CupDF > 0 {
		df := float64(s.CupDF)
		s.CupMeans = math.Sqrt(cupSquares / df)
		s.Cups = math.Sqrt(max(0, cupSquares/df-s.Tiles*s.Tiles*inverse/df))
	}
	return s
}

// scatter is that of the design's tiles, of whose values the offsets within cups
// were taken out. Cups of one mixture are repeats only where the factors between
// cups are alike too.
func (d *Design) scatter(tiles []Tile, values []float64) Scatter {
	groups := map[int]int{}
	for i, group := range d.repeats() {
		groups[d.Cups[i].Number] = group
	}
	readings := make([]Nested, len(tiles))
	for i, t := range tiles {
		readings[i] = Nested{groups[t.Cup], t.Cup, values[i]}
	}
	return NewScatter(readings, len(d.Offsets))
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
