package pourbook

import (
	"fmt"
	"slices"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// writeBatches writes the sheet of what to mix: a block for each end, and one
// for each stock suspension.
func (b *pourBook) writeBatches() {
	s := b.batches
	s.Width(0, 0, batchLabel)
	s.Width(1, 4, batchNumber)
	s.TitleFormula(titleOr("Batches", []trouble{noAmounts}), "Batches")
	s.Remark("Weigh the materials onto one scale, one after the other, each until it reads what stands there. Where that is \""+apartText+"\", weigh it apart, by itself, on the finer scale.", 4, batchLabel+3*batchNumber)
	b.weighed = make([]weighedRows, b.q)
	b.mostFormulas = make([]string, b.q)
	var blocks []xlsx.Block
	begin := func() {
		s.SkipRows(1)
		blocks = append(blocks, xlsx.Block{Row: s.LastRow() + 1, Top: s.Height()})
	}
	for e := range b.q {
		begin()
		b.writeBatch(e)
	}
	for i := range b.t.Stocks {
		begin()
		b.writeStock(i)
	}
	columns := 3.0
	if b.t.Plan.Kit.Capacity > 0 {
		columns++ // in which load
	}
	s.KeepTogether(batchLabel+columns*batchNumber, blocks)
}

// The widths of the labels of batches and of their numbers, in digits.
const (
	batchLabel  = 40
	batchNumber = 14
)

// batchRow writes a labelled value of a batch and returns its address.
func (b *pourBook) batchRow(label, unit string, look xlsx.Look, format xlsx.Format, formula string, value float64) string {
	s := b.batches
	height := xlsx.LineHeight(label, batchLabel)
	if look == xlsx.Measured {
		height = max(height, measuredHeight)
	}
	row := s.TallRow(height)
	s.Text(xlsx.Label, label)
	s.Formula(look, format, formula, value)
	s.Text(xlsx.Unit, unit)
	return "$B$" + fmt.Sprint(row)
}

// batchHead writes the head of a block, as wide as the sheet.
func (b *pourBook) batchHead(text string) {
	b.batches.TallRow(20)
	for _, t := range []string{text, "", "", ""} {
		b.batches.Text(xlsx.Section, t)
	}
}

// writeBatch writes the block of an end.
func (b *pourBook) writeBatch(e int) {
	t, s, at := b.t, b.batches, b.at
	kit, batch, end := t.Plan.Kit, t.Batches[e], t.Ends[e]
	b.batchHead(b.endHead(e))
	if b.poured[e] == 0 {
		s.Row()
		s.Text(xlsx.Label, "No cup is poured from it.")
		b.Define(of("Need", e), s.At(1, s.LastRow()))
		s.Number(xlsx.Worked, xlsx.General, 0)
		return
	}
	poured := fmt.Sprintf("SUM(Pours!$%[1]s$%[2]d:$%[1]s$%[3]d)", xlsx.Letters(at.pour+e), firstRow, firstRow+len(t.Cells)-1)
	if b.scale {
		poured += "/" + of("SG", e)
	}
	need := b.batchRow("The cups take", "mL", xlsx.Worked, xlsx.Decimals(1), poured+fmt.Sprintf("+Loss*%d*(Cup_used>0)", b.poured[e]), batch.NeedML)
	b.Define(of("Need", e), s.At(1, s.LastRow()))
	ml := 0.0
	if batch.NeedML > 0 {
		ml = batch.NeedML*(1+kit.Extra) + kit.Dead
	}
	least := b.batchRow("With what is mixed beyond that", "mL", xlsx.Worked, xlsx.Decimals(1),
		fmt.Sprintf("IF(%[1]s>0,%[1]s*(1+Extra/100)+Dead,0)", need), ml)
	asked := fmt.Sprintf("(%s*%s)", least, of("Holds", e))
	unit := b.batchRow("Dry glaze rounded up in steps of", "g", xlsx.Worked, xlsx.General, convenientUnit(asked), measure.ConvenientStep(ml*end.RecipePerML))
	mix := "ROUND(ROUNDUP(ROUND(" + upToConvenient(asked, unit) + "/Scale_step,9),0)*Scale_step,9)"
	if t.Plan.Cup.BatchG > 0 {
		mix = xlsx.Literal(batch.RecipeG) // the plan says how much is mixed
	}
	dry := b.batchRow("Dry glaze by its recipe", "g", xlsx.Measured, xlsx.General, mix, batch.RecipeG)
	all := fmt.Sprintf("(%s*(1+%s))", dry, of("Over", e))
	water := b.batchRow("Water", "g", xlsx.Measured, measuredFormat(kit.Scale),
		amountOf(stepsOf(of("Water", e)+"*"+all, "Scale_step"), "Scale_step"), batch.WaterG)
	if kit.Capacity > 0 {
		b.mostFormulas[e] = fmt.Sprintf("IF(Batches!%s*(1+%s)*MAX(1,%s)/Capacity>%d,%s,MAX(1,INT(ROUND(Capacity/Scale_step,9))))",
			dry, of("Over", e), of("Water", e), blend.MostLoads, xlsx.Literal(noLimit))
		most := b.mostSteps(e)
		shown := 0.0
		if most < noLimit {
			shown = kit.Scale.Amount(most)
		}
		b.batchRow("The scale takes at a time", "g", xlsx.Worked, xlsx.WithNought(measuredFormat(kit.Scale), "all"),
			fmt.Sprintf("IF(%[1]s<%[2]s,%[3]s,0)", of("Most", e), xlsx.Literal(noLimit), amountOf(of("Most", e), "Scale_step")), shown)
		b.batchRow("Water, loads of the scale", "", xlsx.Worked, xlsx.General,
			fmt.Sprintf("ROUNDUP(ROUND(%s/Scale_step,0)/%s,0)", water, of("Most", e)), float64(len(batch.WaterLoads)))
	}
	b.batchRow("Makes slip", "mL", xlsx.Worked, xlsx.Decimals(0), fmt.Sprintf("%s/%s", dry, of("Holds", e)), batch.ML)
	b.batchRow("Slip weighs", "g", xlsx.Worked, xlsx.Decimals(0), all+"+"+water, batch.G)
	b.batchRow("Specific gravity then", "g/mL", xlsx.Worked, xlsx.Decimals(3),
		fmt.Sprintf("IF(%[1]s>0,(1+%[2]s/%[1]s)/(1/%[3]s+%[2]s/%[1]s),0)", all, water, of("Solids", e)), finiteOr0(batch.SG))
	b.writeMaterials(e, dry)
}

// noLimit is a load of more steps than any batch has.
const noLimit = 1e15

// mostSteps is a load of the scale in its steps. A batch of too many loads is
// not split.
func (b *pourBook) mostSteps(e int) int64 {
	kit, batch := b.t.Plan.Kit, b.t.Batches[e]
	if batch.DryG*max(1, b.t.Ends[e].WaterPerG)/kit.Capacity > blend.MostLoads {
		return noLimit
	}
	return max(1, kit.Scale.Floor(kit.Capacity))
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
		l := load{name: p.Material, percent: p.Amount, addition: i >= len(end.Recipe), load: 1}
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

// apartText stands where the scale would read what is weighed apart.
const apartText = "fine scale"

// writeMaterials writes the dry materials of a batch. What is weighed apart,
// and how the rest comes to whole steps and to loads of the scale, stands on
// the sheet Working.
func (b *pourBook) writeMaterials(e int, dry string) {
	t, s := b.t, b.batches
	kit := t.Plan.Kit
	heads := []string{"Material", "% of recipe", "weigh, g", "scale reads, g"}
	if kit.Capacity > 0 {
		heads = append(heads, "in load")
	}
	s.TallRow(34)
	for _, h := range heads {
		s.Text(xlsx.Head, h)
	}
	all := loads(t.Ends[e], t.Batches[e])
	first := s.LastRow() + 1
	format, fine := measuredFormat(kit.Scale), measuredFormat(kit.Fine)
	perPercent := "Batches!" + dry + "/100"
	for i, m := range all {
		name := m.name
		if m.addition {
			name = "+ " + name
		}
		row := s.TallRow(max(measuredHeight, xlsx.LineHeight(name, batchLabel)))
		s.Text(xlsx.Label, name)
		s.Number(xlsx.Given, "0.0#", m.percent)
		at := b.loadRow(e, i)
		apart := fmt.Sprintf("Working!$B$%d=1", at)
		steps := fmt.Sprintf("Working!$C$%d", at)
		if i > 0 {
			steps = fmt.Sprintf("(Working!$C$%d-Working!$C$%d)", at, at-1)
		}
		exact := fmt.Sprintf("%s*Batches!$B$%d", perPercent, row)
		weigh := fmt.Sprintf("IF(%s,%s,%s)", apart, amountOf(stepsOf(exact, "Fine_step"), "Fine_step"), amountOf(steps, "Scale_step"))
		if m.apart {
			s.Formula(xlsx.Measured, fine, weigh, m.g)
		} else {
			s.Formula(xlsx.Measured, format, weigh, m.g)
		}
		reads := fmt.Sprintf("Working!$C$%d", at)
		if kit.Capacity > 0 {
			reads = fmt.Sprintf("Working!$F$%d", at)
		}
		reads = fmt.Sprintf("IF(%s,%s,%s)", apart, xlsx.Quoted(apartText), amountOf(reads, "Scale_step"))
		if m.apart {
			s.TextFormula(xlsx.Measured, reads, apartText)
		} else {
			s.Formula(xlsx.Measured, format, reads, m.readingG)
		}
		if kit.Capacity > 0 {
			in := fmt.Sprintf(`IF(%s,"",Working!$E$%d)`, apart, at)
			if m.apart {
				s.TextFormula(xlsx.Worked, in, "")
			} else {
				s.Formula(xlsx.Worked, xlsx.General, in, float64(m.load))
			}
		}
		// What the other materials up to this one come to, on the scale.
		sum := fmt.Sprintf("%s*SUMPRODUCT(Batches!$B$%d:$B$%d,1-$B$%d:$B$%d)", perPercent, first, row, at-i, at)
		b.loadFormulas = append(b.loadFormulas, loadFormula{exact, sum})
	}
	b.loads = append(b.loads, all...)
	b.weighed[e] = weighedRows{first, first + len(t.Ends[e].Recipe) - 1}
	s.TallRow(xlsx.LineHeight("", batchLabel))
	s.Text(xlsx.Label, "All dry materials together")
	s.Skip(1)
	s.Formula(xlsx.Worked, xlsx.AtLeast(max(kit.Scale.Decimals(), kit.Fine.Decimals())), fmt.Sprintf("SUM(C%d:C%d)", first, first+len(all)-1), t.Batches[e].WeighedG)
}

// weighedRows is where the dry materials of a batch stand on the sheet Batches:
// the first, and the last of the recipe, 0 where nothing is mixed.
type weighedRows struct{ first, recipe int }

// partOf is the formula for what some materials of a batch weigh with 1 g of its
// recipe, as they are weighed; exact where nothing is.
func (b *pourBook) partOf(e int, exact float64, materials ...int) string {
	w := b.weighed[e]
	if w.recipe == 0 || materials == nil {
		return ""
	}
	sum := ""
	for _, i := range materials {
		sum += fmt.Sprintf("+Batches!$C$%d", w.first+i)
	}
	recipe := fmt.Sprintf("SUM(Batches!$C$%d:$C$%d)", w.first, w.recipe)
	return fmt.Sprintf("IF(%[1]s>0,(%[2]s)/%[1]s,%[3]s)", recipe, sum[1:], xlsx.Literal(exact))
}

// loadFormula is what a material of a batch comes to by itself, and the running
// sum of what is weighed on the batch's scale, both exactly and in g.
type loadFormula struct{ alone, sum string }

// writeStock writes the block of a stock suspension.
func (b *pourBook) writeStock(i int) {
	t, at := b.t, b.at
	kit, stock := t.Plan.Kit, t.Stocks[i]
	b.batchHead(stock.Name)
	strength := fmt.Sprintf("Strength_%d", i+1)
	b.batchRow("Strength", "g/mL", xlsx.Worked, xlsx.General, strength, stock.GPerML)
	last := firstRow + len(t.Cells) - 1
	formula := fmt.Sprintf("SUMIF(Doses!$%[1]s$%[3]d:$%[1]s$%[4]d,%[5]d,Doses!$%[2]s$%[3]d:$%[2]s$%[4]d)",
		xlsx.Letters(at.measured[stock.Series]-2), xlsx.Letters(at.measured[stock.Series]), firstRow, last, b.stockNumber(i))
	need := b.batchRow("The cups take", "mL", xlsx.Worked, measuredFormat(kit.Syringe), formula, stock.NeedML)
	beyond := 0.0
	if stock.NeedML > 0 {
		beyond = stock.NeedML*(1+kit.Extra) + kit.Dead
	}
	x := b.batchRow("With what is made beyond that", "mL", xlsx.Worked, xlsx.Decimals(1),
		fmt.Sprintf("IF(%[1]s>0,%[1]s*(1+Extra/100)+Dead,0)", need), beyond)
	// The scale takes its part of what is wished, as the engine lets it.
	perStep := measure.Smallest(measure.Step{Size: 1}.Tared(), kit.Worst*blend.StockWeighing)
	well := kit.Dosing().Size * perStep / stock.GPerML
	least := b.batchRow("To be weighed well, at least", "mL", xlsx.Worked, xlsx.Decimals(1), "Dose_step*"+xlsx.Literal(perStep)+"/"+strength, well)
	ml := max(beyond, min(well, blend.MostSpare*beyond))
	asked := b.batchRow(fmt.Sprintf("Wanted: enough to weigh it well, but at most %d times what is needed", blend.MostSpare), "mL", xlsx.Worked, xlsx.Decimals(1),
		fmt.Sprintf("MAX(%[1]s,MIN(%[2]s,%[3]d*%[1]s))", x, least, blend.MostSpare), ml)
	unit := b.batchRow("Rounded up in steps of", "mL", xlsx.Worked, xlsx.General, convenientUnit(asked), measure.ConvenientStep(ml))
	made := upToConvenient(asked, unit)
	g := b.batchRow(stock.Material, "g", xlsx.Measured, measuredFormat(kit.Dosing()),
		amountOf("ROUNDUP(ROUND("+made+"*"+strength+"/Dose_step,9),0)", "Dose_step"), stock.G)
	volume := b.batchRow("Make up to", "mL", xlsx.Measured, xlsx.AtLeast(1), g+"/"+strength, stock.ML)
	b.batchRow("Water for that", "g", xlsx.Measured, measuredFormat(kit.Scale),
		amountOf(stepsOf(fmt.Sprintf("(%s-%s/Density_%d)", volume, g, stock.Series+1), "Scale_step"), "Scale_step"), stock.WaterG)
}
