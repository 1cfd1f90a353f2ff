package pourbook

import (
	"fmt"
	"math"

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
	limit := input{name: "Limit", label: "Your limit for every dose and share", unit: "± %",
		value: roundTo9(100 * kit.Worst), help: "the largest error that you accept",
		least: "0.01", most: "100", right: "0.01 to 100 %", need: true}
	groups := []inputGroup{{"Cups", []input{b.cupInput(), limit}}, {"Wet glazes, as measured", b.glazeInputs()}}
	if b.weigh {
		return append(groups, inputGroup{"Instruments", b.scaleInputs()})
	}
	mixed := inputGroup{head: "Actually mixed"}
	for e := range b.q {
		if b.poured[e] > 0 {
			mixed.inputs = append(mixed.inputs, b.mixedInput(e))
		}
	}
	batches := []input{
		{name: "Extra", label: "Extra", unit: "%", value: roundTo9(100 * kit.Extra),
			help: "mixed beyond what the cups need", least: "0", most: "1000"},
		{name: "Dead", label: "Left in the jug", unit: "mL", value: kit.Dead,
			help: "of each batch, mixed in addition", least: "0"},
		{name: "Loss", label: "Lost at each pour", unit: "mL", value: kit.Loss, help: "stays on the jug", least: "0"},
	}
	instruments := append(b.scaleInputs(), b.pouringInputs()...)
	return append(groups, mixed, inputGroup{"Instruments", instruments}, inputGroup{"Batches", batches})
}

// cupInput is the size of the cups, or the batch that is shared between them.
func (b *pourBook) cupInput() input {
	cup := b.t.Plan.Cup
	if cup.BatchG > 0 {
		return input{name: "Batch_size", label: "Batch", unit: "g dry", value: cup.BatchG,
			help: "by its recipe, mixed once and shared between the cups", least: "0.1", need: true}
	}
	in := input{name: "Cup_size", label: "Cup size", unit: cupUnit(cup.Size.Of), value: cup.Size.Value,
		help: "what goes into each cup", least: "0.1", need: true}
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
func (b *pourBook) glazeInputs() (all []input) {
	if b.blended() {
		return b.glazeInput(b.t.Base, "SG_base", "Solids_base", b.t.Base.Name)
	}
	for e, end := range b.t.Ends {
		if !b.volumeOnly(end) {
			all = append(all, b.glazeInput(end, name("SG", e), name("Solids", e), b.endHead(e))...)
		}
	}
	return all
}

// glazeInput returns the inputs for the gravity and the solids of a glaze, with the names
// of their cells. Each is checked against the other.
func (b *pourBook) glazeInput(end blend.End, sg, solids, label string) []input {
	help := "weigh 100 mL: 145 g is 1.45"
	if end.Assumed {
		help = "assumed; " + help
	}
	return []input{
		{name: sg, label: label + ", SG", unit: "g/mL", value: end.SG, format: xlsx.AtLeast(2), help: help,
			least: "1.0001", most: fmt.Sprintf("IF(%[1]s_typed>1,%[1]s_typed,20)-0.0001", solids), need: true,
			right: "more than 1, and less than the solids density",
			holds: fmt.Sprintf("%[1]s_typed>=1.0001,%[1]s_typed<20", sg)},
		{name: solids, label: label + ", solids density", unit: "g/mL", value: end.Solids, format: xlsx.AtLeast(2),
			help: "of the dry grains, mostly 2.5 to 2.8", need: true,
			least: "MAX(1.0001," + sg + "_typed)+0.0001", most: "20", right: "more than the SG, at most 20"},
	}
}

// mixedInput is the input for what was actually mixed of an end glaze. Its help says
// what will be left, or that it is too little.
func (b *pourBook) mixedInput(e int) input {
	mixed := name("Mixed", e)
	in := input{name: mixed, label: b.endHead(e), unit: "mL", value: b.have(e),
		help: "leave empty if it came out as planned", least: "0", right: "the mL in the bucket"}
	in.helpNow = fmt.Sprintf(`IF(%[1]s>0,IF(Cup_used=0,"TOO LITTLE for the cups: mix more",`+
		`IF(ROUND(%[1]s-%[2]s,1)<Dead-1E-6,"SHORT: type a smaller cup size",ROUND(%[3]s,1)&" mL left")),%[4]s)`,
		mixed, name("Need", e), name("Left", e), xlsx.Quoted(in.help))
	if in.value > 0 {
		in.says = xlsx.Literal(math.Round(10*b.t.LeftML(e))/10) + " mL left"
	}
	return in
}

// have is what there is of an end glaze already, mL, 0 where it is to be mixed.
func (b *pourBook) have(e int) float64 {
	if batch := b.t.Batches[e]; batch.Mixed {
		return roundTo9(batch.ML)
	}
	return 0
}

// stepInput is the step of an instrument.
func stepInput(name, label, help string, s measure.Step) input {
	return input{name: name, label: label, unit: string(s.Unit), value: s.Size, help: help,
		least: "0.0001", most: "10000", need: true}
}

// scaleInputs are the scales. A second one that is no finer is not used.
func (b *pourBook) scaleInputs() []input {
	fine := stepInput("Fine_step", "Smallest step of a second, finer scale",
		"for amounts too small for the other; may be empty", b.t.Plan.Kit.Fine)
	fine.unit, fine.need, fine.least, fine.most = string(measure.Gram), false, "0", "MAX(0,Scale_step-0.0001)"
	fine.right = "a step finer than the other scale's, in g"
	fine.holds = "Fine_step_typed>=0,Fine_step_typed<=10000"
	fine.used = "IF(N(Fine_step_typed)<Scale_step,N(Fine_step_typed),0)"
	fine.helpNow = fmt.Sprintf("IF(AND(Fine_step=0,N(Fine_step_typed)>0),%s,%s)",
		xlsx.Quoted("NOT USED: not finer than the other scale"), xlsx.Quoted(fine.help))
	return []input{stepInput("Scale_step", "Smallest step of the scale", "weighs the batches", b.t.Plan.Kit.Scale), fine}
}

// pouringInputs are the other instruments, what the scale takes, and the stocks.
func (b *pourBook) pouringInputs() []input {
	kit := b.t.Plan.Kit
	all := []input{stepInput("Pour_step", "The jug is marked every", "pours are whole marks", kit.Pour)}
	if b.scale {
		all[0].label, all[0].help = "Smallest step of the scale for pouring", "glazes are poured on it"
	}
	syringe := stepInput("Syringe_step", "The syringe is marked every", "draws the stocks", kit.Syringe)
	switch {
	case len(b.t.Stocks) > 0:
		all = append(all, syringe)
	case b.t.Plan.Cup.Even && !b.scale:
		syringe.help = "measures the water to thin with"
		all = append(all, syringe)
	}
	if kit.Capacity > 0 {
		all = append(all, input{name: "Capacity", label: "The scale takes at most", unit: "g", value: kit.Capacity,
			help: "for a larger batch, tare between materials", least: "0.1", need: true})
	}
	for i, stock := range b.t.Stocks {
		all = append(all, input{name: name("Strength", i), label: stock.Name, unit: "g/mL", value: stock.GPerML,
			help: "g of dry material in a mL of stock", least: "0.0001", most: "3", need: true})
	}
	return all
}
