package pourbook

import (
	"fmt"
	"math"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// input is a line of the sheet of inputs.
type input struct {
	name   string // of its cell
	label  string
	unit   string
	hint   string
	value  float64
	format xlsx.Format
	blank  bool   // empty unless somebody fills it in
	least  string // limits: numbers or formulas
	most   string
	right  string // what would be right
	need   bool   // nothing can be worked out without it; others may be empty, which is 0
	holds  string // what it must be to be used: its limits without those that depend on each other, "" for least and most
	used   string // what it is used as where it fits, "" for as it is

	hintNow string // a formula for the hint that stands there where it fits, "" for the hint
}

// typed is the name of the cell that an input is typed into. What formulas
// refer to is the input as it is used, on the sheet Working: the same where it
// fits, and what was planned where it does not, so that nothing is divided by
// an empty cell and no text is added up. All amounts are 0 then (Inputs_fit).
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

// roundTo9 takes the noise of binary fractions off x.
func roundTo9(x float64) float64 { return math.Round(x*1e9) / 1e9 }

// writeInputs writes the sheet of what can be changed on the day.
func (b *pourBook) writeInputs() {
	s := b.inputs
	s.Width(0, 0, 44)
	s.Width(1, 1, 14)
	s.Width(2, 2, 16)
	s.Width(3, 3, 74)
	s.Title(b.t.Plan.Title)
	s.Row()
	s.Text(xlsx.Plain, "Change what stands in the boxes with a thick frame: every other sheet follows. All else is locked, without a password.")
	s.Page.Landscape = true

	b.inputHead("The cups")
	b.writeInput(b.cupInput())
	b.inputHead("The slips")
	for _, in := range b.slipInputs() {
		b.writeInput(in)
	}
	b.inputHead("The instruments")
	for _, in := range b.instrumentInputs() {
		b.writeInput(in)
	}
	if len(b.t.Stocks) > 0 {
		b.inputHead("The stocks")
		for i, stock := range b.t.Stocks {
			b.writeInput(input{name: fmt.Sprintf("Strength_%d", i+1), label: stock.Name, unit: "g/mL", value: stock.GPerML, format: xlsx.General,
				hint: "g of dry material in a mL of stock", least: "0.0001", most: "3", right: "a strength from 0.0001 to 3 g/mL", need: true})
		}
	}
	b.inputHead("The batches")
	kit := b.t.Plan.Kit
	b.writeInput(input{name: "Extra", label: "Mixed beyond what the cups take", unit: "%", value: roundTo9(100 * kit.Extra), format: xlsx.General,
		hint: "percent of what the cups take", least: "0", most: "1000", right: "a percentage from 0 to 1000"})
	b.writeInput(input{name: "Dead", label: "Stays in the jug", unit: "mL", value: kit.Dead, format: xlsx.General,
		hint: "of each batch; mixed on top", least: "0", most: "100000", right: "0 mL or more"})
	b.writeInput(input{name: "Loss", label: "Lost at each pour", unit: "mL", value: kit.Loss, format: xlsx.General,
		hint: "runs down the jug and never gets into a cup", least: "0", most: "1000", right: "0 mL or more"})

	b.inputHead("What was really mixed")
	for e := range b.q {
		if b.poured[e] == 0 {
			continue
		}
		b.writeInput(b.mixedInput(e))
	}
	b.inputHead("Which makes")
	b.writeCupUsed()
	s.Lock()
}

func (b *pourBook) inputHead(text string) {
	b.inputs.SkipRows(1)
	b.inputs.Row()
	for _, t := range []string{text, "", "", ""} {
		b.inputs.Text(xlsx.Section, t)
	}
}

// writeInput writes a line: label, box, unit, hint.
func (b *pourBook) writeInput(in input) {
	s := b.inputs
	row := s.TallRow(float64(15*max(xlsx.LinesOf(in.label, 44), 1) + 5))
	right := in.right
	if in.blank {
		right += ", or nothing"
	}
	s.Text(xlsx.Label, in.label)
	b.Define(in.typed(), s.At(s.Column(), row))
	s.Check(xlsx.CellArea(s.Column(), row), xlsx.Rule{Kind: "decimal", Operator: "between", First: in.least, Second: in.most},
		xlsx.Check{Title: "Not possible", Prompt: in.hint, Message: "What fits here is " + right + "."})
	if in.blank {
		s.Blank(xlsx.Input, in.format)
	} else {
		s.Number(xlsx.Input, in.format, in.value)
	}
	s.Text(xlsx.Unit, in.unit)
	b.typed = append(b.typed, in)
	hint := xlsx.Quoted(in.hint)
	if in.hintNow != "" {
		hint = in.hintNow
	}
	begin := "NOT POSSIBLE"
	if in.need {
		begin = "NEEDED"
	}
	s.TextFormula(xlsx.Hint, fmt.Sprintf("IF(%s,%s,%s&IF(ISTEXT(%s),%s,%s)&%s)", in.fits(), hint,
		xlsx.Quoted(begin), in.typed(), xlsx.Quoted(" (what stands there is text, no number): "), xlsx.Quoted(": "), xlsx.Quoted(right)), in.hint)
}

// writeUsed writes, at the end of the sheet Working, the inputs as they are
// used.
func (b *pourBook) writeUsed() {
	s := b.working.sheet
	s.SkipRows(1)
	s.Row()
	s.Text(xlsx.Head, "Input")
	s.Text(xlsx.Head, "as used")
	s.Text(xlsx.Head, "fits")
	first := s.LastRow() + 1
	for _, in := range b.typed {
		row := s.Row()
		s.Text(xlsx.Head, in.name)
		b.Define(in.name, s.At(s.Column(), row))
		used := in.used
		if used == "" {
			used = in.typed()
		}
		s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("IF(C%d=1,%s,%s)", row, used, xlsx.Literal(in.value)), in.value)
		s.Formula(xlsx.Worked, xlsx.General, "IF("+in.fits()+",1,0)", 1)
	}
	last := s.LastRow()
	s.Row()
	s.Text(xlsx.Head, "all fit")
	b.Define("Inputs_fit", s.At(s.Column(), s.LastRow()))
	s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("MIN(C%d:C%d)", first, last), 1)
}

func (b *pourBook) cupInput() input {
	cup := b.t.Plan.Cup
	in := input{name: "Cup_size", label: "Cup size", value: cup.Size, format: xlsx.General, least: "0.1", most: "1000000", right: "a size of 0.1 or more", need: true}
	switch cup.Of {
	case blend.Volume:
		in.unit = "mL of slip"
	case blend.Weight:
		in.unit = "g of slip"
	default:
		in.unit = "g dry"
	}
	in.hint = "what goes into each cup"
	if b.k > 0 {
		in.unit += " base"
		in.hint += ": the base, before its doses"
	}
	return in
}

// slipInputs are the gravity and the solids of each slip that is mixed from a
// recipe. End slips of a series follow from their base.
func (b *pourBook) slipInputs() []input {
	type slip struct {
		end    blend.End
		suffix string
		label  string
	}
	var slips []slip
	if b.k > 0 {
		slips = []slip{{b.t.Base(), "base", b.t.Base().Name}}
	} else {
		for e := range b.q {
			slips = append(slips, slip{b.t.Ends[e], letter(e), b.endHead(e)})
		}
	}
	var all []input
	for _, x := range slips {
		hint := "weigh 100 mL: 145 g is 1.45"
		if x.end.Assumed {
			hint = "the plan gives none and this is assumed; " + hint
		}
		sg, solids := "SG_"+x.suffix+"_typed", "Solids_"+x.suffix+"_typed"
		all = append(all,
			input{name: "SG_" + x.suffix, label: x.label + ", specific gravity", unit: "g/mL", hint: hint, value: x.end.SG, format: xlsx.AtLeast(2),
				least: "1.0001", most: fmt.Sprintf("IF(%[1]s>1,%[1]s,20)-0.0001", solids), right: "more than 1 and less than the density of the solids",
				need: true, holds: sg + ">=1.0001," + sg + "<20"},
			input{name: "Solids_" + x.suffix, label: x.label + ", solids", unit: "g/mL", hint: "density of the dry grains, mostly 2.5 to 2.8", value: x.end.Solids, format: xlsx.AtLeast(2),
				least: "MAX(1.0001," + sg + ")+0.0001", most: "20", right: "more than the specific gravity, at most 20", need: true})
	}
	return all
}

func (b *pourBook) instrumentInputs() []input {
	kit := b.t.Plan.Kit
	step := func(name, label, hint string, s measure.Step) input {
		return input{name: name, label: label, unit: string(s.Unit), hint: hint, value: s.Size, format: xlsx.General,
			least: "0.0001", most: "10000", right: "a step from 0.0001 to 10 000 " + string(s.Unit), need: true}
	}
	all := []input{step("Scale_step", "Smallest step of the scale", "weighs the batches", kit.Scale)}
	what := "weighs "
	switch {
	case len(b.t.Stocks) > 0:
		what += "what goes into the stocks, and "
	case b.doses > 0:
		what += "the doses, and "
	}
	fine := step("Fine_step", "Smallest step of a second, finer scale", what+"what the other is too coarse for; empty: there is none", kit.Fine)
	fine.unit, fine.blank = string(measure.Gram), kit.Fine.Size == 0
	fine.least, fine.most, fine.right = "0", "MAX(0,Scale_step-0.0001)", "a step finer than the other scale's, in g; 0 where there is none"
	fine.need = false // the other scale does, and where this is no finer it is not used
	fine.holds = "Fine_step_typed>=0,Fine_step_typed<=10000"
	fine.used = "IF(Fine_step_typed<Scale_step,Fine_step_typed,0)"
	fine.hintNow = fmt.Sprintf("IF(AND(Fine_step=0,Fine_step_typed>0),%s,%s)", xlsx.Quoted("NOT USED: it is no finer than the other scale"), xlsx.Quoted(fine.hint))
	all = append(all, fine)
	label, hint := "Smallest graduation of the jug", "slips are poured in whole graduations"
	if b.scale {
		label, hint = "Smallest step of the scale for pouring", "slips are poured onto it"
	}
	all = append(all, step("Pour_step", label, hint, kit.Pour))
	draws := "measures the water that evens cups out"
	if len(b.t.Stocks) > 0 {
		draws = "draws the stocks"
	}
	if len(b.t.Stocks) > 0 || !b.scale {
		all = append(all, step("Syringe_step", "Smallest graduation of the syringe", draws, kit.Syringe))
	}
	if kit.Capacity > 0 {
		all = append(all, input{name: "Capacity", label: "The scale takes at most", unit: "g", value: kit.Capacity, format: xlsx.General,
			hint: "larger batches are weighed in several loads", least: "0.1", most: "1000000", right: "the most that the scale weighs, in g", need: true})
	}
	return all
}

// writeCupUsed writes what follows for the cups from what was really mixed.
func (b *pourBook) writeCupUsed() {
	s, t := b.inputs, b.t
	line := func(name, label, unit, formula string, look xlsx.Look, format xlsx.Format, value float64, hint string) {
		row := s.TallRow(22)
		s.Text(xlsx.Label, label)
		b.Define(name, s.At(s.Column(), row))
		s.Formula(look, format, formula, value)
		s.Text(xlsx.Unit, unit)
		if name == "Cup_used" {
			s.TextFormula(xlsx.Hint, fmt.Sprintf("IF(Inputs_fit=0,%s,IF(Cup_used=0,%s,%s))", xlsx.Quoted("0, and so are all amounts, until what is needed above is there"),
				xlsx.Quoted("0, and so are all amounts: what was really mixed serves no cups"), xlsx.Quoted(hint)), hint)
			return
		}
		s.Text(xlsx.Hint, hint)
	}
	line("Cup_used", "Cup size that all sheets use", b.cupInput().unit, b.cupUsed(),
		xlsx.Measured, xlsx.General, t.Plan.Cup.Size, "as set above, or so much that what was really mixed is enough for the rounded pours")
	if b.doses > 0 {
		line("Dose_step", "Step that doses are weighed in", "g", "IF(Fine_step>0,Fine_step,Scale_step)", xlsx.Worked, xlsx.General, t.Plan.Kit.Dosing().Size, "")
	}
	s.SkipRows(1)
	s.Row()
	s.Text(xlsx.Plain, "As planned: "+t.Summary()+".")
}
