package blend

import (
	"fmt"
	"math"
	"strings"
)

// IdenticalCups lists the cells, by number, that come out as the very same glaze
// though they were asked to differ, in groups: what is measured into them is
// the same, because their difference is less than a step of the instrument.
func (t *Test) IdenticalCups() [][]int {
	var differ [][]int
	for _, group := range t.MadeGroups() {
		first := t.sign(&t.Cells[group[0]-1], Asked)
		for _, n := range group[1:] {
			if t.sign(&t.Cells[n-1], Asked) != first {
				differ = append(differ, group)
				break
			}
		}
	}
	return differ
}

// MadeGroups parts the cells that something is poured into, by number, into
// groups of one glaze each: what is measured into the cups of a group is the
// same, whether it was asked to be or not.
func (t *Test) MadeGroups() [][]int {
	groups := map[string]int{}
	var all [][]int
	for i := range t.Cells {
		c := &t.Cells[i]
		if !c.Poured() {
			continue
		}
		made := t.sign(c, Measured)
		at, ok := groups[made]
		if !ok {
			at = len(all)
			groups[made] = at
			all = append(all, nil)
		}
		all[at] = append(all[at], c.Number)
	}
	return all
}

// sign is a text that two cells share when their shares or percentages are the
// same, but for what floating point leaves.
func (t *Test) sign(c *Cell, view View) string {
	const noise = 1e-8
	var text strings.Builder
	if view == Measured && t.Plan.Blend.Method == ByWeigh {
		for _, w := range c.Weighings {
			if w.Steps > 0 {
				fmt.Fprintf(&text, "%s %v %d ", w.Material, w.Addition, w.Steps)
			}
		}
		return text.String()
	}
	for _, d := range t.differences(c) {
		x := d.Asked
		if view == Measured {
			x = d.Got
		}
		fmt.Fprintf(&text, "%d ", int64(math.Round(x/noise)))
	}
	return text.String()
}
