package plan

import (
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
)

// cup reads [cup].
func (f fields) cup() blend.Cup {
	const example = `[cup] with dry = "100 g"`
	if !f.has("cup") {
		f.missing(1, "the plan has no [cup]", "what goes into each cup: "+example+", volume or weight")
		return blend.Cup{}
	}
	c := f.group("cup")
	var cup blend.Cup
	var given []string
	for _, key := range []string{"dry", "volume", "weight"} {
		if c.has(key) {
			given = append(given, key)
		}
	}
	switch len(given) {
	case 0:
		c.missing(c.line, "[cup] does not say how much goes into each cup", `one of dry = "100 g", volume = "180 mL" or weight = "250 g"`)
	case 1:
	default:
		c.problem(c.at(given[1]), "a cup has "+listed(given, "and"), "keep one of them; the others follow from it")
	}
	const least, largest = 0.01, 100_000 // g or mL: a drop, a vat
	if g, ok := c.mass("dry", "100 g", least, largest); ok {
		cup.Size, cup.Of = g, blend.Dry
	}
	if ml, ok := c.volume("volume", "180 mL", least, largest); ok {
		cup.Size, cup.Of = ml, blend.Volume
	}
	if g, ok := c.mass("weight", "250 g", least, largest); ok {
		cup.Size, cup.Of = g, blend.Weight
	}
	cup.DiameterMM = c.length("diameter", "70 mm", 5, 2000)
	return cup
}

// The steps of instruments run from what a laboratory balance or pipette
// shows to what a bucket scale does.
const finest, coarsest = 0.0001, 1000

// kit reads [measure]; series says that the plan doses a base.
func (f fields) kit(series bool) measure.Kit {
	m := f.group("measure")
	k := measure.Kit{
		Scale:   measure.Step{Size: 0.1, Unit: measure.Gram},
		Pour:    measure.Step{Size: 5, Unit: measure.Millilitre},
		Syringe: measure.Step{Size: 1, Unit: measure.Millilitre},
		Extra:   0.10,
		Worst:   0.05,
	}
	k.Defaults = m.defaults(k, series)
	if g, ok := m.mass("scale", "0.1 g", finest, coarsest); ok {
		k.Scale.Size = g
	}
	if g, ok := m.mass("fine", "0.01 g", finest, coarsest); ok {
		k.Fine = measure.Step{Size: g, Unit: measure.Gram}
		if g >= k.Scale.Size {
			m.problem(m.at("fine"), "fine = "+quote(k.Fine.String())+" is no finer than the scale, "+k.Scale.String(), "the smaller step of a second scale, or leave it out")
		}
	}
	if g, ok := m.mass("capacity", "5 kg", finest, most); ok {
		k.Capacity = g
		if g < 10*k.Scale.Size {
			m.problem(m.at("capacity"), "capacity = "+quote(number(g)+" g")+" is less than ten steps of the scale, "+k.Scale.String(), `the most that the scale weighs, as in "5 kg"`)
		}
	}
	var pour Graduation
	if m.amount("pour", "5 mL", &pour) && m.within("pour", pour.Step.Size, finest, coarsest, string(pour.Step.Unit)) {
		k.Pour = pour.Step
	}
	if ml, ok := m.volume("syringe", "1 mL", finest, coarsest); ok {
		k.Syringe.Size = ml
	}
	k.Fill = m.some("fill", "3 mL")
	k.Dead = m.some("dead", "50 mL")
	k.Loss = m.some("loss", "0.5 mL")
	if v := m.get("extra"); v != nil {
		k.Extra = m.fraction(v, "extra", "10 %", 100)
	}
	if v := m.get("worst"); v != nil {
		k.Worst = m.fraction(v, "worst", "5 %", 50)
		if k.Worst == 0 {
			m.problem(v.line, "worst = "+shown(v)+" asks that nothing is ever off", `what you can live with, as in "5 %"`)
		}
	}
	return k
}

// some is a small volume that may be left out; 0 then.
func (f fields) some(key, example string) float64 {
	ml, ok := f.volume(key, example, finest, 10_000)
	if !ok {
		return 0
	}
	return ml
}

// fraction is a percentage with its sign, 0 to hi, as a fraction.
func (f fields) fraction(v *value, key, example string, hi float64) float64 {
	var p Percent
	if !f.amount(key, example, &p) {
		return 0.01 // told of already; what is reckoned with it is not used
	}
	if p.Fraction > hi/100 {
		f.problem(v.line, key+" = "+shown(v)+" will not do", "from 0 to "+number(hi)+" %")
	}
	return p.Fraction
}

// defaults is the keys that the plan leaves out, with what is taken for them.
func (f fields) defaults(k measure.Kit, series bool) []string {
	var list []string
	for _, line := range defaultLines(k) {
		key, _, _ := strings.Cut(line, " ")
		if !f.has(key) && (key != "syringe" || series) {
			list = append(list, line)
		}
	}
	return list
}

// defaultLines is every key of [measure] that has a default, with its value.
func defaultLines(k measure.Kit) []string {
	show := func(f float64) string { return number(shift(f, 2)) + " %" }
	return []string{
		"scale " + k.Scale.String(),
		"pour " + k.Pour.String(),
		"syringe " + k.Syringe.String(),
		"extra " + show(k.Extra),
		"worst " + show(k.Worst),
	}
}
