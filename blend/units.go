package blend

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
