package pourbook

import (
	"fmt"
	"math"
	"strings"

	"pourboard/blend"
	"pourboard/render/xlsx"
)

// workingLabel is the width of the labels of the sheet Working, in digits.
const workingLabel = 36

// buildWorking lays out the sheet of what lies between inputs and amounts: for
// each cup how its pours come to whole steps, and what they bring.
func (b *pourBook) buildWorking() {
	t, g := b.t, &b.working
	b.add(g, column{key: "workedcup", head: "Cup", width: workingLabel, look: xlsx.Head, format: xlsx.General,
		value: func(i int) float64 { return float64(t.Cells[i].Number) }})
	if b.pairs() {
		for s := range b.slots {
			b.work(fmt.Sprint("end", s+1), b.slotHead(s)+"\nnumber", "", func(i int) float64 { return float64(max(0, b.end(i, s)) + 1) })
		}
	}
	if b.blended() {
		for s := range b.slots {
			b.work(fmt.Sprint("share", s+1), b.endHead(s)+"\nshare, %", "", func(i int) float64 { return b.share(i, s) })
		}
	}
	b.addExact()
	kit := t.Plan.Kit
	for s := range b.slots {
		formula := otherOr("pour", s)
		if b.scale { // what is typed is a reading
			formula = fmt.Sprintf("IF(ISNUMBER(%[1]s),%[1]s,%[2]s)", key("otherpour", s), amountOf(key("steps", s), "Pour_step"))
			due := key("steps", s)
			if s > 0 {
				due += "-" + key("steps", s-1)
			}
			b.work(fmt.Sprint("due", s+1), b.slotHead(s)+"\nplanned, g", amountOf(due, "Pour_step"), func(i int) float64 { return b.planned(i, s).Measured })
			b.work(fmt.Sprint("reads", s+1), b.slotHead(s)+"\nread, g", formula, func(i int) float64 { return kit.Pour.Amount(b.pour(i, s).Reading) })
			formula = key("reads", s)
			if s > 0 {
				formula = "ROUND(" + key("reads", s) + "-" + key("reads", s-1) + ",9)"
			}
		}
		b.work(fmt.Sprint("used", s+1), b.slotHead(s)+"\npoured, "+string(kit.Pour.Unit), formula, func(i int) float64 { return b.pour(i, s).Measured })
	}
	for s := range b.k * min(1, len(t.Stocks)) {
		b.work(fmt.Sprint("drawn", s+1), t.Plan.Blend.Series[s].Material+"\nstock, mL", otherOr("dose", s), func(i int) float64 { return t.Cells[i].Doses[s].MeasuredML })
	}
	dry := func(i, s int) float64 {
		if e := b.end(i, s); e < 0 || b.volumeOnly(t.Ends[e]) {
			return 0
		}
		return b.pour(i, s).GotRecipeG
	}
	for s := range b.slots {
		formula := key("used", s) + "*" + b.of("Holds", s)
		if b.scale {
			formula += "/" + b.of("SG", s)
		}
		b.work(fmt.Sprint("rec", s+1), b.slotHead(s)+"\ndry, g", formula, func(i int) float64 { return dry(i, s) })
	}
	b.addDosed()
	b.work("recipe", "Dry glaze\nby recipe, g", "SUM({rec1:rec"+fmt.Sprint(b.slots)+"})", func(i int) (sum float64) {
		for s := range b.slots {
			sum += dry(i, s)
		}
		return sum
	})
	if b.slots > 1 && b.k == 0 {
		var sum []string
		for s := range b.slots {
			sum = append(sum, key("used", s)+"*"+b.of("Factor", s))
		}
		b.work("weight", "Units of\nshare", strings.Join(sum, "+"), func(i int) float64 {
			sum := 0.0
			for s := range b.slots {
				if e := b.end(i, s); e >= 0 {
					sum += b.pour(i, s).Measured * b.factor(e)
				}
			}
			return sum
		})
	}
	if t.Plan.Cup.Even {
		b.work("thin", "SG where\nthere is glaze", "IF({gotml}>0,{gotsg},"+xlsx.Literal(noGlaze)+")", func(i int) float64 { return b.thickness(i) })
	}
	b.addWorst()
}

// otherOr is the formula for an amount of the card, or the other one that is typed
// beside it.
func otherOr(what string, i int) string {
	return fmt.Sprintf("IF(ISNUMBER(%[1]s),%[1]s,%[2]s)", key("other"+what, i), key(what, i))
}

// work adds a column of the sheet Working.
func (b *pourBook) work(key, head, formula string, value func(i int) float64) {
	look := xlsx.Worked
	if formula == "" {
		look = xlsx.Given
	}
	b.add(&b.working, column{key: key, head: head, look: look, format: xlsx.General, formula: formula, value: value})
}

// addUnits adds the exact pours.
func (b *pourBook) addUnits() {
	t := b.t
	exact := func(i, s int) float64 { return b.pour(i, s).ML }
	if b.slots > 1 {
		var sum []string
		for s := range b.slots {
			sum = append(sum, key("share", s)+"*"+b.of("Size", s))
		}
		shares := "{share1:share" + fmt.Sprint(b.slots) + "}"
		good := fmt.Sprintf("AND(COUNT(%[1]s)=%[2]d,MIN(%[1]s)>=0,ABS(SUM(%[1]s)-100)<0.05)", shares, b.slots)
		if !b.blended() {
			good = fmt.Sprintf("IF(ISNUMBER(%s),%s,FALSE)", strings.Join(b.each("share"), "+"),
				fmt.Sprintf("AND(MIN(%[1]s)>=0,ABS(%[2]s-100)<0.05)", strings.Join(b.each("share"), ","), strings.Join(b.each("share"), "+")))
		}
		b.work("units", "Units of share\nin a size of 1", "IF("+good+",1/("+strings.Join(sum, "+")+"),0)", func(i int) float64 {
			sum := 0.0
			for s := range b.slots {
				if e := b.end(i, s); e >= 0 {
					_, size := t.PerShare(e)
					sum += b.share(i, s) * size
				}
			}
			return 1 / sum
		})
	}
	for s := range b.slots {
		formula := "Cup_used*" + b.of("Unit", s) + "/" + b.of("Size", s)
		if b.slots > 1 {
			formula = "Cup_used*N(" + key("share", s) + ")*" + b.of("Unit", s) + "*{units}"
		}
		b.work(fmt.Sprint("ml", s+1), b.slotHead(s)+"\nexact, mL", formula, func(i int) float64 { return exact(i, s) })
	}
}

// addExact adds the exact pours, and their steps.
func (b *pourBook) addExact() {
	b.addUnits()
	kit := b.t.Plan.Kit
	exact := func(i, s int) float64 { return b.pour(i, s).ML }
	settled := func(i, s int) float64 { return roundTo9(exact(i, s) / kit.Pour.Size) }
	switch {
	case b.scale:
		var grams []string
		for s := range b.slots {
			grams = append(grams, key("ml", s)+"*"+b.of("SG", s))
			b.work(fmt.Sprint("steps", s+1), b.slotHead(s)+"\nreads, steps", stepsOf(strings.Join(grams, "+"), "Pour_step"),
				func(i int) float64 { return float64(b.planned(i, s).Reading) })
		}
	case b.slots > 1:
		missing := stepsOf(strings.Join(b.each("ml"), "+"), "Pour_step")
		for s := range b.slots {
			b.work(fmt.Sprint("steps", s+1), b.slotHead(s)+"\nsteps", "ROUND("+key("ml", s)+"/Pour_step,9)", func(i int) float64 { return settled(i, s) })
			missing += "-INT(" + key("steps", s) + ")"
		}
		b.work("missing", "Steps\nmissing", missing, func(i int) float64 {
			sum, floors := 0.0, 0.0
			for s := range b.slots {
				sum += exact(i, s)
				floors += math.Floor(settled(i, s))
			}
			return float64(kit.Pour.Count(sum)) - floors
		})
	}
}

// addDosed adds the doses that are measured into the cups: exact by the poured
// recipe, and what they bring.
func (b *pourBook) addDosed() {
	t := b.t
	for s := range b.doses {
		m := t.Plan.Blend.Series[s].Material
		dose := func(i int) blend.Dose { return t.Cells[i].Doses[s] }
		formula := otherOr("dose", s)
		if len(t.Stocks) > 0 {
			formula = "IFERROR(" + key("drawn", s) + "*" + b.strength(s) + ",0)"
		}
		// One beside the other, behind the recipe of the pours: contents.
		b.work(fmt.Sprint("dosed", s+1), m+"\ng", formula, func(i int) float64 { return dose(i).MeasuredG })
	}
	for s := range b.doses {
		m := t.Plan.Blend.Series[s].Material
		dose := func(i int) blend.Dose { return t.Cells[i].Doses[s] }
		b.work(fmt.Sprint("exact", s+1), m+"\nexact, g", "MAX(0,N("+key("percent", s)+"))/100*SUM({rec1:rec"+fmt.Sprint(b.slots)+"})",
			func(i int) float64 { return dose(i).G })
		if len(t.Stocks) > 0 {
			b.work(fmt.Sprint("water", s+1), m+"\nwater, g", key("drawn", s)+"-"+key("dosed", s)+"/"+name("Density", s),
				func(i int) float64 { return dose(i).MeasuredML - dose(i).MeasuredG/t.SeriesDensity(s) })
		}
	}
}

// noGlaze is a gravity above that of every glaze.
const noGlaze = 1e9

// thickness is a cup's gravity, noGlaze where nothing is poured.
func (b *pourBook) thickness(i int) float64 {
	if c := b.t.Cells[i]; c.Got.ML > 0 {
		return c.Got.SG
	}
	return noGlaze
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
	s.SkipRows(1)
	if !b.weigh {
		b.writeUncertainties()
	}
	if b.t.Plan.Cup.Even && !b.weigh {
		common := noGlaze
		for i := range b.t.Cells {
			common = min(common, b.thickness(i))
		}
		b.value("Common_SG", "SG of the thinnest cup", "MIN({thin[]})", common)
	}
	var list []string
	for _, v := range views {
		list = append(list, xlsx.Quoted(v))
	}
	if b.chemistry.Sheet != nil {
		b.value("View", "which view the sheet Chemistry shows", "IFERROR(MATCH(Chemistry!$A$2,{"+strings.Join(list, ",")+"},0),1)", 1)
	}
	b.writeGlazes()
	b.writeDilutions()
}

// value writes a named value in a row of the sheet Working.
func (b *pourBook) value(name, label, formula string, value float64) {
	s := b.working.Sheet
	s.TallRow(xlsx.LineHeight(label, workingLabel))
	s.Text(xlsx.Label, label)
	b.Define(name, s.At(1, s.LastRow()))
	s.Formula(xlsx.Worked, xlsx.General, b.resolve(formula, &b.working), value)
}
