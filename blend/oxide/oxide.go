package oxide

import (
	_ "embed"
	"encoding/json"
	"sync"
)

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

// oxidesText lists the fired oxides in the order in which they are printed.
//
//go:embed oxides.json
var oxidesText []byte

// weightsText has standard atomic weights in g/mol: Prohaska et al., Standard atomic
// weights of the elements 2021 (IUPAC Technical Report), Pure Appl. Chem. 94
// (2022) 573-600, Table 1. Where that table gives an interval, its abridged
// value is used (H, Li, B, C, N, O, Mg, Si, S, Cl, Pb).
//
//go:embed weights.json
var weightsText []byte

// weights are the atomic weights by symbol; made when first asked for, like all
// tables here, because most commands never do.
var weights = sync.OnceValue(func() (all map[string]float64) {
	if err := json.Unmarshal(weightsText, &all); err != nil {
		panic(err) // a test reads it
	}
	return all
})

// firedOxide is an oxide as it is after firing.
type firedOxide struct {
	Name             Oxide
	Element          string
	Cations, Oxygens float64
	Group            Group

	molar float64 // g/mol
}

// oxides are the fired oxides.
var oxides = sync.OnceValue(func() []firedOxide {
	list := read[firedOxide](oxidesText)
	for i, o := range list {
		list[i].molar = o.Cations*weights()[o.Element] + o.Oxygens*weights()["O"]
	}
	return list
})

// places are those of the oxides in printing order, by name and by the element
// that is fired to each.
var places = sync.OnceValues(func() (ofOxide map[Oxide]int, ofElement map[string]int) {
	ofOxide, ofElement = map[Oxide]int{}, map[string]int{}
	for i, o := range oxides() {
		ofOxide[o.Name], ofElement[o.Element] = i, i
	}
	return ofOxide, ofElement
})

// firedTo is the place of what an element is fired to.
func firedTo(element string) (int, bool) {
	_, ofElement := places()
	i, ok := ofElement[element]
	return i, ok
}

// leaving are the elements that leave in firing.
var leaving = []string{"H", "C", "N", "O", "F", "S", "Cl"}

// Oxides lists the fired oxides in printing order.
func Oxides() []Oxide {
	var list []Oxide
	for _, o := range oxides() {
		list = append(list, o.Name)
	}
	return list
}

// Place is o's place in printing order, from 0; false when it is not known.
func (o Oxide) Place() (int, bool) {
	ofOxide, _ := places()
	i, ok := ofOxide[o]
	return i, ok
}

// Group is what o does in a glaze, "" when it is not known.
func (o Oxide) Group() Group {
	if i, ok := o.Place(); ok {
		return oxides()[i].Group
	}
	return ""
}
