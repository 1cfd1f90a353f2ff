package pourbook

import (
	"fmt"

	"pourboard/render/xlsx"
)

// writeMaterialParts writes how much of each material comes with a gram of recipe of
// each glaze, where cups are weighed dry.
func (b *pourBook) writeMaterialParts() {
	for k, m := range b.dry {
		b.namedRow(name("Material", k), materialHead(m)+", g", func(e int) (v value) {
			parts := b.t.Ends[e].Recipe
			if m.Addition {
				parts = b.t.Ends[e].Additions
			}
			for _, p := range parts {
				if p.Material == m.Material {
					v.value += p.Percent / 100
				}
			}
			return v
		})
	}
}

// writeBrought writes what the end glazes hold of a colourant as they are
// weighed, and how far off that can be.
func (b *pourBook) writeBrought(i int, material string) {
	t := b.t
	percent := func(e int) float64 { return t.Ends[e].Percents[i] }
	cell := func(e int) string { return fmt.Sprintf("Batches!$C$%d", b.weighed[e].first+t.Ends[e].SeriesPart(i)) }
	b.namedRow(name("Brings", i), material+" as weighed, g with 1 g of recipe", func(e int) value {
		v := value{"", t.AsWeighed[e].Percents[i] / 100}
		if w := b.weighed[e]; w.recipe > 0 && percent(e) != 0 {
			whole := fmt.Sprintf("SUM(Batches!$C$%d:$C$%d)", w.first, w.first+w.recipe-1)
			v.formula = fmt.Sprintf("IF(AND(%[1]s=0,%[2]s>0),%[3]s/%[2]s,%[4]s)",
				name("Mixed", e), whole, cell(e), xlsx.Literal(percent(e)/100))
		}
		return v
	})
	b.namedRow(name("Batch_off", i), material+", its ± there, relative", func(e int) value {
		if percent(e) == 0 || b.poured[e] == 0 {
			return value{}
		}
		part := t.Ends[e].SeriesPart(i)
		step := fmt.Sprintf("IF(Batches!$H$%d=1,Fine_step,Scale_step)", b.weighed[e].first+part)
		load, scale, off := loads(t.Ends[e], t.Batches[e])[part], t.Plan.Kit.Scale, 0.0
		if load.apart {
			scale = t.Plan.Kit.Fine
		}
		if load.g > 0 {
			off = scale.Tared() / load.g * t.AsWeighed[e].Percents[i] / 100
		}
		return value{fmt.Sprintf("IF(%[1]s>0,%[2]s/%[1]s,0)*INDEX(%[3]s,%[4]d)",
			cell(e), tared(step), name("Brings", i), e+1), off}
	})
}
