package results

import (
	"math"
	"slices"

	"pourboard/blend"
	"pourboard/blend/record"
)

// rank adds the rankings of a body's means.
func (m *Measure) rank(body int, means []Mean) {
	var order []int
	for i, mean := range means {
		if mean.N > 0 {
			order = append(order, i)
		}
	}
	if len(order) == 0 {
		return
	}
	ranking := func(sign float64) Ranking {
		slices.SortStableFunc(order, func(a, b int) int {
			switch x, y := sign*means[a].Value, sign*means[b].Value; {
			case tied(x, y):
				return a - b
			case x > y:
				return -1
			}
			return 1
		})
		r := Ranking{Body: body, Of: len(order)}
		for place, i := range order {
			last := len(r.Ranks) - 1
			if last < 0 || !tied(r.Ranks[last].Value, means[i].Value) {
				if len(r.Ranks) == ranks {
					break
				}
				r.Ranks = append(r.Ranks, Rank{Place: place + 1, Value: means[i].Value})
				last++
			}
			r.Ranks[last].Cells = append(r.Ranks[last].Cells, i+1)
			r.Ranks[last].N = append(r.Ranks[last].N, means[i].N)
		}
		return r
	}
	m.Highest = append(m.Highest, ranking(1))
	if m.Field != record.RatingField {
		m.Lowest = append(m.Lowest, ranking(-1))
	}
}

// Judged are the measures by which one cup is better than another, the rating
// first: a coat is what the cup was given.
func (r *Results) Judged() []*Measure {
	var list []*Measure
	for _, field := range []record.Field{record.RatingField, record.NumberField} {
		list = append(list, r.of(field)...)
	}
	return list
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

// overall is the ranking of all bodies together, or, where that compares fewer than
// half of the cups that another does, of the body and firing of which most were read.
func (m *Measure) overall() Ranking {
	best := m.Highest[0]
	for _, ranking := range m.Highest {
		if ranking.Of > best.Of && (best.Body != AllBodies || ranking.Of > 2*best.Of) {
			best = ranking
		}
	}
	return best
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

// Chooser is the ranking by which Next chooses. It has fewer than two places where
// none is of use.
func (r *Results) Chooser() (highest Ranking) {
	for _, m := range r.Judged() {
		highest = m.overall()
		if len(highest.Ranks) > 1 {
			break // one by which all cups are equal chooses none
		}
	}
	return highest
}

// onward are the cups from which the next test goes on: of a base with steps of
// colourants the best one that has any, otherwise the two best, which differ. Of equals those
// without defects come first. It is nil where nothing was rated or measured.
func (r *Results) onward() []int {
	highest := r.Chooser()
	if len(highest.Ranks) < 2 {
		return nil
	}
	var order []int
	for _, k := range highest.Ranks {
		cells := slices.Clone(k.Cells)
		slices.SortStableFunc(cells, func(a, b int) int {
			return len(r.Observations(a, highest.Body).Faults()) - len(r.Observations(b, highest.Body).Faults())
		})
		order = append(order, cells...)
	}
	want := 2
	if b := r.Test.Plan.Blend; b.HasSeries() && b.Kind != blend.Triaxial {
		want = 1
	}
	alike := map[int]int{}
	for g, group := range r.Test.MadeGroups() {
		for _, n := range group {
			alike[n] = g + 1
		}
	}
	var onward []int
	for _, cell := range order {
		same := func(other int) bool { return alike[other] == alike[cell] }
		plain := want == 1 && !slices.ContainsFunc(r.Test.Cells[cell-1].Doses, func(d blend.Dose) bool { return d.MeasuredG > 0 })
		if len(onward) < want && !plain && !slices.ContainsFunc(onward, same) {
			onward = append(onward, cell)
		}
	}
	return onward
}

// tied reports whether two means are equal but for the rounding of a sum.
func tied(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(math.Abs(a), math.Abs(b)) }
