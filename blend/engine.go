package blend

import (
	"cmp"
	"math"
	"slices"

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
	t, err := compute(p, lib)
	if err != nil {
		return nil, err
	}
	t.Notes, t.Smallest, t.Dilutions = supplied, smallestCup(t), findDilutions(t)
	takeNotes(t)
	return t, nil
}

// hair is what floating point may add to a figure that is just good enough.
const hair = 1e-9

// compute is New without its notes.
func compute(p *Plan, lib oxide.Library) (*Test, error) {
	points, err := p.Blend.Points()
	if err != nil {
		return nil, err
	}
	return computeAt(p, lib, points)
}

// with is the test, without its notes, of the plan with a change.
func (t *Test) with(change func(p *Plan)) (*Test, error) {
	p := *t.Plan
	change(&p)
	return compute(&p, t.Library)
}

// computeAt is compute with the cells at some points of the design alone.
func computeAt(p *Plan, lib oxide.Library, points []design.Point) (*Test, error) {
	t := &Test{Plan: p, Library: lib, Densities: make([]float64, len(p.Blend.Series))}
	for i, s := range p.Blend.Series {
		t.Densities[i] = assumedSolids
		if m, ok := lib.Find(s.Material); ok && m.Density > 0 {
			t.Densities[i] = m.Density
		}
	}
	if err := takeGlazes(t); err != nil {
		return nil, err
	}
	shares, err := pourEnds(t, points)
	if err != nil {
		return nil, err
	}
	t.points, t.order, t.Cells = points, t.WeighOrder(), make([]Cell, 0, len(points))
	for i, point := range points {
		addCell(t, point, shares[i])
	}
	for i := range t.Cells {
		t.pour(&t.Cells[i])
	}
	mixBatches(t)
	if err := pourOtherwise(t); err != nil {
		return nil, err
	}
	chooseStocks(t)
	for i := range t.Cells {
		t.dose(&t.Cells[i])
	}
	makeStocks(t)
	for i := range t.Cells {
		t.plusMinus(&t.Cells[i])
		t.label(&t.Cells[i])
	}
	thin, _ := t.thinAndThick()
	t.CommonSG = thin.Got.SG
	return t, nil
}

// takeGlazes makes ends of the plan's glazes, with a gravity that is assumed
// where nothing says it.
func takeGlazes(t *Test) error {
	for _, g := range t.Plan.Blend.Glazes() {
		e := newEnd(t.Plan.Glazes[g], t.Library)
		if err := e.takeHave(t.Plan.had(e.Name)); err != nil {
			return err
		}
		if e.SG > 0 {
			if err := (slip.Slip{SG: e.SG, Solids: e.Solids}).Check(); err != nil {
				return gravityFault(t.Plan.Glazes[g], "", ": "+err.Error())
			}
		}
		t.Ends = append(t.Ends, e)
	}
	assumeDryContent(t.Ends)
	t.Base = t.Ends[0]
	for i, e := range t.Ends {
		switch {
		case e.Assumed && !e.Bucket:
			t.unmeasured = append(t.unmeasured, e)
		case e.Assumed && t.Plan.inGrams(): // otherwise nothing rests on it
			return gravityFault(t.Plan.Glazes[t.Plan.Blend.Glazes()[i]], "weigh 100 mL: 145 g means specific-gravity = 1.45",
				" needs its SG, since amounts in g are asked")
		}
	}
	return nil
}

// gravityFault is a Fault of a glaze's SG, on its line of the plan.
func gravityFault(g Glaze, fix, what string) error {
	fault := faultf(KeyGravity, fix, "glaze %q%s", g.Name, what)
	fault.Line = g.Line
	return fault
}

// inGrams reports whether the plan asks for grams anywhere, so that the SG of
// every glaze is needed: in shares, the size of cups, doses or pours.
func (p *Plan) inGrams() bool {
	return p.Blend.HasSeries() || p.Blend.Basis != Volume || p.Cup.Size.Of != Volume || p.Kit.OnScale()
}

// pourEnds works out each point's shares of the wet glazes that are poured; of a
// series that is poured these take the place of the base.
func pourEnds(t *Test, points []design.Point) (shares [][]float64, err error) {
	b := t.Plan.Blend
	if b.HasSeries() && b.Method == ByPour {
		var slips [][]float64
		slips, shares = corners(b, points)
		t.Ends = nil
		for _, percents := range slips {
			e := cornerEnd(t.Base, percents, b.Series, t.Densities)
			if err := e.takeHave(t.Plan.had(e.Name)); err != nil {
				return nil, err
			}
			t.Ends = append(t.Ends, e)
		}
		return shares, nil
	}
	for _, p := range points {
		if b.HasSeries() {
			p.Shares = []float64{1}
		}
		shares = append(shares, p.Shares)
	}
	return shares, nil
}

// addCell adds a cell, with room for its pours and doses.
func addCell(t *Test, p design.Point, shares []float64) {
	b := t.Plan.Blend
	c := Cell{Number: len(t.Cells) + 1, Row: p.Row, Column: p.Column, Layer: p.Layer, Shares: shares, Repeats: p.Again,
		Pours: make([]Pour, len(t.Ends)), Doses: make([]Dose, len(b.Series))}
	for s := range c.Doses {
		c.Doses[s].Percent = p.Shares[s]
		if b.Kind == Triaxial {
			c.Doses[s].Percent *= b.Series[s].To
		}
	}
	if b.Kind == List {
		at := c.Number
		if at > len(b.Parts) {
			at = p.Again
		}
		whole := 0.0
		for _, x := range b.Parts[at-1] {
			whole += x
		}
		if math.Abs(whole-100) > noiseOff {
			c.Parts = b.Parts[at-1]
		}
	}
	t.Cells = append(t.Cells, c)
	t.Layers, t.Rows, t.Columns = max(t.Layers, p.Layer+1), max(t.Rows, p.Row+1), max(t.Columns, p.Column+1)
}

// in is what there is in a mL of an end, counted in a basis: g of recipe, mL or g
// of wet glaze.
func (e End) in(basis Basis) float64 {
	switch basis {
	case Volume:
		return 1
	case Weight:
		return e.SG
	default:
		return e.RecipePerML
	}
}

// PerShare is what a unit of an end's share brings into a cup: mL of wet glaze,
// and of what the cup's size counts. A series is asked by the base that is in it
// before its colourants.
func (t *Test) PerShare(end int) (ml, cup float64) {
	e, of := t.Ends[end], t.Plan.Cup.Size.Of
	ml = 1 / e.in(t.Plan.Blend.Basis) // of a series: dry
	if t.Plan.Blend.HasSeries() {
		return ml, t.Base.in(of) / t.Base.RecipePerML
	}
	return ml, e.in(of) * ml
}

// pour works out the pours of a cell, exact and in the instrument's steps: each is
// size · share · ml / Σ share · cup of PerShare, so that the cup gets the size that
// is asked.
func (t *Test) pour(c *Cell) {
	kit, whole := t.Plan.Kit, 0.0
	for i := range t.Ends {
		_, cup := t.PerShare(i)
		whole += c.Shares[i] * cup
	}
	exact := make([]float64, len(t.Ends))
	for i, e := range t.Ends {
		ml, _ := t.PerShare(i)
		c.Pours[i].Contents = e.contents(t.Plan.Cup.Size.Value * c.Shares[i] * ml / whole)
		exact[i] = c.Pours[i].Shown(kit)
	}
	if t.Plan.Blend.Method == ByWeigh {
		return
	}
	counts := kit.Pour.Apportion
	if kit.OnScale() {
		counts = kit.Pour.Running
	}
	for i, steps := range counts(exact) {
		t.measure(c, i, kit.Pour.Amount(steps))
	}
	c.read(kit)
}

// contents is ml of an end.
func (e End) contents(ml float64) Contents {
	recipe := ml * e.RecipePerML
	return Contents{RecipeG: recipe, DryG: recipe * (1 + e.Over), G: ml * e.SG, ML: ml, SG: e.SG}
}

// read works out what the scale reads after each pour, where glazes are poured on
// one.
func (c *Cell) read(kit measure.Kit) {
	reading := int64(0)
	for i := range c.Pours {
		if kit.OnScale() {
			reading += c.Pours[i].Steps
		}
		c.Pours[i].Reading = reading
	}
}

// measure makes a cup's pour of an end the amount that is poured, as its instrument
// shows it.
func (t *Test) measure(c *Cell, end int, amount float64) {
	p, e, kit := &c.Pours[end], t.Ends[end], t.Plan.Kit
	p.Got, p.Steps = e.contents(amount/e.perML(kit)), kit.Pour.Count(amount)
	if kit.OnScale() {
		p.Got.G = amount
	}
}

// dose works out the colourants of a cup and what is in it. Their grams are a
// percentage of the recipe in the measured pours, so that of a cup as made only
// the rounding of the dose is left. What comes with end glazes is measured in
// their batches.
func (t *Test) dose(c *Cell) {
	if t.Plan.Blend.Method == ByWeigh {
		t.weighCup(c)
		return
	}
	recipe := t.poured(c, Measured).RecipeG
	for s := range c.Doses {
		d := &c.Doses[s]
		d.G = d.Percent / 100 * recipe
		amount := d.G
		if t.Plan.Blend.Method == ByStock {
			d.Stock = stockFor(t, s, d.G)
			d.ML = d.G / t.Stocks[d.Stock].GPerML
			amount = d.ML
		}
		t.measureDose(d, t.DoseStep().Rounded(amount))
	}
	t.tally(c)
}

// measureDose makes a dose the amount that is measured, in its instrument's unit.
func (t *Test) measureDose(d *Dose, amount float64) {
	if !t.Dosed() {
		return
	}
	d.Steps, d.MeasuredG = t.DoseStep().Count(amount), amount
	if t.Plan.Blend.Method == ByStock {
		d.MeasuredML, d.MeasuredG = amount, amount*t.Stocks[d.Stock].GPerML
	}
}

// tally works out what is in a cup, as asked and as measured.
func (t *Test) tally(c *Cell) {
	c.Contents, c.Got.Contents, c.WaterML = t.poured(c, Asked), t.poured(c, Measured), 0
	for s := range c.Doses {
		d := &c.Doses[s]
		if t.Dosed() {
			asked, water := c.grams(s, Asked), stockWater(t, *d)
			c.WaterML += asked * water
			c.add(asked, asked*water, t.Densities[s])
			c.Got.add(d.MeasuredG, d.MeasuredG*water, t.Densities[s])
		} else {
			d.MeasuredG = 0
			for e, p := range c.Pours {
				d.MeasuredG += p.Got.RecipeG * t.AsWeighed[e].Percents[s] / 100
			}
		}
		d.GotPercent = 0
		if c.Got.RecipeG > 0 {
			d.GotPercent = 100 * d.MeasuredG / c.Got.RecipeG
		}
	}
	c.SG = c.G / c.ML
	if c.Got.ML > 0 {
		c.Got.SG = c.Got.G / c.Got.ML
	}
}

// brings is what a cup's pour of an end brings; of a measured one with additions
// as they are weighed.
func (t *Test) brings(c *Cell, end int, view View) Contents {
	in := c.Pours[end].contents(view)
	if view == Measured {
		in.DryG = in.RecipeG * (1 + t.AsWeighed[end].Over)
	}
	return in
}

// poured is what a cup's pours bring.
func (t *Test) poured(c *Cell, view View) (in Contents) {
	for e := range c.Pours {
		x := t.brings(c, e, view)
		in.RecipeG += x.RecipeG
		in.DryG += x.DryG
		in.G += x.G
		in.ML += x.ML
	}
	return in
}

// add puts a dry addition and water into a cup.
func (c *Contents) add(dry, water, density float64) {
	c.DryG += dry
	c.G += dry + water
	c.ML += dry/density + water
}

// contents is the pour, as asked or as measured.
func (p Pour) contents(view View) Contents {
	if view == Measured {
		return p.Got
	}
	return p.Contents
}

// contents is the whole cup, as asked or as measured.
func (c Cell) contents(view View) Contents {
	if view == Measured {
		return c.Got.Contents
	}
	return c.Contents
}

// grams is what a dose brings, in g: as it is asked over the cup's recipe as
// asked, or as it is measured.
func (c *Cell) grams(s int, view View) float64 {
	if view == Measured {
		return c.Doses[s].MeasuredG
	}
	return c.Doses[s].Percent / 100 * c.RecipeG
}

// WaterTo is the water in mL that brings the cup, as measured, to the specific
// gravity sg; negative means that the cup is too thin already.
func (c Cell) WaterTo(sg float64) float64 { return slip.WaterTo(sg, c.Got.G, c.Got.ML) }

// thinAndThick is the thinnest and the thickest cup as measured. Cups that no
// wet glaze was measured into do not count.
func (t *Test) thinAndThick() (thin, thick Cell) {
	poured := slices.DeleteFunc(slices.Clone(t.Cells), func(c Cell) bool { return !c.Poured() })
	if len(poured) == 0 {
		return thin, thick
	}
	bySG := func(a, b Cell) int { return cmp.Compare(a.Got.SG, b.Got.SG) }
	return slices.MinFunc(poured, bySG), slices.MaxFunc(poured, bySG)
}

// ThinningStep is the instrument that measures water into a cup: the scale when
// glazes are poured on one (1 g is 1 mL), otherwise the syringe.
func (t *Test) ThinningStep() measure.Step {
	if t.Plan.Kit.OnScale() {
		return t.Plan.Kit.Pour
	}
	return t.Plan.Kit.Syringe
}

// ThinningSteps is the water that brings a cup, as measured, to a specific
// gravity, in whole steps of ThinningStep; negative where it is too thin already.
func (t *Test) ThinningSteps(c Cell, sg float64) int64 { return t.ThinningStep().Count(c.WaterTo(sg)) }

// Poured reports whether any wet glaze, or dry glaze of method weigh, was measured
// into the cup.
func (c Cell) Poured() bool {
	some := func(p Pour) bool { return p.Steps > 0 }
	return c.Weighings != nil && c.Got.RecipeG > 0 || slices.ContainsFunc(c.Pours, some)
}
