package text

import "pourboard/blend"

type (
	// mix is a colourant ground with dry base, for doses that are too small.
	mix struct {
		Material   string        `json:"material"`
		Parts      int           `json:"parts"`
		ColourantG number        `json:"colourant_g"`
		BaseG      number        `json:"base_dry_g"`
		Doses      []dilutedDose `json:"doses"`
	}
	dilutedDose struct {
		Percent   number `json:"percent"`
		Cells     []int  `json:"cells"`
		MixG      number `json:"mix_g"`
		BaseG     number `json:"base_dry_g"`
		PourLess  number `json:"pour_less"`
		TakeOutG  number `json:"take_out_g"`
		WaterG    number `json:"water_g"`
		PlusMinus number `json:"plus_minus_percent"`
	}
)

// jsonMixes are the mixes of a test; pour_less is in the pouring instrument's
// unit, take_out_g is wet glaze.
func jsonMixes(t *blend.Test) []mix {
	var all []mix
	for _, d := range t.Dilutions {
		m := mix{Material: t.Plan.Blend.Series[d.Series].Material, Parts: d.Parts, ColourantG: number(d.ColourantG), BaseG: number(d.BaseG)}
		for _, x := range d.Doses {
			m.Doses = append(m.Doses, dilutedDose{number(x.Percent), x.Cups, number(x.MixG), number(x.BaseG),
				number(t.Plan.Kit.Pour.Amount(x.LessSteps)), number(x.LessG), number(x.WaterG), number(x.PlusMinus * x.Percent)})
		}
		all = append(all, m)
	}
	return all
}
