package blend

import "pourboard/blend/oxide"

// Base is the slip that the additions of a series go into, before any of them
// is stirred in. Without a series it is the first end.
func (t *Test) Base() End { return t.base }

// PerShare is what a unit of an end's share brings into a cup: mL of slip, and
// of what the cup's size counts. A pour is size · share · ml / Σ share · cup.
func (t *Test) PerShare(end int) (ml, cup float64) {
	e, of := t.Ends[end], t.Plan.Cup.Size.Of
	u := e.per(t.basis())
	if t.Plan.Blend.HasSeries() {
		per := t.base.per(of)
		return u.ml, per.of(of) / per.recipe
	}
	return u.ml, u.of(of)
}

// EndVector is what 1 g of the dry matter (additions included) of an end fires to, by its recipe or
// as its batch is weighed. Missing names the materials without analysis in it;
// then the vector is zero.
func (t *Test) EndVector(end int, view View) (v oxide.Vector, missing []string) {
	return t.fired.ends[view][end], t.fired.missing[view][end]
}

// SeriesVector is EndVector for the material of a series.
func (t *Test) SeriesVector(series int) (v oxide.Vector, missing []string) {
	return t.fired.doses[series], t.fired.lacks[series]
}

// MaterialVector is EndVector for a gram of one material of the test.
func (t *Test) MaterialVector(name string) (v oxide.Vector, missing []string) {
	return t.library.Vector([]oxide.Part{{Material: name, Amount: 1}})
}

// SeriesDensity is the density of the grains of a series' material, g/mL.
func (t *Test) SeriesDensity(series int) float64 { return t.densities[series] }
