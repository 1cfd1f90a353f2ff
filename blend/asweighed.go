package blend

import (
	"slices"

	"pourboard/blend/measure"
)

// What a cup holds as it was measured follows from three things that are
// printed to be measured: its pours, its doses, and what its slips are weighed
// from. The last is known as soon as the ticket of a batch is: a material is on
// it in whole steps of a scale, and 0.5 % of it that comes to 0.52 % there is
// in every cup that the batch is poured into. What it does to the composition
// is therefore in what a cup is made of (Measured), and not in its ±, which is
// of readings alone: that the scale shows what is on the ticket, to within
// its step.
//
// How much recipe a mL of wet glaze holds stays as it is planned, for the SG is
// taken when it is mixed, and water or glaze added until it is right.

// weighedIn works out the recipe and the additions of each end as its batch is
// weighed, and in a series that is poured what that makes of the cups. A batch
// that is not weighed, or is there already, is taken to be as its recipe says.
func (t *Test) weighedIn() {
	t.AsWeighed = make([]End, len(t.Ends))
	for i, e := range t.Ends {
		t.AsWeighed[i] = t.Batches[i].made(e, t.Plan.Kit)
	}
	if t.Plan.Blend.Method != ByPour || !t.Plan.Blend.HasSeries() {
		return
	}
	for i := range t.Cells {
		for s := range t.Cells[i].Doses {
			t.addDose(&t.Cells[i], s)
		}
	}
}

// made is an end with its recipe and additions as its batch is weighed. A scale
// that weighs nothing of the recipe leaves it as asked.
func (b *Batch) made(e End, kit measure.Kit) End {
	weighed := e
	weighed.Recipe, weighed.Additions = slices.Clone(e.Recipe), slices.Clone(e.Additions)
	whole := 0.0
	for k := range len(e.Recipe) + len(e.Additions) {
		g, _ := b.weighed(k, kit)
		weighed.part(k).Percent = g
		if k < len(e.Recipe) {
			whole += g
		}
	}
	if b.Mixed || whole == 0 {
		return e
	}
	for k := range len(e.Recipe) + len(e.Additions) {
		weighed.part(k).Percent *= 100 / whole
	}
	weighed.Over = over(weighed.Additions)
	return weighed
}

// part is one of the recipe and then the additions of an end.
func (e End) part(i int) *Part {
	if i < len(e.Recipe) {
		return &e.Recipe[i]
	}
	return &e.Additions[i-len(e.Recipe)]
}

// SeriesMade is the percentage of a series' material over the recipe of an end
// glaze as it is weighed.
func (t *Test) SeriesMade(end, series int) float64 {
	if t.Ends[end].Percents[series] == 0 {
		return 0
	}
	return t.AsWeighed[end].part(t.SeriesPart(end, series)).Percent
}

// pourDry is the dry matter that a pour of an end brings, in g; of a measured
// one with additions as they are weighed.
func (t *Test) pourDry(end int, p Pour, view View) float64 {
	if view == Measured {
		return p.GotRecipeG * (1 + t.AsWeighed[end].Over)
	}
	return p.DryG
}
