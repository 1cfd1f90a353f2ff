package pourbook

import (
	"fmt"

	"pourboard/blend"
	"pourboard/render/xlsx"
)

// A cup that is weighed dry has a card of its own: cups down, materials across in the
// order in which they are weighed, each until the scale reads its figure. Nothing is
// mixed or poured.

// materialHead is how a material is called over its columns.
func materialHead(m blend.DryMaterial) string {
	if m.Addition {
		return "+ " + m.Material
	}
	return m.Material
}

// weighing is what is weighed of a material into a cup, without a name where the cup
// has none of it.
func (b *pourBook) weighing(cup, material int) blend.CupWeighed {
	for _, w := range b.t.Cells[cup].Weighings {
		if w.DryMaterial == b.dry[material] {
			return w
		}
	}
	return blend.CupWeighed{}
}

// addWeighings adds what is weighed into a cup to the card: the readings and the water.
func (b *pourBook) addWeighings() {
	for k, m := range b.dry {
		b.add(&b.card, column{
			key: fmt.Sprint("reads", k+1), head: materialHead(m) + "\nreads, g", width: 11,
			look: xlsx.Measured, format: formatOf(b.t.Plan.Kit.Dosing()),
			formula: "IF(" + key("exact", k) + ">0," + measured(fromTo("exact", 0, k), "Dose_step") + ",0)",
			value:   func(i int) float64 { return b.weighing(i, k).ReadingG },
			dash:    func(i int) bool { return b.weighing(i, k).Material == "" },
		})
		b.addOther("reads", k, nil)
	}
	b.add(&b.card, column{key: "water", head: "Water\ng", width: 11, look: xlsx.Measured, format: "0",
		formula: measured(b.waterToWeigh(), "1"), value: func(i int) float64 { return b.t.Cells[i].WaterG }})
	b.add(&b.card, column{head: "tick", width: 5, field: true, format: xlsx.General})
}

// weighOff is the formula for the ± of a material's percentage of the recipe, in
// points. A weighing lies between two readings that its neighbours share, so the
// sum of squares goes over readings (blend's weighedPlusMinus): beside the
// material's own two, those before the first and after the last of the recipe.
func (b *pourBook) weighOff(k int) string {
	inRecipe := b.inRecipe()
	x := key("comes", k)
	apart := "1E4+" + x + "^2" // a reading of the material's, and one of the recipe's
	one := func(is, then string) string { return "IF(" + is + "=0," + then + "," + apart + ")" }
	sum := one(fromTo("exact", 0, k-1), "(100-"+x+")^2") + "+" + one(fromTo("exact", k+1, inRecipe-1), "(100-"+x+")^2")
	if b.dry[k].Addition {
		sum = apart + "+" + one(fromTo("exact", inRecipe, k-1), "(100+"+x+")^2")
	}
	return fmt.Sprintf("IF(AND({recipe}>0,%s>0),2*Dose_step/SQRT(12)*SQRT(%s)/{recipe},0)", key("exact", k), sum)
}

// addMaterials adds to the sheet Working how the card comes about: exact grams of each
// material, what the scale read behind it, and what was weighed by that.
func (b *pourBook) addMaterials() {
	t := b.t
	b.perSlot("rec", "dry, g", func(s int) string { return key("ml", s) + "*" + b.of("Holds", s) },
		func(i, s int) float64 { return b.pour(i, s).RecipeG })
	wet := b.sumOf(func(s int) string { return key("ml", s) + "*" + b.of("SG", s) })
	ml, recipe := fromTo("ml", 0, b.slots-1), fromTo("rec", 0, b.slots-1)
	b.work("sg", "SG of\nthe glaze", fmt.Sprintf("IF(%[1]s>0,(%[2]s)/%[1]s,2)", ml, wet),
		func(i int) float64 { return t.Cells[i].SG })
	for s, series := range t.Plan.Blend.Series {
		b.work(fmt.Sprint("dosed", s+1), series.Material+"\nexact, g", "MAX(0,N("+key("percent", s)+"))/100*"+recipe,
			func(i int) float64 { return t.Cells[i].Doses[s].G })
	}
	for k := range b.dry {
		b.work(fmt.Sprint("exact", k+1), materialHead(b.dry[k])+"\nexact, g", b.exactOf(k),
			func(i int) float64 { return b.weighing(i, k).G })
	}
	before := "0"
	for k, m := range b.dry {
		as := fmt.Sprintf("IF(%s>0,%s,%s)", key("exact", k), key("reads", k), before)
		b.work(fmt.Sprint("read", k+1), materialHead(m)+"\nread, g", otherOr("reads", k, as),
			func(i int) float64 { return b.readBehind(i, k) })
		before = key("read", k)
	}
	b.work("recipe", "Dry glaze\nby recipe, g", fromTo("mat", 0, b.inRecipe()-1),
		func(i int) float64 { return t.Cells[i].Got.RecipeG })
}

// addWeighed adds, for the screen, how each material comes out, and what is weighed of
// it.
func (b *pourBook) addWeighed() {
	for k, m := range b.dry {
		b.addMade(k, materialHead(m), "IF({recipe}>0,100*"+key("mat", k)+"/{recipe},0)",
			func(i int) float64 { return b.weighing(i, k).Percent },
			b.weighOff(k), func(i int) float64 { return b.weighing(i, k).PlusMinus })
	}
	before := "0"
	for k, m := range b.dry {
		b.onScreen(fmt.Sprint("mat", k+1), materialHead(m)+"\nweighed, g", orDash(xlsx.General),
			"ROUND("+key("read", k)+"-"+before+",9)",
			func(i int) float64 { return b.t.Plan.Kit.Dosing().Amount(b.weighing(i, k).Steps) })
		before = key("read", k)
	}
}

// inRecipe is how many of the materials are of recipes; additions come behind them.
func (b *pourBook) inRecipe() (n int) {
	for _, m := range b.dry {
		if !m.Addition {
			n++
		}
	}
	return n
}

// readBehind is what the scale reads when a material, and all before it, are in a cup.
func (b *pourBook) readBehind(cup, material int) float64 {
	for k := material; k >= 0; k-- {
		if w := b.weighing(cup, k); w.Material != "" {
			return w.ReadingG
		}
	}
	return 0
}

// exactOf is the formula for the g of a material that belong into a cup.
func (b *pourBook) exactOf(material int) string {
	sum := b.sumOf(func(s int) string {
		end := fmt.Sprint(s + 1)
		if b.pairs() {
			end = key("end", s)
		}
		return fmt.Sprintf("%s*INDEX(%s,%s)", key("rec", s), name("Material", material), end)
	})
	for s, series := range b.t.Plan.Blend.Series {
		if m := b.dry[material]; m.Addition && series.Material == m.Material {
			sum += "+" + key("dosed", s)
		}
	}
	return sum
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
