package pourbook

import (
	"fmt"
	"math"

	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// writeWorking writes the hidden sheet that takes the rounding apart.
func (b *pourBook) writeWorking() {
	t, at, g := b.t, b.at, &b.working
	g.add(b.cupOfRow())
	cup := make([]float64, b.q) // of what the cup's size counts, by unit of share
	for e := range cup {
		_, cup[e] = t.PerShare(e)
	}
	// 0 where the shares of a cup cannot be poured.
	shares := cupSpan("Pours!", at.share, b.q)
	g.add(column{head: "Units of share\nin a size of 1", look: xlsx.Worked, format: xlsx.General,
		formula: fmt.Sprintf("IF(AND(COUNT(%[1]s)=%[2]d,MIN(%[1]s)>=0,ABS(SUM(%[1]s)-1)<0.0005),1/SUMPRODUCT(%[1]s,%[3]s),0)", shares, b.q, b.slipSpan(b.rows.cup, b.q)),
		value: func(i int) float64 {
			sum := 0.0
			for e, x := range t.Cells[i].Shares {
				sum += x * cup[e]
			}
			return 1 / sum
		}})
	b.addSteps()
	b.addMeasured()
	// blend.Test.CommonSG: cups that no slip was measured into do not count.
	g.add(column{head: "SG where\nthere is slip", look: xlsx.Worked, format: xlsx.General,
		formula: fmt.Sprintf("IF(Pours!%s#>0,Pours!%s#,%s)", xlsx.Letters(at.total), xlsx.Letters(at.gotSG), xlsx.Literal(noSlip)),
		value: func(i int) float64 {
			if t.Cells[i].Poured() {
				return t.Cells[i].Got.SG
			}
			return noSlip
		}})
	g.write("Working", "How amounts come to whole steps of the instruments. Nothing here is to be measured.", len(t.Cells))
	b.writeLoads()
	b.writeAnalyses()
	b.writeUsed()
	b.writeMost()
	b.writeServed()
	s, common := g.sheet, noSlip
	for i := range t.Cells {
		if t.Cells[i].Poured() {
			common = min(common, t.Cells[i].Got.SG)
		}
	}
	s.Row()
	s.Text(xlsx.Head, "thinnest, SG")
	b.Define("Common_SG", s.At(s.Column(), s.LastRow()))
	s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("MIN(%[1]s%[2]d:%[1]s%[3]d)", xlsx.Letters(at.thin), firstRow, firstRow+len(t.Cells)-1), common)
}

// addSteps adds the pours in steps of their instrument: the readings of a
// scale, or what measure.Step.Apportion takes them apart into.
func (b *pourBook) addSteps() {
	t, at, g := b.t, b.at, &b.working
	kit := t.Plan.Kit
	exact := func(i, e int) float64 { return t.Cells[i].Pours[e].ML }
	settled := func(i, e int) float64 { return math.Round(exact(i, e)/kit.Pour.Size*1e9) / 1e9 }
	switch {
	case b.scale:
		for e := range b.q {
			g.add(column{head: "Reads after " + letter(e) + "\nsteps", look: xlsx.Worked, format: xlsx.General,
				formula: stepsOf("SUM("+cupSpan("Pours!", at.g, e+1)+")", "Pour_step"),
				value:   func(i int) float64 { return float64(t.Cells[i].Pours[e].Reading) }})
		}
	case b.q > 1:
		for e := range b.q {
			g.add(column{head: letter(e) + "\nsteps", look: xlsx.Worked, format: xlsx.General,
				formula: "ROUND(Pours!" + xlsx.Letters(at.ml+e) + "#/Pour_step,9)",
				value:   func(i int) float64 { return settled(i, e) }})
		}
		for e := range b.q {
			g.add(column{head: letter(e) + "\nremainder", look: xlsx.Worked, format: xlsx.General,
				formula: fmt.Sprintf("ROUND(%[1]s#-INT(%[1]s#),9)", xlsx.Letters(at.steps+e)),
				value: func(i int) float64 {
					x := settled(i, e)
					return math.Round((x-math.Floor(x))*1e9) / 1e9
				}})
		}
		whole := ""
		for e := range b.q {
			whole += "-INT(" + xlsx.Letters(at.steps+e) + "#)"
		}
		g.add(column{head: "Steps\nmissing", look: xlsx.Worked, format: xlsx.General,
			formula: stepsOf("SUM("+cupSpan("Pours!", at.ml, b.q)+")", "Pour_step") + whole,
			value: func(i int) float64 {
				sum, floors := 0.0, int64(0)
				for e := range b.q {
					sum += exact(i, e)
					floors += kit.Pour.Floor(exact(i, e))
				}
				return float64(kit.Pour.Count(sum) - floors)
			}})
	}
}

// addMeasured adds the recipe, and the water of stocks, that the measured
// amounts bring.
func (b *pourBook) addMeasured() {
	t, at, g := b.t, b.at, &b.working
	for e := range b.q {
		formula := "Pours!" + xlsx.Letters(at.pour+e) + "#*" + of("Holds", e)
		if b.scale {
			formula += "/" + of("SG", e)
		}
		g.add(column{head: letter(e) + "\ng of recipe, measured", look: xlsx.Worked, format: xlsx.General, formula: formula,
			value: func(i int) float64 { return t.Cells[i].Pours[e].GotRecipeG }})
	}
	for s := range b.doses {
		g.add(column{head: t.Plan.Blend.Series[s].Material + "\ng, measured", look: xlsx.Worked, format: xlsx.General,
			formula: "Doses!" + xlsx.Letters(at.brings[s]) + "#",
			value:   func(i int) float64 { return t.Cells[i].Doses[s].MeasuredG }})
	}
	if len(t.Stocks) > 0 {
		for s := range b.k {
			density := fmt.Sprintf("Density_%d", s+1)
			g.add(column{head: t.Plan.Blend.Series[s].Material + "\nwater, g", look: xlsx.Worked, format: xlsx.General,
				formula: fmt.Sprintf("Doses!%s#-Doses!%s#/%s", xlsx.Letters(at.measured[s]), xlsx.Letters(at.brings[s]), density),
				value: func(i int) float64 {
					d := t.Cells[i].Doses[s]
					return d.MeasuredML - d.MeasuredG/t.SeriesDensity(s)
				}})
		}
	}
	if b.k > 0 {
		g.add(column{head: "Recipe\ng, measured", look: xlsx.Worked, format: xlsx.General, formula: "SUM(" + cupSpan("", at.dry, b.q) + ")",
			value: func(i int) float64 { return t.Cells[i].Got.RecipeG }})
	}
}

// noSlip is a gravity above that of every slip.
const noSlip = 1e9

// loadRow is the row on the sheet Working of a material of a batch.
func (b *pourBook) loadRow(e, i int) int {
	row := firstRow + len(b.t.Cells) + 2 + i
	for _, end := range b.t.Ends[:e] {
		row += len(end.Recipe) + len(end.Additions)
	}
	return row
}

// writeLoads writes, below the cups on the sheet Working, how the materials of
// the batches come onto the scales, a line for each: the rules of blend. One
// that the scale is too coarse for is weighed apart when there is a finer one,
// and counts as nothing in the running sum of the others. A material goes on in
// a new load when there is no room for it and either it fits into one or
// nothing more goes onto this one; what is more than a load fills further ones.
func (b *pourBook) writeLoads() {
	t, s := b.t, b.working.sheet
	kit := t.Plan.Kit
	s.SkipRows(1)
	s.Row()
	for _, h := range []string{"Batch", "Apart", "Steps in all", "Begins at", "Load", "Reads, steps"} {
		s.Text(xlsx.Head, h)
	}
	steps := func(g float64) float64 { return float64(kit.Scale.Count(g)) }
	smallest := xlsx.Literal(measure.Smallest(measure.Step{Size: 1}.Tared(), kit.Worst)) + "*Scale_step"
	next := 0
	for e, end := range t.Ends {
		sum := 0.0
		for i := range len(end.Recipe) + len(end.Additions) {
			if b.poured[e] == 0 {
				s.SkipRows(1)
				continue
			}
			row := s.Row()
			m, f := b.loads[next], b.loadFormulas[next]
			flag := 1.0
			if !m.apart {
				flag = 0
				sum += m.g
			}
			s.Text(xlsx.Head, letter(e))
			s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("IF(AND(Fine_step>0,%[1]s>0,%[1]s<%[2]s),1,0)", f.alone, smallest), flag)
			s.Formula(xlsx.Worked, xlsx.General, stepsOf(f.sum, "Scale_step"), steps(sum))
			if kit.Capacity > 0 {
				most := of("Most", e)
				left, before, last, begin := fmt.Sprintf("C%d", row), "0", "1", 0.0
				if i > 0 {
					left = fmt.Sprintf("(C%d-C%d)", row, row-1)
					before, last = fmt.Sprintf("F%d", row-1), fmt.Sprintf("E%d", row-1)
					begin = b.begin(b.loads[next-1], m, b.mostSteps(e))
				}
				s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("IF(AND(%[1]s+%[2]s>%[3]s,%[1]s>0,OR(%[2]s<=%[3]s,%[1]s=%[3]s)),0,%[1]s)", before, left, most), begin)
				more := fmt.Sprintf("MAX(0,ROUNDUP((D%d+%s)/%s,0)-1)", row, left, most)
				s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("%s+(D%d<%s)+%s", last, row, before, more), float64(m.load))
				s.Formula(xlsx.Worked, xlsx.General, fmt.Sprintf("D%d+%s-%s*%s", row, left, more, most), steps(m.readingG))
			}
			next++
		}
	}
}

// begin is what the scale reads, in steps, before a material comes onto it.
func (b *pourBook) begin(before, m load, most int64) float64 {
	scale := b.t.Plan.Kit.Scale
	was, left := scale.Count(before.readingG), scale.Count(m.g)
	if m.apart {
		left = 0
	}
	if was+left > most && was > 0 && (left <= most || was == most) {
		return 0
	}
	return float64(was)
}
