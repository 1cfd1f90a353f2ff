package blend

import (
	"math"
	"slices"

	"pourboard/blend/measure"
)

// takeNotes gathers what the maker should know, in the order of the work.
func (t *Test) takeNotes() {
	if n, ok := t.Assumed(); ok {
		t.note(n)
	}
	t.noteAnalyses()
	t.noteBounds()
	b := t.Plan.Blend
	if t.Plan.Kit.Fill > 0 && (!b.HasSeries() || b.Method == ByPour) {
		t.note(FillUnused{})
	}
	t.noteUnusual()
	t.noteLoads()
	t.noteCapacity()
	for i := range t.Ends {
		if n, ok := t.CoarseScale(i); ok {
			t.note(n)
		}
	}
	t.noteLostPours()
	for s := range b.Series {
		if n, ok := t.skippedDoses(s); ok {
			t.note(n)
		}
	}
	t.noteIdentical()
	t.noteSameRecipe()
	t.noteLargeStocks()
	t.noteOverLimit()
	t.noteStockWater()
	t.noteInseparable()
	if n, ok := t.shallow(); ok {
		t.note(n)
	}
	t.noteRunsShort()
	t.noteUneven()
}

func (t *Test) note(n Note) { t.Notes = append(t.Notes, n) }

// noteAnalyses is about analyses that do not add up, of materials in use.
func (t *Test) noteAnalyses() {
	for _, name := range t.Materials() {
		m, ok := t.Library.Find(name)
		if ok && !m.Analysis.Empty() && !m.Analysis.AddsUp() {
			t.note(OddAnalysis{name, m.Analysis.Total(), m.Analysis.NoLOI})
		}
	}
}

// Assumed names the glazes whose gravity is assumed; ok is false when all have
// one.
func (t *Test) Assumed() (n NoGravity, ok bool) {
	for _, e := range t.unmeasured {
		n.Glazes = append(n.Glazes, e.Name)
		n.DryPerML = e.DryPerML
	}
	return n, n.Glazes != nil
}

// noteBounds is about the steps of a lattice that do not end at an upper bound.
func (t *Test) noteBounds() {
	b := t.Plan.Blend
	bounds := b.Design().Tightened()
	if bounds == nil || b.Interior || b.Divisions == 0 {
		return
	}
	room := 1.0
	for _, bound := range bounds {
		room -= bound.Lo
	}
	n := BoundsMissed{Step: room / float64(b.Divisions)}
	for i, bound := range bounds {
		most := 0.0
		for _, c := range t.Cells {
			most = max(most, c.Shares[i])
		}
		if hi := min(bound.Hi, bound.Lo+room); most < hi-hair {
			n.Ends = append(n.Ends, BoundMissed{t.Ends[i].Name, most, hi})
		}
	}
	if n.Ends != nil {
		n.Divisions = b.reaching(bounds, room)
		t.note(n)
	}
}

// reaching is how many divisions have a step on every upper bound, 0 when no
// number up to four times as many has.
func (b Blend) reaching(bounds []Bound, room float64) int {
	most := 4 * b.Divisions
	for n := b.Divisions + 1; n <= most; n++ {
		on := true
		for _, bound := range bounds {
			steps := (min(bound.Hi, bound.Lo+room) - bound.Lo) / room * float64(n)
			on = on && math.Abs(steps-math.Round(steps)) < 1e-6
		}
		if b.Divisions = n; on && b.Count() <= MaxCells {
			return n
		}
	}
	return 0
}

// noteLoads is about batches far beyond what the scale takes.
func (t *Test) noteLoads() {
	kit := t.Plan.Kit
	for i, b := range t.Batches {
		if b.Mixed {
			continue
		}
		if loads := b.loads(t.Ends[i], kit); loads > MostLoads {
			t.note(ManyLoads{
				Glaze: b.Glaze, DryG: b.DryG, Loads: loads, CapacityG: kit.Capacity,
				NeedG: measure.Convenient(b.DryG * max(1, t.Ends[i].WaterPerG) / MostLoads),
			})
		}
	}
}

// noteCapacity is about what is poured onto the scale, or weighed into a cup on
// it with the water, that is more than it takes.
func (t *Test) noteCapacity() {
	kit, weighed := t.Plan.Kit, t.Plan.Blend.Method == ByWeigh
	if !t.Plan.Kit.OnScale() && !weighed || kit.Capacity == 0 {
		return
	}
	n := OverCapacity{Step: kit.Pour, CapacityG: kit.Capacity}
	if weighed {
		n.Step = kit.Dosing()
	}
	for _, c := range t.Cells {
		g := 0.0
		if weighed {
			g = c.Got.G
		} else {
			for _, p := range c.Pours {
				g += kit.Pour.Amount(p.Steps)
			}
		}
		if g > kit.Capacity {
			n.Cups = append(n.Cups, c.Number)
			n.MostG = max(n.MostG, g)
		}
	}
	if n.Cups != nil {
		t.note(n)
	}
}

// CoarseScale says which materials of the batch of end i cannot be weighed to
// the plan's limit, on the plan's own finer scale if there is one; ok is false
// when all can, or the batch is there already.
func (t *Test) CoarseScale(i int) (n CoarseScale, ok bool) {
	kit, b, e := finest(t.Plan.Kit), t.Batches[i], t.Ends[i]
	if b.DryG == 0 || b.Mixed {
		return n, false
	}
	n = CoarseScale{Glaze: b.Glaze, Scale: kit.Scale}
	per := b.RecipeG / 100
	for _, p := range slices.Concat(e.Recipe, e.Additions) {
		if g := p.Percent * per; coarse(g, kit) {
			n.Materials = append(n.Materials, CoarseMaterial{p.Material, g, finer(g, kit)})
		}
	}
	return n, n.Materials != nil
}

// noteLostPours is about pours that are asked and round to nothing.
func (t *Test) noteLostPours() {
	if t.Plan.Blend.Method == ByWeigh {
		return
	}
	n := LostPours{Step: t.Plan.Kit.Pour, Enough: t.smallest}
	for _, c := range t.Cells {
		if slices.ContainsFunc(c.Pours, func(p Pour) bool { return p.ML > 0 && p.Steps == 0 }) {
			n.Cups = append(n.Cups, c.Number)
		}
	}
	if n.Cups != nil {
		t.note(n)
	}
}

// noteIdentical is about the cups that are made alike, but for those that differ
// only in what is not dosed: SkippedDoses has them.
func (t *Test) noteIdentical() {
	var n Identical
	for _, group := range t.IdenticalCups() {
		group = slices.DeleteFunc(group, func(n int) bool { return slices.ContainsFunc(t.Cells[n-1].Doses, Dose.None) })
		if len(group) > 1 {
			n.Groups = append(n.Groups, group)
		}
	}
	if n.Groups != nil {
		t.note(n)
	}
}

// noteSameRecipe is about two ends of a blend with one recipe.
func (t *Test) noteSameRecipe() {
	if t.Plan.Blend.HasSeries() {
		return
	}
	for i, a := range t.Ends {
		for _, b := range t.Ends[:i] {
			if len(a.Recipe) > 0 && sameParts(a.Recipe, b.Recipe) && sameParts(a.Additions, b.Additions) {
				t.note(SameRecipe{b.Name, a.Name})
			}
		}
	}
}

// sameParts reports whether two lists are of the same materials in the same
// amounts, in whatever order.
func sameParts(x, y []Part) bool {
	return len(x) == len(y) && !slices.ContainsFunc(x, func(p Part) bool {
		return !slices.ContainsFunc(y, func(q Part) bool { return p.Material == q.Material && math.Abs(p.Percent-q.Percent) < 1e-9 })
	})
}

// noteLargeStocks is about stocks of which much more is made than is poured.
func (t *Test) noteLargeStocks() {
	n := LargeStocks{Scale: t.Plan.Kit.Dosing()}
	for _, s := range t.Stocks {
		if s.NeedML > 0 && s.ML > mostMade*s.NeedML {
			n.Stocks = append(n.Stocks, s)
		}
	}
	if n.Stocks != nil {
		t.note(n)
	}
}

// noteOverLimit is about the cups that can be further off than the plan's limit.
func (t *Test) noteOverLimit() {
	worst := t.worstCup()
	n := OverLimit{
		Limit: t.Plan.Kit.Worst, Worst: worst.Number, PlusMinus: worst.Got.Worst, Cause: worst.Got.Cause, Enough: t.smallest,
	}
	for _, c := range t.Cells {
		if c.Got.Worst > t.Plan.Kit.Worst*(1+hair) {
			n.Cups = append(n.Cups, c.Number)
		}
	}
	if n.Cups != nil {
		t.note(n)
	}
}

// noteStockWater is about stocks that thin a cup too much.
func (t *Test) noteStockWater() {
	if len(t.Stocks) == 0 {
		return
	}
	worst := 0
	for i, c := range t.Cells {
		if c.WaterML > t.Cells[worst].WaterML {
			worst = i
		}
	}
	if c := t.Cells[worst]; c.WaterML > t.mostWater()*(1+hair) {
		t.note(StockWater{c.Number, c.WaterML, t.mostWater(), c.Got.SG, t.Plan.Kit.Syringe})
	}
}

// noteInseparable is about neighbours that the measuring cannot tell apart, but
// for those that are made alike: Identical has them.
func (t *Test) noteInseparable() {
	twins := t.twins()
	pairs := slices.DeleteFunc(t.Indistinguishable(), func(p [2]int) bool {
		return twins[p[0]-1] != 0 && t.sign(&t.Cells[p[0]-1], Measured) == t.sign(&t.Cells[p[1]-1], Measured)
	})
	if len(pairs) > 0 {
		t.note(Inseparable{pairs})
	}
}
