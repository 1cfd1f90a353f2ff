package plan

import (
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
)

// usualFillG is by how many g a pour that is stopped by eye on a scale is off.
const usualFillG = 1

// cup checks [cup].
func (f fields) cup(d *draft) {
	const sizes = `dry = "100 g", volume = "180 mL", weight = "250 g" or batch = "1000 g"`
	if f.t == nil {
		f.missing(1, "the plan has no [cup]", "what goes into each cup: [cup] with "+sizes)
		return
	}
	cup := &d.plan.Cup
	var given []string
	for _, key := range []string{"dry", "volume", "weight", "batch"} {
		if f.has(key) {
			given = append(given, key)
		}
	}
	switch {
	case len(given) == 0:
		f.missing(f.line, "[cup] does not say how much goes into each cup", "one of "+sizes)
	case len(given) > 1:
		f.problem(f.at(given[1]), "[cup] has "+listed(given, "and"), "keep one of them; the others follow")
	}
	switch {
	case d.volume > 0:
		cup.Size, cup.Of = d.volume, blend.Volume
	case d.weight > 0:
		cup.Size, cup.Of = d.weight, blend.Weight
	default:
		cup.Size, cup.Of = d.dry, blend.Dry
	}
}

// kit checks [measure].
func (f fields) kit(d *draft) {
	k := &d.plan.Kit
	k.Scale.Unit, k.Syringe.Unit = measure.Gram, measure.Millilitre
	k.Fill, k.FillG = d.fill.ml, usualFillG
	if d.fill.g > 0 {
		k.FillG = d.fill.g
	}
	for _, line := range defaultLines(d) {
		key, _, _ := strings.Cut(line, " ")
		if !f.has(key) && (key != "syringe" || strings.HasSuffix(f.design, "-series") || f.design == string(blend.Rows)) {
			k.Defaults = append(k.Defaults, line)
		}
	}
	if k.Fine.Size > 0 {
		k.Fine.Unit = measure.Gram
		if k.Fine.Size >= k.Scale.Size {
			f.problem(f.at("fine"), f.shown("fine")+" is not finer than the scale, "+k.Scale.String(), "the smaller step of a second scale, or leave it out")
		}
	}
	if k.Capacity > 0 && k.Capacity < 10*k.Scale.Size {
		f.problem(f.at("capacity"), f.shown("capacity")+" is less than ten steps of the scale, "+k.Scale.String(), `the most that the scale weighs, as in "5 kg"`)
	}
	if d.fill.ml > 0 && k.Pour.Unit == measure.Gram {
		f.problem(f.at("fill"), f.shown("fill")+" is a volume, and you pour on a scale", `how far off you stop, in g: fill = "1 g"`)
	}
	if d.fill.g > 0 && k.Pour.Unit == measure.Millilitre {
		f.problem(f.at("fill"), f.shown("fill")+" is a weight, and you pour by volume", `how far off a cup is filled, in mL: fill = "3 mL"`)
	}
}

// defaultLines is every key of [measure] that has a default, with its value:
// "scale 0.1 g".
func defaultLines(d *draft) []string {
	var all []string
	s := section("measure")
	for i := range s.Keys {
		if k := &s.Keys[i]; k.Default != "" {
			all = append(all, k.Name+" "+strings.Trim(k.form.codec().write(k.at(d)), `"`))
		}
	}
	return all
}
