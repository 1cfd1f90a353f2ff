package oxide

// LeastMol is how many mol of an oxide some unity formula must have for the
// oxide to be shown with a column of its own: 0.1 % of cobalt carbonate in a
// usual glaze is a little more.
const LeastMol = 0.002

// Columns parts the oxides that some cup has into those that get a column and
// the traces that are named only, both in printing order.
func Columns(cups []Chemistry) (shown, traces []Oxide) {
	var most [Count]float64
	for _, c := range cups {
		for _, a := range c.Unity {
			i, _ := a.Oxide.Place()
			most[i] = max(most[i], a.Value)
		}
	}
	for i, o := range oxides() {
		switch {
		case most[i] >= LeastMol:
			shown = append(shown, o.Name)
		case most[i] > 0:
			traces = append(traces, o.Name)
		}
	}
	return shown, traces
}

// Chemistry is what a dry mix is after firing. Amounts are in printing order,
// without the oxides that it does not have.
type Chemistry struct {
	WeightPercent []Amount // of the fired mix, sums to 100
	MolPercent    []Amount // of the fired mix, sums to 100
	LOI           float64  // % of the dry mix
	Unity         []Amount // mol, R2O + RO = 1; nil when there is no flux
	SiAl          float64  // SiO2 : Al2O3 in mol; 0 when there is no Al2O3
	Missing       []string // materials without analysis (see Library.Vector); when there are any, nothing else is filled
}

// trace is the fraction up to which something counts as not there when other
// oxides are divided by it.
const trace = 1e-9

// Chemistry is what the mix is after firing. The sum of R2O + RO counts MnO, CoO,
// NiO, CuO and CdO when colourants is true.
func (v *Vector) Chemistry(colourants bool) Chemistry {
	var mol [Count]float64
	mass, moles, flux := 0.0, 0.0, 0.0
	for i, o := range oxides() {
		mol[i] = v.G[i] / o.molar
		mass += v.G[i]
		moles += mol[i]
		if o.Group == R2OFlux || o.Group == ROFlux || colourants && o.Group == Colourant && o.Cations == 1 && o.Oxygens == 1 {
			flux += mol[i]
		}
	}
	c := Chemistry{LOI: 100 * v.Loss}
	if !(mass > trace) {
		return c
	}
	c.WeightPercent, c.MolPercent = amounts(&v.G, 100/mass), amounts(&mol, 100/moles)
	if flux > trace*moles {
		c.Unity = amounts(&mol, 1/flux)
	}
	if alumina := Of(c.MolPercent, "Al2O3"); alumina > 100*trace {
		c.SiAl = Of(c.MolPercent, "SiO2") / alumina
	}
	return c
}
