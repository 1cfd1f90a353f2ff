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

// made is an end with its recipe, additions and percents as its batch is weighed.
// A batch that is not weighed, or is there already, and one of whose recipe the
// scale weighs nothing, is taken to be as its recipe says.
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
	weighed.Percents = slices.Clone(e.Percents)
	for s, p := range e.Percents {
		if p != 0 {
			weighed.Percents[s] = weighed.part(e.SeriesPart(s)).Percent
		}
	}
	return weighed
}

// part is one of the recipe and then the additions of an end.
func (e End) part(i int) *Part {
	if i < len(e.Recipe) {
		return &e.Recipe[i]
	}
	return &e.Additions[i-len(e.Recipe)]
}
