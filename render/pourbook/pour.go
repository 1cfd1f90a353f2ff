package pourbook

import (
	"fmt"
	"io"

	"pourboard/blend"
	"pourboard/render/xlsx"
)

// pourBook is the workbook of amounts while it is written. Its sheets refer to
// each other, so where everything stands is settled before the first is written.
type pourBook struct {
	*xlsx.Book
	t      *blend.Test
	q      int   // ends
	k      int   // series
	doses  int   // series whose material goes into the cup by itself
	scale  bool  // slips are poured onto a scale
	poured []int // by end: cups that get some

	inputs, slips, batches                   *xlsx.Sheet
	pours, dose, recipes, chemistry, working grid

	at   pourColumns
	rows slipRows

	typed        []input // what can be typed in
	loads        []load  // materials of the batches, as written
	loadFormulas []loadFormula
	weighed      []weighedRows // by end
	mostFormulas []string      // by end: a load of the scale in its steps, "" where there is no limit
}

// Write writes the workbook of a test's amounts: what can be changed on the
// day stands on its first sheet, and all amounts are formulas that follow it.
// Each carries the value that the test has. Warnings are the texts that had to
// be cut.
func Write(w io.Writer, t *blend.Test) (warnings []string, err error) {
	b := newPourBook(t)
	b.writeInputs()
	b.writePours()
	if b.k > 0 {
		b.writeDoses()
	}
	b.writeBatches()
	b.writeRecipes()
	b.writeChemistry()
	b.writeSlips()
	b.writeWorking()
	data, err := b.Bytes()
	if err != nil {
		return nil, err
	}
	_, err = w.Write(data)
	return b.Warnings(), err
}

func newPourBook(t *blend.Test) *pourBook {
	b := &pourBook{Book: xlsx.New(t.Plan.Title), t: t, q: len(t.Ends), k: len(t.Plan.Blend.Series), scale: t.OnScale()}
	if t.Plan.Blend.Method != blend.ByPour {
		b.doses = b.k
	}
	b.poured = make([]int, b.q)
	for _, c := range t.Cells {
		for i, p := range c.Pours {
			if p.ML > 0 {
				b.poured[i]++
			}
		}
	}
	b.inputs = b.sheet("Inputs", false)
	b.pours.sheet = b.sheet("Pours", true)
	if b.k > 0 {
		b.dose.sheet = b.sheet("Doses", b.k > 1)
	}
	b.batches = b.sheet("Batches", false)
	b.recipes.sheet = b.sheet("Recipes", true)
	b.chemistry.sheet = b.sheet("Chemistry", true)
	b.slips = b.sheet("Slips", b.q+b.doses > 5)
	b.working.sheet = b.sheet("Working", true)
	b.working.sheet.Hide()
	b.at = b.columnsOf()
	b.rows = b.slipRowsOf()
	return b
}

// sheet adds a locked sheet with its page. What can be changed on the day, as
// the size of the cups, is not in its foot.
func (b *pourBook) sheet(name string, landscape bool) *xlsx.Sheet {
	s := b.Sheet(name)
	s.Lock()
	s.Page = xlsx.Page{Paper: b.t.Plan.Board.Paper, Landscape: landscape, Left: b.t.Plan.Title, Right: name, Foot: fmt.Sprintf("%s, cups 1–%d", b.t.Plan.Blend.Kind, len(b.t.Cells))}
	return s
}

// pourColumns is where things stand in the tables of cups, by column from 0.
type pourColumns struct {
	// Pours
	share, pour, reading, total, ml, g, gotDry, gotG, gotML, gotSG, evenOut, worked int
	// Working
	inverse, steps, rest, missing, running, dry, water, base, thin int
	// Doses, by series
	percent, exact, measured, brings, made []int
}

func (b *pourBook) columnsOf() pourColumns {
	c := pourColumns{share: 1}
	next := 1 + b.q
	take := func(n int) int { next += n; return next - n }
	c.pour = take(b.q)
	if b.scale {
		c.reading = take(b.q)
	}
	c.total = take(1)
	c.gotDry, c.gotG, c.gotML, c.gotSG = take(1), take(1), take(1), take(1)
	c.evenOut = take(1)
	c.ml, c.g = take(b.q), take(b.q)
	if b.k == 0 && b.q > 1 {
		take(b.q) // ±
	}
	c.worked = take(1)

	next = 1
	c.inverse = take(1)
	switch {
	case b.scale:
		c.running = take(b.q)
	case b.q > 1:
		c.steps, c.rest, c.missing = take(b.q), take(b.q), take(1)
	}
	c.dry = take(b.q + b.doses)
	if len(b.t.Stocks) > 0 {
		c.water = take(b.k)
	}
	if b.k > 0 {
		c.base = take(1)
	}
	c.thin = take(1)

	next = 1
	for range b.k {
		c.percent = append(c.percent, take(1))
		c.exact = append(c.exact, take(1))
		if len(b.t.Stocks) > 0 {
			take(2) // from which stock, mL
		}
		if b.doses > 0 {
			c.measured = append(c.measured, take(1))
		}
		brings := 0
		if len(b.t.Stocks) > 0 || b.doses == 0 {
			brings = take(1)
		} else {
			brings = c.measured[len(c.measured)-1]
		}
		c.brings = append(c.brings, brings)
		c.made = append(c.made, take(1))
		take(1) // ±
	}
	return c
}

// letter is the letter that names of an end's values carry.
func letter(end int) string { return blend.GlazeLetter(end) }

// of is the name of an end's value: SG_P.
func of(name string, end int) string { return name + "_" + letter(end) }

// endHead is how an end is called in heads and labels: with its letter where
// there are several.
func (b *pourBook) endHead(end int) string {
	if b.q == 1 {
		return b.t.Ends[end].Name
	}
	return letter(end) + ": " + b.t.Ends[end].Name
}

// cupNumber is the first column of the tables of pours and doses.
func (b *pourBook) cupNumber() column {
	return column{head: "Cup", width: 6, look: xlsx.Head, format: xlsx.General, value: func(i int) float64 { return float64(b.t.Cells[i].Number) }}
}

// cupOfRow is the first column of the tables that have nothing of their own:
// the cup that is poured in the row.
func (b *pourBook) cupOfRow() column {
	c := b.cupNumber()
	c.formula = "Pours!$A#"
	return c
}

// noAmounts is the trouble of every table while an input does not fit, or what
// was really mixed serves no cups.
var noAmounts = trouble{"Cup_used=0", xlsx.Quoted("all amounts are 0 until the sheet Inputs has what is needed")}

// moved is the trouble of a table whose rows were sorted, for which it has to be
// unlocked: not all programs move the references to other sheets along.
func (b *pourBook) moved() trouble {
	cups := len(b.t.Cells)
	is := fmt.Sprintf("SUMPRODUCT((%s<>%s)*1)", rowsOf("Pours!", 0, cups), rowsOf("Pours!", b.at.worked, cups))
	if b.k > 0 {
		is += fmt.Sprintf("+SUMPRODUCT((%s<>%s)*1)", rowsOf("Pours!", 0, cups), rowsOf("Doses!", 0, cups))
	}
	return trouble{is + ">0", xlsx.Quoted("rows were moved, and amounts stand beside other cups: undo the sorting")}
}

// badShares is the trouble of a cup whose shares were changed to what cannot be
// poured.
func (b *pourBook) badShares() trouble {
	inverse := rowsOf("Working!", b.at.inverse, len(b.t.Cells))
	return trouble{"MIN(" + inverse + ")=0", fmt.Sprintf(`"cup "&INDEX(%s,MATCH(0,%s,0))&%s`, rowsOf("", 0, len(b.t.Cells)), inverse,
		xlsx.Quoted(" has shares that are no numbers or do not come to 100 %, and gets nothing"))}
}

// writePours writes the sheet of what to pour.
func (b *pourBook) writePours() {
	t, at, g := b.t, b.at, &b.pours
	unit := string(t.Plan.Kit.Pour.Unit)
	step := measuredFormat(t.Plan.Kit.Pour)
	g.add(b.cupNumber())
	lacks := func(end int) func(int) bool { return func(i int) bool { return t.Cells[i].Shares[end] == 0 } }
	for e := range b.q {
		g.add(column{head: b.endHead(e) + "\nshare", look: xlsx.Given, format: "0.0%", none: lacks(e),
			value: func(i int) float64 { return t.Cells[i].Shares[e] }})
	}
	for e := range b.q {
		g.add(column{head: b.endHead(e) + "\npour, " + unit, width: 12, look: xlsx.Measured, format: step, none: lacks(e),
			formula: b.measuredPour(e), value: func(i int) float64 { return t.Cells[i].Pours[e].Measured }})
	}
	if b.scale {
		for e := range b.q {
			g.add(column{head: b.endHead(e) + "\nuntil it reads, g", width: 12, look: xlsx.Measured, format: step, none: lacks(e),
				formula: "IF(" + xlsx.Letters(at.share+e) + "#>0," + amountOf("Working!"+xlsx.Letters(at.running+e)+"#", "Pour_step") + ",0)",
				value:   func(i int) float64 { return t.Plan.Kit.Pour.Amount(t.Cells[i].Pours[e].Reading) }})
		}
	}
	g.add(column{head: "In all\n" + unit, look: xlsx.Worked, format: step, formula: "SUM(" + cupSpan("", at.pour, b.q) + ")",
		value: func(i int) float64 {
			var n int64
			for _, p := range t.Cells[i].Pours {
				n += p.Steps
			}
			return t.Plan.Kit.Pour.Amount(n)
		}})
	b.addGot()
	for e := range b.q {
		g.add(column{head: b.endHead(e) + "\nexactly, mL", look: xlsx.Worked, format: xlsx.Decimals(2), none: lacks(e),
			formula: fmt.Sprintf("IF(Working!%[3]s#>0,Cup_used*%[1]s#*%[2]s*Working!%[3]s#,0)", xlsx.Letters(at.share+e), of("Unit", e), xlsx.Letters(at.inverse)),
			value:   func(i int) float64 { return t.Cells[i].Pours[e].ML }})
	}
	for e := range b.q {
		g.add(column{head: b.endHead(e) + "\nexactly, g", look: xlsx.Worked, format: xlsx.Decimals(2), none: lacks(e),
			formula: xlsx.Letters(at.ml+e) + "#*" + of("SG", e),
			value:   func(i int) float64 { return t.Cells[i].Pours[e].G }})
	}
	if b.k == 0 && b.q > 1 {
		for e := range b.q {
			points := func(i int) float64 { return 100 * t.Cells[i].Pours[e].PlusMinus }
			g.add(column{head: b.endHead(e) + "\n± points\nwith the plan's cup and instruments", width: 16, look: xlsx.Given, none: lacks(e), value: points,
				formatOf: func(i int) xlsx.Format { return xlsx.DecimalsOf(blend.PlusMinusText(points(i))) }})
		}
	}
	g.add(column{head: "Worked out\nfor cup", look: xlsx.Worked, format: xlsx.General, formula: "Working!$A#", value: func(i int) float64 { return float64(t.Cells[i].Number) }})
	remark := "Shares are " + blend.BasisText(t.Plan.Blend.Basis) + ". Pour the bold amounts"
	if b.k > 0 {
		remark = "What is poured is slip; percentages of additions are of the dry glaze in the cup. Pour the bold amounts"
	}
	if b.scale {
		remark += ", one slip after the other onto the scale, each until it reads what stands there"
	}
	remark += ". Water to even out brings a cup, when all is in, to the gravity of the thinnest; leave it out if thickness is part of the test"
	g.sheet.Page.Columns = at.evenOut + 1 // what is exact is for the screen
	g.troubles = []trouble{noAmounts, b.moved(), b.badShares()}
	g.write("Pours", remark+".", len(t.Cells))
}

// measuredPour is the formula for what is poured of an end.
func (b *pourBook) measuredPour(e int) string {
	at := b.at
	switch {
	case b.scale && e == 0:
		return amountOf("Working!"+xlsx.Letters(at.running)+"#", "Pour_step")
	case b.scale: // the difference of two readings
		return amountOf(fmt.Sprintf("(Working!%s#-Working!%s#)", xlsx.Letters(at.running+e), xlsx.Letters(at.running+e-1)), "Pour_step")
	case b.q == 1:
		return amountOf(stepsOf(xlsx.Letters(at.ml)+"#", "Pour_step"), "Pour_step")
	}
	// By largest remainder: a step more for the ends with fewer ahead of them
	// than there are steps missing. The earlier end goes first.
	rest := func(end int) string { return "Working!" + xlsx.Letters(at.rest+end) + "#" }
	ahead := ""
	for j := range b.q {
		switch {
		case j < e:
			ahead += "+(" + rest(j) + ">=" + rest(e) + ")"
		case j > e:
			ahead += "+(" + rest(j) + ">" + rest(e) + ")"
		}
	}
	return amountOf(fmt.Sprintf("(INT(Working!%s#)+(%s>0)*(%s<Working!%s#))",
		xlsx.Letters(at.steps+e), rest(e), ahead[1:], xlsx.Letters(at.missing)), "Pour_step")
}

// addGot adds the cup as its measured amounts make it.
func (b *pourBook) addGot() {
	t, at, g := b.t, b.at, &b.pours
	poured := cupSpan("", at.pour, b.q)
	grams, ml := "SUMPRODUCT("+poured+","+b.slipSpan(b.rows.sg, b.q)+")", "SUM("+poured+")"
	if b.scale {
		grams, ml = "SUM("+poured+")", "SUMPRODUCT("+poured+"/"+b.slipSpan(b.rows.sg, b.q)+")"
	}
	if b.doses > 0 {
		doses := cupSpan("Working!", at.dry+b.q, b.doses)
		grams += "+SUM(" + doses + ")"
		ml += "+SUMPRODUCT(" + doses + "/" + across("Slips!", 1+b.q, b.doses, fmt.Sprint(b.rows.solids)) + ")"
		if len(t.Stocks) > 0 {
			water := "+SUM(" + cupSpan("Working!", at.water, b.k) + ")"
			grams, ml = grams+water, ml+water
		}
	}
	head := "The cup\nas poured\n"
	if b.doses > 0 {
		head = "The cup\nas measured\n"
	}
	g.add(column{head: head + "g dry", look: xlsx.Worked, format: xlsx.Decimals(1), formula: "SUMPRODUCT(" + cupSpan("Working!", at.dry, b.q+b.doses) + ",Dry_part)",
		value: func(i int) float64 { return t.Cells[i].Got.DryG }})
	g.add(column{head: head + "g", look: xlsx.Worked, format: xlsx.Decimals(1), formula: grams,
		value: func(i int) float64 { return t.Cells[i].Got.G }})
	g.add(column{head: head + "mL", look: xlsx.Worked, format: xlsx.Decimals(1), formula: ml,
		value: func(i int) float64 { return t.Cells[i].Got.ML }})
	g.add(column{head: head + "SG", look: xlsx.Worked, format: xlsx.Decimals(2),
		formula: fmt.Sprintf("IF(%[1]s#>0,%[2]s#/%[1]s#,0)", xlsx.Letters(at.gotML), xlsx.Letters(at.gotG)),
		value:   func(i int) float64 { return t.Cells[i].Got.SG }})
	step, stepName := t.WaterStep(), "Syringe_step"
	if b.scale {
		stepName = "Pour_step"
	}
	sg := t.CommonSG()
	g.add(column{head: "Water to\neven out\n" + string(step.Unit), look: xlsx.Measured, format: measuredFormat(step), nought: "–",
		formula: fmt.Sprintf("IF(AND(%s#>0,Common_SG>1),%s,0)", xlsx.Letters(at.total),
			amountOf(stepsOf(fmt.Sprintf("MAX(0,(%s#-Common_SG*%s#)/(Common_SG-1))", xlsx.Letters(at.gotG), xlsx.Letters(at.gotML)), stepName), stepName)),
		value: func(i int) float64 { return b.evenOut(i, sg) }})
}

// evenOut is the water that brings a cup to a gravity, that of the thinnest, in
// whole steps of what measures it.
func (b *pourBook) evenOut(i int, sg float64) float64 {
	if !b.t.Cells[i].Poured() || sg <= 1 {
		return 0
	}
	return max(0, b.t.WaterStep().Amount(b.t.WaterSteps(b.t.Cells[i], sg)))
}
