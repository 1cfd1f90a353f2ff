package blend

import (
	"math"

	"pourboard/blend/measure"
)

// workOutPlusMinus works out how far off each cup's shares and percentages can be.
func (t *Test) workOutPlusMinus() {
	if t.Plan.Blend.Method == ByWeigh {
		for i := range t.Cells {
			t.weighedPlusMinus(&t.Cells[i])
		}
		return
	}
	j := newPlusMinus(t)
	for i := range t.Cells {
		j.cell(&t.Cells[i])
	}
}

// cell works out the ± of a cup.
func (j *plusMinus) cell(c *Cell) {
	if j.t.Plan.Blend.HasSeries() {
		j.percents(c)
	} else {
		j.shares(c)
	}
}

// plusMinus holds what is the same for every cup.
type plusMinus struct {
	t          *Test
	factors    []float64 // by end: what a unit on the instrument brings of the basis
	pourU      float64   // standard uncertainty of a reading when pouring
	running    bool
	tareU      float64     // of the reading before the first pour, on a scale
	pourCause  []Cause     // by end
	doseCause  []Cause     // by series
	stockCause []Cause     // by stock
	batchU     [][]float64 // by end and series: relative, of the colourant in the batch
	amounts    []float64   // of the cup at hand, by end
	values     []float64   // by end, of whatever is averaged
	stockU     []float64   // by stock: relative, of the strength
}

func newPlusMinus(t *Test) *plusMinus {
	kit := t.Plan.Kit
	n := len(t.Ends)
	j := &plusMinus{t: t, running: kit.OnScale(), pourU: kit.PourU(), tareU: kit.TareU(), amounts: make([]float64, n), values: make([]float64, n)}
	for _, e := range t.Ends {
		j.factors = append(j.factors, 1/e.per(t.basis()).ml/e.perML(kit)) // units of the basis per unit poured
		j.pourCause = append(j.pourCause, Cause{Kind: CausePour, Name: e.Name})
	}
	if t.Plan.Blend.HasSeries() && t.Plan.Blend.Method != ByPour && kit.Fill > 0 {
		j.running, j.tareU, j.pourU = false, 0, measure.FillU(kit.Fill)*t.Base.perML(kit)
		j.pourCause = []Cause{{Kind: CauseFill}}
	}
	for _, series := range t.Plan.Blend.Series {
		j.doseCause = append(j.doseCause, Cause{Kind: CauseDose, Name: series.Material})
	}
	for _, stock := range t.Stocks {
		j.stockCause = append(j.stockCause, Cause{Kind: CauseStock, Name: stock.Name})
		// s = G/(G/ρ + W): the parts of the strength's relative uncertainty.
		j.stockU = append(j.stockU, math.Hypot(
			(1-stock.GPerML/t.Densities[stock.Series])*relativeTo(kit.Dosing().Tared(), stock.G),
			relativeTo(kit.Scale.Tared(), stock.ML)))
	}
	if t.Plan.Blend.Method == ByPour {
		for i, e := range t.Ends {
			relative := make([]float64, len(e.Percents))
			for s, p := range e.Percents {
				if p > 0 {
					g, scale := t.Batches[i].weighed(t.SeriesPart(i, s), kit)
					relative[s] = relativeTo(scale.Tared(), g)
				}
			}
			j.batchU = append(j.batchU, relative)
		}
	}
	return j
}

// pouring is how a cup's pours were measured.
func (j *plusMinus) pouring(c *Cell) measure.Pouring {
	for i, p := range c.Pours {
		j.amounts[i] = p.Measured
	}
	return measure.Pouring{Amounts: j.amounts, Factors: j.factors, U: j.pourU, Running: j.running, Tare: j.tareU}
}

// worse keeps the largest relative ± of a cup and its cause.
func (g *Got) worse(relative float64, cause Cause) {
	if relative > g.Worst {
		g.Worst, g.Cause = relative, cause
	}
}

// tooSmall is a cause of which nothing is measured.
func (c Cause) tooSmall() Cause {
	c.TooSmall = true
	return c
}

// shares is cell for a cup of blended ends, or the slips of a series that is poured.
func (j *plusMinus) shares(c *Cell) {
	pouring := j.pouring(c)
	for i := range j.values {
		j.values[i] = 0
	}
	for i := range c.Pours {
		j.values[i] = 1
		p := &c.Pours[i]
		share, u, cause := pouring.Mean(j.values)
		j.values[i] = 0
		p.GotShare, p.PlusMinus = share, measure.Coverage*u
		switch {
		case p.ML > 0 && p.Steps == 0:
			c.Got.worse(1, j.pourCause[i].tooSmall())
		case share > 0 && cause >= 0:
			c.Got.worse(p.PlusMinus/share, j.pourCause[cause])
		}
	}
}

// percents is cell for a cup of a series.
func (j *plusMinus) percents(c *Cell) {
	pouring := j.pouring(c)
	t := j.t
	if t.Plan.Blend.Method == ByPour {
		j.shares(c)
		c.Got.Worst, c.Got.Cause = 0, Cause{} // what counts is the percentage
	} else {
		c.Pours[0].GotShare = 1
	}
	if c.Got.RecipeG == 0 {
		c.Got.worse(1, j.pourCause[0].tooSmall())
		return
	}
	for s := range c.Doses {
		d := &c.Doses[s]
		if d.Percent == 0 && d.GotPercent == 0 {
			continue
		}
		var u float64
		var cause Cause
		switch t.Plan.Blend.Method {
		case ByPour:
			u, cause = j.poured(pouring, s)
		case ByStock:
			u, cause = j.product(d, pouring.Amounts[0],
				relativeTo(t.Plan.Kit.Syringe.Reading(), d.MeasuredML), j.stockU[d.Stock], s)
		default:
			u, cause = j.product(d, pouring.Amounts[0], relativeTo(t.Plan.Kit.Dosing().Tared(), d.MeasuredG), 0, s)
		}
		d.PlusMinus = measure.Coverage * u
		switch {
		case d.MeasuredG == 0:
			c.Got.worse(1, j.doseCause[s].tooSmall())
		case d.GotPercent > 0:
			c.Got.worse(d.PlusMinus/d.GotPercent, cause)
		}
	}
}

// relativeTo is u/x, or 0 where nothing was measured.
func relativeTo(u, x float64) float64 {
	if x == 0 {
		return 0
	}
	return u / x
}

// product is the standard uncertainty in percentage points of a dose over the
// base's recipe, whose relative parts add in squares.
func (j *plusMinus) product(d *Dose, base, dose, strength float64, s int) (u float64, cause Cause) {
	pour := relativeTo(math.Hypot(j.tareU, j.pourU), base)
	cause = j.doseCause[s]
	switch largest := max(pour, dose, strength); {
	case largest == pour:
		cause = j.pourCause[0]
	case largest == strength:
		cause = j.stockCause[d.Stock]
	}
	return d.GotPercent * measure.Relative(pour, dose, strength), cause
}

// poured is the standard uncertainty in percentage points of what blended end
// slips bring: of their pours, and of the colourant in each one's batch.
func (j *plusMinus) poured(pouring measure.Pouring, s int) (u float64, cause Cause) {
	percents, whole := j.values, 0.0
	for i := range j.t.Ends {
		percents[i] = j.t.SeriesMade(i, s)
		whole += pouring.Amounts[i] * pouring.Factors[i]
	}
	_, u, worst := pouring.Mean(percents)
	largest := u
	if worst >= 0 {
		cause = j.pourCause[worst]
	}
	for i := range j.t.Ends {
		if whole == 0 {
			break
		}
		part := pouring.Amounts[i] * pouring.Factors[i] / whole * percents[i] * j.batchU[i][s]
		if part > largest {
			largest, cause = part, Cause{Kind: CauseBatchDose, Name: j.doseCause[s].Name, Batch: j.t.Ends[i].Name}
		}
		u = math.Hypot(u, part)
	}
	return u, cause
}

// worstCup is the cup whose shares or percentages can be furthest off, the first
// of those that are alike.
func (t *Test) worstCup() Cell { return t.most(func(c Cell) float64 { return c.Got.Worst }) }
