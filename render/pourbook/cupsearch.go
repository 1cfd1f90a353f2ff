package pourbook

import (
	"fmt"
	"pourboard/render/xlsx"
	"strings"
)

// Limits of the search for the cup that what was really mixed is enough for:
// rounding lets a cup be larger by this much at most than an exact share, the
// rule of blend.Stretch, and so many halvings tell apart all sizes of three
// digits up to there.
const (
	mostGrowth = 1.25
	halvings   = 11 // 2^11 > 1.25 × 999 + 1
)

// writeServed writes, at the end of the sheet Working, the search for the cup
// that what was really mixed is enough for: of the sizes of three digits one
// whose pours, in whole steps, every batch serves, while those of the next size
// are too much for one. Each line tries the size half way between one that is
// served and one that is not; the last tries the one that was found.
//
// blend.Stretch takes the largest size that is served. That is the same where
// cups are filled from one slip. Where several are rounded together, a size now
// and then takes a graduation less of a slip than the one below it, so that
// there can be a larger one that is served again: it is not looked for here.
func (b *pourBook) writeServed() {
	s, fit := b.working.sheet, b.slipSpan(b.rows.fit, b.q)
	s.SkipRows(1)
	line := func(name, label, formula string) {
		s.Row()
		s.Text(xlsx.Head, label)
		b.Define(name, s.At(s.Column(), s.LastRow()))
		s.Formula(xlsx.Worked, xlsx.General, formula, 0) // nothing is mixed when it is written
	}
	line("Cup_exact", "cup by exact share", fmt.Sprintf("IF(COUNT(%[1]s)=0,0,IFERROR(MIN(%[1]s),0))", fit))
	line("Cup_unit", "in units of", "IF(Cup_exact>0,10^(INT(ROUND(LOG10(Cup_exact),9))-2),0)")
	s.Row()
	for _, h := range []string{"Served, units", "too much", "tried", "cup size"} {
		s.Text(xlsx.Head, h)
	}
	var mixed, fits, nothing []string
	for e := range b.q {
		if b.poured[e] == 0 {
			continue
		}
		s.Text(xlsx.Head, letter(e)+", poured mL")
		need := xlsx.Letters(4+len(mixed)) + "#"
		mixed = append(mixed, fmt.Sprintf("IF(AND(C#>0,%s>0),%s,0)", of("Mixed", e), b.pouredOf(e, "D#")))
		fits = append(fits, fmt.Sprintf("OR(%[1]s=0,%[2]s+Loss*%[3]d+Dead<=%[1]s*(1+1E-9))", of("Mixed", e), need, b.poured[e]))
		nothing = append(nothing, fmt.Sprintf("AND(%s>0,%s=0)", of("Mixed", e), need))
	}
	s.Text(xlsx.Head, "served")
	served := xlsx.Letters(4 + len(mixed))
	for i := range halvings + 1 {
		row := s.Row()
		at := func(formula string) string { return strings.ReplaceAll(formula, "#", fmt.Sprint(row)) }
		low, high := "0", fmt.Sprintf("IF(Cup_unit>0,INT(ROUND(%s*Cup_exact/Cup_unit,6))+1,0)", xlsx.Literal(mostGrowth))
		if i > 0 {
			low = fmt.Sprintf("IF(%[2]s%[1]d=1,C%[1]d,A%[1]d)", row-1, served)
			high = fmt.Sprintf("IF(%[2]s%[1]d=1,B%[1]d,C%[1]d)", row-1, served)
		}
		for _, formula := range append([]string{low, high, "INT((A#+B#)/2)", "ROUND(C#*Cup_unit,9)"}, mixed...) {
			s.Formula(xlsx.Worked, xlsx.General, at(formula), 0)
		}
		// A share that is no number serves no cup.
		s.Formula(xlsx.Worked, xlsx.General, at("IFERROR(IF(AND("+strings.Join(fits, ",")+"),1,0),0)"), 1)
	}
	found := s.LastRow()
	s.Row()
	s.Text(xlsx.Head, "cup size found")
	b.Define("Cup_served", s.At(s.Column(), s.LastRow()))
	s.Formula(xlsx.Worked, xlsx.General, strings.ReplaceAll("IFERROR(IF(OR("+strings.Join(nothing, ",")+"),0,D#),0)", "#", fmt.Sprint(found)), 0)
}

// pouredOf is the formula for the mL of an end that all cups take together, as
// they are measured, with cups of the size in a cell: the columns of addSteps
// and measuredPour, all rows at once.
func (b *pourBook) pouredOf(e int, cup string) string {
	cups := len(b.t.Cells)
	ml := func(end int) string {
		return fmt.Sprintf("%s*%s*%s*%s", cup, rowsOf("Pours!", b.at.share+end, cups), of("Unit", end), rowsOf("", b.at.inverse, cups))
	}
	sum := func(last int, times func(end int) string) string {
		var parts []string
		for end := range last + 1 {
			parts = append(parts, ml(end)+times(end))
		}
		return "(" + strings.Join(parts, "+") + ")"
	}
	none := func(int) string { return "" }
	switch {
	case b.scale:
		grams := func(end int) string { return "*" + of("SG", end) }
		steps := stepsOf(sum(e, grams), "Pour_step")
		if e > 0 {
			steps += "-" + stepsOf(sum(e-1, grams), "Pour_step")
		}
		return "SUMPRODUCT(" + steps + ")*Pour_step/" + of("SG", e)
	case b.q == 1:
		return "SUMPRODUCT(" + stepsOf(ml(0), "Pour_step") + ")*Pour_step"
	}
	steps := func(end int) string { return "ROUND(" + ml(end) + "/Pour_step,9)" }
	rest := func(end int) string { return "ROUND(" + steps(end) + "-INT(" + steps(end) + "),9)" }
	missing := stepsOf(sum(b.q-1, none), "Pour_step")
	var ahead []string
	for end := range b.q {
		missing += "-INT(" + steps(end) + ")"
		switch {
		case end < e:
			ahead = append(ahead, "("+rest(end)+">="+rest(e)+")")
		case end > e:
			ahead = append(ahead, "("+rest(end)+">"+rest(e)+")")
		}
	}
	return fmt.Sprintf("SUMPRODUCT(INT(%s)+(%s>0)*((%s)<%s))*Pour_step", steps(e), rest(e), strings.Join(ahead, "+"), missing)
}

// mixedHint stands beside what was really mixed of an end.
const mixedHint = "leave empty when it came out as planned"

// mixedInput is what was really mixed of an end. The hint says how far it goes.
func (b *pourBook) mixedInput(e int) input {
	return input{name: of("Mixed", e), label: b.endHead(e), unit: "mL", blank: true, format: xlsx.General, hint: mixedHint,
		least: "0", most: "1000000", right: "the mL that there are",
		hintNow: fmt.Sprintf(`IF(%[1]s>0,IF(%[1]s<=Dead+Loss*%[2]d,"NOTHING IS LEFT TO POUR: as much stays in the jug or is lost at the pours",`+
			`IF(AND(Cup_exact>0,Cup_served=0),"TOO LITTLE for even the smallest pours",ROUND(%[1]s-%[3]s,1)&" mL stay over")),%[4]s)`,
			of("Mixed", e), b.poured[e], of("Need", e), xlsx.Quoted(mixedHint))}
}

// cupUsed is the formula for the cup size that all sheets use.
func (b *pourBook) cupUsed() string {
	return fmt.Sprintf("IF(Inputs_fit=0,0,IF(COUNT(%s)=0,Cup_size,Cup_served))", b.slipSpan(b.rows.fit, b.q))
}

// writeMost writes, at the end of the sheet Working, the loads of the scale in
// its steps.
func (b *pourBook) writeMost() {
	if b.t.Plan.Kit.Capacity == 0 {
		return
	}
	s := b.working.sheet
	s.SkipRows(1)
	for e, formula := range b.mostFormulas {
		if formula == "" {
			continue
		}
		s.Row()
		s.Text(xlsx.Head, letter(e)+", steps of a load")
		b.Define(of("Most", e), s.At(s.Column(), s.LastRow()))
		s.Formula(xlsx.Worked, xlsx.General, formula, float64(b.mostSteps(e)))
	}
}
