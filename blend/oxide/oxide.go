package oxide

import "sync"

// Oxide is a fired oxide's formula such as "SiO2".
type Oxide string

// Group is what an oxide does in a glaze.
type Group string

// The groups in printing order. The grouping is common practice, no source;
// the division into R2O and RO, R2O3, and RO2 is Seger's.
const (
	R2OFlux      Group = "R2O flux"
	ROFlux       Group = "RO flux"
	GlassFormer  Group = "glass former"
	Intermediate Group = "intermediate"
	Opacifier    Group = "opacifier"
	Colourant    Group = "colourant"
)

// Count is the number of fired oxides.
const Count = 39

// oxides lists the fired oxides in the order in which they are printed.
var oxides = [Count]struct {
	name    Oxide
	element string
	cations float64
	oxygens float64
	group   Group
}{
	{"Li2O", "Li", 2, 1, R2OFlux},
	{"Na2O", "Na", 2, 1, R2OFlux},
	{"K2O", "K", 2, 1, R2OFlux},
	{"Rb2O", "Rb", 2, 1, R2OFlux},
	{"MgO", "Mg", 1, 1, ROFlux},
	{"CaO", "Ca", 1, 1, ROFlux},
	{"SrO", "Sr", 1, 1, ROFlux},
	{"BaO", "Ba", 1, 1, ROFlux},
	{"ZnO", "Zn", 1, 1, ROFlux},
	{"PbO", "Pb", 1, 1, ROFlux},
	{"B2O3", "B", 2, 3, GlassFormer},
	{"Al2O3", "Al", 2, 3, Intermediate},
	{"SiO2", "Si", 1, 2, GlassFormer},
	{"P2O5", "P", 2, 5, GlassFormer},
	{"TiO2", "Ti", 1, 2, Opacifier},
	{"ZrO2", "Zr", 1, 2, Opacifier},
	{"HfO2", "Hf", 1, 2, Opacifier},
	{"SnO2", "Sn", 1, 2, Opacifier},
	{"Sb2O3", "Sb", 2, 3, Opacifier},
	{"CeO2", "Ce", 1, 2, Opacifier},
	{"Bi2O3", "Bi", 2, 3, Intermediate},
	{"La2O3", "La", 2, 3, Intermediate},
	{"Y2O3", "Y", 2, 3, Intermediate},
	{"Fe2O3", "Fe", 2, 3, Colourant},
	{"MnO", "Mn", 1, 1, Colourant},
	{"CoO", "Co", 1, 1, Colourant},
	{"NiO", "Ni", 1, 1, Colourant},
	{"CuO", "Cu", 1, 1, Colourant},
	{"Cr2O3", "Cr", 2, 3, Colourant},
	{"V2O5", "V", 2, 5, Colourant},
	{"Pr2O3", "Pr", 2, 3, Colourant},
	{"Nd2O3", "Nd", 2, 3, Colourant},
	{"Er2O3", "Er", 2, 3, Colourant},
	{"MoO3", "Mo", 1, 3, Colourant},
	{"WO3", "W", 1, 3, Colourant},
	{"Ag2O", "Ag", 2, 1, Colourant},
	{"CdO", "Cd", 1, 1, Colourant},
	{"SeO2", "Se", 1, 2, Colourant},
	{"U3O8", "U", 3, 8, Colourant},
}

// tables are what the list above comes to, by the places of the oxides in it.
type tables struct {
	molar   [Count]float64 // g/mol
	perGram [Count]float64 // mol/g
	places  map[Oxide]int
	firedTo map[string]int // the place of what an element is fired to
	unity   [2][]int       // places that the unity sum counts; second, with colourants of RO type
	alumina int            // the places of Al2O3
	silica  int            // and SiO2
}

// made holds the tables; they are read only.
var made = sync.OnceValue(func() *tables {
	t := &tables{places: map[Oxide]int{}, firedTo: map[string]int{}}
	weights := weights()
	for i, o := range oxides {
		t.molar[i] = o.cations*weights[o.element] + o.oxygens*weights["O"]
		t.perGram[i] = 1 / t.molar[i]
		switch {
		case o.group == R2OFlux, o.group == ROFlux:
			t.unity[0], t.unity[1] = append(t.unity[0], i), append(t.unity[1], i)
		case o.group == Colourant && o.cations == 1 && o.oxygens == 1:
			t.unity[1] = append(t.unity[1], i)
		}
		t.places[o.name] = i
		t.firedTo[o.element] = i
	}
	t.alumina, t.silica = t.places["Al2O3"], t.places["SiO2"]
	return t
})

// leaves reports whether an element leaves in firing.
func leaves(element string) bool {
	switch element {
	case "H", "C", "N", "O", "F", "S", "Cl":
		return true
	}
	return false
}

// Oxides lists the fired oxides in printing order.
func Oxides() []Oxide {
	list := make([]Oxide, Count)
	for i, o := range oxides {
		list[i] = o.name
	}
	return list
}

// Known reports whether o is one of the fired oxides of Oxides.
func (o Oxide) Known() bool { _, ok := o.Place(); return ok }

// Place is o's place in printing order, from 0; false when it is not known.
func (o Oxide) Place() (int, bool) { i, ok := made().places[o]; return i, ok }

// Group is what o does in a glaze, "" when it is not known.
func (o Oxide) Group() Group {
	if i, ok := o.Place(); ok {
		return oxides[i].group
	}
	return ""
}

// MolarMass is in g/mol (IUPAC 2021 atomic weights), 0 when o is not known.
func (o Oxide) MolarMass() float64 {
	if i, ok := o.Place(); ok {
		return made().molar[i]
	}
	return 0
}
