package pourbook

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// The smallest cup within the limit. The engine (blend/advice.go) works the test out
// again, size by size. The sheet cannot always do that:
//
//   - Doses: it tries sizes as the engine does. The same is poured into every cup, and
//     the smallest dose decides.
//   - Shares: it takes the ± of exact amounts, which falls as the size grows, and says
//     "about": whole steps move the size by up to twice the limit.
//   - Stocks, batches of end glazes, dry materials: another size would change them. Once
//     an input has changed, the sheet refers to pourboard check.

// mostTries is how many sizes are tried, more than limits up to 10 % need.
const mostTries = 30

// writeSmallest writes the smallest cup within the limit on the sheet Inputs, 0 for
// none, with what there is to say of it.
func (b *pourBook) writeSmallest(unit string) {
	if !b.weigh && (b.slots == 1 && b.k == 0 || b.k > 0 && b.leastPercent() == 0) {
		return // nothing can be off
	}
	const (
		label   = "Smallest cup within your limit"
		known   = "cups below it are over your limit"
		about   = "about; the error above shows whether a size holds"
		changed = "inputs have changed: run pourboard check with them"
	)
	none := fmt.Sprintf("no cup up to %d is within it: use a finer instrument", blend.LargestCup)
	found, says := b.t.Smallest, known
	if !found.Found {
		found.Value, says = 0, none
	}
	// While it is planned, the figure is the engine's; later and hint are for then on.
	planned, later, hint := b.unchanged(), "0", changed
	switch {
	case b.doses > 0 && len(b.t.Stocks) == 0:
		planned, later, hint = "FALSE", "IFERROR(INDEX(Tries,MATCH(1,Tries_within,0)),0)", known
	case b.k == 0 && !b.weigh:
		most := 0.0
		for i := range b.t.Cells {
			most = max(most, b.enough(i))
		}
		planned = fmt.Sprintf("ABS(MAX({enough[]})/%s-1)<1E-9", xlsx.Literal(most))
		later, hint = convenient("MAX({enough[]})"), about
	}
	size := fmt.Sprintf("IF(%s,%s,%s)", planned, xlsx.Literal(found.Value), later)
	b.writeLabelled(b.inputs, nil, inputHeight(label, about), labelled{
		"Smallest_cup", label, unit, xlsx.Measured, orDash(xlsx.General),
		fmt.Sprintf("IF(Cup_used=0,0,IF(%[1]s>%[2]d,0,%[1]s))", size, blend.LargestCup), found.Value})
	if hint != changed {
		hint = fmt.Sprintf("IF(Smallest_cup=0,%s,IF(%s,%s,%s))",
			xlsx.Quoted(none), planned, xlsx.Quoted(known), xlsx.Quoted(hint))
	} else {
		hint = fmt.Sprintf("IF(%s,%s,%s)", planned, xlsx.Quoted(says), xlsx.Quoted(hint))
	}
	b.inputs.TextFormula(xlsx.Hint, b.resolve(`IF(Cup_used=0,"",`+hint+")", nil), says)
}

// unchanged is the formula for whether all inputs are as planned that the smallest cup
// can rest on.
func (b *pourBook) unchanged() string {
	var all []string
	for _, in := range b.typed {
		if !slices.Contains([]string{"Cup_size", "Batch_size", "Capacity"}, in.name) && !strings.HasPrefix(in.name, "Mixed") {
			all = append(all, in.name+"="+xlsx.Literal(in.value))
		}
	}
	for s := range b.k {
		sum := 0.0
		for _, c := range b.t.Cells {
			sum += c.Doses[s].Percent
		}
		all = append(all, fmt.Sprintf("ABS(SUM({percent%d[]})-%s)<1E-9", s+1, xlsx.Literal(sum)))
	}
	return "AND(" + strings.Join(all, ",") + ")"
}

// addEnough adds the size at which the shares of a cup would be within the limit if
// they were exact. A cup of size 1 has 100 times units units of share.
func (b *pourBook) addEnough() {
	if b.k > 0 || b.slots == 1 {
		return
	}
	var all []string
	for s := range b.slots {
		share := key("share", s)
		all = append(all, fmt.Sprintf("IF(N(%[1]s)>0,2*SQRT(%[2]s)/({units}*%[1]s),0)",
			share, b.variance("share", oneOf(s), share+"/100")))
	}
	b.add(&b.working, column{key: "enough", head: "Size within\nthe limit", look: xlsx.Worked, format: xlsx.General,
		formula: "IF(Cup_used>0,IFERROR(MAX(0," + strings.Join(all, ",") + ")/(Limit/100),0),0)", value: b.enough})
}

// enough is that size.
func (b *pourBook) enough(cup int) (most float64) {
	exact := measure.Pouring{U: b.t.Plan.Kit.PourU(), Running: b.scale, Tare: b.t.Plan.Kit.TareU()}
	for s := range b.slots {
		factor := b.factor(max(0, b.end(cup, s)))
		exact.Factors = append(exact.Factors, factor)
		exact.Amounts = append(exact.Amounts, b.share(cup, s)*b.units(cup)/factor)
	}
	for s := range b.slots {
		is := make([]float64, b.slots)
		is[s] = 1
		if share, u, _ := exact.Mean(is); share > 0 {
			most = max(most, measure.Coverage*u/share/b.t.Plan.Kit.Worst)
		}
	}
	return most
}

// leastPercent is the smallest percentage that is dosed, 0 for none.
func (b *pourBook) leastPercent() (least float64) {
	for _, c := range b.t.Cells {
		for _, d := range c.Doses {
			if d.Percent > 0 && (least == 0 || d.Percent < least) {
				least = d.Percent
			}
		}
	}
	return least
}

// writeTries writes the sizes that are tried for doses: each a convenient one above
// the one before, with what is poured, what is dosed of the smallest percentage, and
// whether that is within the limit. The first is as much below the size that exact
// amounts need as whole steps can move it (blend.nearSmallest).
func (b *pourBook) writeTries() {
	if b.doses == 0 || len(b.t.Stocks) > 0 || b.leastPercent() == 0 {
		return
	}
	t, kit, s, least := b.t, b.t.Plan.Kit, b.working.Sheet, b.leastPercent()
	inverse := "0"
	for i := range b.doses {
		inverse += fmt.Sprintf(",SUMPRODUCT(MAX(({percent%[1]d[]}>0)/({percent%[1]d[]}+({percent%[1]d[]}<=0))))", i+1)
	}
	b.value("Least_percent", "smallest dose, %", "IFERROR(1/MAX("+inverse+"),0)", least)

	ml, size := t.PerShare(0)
	unit, holds, perUnit, recipe := "Unit_1/Size_1", "Holds_1", ml/size, t.Ends[0].RecipePerML
	if b.scale {
		unit, holds, perUnit, recipe = unit+"*SG_1", holds+"/SG_1", perUnit*t.Ends[0].SG, recipe/t.Ends[0].SG
	}
	cup, _ := b.cupU()
	exact := measure.Coverage * math.Hypot(cup/perUnit, kit.Dosing().Tared()/(least/100*perUnit*recipe)) / kit.Worst
	from := exact * (1 - min(0.5, kit.Worst*math.Sqrt(1.5)))
	exactly := fmt.Sprintf("2*SQRT((U_cup/(%[1]s))^2+(%[2]s/(Least_percent/100*%[1]s*%[3]s))^2)/(Limit/100)",
		unit, tared("Dose_step"), holds)
	b.value("Try_from", "smallest size to try", "IFERROR("+exactly+"*(1-MIN(0.5,Limit/100*SQRT(1.5))),1)", from)

	b.workingHeads([]string{"Size tried", "poured, " + string(kit.Pour.Unit), "dosed, g", "1 = within"})
	first := s.LastRow() + 1
	try, formula := measure.Convenient(from), convenient("Try_from")
	for range mostTries {
		row := s.Row()
		number := func(formula string, value float64) {
			s.Formula(xlsx.Worked, xlsx.General, inRow(formula, row), value)
		}
		poured := kit.Pour.Amount(kit.Pour.Count(try * perUnit))
		dosed := kit.Dosing().Amount(kit.Dosing().Count(least / 100 * poured * recipe))
		within := 0.0
		if dosed > 0 && measure.Coverage*math.Hypot(cup/poured, kit.Dosing().Tared()/dosed) <= kit.Worst*(1+1e-9) {
			within = 1
		}
		number(formula, try)
		number(measured("$A#*"+unit, "Pour_step"), poured)
		number(measured("Least_percent/100*$B#*"+holds, "Dose_step"), dosed)
		number("IF($C#>0,(2*SQRT((U_cup/$B#)^2+("+tared("Dose_step")+"/$C#)^2)<=Limit/100*(1+1E-9))*1,0)", within)
		try, formula = measure.Convenient(try*(1+1e-6)), convenient(fmt.Sprintf("($A%d*(1+1E-6))", row))
	}
	b.Define("Tries", s.Range(0, first, 0, s.LastRow()))
	b.Define("Tries_within", s.Range(3, first, 3, s.LastRow()))
}

// oneOf is the values of which the mean is the share of a pour.
func oneOf(s int) func(int) string {
	return func(j int) string {
		if j == s {
			return "1"
		}
		return "0"
	}
}
