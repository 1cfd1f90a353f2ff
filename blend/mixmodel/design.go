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

// samePoint is the distance, in shares or percent, below which two readings
// are repeats of one cell.
const samePoint = 1e-9

// Design is the cells that readings were taken of. Its fields are not to be
// changed once it is made.
type Design struct {
	Space Space
	// Names of the ends or series, in the order of the coordinates.
	Names []string
	// Points has one point for each reading, so a cell read twice stands in
	// it twice. Shares are made to add up to 1.
	Points [][]float64

	cells  [][]float64 // different points, in order of first reading
	cellOf []int       // for each reading, its index in cells
	region region
}

// NewDesign checks and copies the points. Readings that are missing are to be
// left out beforehand, point and reading.
func NewDesign(space Space, names []string, points [][]float64) (*Design, error) {
	switch n := len(names); {
	case space == Shares && (n < 2 || n > 4):
		return nil, fmt.Errorf("a mixture model needs 2 to 4 ends, not %d", n)
	case space == Percent && (n < 1 || n > 3):
		return nil, fmt.Errorf("a model in percent needs 1 to 3 series, not %d", n)
	case len(points) == 0:
		return nil, errors.New("there are no readings to model")
	}
	d := &Design{Space: space, Names: slices.Clone(names)}
	for i, point := range points {
		point, err := d.checked(point)
		if err != nil {
			return nil, fmt.Errorf("reading %d: %w", i+1, err)
		}
		d.Points = append(d.Points, point)
		cell := slices.IndexFunc(d.cells, func(other []float64) bool { return same(point, other) })
		if cell < 0 {
			cell = len(d.cells)
			d.cells = append(d.cells, point)
		}
		d.cellOf = append(d.cellOf, cell)
	}
	d.region = newRegion(d.cells)
	return d, nil
}

// checked is a copy of the point, its shares adding up to 1, or the reason why
// it is not a point of the design's space.
func (d *Design) checked(point []float64) ([]float64, error) {
	if len(point) != len(d.Names) {
		return nil, fmt.Errorf("the point has %d coordinates and must have %d", len(point), len(d.Names))
	}
	point = slices.Clone(point)
	var sum float64
	for i, v := range point {
		switch {
		case math.IsNaN(v) || math.IsInf(v, 0):
			return nil, fmt.Errorf("the amount of %s is %v and must be a number", d.Names[i], v)
		case v < 0:
			return nil, fmt.Errorf("the amount of %s is %v and must be 0 or more", d.Names[i], v)
		case d.Space == Percent && v > 1000:
			return nil, fmt.Errorf("the amount of %s is %v %% and must be 1000 %% or less", d.Names[i], v)
		}
		sum += v
	}
	if d.Space == Percent {
		return point, nil
	}
	if math.Abs(sum-1) > shareSlack {
		return nil, fmt.Errorf("the shares add up to %.6g and must add up to 1", sum)
	}
	for i := range point {
		point[i] /= sum
	}
	return point, nil
}

func same(a, b []float64) bool {
	for i, v := range a {
		if math.Abs(v-b[i]) > samePoint {
			return false
		}
	}
	return true
}
