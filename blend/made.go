package blend

import "slices"

// What a cup holds as it was measured follows from three things that are
// printed to be measured: its pours, its doses, and what its slips are weighed
// from. The last is known as soon as the ticket of a batch is: a material is on
// it in whole steps of a scale, and 0.5 % of it that comes to 0.52 % there is
// in every cup that the batch is poured into. What it does to the composition
// is therefore in what a cup is made of (Measured), and not in its ±, which is
// of readings alone: that the scale shows what stands on the ticket, to within
// its step.
//
// How much dry matter a mL of slip holds stays as it is planned, for the slip's
// gravity is taken when it is mixed, and water or slip added until it is right.

// weighedIn works out the dry matter of each end as its batch is weighed, and
// in a series that is poured what that makes of the cups. A batch that is not
// weighed, or is there already, is taken to be as its recipe says.
func (t *Test) weighedIn() {
	t.made = make([]End, len(t.Ends))
	for i, e := range t.Ends {
		b, whole := &t.Batches[i], e.OverHundred()
		e.Recipe, e.Additions = slices.Clone(e.Recipe), slices.Clone(e.Additions)
		for k := range len(e.Recipe) + len(e.Additions) {
			p := e.part(k)
			if b.Mixed || b.WeighedG == 0 {
				p.Amount /= whole
				continue
			}
			g, _ := b.weighed(k, t.Plan.Kit)
			p.Amount = g / b.WeighedG
		}
		t.made[i] = e
	}
	if t.Plan.Blend.Method != ByPour || !t.Plan.Blend.HasSeries() {
		return
	}
	for i := range t.Cells {
		c := &t.Cells[i]
		c.Got.base = 0
		for e, p := range c.Pours {
			dry := t.PourDry(e, p, Measured)
			c.Got.base += dry / t.madePerBase(e)
			for s := range c.Doses {
				c.Doses[s].MeasuredG += dry * t.SeriesMade(e, s)
			}
		}
		for s := range c.Doses {
			if d := &c.Doses[s]; c.Got.base > 0 {
				d.GotPercent = 100 * d.MeasuredG / c.Got.base
			}
		}
	}
}

// part is one of the recipe and then the additions of an end.
func (e End) part(i int) *Part {
	if i < len(e.Recipe) {
		return &e.Recipe[i]
	}
	return &e.Additions[i-len(e.Recipe)]
}

// Made is what 1 g of the dry matter of an end is made of as its batch is
// weighed, in g.
func (t *Test) Made(end int) (recipe, additions []Part) {
	return t.made[end].Recipe, t.made[end].Additions
}

// SeriesMade is the g of a series' material in 1 g of the dry matter of an end slip
// as it is weighed.
func (t *Test) SeriesMade(end, series int) float64 {
	if t.Ends[end].Percents[series] == 0 {
		return 0
	}
	return t.made[end].part(t.SeriesPart(end, series)).Amount
}

// madePerBase is End.PerBase as the batch is weighed; infinite where a coarse
// scale leaves nothing of the base.
func (t *Test) madePerBase(end int) float64 {
	made, base := t.made[end], 0.0
	if len(made.Percents) == 0 {
		return 1
	}
	for i := range len(made.Recipe) + len(t.base.Additions) {
		base += made.part(i).Amount
	}
	return 1 / base
}
