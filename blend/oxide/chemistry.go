package oxide

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
	Missing       []string // materials without analysis; when there are any, nothing else is filled
}

// Of is the chemistry of a dry mix, in parts or grams.
func (l Library) Of(parts []Part, opt Options) Chemistry {
	v, missing := l.Vector(parts)
	if len(missing) > 0 {
		return Chemistry{Missing: missing}
	}
	return v.Chemistry(opt)
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

var (
	placeSiO2  = mustPlace("SiO2")
	placeAl2O3 = mustPlace("Al2O3")
)

func mustPlace(o Oxide) int {
	for i := range oxides {
		if oxides[i].name == o {
			return i
		}
	}
	panic("no such oxide: " + string(o))
}

// trace is the fraction up to which something counts as not there when other
// oxides are divided by it.
const trace = 1e-9

// Fill works out the row of a mix. It allocates nothing.
func (r *Row) Fill(v *Vector, opt Options) {
	counted := &unitySum[0]
	if opt.ColourantsInUnity {
		counted = &unitySum[1]
	}
	mass, moles, flux := 0.0, 0.0, 0.0
	for i, g := range v.G {
		n := g * perGram[i]
		r.Mol[i] = n
		mass += g
		moles += n
		flux += n * counted[i]
	}
	if !(mass > trace) {
		*r = Row{LOI: 100 * v.Loss}
		return
	}
	r.LOI, r.SiAl = 100*v.Loss, 0
	least := trace * moles
	if al := r.Mol[placeAl2O3]; al > least {
		r.SiAl = r.Mol[placeSiO2] / al
	}
	toWeight, toMol, toUnity := 100/mass, 100/moles, 0.0
	if flux > least {
		toUnity = 1 / flux
	}
	for i, n := range r.Mol {
		r.Weight[i] = v.G[i] * toWeight
		r.Unity[i] = n * toUnity
		r.Mol[i] = n * toMol
	}
}

// Chemistry is the row as a list of the oxides that there are.
func (r *Row) Chemistry() Chemistry {
	return Chemistry{
		WeightPercent: amounts(&r.Weight),
		MolPercent:    amounts(&r.Mol),
		LOI:           r.LOI,
		Unity:         amounts(&r.Unity),
		SiAl:          r.SiAl,
	}
}
