package pourbook

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// endHead is how an end glaze is called in heads and labels: with its letter
// where there are several.
func (b *pourBook) endHead(e int) string {
	if b.q == 1 || b.pairs() {
		return b.t.Ends[e].Name
	}
	return blend.GlazeLetter(e) + ": " + b.t.Ends[e].Name
}

// addCups adds the numbers of the cups, the first column of every table.
func (b *pourBook) addCups(g *grid, key string, width float64, formula string) {
	b.add(g, column{key: key, head: "Cup", width: width, look: xlsx.Head, format: xlsx.General, formula: formula,
		value: func(i int) float64 { return float64(b.t.Cells[i].Number) }})
}

// buildCard lays out the pour card, or the weigh card: what is printed, in the order
// of the sheet that make prints, then asked and comes to, for the screen.
func (b *pourBook) buildCard() {
	b.addCups(&b.card, "cup", 6, "")
	if b.weigh {
		b.addWeighings()
	} else {
		b.addMeasured()
	}
	b.card.Page.Columns = len(b.card.columns)
	b.addScreen()
}

// addMeasured adds what is measured into a cup: pours, their sum to check by, doses,
// and water to thin with.
func (b *pourBook) addMeasured() {
	t, g, kit := b.t, &b.card, b.t.Plan.Kit
	for s := range b.slots {
		b.addPour(s)
	}
	if b.slots > 1 && !b.scale {
		b.add(g, column{key: "sum", head: "In cup\nmL", look: xlsx.Worked, format: formatOf(kit.Pour), formula: strings.Join(b.each("pour"), "+"),
			value: func(i int) float64 {
				return roundTo9(b.overSlots(i, func(s, _ int) float64 { return b.planned(i, s).Got.Shown(b.t.Plan.Kit) }))
			}})
	}
	for s := range b.doses {
		b.addDose(s)
	}
	if t.Plan.Cup.Even {
		step, name := t.ThinningStep(), "Syringe_step"
		if b.scale {
			name = "Pour_step"
		}
		b.add(g, column{head: "Water to\nthin\n" + string(step.Unit), look: xlsx.Measured, format: xlsx.WithNought(formatOf(step), "–"),
			formula: "IF(AND({gotml}>0,Common_SG>1)," + measured("MAX(0,({gotg}-Common_SG*{gotml})/(Common_SG-1))", name) + ",0)",
			value: func(i int) float64 {
				if sg := t.CommonSG; t.Cells[i].Poured() && sg > 1 {
					return max(0, step.Amount(t.ThinningSteps(t.Cells[i], sg)))
				}
				return 0
			}})
	}
}

// each is the keys of the columns of all pours.
func (b *pourBook) each(what string) []string {
	var all []string
	for s := range b.slots {
		all = append(all, key(what, s))
	}
	return all
}

// addOther adds the field beside an amount: to tick, or for another amount, which
// counts then.
func (b *pourBook) addOther(what string, i int, value func(i int) float64) {
	b.add(&b.card, column{key: fmt.Sprint("other", what, i+1), head: "tick, or\nother", width: 8, field: true, format: xlsx.General, value: value})
}

// addPour adds a pour to the card: the amount, or the reading to pour until, a
// star where it is too little for its instrument, and a field.
func (b *pourBook) addPour(s int) {
	t, g, unit := b.t, &b.card, b.t.Plan.Kit.Pour.Unit
	if b.pairs() {
		b.add(g, column{head: []string{"First\nglaze", "Second\nglaze"}[s], width: 18, look: xlsx.GivenText, text: func(i int) string {
			if e := b.end(i, s); e >= 0 {
				return t.Ends[e].Name
			}
			return ""
		}})
	}
	c := column{key: fmt.Sprint("pour", s+1), width: 12, look: xlsx.Measured, format: formatOf(t.Plan.Kit.Pour),
		dash: func(i int) bool { return b.share(i, s) == 0 }}
	if !b.pairs() {
		c.head = b.endHead(s) + "\n"
	}
	if c.head += string(unit); b.scale {
		c.head = strings.TrimSuffix(c.head, "g") + "until it\nreads, g"
	}
	switch {
	case b.scale:
		c.formula = "IF(" + key("due", s) + ">0," + amountOf(key("steps", s), "Pour_step") + ",0)"
		c.value = func(i int) float64 {
			if b.planned(i, s).Steps == 0 {
				return 0
			}
			return t.Plan.Kit.Pour.Amount(b.planned(i, s).Reading)
		}
	case b.slots == 1:
		c.formula = measured(key("ml", s), "Pour_step")
		c.value = func(i int) float64 { return b.planned(i, s).Got.Shown(b.t.Plan.Kit) }
	default:
		c.formula = amountOf(b.apportioned(s), "Pour_step")
		c.value = func(i int) float64 { return b.planned(i, s).Got.Shown(b.t.Plan.Kit) }
	}
	b.add(g, c)
	if b.slots > 1 {
		b.add(g, column{key: fmt.Sprint("star", s+1), head: "", width: 2, look: xlsx.Plain,
			formula: fmt.Sprintf(`IF(AND(%[1]s>0,%[1]s<Star_below),"*","")`, key("used", s)),
			text: func(i int) string {
				if t.Starred(b.pour(i, s)) {
					return "*"
				}
				return ""
			}})
	}
	b.addOther("pour", s, func(i int) float64 { return b.other(i, s) })
}

// apportioned is the formula for the steps of a pour, by largest remainder: a
// step more for the glazes with fewer ahead of them than there are steps
// missing. The earlier glaze goes first. (measure.Step.Apportion)
func (b *pourBook) apportioned(s int) string {
	rest := func(j int) string { return fmt.Sprintf("ROUND(%[1]s-INT(%[1]s),9)", key("steps", j)) }
	ahead := ""
	for j := range b.slots {
		switch {
		case j < s:
			ahead += "+(" + rest(j) + ">=" + rest(s) + ")"
		case j > s:
			ahead += "+(" + rest(j) + ">" + rest(s) + ")"
		}
	}
	return fmt.Sprintf("INT(%s)+(%s>0)*((%s)<{missing})", key("steps", s), rest(s), ahead[1:])
}

// dosing is the instrument that measures doses and the name of its step.
func (b *pourBook) dosing() (step measure.Step, name string) {
	if len(b.t.Stocks) > 0 {
		return b.t.Plan.Kit.Syringe, "Syringe_step"
	}
	return b.t.Plan.Kit.Dosing(), "Dose_step"
}

// addDose adds the dose of a series to the card.
func (b *pourBook) addDose(s int) {
	t, g := b.t, &b.card
	step, stepName := b.dosing()
	dose := func(i int) blend.Dose { return t.Cells[i].Doses[s] }
	none := func(i int) bool { return dose(i).Percent == 0 }
	c := column{key: fmt.Sprint("dose", s+1), head: t.Plan.Blend.Series[s].Material + "\n" + string(step.Unit), width: 12,
		look: xlsx.Measured, format: formatOf(step), dash: none,
		formula: measured(key("exact", s), stepName), value: func(i int) float64 { return dose(i).MeasuredG }}
	if len(t.Stocks) > 0 {
		c.head = t.Plan.Blend.Series[s].Material + "\nstock, mL"
		c.value = func(i int) float64 { return dose(i).MeasuredML }
		c.formula = "IFERROR(" + measured(key("exact", s)+"/"+b.strength(s), stepName) + ",0)"
		b.add(g, column{key: fmt.Sprint("stock", s+1), head: "from\nstock", width: 7, look: xlsx.Given,
			format: xlsx.Format(`"` + blend.SeriesLetter(s) + `"0`), dash: none,
			value: func(i int) float64 { return float64(b.stockNumber(dose(i).Stock)) }})
	}
	b.add(g, c)
	b.addOther("dose", s, nil)
}

// stockNumber is the number of a stock among those of its series, from 1.
func (b *pourBook) stockNumber(stock int) int {
	n := 1
	for _, s := range b.t.Stocks[:stock] {
		if s.Series == b.t.Stocks[stock].Series {
			n++
		}
	}
	return n
}

// strength is the formula for the strength of the stock that a cup's dose of a
// series comes from.
func (b *pourBook) strength(series int) string {
	var names []string
	for i, s := range b.t.Stocks {
		if s.Series == series {
			names = append(names, name("Strength", i))
		}
	}
	return "CHOOSE(MAX(1," + key("stock", series) + ")," + strings.Join(names, ",") + ")"
}

// screenWidth is the width of the columns that are not printed, in digits: their
// heads are to be no higher than those of the card.
const screenWidth = 14

// addScreen adds what is not printed: asked, comes to and could be off by, each
// a number in a column of its own, and the cup as measured.
func (b *pourBook) addScreen() {
	t := b.t
	for s := range b.k {
		m := t.Plan.Blend.Series[s].Material
		dose := func(i int) blend.Dose { return t.Cells[i].Doses[s] }
		b.addAsked("percent", s, m, xlsx.General, func(i int) float64 { return roundTo9(dose(i).Percent) })
		if !b.weigh {
			b.addComes(s, m, b.percentMade(s), func(i int) float64 { return dose(i).GotPercent })
			b.addOff(s, m, b.percentOff(s), func(i int) float64 { return dose(i).PlusMinus })
		}
	}
	for s := range b.slots {
		if b.k > 0 || b.q == 1 {
			break
		}
		b.addAsked("share", s, b.slotHead(s), "0.0#", func(i int) float64 { return b.share(i, s) })
		if !b.weigh {
			b.addComes(s, b.slotHead(s), b.shareMade(s), func(i int) float64 { return 100 * b.pour(i, s).GotShare })
			b.addOff(s, b.slotHead(s), b.shareOff(s), func(i int) float64 { return 100 * b.pour(i, s).PlusMinus })
		}
	}
	if !b.weigh {
		b.addCup()
		return
	}
	for k, m := range b.dry {
		b.addComes(k, materialHead(m), "IF({recipe}>0,100*"+key("mat", k)+"/{recipe},0)", func(i int) float64 { return b.weighing(i, k).Percent })
		b.addOff(k, materialHead(m), b.weighOff(k), func(i int) float64 { return b.weighing(i, k).PlusMinus })
	}
	before := "0"
	for k, m := range b.dry {
		b.add(&b.card, column{key: fmt.Sprint("mat", k+1), head: materialHead(m) + "\nweighed, g", width: screenWidth, look: xlsx.Worked,
			format: xlsx.WithNought(xlsx.General, "–"), formula: "ROUND(" + key("read", k) + "-" + before + ",9)",
			value: func(i int) float64 { return t.Plan.Kit.Dosing().Amount(b.weighing(i, k).Steps) }})
		before = key("read", k)
	}
}

// addAsked, addComes and addOff add what is asked of a share or percentage, what it
// comes to as measured, and its ± in points.
func (b *pourBook) addAsked(what string, i int, head string, format xlsx.Format, value func(cup int) float64) {
	b.add(&b.card, column{key: fmt.Sprint(what, i+1), head: head + "\nasked, %", width: screenWidth, look: xlsx.Given, format: format, value: value})
}

func (b *pourBook) addComes(i int, head, formula string, value func(cup int) float64) {
	b.add(&b.card, column{key: fmt.Sprint("comes", i+1), head: head + "\ncomes to, %", width: screenWidth, look: xlsx.Worked, format: hundredths, formula: formula, value: value})
}

func (b *pourBook) addOff(i int, head, formula string, value func(cup int) float64) {
	b.add(&b.card, column{key: fmt.Sprint("off", i+1), head: head + "\ncould be off\nby, ± points", width: screenWidth, look: xlsx.Worked, format: hundredths, formula: formula, value: value})
}

// slotHead is how a pour is called in heads.
func (b *pourBook) slotHead(s int) string {
	if b.pairs() {
		return []string{"First glaze", "Second glaze"}[s]
	}
	return b.endHead(s)
}

// addCup adds the cup as it is measured.
func (b *pourBook) addCup() {
	t, g := b.t, &b.card
	var grams, ml []string
	for s := range b.slots {
		if used, sg := key("used", s), b.of("SG", s); b.scale {
			grams, ml = append(grams, used), append(ml, used+"/"+sg)
		} else {
			grams, ml = append(grams, used+"*"+sg), append(ml, used)
		}
	}
	for s := range b.doses {
		dosed := key("dosed", s)
		grams, ml = append(grams, dosed), append(ml, dosed+"/"+name("Density", s))
		if len(t.Stocks) > 0 {
			grams, ml = append(grams, key("water", s)), append(ml, key("water", s))
		}
	}
	// Nothing in g is known of a cup with a glaze of which only the mL are.
	unknown := b.pouredOf(b.volumeOnly)
	got := func(key, head string, format xlsx.Format, formula string, value func(g blend.Got) float64) {
		inGrams := unknown != "" && key != "gotml"
		if inGrams {
			formula = "IF(" + unknown + ">0,0," + formula + ")"
		}
		b.add(g, column{key: key, head: "Cup as\nmeasured\n" + head, look: xlsx.Worked, format: xlsx.WithNought(format, "–"), formula: formula,
			value: func(i int) float64 {
				for s := range b.slots {
					if e := b.end(i, s); inGrams && e >= 0 && b.volumeOnly(t.Ends[e]) && b.pour(i, s).Got.Shown(b.t.Plan.Kit) > 0 {
						return 0
					}
				}
				return value(t.Cells[i].Got)
			}})
	}
	got("gotdry", "g dry", "0.0", b.product("Dry_part"), func(g blend.Got) float64 { return g.DryG })
	got("gotg", "g", "0.0", strings.Join(grams, "+"), func(g blend.Got) float64 { return g.G })
	got("gotml", "mL", "0.0", strings.Join(ml, "+"), func(g blend.Got) float64 { return g.ML })
	got("gotsg", "SG", "0.00", "IF({gotml}>0,{gotg}/{gotml},0)", func(g blend.Got) float64 { return g.SG })
}

// writeCard writes the pour card.
func (b *pourBook) writeCard() {
	title := "Pour card"
	b.card.troubles = []trouble{
		{"Cup_used=0", xlsx.Quoted("amounts stay 0 until Inputs is complete")},
		{"SUMPRODUCT(({cup[]}<>{workedcup[]})*1)>0", xlsx.Quoted("rows were sorted: amounts no longer match cups. Undo.")},
	}
	if b.slots > 1 {
		b.card.troubles = append(b.card.troubles, trouble{"MIN({units[]})=0", xlsx.Quoted("shares of a cup do not add up to 100 %; it gets nothing")})
	}
	remark := "Pour down each column: all of one glaze, then all of the next. Stir the glaze before you fill each jug."
	if b.scale {
		remark = "Cup by cup on the scale: tare the cup, then pour each glaze until the scale shows its figure."
	}
	if len(b.t.Stocks) > 0 {
		remark += " Stir the stock before each draw."
	}
	remark += " Tick the field. If an amount came out otherwise, type it there: doses and results follow."
	if b.slots > 1 {
		remark += fmt.Sprintf(" * = too little for a step of %s; use a finer instrument.", b.t.Plan.Kit.Pour)
	}
	if b.weigh {
		title, remark = "Weigh card", "Cup by cup: tare the cup, then add each material until the scale shows its figure. Tick the field, or type what the scale read instead: results follow. Then stir in the water."
	}
	b.write(&b.card, title, remark)
	b.cardDilutions()
}
