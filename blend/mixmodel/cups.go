package mixmodel

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// Offset is what a level of a factor adds to every mixture, against the level
// named.
type Offset struct {
	Factor, Level, Against string
	Value, SE              float64
	DF                     int     // degrees of freedom of SE; 0 without scatter to judge it by
	P                      float64 // probability of an offset as large if there were none; 1 when DF is 0
}

// Limit is the 95 % limit of the offset, ± in the units of the readings.
func (o Offset) Limit() float64 { return limit(o.SE, o.DF) }

// column is an indicator of one level of a factor.
type column struct {
	factor, level, against int
	values                 []float64 // by tile
	middle                 float64   // its value where all levels count alike
}

// offset is the effect of a column.
func (d *Design) offset(c column, value, se float64, df int) Offset {
	f := d.Factors[c.factor]
	return Offset{f.Name, f.Levels[c.level], f.Levels[c.against], value, se, df, chance(value, se, df)}
}

// gather makes cups of tiles. Offsets of what varies within cups come from the
// differences within cups alone, by least squares on the readings less their
// cups' means: cups that hold other tiles than the rest then still count once
// and fairly. A level that no cup has beside another varies between cups, and
// becomes a column of theirs. The mixture's mean is that of all levels, each
// counting alike.
func (d *Design) gather(fitted, checks []Tile) {
	tiles := slices.Concat(fitted, checks)
	members, n := membersOf(tiles, len(fitted))
	var within []column
	var inside, shifts [][]float64 // columns within cups; means of all cups in the columns between them
	across := [][]float64{slices.Repeat([]float64{1}, n)}
	for _, c := range d.columns(fitted, tiles) {
		steps, means := parted(c.values, members)
		steps = steps[:len(fitted)]
		switch {
		case floats.Norm(steps, 2) == 0 && independent(across, means[:n], n):
			d.between, across, shifts = append(d.between, c), append(across, means[:n]), append(shifts, means)
		case floats.Norm(steps, 2) > 0 && independent(inside, steps, len(fitted)-1):
			within, inside = append(within, c), append(inside, steps)
		default:
			d.Confused = append(d.Confused, d.Factors[c.factor].Name+" "+d.Factors[c.factor].Levels[c.level])
		}
	}
	values := make([]float64, len(tiles))
	for i, tile := range tiles {
		values[i] = tile.Value
	}
	if len(within) > 0 {
		steps, _ := parted(values, members)
		d.takeOut(within, inside, values, steps[:len(fitted)], len(fitted)-n-len(within))
	}
	_, means := parted(values, members)
	for k, of := range members {
		first := tiles[of[0]]
		cup := Cup{Number: first.Cup, Point: first.Point, Tiles: len(of), Mean: means[k]}
		for i, c := range d.between {
			cup.between = append(cup.between, shifts[i][k]-c.middle)
		}
		if first.Check {
			d.Checks = append(d.Checks, cup)
		} else {
			d.Cups = append(d.Cups, cup)
		}
	}
}

// membersOf returns the indexes of the tiles of each cup; n is how many of the cups
// have their tiles among those that are fitted, which come first.
func membersOf(tiles []Tile, fitted int) (members [][]int, n int) {
	cups := map[int]int{}
	for i, tile := range tiles {
		at, known := cups[tile.Cup]
		if !known {
			at = len(members)
			cups[tile.Cup] = at
			members = append(members, nil)
		}
		members[at] = append(members[at], i)
		if i < fitted {
			n = len(members)
		}
	}
	return members, n
}

// columns are the indicators of all levels that were read of tiles that are
// fitted, but for the first of each factor.
func (d *Design) columns(fitted, tiles []Tile) []column {
	var all []column
	for f, factor := range d.Factors {
		var levels []int
		for l := range factor.Levels {
			if slices.ContainsFunc(fitted, func(t Tile) bool { return t.Levels[f] == l }) {
				levels = append(levels, l)
			}
		}
		if len(levels) < 2 {
			d.Alone = append(d.Alone, factor.Name)
			continue
		}
		for _, l := range levels[1:] {
			c := column{factor: f, level: l, against: levels[0], middle: 1 / float64(len(levels))}
			c.values = make([]float64, len(tiles))
			for i, tile := range tiles {
				switch {
				case tile.Levels[f] == l:
					c.values[i] = 1
				case !slices.Contains(levels, tile.Levels[f]):
					c.values[i] = c.middle // a check cup at a level that nothing is known of
				}
			}
			all = append(all, c)
		}
	}
	return all
}

// takeOut estimates the offsets within cups, from the steps of columns and readings
// from the means of their cups, and takes them out of the values.
func (d *Design) takeOut(within []column, inside [][]float64, values, steps []float64, df int) {
	f := factorise(rows(inside).T())
	offsets, left := f.solve(steps)
	s, noise := 0.0, precision*floats.Norm(values, math.Inf(1))
	if e := floats.Norm(left, 2); df > 0 && e > noise {
		s = e / math.Sqrt(float64(df))
	}
	for k, c := range within {
		spread := f.spread(unit(len(within), k))
		offsets[k] = settled(offsets[k], noise, spread)
		d.Offsets = append(d.Offsets, d.offset(c, offsets[k], s*spread, max(0, df)))
		for i := range values {
			values[i] -= offsets[k] * (c.values[i] - c.middle)
		}
	}
}

// parted returns the means of the cups, and as steps by how much the value of each tile
// differs from the mean of its cup.
func parted(values []float64, members [][]int) (steps, means []float64) {
	steps = make([]float64, len(values))
	for _, of := range members {
		var mean float64
		for k, i := range of {
			mean += (values[i] - mean) / float64(k+1)
		}
		for _, i := range of {
			steps[i] = values[i] - mean
		}
		means = append(means, mean)
	}
	return steps, means
}

// independent reports whether a column says something that the others do not, and
// there are no more of them than most.
func independent(others [][]float64, column []float64, most int) bool {
	return len(others) < most && factorise(rows(append(slices.Clone(others), column)).T()).dependent() < 0
}
