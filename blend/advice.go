package blend

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"pourboard/blend/design"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
)

// LargestCup is the largest cup that advice and the pour workbook look at, in g or mL.
const LargestCup = 5000

// CupSize is a size of cup in the unit of the plan's own.
type CupSize struct {
	Amount
	Found  bool    // one up to LargestCup is good enough; Value is LargestCup otherwise
	BatchG float64 // g of recipe that gives such cups, where the plan shares out a batch
}

// smallestCup is the smallest convenient size of cup at which every pour and dose
// of the test is good to the plan's Worst. It is found by working the test out
// again, size by size.
func smallestCup(t *Test) CupSize {
	p := *t.Plan // larger cups need batches of their own
	p.Have, p.Poured, p.Cup.BatchG = nil, nil, 0
	size, deciding := nearSmallest(p, t.Library)
	if size == 0 { // nothing is shared and nothing dosed
		return CupSize{p.Cup.Size, true, batchFor(t, p.Cup.Size.Value)}
	}
	for ; size <= LargestCup; size = nextConvenient(size) {
		p.Cup.Size.Value = size
		at, err := computeAt(&p, t.Library, deciding)
		if err == nil && at.keepsLimit() {
			return CupSize{p.Cup.Size, true, batchFor(t, size)}
		}
	}
	return CupSize{Amount: Amount{LargestCup, p.Cup.Size.Of}}
}

// nearSmallest is a convenient size of cup a little below the smallest that is
// good enough, 0 when nothing can be off, and the cells that decide the smallest.
//
// The ± of an instrument is the same however much it measures, so the relative
// one goes down as the cup goes up, but for what rounding to steps moves. In a
// cup so large that rounding does not count, the ± therefore tells at which
// size it would meet the limit, and which cells are near the worst. The strength
// of a stock is made to fit the cup, so there only the pour of the base tells, and
// all cells count; batches are for all cells too.
func nearSmallest(p Plan, lib oxide.Library) (size float64, deciding []design.Point) {
	p.Cup.Size.Value *= 1e4
	// Rounding moves the difference of two readings by a step at most. As a part
	// of the difference that goes with the limit, k·√2·step/√12 of it.
	rounding := p.Kit.Worst * math.Sqrt(12) / (math.Sqrt2 * measure.Coverage)
	least := 1 - min(2*rounding, 1)
	switch p.Blend.Method {
	case ByStock: // doses that are weighed without error leave the pour
		p.Blend.Method = ByDose
		p.Kit.Fine, least = measure.Step{Size: 1e-9, Unit: measure.Gram}, 0
	case ByPour:
		// What a large batch weighs on the coarse scale, a small one weighs on
		// the finer: no cup can be smaller than with that one alone.
		p.Kit, least = finest(p.Kit), 0
	}
	t, err := compute(&p, lib)
	if err != nil {
		return 0, nil
	}
	worst := t.worst()
	for i, c := range t.Cells {
		if c.Got.Worst >= worst*least {
			deciding = append(deciding, t.points[i])
		}
	}
	return measure.Convenient(p.Cup.Size.Value * worst / p.Kit.Worst * (1 - min(rounding, 0.5))), deciding
}

func nextConvenient(size float64) float64 {
	return measure.Convenient(size * (1 + 1e-6))
}

// worst is the largest relative ± over all cells, as a fraction.
func (t *Test) worst() float64 { return t.worstCup().Got.Worst }

// keepsLimit reports whether every cup is as good as the plan wants.
func (t *Test) keepsLimit() bool { return t.worst() <= t.Plan.Kit.Worst*(1+hair) }

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
	NeedsSG     bool       // pouring on the scale is not among Options: the SG of a glaze is unknown
	CoarseScale float64    // g: the coarsest step with which weighing each dose would do, 0 when none
	Dilutions   []Dilution // mixes with dry base that make small doses weighable, were each dose weighed
	Dose        float64    // g: the smallest dose
	DosePercent float64    // what it is in percent
	DoseOf      string     // its material
}

// scaleSteps are the steps of scales that can be bought, in g (common practice, no
// source): below a gram they go by tens.
var scaleSteps = [...]float64{5, 2, 1, 0.1, 0.01, 0.001}

// Advise judges the plan and, for a series, each of its methods. The test must
// be that of New for the same plan.
func Advise(t *Test) (a Advice, err error) {
	if a.Options, err = optionsOf(t); err != nil {
		return a, err
	}
	a.Planned = a.Options[slices.IndexFunc(a.Options, func(o Option) bool { return o.Planned })]
	a.Best = slices.MinFunc(a.Options, Option.compare)
	if s := slices.IndexFunc(t.worstCup().Doses, Dose.None); s >= 0 {
		a.Lacks = t.Plan.Blend.Series[s].Material
	}
	// An amount that rounds to nothing is noted as that.
	moved := t.Differences()
	if i := slices.IndexFunc(moved, func(d Difference) bool { return d.Got > 0 }); i >= 0 {
		a.Moved = moved[i]
	}
	a.Smallest, a.NeedsSG = t.Smallest, !t.Plan.Kit.OnScale() && t.assumesSG()
	if t.Plan.Blend.HasSeries() {
		a.scales(t)
	}
	return a, nil
}

// optionsOf are the methods that the plan's kind of blend has, each with the jug
// and with the scale that the person owns.
func optionsOf(t *Test) (all []Option, err error) {
	p := t.Plan
	methods := []Method{"", ByWeigh}
	if p.Blend.HasSeries() {
		methods = []Method{ByDose, ByStock, ByPour, ByWeigh}
	}
	kits := []measure.Kit{p.Kit}
	if kit, ok := onOwnScale(t); ok {
		kits = append(kits, kit)
	}
	for k, kit := range kits {
		for _, m := range methods {
			at, planned := t, k == 0 && p.Blend.Method == m
			if !planned {
				if m == ByWeigh && (k > 0 || !p.weighable()) || m == ByStock && kit.Syringe.Size == 0 {
					continue
				}
				at, err = t.with(func(p *Plan) { p.Blend.Method, p.Kit, p.Poured = m, kit, nil })
				if err != nil {
					return nil, fmt.Errorf("method %s: %w", m, err)
				}
			}
			all = append(all, judge(at, planned))
		}
	}
	return all, nil
}

// weighable reports whether every cup could be weighed from dry materials: with
// recipes, shares of dry glaze, and no batch that is mixed already or wanted.
func (p *Plan) weighable() bool {
	bought := slices.ContainsFunc(p.Blend.Glazes(), func(g int) bool { return len(p.Glazes[g].Recipe) == 0 })
	return !bought && p.Have == nil && p.Cup.BatchG == 0 && (p.Blend.HasSeries() || p.Blend.Basis == Dry)
}

// onOwnScale is the plan's kit with its scale in place of the jug; ok is false
// where the plan pours on a scale already, a cup is more than the scale takes,
// or grams of wet glaze would rest on a gravity that nobody has measured.
func onOwnScale(t *Test) (kit measure.Kit, ok bool) {
	kit = t.Plan.Kit
	heavy := kit.Capacity > 0 && t.most(func(c Cell) float64 { return c.G }).G > kit.Capacity
	if kit.OnScale() || t.Plan.Blend.Method == ByWeigh || t.assumesSG() || heavy {
		return kit, false
	}
	kit.Pour, kit.Fill = kit.Scale, 0
	return kit, true
}

// assumesSG reports whether the gravity of a glaze is unknown, so that grams of it
// rest on an assumption.
func (t *Test) assumesSG() bool {
	return len(t.unmeasured) > 0 || slices.ContainsFunc(t.Ends, func(e End) bool { return e.Assumed })
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

// compare is below 0 where an option is to be preferred: the one with the fewest
// weighings among those that are good enough; where none is, a stock that keeps
// the plan's Worst and brings not more than twice the water that it should; else
// the least Worst.
func (o Option) compare(other Option) int {
	if o.rank() != other.rank() || o.rank() > 1 {
		return cmp.Or(cmp.Compare(o.rank(), other.rank()), cmp.Compare(o.Worst, other.Worst))
	}
	return cmp.Compare(o.Weighings, other.Weighings)
}

// judge returns the way in which a test is measured, with how good it is.
func judge(t *Test, planned bool) Option {
	worst, p := t.worstCup(), t.Plan
	o := Option{
		Method: p.Blend.Method, Pour: p.Kit.Pour, Planned: planned,
		Worst: worst.Got.Worst, Cell: worst.Number, Cause: worst.Got.Cause,
		Keeps: t.keepsLimit(), Unit: t.DoseUnit(), RoomML: t.mostWater(),
		WaterML: t.most(func(c Cell) float64 { return c.WaterML }).WaterML,
	}
	o.Good = o.Keeps && !o.Thins()
	if amounts := measuredAmounts(t); len(amounts) > 0 {
		o.Smallest = slices.Min(amounts)
		if o.Method != ByStock {
			o.Weighings = len(amounts)
		}
	}
	for _, c := range t.Cells {
		for _, pour := range c.Pours {
			if o.OnScale() && pour.Steps > 0 {
				o.Weighings++
			}
		}
	}
	for _, s := range t.Stocks {
		if s.G > 0 {
			o.Weighings += 2 // the colourant and its water
		}
	}
	return o
}

// measuredAmounts is what the method measures beside the pours: g of materials, or
// mL of stocks.
func measuredAmounts(t *Test) (all []float64) {
	for _, c := range t.Cells {
		for _, w := range c.Weighings {
			all = append(all, w.G)
		}
		for _, d := range c.Doses {
			if t.Plan.Blend.Method == ByStock {
				all = append(all, d.ML)
			} else if t.Dosed() {
				all = append(all, d.G)
			}
		}
	}
	for i, e := range t.Ends {
		for _, percent := range e.Percents {
			all = append(all, t.Batches[i].RecipeG*percent/100)
		}
	}
	return slices.DeleteFunc(all, func(x float64) bool { return x == 0 })
}

// scales works out what would make plain weighing of each dose good enough.
func (a *Advice) scales(t *Test) {
	p := t.Plan
	for _, c := range t.Cells {
		for s, d := range c.Doses {
			if d.Percent > 0 && (a.Dose == 0 || d.G < a.Dose) {
				a.Dose, a.DosePercent, a.DoseOf = d.G, d.Percent, p.Blend.Series[s].Material
			}
		}
	}
	if a.Dose == 0 {
		return
	}
	byDose := func(fine measure.Step) (*Test, error) {
		return t.with(func(p *Plan) { p.Blend.Method, p.Poured, p.Kit.Fine = ByDose, nil, fine })
	}
	a.Dilutions = t.Dilutions
	if o, err := byDose(p.Kit.Fine); err == nil && p.Blend.Method != ByDose {
		a.Dilutions = findDilutions(o)
	}
	for _, step := range scaleSteps {
		if o, err := byDose(measure.Step{Size: step, Unit: measure.Gram}); err == nil && o.keepsLimit() {
			a.CoarseScale = step
			break
		}
	}
}
