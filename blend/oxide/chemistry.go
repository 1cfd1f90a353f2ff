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
	for i, o := range oxides {
		switch {
		case most[i] >= LeastMol:
			shown = append(shown, o.name)
		case most[i] > 0:
			traces = append(traces, o.name)
		}
	}
	return shown, traces
}

// Options are the conventions that a maker can choose.
type Options struct {
	ColourantsInUnity bool // count MnO, CoO, NiO, CuO and CdO in the sum of R2O + RO
}

// Chemistry is what a dry mix is after firing. Amounts are in printing order
// and leave out oxides that there are none of.
type Chemistry struct {
	WeightPercent []Amount // of the fired mix, sums to 100
	MolPercent    []Amount // of the fired mix, sums to 100
	LOI           float64  // % of the dry mix
	Unity         []Amount // mol, R2O + RO = 1; nil when there is no flux
	SiAl          float64  // SiO2 : Al2O3 in mol; 0 when there is no Al2O3
	Missing       []string // materials without analysis (see Library.Vector); when there are any, nothing else is filled
}

// Chemistry is what the mix is after firing.
func (v *Vector) Chemistry(opt Options) Chemistry {
	var r Row
	r.Fill(v, opt)
	return r.Chemistry()
}

// Row is a Chemistry by the places of the oxides, to be filled again and
// again for rows that are written one by one.
type Row struct {
	Weight [Count]float64 // % of the fired mix
	Mol    [Count]float64 // % of the fired mix
	Unity  [Count]float64 // mol, R2O + RO = 1; all 0 when there is no flux
	LOI    float64        // % of the dry mix
	SiAl   float64        // mol SiO2 per mol Al2O3; 0 when there is no Al2O3
}

// trace is the fraction up to which something counts as not there when other
// oxides are divided by it.
const trace = 1e-9

// Fill works out the row of a mix. It allocates nothing.
func (r *Row) Fill(v *Vector, opt Options) {
	tables := made()
	perGram := &tables.perGram
	mass, moles := 0.0, 0.0
	for i, g := range v.G {
		mass += g
		moles += g * perGram[i]
	}
	if !(mass > trace) {
		*r = Row{LOI: 100 * v.Loss}
		return
	}
	counted := tables.unity[0]
	if opt.ColourantsInUnity {
		counted = tables.unity[1]
	}
	flux := 0.0
	for _, i := range counted {
		flux += v.G[i] * perGram[i]
	}
	r.LOI, r.SiAl = 100*v.Loss, 0
	least := trace * moles
	if alumina := v.G[tables.alumina] * perGram[tables.alumina]; alumina > least {
		r.SiAl = v.G[tables.silica] * perGram[tables.silica] / alumina
	}
	toUnity := 0.0
	if flux > least {
		toUnity = 1 / flux
	}
	for i, g := range v.G {
		n := g * perGram[i]
		r.Weight[i], r.Mol[i], r.Unity[i] = 100*g/mass, 100*n/moles, n*toUnity
	}
}

// Chemistry is the row as a list of the oxides present.
func (r *Row) Chemistry() Chemistry {
	return Chemistry{
		WeightPercent: amounts(&r.Weight),
		MolPercent:    amounts(&r.Mol),
		LOI:           r.LOI,
		Unity:         amounts(&r.Unity),
		SiAl:          r.SiAl,
	}
}
