package mixmodel

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Space says what the coordinates of a point are.
type Space int

const (
	// Shares of 2 to 4 ends, 0 to 1, adding up to 1.
	Shares Space = iota
	// Percent of 1 to 3 series, each 0 or more and free of the others.
	Percent
)

// shareSlack is how far shares may be from adding up to 1: they are often
// typed with six decimals.
const shareSlack = 1e-5

// samePoint is the distance, in shares or percent, below which two cups were
// made alike.
const samePoint = 1e-9

// Tile is one reading of one fired tile.
type Tile struct {
	Cup    int       // a number that the tiles of one cup share
	Point  []float64 // what the cup was made of
	Levels []int     // by factor, the index of its level
	Value  float64   // what was read
	Check  bool      // its cup is kept out of the fit and predicted
}

// Factor is something other than the mixture that tiles differ in, such as the
// body: each of its levels adds a number of its own to every mixture.
type Factor struct {
	Name   string
	Levels []string
}

// Cup is a cup of the design: its mixture and the mean of its tiles.
type Cup struct {
	Number int
	Point  []float64
	Tiles  int
	// Mean of its tiles, after what varies within cups was taken out.
	Mean float64

	between []float64 // columns of the factors that are constant within cups
}

// Design is the cups that were read. Its fields are not to be changed once it
// is made.
type Design struct {
	Space Space
	// Names of the ends or series, in the order of the coordinates.
	Names   []string
	Factors []Factor
	Cups    []Cup // fitted to, in the order of their first tiles
	Checks  []Cup // kept out of the fit
	// Offsets of factors that vary within cups, each against the first level
	// that was read.
	Offsets []Offset
	// Alone names the factors of which a single level was read: they are in no
	// model. Confused names levels whose effect cannot be told from another
	// factor's, "Shelf top"; they are in no model either.
	Alone, Confused []string
	Scatter         Scatter

	kinds int // different mixtures among Cups
	terms []betweenTerm
	ends  *hull
}

// NewDesign checks and copies the tiles. The points of a cup's tiles are to be
// the same; tiles without a reading are to be left out beforehand. The error
// says in a sentence why there is nothing to model.
func NewDesign(space Space, names []string, factors []Factor, tiles []Tile) (*Design, error) {
	switch n := len(names); {
	case space == Shares && (n < 2 || n > 4):
		return nil, fmt.Errorf("a mixture model needs 2 to 4 end glazes, not %d", n)
	case space == Percent && (n < 1 || n > 3):
		return nil, fmt.Errorf("a model in percent needs 1 to 3 series, not %d", n)
	}
	d := &Design{Space: space, Names: slices.Clone(names), Factors: factors}
	var fitted, checks []Tile
	for i, tile := range tiles {
		point, err := d.checked(tile.Point)
		if err != nil {
			return nil, fmt.Errorf("reading %d: %w", i+1, err)
		}
		tile.Point = point
		if tile.Check {
			checks = append(checks, tile)
		} else {
			fitted = append(fitted, tile)
		}
	}
	if err := checkReadings(fitted); err != nil {
		return nil, err
	}
	values := d.gather(fitted, checks)
	var points [][]float64
	for _, cup := range d.Cups {
		if !slices.ContainsFunc(points, func(p []float64) bool { return same(cup.Point, p) }) {
			points = append(points, cup.Point)
		}
	}
	d.kinds, d.ends = len(points), newHull(points)
	d.Scatter = d.scatter(fitted, values)
	return d, nil
}

// checked is a copy of the point, its shares adding up to 1, or the reason why
// it is not a point of the design's space.
func (d *Design) checked(point []float64) ([]float64, error) {
	if len(point) != len(d.Names) {
		return nil, fmt.Errorf("the mixture has %d amounts and must have %d", len(point), len(d.Names))
	}
	point = slices.Clone(point)
	var sum float64
	for i, v := range point {
		switch {
		case math.IsNaN(v) || math.IsInf(v, 0):
			return nil, fmt.Errorf("the amount of %s is %v, not a number", d.Names[i], v)
		case v < 0:
			return nil, fmt.Errorf("the amount of %s is %v (0 or more)", d.Names[i], v)
		case d.Space == Percent && v > 1000:
			return nil, fmt.Errorf("the amount of %s is %v %% (1000 %% or less)", d.Names[i], v)
		}
		sum += v
	}
	if d.Space == Percent {
		return point, nil
	}
	if math.Abs(sum-1) > shareSlack {
		return nil, fmt.Errorf("the shares add up to %.6g, not to 1", sum)
	}
	for i := range point {
		point[i] /= sum
	}
	return point, nil
}

// checkReadings refuses readings that no model can be fitted to.
func checkReadings(tiles []Tile) error {
	if len(tiles) < 2 {
		return fmt.Errorf("a model needs 2 readings or more; there are %d", len(tiles))
	}
	low, high := math.Inf(1), math.Inf(-1)
	for i, tile := range tiles {
		v := tile.Value
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("reading %d is %v, not a number", i+1, v)
		}
		if math.Abs(v) > largest {
			return fmt.Errorf("reading %d is %g, too large to compute with", i+1, v)
		}
		low, high = min(low, v), max(high, v)
	}
	if high-low <= precision*max(math.Abs(high), math.Abs(low), 1/largest) {
		return fmt.Errorf("all %d readings are %g: there is nothing to model", len(tiles), tiles[0].Value)
	}
	if tiles[0].Cup == tiles[len(tiles)-1].Cup && !slices.ContainsFunc(tiles, func(t Tile) bool { return t.Cup != tiles[0].Cup }) {
		return errors.New("a model needs 2 cups or more; there is 1")
	}
	return nil
}

func same(a, b []float64) bool {
	for i, v := range a {
		if math.Abs(v-b[i]) > samePoint {
			return false
		}
	}
	return true
}
