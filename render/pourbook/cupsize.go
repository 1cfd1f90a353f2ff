package pourbook

import (
	"fmt"
	"strings"

	"pourboard/render/xlsx"
)

// writeResult writes what follows for the cups.
func (b *pourBook) writeResult() {
	s, t := b.inputs, b.t
	s.Section("Result", 4)
	line := func(name, label, unit, formula string, format xlsx.Format, value float64, help string) {
		b.writeLabelled(s, nil, inputHeight(label, help), labelled{name, label, unit, xlsx.Measured, format, formula, value})
		s.Text(xlsx.Hint, help)
	}
	unit := cupUnit(t.Plan.Cup.Size.Of)
	help := "the size above, or less where too little was mixed"
	switch {
	case b.weigh:
		help = "the size above"
	case b.slots > 1:
		help += " (a little less than make --have gives)"
	}
	line("Cup_used", "Cup size used", unit, b.cupUsed(), xlsx.General, t.Plan.Cup.Size.Value, help)
	worst := 0.0
	for _, c := range t.Cells {
		worst = max(worst, c.Got.Worst)
	}
	line("Worst", "Largest possible error", "± %", "100*MAX({worst[]})", "0.0", 100*worst, "from measuring alone")
	b.writeSmallest(unit)
}

// cupUsed is the formula for the cup size that all sheets use: what is asked, or
// less where what was mixed is not enough. From one glaze every cup gets the whole
// steps that there are for it. Where several are rounded together, the exact share
// is taken to three digits, less a margin: the roundings of n pours come to more
// than a step times the root of n once in two thousand times. For what was mixed
// when the workbook was made, the size asked is enough. A plan that begins with a
// batch asks for no size.
func (b *pourBook) cupUsed() string {
	if b.weigh {
		return "IF(Inputs_fit=0,0,Cup_size)"
	}
	least := []string{"Cup_size"}
	if b.t.Plan.Cup.BatchG > 0 {
		least = nil
	}
	for e, n := range b.poured {
		if n == 0 {
			continue
		}
		mixed, unit := name("Mixed", e), name("Size", e)+"/"+name("Unit", e)
		step := b.inML("Pour_step", e)
		shared := fmt.Sprintf("INT(ROUND(MAX(0,(MIXED-Dead)/%d-Loss)/(%s),9))", n, step)
		size := b.inML(shared+"*Pour_step", e) + "*" + unit
		enough := fmt.Sprintf("%s>%s", stepsOf("Cup_size/("+unit+")", "("+step+")"), shared)
		if b.slots > 1 {
			margin := b.inML(fmt.Sprintf("Pour_step*SQRT(%d)", n), e)
			size = fmt.Sprintf("ROUNDDOWN(MAX(0,MIXED-Dead-Loss*%d-%s)/%s,2-INT(LOG10(Cup_size)))", n, margin, name("Takes", e))
			enough = "MIXED<>" + xlsx.Literal(b.have(e))
		}
		formula := "IF(AND(MIXED>0," + enough + ")," + size + ",Cup_size)"
		if least == nil {
			formula, mixed = size, fmt.Sprintf("IF(%[1]s>0,%[1]s,Batch_size/%[2]s)", mixed, name("Holds", e))
		}
		least = append(least, strings.ReplaceAll(formula, "MIXED", mixed))
	}
	return "IF(Inputs_fit=0,0,MIN(" + strings.Join(least, ",") + "))"
}

// inML is the formula in mL for an amount of an end glaze as it is poured.
func (b *pourBook) inML(amount string, e int) string {
	if b.scale {
		return amount + "/" + name("SG", e)
	}
	return amount
}
