package blend

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"pourboard/blend/measure"
)

// IdenticalCups lists the cells, by number, that come out as the very same glaze
// though they were asked to differ, in groups: what is measured into them is
// the same, because their difference is less than a step of the instrument.
func (t *Test) IdenticalCups() (differ [][]int) {
	for _, group := range t.MadeGroups() {
		first := t.sign(t.Cells[group[0]-1], Asked)
		if slices.ContainsFunc(group, func(n int) bool { return t.sign(t.Cells[n-1], Asked) != first }) {
			differ = append(differ, group)
		}
	}
	return differ
}

// MadeGroups parts the cells that something is poured into, by number, into
// groups of one glaze each: what is measured into the cups of a group is the
// same, whether it was asked to be or not.
func (t *Test) MadeGroups() (all [][]int) {
	groups := map[string]int{}
	for _, c := range t.Cells {
		if !c.Poured() {
			continue
		}
		made := t.sign(c, Measured)
		at, ok := groups[made]
		if !ok {
			at = len(all)
			groups[made], all = at, append(all, nil)
		}
		all[at] = append(all[at], c.Number)
	}
	return all
}

// sign is a text that two cells share when their shares or percentages are the
// same, but for what floating point leaves.
func (t *Test) sign(c Cell, view View) string {
	parts := t.differences(c)
	if view == Measured {
		parts = t.measured(c)
	}
	var text []byte
	for _, d := range parts {
		x := d.Asked
		if view == Measured {
			x = d.Got
		}
		text = append(strconv.AppendInt(text, int64(math.Round(x*1e8)), 10), ' ')
	}
	return string(text)
}

// measured are the shares or percentages that a cup is measured by: of each material
// where it is weighed dry.
func (t *Test) measured(c Cell) (all []Difference) {
	if c.Weighings == nil {
		return t.differences(c)
	}
	for _, m := range t.order {
		w := c.weighed(m)
		all = append(all, Difference{Got: w.Percent, PlusMinus: w.PlusMinus})
	}
	return all
}

// toldApart reports whether two cups, as measured, differ in any share or
// percentage by more than the root sum of squares of their ±.
func toldApart(t *Test, x, y Cell) bool {
	others := t.measured(y)
	for i, d := range t.measured(x) {
		if measure.ToldApart(d.Got, d.PlusMinus, others[i].Got, others[i].PlusMinus) {
			return true
		}
	}
	return false
}

// Indistinguishable lists the neighbours that cannot be told apart, by cell number.
func (t *Test) Indistinguishable() [][2]int {
	var pairs [][2]int
	for _, p := range t.Plan.Blend.Neighbours(t.points) {
		if !toldApart(t, t.Cells[p[0]], t.Cells[p[1]]) {
			pairs = append(pairs, [2]int{p[0] + 1, p[1] + 1})
		}
	}
	return pairs
}

// A dose that is less than half a step of its instrument is skipped: "0 g" is
// nothing that a person can weigh, and a box to tick beside it makes believe
// that the cup has it. Whatever is printed of such a dose asks Dose.None.

// None reports that a dose is asked and none of it is measured, because it is
// too little for the instrument.
func (d Dose) None() bool { return d.Percent > 0 && d.MeasuredG == 0 }

// skippedDoses is about the doses of a series that are too little to be
// measured, without cups when there are none. identical is IdenticalCups.
func skippedDoses(t *Test, s int, identical [][]int) SkippedDoses {
	b := t.Plan.Blend
	n := SkippedDoses{Material: b.Series[s].Material, Method: b.Method, Step: t.DoseStep(), Enough: t.Smallest}
	var doses []Dose
	for _, c := range t.Cells {
		if d := c.Doses[s]; d.None() {
			n.Cups, doses = append(n.Cups, c.Number), append(doses, d)
		}
	}
	if n.Cups == nil {
		return n
	}
	byG := func(a, b Dose) int { return cmp.Compare(a.G, b.G) }
	least := slices.MinFunc(doses, byG)
	n.Most = slices.MaxFunc(doses, byG)
	n.Alike = least.Percent == n.Most.Percent
	if n.Method == ByDose || n.Method == ByWeigh {
		n.Finer = finer(least.G, t.Plan.Kit)
	}
	for _, group := range identical {
		if slices.ContainsFunc(group, func(cup int) bool { return slices.Contains(n.Cups, cup) }) {
			n.Twins = append(n.Twins, group)
		}
	}
	return n
}
