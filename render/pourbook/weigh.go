package pourbook

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/render/xlsx"
)

// A cup that is weighed dry has a card of its own: cups down, materials across,
// each until the scale reads its figure. Nothing is mixed or poured.

// materialHead is how a material is called over its columns.
func materialHead(m blend.DryMaterial) string {
	if m.Addition {
		return "+ " + m.Material
	}
	return m.Material
}

// weighing is where a material comes in a cup, from 0, and its weighing; -1 where
// the cup has none of it.
func (b *pourBook) weighing(cup int, m blend.DryMaterial) (at int, w blend.CupWeighed) {
	all := b.t.Cells[cup].Weighings
	at = slices.IndexFunc(all, func(w blend.CupWeighed) bool { return w.Material == m.Material && w.Addition == m.Addition })
	if at >= 0 {
		w = all[at]
	}
	return at, w
}

// before is the keys of columns of what is weighed into a cup before a place.
func (b *pourBook) before(cup, at int, what string) (keys []string) {
	for _, w := range b.t.Cells[cup].Weighings[:at] {
		keys = append(keys, key(what, slices.Index(b.dry, blend.DryMaterial{Material: w.Material, Addition: w.Addition})))
	}
	return keys
}

// addWeighings adds what is weighed into a cup to the card: the readings, the water,
// and, for the screen, what each material weighs.
func (b *pourBook) addWeighings() {
	g, scale := &b.card, b.t.Plan.Kit.Dosing()
	for k, m := range b.dry {
		b.addWeighing(k, column{key: fmt.Sprint("reads", k+1), head: materialHead(m) + "\nreads, g", width: 11, look: xlsx.Measured, format: formatOf(scale),
			value: func(i int) float64 { _, w := b.weighing(i, m); return w.ReadingG }}, func(i, at int) string {
			return measured(strings.Join(append(b.before(i, at, "exact"), key("exact", k)), "+"), "Dose_step")
		})
		b.addOther("reads", k, nil)
	}
	b.add(g, column{key: "water", head: "Water\ng", width: 11, look: xlsx.Measured, format: "0",
		formula: measured(b.waterToWeigh(), "1"), value: func(i int) float64 { return b.t.Cells[i].WaterG }})
	b.add(g, column{head: "tick", width: 5, field: true, format: xlsx.General})
}

// addWeighing adds a column of a material to the card, with a dash in cups that have
// none of it; the formula is for where it comes in a cup.
func (b *pourBook) addWeighing(k int, c column, formula func(cup, at int) string) {
	c.dash = func(i int) bool { at, _ := b.weighing(i, b.dry[k]); return at < 0 }
	c.formulaAt = func(i int) string {
		if at, _ := b.weighing(i, b.dry[k]); at >= 0 {
			return formula(i, at)
		}
		return ""
	}
	b.add(&b.card, c)
}

// weighOff is the formula for the ± of a material's percentage of the recipe, in
// points. A weighing lies between two readings that its neighbours share, so the
// sum of squares goes over readings (blend.Test, judgeWeighed): beside the
// material's own two, those before the first and after the last of the recipe.
func (b *pourBook) weighOff(cup, k int, m blend.DryMaterial) string {
	at, _ := b.weighing(cup, m)
	if at < 0 {
		return ""
	}
	last := -1 // of the recipe
	for i, w := range b.t.Cells[cup].Weighings {
		if !w.Addition {
			last = i
		}
	}
	x := key("comes", k)
	sum := x + "^2+" + x + "^2+2E4"
	switch {
	case !m.Addition && at == 0 && at == last:
		sum = "2*(100-" + x + ")^2"
	case !m.Addition && (at == 0 || at == last):
		sum = "(100-" + x + ")^2+1E4+" + x + "^2"
	case m.Addition && at == last+1:
		sum = x + "^2+(100+" + x + ")^2+1E4"
	}
	return fmt.Sprintf("IF({recipe}>0,2*Dose_step/SQRT(12)*SQRT(%s)/{recipe},0)", sum)
}

// buildWeighWorking lays out how the card comes about: exact grams of each
// material, and as they are weighed.
func (b *pourBook) buildWeighWorking() {
	t := b.t
	for k, m := range b.dry {
		b.addWeighing(k, column{key: fmt.Sprint("mat", k+1), head: materialHead(m) + "\nweighed, g", width: screenWidth, look: xlsx.Worked, format: xlsx.General,
			value: func(i int) float64 { _, w := b.weighing(i, m); return t.Plan.Kit.Dosing().Amount(w.Steps) }}, func(i, at int) string {
			keys := b.before(i, at, "read")
			return "ROUND(" + strings.Join(append([]string{key("read", k)}, keys[max(0, len(keys)-1):]...), "-") + ",9)"
		})
	}
	b.addWorkedCups()
	b.addUnits()
	b.perSlot("rec", "dry, g", func(s int) string { return key("ml", s) + "*" + b.of("Holds", s) }, func(i, s int) float64 { return b.pour(i, s).RecipeG })
	wet := b.sumOf(func(s int) string { return key("ml", s) + "*" + b.of("SG", s) })
	ml, recipe := strings.Join(b.each("ml"), "+"), strings.Join(b.each("rec"), "+")
	b.work("sg", "SG of\nthe glaze", fmt.Sprintf("IF(%[1]s>0,(%[2]s)/(%[1]s),2)", ml, wet), func(i int) float64 { return t.Cells[i].SG })
	for s, series := range t.Plan.Blend.Series {
		b.work(fmt.Sprint("dosed", s+1), series.Material+"\nexact, g", fmt.Sprintf("MAX(0,N(%s))/100*(%s)", key("percent", s), recipe), func(i int) float64 { return t.Cells[i].Doses[s].G })
	}
	inRecipe := 0
	for k, m := range b.dry {
		if !m.Addition {
			inRecipe++
		}
		var sum []string
		for s := range b.slots {
			e := fmt.Sprint(s + 1)
			if b.pairs() {
				e = key("end", s)
			}
			sum = append(sum, fmt.Sprintf("%s*INDEX(%s,%s)", key("rec", s), name("Material", k), e))
		}
		for s, series := range t.Plan.Blend.Series {
			if m.Addition && series.Material == m.Material {
				sum = append(sum, key("dosed", s))
			}
		}
		b.work(fmt.Sprint("exact", k+1), materialHead(m)+"\nexact, g", strings.Join(sum, "+"), func(i int) float64 { _, w := b.weighing(i, m); return w.G })
	}
	for k, m := range b.dry {
		b.work(fmt.Sprint("read", k+1), materialHead(m)+"\nread, g", otherOr("reads", k, key("reads", k)), func(i int) float64 { _, w := b.weighing(i, m); return w.ReadingG })
	}
	b.work("recipe", "Dry glaze\nby recipe, g", fmt.Sprintf("SUM({mat1:mat%d})", inRecipe), func(i int) float64 { return t.Cells[i].Got.RecipeG })
	var worst []string
	for k := range b.dry {
		worst = append(worst, fmt.Sprintf("IF(%[1]s>0,%[2]s/%[1]s,IF(%[3]s>0,1,0))", key("comes", k), key("off", k), key("exact", k)))
	}
	b.work("worst", "Largest\nrelative ±", "MAX("+strings.Join(worst, ",")+")", func(i int) float64 { return t.Cells[i].Got.Worst })
}

// waterToWeigh is the formula for the water that brings a cup to the gravity of its
// glaze, in g: that of the glazes, and what the colourants take.
func (b *pourBook) waterToWeigh() string {
	water := b.sumOf(func(s int) string {
		return fmt.Sprintf("%s*(1+%s)*%s", key("rec", s), b.of("Over", s), b.of("Water", s))
	})
	for s := range b.k {
		water += fmt.Sprintf("+(%[1]s-{sg}*%[1]s/%[2]s)/({sg}-1)", key("dosed", s), name("Density", s))
	}
	return water
}
