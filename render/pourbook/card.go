package pourbook

import (
	"fmt"
	"slices"
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

// slotHead is how a pour is called in heads.
func (b *pourBook) slotHead(s int) string {
	if b.pairs() {
		return []string{"First glaze", "Second glaze"}[s]
	}
	return b.endHead(s)
}

// addCups adds the numbers of the cups, the first column of every table.
func (b *pourBook) addCups(g *grid, key string, width float64) {
	b.add(g, column{key: key, head: "Cup", width: width, look: xlsx.Head, format: xlsx.General,
		value: func(i int) float64 { return float64(b.t.Cells[i].Number) }})
}

// buildCard lays out the pour card, or the weigh card: what is printed, in the order
// of the sheet that make prints, then asked and comes to, for the screen.
func (b *pourBook) buildCard() {
	b.addCups(&b.card, "cup", 6)
	if b.weigh {
		b.addWeighings()
	} else {
		b.addMeasured()
	}
	b.card.Page.Columns = len(b.card.columns)
	b.addAsked()
	if b.weigh {
		b.addWeighed()
	} else {
		b.addCup()
	}
}

// addMeasured adds what is measured into a cup: pours, their sum to check by, doses,
// and water to thin with.
func (b *pourBook) addMeasured() {
	t, kit := b.t, b.t.Plan.Kit
	for s := range b.slots {
		b.addPour(s)
	}
	if b.slots > 1 && !b.scale {
		b.add(&b.card, column{key: "sum", head: "In cup\nmL", look: xlsx.Worked, format: formatOf(kit.Pour),
			formula: strings.Join(b.each("pour"), "+"), value: func(i int) float64 {
				return roundTo9(b.overSlots(i, func(s, _ int) float64 { return b.planned(i, s).Got.Shown(kit) }))
			}})
	}
	for s := range b.doses {
		b.addDose(s)
	}
	if !t.Plan.Cup.Even {
		return
	}
	step, stepName := t.ThinningStep(), "Syringe_step"
	if b.scale {
		stepName = "Pour_step"
	}
	water := measured("MAX(0,({gotg}-Common_SG*{gotml})/(Common_SG-1))", stepName)
	b.add(&b.card, column{head: "Water to\nthin\n" + string(step.Unit), look: xlsx.Measured,
		format:  orDash(formatOf(step)),
		formula: "IF(AND({gotml}>0,Common_SG>1)," + water + ",0)", value: func(i int) float64 {
			if sg := t.CommonSG; t.Cells[i].Poured() && sg > 1 {
				return max(0, step.Amount(t.ThinningSteps(t.Cells[i], sg)))
			}
			return 0
		}})
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
	b.add(&b.card, column{key: fmt.Sprint("other", what, i+1), head: "tick, or\nother", width: 8, field: true,
		format: xlsx.General, value: value})
}

// addPour adds a pour to the card: the amount, or the reading to pour until, a
// star where it is too little for its instrument, and a field.
func (b *pourBook) addPour(s int) {
	t, kit := b.t, b.t.Plan.Kit
	head := b.endHead(s) + "\n"
	if b.pairs() {
		head = ""
		b.add(&b.card, column{head: strings.Replace(b.slotHead(s), " ", "\n", 1), width: 18, look: xlsx.GivenText,
			text: func(i int) string {
				if e := b.end(i, s); e >= 0 {
					return t.Ends[e].Name
				}
				return ""
			}})
	}
	c := column{key: fmt.Sprint("pour", s+1), head: head + "mL", width: 12,
		look: xlsx.Measured, format: formatOf(kit.Pour),
		dash:    func(i int) bool { return b.share(i, s) == 0 },
		formula: amountOf(key("steps", s), "Pour_step"),
		value:   func(i int) float64 { return b.planned(i, s).Got.Shown(kit) }}
	if b.scale {
		c.head = head + "until it\nreads, g"
		c.formula = "IF(" + key("steps", s) + ">0," + amountOf(fromTo("steps", 0, s), "Pour_step") + ",0)"
		c.value = func(i int) float64 {
			if b.planned(i, s).Steps == 0 {
				return 0
			}
			return kit.Pour.Amount(b.planned(i, s).Reading)
		}
	}
	b.add(&b.card, c)
	if b.slots > 1 {
		b.add(&b.card, column{key: fmt.Sprint("star", s+1), width: 2, look: xlsx.Plain,
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

// dosing is the instrument that measures doses and the name of its step.
func (b *pourBook) dosing() (step measure.Step, name string) {
	if len(b.t.Stocks) > 0 {
		return b.t.Plan.Kit.Syringe, "Syringe_step"
	}
	return b.t.Plan.Kit.Dosing(), "Dose_step"
}

// addDose adds the dose of a series to the card.
func (b *pourBook) addDose(s int) {
	step, stepName := b.dosing()
	dose := func(i int) blend.Dose { return b.t.Cells[i].Doses[s] }
	material := b.t.Plan.Blend.Series[s].Material
	none := func(i int) bool { return dose(i).Percent == 0 }
	c := column{key: fmt.Sprint("dose", s+1), head: material + "\n" + string(step.Unit), width: 12,
		look: xlsx.Measured, format: formatOf(step), dash: none,
		formula: measured(key("exact", s), stepName), value: func(i int) float64 { return dose(i).MeasuredG }}
	if len(b.t.Stocks) > 0 {
		c.head = material + "\nstock, mL"
		c.value = func(i int) float64 { return dose(i).MeasuredML }
		c.formula = "IFERROR(" + measured(key("exact", s)+"/"+b.strength(s), stepName) + ",0)"
		b.add(&b.card, column{key: fmt.Sprint("stock", s+1), head: "from\nstock", width: 7, look: xlsx.Given,
			format: xlsx.Format(`"` + blend.SeriesLetter(s) + `"0`), dash: none,
			value: func(i int) float64 { return float64(b.stockNumber(dose(i).Stock)) }})
	}
	b.add(&b.card, c)
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

// addAsked adds, for the screen, what is asked of each colourant or share and how it
// comes out. Of cups that are weighed dry addWeighed has that.
func (b *pourBook) addAsked() {
	for s := range b.k {
		m := b.t.Plan.Blend.Series[s].Material
		dose := func(i int) blend.Dose { return b.t.Cells[i].Doses[s] }
		b.onScreen(fmt.Sprint("percent", s+1), m+"\nasked, %", xlsx.General, "",
			func(i int) float64 { return roundTo9(dose(i).Percent) })
		if !b.weigh {
			b.addMade(s, m, b.percentMade(s), func(i int) float64 { return dose(i).GotPercent },
				b.percentOff(s), func(i int) float64 { return dose(i).PlusMinus })
		}
	}
	if b.k > 0 || b.q == 1 {
		return
	}
	for s := range b.slots {
		head := b.slotHead(s)
		b.onScreen(fmt.Sprint("share", s+1), head+"\nasked, %", "0.0#", "", func(i int) float64 { return b.share(i, s) })
		if !b.weigh {
			b.addMade(s, head, b.shareMade(s), func(i int) float64 { return 100 * b.pour(i, s).GotShare },
				b.shareOff(s), func(i int) float64 { return 100 * b.pour(i, s).PlusMinus })
		}
	}
}

// onScreen adds a column that is not printed to the card, of numbers that are given
// where there is no formula.
func (b *pourBook) onScreen(key, head string, format xlsx.Format, formula string, value func(cup int) float64) {
	look := xlsx.Worked
	if formula == "" {
		look = xlsx.Given
	}
	b.add(&b.card, column{key: key, head: head, width: screenWidth, look: look, format: format,
		formula: formula, value: value})
}

// addMade adds what a share or percentage comes to as measured, and its ± in points.
func (b *pourBook) addMade(i int, head, made string, comes func(int) float64, off string, plusMinus func(int) float64) {
	b.onScreen(fmt.Sprint("comes", i+1), head+"\ncomes to, %", hundredths, made, comes)
	b.onScreen(fmt.Sprint("off", i+1), head+"\ncould be off\nby, ± points", hundredths, off, plusMinus)
}

// addCup adds the cup as it is measured.
func (b *pourBook) addCup() {
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
		if len(b.t.Stocks) > 0 {
			grams, ml = append(grams, key("water", s)), append(ml, key("water", s))
		}
	}
	g := strings.Join(grams, "+")
	if slices.ContainsFunc(b.t.Ends, b.volumeOnly) { // their SG is 0, and nothing in g is known of a cup with one
		unknown := b.sumOf(func(s int) string { return "(" + b.of("SG", s) + "=0)*" + key("used", s) })
		g = "IF(" + unknown + ">0,0," + g + ")"
	}
	known := func(i int, x float64) float64 {
		for s := range b.slots {
			if e := b.end(i, s); e >= 0 && b.volumeOnly(b.t.Ends[e]) && b.pour(i, s).Got.ML > 0 {
				return 0
			}
		}
		return x
	}
	const head = "Cup as\nmeasured\n"
	got := func(i int) blend.Got { return b.t.Cells[i].Got }
	b.onScreen("gotg", head+"g", orDash("0.0"), g, func(i int) float64 { return known(i, got(i).G) })
	b.onScreen("gotml", head+"mL", orDash("0.0"), strings.Join(ml, "+"), func(i int) float64 { return got(i).ML })
	b.onScreen("gotsg", head+"SG", orDash("0.00"), "IF({gotml}>0,{gotg}/{gotml},0)",
		func(i int) float64 { return known(i, got(i).SG) })
}

// orDash is a format that shows 0 as a dash.
func orDash(f xlsx.Format) xlsx.Format { return xlsx.WithNought(f, "–") }

// writeCard writes the pour card.
func (b *pourBook) writeCard() {
	title := "Pour card"
	b.card.troubles = []trouble{
		incomplete,
		{"SUMPRODUCT(({cup[]}<>{workedcup[]})*1)>0", xlsx.Quoted("rows were sorted: amounts no longer match cups. Undo.")},
	}
	if b.slots > 1 {
		b.card.troubles = append(b.card.troubles,
			trouble{"MIN({units[]})=0", xlsx.Quoted("shares of a cup do not add up to 100 %; it gets nothing")})
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
		title = "Weigh card"
		remark = "Cup by cup: tare the cup, then add each material until the scale shows its figure. Tick the field, " +
			"or type what the scale read instead: results follow. Then stir in the water."
	}
	b.write(&b.card, title, remark)
	b.cardDilutions()
}
