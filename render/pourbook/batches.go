package pourbook

import (
	"fmt"
	"math"
	"slices"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// The columns of the sheet Batches: those up to loadColumn print; what they are
// worked out from comes after.
const (
	loadColumn  = 5
	exactColumn = loadColumn + 1 + iota
	apartColumn
	stepsColumn
	beginColumn
	endsColumn
	readsColumn
)

// The widths of the labels of batches and of their numbers, in digits.
const (
	batchLabel  = 40
	batchNumber = 13
)

// weighed is a batch as it is on the sheet Batches: the row of its first
// material, how many of them are of the recipe, 0 where nothing is mixed.
type weighed struct {
	first, recipe int
	loads         []load
}

// writeBatches writes the sheet of what to mix: a block for each end glaze, and
// one for each stock.
func (b *pourBook) writeBatches() {
	s := b.batches
	s.Width(0, 0, batchLabel)
	s.Width(1, loadColumn, batchNumber)
	s.Page.Columns = loadColumn
	if b.t.Plan.Kit.Capacity > 0 {
		s.Page.Columns++
	}
	s.Page.Percent = s.Page.Scale(batchLabel + float64(s.Page.Columns-1)*batchNumber)
	s.TitleFormula(b.titleOr("Batches", []trouble{{"Cup_used=0", xlsx.Quoted("amounts stay 0 until Inputs is complete")}}), "Batches")
	s.Remark("Tare the container. Add each material until the scale shows its figure. Weigh what says \""+apartText+"\" separately.", loadColumn, batchLabel+4*batchNumber)
	var blocks []xlsx.Block
	begin := func(head string) {
		s.SkipRow()
		blocks = append(blocks, xlsx.Block{Row: s.LastRow() + 1, Top: s.Height()})
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
	s.KeepTogether(blocks)
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
	poured := b.poursOf("pour", e) // what was poured otherwise does not change what was mixed
	if b.scale {
		poured = b.poursOf("due", e) + "/" + name("SG", e)
	}
	need := b.batchRow("The cups need", "mL", xlsx.Worked, "0.0", fmt.Sprintf("%s+Loss*%d*(Cup_used>0)", poured, b.poured[e]), batch.NeedML)
	b.Define(name("Need", e), s.At(1, s.LastRow()))
	ml := 0.0
	if batch.NeedML > 0 {
		ml = batch.NeedML*(1+kit.Extra) + kit.Dead
	}
	least := b.batchRow("With the extra", "mL", xlsx.Worked, "0.0", fmt.Sprintf("IF(%[1]s>0,%[1]s*(1+Extra/100)+Dead,0)", need), ml)
	if end.Bucket {
		ready := b.batchRow("Have ready", "mL", xlsx.Measured, xlsx.General, fmt.Sprintf("IF(%[1]s>0,%[1]s,%[2]s)", name("Mixed", e), convenient(least)), batch.ML)
		b.batchRow("Left when all cups are poured", "mL", xlsx.Worked, "0", ready+"-"+need, batch.ML-batch.NeedML)
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
	if kit.Capacity > 0 {
		b.batchRow("Loads of the scale for the water", "", xlsx.Worked, xlsx.General,
			fmt.Sprintf("ROUNDUP(ROUND(%s/Scale_step,0)/%s,0)", water, b.most(dry, e)), float64(len(batch.WaterLoads)))
	}
	made := b.batchRow("Makes wet glaze", "mL", xlsx.Worked, "0", dry+"/"+name("Holds", e), batch.ML)
	b.batchRow("It weighs", "g", xlsx.Worked, "0", all+"+"+water, batch.G)
	b.batchRow("SG then", "g/mL", xlsx.Worked, "0.000",
		fmt.Sprintf("IF(%[1]s>0,(1+%[2]s/%[1]s)/(1/%[3]s+%[2]s/%[1]s),0)", all, water, name("Solids", e)), finiteOr0(batch.SG))
	b.batchRow("Left when all cups are poured", "mL", xlsx.Worked, "0", made+"-"+need, batch.ML-batch.NeedML)
	b.writeMaterials(e, dry)
}

// finiteOr0 is x, or 0 for the gravity of a batch of nothing.
func finiteOr0(x float64) float64 {
	if x != x {
		return 0
	}
	return x
}

// noLimit is a load of more steps than any batch has.
const noLimit = 1e15

// most is the formula for a load of the scale in its steps. A batch of too many
// loads is not split.
func (b *pourBook) most(dry string, e int) string {
	return fmt.Sprintf("IF(%s*(1+%s)*MAX(1,%s)/Capacity>%d,%s,MAX(1,INT(ROUND(Capacity/Scale_step,9))))",
		dry, name("Over", e), name("Water", e), blend.MostLoads, xlsx.Literal(noLimit))
}

// mostSteps is that load.
func (b *pourBook) mostSteps(e int) int64 {
	kit, batch := b.t.Plan.Kit, b.t.Batches[e]
	if batch.DryG*max(1, b.t.Ends[e].WaterPerG)/kit.Capacity > blend.MostLoads {
		return noLimit
	}
	return max(1, kit.Scale.Floor(kit.Capacity))
}

// load is a material of a batch as it comes onto a scale.
type load struct {
	name     string
	percent  float64
	addition bool
	g        float64
	apart    bool    // on the finer scale, by itself
	load     int     // in which it ends
	readingG float64 // of that load
}

// loads are the materials of a batch, those that are weighed apart among them,
// with the loads of the scale that they are split into put together again.
func loads(end blend.End, batch blend.Batch) []load {
	var all []load
	for i, p := range slices.Concat(end.Recipe, end.Additions) {
		l := load{name: p.Material, percent: p.Percent, addition: i >= len(end.Recipe), load: 1}
		if i > 0 {
			l.load, l.readingG = all[i-1].load, all[i-1].readingG
		}
		for _, x := range batch.Apart {
			if x.Part == i {
				l.g, l.apart = x.G, true
			}
		}
		for _, w := range batch.Weighings {
			if w.Part == i {
				l.g = roundTo9(l.g + w.G)
				l.load, l.readingG = w.Load, w.ReadingG
			}
		}
		all = append(all, l)
	}
	return all
}

// apartText replaces the scale's reading for what is weighed apart.
const apartText = "fine scale"

// writeMaterials writes the dry materials of a batch. One that the scale is too
// coarse for is weighed apart when there is a finer one, and counts as nothing in
// the running sum of the others.
func (b *pourBook) writeMaterials(e int, dry string) {
	t, s := b.t, b.batches
	kit := t.Plan.Kit
	heads := []string{"Material", "% of recipe", "weigh, g", "scale reads, g", "tick"}
	if kit.Capacity > 0 {
		heads = append(heads, "in load")
	}
	s.TallRow(34)
	for _, h := range heads {
		s.Text(xlsx.Head, h)
	}
	all := loads(t.Ends[e], t.Batches[e])
	first := s.LastRow() + 1
	b.weighed[e] = weighed{first, len(t.Ends[e].Recipe), all}
	format, fine := formatOf(kit.Scale), formatOf(kit.Fine)
	sum, total := 0.0, 0.0
	for i, m := range all {
		label := m.name
		if m.addition {
			label = "+ " + label
		}
		row := s.TallRow(max(measuredHeight, xlsx.LineHeight(label, batchLabel)))
		at := func(column int) string { return fmt.Sprintf("$%s%d", xlsx.Letters(column), row) }
		before := func(column int) string { return fmt.Sprintf("$%s%d", xlsx.Letters(column), row-1) }
		down := func(column int) string {
			return fmt.Sprintf("%[1]s$%[2]d:%[1]s%[3]d", xlsx.Letters(column), first, row)
		}
		steps := at(stepsColumn)
		if i > 0 {
			steps += "-" + before(stepsColumn)
		}
		apart := at(apartColumn) + "=1"
		s.Text(xlsx.Label, label)
		s.Number(xlsx.Given, "0.0#", m.percent)
		look := format
		if m.apart {
			look = fine
		}
		s.Formula(xlsx.Measured, look, fmt.Sprintf("IF(%s,%s,%s)", apart, measured(at(exactColumn), "MAX(Fine_step,1E-9)"), amountOf(steps, "Scale_step")), m.g)
		reads := at(stepsColumn)
		if kit.Capacity > 0 {
			reads = at(readsColumn)
		}
		reads = fmt.Sprintf("IF(%s,%s,%s)", apart, xlsx.Quoted(apartText), amountOf(reads, "Scale_step"))
		if m.apart {
			s.TextFormula(xlsx.Measured, reads, apartText)
		} else {
			s.Formula(xlsx.Measured, format, reads, m.readingG)
		}
		s.Blank(xlsx.Field, xlsx.General)
		if kit.Capacity > 0 {
			in := fmt.Sprintf(`IF(%s,"",%s)`, apart, at(endsColumn))
			if m.apart {
				s.TextFormula(xlsx.Worked, in, "")
			} else {
				s.Formula(xlsx.Worked, xlsx.General, in, float64(m.load))
			}
		}
		s.Skip(exactColumn - s.Column())
		exact, flag := m.percent*t.Batches[e].RecipeG/100, 1.0
		if !m.apart {
			flag = 0
			sum += exact
		}
		total += m.g
		s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("$B%d*%s/100", row, dry), exact)
		s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("IF(AND(Fine_step>0,%[1]s>0,%[1]s<Coarse_below),1,0)", at(exactColumn)), flag)
		s.Formula(xlsx.Worked, xlsx.General, stepsOf(fmt.Sprintf("SUMPRODUCT(%s,1-%s)", down(exactColumn), down(apartColumn)), "Scale_step"), float64(kit.Scale.Count(sum)))
		if kit.Capacity > 0 {
			b.writeLoad(e, i, row, dry)
		}
	}
	s.TallRow(xlsx.LineHeight("", batchLabel))
	s.Text(xlsx.Label, "All dry materials together")
	s.Skip(1)
	s.Formula(xlsx.Worked, xlsx.AtLeast(max(kit.Scale.Decimals(), kit.Fine.Decimals())), fmt.Sprintf("SUM(C%d:C%d)", first, first+len(all)-1), t.Batches[e].WeighedG)
}

// writeLoad writes in which load of the scale a material comes: in a new one when
// there is no room for it and either it fits into one or nothing more goes onto
// this one; what is more than a load fills further ones.
func (b *pourBook) writeLoad(e, i, row int, dry string) {
	s, scale := b.batches, b.t.Plan.Kit.Scale
	at := func(column, row int) string { return fmt.Sprintf("$%s%d", xlsx.Letters(column), row) }
	left, before, last, begin := at(stepsColumn, row), "0", "1", 0.0
	m, most := b.weighed[e].loads[i], b.most(dry, e)
	if i > 0 {
		left = "(" + left + "-" + at(stepsColumn, row-1) + ")"
		before, last = at(readsColumn, row-1), at(endsColumn, row-1)
		was, more := scale.Count(b.weighed[e].loads[i-1].readingG), int64(0)
		if !m.apart {
			more = scale.Count(m.g)
		}
		if n := b.mostSteps(e); !(was+more > n && was > 0 && (more <= n || was == n)) {
			begin = float64(was)
		}
	}
	s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("IF(AND(%[1]s+%[2]s>%[3]s,%[1]s>0,OR(%[2]s<=%[3]s,%[1]s=%[3]s)),0,%[1]s)", before, left, most), begin)
	more := fmt.Sprintf("MAX(0,ROUNDUP((%s+%s)/%s,0)-1)", at(beginColumn, row), left, most)
	s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("%s+(%s<%s)+%s", last, at(beginColumn, row), before, more), float64(m.load))
	s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("%s+%s-%s*%s", at(beginColumn, row), left, more, most), float64(scale.Count(m.readingG)))
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
