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
// What the plan asks stays; t itself is not changed. Cups that the test has not
// are left out, and so are doses that come with end glazes.
func (t *Test) AsDone(all []Done) *Test {
	as := *t
	as.Cells = slices.Clone(t.Cells)
	j := newPlusMinus(&as)
	for _, done := range all {
		if done.Cup < 1 || done.Cup > len(as.Cells) {
			continue
		}
		c := &as.Cells[done.Cup-1]
		c.Pours, c.Doses = slices.Clone(c.Pours), slices.Clone(c.Doses)
		if as.Plan.Blend.Method == ByWeigh {
			as.reweigh(c, done)
			continue
		}
		c.Got, c.AsMade = Got{}, false
		for e, amount := range done.Poured {
			p := &c.Pours[e]
			p.Other, p.Measured, p.Steps = true, amount, as.Plan.Kit.Pour.Count(amount)
		}
		as.tally(c)
		for e, p := range c.Pours {
			c.Got.DryG += as.pourDry(e, p, Measured)
		}
		for s := range c.Doses {
			if amount, given := done.Dosed[s]; given && as.Dosed() {
				as.measureDose(&c.Doses[s], amount)
			}
			as.addDose(c, s)
		}
		if c.Got.ML > 0 {
			c.Got.SG = c.Got.G / c.Got.ML
		}
		j.cell(c)
		as.label(c)
	}
	return &as
}
