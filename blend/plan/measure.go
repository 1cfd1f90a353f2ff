package plan

import (
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
)

// usualFillG is by how many g a pour that is stopped by eye on a scale is off.
const usualFillG = 1

// kit checks [measure].
func (f fields) kit() {
	k := &f.d.Kit
	k.Scale.Unit, k.Syringe.Unit = measure.Gram, measure.Millilitre
	k.FillG = usualFillG
	switch weight := f.d.Fill.Of == blend.Weight; {
	case f.d.Fill.Value == 0:
	case weight != k.OnScale():
		f.wrong("fill", "is not in the unit that you pour by, "+string(k.Pour.Unit),
			`how far off you stop: fill = "1 `+string(k.Pour.Unit)+`"`)
	case weight:
		k.FillG = f.d.Fill.Value
	default:
		k.Fill = f.d.Fill.Value
	}
	k.Defaults = f.defaults()
	if k.Fine.Size > 0 {
		k.Fine.Unit = measure.Gram
		if k.Scale.Size > 0 && k.Fine.Size >= k.Scale.Size {
			f.wrong("fine", "is not finer than the scale, "+k.Scale.String(),
				"the smaller step of a second scale, or leave it out")
		}
	}
	if k.Syringe.Size == 0 && f.d.Blend.Method == blend.ByStock {
		if _, err := quantity.Volume(f.get("syringe").text); err == nil { // one that was refused is not none
			f.wrong("syringe", `means none, but method = "stock" needs a syringe`, `its smallest mark: syringe = "1 mL"`)
		}
	}
}

// defaults is the keys of [measure] that were left out and have a default that
// the test uses, with its value: "scale 0.1 g".
func (f fields) defaults() []string {
	var unused []string
	if !isSeries(f.design) {
		unused = append(unused, "syringe")
	}
	switch method := f.d.Blend.Method; {
	case method == blend.ByWeigh:
		unused = append(unused, "pour", "extra", "syringe")
	case f.d.Cup.BatchG > 0 && (method == "" || method == blend.ByDose):
		unused = append(unused, "extra")
	}
	var all []string
	for _, k := range f.s.Keys {
		if k.Default != "" && !f.has(k.Name) && !slices.Contains(unused, k.Name) {
			all = append(all, k.Name+" "+strings.Trim(k.Default, `"`))
		}
	}
	return all
}
