package pourbook

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/render/wording"
	"pourboard/render/xlsx"
)

// Doses that are weighed in a mix with dry base: blend.Dilution as formulas. Which
// doses go into which mix stays as planned; the amounts follow the inputs.

// ofMix is the name of a value of a mix, or of a dose in it: Grind_1, Weigh_1_2.
func ofMix(what string, numbers ...int) string {
	for _, n := range numbers {
		what += fmt.Sprintf("_%d", n+1)
	}
	return what
}

// inRow is a formula for the values of one cup, from any sheet.
func (b *pourBook) inRow(formula string, cup int) string {
	return strings.ReplaceAll(b.resolve(formula, nil), "#", strconv.Itoa(firstRow+cup-1))
}

// writeDilutions writes the amounts of each mix on the sheet Working.
func (b *pourBook) writeDilutions() {
	t, kit := b.t, b.t.Plan.Kit
	if t.Dilutions == nil {
		return
	}
	scale, perML := kit.Dosing(), "(Holds_1*(1+Over_1))" // dry, of the base
	b.value("Dose_digits", "digits of a dose", digits("Dose_step"), float64(scale.Decimals()))
	b.value("Pour_digits", "digits of a pour", digits("Pour_step"), float64(kit.Pour.Decimals()))
	for i, d := range t.Dilutions {
		mix, base := "Mix "+blend.SeriesLetter(d.Series), float64(d.Parts-1)
		var need []string
		needG := 0.0
		for j, x := range d.Doses {
			label := fmt.Sprintf("%s, cup %d: ", mix, x.Cups[0])
			weigh, less, out := ofMix("Weigh", i, j), ofMix("Less", i, j), ofMix("Out", i, j)
			exact, used := b.inRow(key("exact", d.Series), x.Cups[0]), b.inRow("{used1}", x.Cups[0])
			b.value(weigh, label+"weigh, g", measured(fmt.Sprintf("%s*%d", exact, d.Parts), "Dose_step"), x.MixG)
			glaze := fmt.Sprintf("%s*%g/%d/%s", weigh, base, d.Parts, perML) // mL with as much dry base
			unit, lessML := "mL", less
			if b.scale {
				unit, lessML, glaze = "g", less+"/SG_1", glaze+"*SG_1"
			}
			byEye := "ISNUMBER(" + b.inRow("{otherpour1}", x.Cups[0]) + ")"
			if kit.Fill > 0 {
				byEye = "TRUE"
			}
			b.value(less, label+"pour less, "+unit, fmt.Sprintf("IF(OR(%s,ABS(%s-%s)>%s*Limit/100*%s),0,%[3]s)",
				byEye, glaze, measured(glaze, "Pour_step"), xlsx.Literal(blend.SameBase), used), kit.Pour.Amount(x.LessSteps))
			if !b.scale {
				glaze += "*SG_1"
			}
			b.value(out, label+"take out, g", "IF("+less+">0,0,"+measured(glaze, "Dose_step")+")", x.LessG)
			b.value(ofMix("Thin", i, j), label+"add water, g", measured(fmt.Sprintf("(%s+%s/SG_1)*(SG_1-%s)", lessML, out, perML), "1"), x.WaterG)
			need = append(need, fmt.Sprintf("%s*%d", weigh, len(x.Cups)))
			needG += x.MixG * float64(len(x.Cups))
		}
		needG /= float64(d.Parts)
		needed, least := ofMix("Needed", i), ofMix("Least", i)
		b.value(needed, mix+": colourant needed, g", fmt.Sprintf("(%s)/%d", strings.Join(need, "+"), d.Parts), needG)
		// What of the limit is left for the mix, when pour and weighing of the
		// smallest dose have theirs, says how much has to be ground.
		first := d.Doses[0].Cups[0]
		part := base / float64(d.Parts) * math.Sqrt(1+1/(base*base))
		left := fmt.Sprintf("(Limit/100)^2-(2*U_cup/%s)^2-(2*%s/%s)^2", b.inRow("{used1}", first), tared("Dose_step"), ofMix("Weigh", i, 0))
		pour, weighing := 2*b.cupU()/t.Cells[first-1].Pours[0].Measured, 2*scale.Tared()/d.Doses[0].MixG
		b.value(least, mix+": colourant to grind at least, g", fmt.Sprintf("IFERROR(MAX(%s*(1+Extra/100),2*%s*%s/SQRT(%s)*(1-1E-9)),0)", needed, xlsx.Literal(part), tared("Dose_step"), left),
			max(needG*(1+kit.Extra), 2*part*scale.Tared()/math.Sqrt(kit.Worst*kit.Worst-pour*pour-weighing*weighing)*(1-1e-9)))
		b.value(ofMix("Grind", i), mix+": grind, g", fmt.Sprintf("IF(%s>%d*%s,0,%s)", convenient(least), blend.MostSpare, needed, upToSteps(convenient(least), "Dose_step")), d.ColourantG)
	}
}

// cardDilutions writes below the card how the doses that are too small for the
// scale are weighed.
func (b *pourBook) cardDilutions() {
	g := &b.card
	lines := wording.Dilutions(b.t)
	if lines == nil {
		return
	}
	width := g.printWidth()
	g.SkipRow()
	g.Remark("Too little for the scale: weigh a mix with dry base. Amounts follow Inputs; the cups are those of the plan.", g.Page.Columns, width)
	line := func(formula string) {
		text := strings.TrimSpace(lines[0])
		g.TallRow(xlsx.LineHeight(text, width))
		g.TextFormula(xlsx.Remark, formula, text)
		g.Merge(0, g.Page.Columns-1)
		lines = lines[1:]
	}
	dose := func(x string) string { return `"&FIXED(` + x + `,Dose_digits,TRUE)&"` }
	quoted := func(text string) string { return strings.ReplaceAll(text, `"`, `""`) }
	for i, d := range b.t.Dilutions {
		letter := blend.SeriesLetter(d.Series)
		name, _, _ := strings.Cut(lines[0], ": grind ")
		grind := ofMix("Grind", i)
		line(fmt.Sprintf(`IF(%s>0,"%s: grind %s g of %s with %s g of dry base.","%[2]s cannot keep your limit now. Run pourboard make with these inputs.")`,
			grind, name, dose(grind), quoted(b.t.Plan.Blend.Series[d.Series].Material), dose(fmt.Sprintf("%s*%d", grind, d.Parts-1))))
		for j, x := range d.Doses {
			cups, _, _ := strings.Cut(lines[0], ": weigh ")
			less, out, thin := ofMix("Less", i, j), ofMix("Out", i, j), ofMix("Thin", i, j)
			formula := fmt.Sprintf(`"%s: weigh %s g of mix %s instead."&IF(%[4]s>0," Pour "&FIXED(%[4]s,Pour_digits,TRUE)&" %[5]s less.",IF(%[6]s>0," Take out %[7]s g of wet glaze.",""))&IF(%[8]s>0," Add "&%[8]s&" g of water.","")`,
				cups, dose(ofMix("Weigh", i, j)), letter, less, b.t.Plan.Kit.Pour.Unit, out, dose(out), thin)
			if len(x.Cups) > 1 {
				var used []string
				for _, cup := range x.Cups {
					used = append(used, b.inRow("{used1}", cup))
				}
				all := strings.Join(used, ",")
				formula += fmt.Sprintf(`&IF(MAX(%s)>MIN(%[1]s)," Amounts are for cup %d.","")`, all, x.Cups[0])
			}
			line(formula)
		}
	}
}
