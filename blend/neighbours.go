package blend

import (
	"cmp"
	"slices"

	"pourboard/blend/measure"
)

// neighbours calls yield for each pair of cells that lie one step apart along
// an axis of the design, as indexes into t.Cells with a < b by number. Lists
// and centroid designs have no axes.
func (t *Test) neighbours(yield func(a, b int)) {
	kind := t.Plan.Blend.Kind
	if kind == List || kind == Centroid {
		return
	}
	at := make([]int32, t.Layers*t.Rows*t.Columns) // 0 is no cell, otherwise its number
	place := func(layer, row, column int) int {
		if layer < 0 || row < 0 || column < 0 || layer >= t.Layers || row >= t.Rows || column >= t.Columns {
			return -1
		}
		return (layer*t.Rows+row)*t.Columns + column
	}
	rows, columns := t.ranks()
	for _, c := range t.Cells {
		at[place(c.Layer, rows[c.Row], columns[c.Column])] = int32(c.Number)
	}
	type step struct{ layer, row, column int }
	steps := []step{{0, 0, 1}, {0, 1, 0}}
	switch kind {
	case Triaxial:
		steps = append(steps, step{0, 1, 1})
	case Quadraxial:
		// One share of the fourth end is taken from the first, second or third.
		steps = append(steps, step{0, 1, 1}, step{1, 0, 0}, step{1, -1, 0}, step{1, -1, -1})
	}
	for i, c := range t.Cells {
		for _, s := range steps {
			p := place(c.Layer+s.layer, rows[c.Row]+s.row, columns[c.Column]+s.column)
			if p >= 0 && at[p] > 0 {
				yield(min(i, int(at[p])-1), max(i, int(at[p])-1))
			}
		}
	}
}

// ranks is the places of rows and columns along the axes of the design: as they
// are, but for a series, whose percentages may be written in any order and are
// neighbours by size.
func (t *Test) ranks() (rows, columns []int) {
	plain := func(n int) []int {
		all := make([]int, n)
		for i := range all {
			all[i] = i
		}
		return all
	}
	rows, columns = plain(t.Rows), plain(t.Columns)
	b := t.Plan.Blend
	bySize := func(place []int, percents []float64) {
		order := plain(len(percents))
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(percents[a], percents[b]) })
		for rank, i := range order {
			place[i] = rank
		}
	}
	if b.HasSeries() && b.Kind != Triaxial {
		bySize(columns, b.Series[0].Percents)
		if b.Kind == Biaxial {
			bySize(rows, b.Series[1].Percents)
		}
	}
	return rows, columns
}

// toldApart reports whether two cups, as measured, differ in any share or
// percentage by more than the root sum of squares of their ±.
func (t *Test) toldApart(a, b int) bool {
	x, y := t.Cells[a], t.Cells[b]
	if t.Plan.Blend.HasSeries() {
		for s := range x.Doses {
			if measure.ToldApart(x.Doses[s].GotPercent, x.Doses[s].PlusMinus, y.Doses[s].GotPercent, y.Doses[s].PlusMinus) {
				return true
			}
		}
		return false
	}
	for i := range x.Pours {
		if measure.ToldApart(x.Pours[i].GotShare, x.Pours[i].PlusMinus, y.Pours[i].GotShare, y.Pours[i].PlusMinus) {
			return true
		}
	}
	return false
}

// NotApart lists the neighbours that cannot be told apart, by cell number.
func (t *Test) NotApart() [][2]int {
	var pairs [][2]int
	t.neighbours(func(a, b int) {
		if !t.toldApart(a, b) {
			pairs = append(pairs, [2]int{t.Cells[a].Number, t.Cells[b].Number})
		}
	})
	return pairs
}
