package mixmodel

import (
	"math"
	"slices"
)

// Offset is what a level of a factor adds to every mixture, against the level
// named.
type Offset struct {
	Factor, Level, Against string
	Value, SE              float64
	DF                     int     // degrees of freedom of SE; 0 without scatter to judge it by
	P                      float64 // probability of an offset as large if there were none; 1 when DF is 0
	Within                 bool    // it varies within cups, so that it comes from differences within them
}

// Limit is the 95 % limit of the offset, ± in the units of the readings.
func (o Offset) Limit() float64 { return limit(o.SE, o.DF) }

// column is an indicator of one level of a factor.
type column struct {
	factor, level, against int
	values                 []float64 // by tile
	middle                 float64   // its value where all levels count alike
}

// betweenTerm is what is left of a column that cups differ in as wholes.
type betweenTerm struct{ factor, level, against int }

// gather makes cups of tiles. Offsets of what varies within cups come from the
// differences within cups alone, by least squares on the readings less their
// cups' means: cups that hold other tiles than the rest then still count once
// and fairly. A level that within no cup is read beside another (or in a group
// of levels that is not) varies between cups, and becomes a column of theirs.
// The mixture's mean is that of all levels, each counting alike. The values
// returned are those of the tiles with the offsets within cups taken out.
func (d *Design) gather(fitted, checks []Tile) (values []float64) {
	tiles := slices.Concat(fitted, checks)
	columns := d.columns(fitted, tiles)
	n := len(fitted)
	cupOf := map[int]int{}
	var members [][]int // of every cup, its tiles
	for i, tile := range tiles {
		at, ok := cupOf[tile.Cup]
		if !ok {
			at = len(members)
			cupOf[tile.Cup] = at
			members = append(members, nil)
		}
		members[at] = append(members[at], i)
	}
	var within []column
	var between []column
	for _, c := range columns {
		x := centredRows(append(slices.Clone(within), c), members, n)
		if len(within)+1 < n && factorise(x).dependent() < 0 {
			within = append(within, c)
			continue
		}
		if len(within) > 0 { // what of it follows from columns within cups is theirs
			f := factorise(centredRows(within, members, n))
			along, _ := f.solve(centred(c.values, members, n))
			for k, w := range along {
				for i := range c.values {
					c.values[i] -= w * within[k].values[i]
				}
				c.middle -= w * within[k].middle
			}
		}
		between = append(between, c)
	}
	values = make([]float64, len(tiles))
	for i, tile := range tiles {
		values[i] = tile.Value
	}
	if len(within) > 0 {
		d.takeOut(within, members, values, n)
	}
	between = d.independent(between, members, n)
	for _, c := range between {
		d.terms = append(d.terms, betweenTerm{c.factor, c.level, c.against})
	}
	for _, of := range members {
		cup := Cup{Number: tiles[of[0]].Cup, Point: tiles[of[0]].Point, Tiles: len(of)}
		cup.Mean = meanOf(values, of)
		for _, c := range between {
			cup.between = append(cup.between, meanOf(c.values, of)-c.middle)
		}
		if tiles[of[0]].Check {
			d.Checks = append(d.Checks, cup)
		} else {
			d.Cups = append(d.Cups, cup)
		}
	}
	return values
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
			c := column{factor: f, level: l, against: levels[0], values: make([]float64, len(tiles)), middle: 1 / float64(len(levels))}
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

// takeOut estimates the offsets within cups and takes them out of the values.
func (d *Design) takeOut(within []column, members [][]int, values []float64, n int) {
	f := factorise(centredRows(within, members, n))
	offsets, residuals := f.solve(centred(values, members, n))
	df := n - cupsOf(members, n) - len(within)
	var left float64
	for _, e := range residuals {
		left += e * e
	}
	s := 0.0
	if df > 0 && math.Sqrt(left) > precision*magnitude(values) {
		s = math.Sqrt(left / float64(df))
	}
	for k, c := range within {
		unit := make([]float64, len(within))
		unit[k] = 1
		factor := d.Factors[c.factor]
		o := Offset{
			Factor: factor.Name, Level: factor.Levels[c.level], Against: factor.Levels[c.against],
			Value: offsets[k], SE: s * f.spread(unit), DF: max(0, df), Within: true,
		}
		o.P = chance(o.Value, o.SE, o.DF)
		d.Offsets = append(d.Offsets, o)
	}
	for i := range values {
		for k, c := range within {
			values[i] -= offsets[k] * (c.values[i] - c.middle)
		}
	}
}

// independent are the columns between cups that say something of their own:
// of two that go together the first is kept.
func (d *Design) independent(between []column, members [][]int, n int) []column {
	var kept []column
	x := make([][]float64, cupsOf(members, n))
	for i := range x {
		x[i] = []float64{1}
	}
	for _, c := range between {
		wider := make([][]float64, len(x))
		for i := range x {
			wider[i] = append(slices.Clone(x[i]), meanOf(c.values, members[i]))
		}
		if len(kept)+2 > len(x) || factorise(wider).dependent() >= 0 {
			d.Confused = append(d.Confused, d.Factors[c.factor].Name+" "+d.Factors[c.factor].Levels[c.level])
			continue
		}
		x, kept = wider, append(kept, c)
	}
	return kept
}

// cupsOf is how many of the cups are fitted: those whose tiles are among the
// first n. Cups that are fitted come first.
func cupsOf(members [][]int, n int) int {
	count := 0
	for _, of := range members {
		if of[0] < n {
			count++
		}
	}
	return count
}

// centred are the first n values less the means of their cups.
func centred(values []float64, members [][]int, n int) []float64 {
	out := make([]float64, n)
	for _, of := range members {
		if of[0] >= n {
			continue
		}
		mean := meanOf(values, of)
		for _, i := range of {
			out[i] = values[i] - mean
		}
	}
	return out
}

// centredRows are columns, centred, side by side.
func centredRows(columns []column, members [][]int, n int) [][]float64 {
	x := make([][]float64, n)
	for _, c := range columns {
		for i, v := range centred(c.values, members, n) {
			x[i] = append(x[i], v)
		}
	}
	return x
}

// meanOf is the mean of some of the values, as a running mean.
func meanOf(values []float64, of []int) float64 {
	var mean float64
	for k, i := range of {
		mean += (values[i] - mean) / float64(k+1)
	}
	return mean
}
