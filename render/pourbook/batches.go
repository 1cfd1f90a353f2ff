package pourbook

import (
	"fmt"
	"math"
	"slices"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// The columns of the sheet Batches that print, and behind them those that they are
// worked out from.
const (
	printColumns = 5
	exactColumn  = printColumns + 1 // behind an empty one
	apartColumn  = exactColumn + 1
	stepsColumn  = apartColumn + 1
)

// The widths of the labels of batches and of their numbers, in digits.
const (
	batchLabel  = 40
	batchNumber = 13
)

// weighed is a batch as it is on the sheet Batches: the row of its first
// material, and how many of them are of the recipe, 0 where nothing is mixed.
type weighed struct {
	first, recipe int
}

// writeBatches writes the sheet of what to mix: a block for each end glaze, and
// one for each stock.
func (b *pourBook) writeBatches() {
	s := b.batches
	s.Width(0, 0, batchLabel)
	s.Width(1, printColumns, batchNumber)
	s.Page.Columns = printColumns
	s.TitleFormula(b.titleOr("Batches", []trouble{{"Cup_used=0", xlsx.Quoted("amounts stay 0 until Inputs is complete")}}), "Batches")
	s.Remark("Tare the container. Add each material until the scale shows its figure. Weigh what says \""+apartText+"\" separately. \""+tareText+"\": the scale does not take all at once.", printColumns, batchLabel+4*batchNumber)
	begin := func(head string) {
		s.SkipRow()
		s.TallRow(20)
		s.Text(xlsx.Section, head)
		for range s.Page.Columns - 1 {
			s.Blank(xlsx.Section, xlsx.General)
		}
	}
	for e := range b.q {
		begin(b.endHead(e))
		b.writeBatch(e)
	}
	for i, stock := range b.t.Stocks {
		begin(stock.Name)
		b.writeStock(i)
	}
	s.FitPages(batchLabel + (printColumns-1)*batchNumber)
}

// batchRow writes a labelled value of a batch and returns its address.
func (b *pourBook) batchRow(label, unit string, look xlsx.Look, format xlsx.Format, formula string, value float64) string {
	height := xlsx.LineHeight(label, batchLabel)
	if look == xlsx.Measured {
		height = max(height, measuredHeight)
	}
	return b.writeLabelled(b.batches, nil, height, labelled{"", label, unit, look, format, formula, value})
}

// writeBatch writes the block of an end glaze.
func (b *pourBook) writeBatch(e int) {
	t, s := b.t, b.batches
	kit, batch, end := t.Plan.Kit, t.Batches[e], t.Ends[e]
	if b.poured[e] == 0 {
		s.Row()
		s.Text(xlsx.Label, "Not poured into any cup.")
		b.Define(name("Mixed", e), s.At(1, s.LastRow()))
		s.Number(xlsx.Worked, xlsx.General, 0)
		return
	}
	planned := "pour" // what was poured otherwise does not change what is mixed
	if b.scale {
		planned = "due"
	}
	need := b.batchRow("The cups need", "mL", xlsx.Worked, "0.0", b.taken(planned, e), batch.NeedML)
	b.Define(name("Need", e), s.At(1, s.LastRow()))
	ml := 0.0
	if batch.NeedML > 0 {
		ml = batch.NeedML*(1+kit.Extra) + kit.Dead
	}
	least := b.batchRow("With the extra", "mL", xlsx.Worked, "0.0", fmt.Sprintf("IF(%[1]s>0,%[1]s*(1+Extra/100)+Dead,0)", need), ml)
	if end.Bucket {
		ready := b.batchRow("Have ready", "mL", xlsx.Measured, xlsx.General, fmt.Sprintf("IF(%[1]s>0,%[1]s,%[2]s)", name("Mixed", e), convenient(least)), batch.ML)
		b.batchLeft(e, ready)
		return
	}
	asked := b.batchRow("Dry glaze for that", "g", xlsx.Worked, "0.0", least+"*"+name("Holds", e), ml*end.RecipePerML)
	mix := upToSteps(convenient(asked), "Scale_step")
	if t.Plan.Cup.BatchG > 0 {
		mix = "Batch_size*(Cup_used>0)"
	}
	dry := b.batchRow("Dry glaze by its recipe", "g", xlsx.Measured, xlsx.General,
		fmt.Sprintf("IF(%[1]s>0,%[1]s*%[2]s,%[3]s)", name("Mixed", e), name("Holds", e), mix), batch.RecipeG)
	all := fmt.Sprintf("(%s*(1+%s))", dry, name("Over", e))
	exact := b.batchRow("Water by the SG", "g", xlsx.Worked, "0.0", name("Water", e)+"*"+all, end.WaterPerG*batch.DryG)
	water := b.batchRow("Water", "g", xlsx.Measured, xlsx.General, bucketWater(exact, name("Mixed", e)), batch.WaterG)
	made := b.batchRow("Makes wet glaze", "mL", xlsx.Worked, "0", dry+"/"+name("Holds", e), batch.ML)
	b.batchRow("It weighs", "g", xlsx.Worked, "0", all+"+"+water, batch.G)
	b.batchRow("SG then", "g/mL", xlsx.Worked, "0.000",
		fmt.Sprintf("IF(%[1]s>0,(1+%[2]s/%[1]s)/(1/%[3]s+%[2]s/%[1]s),0)", all, water, name("Solids", e)), finiteOr0(batch.SG))
	b.batchLeft(e, made)
	b.writeMaterials(e, dry)
}

// taken is the formula for the mL that the pours in a column take of an end glaze,
// with what is lost at each: blend.Test.PouredML.
func (b *pourBook) taken(column string, e int) string {
	return fmt.Sprintf("%s+Loss*%d*(Cup_used>0)", b.inML(b.poursOf(column, e), e), b.poured[e])
}

// batchLeft writes what stays of a batch of so many mL, by what is really poured.
func (b *pourBook) batchLeft(e int, ml string) {
	b.batchRow("Left when all cups are poured", "mL", xlsx.Worked, "0.0", ml+"-("+b.taken("used", e)+")", b.t.LeftML(e))
	b.Define(name("Left", e), b.batches.At(1, b.batches.LastRow()))
}

// finiteOr0 is x, or 0 for the gravity of a batch of nothing.
func finiteOr0(x float64) float64 {
	if x != x {
		return 0
	}
	return x
}

// load is a material of a batch as it comes onto a scale.
type load struct {
	name    string
	percent float64
	g       float64
	apart   bool // on the finer scale, by itself
}

// loads are the materials of a batch, those that are weighed apart among them, with
// the loads of the scale that they are split into put together again.
func loads(end blend.End, batch blend.Batch) []load {
	var all []load
	for i, p := range slices.Concat(end.Recipe, end.Additions) {
		l := load{name: p.Material, percent: p.Percent}
		if i >= len(end.Recipe) {
			l.name = "+ " + l.name
		}
		for _, x := range batch.Apart {
			if x.Part == i {
				l.g, l.apart = x.G, true
			}
		}
		for _, w := range batch.Weighings {
			if w.Part == i {
				l.g = roundTo9(l.g + w.G)
			}
		}
		all = append(all, l)
	}
	return all
}

// Texts in place of the scale's reading: for a material that is weighed separately,
// and where all together is more than the scale takes.
const (
	apartText = "fine scale"
	tareText  = "tare first"
)

// writeMaterials writes the dry materials of a batch. One that the scale is too
// coarse for is weighed apart when there is a finer one, and counts as nothing in
// the running sum of the others.
func (b *pourBook) writeMaterials(e int, dry string) {
	t, s, kit := b.t, b.batches, b.t.Plan.Kit
	s.TallRow(34)
	for _, h := range []string{"Material", "% of recipe", "weigh, g", "scale reads, g", "tick"} {
		s.Text(xlsx.Head, h)
	}
	all := loads(t.Ends[e], t.Batches[e])
	first := s.LastRow() + 1
	last := first + len(all) - 1
	b.weighed[e] = weighed{first, len(t.Ends[e].Recipe)}
	tooMuch, over := "FALSE", false
	if kit.Capacity > 0 {
		tooMuch = fmt.Sprintf("$%s$%d*Scale_step>Capacity", xlsx.Letters(stepsColumn), last)
		sum := 0.0
		for _, m := range all {
			if !m.apart {
				sum += m.percent * t.Batches[e].RecipeG / 100
			}
		}
		over = kit.Scale.Amount(kit.Scale.Count(sum)) > kit.Capacity
	}
	sum := 0.0
	for _, m := range all {
		row := s.TallRow(max(measuredHeight, xlsx.LineHeight(m.name, batchLabel)))
		at := func(column int) string { return fmt.Sprintf("$%s%d", xlsx.Letters(column), row) }
		down := func(column int) string {
			return fmt.Sprintf("$%[1]s$%[2]d:$%[1]s%[3]d", xlsx.Letters(column), first, row)
		}
		steps, apart := at(stepsColumn), at(apartColumn)+"=1"
		if row > first {
			steps += fmt.Sprintf("-$%s%d", xlsx.Letters(stepsColumn), row-1)
		}
		exact, flag, format, says := m.percent*t.Batches[e].RecipeG/100, 0.0, formatOf(kit.Scale), ""
		switch {
		case m.apart:
			flag, format, says = 1, formatOf(kit.Fine), apartText
		case over:
			says = tareText
			fallthrough
		default:
			sum += exact
		}
		s.Text(xlsx.Label, m.name)
		s.Number(xlsx.Given, "0.0#", m.percent)
		s.Formula(xlsx.Measured, format, fmt.Sprintf("IF(%s,%s,%s)", apart, measured(at(exactColumn), "MAX(Fine_step,1E-9)"), amountOf(steps, "Scale_step")), m.g)
		reads := fmt.Sprintf("IF(%s,%s,IF(%s,%s,%s))", apart, xlsx.Quoted(apartText), tooMuch, xlsx.Quoted(tareText), amountOf(at(stepsColumn), "Scale_step"))
		if says != "" {
			s.TextFormula(xlsx.Measured, reads, says)
		} else {
			s.Formula(xlsx.Measured, formatOf(kit.Scale), reads, kit.Scale.Amount(kit.Scale.Count(sum)))
		}
		s.Blank(xlsx.Field, xlsx.General)
		s.Skip(1)
		s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("$B%d*%s/100", row, dry), exact)
		s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("IF(AND(Fine_step>0,%[1]s>0,%[1]s<Coarse_below),1,0)", at(exactColumn)), flag)
		s.Formula(xlsx.Worked, xlsx.General, stepsOf(fmt.Sprintf("SUMPRODUCT(%s,1-%s)", down(exactColumn), down(apartColumn)), "Scale_step"), float64(kit.Scale.Count(sum)))
	}
	s.TallRow(xlsx.LineHeight("", batchLabel))
	s.Text(xlsx.Label, "All dry materials together")
	s.Skip(1)
	s.Formula(xlsx.Worked, xlsx.AtLeast(max(kit.Scale.Decimals(), kit.Fine.Decimals())), fmt.Sprintf("SUM(C%d:C%d)", first, last), t.Batches[e].WeighedG)
}

// writeStock writes the block of a stock.
func (b *pourBook) writeStock(i int) {
	t := b.t
	kit, stock := t.Plan.Kit, t.Stocks[i]
	strength := name("Strength", i)
	need := b.batchRow("The cups need", "mL", xlsx.Worked, formatOf(kit.Syringe),
		fmt.Sprintf("SUMIF({stock%[1]d[]},%[2]d,{drawn%[1]d[]})", stock.Series+1, b.stockNumber(i)), stock.NeedML)
	beyond := 0.0
	if stock.NeedML > 0 {
		beyond = stock.NeedML*(1+kit.Extra) + kit.Dead
	}
	x := b.batchRow("With the extra", "mL", xlsx.Worked, "0.0", fmt.Sprintf("IF(%[1]s>0,%[1]s*(1+Extra/100)+Dead,0)", need), beyond)
	// The scale takes its part of the limit, as the engine lets it.
	well := measure.Smallest(kit.Dosing().Tared(), kit.Worst*blend.StockWeighing) / stock.GPerML
	least := b.batchRow("To weigh it well, at least", "mL", xlsx.Worked, "0.0",
		fmt.Sprintf("2*%s/(Limit/100*%s)/%s", tared("Dose_step"), xlsx.Literal(blend.StockWeighing), strength), well)
	asked := b.batchRow(fmt.Sprintf("To mix (at most %d times the need)", blend.MostSpare), "mL", xlsx.Worked, "0.0",
		fmt.Sprintf("MAX(%[1]s,MIN(%[2]s,%[3]d*%[1]s))", x, least, blend.MostSpare), max(beyond, min(well, blend.MostSpare*beyond)))
	g := b.batchRow(stock.Material, "g", xlsx.Measured, formatOf(kit.Dosing()), upToSteps(convenient(asked)+"*"+strength, "Dose_step"), stock.G)
	volume := b.batchRow("Make up to", "mL", xlsx.Measured, xlsx.AtLeast(1), g+"/"+strength, stock.ML)
	b.batchRow("Water for that", "g", xlsx.Measured, formatOf(kit.Scale), measured(volume+"-"+g+"/"+name("Density", stock.Series), "Scale_step"), stock.WaterG)
	off := 0.0
	if stock.G > 0 {
		off = math.Hypot((1-stock.GPerML/t.Densities[stock.Series])*kit.Dosing().Tared()/stock.G, kit.Scale.Tared()/stock.ML)
	}
	b.batchRow("Its strength could be off by, relative", "", xlsx.Worked, "0.0%", fmt.Sprintf("IF(%[1]s>0,SQRT(((1-%[2]s/%[3]s)*%[4]s/%[1]s)^2+(%[5]s/%[6]s)^2),0)",
		g, strength, name("Density", stock.Series), tared("Dose_step"), tared("Scale_step"), volume), off)
	b.Define(name("Stock_off", i), b.batches.At(1, b.batches.LastRow()))
}
