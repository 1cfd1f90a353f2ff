package results

import (
	"cmp"
	"math"
	"slices"

	"pourboard/blend"
	"pourboard/blend/record"
)

// Ranking is the cells with the highest, or lowest, means.
type Ranking struct {
	Body  int // index, or AllBodies
	Of    int // cells compared; of all bodies together those read on every body that was read
	Ranks []Rank
}

// Rank is a place in a ranking with all cells that share it.
type Rank struct {
	Place int // from 1; after two cells in place 1 comes place 3
	Value float64
	Cells []int // by number; more than one is a tie
	N     int   // the most tiles read of one of them
}

// ranks is how many places a ranking lists, ties not counted.
const ranks = 3

// rank adds the rankings of a body's means.
func (m *Measure) rank(body int, means []Mean) {
	var cells []int
	for i, mean := range means {
		if mean.N > 0 {
			cells = append(cells, i+1)
		}
	}
	if cells == nil {
		return
	}
	ranking := func(sign float64) Ranking {
		slices.SortStableFunc(cells, func(a, b int) int {
			x, y := means[a-1].Value, means[b-1].Value
			if tied(x, y) {
				return a - b
			}
			return cmp.Compare(sign*y, sign*x)
		})
		r := Ranking{Body: body, Of: len(cells)}
		for place, cell := range cells {
			mean := means[cell-1]
			last := len(r.Ranks) - 1
			if last < 0 || !tied(r.Ranks[last].Value, mean.Value) {
				if len(r.Ranks) == ranks {
					break
				}
				r.Ranks = append(r.Ranks, Rank{Place: place + 1, Value: mean.Value})
				last++
			}
			k := &r.Ranks[last]
			k.Cells, k.N = append(k.Cells, cell), max(k.N, mean.N)
		}
		return r
	}
	m.Highest = append(m.Highest, ranking(1))
	if m.Field != record.RatingField {
		m.Lowest = append(m.Lowest, ranking(-1))
	}
}

// tied reports whether two means are equal but for the rounding of a sum.
func tied(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(math.Abs(a), math.Abs(b)) }

// Judged are the measures by which one cup is better than another, the rating
// first: a coat is what the cup was given.
func (r *Results) Judged() []*Measure {
	return append(r.of(record.RatingField), r.of(record.NumberField)...)
}

// Coats are the measures of coats that hold numbers.
func (r *Results) Coats() []*Measure { return r.of(record.CoatField) }

func (r *Results) of(field record.Field) (list []*Measure) {
	for i := range r.Measures {
		if r.Measures[i].Field == field {
			list = append(list, &r.Measures[i])
		}
	}
	return list
}

// Firsts are the cells in the first place of some ranking, by number: those that
// are so on all bodies together before those of one body, and those that are
// rated best before others.
func (r *Results) Firsts() []int {
	var cells []int
	for _, together := range []bool{true, false} {
		for _, m := range r.Judged() {
			for _, ranking := range slices.Concat(m.Highest, m.Lowest) {
				if (ranking.Body == AllBodies) != together {
					continue
				}
				for _, cell := range ranking.Ranks[0].Cells {
					if !slices.Contains(cells, cell) {
						cells = append(cells, cell)
					}
				}
			}
		}
	}
	return cells
}

// Next is what can be done with the best cups: those that the next test goes on
// from, none where it needs recipes that there are not, and the one to mix by the
// bucket. It is nothing and 0 where nothing was rated or measured.
func (r *Results) Next() (steps []int, bucket int) {
	onward := r.onward()
	if onward == nil {
		return nil, 0
	}
	bought := func(n int) bool { return r.Test.WithoutRecipe(n-1) != nil }
	switch {
	case !slices.ContainsFunc(onward, bought):
		steps = onward
	case r.Test.CanNarrow():
		steps = onward[:1]
	}
	return steps, onward[0]
}

// Chooser is the ranking by which Next chooses: of all bodies together, or, where
// that compares fewer than half of the cups that another does, of the body and firing
// of which most were read. It has fewer than two places where none is of use.
func (r *Results) Chooser() (best Ranking) {
	for _, m := range r.Judged() {
		best = m.Highest[0]
		for _, ranking := range m.Highest {
			if ranking.Of > best.Of && (best.Body != AllBodies || ranking.Of > 2*best.Of) {
				best = ranking
			}
		}
		if len(best.Ranks) > 1 {
			break // one by which all cups are equal chooses none
		}
	}
	return best
}

// onward are the cups from which the next test goes on: of a base with steps of
// colourants the best one that has any, otherwise the two best, which differ. Of equals
// those without defects come first. It is nil where nothing was rated or measured.
func (r *Results) onward() (onward []int) {
	best := r.Chooser()
	if len(best.Ranks) < 2 {
		return nil
	}
	faults := func(cell int) int { return len(r.Observations(cell, best.Body).Faults()) }
	want := 2
	if b := r.Test.Plan.Blend; b.HasSeries() && b.Kind != blend.Triaxial {
		want = 1
	}
	dosed := func(d blend.Dose) bool { return d.MeasuredG > 0 }
	glaze := r.glazes()
	for _, k := range best.Ranks {
		cells := slices.Clone(k.Cells)
		slices.SortStableFunc(cells, func(a, b int) int { return faults(a) - faults(b) })
		for _, cell := range cells {
			same := func(other int) bool { return glaze[other-1] == glaze[cell-1] }
			plain := want == 1 && !slices.ContainsFunc(r.Test.Cells[cell-1].Doses, dosed)
			if len(onward) < want && !plain && !slices.ContainsFunc(onward, same) {
				onward = append(onward, cell)
			}
		}
	}
	return onward
}
