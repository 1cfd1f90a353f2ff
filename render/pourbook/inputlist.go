package pourbook

import (
	"fmt"
	"math"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// What there is to fill in on the sheet Inputs.

// inputGroup is a part of the sheet.
type inputGroup struct {
	head   string
	inputs []input
}

// inputGroups are what there is to fill in, in the order of the sheet.
func (b *pourBook) inputGroups() []inputGroup {
	kit := b.t.Plan.Kit
	limit := input{name: "Limit", label: "Your limit for every dose and share", unit: "± %", value: roundTo9(100 * kit.Worst),
		help: "the largest error that you accept", least: "0.01", most: "100", right: "0.01 to 100 %", need: true}
	glazes, instruments := inputGroup{"Wet glazes, as measured", b.glazeInputs()}, inputGroup{"Instruments", b.instrumentInputs()}
	if b.weigh {
		return []inputGroup{{"Cups", []input{b.cupInput(), limit}}, glazes, instruments}
	}
	mixed := inputGroup{head: "Actually mixed"}
	for e := range b.q {
		if b.poured[e] > 0 {
			mixed.inputs = append(mixed.inputs, b.mixedInput(e))
		}
	}
	return []inputGroup{{"Cups", []input{b.cupInput(), limit}}, glazes, mixed, instruments, {"Batches", []input{
		{name: "Extra", label: "Extra", unit: "%", value: roundTo9(100 * kit.Extra),
			help: "mixed beyond what the cups need", least: "0", most: "1000", right: "0 to 1000 %"},
		{name: "Dead", label: "Left in the jug", unit: "mL", value: kit.Dead,
			help: "of each batch, mixed in addition", least: "0", most: "100000", right: "0 mL or more"},
		{name: "Loss", label: "Lost at each pour", unit: "mL", value: kit.Loss,
			help: "stays on the jug", least: "0", most: "1000", right: "0 mL or more"},
	}}}
}

// cupInput is the size of the cups, or the batch that is shared between them.
func (b *pourBook) cupInput() input {
	cup := b.t.Plan.Cup
	if cup.BatchG > 0 {
		return input{name: "Batch_size", label: "Batch", value: cup.BatchG, least: "0.1", most: "1000000", right: "0.1 g or more", need: true,
			unit: "g dry", help: "by its recipe, mixed once and shared between the cups"}
	}
	in := input{name: "Cup_size", label: "Cup size", value: cup.Size.Value, least: "0.1", most: "1000000", right: "0.1 or more", need: true,
		unit: cupUnit(cup.Size.Of), help: "what goes into each cup"}
	if b.k > 0 {
		in.help += ": the base, before its colourants"
	}
	return in
}

// cupUnit is what a cup's size counts.
func cupUnit(of blend.Basis) string {
	return map[blend.Basis]string{blend.Dry: "g dry", blend.Volume: "mL", blend.Weight: "g of wet glaze"}[of]
}

// glazeInputs are the gravity and the solids of each glaze that is mixed from a
// recipe. End glazes of a series follow from their base.
func (b *pourBook) glazeInputs() []input {
	var all []input
	add := func(end blend.End, suffix, label string) {
		if b.volumeOnly(end) {
			return
		}
		help := "weigh 100 mL: 145 g is 1.45"
		if end.Assumed {
			help = "assumed; " + help
		}
		sg, solids := "SG_"+suffix+"_typed", "Solids_"+suffix+"_typed"
		all = append(all,
			input{name: "SG_" + suffix, label: label + ", SG", unit: "g/mL", help: help, value: end.SG, format: xlsx.AtLeast(2),
				least: "1.0001", most: fmt.Sprintf("IF(%[1]s>1,%[1]s,20)-0.0001", solids), right: "more than 1, and less than the solids density",
				need: true, holds: sg + ">=1.0001," + sg + "<20"},
			input{name: "Solids_" + suffix, label: label + ", solids density", unit: "g/mL", help: "of the dry grains, mostly 2.5 to 2.8", value: end.Solids, format: xlsx.AtLeast(2),
				least: "MAX(1.0001," + sg + ")+0.0001", most: "20", right: "more than the SG, at most 20", need: true})
	}
	switch {
	case b.blended():
		add(b.t.Base, "base", b.t.Base.Name)
	default:
		for e := range b.q {
			add(b.t.Ends[e], fmt.Sprint(e+1), b.endHead(e))
		}
	}
	return all
}

// mixedInput is what was actually mixed of an end glaze. The help says how far it goes.
func (b *pourBook) mixedInput(e int) input {
	const help = "leave empty if it came out as planned"
	have, says := b.have(e), ""
	if batch := b.t.Batches[e]; batch.Mixed {
		says = strconv.FormatFloat(math.Round(10*b.t.LeftML(e))/10, 'f', -1, 64) + " mL left"
	}
	return input{name: name("Mixed", e), label: b.endHead(e), unit: "mL", value: have, help: help, says: says,
		least: "0", most: "1000000", right: "the mL in the bucket",
		helpNow: fmt.Sprintf(`IF(%[1]s>0,IF(Cup_used=0,"TOO LITTLE for the cups: mix more",IF(ROUND(%[1]s-%[2]s,1)<Dead-1E-6,"SHORT: type a smaller cup size",ROUND(%[3]s,1)&" mL left")),%[4]s)`,
			name("Mixed", e), name("Need", e), name("Left", e), xlsx.Quoted(help))}
}

// have is what there is of an end glaze already, mL, 0 where it is to be mixed.
func (b *pourBook) have(e int) float64 {
	if batch := b.t.Batches[e]; batch.Mixed {
		return roundTo9(batch.ML)
	}
	return 0
}

// instrumentInputs are the steps of the instruments, and what the scale takes.
func (b *pourBook) instrumentInputs() []input {
	kit := b.t.Plan.Kit
	step := func(name, label, help string, s measure.Step) input {
		return input{name: name, label: label, unit: string(s.Unit), help: help, value: s.Size,
			least: "0.0001", most: "10000", right: "0.0001 to 10 000 " + string(s.Unit), need: true}
	}
	all := []input{step("Scale_step", "Smallest step of the scale", "weighs the batches", kit.Scale)}
	fine := step("Fine_step", "Smallest step of a second, finer scale", "for amounts too small for the other; may be empty", kit.Fine)
	fine.unit, fine.need = string(measure.Gram), false
	fine.least, fine.most, fine.right = "0", "MAX(0,Scale_step-0.0001)", "a step finer than the other scale's, in g"
	fine.holds = "Fine_step_typed>=0,Fine_step_typed<=10000"
	fine.used = "IF(N(Fine_step_typed)<Scale_step,N(Fine_step_typed),0)" // the other does, where this is no finer
	fine.helpNow = fmt.Sprintf("IF(AND(Fine_step=0,N(Fine_step_typed)>0),%s,%s)", xlsx.Quoted("NOT USED: not finer than the other scale"), xlsx.Quoted(fine.help))
	all = append(all, fine)
	if b.weigh {
		return all
	}
	label, help := "The jug is marked every", "pours are whole marks"
	if b.scale {
		label, help = "Smallest step of the scale for pouring", "glazes are poured on it"
	}
	all = append(all, step("Pour_step", label, help, kit.Pour))
	if len(b.t.Stocks) > 0 || b.t.Plan.Cup.Even && !b.scale {
		help := "measures the water to thin with"
		if len(b.t.Stocks) > 0 {
			help = "draws the stocks"
		}
		all = append(all, step("Syringe_step", "The syringe is marked every", help, kit.Syringe))
	}
	if kit.Capacity > 0 {
		all = append(all, input{name: "Capacity", label: "The scale takes at most", unit: "g", value: kit.Capacity,
			help: "for a larger batch, tare between materials", least: "0.1", most: "1000000", right: "0.1 g or more", need: true})
	}
	for i, stock := range b.t.Stocks {
		all = append(all, input{name: name("Strength", i), label: stock.Name, unit: "g/mL", value: stock.GPerML,
			help: "g of dry material in a mL of stock", least: "0.0001", most: "3", right: "0.0001 to 3 g/mL", need: true})
	}
	return all
}
