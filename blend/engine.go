package blend

import (
	"fmt"

	"pourboard/blend/design"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
	"pourboard/blend/slip"
)

// New works out a whole test. The plan must have passed the checks of package
// plan; what those cannot see, such as a batch too small for its cups, comes
// back as a Fault. Test.Plan is p, or a copy with the size of cup that follows
// from a batch to share out or from the batches you have.
func New(p *Plan) (*Test, error) {
	lib := oxide.Builtin().With(p.Materials...)
	p, err := p.sharedOut(lib)
	if err != nil {
		return nil, err
	}
	p, supplied, err := p.supplied(lib)
	if err != nil {
		return nil, err
	}
	t, err := compute(p, lib, nil)
	if err != nil {
		return nil, err
	}
	if supplied != nil {
		t.note(*supplied, true)
	}
	t.fired = newFired(t, lib)
	if t.worst() > p.Kit.Worst*(1+hair) {
		t.smallest = t.smallestCup()
		t.Dilutions = t.dilutions()
	}
	t.takeNotes()
	return t, nil
}

// hair is what floating point may add to a figure that is just good enough.
const hair = 1e-9

// compute is New without its oxides and warnings. keep, if not nil, says which
// cells are worked out, by their place in the whole design.
func compute(p *Plan, lib oxide.Library, keep func(int) bool) (*Test, error) {
	points, err := p.Blend.Design().Points()
	if err != nil {
		return nil, err
	}
	t := &Test{Plan: p, Library: lib, Densities: make([]float64, len(p.Blend.Series))}
	for i, s := range p.Blend.Series {
		t.Densities[i] = density(lib, s.Material)
	}
	shares, err := t.pourEnds(points)
	if err != nil {
		return nil, err
	}
	if keep != nil {
		n := 0
		for i := range points {
			if keep(i) {
				points[n], shares[n] = points[i], shares[i]
				n++
			}
		}
		points, shares = points[:n], shares[:n]
	}
	t.lay(points, shares)
	for i := range t.Cells {
		t.pour(&t.Cells[i])
	}
	t.batches()
	if err := t.pourOtherwise(); err != nil {
		return nil, err
	}
	t.weighedIn()
	t.strengths()
	for i := range t.Cells {
		t.fill(&t.Cells[i])
	}
	t.makeStocks()
	t.workOutPlusMinus()
	for i := range t.Cells {
		t.label(&t.Cells[i])
	}
	return t, nil
}

// density of a material's grains in g/mL, assumedSolids when it is not known.
func density(lib oxide.Library, material string) float64 {
	if m, ok := lib.Find(material); ok && m.Density > 0 {
		return m.Density
	}
	return assumedSolids
}

// pourEnds works out the slips that are poured, and each point's shares of them.
func (t *Test) pourEnds(points []design.Point) (shares [][]float64, err error) {
	if err := t.takeGlazes(); err != nil {
		return nil, err
	}
	t.Base = t.Ends[0]
	shares = make([][]float64, len(points))
	b := t.Plan.Blend
	switch {
	case !b.HasSeries():
		for i, p := range points {
			shares[i] = p.Shares
		}
	case b.Method == ByPour:
		var slips []corner
		slips, shares = corners(b, points)
		t.Ends = nil
		for _, c := range slips {
			e := cornerEnd(t.Base, c, b.Series, t.Densities)
			if err := e.takeHave(t.Plan.had(e.Name)); err != nil {
				return nil, err
			}
			t.Ends = append(t.Ends, e)
		}
	default:
		for i := range shares {
			shares[i] = []float64{1}
		}
	}
	return shares, nil
}

// takeGlazes makes ends of the plan's glazes, with a gravity that is assumed
// where nothing says it.
func (t *Test) takeGlazes() error {
	b := t.Plan.Blend
	glazes := b.Ends
	if b.HasSeries() {
		glazes = []int{b.Base}
	}
	for _, g := range glazes {
		e := newEnd(t.Plan.Glazes[g], t.Library)
		if err := e.takeHave(t.Plan.had(e.Name)); err != nil {
			return err
		}
		if e.SG > 0 {
			if err := (slip.Slip{SG: e.SG, Solids: e.Solids}).Check(); err != nil {
				return &Fault{KeyGravity, 0, fmt.Sprintf("glaze %q: %s", e.Name, err), ""}
			}
		}
		t.Ends = append(t.Ends, e)
	}
	assumeDryContent(t.Ends)
	for _, e := range t.Ends {
		switch {
		case e.Assumed && !e.Bucket:
			t.unmeasured = append(t.unmeasured, e)
		case e.Assumed && t.inGrams(): // otherwise nothing rests on it
			return &Fault{KeyGravity, 0, fmt.Sprintf("glaze %q needs its SG, since amounts in g are asked", e.Name),
				"weigh 100 mL: 145 g means specific-gravity = 1.45"}
		}
	}
	return nil
}

// inGrams reports whether the plan asks for grams anywhere, so that the SG of
// every glaze is needed: in shares, the size of cups, doses or pours.
func (t *Test) inGrams() bool {
	p := t.Plan
	return p.Blend.HasSeries() || p.Blend.Basis != Volume || p.Cup.Size.Of != Volume || t.Plan.Kit.OnScale()
}

// lay makes the cells, numbered, with room for their pours and doses.
func (t *Test) lay(points []design.Point, shares [][]float64) {
	q, k := len(t.Ends), len(t.Plan.Blend.Series)
	pours := make([]Pour, len(points)*q)
	doses := make([]Dose, len(points)*k)
	t.Cells = make([]Cell, len(points))
	t.points = points
	for i, p := range points {
		c := &t.Cells[i]
		*c = Cell{Number: i + 1, Row: p.Row, Column: p.Column, Layer: p.Layer, Shares: shares[i], Repeats: p.Again}
		c.Pours, pours = pours[:q:q], pours[q:]
		c.Doses, doses = doses[:k:k], doses[k:]
		for s := range c.Doses {
			c.Doses[s].Percent = p.Shares[s]
			if t.Plan.Blend.Kind == Triaxial {
				c.Doses[s].Percent *= t.Plan.Blend.Series[s].To
			}
		}
		t.Layers = max(t.Layers, p.Layer+1)
		t.Rows = max(t.Rows, p.Row+1)
		t.Columns = max(t.Columns, p.Column+1)
	}
}

// unit is what one unit of a basis brings of an end: g of recipe, mL and g of
// wet glaze.
type unit struct{ recipe, ml, g float64 }

// per is one unit of the basis of an end.
func (e End) per(basis Basis) unit {
	switch basis {
	case Volume:
		return unit{e.RecipePerML, 1, e.SG}
	case Weight:
		return unit{e.RecipePerML / e.SG, 1 / e.SG, 1}
	default:
		return unit{1, 1 / e.RecipePerML, e.SG / e.RecipePerML}
	}
}

// of is a unit's amount in the given basis.
func (u unit) of(basis Basis) float64 {
	switch basis {
	case Volume:
		return u.ml
	case Weight:
		return u.g
	default:
		return u.recipe
	}
}

// basis is what the shares of the end glazes are shares of: that of the plan
// for a blend, the base's recipe for a series.
func (t *Test) basis() Basis {
	if t.Plan.Blend.HasSeries() {
		return Dry
	}
	return t.Plan.Blend.Basis
}

// baseRecipe is the base's recipe in each cup of a series as asked, in g.
func (t *Test) baseRecipe() float64 {
	size := t.Plan.Cup.Size
	per := t.Base.per(size.Of)
	return size.Value * per.recipe / per.of(size.Of)
}

// pour works out the pours of a cell, exact and as measured. All units are
// scaled by k = size / Σ pᵢ·unitᵢ, so that the cup gets the size that is asked.
// A series is asked by the base that is in it before its colourants.
func (t *Test) pour(c *Cell) {
	basis := t.basis()
	size := t.Plan.Cup.Size
	k := 0.0
	if t.Plan.Blend.HasSeries() {
		k = t.baseRecipe()
	} else {
		for i, e := range t.Ends {
			k += c.Shares[i] * e.per(basis).of(size.Of)
		}
		k = size.Value / k
	}
	for i, e := range t.Ends {
		per, amount := e.per(basis), k*c.Shares[i]
		p := &c.Pours[i]
		p.ML, p.G, p.RecipeG = amount*per.ml, amount*per.g, amount*per.recipe
		p.DryG = p.RecipeG * (1 + e.Over)
		c.RecipeG += p.RecipeG
		c.DryG += p.DryG
		c.G += p.G
		c.ML += p.ML
	}
	if t.Plan.Blend.Method != ByWeigh {
		t.measurePours(c)
	}
}

// fill works out the doses of a cell, and what they make of the cup.
func (t *Test) fill(c *Cell) {
	if t.Plan.Blend.Method == ByWeigh {
		t.weighCup(c)
		return
	}
	for i := range c.Pours {
		c.Got.DryG += t.pourDry(i, c.Pours[i], Measured)
	}
	for s := range c.Doses {
		t.dose(c, s)
	}
	c.SG = c.G / c.ML
	if c.Got.ML > 0 {
		c.Got.SG = c.Got.G / c.Got.ML
	}
}

// measurePours counts the pours in the instrument's steps.
func (t *Test) measurePours(c *Cell) {
	step := t.Plan.Kit.Pour
	byWeight := t.Plan.Kit.OnScale()
	n := len(c.Pours)
	exact, counts, readings := make([]float64, n), make([]int64, n), make([]int64, n)
	for i, p := range c.Pours {
		exact[i] = p.ML
		if byWeight {
			exact[i] = p.G
		}
	}
	if byWeight {
		step.Running(exact, counts, readings)
	} else {
		step.Apportion(exact, counts)
	}
	for i := range t.Ends {
		p := &c.Pours[i]
		p.Steps, p.Reading = counts[i], readings[i]
		p.Measured = step.Amount(p.Steps)
	}
	t.tally(c)
}

// tally works out what a cup's measured pours bring.
func (t *Test) tally(c *Cell) {
	c.Got.RecipeG, c.Got.ML, c.Got.G = 0, 0, 0
	for i, e := range t.Ends {
		p := &c.Pours[i]
		p.GotML = p.Measured / e.perML(t.Plan.Kit)
		p.GotRecipeG = p.GotML * e.RecipePerML
		c.Got.RecipeG += p.GotRecipeG
		c.Got.ML += p.GotML
		c.Got.G += p.GotML * e.SG
	}
}

// contents is the whole cup, as asked or as measured.
func (c Cell) contents(view View) Contents {
	if view == Measured {
		return c.Got.Contents
	}
	return c.Contents
}

// ml is the wet glaze that a pour brings, in mL.
func (p Pour) ml(view View) float64 {
	if view == Measured {
		return p.GotML
	}
	return p.ML
}

// recipe is the recipe that a pour brings, in g.
func (p Pour) recipe(view View) float64 {
	if view == Measured {
		return p.GotRecipeG
	}
	return p.RecipeG
}

// grams is what a dose brings, in g: as it is asked over the cup's recipe as
// asked, or as it is measured.
func (c *Cell) grams(s int, view View) float64 {
	d := c.Doses[s]
	if view == Measured {
		return d.MeasuredG
	}
	return d.Percent / 100 * c.RecipeG
}

// dose works out one colourant of a cup: its grams are a percentage of the
// recipe in the measured pour, so that of a cup as made only the rounding of
// the dose is left. What comes with end glazes is measured in their batches
// (weighedIn).
func (t *Test) dose(c *Cell, s int) {
	d := &c.Doses[s]
	d.G = d.Percent / 100 * c.Got.RecipeG
	asked := c.grams(s, Asked)
	step, amount, water := t.DoseStep(), d.G, 0.0
	switch t.Plan.Blend.Method {
	case ByPour:
		return
	case ByStock:
		d.Stock = t.stockFor(s, d.G)
		d.ML = d.G / t.Stocks[d.Stock].GPerML
		amount, water = d.ML, asked*t.stockWater(d)
		c.WaterML += water
	}
	c.add(asked, water, t.Densities[s])
	t.measureDose(d, step.Amount(step.Count(amount)))
	t.addDose(c, s)
}

// stockWater is the mL of water that come with a g of a dose's colourant.
func (t *Test) stockWater(d *Dose) float64 {
	stock := t.Stocks[d.Stock]
	return 1/stock.GPerML - 1/t.Densities[stock.Series]
}

// measureDose makes a dose the amount that was measured, in its instrument's unit.
func (t *Test) measureDose(d *Dose, amount float64) {
	d.Steps, d.MeasuredG = t.DoseStep().Count(amount), amount
	if t.Plan.Blend.Method == ByStock {
		d.MeasuredML, d.MeasuredG = amount, amount*t.Stocks[d.Stock].GPerML
	}
}

// addDose works out what a dose as measured makes of a cup as measured.
func (t *Test) addDose(c *Cell, s int) {
	d := &c.Doses[s]
	switch t.Plan.Blend.Method {
	case ByPour:
		d.MeasuredG = 0
		for e, p := range c.Pours {
			d.MeasuredG += p.GotRecipeG * t.SeriesMade(e, s) / 100
		}
	case ByStock:
		c.Got.add(d.MeasuredG, d.MeasuredG*t.stockWater(d), t.Densities[s])
	default:
		c.Got.add(d.MeasuredG, 0, t.Densities[s])
	}
	d.GotPercent = 0
	if c.Got.RecipeG > 0 {
		d.GotPercent = 100 * d.MeasuredG / c.Got.RecipeG
	}
}

// add puts a dry addition and water into a cup.
func (c *Contents) add(dry, water, density float64) {
	c.DryG += dry
	c.G += dry + water
	c.ML += dry/density + water
}

// WaterTo is the water in mL that brings the cup, as measured, to the specific
// gravity sg; negative means that the cup is too thin already.
func (c Cell) WaterTo(sg float64) float64 { return slip.WaterTo(sg, c.Got.G, c.Got.ML) }

// CommonSG is the gravity of the thinnest cup, to which water can bring all.
func (t *Test) CommonSG() float64 {
	thin, _ := t.thinAndThick()
	return thin.Got.SG
}

// thinAndThick is the thinnest and the thickest cup as measured. Cups that no
// wet glaze was measured into do not count.
func (t *Test) thinAndThick() (thin, thick Cell) {
	for _, c := range t.Cells {
		if !c.Poured() {
			continue
		}
		if thin.Number == 0 || c.Got.SG < thin.Got.SG {
			thin = c
		}
		if thick.Number == 0 || c.Got.SG > thick.Got.SG {
			thick = c
		}
	}
	return thin, thick
}

// WaterStep is the instrument that measures water into a cup: the scale when
// glazes are poured on one (1 g is 1 mL), otherwise the syringe.
func (t *Test) WaterStep() measure.Step {
	if t.Plan.Kit.OnScale() {
		return t.Plan.Kit.Pour
	}
	return t.Plan.Kit.Syringe
}

// WaterSteps is the water that brings a cup, as measured, to a specific
// gravity, in whole steps of WaterStep; negative where it is too thin already.
func (t *Test) WaterSteps(c Cell, sg float64) int64 { return t.WaterStep().Count(c.WaterTo(sg)) }

// Poured reports whether any slip was measured into the cup.
func (c Cell) Poured() bool {
	if c.Weighings != nil {
		return c.Got.RecipeG > 0
	}
	for _, p := range c.Pours {
		if p.Steps > 0 {
			return true
		}
	}
	return false
}
