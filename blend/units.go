package blend

import "pourboard/blend/oxide"

// PerShare is what a unit of an end's share brings into a cup: mL of slip, and
// of what the cup's size counts. A pour is size · share · ml / Σ share · cup.
func (t *Test) PerShare(end int) (ml, cup float64) {
	e, of := t.Ends[end], t.Plan.Cup.Size.Of
	u := e.per(t.basis())
	if t.Plan.Blend.HasSeries() {
		per := t.Base.per(of)
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
