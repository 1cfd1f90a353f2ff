package blend

import "slices"

// Shopping is every raw material of the test with all that is weighed of it,
// in g: for the batches, the stocks, the doses and the cups, in the order in
// which it is first needed. Batches that are mixed already need none.
func (t *Test) Shopping() []Mass {
	var list []Mass
	add := func(material string, g float64) { list = addMass(list, material, g) }
	for _, b := range t.Batches {
		if b.Mixed {
			continue
		}
		for _, w := range slices.Concat(b.Weighings, b.Apart) {
			add(w.Material, w.G)
		}
	}
	for _, s := range t.Stocks {
		add(s.Material, s.G)
	}
	for _, c := range t.Cells {
		if t.Plan.Blend.Method == ByDose {
			for i, d := range c.Doses {
				add(t.Plan.Blend.Series[i].Material, d.MeasuredG)
			}
		}
		for _, w := range c.Weighings {
			add(w.Material, t.Plan.Kit.Dosing().Amount(w.Steps))
		}
	}
	return list
}
