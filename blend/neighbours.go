package blend

import (
	"slices"

	"pourboard/blend/measure"
)

// toldApart reports whether two cups, as measured, differ in any share or
// percentage, or in any material that is weighed dry, by more than the root sum
// of squares of their ±.
func (t *Test) toldApart(a, b int) bool {
	x, y := &t.Cells[a], &t.Cells[b]
	if t.Plan.Blend.Method == ByWeigh {
		return slices.ContainsFunc(t.weighOrder(), func(m DryMaterial) bool {
			v, w := x.weighed(m), y.weighed(m)
			return measure.ToldApart(v.Percent, v.PlusMinus, w.Percent, w.PlusMinus)
		})
	}
	others := t.differences(y)
	for i, d := range t.differences(x) {
		if measure.ToldApart(d.Got, d.PlusMinus, others[i].Got, others[i].PlusMinus) {
			return true
		}
	}
	return false
}

// Indistinguishable lists the neighbours that cannot be told apart, by cell number.
func (t *Test) Indistinguishable() [][2]int {
	var pairs [][2]int
	t.Plan.Blend.Design().Neighbours(t.points, func(a, b int) {
		if !t.toldApart(a, b) {
			pairs = append(pairs, [2]int{t.Cells[a].Number, t.Cells[b].Number})
		}
	})
	return pairs
}
