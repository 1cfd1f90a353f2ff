package pourbook

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// input is a line of the sheet Inputs.
type input struct {
	name        string // of the cell with the value as it is used
	label       string
	unit        string
	help        string
	value       float64
	format      xlsx.Format
	blank       bool   // empty unless somebody fills it in
	least, most string // limits: numbers or formulas
	right       string // what would be right
	need        bool   // nothing can be worked out without it; others may be empty, which is 0
	holds       string // what it must be to be used, "" for least and most
	used        string // the formula for the value that is used, "" for what is typed
	helpNow     string // a formula for the help where it fits, "" for help
	says        string // what that comes to, "" for help
}

// typed is the cell that an input is typed into. What formulas refer to is the
// input as it is used, beside it: the same where it fits, and what was planned
// where it does not, so that nothing is divided by an empty cell and no text is
// added up. All amounts are 0 then (Inputs_fit).
func (in input) typed() string { return in.name + "_typed" }

// fits is the formula for whether an input can be used. Checks stop what is
// typed, but not what is pasted: a text, or the error of another sheet.
func (in input) fits() string {
	t, holds := in.typed(), in.holds
	if holds == "" {
		holds = fmt.Sprintf("%[1]s>=%[2]s,%[1]s<=%[3]s", t, in.least, in.most)
	}
	fits := "AND(ISNUMBER(" + t + ")," + holds + ")"
	if !in.need {
		fits = "OR(ISBLANK(" + t + ")," + fits + ")"
	}
	return "IFERROR(" + fits + ",FALSE)"
}

// usedColumn is where the inputs stand as they are used, behind the print; the
// next one says whether they fit.
const usedColumn = 5

// The widths of the labels of inputs and of their help, in digits: with box and
// unit they go across an upright A4 at four fifths of the full size.
const (
	inputLabel = 34
	inputHelp  = 38
)

// inputRow begins a row with a label and help, high enough for both and for the
// line that says what is wrong in place of the help.
func (b *pourBook) inputRow(label, help string) int {
	return b.inputs.TallRow(max(28, xlsx.LineHeight(label, inputLabel), xlsx.LineHeight(help, inputHelp)))
}

// writeInputs writes the sheet of what can be changed on the day.
func (b *pourBook) writeInputs() {
	s, kit := b.inputs, b.t.Plan.Kit
	for i, width := range []float64{inputLabel, 11, 14, inputHelp, 2, 12, 8} {
		s.Width(i, i, width)
	}
	s.Page.Columns, s.Page.Pages = 4, 1
	s.Title("Inputs")
	s.Row()
	s.Text(xlsx.Plain, "Fill in the framed boxes. The other sheets follow. Then print the card again.")

	b.section("Cups")
	b.input(b.cupInput())
	b.input(input{name: "Limit", label: "Your limit for every dose and share", unit: "± %", value: roundTo9(100 * kit.Worst), format: xlsx.General,
		help: "the largest error that you accept", least: "0.01", most: "100", right: "0.01 to 100 %", need: true})
	if glazes := b.glazeInputs(); glazes != nil {
		b.section("Wet glazes, as measured")
		for _, in := range glazes {
			b.input(in)
		}
	}
	if !b.weigh {
		b.section("Actually mixed")
		for e := range b.q {
			if b.poured[e] > 0 {
				b.input(b.mixedInput(e))
			}
		}
	}
	b.section("Instruments")
	for _, in := range b.instrumentInputs() {
		b.input(in)
	}
	for i, stock := range b.t.Stocks {
		b.input(input{name: name("Strength", i), label: stock.Name, unit: "g/mL", value: stock.GPerML, format: xlsx.General,
			help: "g of dry material in a mL of stock", least: "0.0001", most: "3", right: "0.0001 to 3 g/mL", need: true})
	}
	if b.weigh {
		b.writeResult(s.LastRow())
		return
	}
	b.section("Batches")
	b.input(input{name: "Extra", label: "Extra", unit: "%", value: roundTo9(100 * kit.Extra), format: xlsx.General,
		help: "mixed beyond what the cups need", least: "0", most: "1000", right: "0 to 1000 %"})
	b.input(input{name: "Dead", label: "Left in the jug", unit: "mL", value: kit.Dead, format: xlsx.General,
		help: "of each batch, mixed in addition", least: "0", most: "100000", right: "0 mL or more"})
	b.input(input{name: "Loss", label: "Lost at each pour", unit: "mL", value: kit.Loss, format: xlsx.General,
		help: "stays on the jug", least: "0", most: "1000", right: "0 mL or more"})
	b.writeResult(s.LastRow())
}

// section writes the head of a part of the sheet.
func (b *pourBook) section(text string) {
	b.inputs.Row()
	for _, t := range []string{text, "", "", ""} {
		b.inputs.Text(xlsx.Section, t)
	}
}

// input writes a line: label, box, unit, help, and the value as it is used.
func (b *pourBook) input(in input) {
	s := b.inputs
	row := b.inputRow(in.label, in.help)
	right := in.right
	if in.blank {
		right += ", or nothing"
	}
	s.Text(xlsx.Label, in.label)
	b.Define(in.typed(), s.At(1, row))
	s.Check(xlsx.CellArea(1, row), xlsx.Rule{Kind: "decimal", Operator: "between", First: in.least, Second: in.most},
		xlsx.Check{Title: "Not possible", Prompt: in.help, Message: "Enter " + right + "."})
	if in.blank {
		s.Blank(xlsx.Input, in.format)
	} else {
		s.Number(xlsx.Input, in.format, in.value)
	}
	s.Text(xlsx.Unit, in.unit)
	b.typed[in.name] = true
	help := xlsx.Quoted(in.help)
	if in.helpNow != "" {
		help = in.helpNow
	}
	says := in.says
	if says == "" {
		says = in.help
	}
	begin := "NOT POSSIBLE"
	if in.need {
		begin = "NEEDED"
	}
	fits := fmt.Sprintf("$%s%d=1", xlsx.Letters(usedColumn+1), row)
	s.TextFormula(xlsx.Hint, fmt.Sprintf("IF(%s,%s,%s&IF(ISTEXT(%s),%s,%s)&%s)", fits, b.resolve(help, nil),
		xlsx.Quoted(begin), in.typed(), xlsx.Quoted(" (the cell holds text, not a number): "), xlsx.Quoted(": "), xlsx.Quoted(right)), says)
	s.Skip(1)
	b.Define(in.name, s.At(usedColumn, row))
	used := in.used
	if used == "" {
		used = "N(" + in.typed() + ")"
	}
	s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("IF(%s,%s,%s)", fits, used, xlsx.Literal(in.value)), in.value)
	s.Formula(xlsx.Worked, xlsx.General, "IF("+in.fits()+",1,0)", 1)
}

func (b *pourBook) cupInput() input {
	cup := b.t.Plan.Cup
	if cup.BatchG > 0 {
		return input{name: "Batch_size", label: "Batch", value: cup.BatchG, format: xlsx.General, least: "0.1", most: "1000000", right: "0.1 g or more", need: true,
			unit: "g dry", help: "by its recipe, mixed once and shared between the cups"}
	}
	in := input{name: "Cup_size", label: "Cup size", value: cup.Size.Value, format: xlsx.General, least: "0.1", most: "1000000", right: "0.1 or more", need: true,
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
		add(b.t.Base(), "base", b.t.Base().Name)
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
		says = strconv.FormatFloat(math.Round(10*(batch.ML-batch.NeedML))/10, 'f', -1, 64) + " mL left"
	}
	left := fmt.Sprintf("ROUND(%s-%s,1)", name("Mixed", e), name("Need", e))
	return input{name: name("Mixed", e), label: b.endHead(e), unit: "mL", blank: have == 0, value: have, format: xlsx.General, help: help, says: says,
		least: "0", most: "1000000", right: "the mL in the bucket",
		helpNow: fmt.Sprintf(`IF(%[1]s>0,IF(Cup_used=0,"TOO LITTLE for the cups: mix more",IF(%[2]s<Dead-1E-6,"SHORT: type a smaller cup size",%[2]s&" mL left")),%[3]s)`, name("Mixed", e), left, xlsx.Quoted(help))}
}

// have is what there is of an end glaze already, mL, 0 where it is to be mixed.
func (b *pourBook) have(e int) float64 {
	if batch := b.t.Batches[e]; batch.Mixed {
		return roundTo9(batch.ML)
	}
	return 0
}

func (b *pourBook) instrumentInputs() []input {
	kit := b.t.Plan.Kit
	step := func(name, label, help string, s measure.Step) input {
		return input{name: name, label: label, unit: string(s.Unit), help: help, value: s.Size, format: xlsx.General,
			least: "0.0001", most: "10000", right: "0.0001 to 10 000 " + string(s.Unit), need: true}
	}
	all := []input{step("Scale_step", "Smallest step of the scale", "weighs the batches", kit.Scale)}
	fine := step("Fine_step", "Smallest step of a second, finer scale", "for amounts too small for the other; may be empty", kit.Fine)
	fine.unit, fine.blank, fine.need = string(measure.Gram), kit.Fine.Size == 0, false
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
		all = append(all, input{name: "Capacity", label: "The scale takes at most", unit: "g", value: kit.Capacity, format: xlsx.General,
			help: "larger batches are weighed in several loads", least: "0.1", most: "1000000", right: "0.1 g or more", need: true})
	}
	return all
}

// writeResult writes what follows for the cups; last is the row of the last
// input.
func (b *pourBook) writeResult(last int) {
	s, t := b.inputs, b.t
	b.section("Result")
	line := func(name, label, unit, formula string, format xlsx.Format, value float64, help string) {
		row := b.inputRow(label, help)
		s.Text(xlsx.Label, label)
		b.Define(name, s.At(1, row))
		s.Formula(xlsx.Measured, format, b.resolve(formula, nil), value)
		s.Text(xlsx.Unit, unit)
		s.Text(xlsx.Hint, help)
	}
	unit := cupUnit(t.Plan.Cup.Size.Of)
	help := "the size above"
	switch {
	case b.weigh:
	case b.slots > 1:
		help += ", or less where too little was mixed (a little less than make --have gives)"
	default:
		help += ", or less where too little was mixed"
	}
	line("Cup_used", "Cup size used", unit, b.cupUsed(), xlsx.General, t.Plan.Cup.Size.Value, help)
	worst := 0.0
	for _, c := range t.Cells {
		worst = max(worst, c.Got.Worst)
	}
	line("Worst", "Largest possible error", "± %", "100*MAX({worst[]})", "0.0", 100*worst, "from measuring alone; for the smallest cup within your limit run: pourboard check")
	if b.doses > 0 || b.weigh {
		s.TallRow(20)
		s.Skip(usedColumn)
		b.Define("Dose_step", s.At(usedColumn, s.LastRow()))
		s.Formula(xlsx.Worked, xlsx.General, "IF(Fine_step>0,Fine_step,Scale_step)", t.Plan.Kit.Dosing().Size)
		s.Text(xlsx.Plain, "g, the scale for doses")
	}
	s.Row()
	s.Skip(usedColumn)
	b.Define("Inputs_fit", s.At(usedColumn, s.LastRow()))
	fits := xlsx.Letters(usedColumn + 1)
	s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("MIN(%[1]s1:%[1]s%[2]d)", fits, last), 1)
	s.Text(xlsx.Plain, "all inputs fit")
	s.Row()
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
		mixed := name("Mixed", e)
		if b.slots > 1 {
			fit := fmt.Sprintf("ROUNDDOWN(MAX(0,%s-Dead-Loss*%d-%s)/%s,2-INT(LOG10(Cup_size)))", mixed, n, b.inML(fmt.Sprintf("Pour_step*SQRT(%d)", n), e), name("Takes", e))
			least = append(least, fmt.Sprintf("IF(AND(%[1]s>0,%[1]s<>%[2]s),%[3]s,Cup_size)", mixed, xlsx.Literal(b.have(e)), fit))
			continue
		}
		unit := name("Size", e) + "/" + name("Unit", e)
		steps := func(ml string) string {
			return fmt.Sprintf("INT(ROUND(MAX(0,(%s-Dead)/%d-Loss)/(%s),9))", ml, n, b.inML("Pour_step", e))
		}
		size := func(ml string) string { return b.inML(steps(ml)+"*Pour_step", e) + "*" + unit }
		if least == nil {
			mixed = fmt.Sprintf("IF(%[1]s>0,%[1]s,Batch_size/%[2]s)", mixed, name("Holds", e))
			least = append(least, size(mixed))
			continue
		}
		asked := stepsOf("Cup_size/("+unit+")", "("+b.inML("Pour_step", e)+")")
		least = append(least, fmt.Sprintf("IF(AND(%[1]s>0,%[2]s>%[3]s),%[4]s,Cup_size)", mixed, asked, steps(mixed), size(mixed)))
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
