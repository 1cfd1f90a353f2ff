package pourbook

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/render/xlsx"
)

// writeMade writes how much dry matter comes with a gram of recipe of each glaze as it
// is weighed, or of each colourant; where cups are weighed dry, how much of each
// material does.
func (b *pourBook) writeMade() {
	if !b.weigh {
		b.glazeRow("Dry matter, g", "", "Dry_part", func(e int) value {
			end, made := b.t.Ends[e], b.t.AsWeighed[e]
			if end.Bucket {
				return value{"", 1}
			}
			var all []int
			sum := 0.0
			for k, p := range slices.Concat(made.Recipe, made.Additions) {
				all, sum = append(all, k), sum+p.Percent/100
			}
			return value{b.partOf(e, 1+end.Over, all...), sum}
		}, func(int) value { return value{"", 1} })
		return
	}
	for k, m := range b.dry {
		b.glazeRow(materialHead(m)+", g", "", name("Material", k), func(e int) (v value) {
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
		}, nil)
	}
}

// partOf is the formula for some materials of a batch with a gram of its recipe,
// as they are weighed; exact where nothing is.
func (b *pourBook) partOf(e int, exact float64, materials ...int) string {
	w := b.weighed[e]
	if w.recipe == 0 || materials == nil {
		return ""
	}
	var sum []string
	for _, i := range materials {
		sum = append(sum, fmt.Sprintf("Batches!$C$%d", w.first+i))
	}
	whole := fmt.Sprintf("SUM(Batches!$C$%d:$C$%d)", w.first, w.first+w.recipe-1)
	return fmt.Sprintf("IF(AND(%[1]s=0,%[2]s>0),(%[3]s)/%[2]s,%[4]s)", name("Mixed", e), whole, strings.Join(sum, "+"), xlsx.Literal(exact))
}

// writeBrought writes what the end glazes hold of a colourant as they are
// weighed, and how far off that can be.
func (b *pourBook) writeBrought(i int, material string) {
	t := b.t
	b.glazeRow(material+" as weighed, g with 1 g of recipe", "", name("Brings", i), func(e int) value {
		v := value{"", t.AsWeighed[e].Percents[i] / 100}
		if p := t.Ends[e].Percents[i]; p != 0 {
			v.formula = b.partOf(e, p/100, t.Ends[e].SeriesPart(i))
		}
		return v
	}, nil)
	b.glazeRow(material+", its ± there, relative", "", name("Batch_off", i), func(e int) value {
		if t.Ends[e].Percents[i] == 0 || b.poured[e] == 0 {
			return value{"", 0}
		}
		row := b.weighed[e].first + t.Ends[e].SeriesPart(i)
		weigh := fmt.Sprintf("Batches!$C$%d", row)
		cell := fmt.Sprintf("IF(Batches!$%s$%d=1,Fine_step,Scale_step)", xlsx.Letters(apartColumn), row)
		g, step := loads(t.Ends[e], t.Batches[e])[t.Ends[e].SeriesPart(i)], t.Plan.Kit.Scale
		if g.apart {
			step = t.Plan.Kit.Fine
		}
		off := 0.0
		if g.g > 0 {
			off = step.Tared() / g.g * t.AsWeighed[e].Percents[i] / 100
		}
		return value{fmt.Sprintf("IF(%[1]s>0,%[2]s/%[1]s,0)*INDEX(%[3]s,%[4]d)", weigh, tared(cell), name("Brings", i), e+1), off}
	}, nil)
}
