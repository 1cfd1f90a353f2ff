package pourbook

import (
	"fmt"
	"math"
	"slices"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// printColumns are the columns of the sheet Batches that print. Behind them, after an
// empty one, G is the exact amount of a material, H is 1 where it is weighed
// separately, and I is the running sum of the others in steps of the scale.
const printColumns = 5

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
	s.TitleFormula(b.titleOr("Batches", []trouble{incomplete}), "Batches")
	s.Remark("Tare the container. Add each material until the scale shows its figure. Weigh what says \""+apartText+
		"\" separately. \""+tareText+"\": the scale does not take all at once.", printColumns, batchLabel+4*batchNumber)
	for e := range b.q {
		s.SkipRow()
		s.Section(b.endHead(e), printColumns)
		b.writeBatch(e)
	}
	for i, stock := range b.t.Stocks {
		s.SkipRow()
		s.Section(stock.Name, printColumns)
		b.writeStock(i)
	}
	s.FitPages(batchLabel + (printColumns-1)*batchNumber)
}

// worked writes a labelled value of a batch and returns its address; toMeasure writes
// one that is measured.
func (b *pourBook) worked(label, unit string, format xlsx.Format, formula string, value float64) string {
	return b.writeLabelled(b.batches, nil, xlsx.LineHeight(label, batchLabel),
		labelled{label: label, unit: unit, look: xlsx.Worked, format: format, formula: formula, value: value})
}

func (b *pourBook) toMeasure(label, unit string, format xlsx.Format, formula string, value float64) string {
	return b.writeLabelled(b.batches, nil, max(measuredHeight, xlsx.LineHeight(label, batchLabel)),
		labelled{label: label, unit: unit, look: xlsx.Measured, format: format, formula: formula, value: value})
}

// nameLast names the value in the row that was written last.
func (b *pourBook) nameLast(name string) { b.Define(name, b.batches.At(1, b.batches.LastRow())) }

// writeBatch writes the block of an end glaze.
func (b *pourBook) writeBatch(e int) {
	t, s := b.t, b.batches
	batch, end, mixed, holds := t.Batches[e], t.Ends[e], name("Mixed", e), name("Holds", e)
	if b.poured[e] == 0 {
		s.Row()
		s.Text(xlsx.Label, "Not poured into any cup.")
		b.nameLast(mixed)
		s.Number(xlsx.Worked, xlsx.General, 0)
		return
	}
	planned := amountOf(b.poursOf("steps", e), "Pour_step") // what was poured otherwise does not change what is mixed
	need := b.worked("The cups need", "mL", "0.0", b.taken(planned, e), batch.NeedML)
	b.nameLast(name("Need", e))
	least, ml := b.withExtra(need, batch.NeedML)
	if end.Bucket {
		ready := b.toMeasure("Have ready", "mL", xlsx.General,
			fmt.Sprintf("IF(%[1]s>0,%[1]s,%[2]s)", mixed, convenient(least)), batch.ML)
		b.batchLeft(e, ready)
		return
	}
	asked := b.worked("Dry glaze for that", "g", "0.0", least+"*"+holds, ml*end.RecipePerML)
	mix := upToSteps(convenient(asked), "Scale_step")
	if t.Plan.Cup.BatchG > 0 {
		mix = "Batch_size*(Cup_used>0)"
	}
	dry := b.toMeasure("Dry glaze by its recipe", "g", xlsx.General,
		fmt.Sprintf("IF(%[1]s>0,%[1]s*%[2]s,%[3]s)", mixed, holds, mix), batch.RecipeG)
	all := fmt.Sprintf("(%s*(1+%s))", dry, name("Over", e))
	exact := b.worked("Water by the SG", "g", "0.0", name("Water", e)+"*"+all, end.WaterPerG*batch.DryG)
	water := b.toMeasure("Water", "g", xlsx.General, bucketWater(exact, mixed), batch.WaterG)
	made := b.worked("Makes wet glaze", "mL", "0", dry+"/"+holds, batch.ML)
	b.worked("It weighs", "g", "0", all+"+"+water, batch.G)
	sg := "IF(" + all + ">0," + mixedSG(water+"/"+all, name("Solids", e)) + ",0)"
	b.worked("SG then", "g/mL", "0.000", sg, finiteOr0(batch.SG))
	b.batchLeft(e, made)
	b.writeMaterials(e, dry)
}

// withExtra writes what is mixed beyond a need, in mL.
func (b *pourBook) withExtra(need string, needML float64) (at string, ml float64) {
	if kit := b.t.Plan.Kit; needML > 0 {
		ml = needML*(1+kit.Extra) + kit.Dead
	}
	return b.worked("With the extra", "mL", "0.0", fmt.Sprintf("IF(%[1]s>0,%[1]s*(1+Extra/100)+Dead,0)", need), ml), ml
}

// taken is the formula for the mL that pours of some amount take of an end glaze,
// with what is lost at each: blend.Test.PouredML.
func (b *pourBook) taken(amount string, e int) string {
	return fmt.Sprintf("%s+Loss*%d*(Cup_used>0)", b.inML(amount, e), b.poured[e])
}

// batchLeft writes what stays of a batch of so many mL, by what is really poured.
func (b *pourBook) batchLeft(e int, ml string) {
	b.worked("Left when all cups are poured", "mL", "0.0", ml+"-("+b.taken(b.poursOf("used", e), e)+")", b.t.LeftML(e))
	b.nameLast(name("Left", e))
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
// and where those so far are more than the scale takes.
const (
	apartText = "fine scale"
	tareText  = "tare first"
)

// writeMaterials writes the dry materials of a batch. One that the scale is too
// coarse for is weighed apart when there is a finer one, and counts as nothing in
// the running sum of the others.
func (b *pourBook) writeMaterials(e int, dry string) {
	s, kit, batch := b.batches, b.t.Plan.Kit, b.t.Batches[e]
	s.TallRow(34)
	for _, h := range []string{"Material", "% of recipe", "weigh, g", "scale reads, g", "tick"} {
		s.Text(xlsx.Head, h)
	}
	first, sum := s.LastRow()+1, 0.0
	b.weighed[e] = weighed{first, len(b.t.Ends[e].Recipe)}
	reads := amountOf("$I#", "Scale_step")
	if kit.Capacity > 0 {
		reads = "IF(" + reads + ">Capacity," + xlsx.Quoted(tareText) + "," + reads + ")"
	}
	for _, m := range loads(b.t.Ends[e], batch) {
		row := s.TallRow(max(measuredHeight, xlsx.LineHeight(m.name, batchLabel)))
		exact, flag, format, says := m.percent*batch.RecipeG/100, 0.0, formatOf(kit.Scale), ""
		if m.apart {
			flag, format, says = 1, formatOf(kit.Fine), apartText
		} else {
			sum += exact
		}
		reading := kit.Scale.Amount(kit.Scale.Count(sum))
		if says == "" && kit.Capacity > 0 && reading > kit.Capacity {
			says = tareText
		}
		s.Text(xlsx.Label, m.name)
		s.Number(xlsx.Given, "0.0#", m.percent)
		since := amountOf(fmt.Sprintf("$I#-$I%d", row-1), "Scale_step") // the heads above the first count as 0
		s.Formula(xlsx.Measured, format, inRow("IF($H#=1,"+measured("$G#", "MAX(Fine_step,1E-9)")+","+since+")", row), m.g)
		if until := inRow("IF($H#=1,"+xlsx.Quoted(apartText)+","+reads+")", row); says != "" {
			s.TextFormula(xlsx.Measured, until, says)
		} else {
			s.Formula(xlsx.Measured, formatOf(kit.Scale), until, reading)
		}
		s.Blank(xlsx.Field, xlsx.General)
		s.Skip(1)
		running := stepsOf(fmt.Sprintf("SUMPRODUCT($G$%[1]d:$G#,1-$H$%[1]d:$H#)", first), "Scale_step")
		s.Formula(xlsx.Worked, xlsx.General, inRow("$B#*"+dry+"/100", row), exact)
		s.Formula(xlsx.Worked, xlsx.General, inRow("IF(AND(Fine_step>0,$G#>0,$G#<Coarse_below),1,0)", row), flag)
		s.Formula(xlsx.Worked, xlsx.General, inRow(running, row), float64(kit.Scale.Count(sum)))
	}
	last := s.LastRow()
	s.TallRow(xlsx.LineHeight("", batchLabel))
	s.Text(xlsx.Label, "All dry materials together")
	s.Skip(1)
	digits := max(kit.Scale.Decimals(), kit.Fine.Decimals())
	s.Formula(xlsx.Worked, xlsx.AtLeast(digits), fmt.Sprintf("SUM(C%d:C%d)", first, last), batch.WeighedG)
}

// writeStock writes the block of a stock.
func (b *pourBook) writeStock(i int) {
	kit, stock := b.t.Plan.Kit, b.t.Stocks[i]
	strength, density := name("Strength", i), name("Density", stock.Series)
	need := b.worked("The cups need", "mL", formatOf(kit.Syringe),
		fmt.Sprintf("SUMIF({stock%[1]d[]},%[2]d,{drawn%[1]d[]})", stock.Series+1, b.stockNumber(i)), stock.NeedML)
	beyond, ml := b.withExtra(need, stock.NeedML)
	// The scale takes its part of the limit, as the engine lets it.
	well := measure.Smallest(kit.Dosing().Tared(), kit.Worst*blend.StockWeighing) / stock.GPerML
	least := b.worked("To weigh it well, at least", "mL", "0.0",
		fmt.Sprintf("2*%s/(Limit/100*%s)/%s", tared("Dose_step"), xlsx.Literal(blend.StockWeighing), strength), well)
	asked := b.worked(fmt.Sprintf("To mix (at most %d times the need)", blend.MostSpare), "mL", "0.0",
		fmt.Sprintf("MAX(%[1]s,MIN(%[2]s,%[3]d*%[1]s))", beyond, least, blend.MostSpare),
		max(ml, min(well, blend.MostSpare*ml)))
	g := b.toMeasure(stock.Material, "g", formatOf(kit.Dosing()),
		upToSteps(convenient(asked)+"*"+strength, "Dose_step"), stock.G)
	volume := b.toMeasure("Make up to", "mL", xlsx.AtLeast(1), g+"/"+strength, stock.ML)
	b.toMeasure("Water for that", "g", formatOf(kit.Scale), measured(volume+"-"+g+"/"+density, "Scale_step"), stock.WaterG)
	off := 0.0
	if stock.G > 0 {
		displaced := stock.GPerML / b.t.Densities[stock.Series]
		off = math.Hypot((1-displaced)*kit.Dosing().Tared()/stock.G, kit.Scale.Tared()/stock.ML)
	}
	b.worked("Its strength could be off by, relative", "", "0.0%",
		fmt.Sprintf("IF(%[1]s>0,SQRT(((1-%[2]s/%[3]s)*%[4]s/%[1]s)^2+(%[5]s/%[6]s)^2),0)",
			g, strength, density, tared("Dose_step"), tared("Scale_step"), volume), off)
	b.nameLast(name("Stock_off", i))
}
