package blend

import (
	"cmp"
	"math"
	"slices"

	"pourboard/blend/measure"
)

// part is a standard uncertainty that goes into another, and what causes it.
type part struct {
	u     float64
	cause Cause
}

// together is the root sum of squares of independent parts, and the cause of the
// largest, the first of those that are alike.
func together(parts ...part) (u float64, cause Cause) {
	for _, p := range parts {
		u = math.Hypot(u, p.u)
	}
	return u, slices.MaxFunc(parts, func(a, b part) int { return cmp.Compare(a.u, b.u) }).cause
}

// worse keeps the largest relative ± of a cup and its cause.
func (g *Got) worse(relative float64, cause Cause) {
	if relative > g.Worst {
		g.Worst, g.Cause = relative, cause
	}
}

// missing is a share or percentage of which nothing is measured.
func (g *Got) missing(cause Cause) {
	cause.TooSmall = true
	g.worse(1, cause)
}

// plusMinus works out how far off a cup's shares and percentages can be.
func (t *Test) plusMinus(c *Cell) {
	c.Got.Worst, c.Got.Cause = 0, Cause{}
	b, pouring := t.Plan.Blend, t.pouring(c)
	if b.Method == ByWeigh {
		weighedPlusMinus(t, c)
		return
	}
	for i := range c.Pours {
		p := &c.Pours[i]
		only := make([]float64, len(c.Pours))
		only[i] = 1
		share, u, worst := pouring.Mean(only)
		p.GotShare, p.PlusMinus = share, measure.Coverage*u
		switch {
		case b.HasSeries(): // what counts is the percentage
		case p.ML > 0 && p.Steps == 0:
			c.Got.missing(pourCause(t, i))
		case share > 0 && worst >= 0:
			c.Got.worse(p.PlusMinus/share, pourCause(t, worst))
		}
	}
	if b.HasSeries() && c.Got.RecipeG == 0 {
		c.Got.missing(pourCause(t, 0))
		return
	}
	dosePlusMinus(t, c, pouring)
}

// dosePlusMinus works out how far off a cup's percentages can be.
func dosePlusMinus(t *Test, c *Cell, pouring measure.Pouring) {
	uncertain := doseU
	if t.Plan.Blend.Method == ByPour {
		uncertain = blendedU
	}
	for s := range c.Doses {
		d := &c.Doses[s]
		if d.Percent == 0 && d.GotPercent == 0 {
			continue
		}
		u, cause := uncertain(t, *d, pouring, s)
		d.PlusMinus = measure.Coverage * u
		if d.MeasuredG == 0 {
			c.Got.missing(doseCause(t, s))
		} else if d.GotPercent > 0 {
			c.Got.worse(d.PlusMinus/d.GotPercent, cause)
		}
	}
}

// byEye reports whether cups are filled to a line by eye.
func (t *Test) byEye() bool { return t.Plan.oneBase() && t.Plan.Kit.Fill > 0 }

func pourCause(t *Test, end int) Cause {
	if t.byEye() {
		return Cause{Kind: CauseFill}
	}
	return Cause{Kind: CausePour, Name: t.Ends[end].Name}
}

func doseCause(t *Test, series int) Cause {
	return Cause{Kind: CauseDose, Name: t.Plan.Blend.Series[series].Material}
}

// pouring is how a cup's pours were measured, as shares of the test's basis.
func (t *Test) pouring(c *Cell) measure.Pouring {
	kit := t.Plan.Kit
	p := measure.Pouring{U: kit.PourU(), Running: kit.OnScale(), Tare: kit.TareU(),
		Amounts: make([]float64, len(t.Ends)), Factors: make([]float64, len(t.Ends))}
	if t.byEye() {
		p.U, p.Running, p.Tare = measure.FillU(kit.Fill)*t.Base.perML(kit), false, 0
	}
	for i, e := range t.Ends {
		p.Amounts[i], p.Factors[i] = c.Pours[i].Got.Shown(kit), e.in(t.Plan.Blend.Basis)/e.perML(kit)
	}
	return p
}

// relativeTo is u/x, or 0 where nothing was measured.
func relativeTo(u, x float64) float64 {
	if x == 0 {
		return 0
	}
	return u / x
}

// doseU is the standard uncertainty in percentage points of a dose over the
// base's recipe, whose relative parts add in squares.
func doseU(t *Test, d Dose, pouring measure.Pouring, s int) (u float64, cause Cause) {
	kit := t.Plan.Kit
	parts := []part{
		{relativeTo(math.Hypot(pouring.Tare, pouring.U), pouring.Amounts[0]), pourCause(t, 0)},
		{relativeTo(kit.Dosing().Tared(), d.MeasuredG), doseCause(t, s)},
	}
	if t.Plan.Blend.Method == ByStock {
		// s = G/(G/ρ + W): the parts of the strength's relative uncertainty.
		stock := t.Stocks[d.Stock]
		grains := (1 - stock.GPerML/t.Densities[s]) * relativeTo(kit.Dosing().Tared(), stock.G)
		strength := math.Hypot(grains, relativeTo(kit.Scale.Tared(), stock.ML))
		parts[1] = part{strength, Cause{Kind: CauseStock, Name: stock.Name}}
		parts = append(parts, part{relativeTo(kit.Syringe.Reading(), d.MeasuredML), doseCause(t, s)})
	}
	u, cause = together(parts...)
	return d.GotPercent * u, cause
}

// blendedU is the standard uncertainty in percentage points of what blended end
// slips bring: of their pours, and of the colourant in each one's batch.
func blendedU(t *Test, _ Dose, pouring measure.Pouring, s int) (u float64, cause Cause) {
	percents, whole := make([]float64, len(t.Ends)), 0.0
	for i, e := range t.AsWeighed {
		percents[i] = e.Percents[s]
		whole += pouring.Amounts[i] * pouring.Factors[i]
	}
	_, u, worst := pouring.Mean(percents)
	parts := []part{{u, pourCause(t, max(worst, 0))}}
	for i, e := range t.Ends {
		if e.Percents[s] != 0 {
			g, scale := t.Batches[i].weighed(e.SeriesPart(s))
			share := pouring.Amounts[i] * pouring.Factors[i] / whole
			parts = append(parts, part{share * percents[i] * relativeTo(scale.Tared(), g),
				Cause{Kind: CauseBatchDose, Name: t.Plan.Blend.Series[s].Material, Batch: e.Name}})
		}
	}
	return together(parts...)
}

// worstCup is the cup whose shares or percentages can be furthest off, the first
// of those that are alike.
func (t *Test) worstCup() Cell { return t.most(func(c Cell) float64 { return c.Got.Worst }) }
