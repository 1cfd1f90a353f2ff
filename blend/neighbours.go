package blend

import "pourboard/blend/measure"

// neighbours calls yield for each pair of cells that lie one step apart along
// an axis of the design, as indexes into t.Cells with a < b.
func (t *Test) neighbours(yield func(a, b int)) {
	t.Plan.Blend.Design().Neighbours(t.points, yield)
}

// toldApart reports whether two cups, as measured, differ in any share or
// percentage by more than the root sum of squares of their ±.
func (t *Test) toldApart(a, b int) bool {
	x, y := t.Cells[a], t.Cells[b]
	if t.Plan.Blend.Method == ByWeigh {
		return weighedApart(&x, &y)
	}
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

// Indistinguishable lists the neighbours that cannot be told apart, by cell number.
func (t *Test) Indistinguishable() [][2]int {
	var pairs [][2]int
	t.neighbours(func(a, b int) {
		if !t.toldApart(a, b) {
			pairs = append(pairs, [2]int{t.Cells[a].Number, t.Cells[b].Number})
		}
	})
	return pairs
}
