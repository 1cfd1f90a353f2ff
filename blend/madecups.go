package blend

import "slices"

// Done is what really went into a cup, where that is other than what was to be
// measured.
type Done struct {
	Cup    int             // by number
	Poured map[int]float64 // by end: mL, or g where glazes are poured on a scale
	Dosed  map[int]float64 // by series: g, or mL of stock
}

// AsDone is the test with some of its cups as they were really made: what they
// hold, their shares, percentages and their ± follow from the amounts given.
// What the plan asks stays; t itself is not changed. Cups that the test does
// not have are left out, and so are doses that come with end glazes.
func (t *Test) AsDone(all []Done) *Test {
	as := *t
	as.Cells = slices.Clone(t.Cells)
	for _, done := range all {
		if done.Cup < 1 || done.Cup > len(as.Cells) {
			continue
		}
		c := &as.Cells[done.Cup-1]
		c.Pours, c.Doses, c.Weighings = slices.Clone(c.Pours), slices.Clone(c.Doses), slices.Clone(c.Weighings)
		for e, amount := range done.Poured {
			c.Pours[e].Other = true
			as.measure(c, e, amount)
		}
		for s := range c.Doses {
			if amount, given := done.Dosed[s]; given && as.Plan.Blend.Method == ByWeigh {
				reweigh(&as, c, s, amount)
			} else if given {
				as.measureDose(&c.Doses[s], amount)
			}
		}
		if as.Plan.Blend.Method != ByWeigh {
			as.tally(c)
		}
		as.plusMinus(c)
		as.label(c)
	}
	return &as
}
