package pourbook

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// dosing is the instrument that measures doses and the name of its step.
func (b *pourBook) dosing() (step measure.Step, name string) {
	if len(b.t.Stocks) > 0 {
		return b.t.Plan.Kit.Syringe, "Syringe_step"
	}
	return b.t.Plan.Kit.Dosing(), "Dose_step"
}

// writeDoses writes the sheet of the additions of a series.
func (b *pourBook) writeDoses() {
	t, at, g := b.t, b.at, &b.dose
	step, stepName := b.dosing()
	g.add(b.cupNumber())
	for s, series := range t.Plan.Blend.Series {
		m := series.Material
		dose := func(i int) blend.Dose { return t.Cells[i].Doses[s] }
		nothing := func(i int) bool { return dose(i).Percent == 0 }
		g.add(column{head: m + "\n% of dry glaze", width: 12, look: xlsx.Given, none: nothing,
			formatOf: func(i int) xlsx.Format { return xlsx.PercentFormat(dose(i).Percent, dose(i).PercentText()) },
			value:    func(i int) float64 { return dose(i).Percent }})
		g.add(column{head: m + "\nexactly, g", look: xlsx.Worked, format: xlsx.Decimals(step.Decimals() + 2), none: nothing,
			formula: "MAX(0,N(" + xlsx.Letters(at.percent[s]) + "#))/100*Working!" + xlsx.Letters(at.base) + "#",
			value:   func(i int) float64 { return dose(i).G }})
		exact := xlsx.Letters(at.exact[s]) + "#"
		switch {
		case len(t.Stocks) > 0:
			strength := b.strengthOf(s)
			g.add(column{head: m + "\nfrom stock", width: 12, look: xlsx.Given, format: xlsx.Format(`"` + blend.SeriesLetter(s) + `"0`), none: nothing, // the stock's label
				noneNow: "IF(N(" + xlsx.Letters(at.percent[s]) + "#)>0,1,0)",
				value:   func(i int) float64 { return float64(b.stockNumber(dose(i).Stock)) }})
			g.add(column{head: m + " stock\nexactly, mL", look: xlsx.Worked, format: xlsx.Decimals(step.Decimals() + 1), none: nothing,
				formula: "IFERROR(" + exact + "/" + strength + ",0)", value: func(i int) float64 { return dose(i).ML }})
			g.add(column{head: m + " stock\ndraw, mL", width: 12, look: xlsx.Measured, format: measuredFormat(step), nought: "none", none: nothing,
				formula: amountOf(stepsOf(xlsx.Letters(at.measured[s]-1)+"#", stepName), stepName),
				value:   func(i int) float64 { return dose(i).MeasuredML }})
			g.add(column{head: m + "\nthis brings, g", look: xlsx.Worked, format: xlsx.Decimals(3), none: nothing,
				formula: "IFERROR(" + xlsx.Letters(at.measured[s]) + "#*" + strength + ",0)",
				value:   func(i int) float64 { return dose(i).MeasuredG }})
		case b.doses > 0:
			g.add(column{head: m + "\nweigh, g", width: 12, look: xlsx.Measured, format: measuredFormat(step), nought: "none", none: nothing,
				formula: amountOf(stepsOf(exact, stepName), stepName),
				value:   func(i int) float64 { return dose(i).MeasuredG }})
		default:
			var sum []string
			for e, end := range t.Ends {
				if end.Percents[s] != 0 {
					sum = append(sum, fmt.Sprintf("Working!%s#*%s", xlsx.Letters(at.dry+e), slipCell(e, b.rows.weighed+s)))
				}
			}
			formula := strings.Join(sum, "+")
			if formula == "" {
				formula = "0"
			}
			g.add(column{head: m + "\nthe pours bring, g", look: xlsx.Worked, format: xlsx.Decimals(3),
				formula: formula, value: func(i int) float64 { return dose(i).MeasuredG }})
		}
		g.add(column{head: m + "\n% made", look: xlsx.Worked, format: gotFormat,
			formula: fmt.Sprintf("IF(Working!%[1]s#>0,100*%[2]s#/Working!%[1]s#,0)", xlsx.Letters(at.base), xlsx.Letters(at.brings[s])),
			value:   func(i int) float64 { return dose(i).GotPercent }})
		g.add(column{head: m + "\n± points\nwith the plan's cup and instruments", width: 16, look: xlsx.Given,
			formatOf: func(i int) xlsx.Format { return xlsx.DecimalsOf(blend.PlusMinusText(dose(i).PlusMinus)) },
			none:     func(i int) bool { return nothing(i) || dose(i).None() },
			value:    func(i int) float64 { return dose(i).PlusMinus }})
	}
	remark := "Percentages are of the dry glaze that is poured into the cup, never of the batch. "
	switch {
	case len(t.Stocks) > 0:
		remark += "Stir the stock before each draw."
	case b.doses > 0:
		remark += "Weigh the bold amounts."
	default:
		remark += "They come with the slips: nothing is weighed into the cups, and other percentages take another plan."
	}
	for _, text := range t.UndosedTexts() {
		remark += " As planned: " + text
	}
	g.troubles = []trouble{noAmounts, b.moved()}
	for s, series := range t.Plan.Blend.Series {
		name, _ := xlsx.Cut(series.Material, 60)
		percents := rowsOf("", at.percent[s], len(t.Cells))
		g.troubles = append(g.troubles, trouble{fmt.Sprintf("OR(COUNT(%[1]s)<%[2]d,MIN(%[1]s)<0)", percents, len(t.Cells)),
			xlsx.Quoted("a percentage of " + name + " is no number of 0 or more, and nothing is dosed for it")})
	}
	g.write("Doses", remark, len(t.Cells))
}

// stockNumber is the number of a stock among those of its series, from 1.
func (b *pourBook) stockNumber(stock int) int {
	n := 1
	for _, s := range b.t.Stocks[:stock] {
		if s.Series == b.t.Stocks[stock].Series {
			n++
		}
	}
	return n
}

// strengthOf is the formula for the strength of the stock that a cup's dose of
// a series comes from.
func (b *pourBook) strengthOf(series int) string {
	var names []string
	for i, s := range b.t.Stocks {
		if s.Series == series {
			names = append(names, fmt.Sprintf("Strength_%d", i+1))
		}
	}
	return "CHOOSE(" + xlsx.Letters(b.at.measured[series]-2) + "#," + strings.Join(names, ",") + ")"
}
