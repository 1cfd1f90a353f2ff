package blend

import (
	"math"
	"slices"
)

// A dose that is less than half a step of its instrument is skipped: "0 g" is
// nothing that a person can weigh, and a box to tick beside it makes believe
// that the cup has it. Whatever is printed of such a dose asks Dose.None.

// None reports that a dose is asked and none of it is measured, because it is
// too little for the instrument.
func (d Dose) None() bool { return d.Percent > 0 && d.MeasuredG == 0 }

// SkippedDoses lists, for each series that has any, its doses that are too
// little to be measured.
func (t *Test) SkippedDoses() []SkippedDoses {
	var all []SkippedDoses
	for s := range t.Plan.Blend.Series {
		if n, ok := t.skippedDoses(s); ok {
			all = append(all, n)
		}
	}
	return all
}

// skippedDoses is SkippedDoses for one series; ok is false when it has none.
func (t *Test) skippedDoses(s int) (n SkippedDoses, ok bool) {
	b := t.Plan.Blend
	n = SkippedDoses{Material: b.Series[s].Material, Method: b.Method, Step: t.DoseStep(), Alike: true, Enough: t.smallest}
	least := math.Inf(1)
	for _, c := range t.Cells {
		d := c.Doses[s]
		if !d.None() {
			continue
		}
		n.Alike = n.Alike && (n.Cups == nil || d.Percent == n.Most.Percent)
		n.Cups = append(n.Cups, c.Number)
		least = min(least, d.G)
		if d.Percent > n.Most.Percent {
			n.Most = d
		}
	}
	if n.Cups == nil {
		return n, false
	}
	if n.Method == ByDose || n.Method == ByWeigh {
		n.Finer = finer(least, t.Plan.Kit)
	}
	twins := t.twins()
	for _, cup := range n.Cups {
		if twin := twins[cup-1]; twin != 0 {
			n.Twins = append(n.Twins, [2]int{cup, twin})
		}
	}
	return n, true
}

// twins is, by index of the cell, the number of another that is made alike
// though it was asked otherwise, 0 where there is none: the first that gets all
// that it was asked to have, else the first.
func (t *Test) twins() []int {
	twins := make([]int, len(t.Cells))
	whole := func(n int) bool { return !slices.ContainsFunc(t.Cells[n-1].Doses, Dose.None) }
	for _, group := range t.IdenticalCups() {
		first := group[max(0, slices.IndexFunc(group, whole))]
		for _, n := range group {
			switch {
			case n != first:
				twins[n-1] = first
			case first == group[0]:
				twins[n-1] = group[1]
			default:
				twins[n-1] = group[0]
			}
		}
	}
	return twins
}
