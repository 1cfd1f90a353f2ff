package blend

import (
	"fmt"
	"math"

	"pourboard/blend/measure"
	"pourboard/blend/oxide"
)

// largestCup is the largest cup that advice looks at, in g or mL.
const largestCup = 5000

// SmallestCup is the smallest convenient cup size, in the unit of the plan's
// own, at which every pour and dose of the test is good to the plan's Worst.
// It is found by working the whole test out again; ok is false when no cup up
// to 5000 does.
func SmallestCup(p *Plan) (size float64, ok bool) {
	lib := oxide.Builtin().With(p.Materials...)
	good := func(size float64) bool {
		try := *p
		try.Cup.Size = size
		t, err := compute(&try, lib)
		return err == nil && t.worst() <= p.Kit.Worst*(1+1e-9)
	}
	t, err := compute(p, lib)
	if err != nil {
		return 0, false
	}
	// An instrument's ± is the same however large the cup, so a cup's relative
	// one goes down as its size goes up; rounding to steps moves it a little.
	size = measure.Convenient(p.Cup.Size * t.worst() / p.Kit.Worst)
	if size == 0 { // nothing is shared and nothing dosed: any cup is good
		return p.Cup.Size, true
	}
	for !good(size) {
		if size > largestCup {
			return 0, false
		}
		size = nextConvenient(size)
	}
	return size, size <= largestCup
}

func nextConvenient(size float64) float64 {
	return measure.Convenient(size * (1 + 1e-6))
}

// worst is the largest relative ± over all cells, as a fraction.
func (t *Test) worst() float64 { return t.Cells[t.WorstCell()].Got.Worst }

// Option is one method of a series, judged for the whole test.
type Option struct {
	Method    Method
	Worst     float64 // largest relative ± of a percentage, as a fraction
	Cell      int     // number of the cell where that is
	Cause     string
	Weighings int     // of the series' materials, and of the water of stocks
	Smallest  float64 // smallest amount of a colourant to weigh (g) or of stock to pour (mL)
	Unit      measure.Unit
	WaterML   float64 // most water that a cup gets with its stock
	Good      bool    // Worst is within the plan's, and the water is not too much

	drowns bool // stocks bring more water than MostWater
}

// Advice says how well a test can be measured, and what would be better.
type Advice struct {
	Worst       float64 // of the plan as it is
	Cell        int     // where, by number
	Cause       string
	Options     []Option // series only, by method
	Recommended Method   // series only: the fewest weighings that are good enough, else the least Worst
	SmallestCup float64  // in the unit of the plan's cup, 0 when none will do
	CoarseScale float64  // g: the coarsest step with which weighing each dose would do, 0 when none
	Dilution    int      // parts of the triturate to one of colourant that make the smallest dose weighable, 0 when it is already or none will
	Dose        float64  // g: the smallest dose
	DosePercent float64  // of which it is
	DoseOf      string   // material of it
}

// steps of scales that can be bought, in g.
var scaleSteps = [...]float64{1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001}

// dilutions of a colourant in dry base: one part in so many.
var dilutions = [...]int{2, 5, 10, 20, 50, 100}

// Advise judges the plan and, for a series, each of its methods. The test must
// be that of New for the same plan.
func Advise(t *Test) (Advice, error) {
	p := t.Plan
	worst := t.Cells[t.WorstCell()]
	a := Advice{Worst: worst.Got.Worst, Cell: worst.Number, Cause: worst.Got.Cause}
	if size, ok := SmallestCup(p); ok {
		a.SmallestCup = size
	}
	if !p.Blend.HasSeries() {
		return a, nil
	}
	lib := oxide.Builtin().With(p.Materials...)
	for _, m := range []Method{ByDose, ByStock, ByPour} {
		o := t
		if p.Blend.Method != m {
			try := *p
			try.Blend.Method = m
			var err error
			if o, err = compute(&try, lib); err != nil {
				return a, fmt.Errorf("method %s: %w", m, err)
			}
		}
		a.Options = append(a.Options, o.option())
	}
	a.Recommended = recommend(a.Options)
	a.scales(t, lib)
	return a, nil
}

// recommend takes the fewest weighings among the methods that are good enough,
// or the least Worst when none is. Weighing each dose stands for stocks that
// drown the glaze.
func recommend(options []Option) Method {
	best := options[0]
	for _, o := range options[1:] {
		switch {
		case o.Good != best.Good:
			if o.Good {
				best = o
			}
		case o.Good && o.Weighings < best.Weighings, !o.Good && o.Worst < best.Worst && !o.drowns:
			best = o
		}
	}
	return best.Method
}

// option judges a test by the method of its plan.
func (t *Test) option() Option {
	worst := t.Cells[t.WorstCell()]
	o := Option{
		Method: t.Plan.Blend.Method, Worst: worst.Got.Worst, Cell: worst.Number, Cause: worst.Got.Cause,
		Good: worst.Got.Worst <= t.Plan.Kit.Worst*(1+1e-9), Smallest: math.Inf(1), Unit: measure.Gram,
	}
	if o.Method == ByStock {
		o.Unit = measure.Millilitre
	}
	smaller := func(x float64) {
		if x > 0 {
			o.Smallest = min(o.Smallest, x)
		}
	}
	for _, c := range t.Cells {
		o.WaterML = max(o.WaterML, c.WaterML)
		for _, d := range c.Doses {
			switch {
			case o.Method == ByDose && d.Percent > 0:
				o.Weighings++
				smaller(d.G)
			case o.Method == ByStock:
				smaller(d.ML)
			}
		}
	}
	switch o.Method {
	case ByStock:
		for _, s := range t.Stocks {
			if s.G > 0 {
				o.Weighings += 2
			}
		}
	case ByPour:
		for i, e := range t.Ends {
			for _, p := range e.Percents {
				if g := t.Batches[i].DryG / e.perBase() * p / 100; g > 0 {
					o.Weighings++
					smaller(g)
				}
			}
		}
	}
	if math.IsInf(o.Smallest, 1) {
		o.Smallest = 0
	}
	o.drowns = o.Method == ByStock && o.WaterML > t.mostWater()
	o.Good = o.Good && !o.drowns
	return o
}

// scales works out what would make plain weighing of each dose good enough.
func (a *Advice) scales(t *Test, lib oxide.Library) {
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
	for _, step := range scaleSteps {
		try := *p
		try.Blend.Method = ByDose
		try.Kit.Fine = measure.Step{Size: step, Unit: measure.Gram}
		if o, err := compute(&try, lib); err == nil && o.worst() <= p.Kit.Worst*(1+1e-9) {
			a.CoarseScale = step
			break
		}
	}
	weighable := measure.Smallest(p.Kit.Dosing().Tared(), p.Kit.Worst)
	if a.Dose >= weighable {
		return
	}
	for _, parts := range dilutions {
		if a.Dose*float64(parts) >= weighable {
			a.Dilution = parts
			break
		}
	}
}
