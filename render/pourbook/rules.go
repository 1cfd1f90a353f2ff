package pourbook

import (
	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// The rules of packages measure and slip as formulas.

// stepsOf is the formula for an amount in whole steps, halves away from nought:
// measure.Step.Count.
func stepsOf(x, step string) string { return "ROUND(ROUND((" + x + ")/" + step + ",9),0)" }

// amountOf is the formula for a number of steps as an amount:
// measure.Step.Amount.
func amountOf(steps, step string) string { return "ROUND((" + steps + ")*" + step + ",9)" }

// measured is the formula for an amount as an instrument measures it.
func measured(x, step string) string { return amountOf(stepsOf(x, step), step) }

// upToSteps is the formula for an amount rounded up to whole steps.
func upToSteps(x, step string) string {
	return amountOf("ROUNDUP(ROUND(("+x+")/"+step+",9),0)", step)
}

// convenient is the formula for an amount in a cell rounded up to a convenient
// figure: measure.Convenient.
func convenient(x string) string {
	return "IF(" + x + ">0," + upToSteps(x, "(10^INT(ROUND(LOG10("+x+"),9))/20)") + ",0)"
}

// bucketWater is the formula for the water in a cell in steps that a bucket can
// show: measure.Kit.Water. What is mixed already has the water that it has.
func bucketWater(g, mixed string) string {
	x := "ROUND(" + g + ",9)"
	size := "IF(" + x + "<200,1,IF(" + x + "<1000,5,IF(" + x + "<5000,10,50)))"
	return measured(g, "IF(OR("+mixed+">0,"+x+"<50),Scale_step,"+upToSteps(size, "Scale_step")+")")
}

// dryPerML is the formula for the g of dry matter in a mL of wet glaze:
// slip.Slip.DryPerML.
func dryPerML(sg, solids string) string { return "(" + sg + "-1)*" + solids + "/(" + solids + "-1)" }

// waterPerG is the formula for the g of water with a g of dry matter:
// slip.Slip.WaterPerG.
func waterPerG(sg, solids string) string {
	return "(" + solids + "-" + sg + ")/(" + solids + "*(" + sg + "-1))"
}

// mixedSG is the formula for the gravity of a glaze from its g of water with a g of dry
// matter: slip.Mixed.
func mixedSG(waterPerG, solids string) string {
	return "(1+" + waterPerG + ")/(1/" + solids + "+" + waterPerG + ")"
}

// tared is the formula for the standard uncertainty of a tared weighing with a
// step: measure.Step.Tared.
func tared(step string) string { return step + "*SQRT(2/12)" }

// formatOf shows an amount in steps of an instrument. A step that is made finer
// later shows its further digits; one that is whole shows as it is, for a format
// with none but optional digits leaves a bare point behind.
func formatOf(s measure.Step) xlsx.Format {
	if n := s.Decimals(); n > 0 {
		return xlsx.Decimals(n) + "###"
	}
	return xlsx.General
}
