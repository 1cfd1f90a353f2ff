package pourbook

import (
	"fmt"
	"math"
	"strings"

	"pourboard/render/xlsx"
)

// workingLabel is the width of the labels of the sheet Working, in digits.
const workingLabel = 36

// buildWorking lays out the sheet of what lies between inputs and amounts: for
// each cup how its pours come to whole steps, what is used of them, what that
// brings, and how far off it can be.
func (b *pourBook) buildWorking() {
	b.addCups(&b.working, "workedcup", workingLabel)
	if b.pairs() {
		b.perSlot("end", "number", nil, func(i, s int) float64 { return float64(max(0, b.end(i, s)) + 1) })
	}
	if b.blended() {
		b.perSlot("share", "share, %", nil, b.share)
	}
	b.addUnits()
	if b.weigh {
		b.addMaterials()
	} else {
		b.addSteps()
		b.addUsed()
		b.addContents()
		b.addEnough()
	}
	b.addWorst()
}

// work adds a column of the sheet Working.
func (b *pourBook) work(key, head, formula string, value func(i int) float64) {
	look := xlsx.Worked
	if formula == "" {
		look = xlsx.Given
	}
	b.add(&b.working, column{key: key, head: head, look: look, format: "0.0###", formula: formula, value: value})
}

// perSlot adds a column of the sheet Working for each pour of a cup; a formula that is
// nil stands for values that are given.
func (b *pourBook) perSlot(what, head string, formula func(slot int) string, value func(cup, slot int) float64) {
	for s := range b.slots {
		text := ""
		if formula != nil {
			text = formula(s)
		}
		b.work(fmt.Sprint(what, s+1), b.slotHead(s)+"\n"+head, text, func(i int) float64 { return value(i, s) })
	}
}

// overSlots is the sum over the pours of a cup, of those that it has.
func (b *pourBook) overSlots(cup int, value func(slot, end int) float64) (sum float64) {
	for s := range b.slots {
		if e := b.end(cup, s); e >= 0 {
			sum += value(s, e)
		}
	}
	return sum
}

// sumOf is the formula for a sum over the pours of a cup.
func (b *pourBook) sumOf(formula func(slot int) string) string {
	var sum []string
	for s := range b.slots {
		sum = append(sum, formula(s))
	}
	return strings.Join(sum, "+")
}

// addUnits adds the exact pours in mL. Shares that do not come to 100 % give
// nothing.
func (b *pourBook) addUnits() {
	formula := func(s int) string { return "Cup_used*" + b.of("Unit", s) + "/" + b.of("Size", s) }
	if b.slots > 1 {
		shares := b.each("share")
		good := fmt.Sprintf("IF(ISNUMBER(%[1]s),AND(MIN(%[2]s)>=0,ABS(%[1]s-100)<0.05),FALSE)",
			strings.Join(shares, "+"), strings.Join(shares, ","))
		size := b.sumOf(func(s int) string { return key("share", s) + "*" + b.of("Size", s) })
		b.work("units", "Units of share\nin a size of 1", "IF("+good+",1/("+size+"),0)", b.units)
		formula = func(s int) string { return "Cup_used*N(" + key("share", s) + ")*" + b.of("Unit", s) + "*{units}" }
	}
	b.perSlot("ml", "exact, mL", formula, func(i, s int) float64 { return b.pour(i, s).ML })
}

// units is what a percent of share comes to in a cup of size 1, in units of share.
func (b *pourBook) units(cup int) float64 {
	return 1 / b.overSlots(cup, func(s, e int) float64 {
		_, size := b.t.PerShare(e)
		return b.share(cup, s) * size
	})
}

// addSteps adds the whole steps of the instrument that each pour comes to: by the
// largest remainder in a jug, as the difference of running readings on a scale.
func (b *pourBook) addSteps() {
	formula := func(s int) string { return stepsOf(key("ml", s), "Pour_step") }
	switch {
	case b.scale:
		grams := b.each("ml")
		for s := range grams {
			grams[s] += "*" + b.of("SG", s)
		}
		formula = func(s int) string {
			return stepsOf(strings.Join(grams[:s+1], "+"), "Pour_step") + "-" + fromTo("steps", 0, s-1)
		}
	case b.slots > 1:
		step := b.t.Plan.Kit.Pour
		exact := func(i, s int) float64 { return roundTo9(b.pour(i, s).ML / step.Size) }
		b.perSlot("exactsteps", "exact steps", func(s int) string { return "ROUND(" + key("ml", s) + "/Pour_step,9)" }, exact)
		whole := b.sumOf(func(s int) string { return "INT(" + key("exactsteps", s) + ")" })
		missing := stepsOf(fromTo("ml", 0, b.slots-1), "Pour_step") + "-(" + whole + ")"
		b.work("missing", "Steps\nmissing", missing, func(i int) float64 {
			ml := b.overSlots(i, func(s, _ int) float64 { return b.pour(i, s).ML })
			return float64(step.Count(ml)) - b.overSlots(i, func(s, _ int) float64 { return math.Floor(exact(i, s)) })
		})
		formula = b.apportioned
	}
	b.perSlot("steps", "steps", formula, func(i, s int) float64 { return float64(b.planned(i, s).Steps) })
}

// apportioned is the formula for the steps of a pour, by largest remainder: a
// step more for the glazes with fewer ahead of them than there are steps
// missing. The earlier glaze goes first. (measure.Step.Apportion)
func (b *pourBook) apportioned(s int) string {
	rest := func(j int) string { return fmt.Sprintf("ROUND(%[1]s-INT(%[1]s),9)", key("exactsteps", j)) }
	var ahead []string
	for j := range b.slots {
		switch {
		case j < s:
			ahead = append(ahead, "("+rest(j)+">="+rest(s)+")")
		case j > s:
			ahead = append(ahead, "("+rest(j)+">"+rest(s)+")")
		}
	}
	return fmt.Sprintf("INT(%s)+(%s>0)*((%s)<{missing})", key("exactsteps", s), rest(s), strings.Join(ahead, "+"))
}

// otherOr is the formula for an amount of the card, or the other one that is typed
// beside it.
func otherOr(what string, i int, amount string) string {
	return fmt.Sprintf("IF(ISNUMBER(%[1]s),%[1]s,%[2]s)", key("other"+what, i), amount)
}

// addUsed adds what is really poured, and drawn from stocks: as the card says, or
// as it was typed beside it. On a scale that is a reading, and a pour is the
// difference of two.
func (b *pourBook) addUsed() {
	kit := b.t.Plan.Kit
	used := func(s int) string { return otherOr("pour", s, key("pour", s)) }
	if b.scale {
		reads := func(s int) string { return otherOr("pour", s, amountOf(fromTo("steps", 0, s), "Pour_step")) }
		b.perSlot("reads", "read, g", reads,
			func(i, s int) (g float64) {
				for j := range s + 1 { // a cup may lack the last one
					g = max(g, kit.Pour.Amount(b.pour(i, j).Reading))
				}
				return g
			})
		used = func(s int) string {
			if s == 0 {
				return key("reads", s)
			}
			return "ROUND(" + key("reads", s) + "-" + key("reads", s-1) + ",9)"
		}
	}
	b.perSlot("used", "poured, "+string(kit.Pour.Unit), used,
		func(i, s int) float64 { return b.pour(i, s).Got.Shown(kit) })
	if len(b.t.Stocks) > 0 {
		for s, series := range b.t.Plan.Blend.Series {
			b.work(fmt.Sprint("drawn", s+1), series.Material+"\nstock, mL", otherOr("dose", s, key("dose", s)),
				func(i int) float64 { return b.t.Cells[i].Doses[s].MeasuredML })
		}
	}
}

// addContents adds what that brings into a cup: the recipe of each pour and, one
// beside the other behind it, the doses (contents); then their sums.
func (b *pourBook) addContents() {
	t := b.t
	recipe := func(i, s int) float64 {
		if e := b.end(i, s); e < 0 || b.volumeOnly(t.Ends[e]) {
			return 0
		}
		return b.pour(i, s).Got.RecipeG
	}
	b.perSlot("rec", "dry, g", func(s int) string {
		formula := key("used", s) + "*" + b.of("Holds", s)
		if b.scale {
			formula += "/" + b.of("SG", s)
		}
		return formula
	}, recipe)
	b.addDosed()
	b.work("recipe", "Dry glaze\nby recipe, g", fromTo("rec", 0, b.slots-1), func(i int) float64 {
		return b.overSlots(i, func(s, _ int) float64 { return recipe(i, s) })
	})
	if b.slots > 1 && b.k == 0 {
		weight := b.sumOf(func(s int) string { return key("used", s) + "*" + b.of("Factor", s) })
		b.work("weight", "Units of\nshare", weight, func(i int) float64 {
			return b.overSlots(i, func(s, e int) float64 { return b.pour(i, s).Got.Shown(b.t.Plan.Kit) * b.factor(e) })
		})
	}
}

// addDosed adds the doses that are measured into the cups, and what is exact by
// the poured recipe; of stocks, the water that they bring as well.
func (b *pourBook) addDosed() {
	for s := range b.doses {
		dosed := otherOr("dose", s, key("dose", s))
		if len(b.t.Stocks) > 0 {
			dosed = "IFERROR(" + key("drawn", s) + "*" + b.strength(s) + ",0)"
		}
		b.work(fmt.Sprint("dosed", s+1), b.t.Plan.Blend.Series[s].Material+"\ng", dosed,
			func(i int) float64 { return b.t.Cells[i].Doses[s].MeasuredG })
	}
	for s := range b.doses {
		b.work(fmt.Sprint("exact", s+1), b.t.Plan.Blend.Series[s].Material+"\nexact, g",
			"MAX(0,N("+key("percent", s)+"))/100*"+fromTo("rec", 0, b.slots-1),
			func(i int) float64 { return b.t.Cells[i].Doses[s].G })
	}
	if b.t.Stocks == nil {
		return
	}
	for s := range b.doses {
		b.work(fmt.Sprint("water", s+1), b.t.Plan.Blend.Series[s].Material+"\nwater, g",
			key("drawn", s)+"-"+key("dosed", s)+"/"+name("Density", s), func(i int) float64 {
				d := b.t.Cells[i].Doses[s]
				return d.MeasuredML - d.MeasuredG/b.t.Densities[s]
			})
	}
}

// factor is what a unit of the pouring instrument brings of the basis of shares.
func (b *pourBook) factor(e int) float64 {
	ml, _ := b.t.PerShare(e)
	if b.scale {
		return 1 / ml / b.t.Ends[e].SG
	}
	return 1 / ml
}

// roundTo9 takes the noise of binary fractions off x.
func roundTo9(x float64) float64 { return math.Round(x*1e9) / 1e9 }

// writeWorking writes the sheet Working: the cups, below them the glazes, and
// what materials fire to.
func (b *pourBook) writeWorking() {
	b.write(&b.working, "Working", "How inputs become amounts. Measure nothing from this sheet.")
	s := b.working.Sheet
	s.SkipRow()
	fits := b.inputs.Range(usedColumn+1, 1, usedColumn+1, b.inputs.LastRow())
	b.value("Inputs_fit", "1 = all inputs fit", "MIN("+fits+")", 1)
	if b.doses > 0 || b.weigh {
		b.value("Dose_step", "smallest step of the scale for doses, g",
			"IF(Fine_step>0,Fine_step,Scale_step)", b.t.Plan.Kit.Dosing().Size)
	}
	if !b.weigh {
		b.writeUncertainties()
	}
	if b.t.Plan.Cup.Even && !b.weigh {
		b.value("Common_SG", "SG of the thinnest cup", "IFERROR(SMALL({gotsg[]},COUNTIF({gotsg[]},0)+1),0)", b.t.CommonSG)
	}
	b.writeAsPlanned()
	b.writeGlazes()
	for i := range b.t.Dilutions {
		b.writeGrinding(i)
	}
	b.writeTries()
	s.FitPages(b.working.printWidth())
}

// writeAsPlanned writes whether everything is as planned: the inputs, and what is
// poured and weighed into each cup, of which the sums are compared, each cup by its number.
func (b *pourBook) writeAsPlanned() {
	what, n := "rec", b.slots
	if b.weigh {
		what, n = "mat", len(b.dry)
	}
	same := b.unchanged()
	add := func(key string) {
		at, sum := b.places[key], 0.0
		for i, cup := range b.t.Cells {
			sum += float64(cup.Number) * at.grid.columns[at.index].value(i)
		}
		same += fmt.Sprintf(",ABS(SUMPRODUCT({%s[]},{workedcup[]})-%s)<1E-6", key, xlsx.Literal(sum))
	}
	for i := range n {
		add(fmt.Sprint(what, i+1))
	}
	for i := range b.doses {
		add(fmt.Sprint("dosed", i+1))
	}
	b.value("As_planned", "1 = all is as planned", "AND("+same+")*1", 1)
}

// value writes a named value in a row of the sheet Working.
func (b *pourBook) value(name, label, formula string, value float64) {
	b.writeLabelled(b.working.Sheet, &b.working, xlsx.LineHeight(label, workingLabel),
		labelled{name: name, label: label, look: xlsx.Worked, format: xlsx.General, formula: formula, value: value})
}
