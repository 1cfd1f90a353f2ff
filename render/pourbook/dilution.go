package pourbook

import (
	"fmt"
	"math"

	"pourboard/blend"
	"pourboard/render/xlsx"
)

// Doses that are weighed in a mix with dry base: blend.Dilution as formulas. Which
// doses go into which mix stays as planned; the amounts follow the inputs.

// atCup is a formula for the values of one cup, by its number, from any sheet.
func (b *pourBook) atCup(formula string, cup int) string {
	return inRow(b.resolve(formula, nil), firstRow+cup-1)
}

// cardDilutions writes below the card a table for each mix: what to weigh of it into
// a cup, and what to leave out for the base in it.
func (b *pourBook) cardDilutions() {
	g := &b.card
	for i, d := range b.t.Dilutions {
		mix, grind := "Mix "+blend.SeriesLetter(d.Series), name("Grind", i)
		ground := fmt.Sprintf("%s, 1 + %d: grind ", mix, d.Parts-1)
		of := " g of " + b.t.Plan.Blend.Series[d.Series].Material + " with "
		const base = " g of dry base."
		text := ground + xlsx.Literal(roundTo9(d.ColourantG)) + of + xlsx.Literal(roundTo9(d.BaseG)) + base
		never := mix + " cannot keep your limit now: run pourboard make with these inputs."
		g.SkipRow()
		g.TallRow(xlsx.LineHeight(text, g.printWidth()))
		g.TextFormula(xlsx.Remark, fmt.Sprintf("IF(%[1]s>0,%[2]s&%[1]s&%[3]s&ROUND(%[1]s*%[4]d,9)&%[5]s,%[6]s)",
			grind, xlsx.Quoted(ground), xlsx.Quoted(of), d.Parts-1, xlsx.Quoted(base), xlsx.Quoted(never)), text)
		g.Merge(0, g.Page.Columns-1)
		b.mixRows = append(b.mixRows, 1+g.TallRow(2*measuredHeight))
		less := "pour\nless, " + string(b.t.Plan.Kit.Pour.Unit)
		for _, head := range []string{"Cup", "weigh of\nmix, g", less, "take\nout, g", "add\nwater, g"} {
			g.Text(xlsx.Head, head)
		}
		for _, x := range d.Doses {
			for _, cup := range x.Cups {
				b.writeDiluted(d, x, cup)
			}
		}
	}
}

// writeDiluted writes the row of one dose: blend's leaveOut.
func (b *pourBook) writeDiluted(d blend.Dilution, x blend.DilutedDose, cup int) {
	g, kit := &b.card, b.t.Plan.Kit
	row := g.TallRow(measuredHeight)
	amount := func(format xlsx.Format, formula string, value float64) {
		g.Formula(xlsx.Measured, orDash(format), inRow(formula, row), value)
	}
	g.Number(xlsx.Head, xlsx.General, float64(cup))
	exact := b.atCup(key("exact", d.Series), cup)
	amount(formatOf(kit.Dosing()), measured(fmt.Sprint(exact, "*", d.Parts), "Dose_step"), x.MixG)

	const dryPerML = "(Holds_1*(1+Over_1))" // of the base
	left := fmt.Sprintf("$B#*%d/%d/%s", d.Parts-1, d.Parts, dryPerML)
	leftG, lessML := left+"*SG_1", "$C#"
	if b.scale {
		left, lessML = leftG, "$C#/SG_1"
	}
	less := measured(left, "Pour_step")
	coarse := fmt.Sprintf("ABS(%s-%s)>%s*Limit/100*%s", left, less, xlsx.Literal(blend.SameBase), b.atCup("{used1}", cup))
	byEye := "ISNUMBER(" + b.atCup("{otherpour1}", cup) + ")"
	if kit.Fill > 0 {
		byEye = "TRUE"
	}
	amount(formatOf(kit.Pour), "IF(OR("+byEye+","+coarse+"),0,"+less+")", kit.Pour.Amount(x.LessSteps))
	amount(formatOf(kit.Dosing()), "IF($C#>0,0,"+measured(leftG, "Dose_step")+")", x.LessG)
	amount(xlsx.General, measured("("+lessML+"+$D#/SG_1)*(SG_1-"+dryPerML+")", "1"), x.WaterG)
}

// writeGrinding writes how much of the colourant of a mix, by its index, to grind with
// base. What is left of the limit, when the pour and the weighing of the smallest dose
// have theirs, says how much is enough: blend's dilute.
func (b *pourBook) writeGrinding(i int) {
	kit, d := b.t.Plan.Kit, b.t.Dilutions[i]
	scale, base, rows, needG := kit.Dosing(), float64(d.Parts-1), 0, 0.0
	for _, x := range d.Doses {
		rows += len(x.Cups)
		needG += x.MixG * float64(len(x.Cups)) / float64(d.Parts)
	}
	first := d.Doses[0].Cups[0]
	part := base / float64(d.Parts) * math.Sqrt(1+1/(base*base))
	cup, _ := b.cupU()
	pour, weighing := 2*cup/b.t.Cells[first-1].Pours[0].Got.Shown(kit), 2*scale.Tared()/d.Doses[0].MixG
	grinding := math.Sqrt(kit.Worst*kit.Worst - pour*pour - weighing*weighing)
	leastG := max(needG*(1+kit.Extra), 2*part*scale.Tared()/grinding*(1-1e-9))

	top, need, least := fmt.Sprintf("%s$B$%d", b.card.Ref(), b.mixRows[i]), name("Needed", i), name("Least", i)
	left := fmt.Sprintf("(Limit/100)^2-(2*U_cup/%s)^2-(2*%s/%s)^2", b.atCup("{used1}", first), tared("Dose_step"), top)
	mix := "Mix " + blend.SeriesLetter(d.Series)
	b.value(need, mix+": colourant needed, g", fmt.Sprintf("SUM(%s:$B$%d)/%d", top, b.mixRows[i]+rows-1, d.Parts), needG)
	b.value(least, mix+": colourant to grind at least, g",
		fmt.Sprintf("IFERROR(MAX(%s*(1+Extra/100),2*%s*%s/SQRT(%s)*(1-1E-9)),0)",
			need, xlsx.Literal(part), tared("Dose_step"), left), leastG)
	b.value(name("Grind", i), mix+": colourant to grind, g", fmt.Sprintf("IF(%s>%d*%s,0,%s)",
		convenient(least), blend.MostSpare, need, upToSteps(convenient(least), "Dose_step")), d.ColourantG)
}
