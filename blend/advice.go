package blend

import (
	"fmt"
	"math"
	"slices"

	"pourboard/blend/measure"
	"pourboard/blend/oxide"
)

// largestCup is the largest cup that advice looks at, in g or mL.
const largestCup = 5000

// CupSize is a size of cup in the unit of the plan's own.
type CupSize struct {
	Amount
	Found  bool    // one up to largestCup is good enough; Value is largestCup otherwise
	BatchG float64 // g of recipe that gives such cups, where the plan shares out a batch
}

// SmallestCup is the smallest size of cup within the plan's limit.
func (t *Test) SmallestCup() CupSize {
	if t.smallest.Value > 0 {
		return t.smallest // found when the test was worked out, as this one is not
	}
	return t.smallestCup()
}

// smallestCup is the smallest convenient size of cup at which every pour and
// dose of the test is good to the plan's Worst. It is found by working the test
// out again, size by size.
func (t *Test) smallestCup() CupSize {
	p := *t.Plan // larger cups need batches of their own
	p.Have, p.Poured, p.Cup.BatchG = nil, nil, 0
	good := func(size Amount) CupSize { return CupSize{size, true, t.batchFor(size.Value)} }
	start, keep, ok := nearSmallest(&p, t.Library)
	if !ok {
		return good(p.Cup.Size) // nothing is shared and nothing dosed
	}
	try := p
	size := &try.Cup.Size.Value
	for *size = measure.Convenient(start); *size <= largestCup; *size = nextConvenient(*size) {
		at, err := compute(&try, t.Library, keep)
		if err == nil && at.worst() <= p.Kit.Worst*(1+hair) {
			return good(try.Cup.Size)
		}
	}
	return CupSize{Amount: Amount{largestCup, p.Cup.Size.Of}}
}

// nearSmallest is a size of cup a little below the smallest that is good
// enough, and the cells that decide it, nil for all. ok is false when nothing
// can be off.
//
// The ± of an instrument is the same however much it measures, so the relative
// one goes down as the cup goes up, but for what rounding to steps moves. In a
// cup so large that rounding does not count, the ± therefore tells at which
// size it would be what is wished, and which cells are near the worst. The
// strength of a stock is made to fit the cup, so there only the pour of the
// base tells, and all cells count; batches are for all cells too.
func nearSmallest(p *Plan, lib oxide.Library) (size float64, keep func(int) bool, ok bool) {
	const large = 1e4
	try := *p
	try.Cup.Size.Value *= large
	switch p.Blend.Method {
	case ByStock:
		withoutDoses(&try)
	case ByPour:
		// What a large batch weighs on the coarse scale, a small one weighs on
		// the finer: no cup can be smaller than with that one alone.
		try.Kit = finest(try.Kit)
	}
	t, err := compute(&try, lib, nil)
	if err != nil || t.worst() == 0 {
		return 0, nil, false
	}
	worst := t.worst()
	size = try.Cup.Size.Value * worst / p.Kit.Worst
	// Rounding moves the difference of two readings by a step at most. As a part
	// of the difference that goes with the ± wished for, k·√2·step/√12 of it.
	rounding := p.Kit.Worst * math.Sqrt(12) / (math.Sqrt2 * measure.Coverage)
	size *= 1 - min(rounding, 0.5)
	if p.Blend.Method == ByStock || p.Blend.Method == ByPour {
		return size, nil, true
	}
	return size, func(i int) bool {
		return t.Cells[i].Got.Worst >= worst*(1-min(2*rounding, 1))
	}, true
}

// withoutDoses makes a plan's doses be weighed without error, so that what is
// left is the pour of the base.
func withoutDoses(p *Plan) {
	p.Blend.Method = ByDose
	p.Kit.Fine = measure.Step{Size: 1e-9, Unit: measure.Gram}
}

func nextConvenient(size float64) float64 {
	return measure.Convenient(size * (1 + 1e-6))
}

// worst is the largest relative ± over all cells, as a fraction.
func (t *Test) worst() float64 { return t.worstCup().Got.Worst }

// Option is one way of measuring the test, judged for the whole of it.
type Option struct {
	Method    Method       // of a series; "" where end glazes are blended
	Pour      measure.Step // what wet glaze is poured by: a jug, or the scale
	Planned   bool         // it is the plan's own
	Worst     float64      // largest relative ± of a share or percentage, as a fraction
	Cell      int          // number of the cell where that is
	Cause     Cause
	Weighings int     // of the series' materials, of the water of stocks, and of pours on a scale
	Smallest  float64 // smallest amount of a colourant to weigh (g) or of stock to pour (mL)
	Unit      measure.Unit
	WaterML   float64 // most water that a cup gets with its stock
	Good      bool    // Worst is within the plan's, and the water is not too much
	Keeps     bool    // Worst is within the plan's
	RoomML    float64 // water that stocks should bring into a cup at most
}

// OnScale reports whether wet glaze is poured onto a scale.
func (o Option) OnScale() bool { return o.Pour.Unit == measure.Gram }

// Advice says how well a test can be measured, and what would be better.
type Advice struct {
	Options     []Option   // the ways of measuring it
	Planned     Option     // the plan's own among them
	Best        Option     // of them: the fewest weighings that are good enough, else what comes nearest
	Lacks       string     // the material that Planned.Cell should have and gets none of, if any
	Moved       Difference // what rounding to whole steps moves most, Cell 0 when nothing
	Smallest    CupSize    // that is good enough
	CoarseScale float64    // g: the coarsest step with which weighing each dose would do, 0 when none
	Dilutions   []Dilution // mixes with dry base that make small doses weighable, were each dose weighed
	Dose        float64    // g: the smallest dose
	DosePercent float64    // of which it is
	DoseOf      string     // material of it
}

// steps of the scales that are about, in g (common practice, no source): below
// a gram they go by tens.
var scaleSteps = [...]float64{5, 2, 1, 0.1, 0.01, 0.001}

// Advise judges the plan and, for a series, each of its methods. The test must
// be that of New for the same plan.
func Advise(t *Test) (a Advice, err error) {
	if a.Options, err = t.options(); err != nil {
		return a, err
	}
	a.Planned = a.Options[slices.IndexFunc(a.Options, func(o Option) bool { return o.Planned })]
	a.Best = recommend(a.Options)
	p := t.Plan
	doses := t.worstCup().Doses
	if s := slices.IndexFunc(doses, Dose.None); s >= 0 {
		a.Lacks = p.Blend.Series[s].Material
	}
	// An amount that rounds to nothing is noted as that.
	moved := t.Differences()
	if i := slices.IndexFunc(moved, func(d Difference) bool { return d.Got > 0 }); i >= 0 {
		a.Moved = moved[i]
	}
	a.Smallest = t.SmallestCup()
	if p.Blend.HasSeries() {
		a.scales(t)
	}
	return a, nil
}

// options are the methods that the plan's kind of blend has, each with the jug
// and with the scale that the person owns.
func (t *Test) options() ([]Option, error) {
	p := t.Plan
	methods := []Method{"", ByWeigh}
	if p.Blend.HasSeries() {
		methods = []Method{ByDose, ByStock, ByPour, ByWeigh}
	}
	kits := []measure.Kit{p.Kit}
	if kit, ok := t.onOwnScale(); ok {
		kits = append(kits, kit)
	}
	var all []Option
	for k, kit := range kits {
		for _, m := range methods {
			planned := k == 0 && p.Blend.Method == m
			o := t
			if !planned {
				if m == ByWeigh && (k > 0 || !p.weighable()) || m == ByStock && kit.Syringe.Size == 0 {
					continue
				}
				try := *p
				try.Blend.Method, try.Kit, try.Poured = m, kit, nil
				var err error
				if o, err = compute(&try, t.Library, nil); err != nil {
					return nil, fmt.Errorf("method %s: %w", m, err)
				}
			}
			option := o.option()
			option.Planned = planned
			all = append(all, option)
		}
	}
	return all, nil
}

// weighable reports whether every cup could be weighed from dry materials: with
// recipes, shares of dry glaze, and no batch that is mixed already or wanted.
func (p *Plan) weighable() bool {
	glazes := p.Blend.Ends
	if p.Blend.HasSeries() {
		glazes = []int{p.Blend.Base}
	} else if p.Blend.Basis != Dry {
		return false
	}
	return p.Have == nil && p.Cup.BatchG == 0 && !slices.ContainsFunc(glazes, func(g int) bool { return len(p.Glazes[g].Recipe) == 0 })
}

// onOwnScale is the plan's kit with its scale in place of the jug; ok is false
// where the plan pours on a scale already, a cup is more than the scale takes,
// or grams of wet glaze would rest on a gravity that nobody has measured.
func (t *Test) onOwnScale() (kit measure.Kit, ok bool) {
	kit = t.Plan.Kit
	if t.Plan.Kit.OnScale() || t.Plan.Blend.Method == ByWeigh || len(t.unmeasured) > 0 || slices.ContainsFunc(t.Ends, func(e End) bool { return e.Bucket }) {
		return kit, false
	}
	for _, c := range t.Cells {
		if kit.Capacity > 0 && c.G > kit.Capacity {
			return kit, false
		}
	}
	kit.Pour, kit.Fill = kit.Scale, 0
	return kit, true
}

// recommend is the option with the fewest weighings among those that are good
// enough; where none is, a stock that keeps the plan's Worst and brings not more
// than twice the water that it should; else the least Worst.
func recommend(options []Option) Option {
	best := options[0]
	for _, o := range options[1:] {
		switch x, y := o.rank(), best.rank(); {
		case x < y, x == y && x < 2 && o.Weighings < best.Weighings, x == y && x == 2 && o.Worst < best.Worst:
			best = o
		}
	}
	return best
}

// Thins reports whether a method brings in so much water that the coat gets
// thinner.
func (o Option) Thins() bool { return o.WaterML > o.RoomML*(1+hair) }

// rank orders options by what is against them.
func (o Option) rank() int {
	switch {
	case o.Good:
		return 0
	case o.Keeps && o.WaterML <= 2*o.RoomML:
		return 1
	case o.WaterML > 2*o.RoomML:
		return 3
	}
	return 2
}

// option judges a test by the method of its plan.
func (t *Test) option() Option {
	worst := t.worstCup()
	o := Option{
		Method: t.Plan.Blend.Method, Pour: t.Plan.Kit.Pour, Worst: worst.Got.Worst, Cell: worst.Number, Cause: worst.Got.Cause,
		Keeps: worst.Got.Worst <= t.Plan.Kit.Worst*(1+hair), Unit: measure.Gram, RoomML: t.mostWater(),
	}
	amounts := slices.DeleteFunc(t.measuredAmounts(), func(x float64) bool { return x == 0 })
	if len(amounts) > 0 {
		o.Smallest = slices.Min(amounts)
	}
	o.Weighings = len(amounts)
	if o.Method == ByStock {
		o.Unit, o.Weighings = measure.Millilitre, 0
		for _, s := range t.Stocks {
			if s.G > 0 {
				o.Weighings += 2 // the colourant and its water
			}
		}
	}
	for _, c := range t.Cells {
		o.WaterML = max(o.WaterML, c.WaterML)
		for _, pour := range c.Pours {
			if o.OnScale() && pour.Steps > 0 {
				o.Weighings++
			}
		}
	}
	o.Good = o.Keeps && !o.Thins()
	return o
}

// measuredAmounts is what the method measures beside the pours: g of materials,
// or mL of stocks.
func (t *Test) measuredAmounts() (amounts []float64) {
	for _, c := range t.Cells {
		for _, w := range c.Weighings {
			amounts = append(amounts, w.G)
		}
		for _, d := range c.Doses {
			switch t.Plan.Blend.Method {
			case ByDose:
				amounts = append(amounts, d.G)
			case ByStock:
				amounts = append(amounts, d.ML)
			}
		}
	}
	if t.Plan.Blend.Method == ByPour {
		for i, e := range t.Ends {
			for _, p := range e.Percents {
				amounts = append(amounts, t.Batches[i].RecipeG*p/100)
			}
		}
	}
	return amounts
}

// scales works out what would make plain weighing of each dose good enough.
func (a *Advice) scales(t *Test) {
	p := t.Plan
	a.Dose = math.Inf(1)
	for _, c := range t.Cells {
		for s, d := range c.Doses {
			if d.Percent > 0 && d.G < a.Dose {
				a.Dose, a.DosePercent, a.DoseOf = d.G, d.Percent, p.Blend.Series[s].Material
			}
		}
	}
	if math.IsInf(a.Dose, 1) {
		a.Dose = 0
		return
	}
	// Only the small doses decide: those half as large again are far from it.
	small := func(i int) bool {
		return slices.ContainsFunc(t.Cells[i].Doses, func(d Dose) bool { return d.Percent > 0 && d.G <= 1.5*a.Dose })
	}
	for _, step := range scaleSteps {
		try := *p
		try.Blend.Method, try.Poured = ByDose, nil
		try.Kit.Fine = measure.Step{Size: step, Unit: measure.Gram}
		if o, err := compute(&try, t.Library, small); err == nil && o.worst() <= p.Kit.Worst*(1+hair) {
			a.CoarseScale = step
			break
		}
	}
	a.Dilutions = t.Dilutions
	if p.Blend.Method != ByDose {
		try := *p
		try.Blend.Method, try.Poured = ByDose, nil
		if o, err := compute(&try, t.Library, nil); err == nil {
			a.Dilutions = o.dilutions()
		}
	}
}
