// Package results is what the readings of a test's tiles come to: means,
// scatter, the best cups, maps and models. How its numbers are printed is
// in package render/wording.
package results

import (
	"slices"

	"pourboard/blend"
	"pourboard/blend/mixmodel"
	"pourboard/blend/record"
)

// AllBodies means every body together, in place of the index of one.
const AllBodies = -1

// Results is what a log says about a test.
type Results struct {
	Test     *blend.Test
	Log      *record.Log
	Space    mixmodel.Space // of the models
	Ends     []End          // the letters of the models' coordinates
	Measures []Measure      // rating, the plan's own numbers, coats that hold numbers; those read of some tile
	Fired    []Fired        // each body, or each body in one firing: all indexes of bodies here count these
	Missing  []Gap          // by body: the cells that have no entry on any tile
	Tiles    int            // how many tiles have something filled in
}

// Measure is a column of numbers, worked out.
type Measure struct {
	record.Column
	N        int      // tiles that it was read of
	Decimals int      // the most that any of them was read with, after the point
	Means    [][]Mean // by body, then index of the cell: the map of the boards
	Together []string // the firings that all bodies together are ranked by, where some were fired twice
	// Scatter between tiles of one cup on one body, and between cups of one
	// mixture on one body; none for coats.
	Scatter mixmodel.Scatter
	Highest []Ranking // of all bodies together, where several were read; then by body
	Lowest  []Ranking // likewise; none for the rating
	Missing []Gap     // by body: cells that it was not read of
	Models  []Model   // by body; then of all bodies together where several were read; none for coats
}

// Mean is the mean of a cell's tiles of one body.
type Mean struct {
	N     int // tiles read; 0 when there are none, and then no mean
	Value float64
}

// Gap lists the cells of one body, by number, that lack a reading.
type Gap struct {
	Body  int
	Cells []int
}

// Evaluate works out what a log says about a test. Cups count as the log says
// that they were really made; those that were lost do not count.
func Evaluate(t *blend.Test, log *record.Log) *Results {
	if done := log.Done(); done != nil {
		t = t.AsDone(done)
	}
	kept, lost := *log, log.Lost()
	isLost := func(r record.Reading) bool { return slices.Contains(lost, r.Cell) }
	kept.Readings = slices.DeleteFunc(slices.Clone(log.Readings), isLost)
	r := &Results{Test: t, Log: &kept}
	r.Space, r.Ends = endsOf(t)
	r.Fired = r.firedOf(len(t.Plan.Tiles.Bodies))
	read, tiles := r.noMeans(), map[int]bool{}
	for i := range kept.Readings {
		reading := &kept.Readings[i]
		read[r.fired(reading)][reading.Cell-1].N++
		tiles[reading.Index] = true
	}
	r.Tiles, r.Missing = len(tiles), r.gaps(read)
	for _, c := range log.Columns {
		if m, ok := r.measure(c); ok {
			r.Measures = append(r.Measures, m)
		}
	}
	for _, m := range r.Judged() {
		samples := measured([]*Results{r}, m.Head)
		m.Models, m.Scatter = r.models(m, samples), r.scatter(samples)
	}
	return r
}

// noMeans are means of no tiles, by body, then index of the cell.
func (r *Results) noMeans() [][]Mean {
	all := make([][]Mean, len(r.Fired))
	for body := range all {
		all[body] = make([]Mean, len(r.Test.Cells))
	}
	return all
}

// measure works out a column; ok is false when it holds no numbers. A coat with
// a single entry in words is one of words.
func (r *Results) measure(c record.Column) (m Measure, ok bool) {
	m.Column, m.Means = c, r.noMeans()
	for i := range r.Log.Readings {
		reading := &r.Log.Readings[i]
		if c.Field == record.CoatField && reading.Coats[c.Index].Text != "" && !reading.Coats[c.Index].Number.Given {
			return Measure{}, false
		}
		a, ok := c.Amount(reading)
		if !ok {
			continue
		}
		m.N++
		m.Decimals = max(m.Decimals, a.Decimals)
		// The running mean: readings come in the order of the tiles whatever
		// the order of the rows, so the last digit does not depend on it.
		mean := &m.Means[r.fired(reading)][reading.Cell-1]
		mean.N++
		mean.Value += (a.Value - mean.Value) / float64(mean.N)
	}
	if m.N == 0 {
		return Measure{}, false
	}
	m.Missing = r.gaps(m.Means)
	if bodies, firings := r.fullest(m.Means); len(bodies) > 1 {
		m.rank(AllBodies, together(bodies))
		m.Together = firings
	}
	for body := range m.Means {
		m.rank(body, m.Means[body])
	}
	return m, true
}

// glazes are the cells by what they hold: of each the index of the first that is
// made the same.
func (r *Results) glazes() []int {
	glaze := make([]int, len(r.Test.Cells))
	for i := range glaze {
		glaze[i] = i
	}
	for _, group := range r.Test.MadeGroups() {
		for _, n := range group {
			glaze[n-1] = group[0] - 1
		}
	}
	return glaze
}

// scatter is what readings of one mixture on one body, in one firing and block,
// differ by. Cups that were made alike hold one mixture.
func (r *Results) scatter(samples []sample) mixmodel.Scatter {
	glaze := r.glazes()
	type place struct {
		body          int
		firing, block string
	}
	numbers := map[place]int{}
	var read []mixmodel.Nested
	for _, s := range samples {
		at := place{s.reading.Body, s.reading.Firing, s.reading.Block}
		if _, known := numbers[at]; !known {
			numbers[at] = len(numbers) * len(glaze)
		}
		cup := s.reading.Cell - 1
		read = append(read, mixmodel.Nested{Group: numbers[at] + glaze[cup], Cup: numbers[at] + cup, Value: s.value})
	}
	return mixmodel.NewScatter(read)
}

// together is the means of the bodies' means, of the cells that were read on
// every body that was read at all: a cell that was read on the better body
// alone would otherwise come out best.
func together(bodies [][]Mean) []Mean {
	all := make([]Mean, len(bodies[0]))
	for i := range all {
		for _, means := range bodies {
			if means[i].N == 0 {
				all[i] = Mean{}
				break
			}
			all[i].N += means[i].N
			all[i].Value += means[i].Value / float64(len(bodies))
		}
	}
	return all
}
