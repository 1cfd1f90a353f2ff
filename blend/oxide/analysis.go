package oxide

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"pourboard/blend/spell"
)

// Amount is how much there is of one oxide, in the unit that the field that
// holds it names.
type Amount struct {
	Oxide Oxide
	Value float64
}

// Analysis is what a raw material is made of. Oxides and LOI sum to about
// 100; the zero value stands for a material that is not known.
type Analysis struct {
	Oxides []Amount // weight % of the raw material, as fired oxides, in printing order
	LOI    float64  // weight % of the raw material lost on firing; negative when it gains
	NoLOI  bool     // no LOI was given: what lacks to 100 may burn off, or may not have been analysed
}

// A good analysis adds up to 100 % but for its rounding and what was not looked
// for (common practice, no source).
const (
	leastTotal = 97
	mostTotal  = 103
)

// AddsUp reports whether an analysis adds up to about 100 %, its LOI included.
func (a Analysis) AddsUp() bool {
	total := a.Total()
	return total >= leastTotal && total <= mostTotal
}

// Total is the sum of the oxides and the loss on firing, in weight %. What
// it lacks to 100 was not analysed.
func (a Analysis) Total() float64 {
	sum := a.LOI
	for _, x := range a.Oxides {
		sum += x.Value
	}
	return sum
}

// Empty reports whether nothing is known.
func (a Analysis) Empty() bool { return len(a.Oxides) == 0 && a.LOI == 0 }

// Of is the weight % of one oxide in the raw material.
func (a Analysis) Of(o Oxide) float64 { return Of(a.Oxides, o) }

// Of is how much of one oxide there is.
func Of(list []Amount, o Oxide) float64 {
	for _, x := range list {
		if x.Oxide == o {
			return x.Value
		}
	}
	return 0
}

// fromFormula is the analysis of a pure substance: its cations as fired
// oxides, and whatever its mass differs by as loss on firing.
func fromFormula(text string) (Analysis, error) {
	f, err := parseFormula(text)
	if err != nil {
		return Analysis{}, err
	}
	mass := f.molarMass()
	var percent [Count]float64
	for element, count := range f {
		i, ok := firedTo(element)
		if !ok && !slices.Contains(leaving, element) {
			return Analysis{}, fmt.Errorf("formula %q has %s, whose fired oxide is unknown", text, element)
		}
		if ok {
			percent[i] = 100 * count / oxides()[i].Cations * oxides()[i].molar / mass
		}
	}
	a := Analysis{Oxides: amounts(&percent, 1)}
	if loss := 100 - a.Total(); math.Abs(loss) > 1e-9 { // nothing is lost; the rest is rounding
		a.LOI = loss
	}
	return a, nil
}

// amounts lists the oxides present, each times a factor, in printing order.
func amounts(values *[Count]float64, factor float64) []Amount {
	var list []Amount
	for i, v := range values {
		if v != 0 {
			list = append(list, Amount{oxides()[i].Name, v * factor})
		}
	}
	return list
}

// otherForms are oxides that laboratories print and that are counted in
// another form here.
var otherForms = []string{
	"FeO", "Fe3O4", "MnO2", "Mn2O3", "Mn3O4", "Co3O4", "Co2O3", "Cu2O", "Ni2O3",
	"Pr6O11", "Pb3O4", "PbO2", "SnO", "Sb2O5", "V2O3", "CrO3", "Ce2O3", "Ti2O3", "UO2", "UO3",
	"CO2", "H2O", "SO3", "SO2",
}

// halogens are given as elements although their metals are given as oxides:
// what leaves is the halogen less the oxygen that takes its place.
var halogens = []string{"F", "Cl"}

// loiKey is how loss on ignition is called in an analysis.
const loiKey = "LOI"

// largestTotal is the largest sum that is read at all: far beyond it, figures are
// mistyped or not of the raw material.
const largestTotal = 105

// mostFired is more than any raw oxide can come to as the fired one.
const mostFired = 130

// ParseAnalysis checks a maker's own analysis, weight % of the raw material,
// and turns it into fired oxides. Keys are oxides, "F", "Cl" and "LOI";
// without "LOI" nothing more is taken to be lost than the figures say. CO2, H2O, SO3,
// F and Cl leave in firing besides LOI. With an error, wrong is the key at fault, ""
// for the analysis as a whole.
func ParseAnalysis(entries map[string]float64) (_ Analysis, wrong string, err error) {
	a, total := Analysis{NoLOI: true}, 0.0
	var percent [Count]float64
	for _, key := range slices.Sorted(maps.Keys(entries)) { // the same entry is reported every time
		name, v := plainFormula.Replace(strings.TrimSpace(key)), entries[key]
		i, known := Oxide(name).Place()
		isLoss := strings.EqualFold(name, loiKey)
		// A lower oxide that takes oxygen up is more than 100 % as fired: pure
		// Cu2O is 111 % CuO, with a loss below 0. The total is checked afterwards.
		least, most := 0.0, float64(mostFired)
		if isLoss {
			least, most = -100, 100
		}
		switch {
		case !(v >= least && v <= most):
			return Analysis{}, key, fmt.Errorf("%s = %v is not a percentage (from %v to 100)", key, v, least)
		case isLoss:
			a.NoLOI = false
			a.LOI += v
		case known:
			percent[i] += v
		case slices.Contains(halogens, name):
			v *= 1 - weights()["O"]/(2*weights()[name])
			a.LOI += v
		case slices.Contains(otherForms, name):
			fired, err := fromFormula(name)
			if err != nil {
				return Analysis{}, key, err
			}
			for _, x := range fired.Oxides {
				at, _ := x.Oxide.Place()
				percent[at] += v * x.Value / 100
			}
			a.LOI += v * fired.LOI / 100
		default:
			return Analysis{}, key, unknownOxide(key)
		}
		total += v
	}
	switch {
	case total > largestTotal:
		return Analysis{}, "", fmt.Errorf("the analysis adds up to %.4g %%, more than 100 %% "+
			"(check its figures; of the fired material, write analysis-of = \"fired\")", total)
	case total == 0:
		return Analysis{}, "", errors.New("the analysis is empty (give oxides in weight %, such as SiO2 = 46.5, and LOI)")
	}
	a.Oxides, a.LOI = amounts(&percent, 1), min(a.LOI, 100) // more is rounding, as in the total
	return a, "", nil
}

// unknownOxide is the error for a key that is not understood.
func unknownOxide(key string) error {
	names := []string{loiKey}
	for _, o := range Oxides() {
		names = append(names, string(o))
	}
	if near := spell.Nearest(key, append(names, otherForms...)); near != "" {
		return fmt.Errorf("%q is not an oxide (did you mean %s?)", key, near)
	}
	return fmt.Errorf("%q is not an oxide (write SiO2, CaO, … or LOI)", key)
}
