package mixmodel

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// Space says what the coordinates of a point are.
type Space int

const (
	// Shares of 2 to 4 ends, 0 to 1, adding up to 1.
	Shares Space = iota
	// Percent of 1 to 3 series, each 0 or more and free of the others.
	Percent
)

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

	kinds   int // different mixtures among Cups
	between []column
	hull    *hull
}

// NewDesign makes cups of tiles. The points of a cup's tiles are to be the same;
// tiles without a reading are to be left out beforehand. The error says in a
// sentence why there is nothing to model.
func NewDesign(space Space, names []string, factors []Factor, tiles []Tile) (*Design, error) {
	switch n := len(names); {
	case space == Shares && (n < 2 || n > 4):
		return nil, fmt.Errorf("a mixture model needs 2 to 4 end glazes, not %d", n)
	case space == Percent && (n < 1 || n > 3):
		return nil, fmt.Errorf("a model in percent needs 1 to 3 series, not %d", n)
	}
	fitted := slices.DeleteFunc(slices.Clone(tiles), func(t Tile) bool { return t.Check })
	if err := checkReadings(fitted); err != nil {
		return nil, err
	}
	d := &Design{Space: space, Names: names, Factors: factors}
	d.gather(fitted, slices.DeleteFunc(slices.Clone(tiles), func(t Tile) bool { return !t.Check }))
	var points [][]float64
	for _, cup := range d.Cups {
		if !slices.ContainsFunc(points, func(p []float64) bool { return same(cup.Point, p) }) {
			points = append(points, cup.Point)
		}
	}
	d.kinds, d.hull = len(points), newHull(points)
	return d, nil
}

// checkReadings refuses readings that no model can be fitted to.
func checkReadings(tiles []Tile) error {
	if len(tiles) < 2 {
		return fmt.Errorf("a model needs 2 readings or more; there are %d", len(tiles))
	}
	first := tiles[0]
	var values []float64
	for _, tile := range tiles {
		values = append(values, tile.Value)
	}
	switch {
	case floats.Max(values)-floats.Min(values) <= precision*floats.Norm(values, math.Inf(1)):
		return fmt.Errorf("all %d readings are %g: there is nothing to model", len(tiles), first.Value)
	case !slices.ContainsFunc(tiles, func(t Tile) bool { return t.Cup != first.Cup }):
		return errors.New("a model needs 2 cups or more; there is 1")
	}
	return nil
}

func same(a, b []float64) bool { return floats.EqualApprox(a, b, samePoint) }
