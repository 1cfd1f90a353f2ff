package pourbook

import (
	"fmt"
	"strings"

	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// How far off a share or a percentage can be, as formulas: the rules of
// measure.Pouring and measure.RootSumSquare, which say where they come from.
// Coverage is 2 throughout.

// shareMade is the formula for the share that a measured pour makes, in %.
func (b *pourBook) shareMade(s int) string {
	return fmt.Sprintf("IF({weight}>0,100*%s*%s/{weight},0)", key("used", s), b.of("Factor", s))
}

// shareOff is the formula for the ± of that share in points.
func (b *pourBook) shareOff(s int) string {
	variance := b.variance("used", oneOf(s), key("comes", s)+"/100")
	return fmt.Sprintf("IF(%s>0,200*SQRT(%s)/{weight},0)", key("used", s), variance)
}

// variance is the formula for the variance of the mean of values, one for each
// pour, over the pours of which some columns have more than 0, times the units of
// share poured, squared.
func (b *pourBook) variance(poured string, value func(s int) string, mean string) string {
	slope := func(s int) string { return fmt.Sprintf("(%s-%s)*%s", value(s), mean, b.of("Factor", s)) }
	var sum []string
	if !b.scale {
		for s := range b.slots {
			sum = append(sum, fmt.Sprintf("(%s>0)*(%s)^2", key(poured, s), slope(s)))
		}
		return "U_pour^2*(" + strings.Join(sum, "+") + ")"
	}
	// A reading ends one pour and begins the next one that there is: before is
	// the slope of the pour before, U_zero the reading of the tared cup.
	before, first := "0", "TRUE"
	for s := range b.slots {
		sum = append(sum, fmt.Sprintf("IF(%s>0,(%s-%s)^2*IF(%s,U_zero,U_pour)^2,0)", key(poured, s), slope(s), before, first))
		before = fmt.Sprintf("IF(%s>0,%s,%s)", key(poured, s), slope(s), before)
		first = fromTo(poured, 0, s) + "=0"
	}
	return strings.Join(sum, "+") + "+(" + before + ")^2*U_pour^2"
}

// percentMade is the formula for the percentage of a colourant that the measured
// amounts make.
func (b *pourBook) percentMade(s int) string {
	return "IF({recipe}>0,100*" + b.broughtBy(s) + "/{recipe},0)"
}

// broughtBy is the formula for what the measured amounts bring of a colourant, g.
func (b *pourBook) broughtBy(s int) string {
	if b.doses > 0 {
		return key("dosed", s)
	}
	return fmt.Sprintf("SUMPRODUCT({rec1:rec%d},%s)", b.slots, name("Brings", s))
}

// percentOff is the formula for the ± of that percentage in points.
func (b *pourBook) percentOff(s int) string {
	comes := key("comes", s)
	if b.doses == 0 {
		v := func(e int) string { return fmt.Sprintf("100*INDEX(%s,%d)", name("Brings", s), e+1) }
		batch := fmt.Sprintf("SUMPRODUCT(({rec1:rec%d}*%s)^2)*1E4", b.slots, name("Batch_off", s))
		return fmt.Sprintf("IF({recipe}>0,2*SQRT(%s+%s)/{recipe},0)", b.variance("used", v, comes), batch)
	}
	parts := []string{"(U_cup/{used1})^2"}
	if len(b.t.Stocks) > 0 {
		off := strings.ReplaceAll(b.strength(s), "Strength", "Stock_off")
		parts = append(parts, "(Syringe_step/SQRT(12)/"+key("drawn", s)+")^2", off+"^2")
	} else {
		parts = append(parts, "("+tared("Dose_step")+"/"+key("dosed", s)+")^2")
	}
	return fmt.Sprintf("IF(AND({used1}>0,%s>0),2*%s*SQRT(%s),0)", key("dosed", s), comes, strings.Join(parts, "+"))
}

// addWorst adds the largest relative ± of a cup to the sheet Working.
func (b *pourBook) addWorst() {
	all, asked, n := "0", "percent", b.k
	switch {
	case b.weigh:
		asked, n = "exact", len(b.dry)
	case b.k == 0 && b.q > 1:
		asked, n = "share", b.slots
	}
	for i := range n {
		all += fmt.Sprintf(",IF(%[1]s>0,%[2]s/%[1]s,IF(N(%[3]s)>0,1,0))", key("comes", i), key("off", i), key(asked, i))
	}
	b.add(&b.working, column{key: "worst", head: "Largest\nrelative ±", look: xlsx.Worked, format: "0.0%",
		formula: "MAX(" + all + ")", value: func(i int) float64 { return b.t.Cells[i].Got.Worst }})
}

// cupU is the standard uncertainty of a pour by itself, in the unit of the
// pouring instrument, and its formula.
func (b *pourBook) cupU() (u float64, formula string) {
	switch kit := b.t.Plan.Kit; {
	case kit.Fill > 0 && b.doses > 0 && b.scale:
		return measure.FillU(kit.Fill) * b.t.Ends[0].SG, xlsx.Literal(kit.Fill) + "/SQRT(3)*SG_1"
	case kit.Fill > 0 && b.doses > 0:
		return measure.FillU(kit.Fill), xlsx.Literal(kit.Fill) + "/SQRT(3)"
	case b.scale:
		return kit.OnePourU(), "SQRT(U_zero^2+U_pour^2)"
	}
	return b.t.Plan.Kit.OnePourU(), "U_pour"
}

// writeUncertainties writes the standard uncertainties of the instruments that
// pour, and what they mean.
func (b *pourBook) writeUncertainties() {
	kit := b.t.Plan.Kit
	reading := "Pour_step/SQRT(12)"
	pour := reading
	if b.scale {
		b.value("U_zero", "u of the tared scale, g", reading, kit.Pour.Reading())
		pour = "SQRT((" + reading + ")^2+" + xlsx.Literal(kit.FillG) + "^2/3)"
	}
	b.value("U_pour", "u of a pour's reading, "+string(kit.Pour.Unit), pour, kit.PourU())
	uCup, cup := b.cupU()
	b.value("U_cup", "u of a pour by itself, "+string(kit.Pour.Unit), cup, uCup)
	b.value("Star_below", "a smaller pour has a star, "+string(kit.Pour.Unit), "U_cup/(2*Limit/100)", b.t.StarBelow())
	b.value("Coarse_below", "the scale weighs less than this worse than your limit, g",
		"2*"+tared("Scale_step")+"/(Limit/100)", measure.Smallest(kit.Scale.Tared(), kit.Worst))
}
