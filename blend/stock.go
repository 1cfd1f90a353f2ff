package blend

import (
	"math"
	"slices"
	"strconv"

	"pourboard/blend/measure"
)

// How stock suspensions are made (common practice, no source).
const (
	// maxStrength is the thickest suspension of a colourant that still pours
	// and can be kept stirred, in g/mL.
	maxStrength = 0.5
	// mostWaterPart is how much water stocks may bring into a cup, as a fraction of
	// the base's volume, before the coat gets noticeably thinner.
	mostWaterPart = 0.10
	// MostSpare is how many times what is poured of a suspension is made so that
	// its colourant can be weighed well: what is over is waste, and mostly
	// hazardous.
	MostSpare = 5
	// StockWeighing is the part of Worst that the weighing of a suspension's
	// colourant should stay below: the syringe has 1/√2 of it, and the pour of
	// the base what is left of the squares.
	StockWeighing = 0.5
	// mostMade is how many times what is poured may be made before a note gives the reason.
	mostMade = 1.5
	// mostStocks is how many suspensions of one colourant are worth their work.
	mostStocks = 4
)

// chooseStocks chooses the suspensions of each series: as strong as may be, so
// that they bring little water in, while the syringe alone reads the smallest
// dose to 1/√2 of the limit, which leaves as much for the base. A series
// with doses too far apart for one suspension gets up to four of them.
func chooseStocks(t *Test) {
	if t.Plan.Blend.Method != ByStock {
		return
	}
	kit := t.Plan.Kit
	smallest := measure.Smallest(kit.Syringe.Reading(), kit.Worst/math.Sqrt2)
	room := t.mostWater() / float64(len(t.Plan.Blend.Series))
	for s, series := range t.Plan.Blend.Series {
		var doses []float64
		for _, c := range t.Cells {
			if g := c.Doses[s].Percent / 100 * t.poured(&c, Measured).RecipeG; g > 0 {
				doses = append(doses, g)
			}
		}
		slices.Sort(doses)
		for n, stock := range ladder(doses, smallest, room) {
			stock.Series, stock.Material = s, series.Material
			stock.Label = SeriesLetter(s) + strconv.Itoa(n+1)
			stock.Name = series.Material + " stock " + stock.Label
			t.Stocks = append(t.Stocks, stock)
		}
	}
}

// ladder is the suspensions for doses in ascending order, in g, of which the
// syringe should draw at least smallest and at most room mL. Where that takes
// too many of them, they draw more.
func ladder(doses []float64, smallest, room float64) []Stock {
	if len(doses) == 0 {
		return []Stock{{GPerML: maxStrength}}
	}
	strength := func(dose float64) float64 {
		return measure.ConvenientBelow(min(dose/smallest, maxStrength))
	}
	for ; ; room *= 1.25 {
		steps := []Stock{{GPerML: strength(doses[0]), From: doses[0]}}
		for _, d := range doses {
			last := steps[len(steps)-1].GPerML
			if d/last > room && strength(d) > last {
				steps = append(steps, Stock{GPerML: strength(d), From: d})
			}
		}
		if len(steps) <= mostStocks {
			return steps
		}
	}
}

// stockFor is the index of the suspension that a dose of series s is poured
// from: the strongest that begins at or below it.
func stockFor(t *Test, s int, g float64) int {
	best := -1
	for i, stock := range t.Stocks {
		if stock.Series == s && (best < 0 || stock.From <= g*(1+hair)) {
			best = i
		}
	}
	return best
}

// makeStocks works out how much of each suspension to make.
func makeStocks(t *Test) {
	kit := t.Plan.Kit
	for i := range t.Stocks {
		stock := &t.Stocks[i]
		for _, c := range t.Cells {
			if d := c.Doses[stock.Series]; d.Stock == i {
				stock.NeedML += d.MeasuredML
			}
		}
		if stock.NeedML == 0 {
			continue
		}
		// Enough for the scale to weigh the colourant well: its weighing may
		// take its part of the limit, as long as not too much is made in vain.
		need := stock.NeedML*(1+kit.Extra) + kit.Dead
		least := measure.Smallest(kit.Dosing().Tared(), kit.Worst*StockWeighing) / stock.GPerML
		ml := measure.Convenient(max(need, min(least, MostSpare*need)))
		stock.G = kit.Dosing().RoundedUp(ml * stock.GPerML)
		stock.ML = stock.G / stock.GPerML
		stock.WaterG = kit.Scale.Rounded(stock.ML - stock.G/t.Densities[stock.Series])
	}
}

// mostWater is the most water in mL that stocks should bring into a cup.
func (t *Test) mostWater() float64 {
	size := t.Plan.Cup.Size
	return mostWaterPart * size.Value / t.Base.in(size.Of)
}

// stockWater is the mL of water that come with a g of a dose's colourant, none
// where it is weighed dry.
func stockWater(t *Test, d Dose) float64 {
	if t.Plan.Blend.Method != ByStock {
		return 0
	}
	stock := t.Stocks[d.Stock]
	return 1/stock.GPerML - 1/t.Densities[stock.Series]
}
