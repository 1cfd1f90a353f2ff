package blend

import (
	"cmp"
	"slices"
)

// takeNotes gathers what the maker should know, in the order of the work.
func takeNotes(t *Test) {
	for _, find := range []func(*Test){
		noteMaterials, noteBounds, noteUnusual, noteCapacity, noteCoarseScale, noteLostPours, noteAlike,
		noteLargeStocks, noteOverLimit, noteStockWater, noteInseparable, noteDips, noteUneven,
	} {
		find(t)
	}
}

// note adds a note, if there is something to say.
func (t *Test) note(n Note, is bool) {
	if is {
		t.Notes = append(t.Notes, n)
	}
}

// NotesOf returns the notes of one type in a test, in their order.
func NotesOf[N Note](t *Test) (all []N) {
	for _, note := range t.Notes {
		if n, is := note.(N); is {
			all = append(all, n)
		}
	}
	return all
}

// cups are the numbers of the cups of which something is true, nil for none.
func (t *Test) cups(is func(c Cell) bool) (numbers []int) {
	for _, c := range t.Cells {
		if is(c) {
			numbers = append(numbers, c.Number)
		}
	}
	return numbers
}

// sum adds up an amount over all cups.
func (t *Test) sum(of func(c Cell) float64) (sum float64) {
	for _, c := range t.Cells {
		sum += of(c)
	}
	return sum
}

// most returns the cup with the most of something, the first of several.
func (t *Test) most(of func(c Cell) float64) Cell {
	return slices.MaxFunc(t.Cells, func(a, b Cell) int { return cmp.Compare(of(a), of(b)) })
}

// noteMaterials is about glazes without a gravity, and materials in use whose
// analyses do not add up.
func noteMaterials(t *Test) {
	var n NoGravity
	for _, e := range t.unmeasured {
		n.Glazes, n.DryPerML = append(n.Glazes, e.Name), e.DryPerML
	}
	t.note(n, n.Glazes != nil)
	for _, name := range t.Materials() {
		m, ok := t.Library.Find(name)
		t.note(OddAnalysis{name, m.Analysis.Total(), m.Analysis.NoLOI}, ok && !m.Analysis.Empty() && !m.Analysis.AddsUp())
	}
}

// noteBounds is about the steps of a lattice that do not end at an upper bound.
func noteBounds(t *Test) {
	b := t.Plan.Blend
	bounds := b.Tightened()
	if bounds == nil || b.Interior || b.Divisions == 0 {
		return
	}
	room := 1.0
	for _, bound := range bounds {
		room -= bound.Lo
	}
	for i, bound := range bounds {
		most := t.most(func(c Cell) float64 { return c.Shares[i] }).Shares[i]
		high := min(bound.Hi, bound.Lo+room)
		t.note(BoundMissed{t.Ends[i].Name, most, high, room / float64(b.Divisions)}, most < high-hair)
	}
}

// mostUnlisted is the percentage above which a material that nothing is known of
// is a lot of a colourant: more than the usual figure of any that is listed
// (common practice, no source).
const mostUnlisted = 20

// noteUnusual is about a fill by eye that the plan does not use, and about
// colourants of which there is more than is usual. Where the percentage divided
// by the number of cups would be a usual one, the dose of the whole batch may
// have been taken for that of one cup.
func noteUnusual(t *Test) {
	t.note(FillUnused{}, t.Plan.Kit.Fill > 0 && !t.Plan.oneBase())
	cups := float64(len(t.Cells))
	check := func(material, glaze string, percent float64) {
		usual, ok := t.Library.Usual(material)
		if _, listed := t.Library.Find(material); !ok && !listed && glaze == "" {
			usual.High, ok = mostUnlisted, true
		}
		each := percent / cups
		batch := cups > 1 && usual.Low > 0 && each >= usual.Low && each <= usual.High
		t.note(Unusual{material, glaze, percent, usual, len(t.Cells), batch}, ok && percent > usual.High)
	}
	for i, s := range t.Plan.Blend.Series {
		check(s.Material, "", t.most(func(c Cell) float64 { return c.Doses[i].Percent }).Doses[i].Percent)
	}
	if t.Plan.Blend.HasSeries() {
		return
	}
	for _, e := range t.Ends {
		for _, p := range e.Additions {
			check(p.Material, e.Name, p.Percent)
		}
	}
}

// noteCapacity is about batches far beyond what the scale takes, and cups on it
// with more glaze than it takes: poured, or weighed dry with the water.
func noteCapacity(t *Test) {
	kit, weighed := t.Plan.Kit, t.Plan.Blend.Method == ByWeigh
	for i, b := range t.Batches {
		many := kit.Capacity > 0 && b.heavierG(t.Ends[i]) > MostLoads*kit.Capacity
		t.note(ManyLoads{b.Glaze, b.DryG, kit.Capacity}, many && !b.Mixed)
	}
	if !kit.OnScale() && !weighed || kit.Capacity == 0 {
		return
	}
	n := OverCapacity{Step: kit.Pour, CapacityG: kit.Capacity}
	if weighed {
		n.Step = kit.Dosing()
	}
	for _, c := range t.Cells {
		g := c.Got.G
		if !weighed {
			g = t.poured(&c, Measured).G
		}
		if steps := n.Step.Count(g); n.Step.Amount(steps) > kit.Capacity {
			n.Cups = append(n.Cups, c.Number)
			n.MostG = max(n.MostG, n.Step.Amount(steps))
		}
	}
	t.note(n, n.Cups != nil)
}

// noteCoarseScale is about the materials of batches that cannot be weighed to
// the plan's limit, on the plan's own finer scale if there is one. What is there
// already is not weighed.
func noteCoarseScale(t *Test) {
	kit := finest(t.Plan.Kit)
	for i, b := range t.Batches {
		n := CoarseScale{Glaze: b.Glaze, Scale: kit.Scale}
		for _, p := range slices.Concat(t.Ends[i].Recipe, t.Ends[i].Additions) {
			if g := p.Percent * b.RecipeG / 100; coarse(g, kit) && !b.Mixed {
				n.Materials = append(n.Materials, CoarseMaterial{p.Material, g, finer(g, kit)})
			}
		}
		t.note(n, n.Materials != nil)
	}
}

// noteLostPours is about pours that are asked and round to nothing.
func noteLostPours(t *Test) {
	n := LostPours{Step: t.Plan.Kit.Pour, Enough: t.Smallest}
	n.Cups = t.cups(func(c Cell) bool {
		return c.Weighings == nil && slices.ContainsFunc(c.Pours, func(p Pour) bool { return p.ML > 0 && p.Steps == 0 })
	})
	t.note(n, n.Cups != nil)
}

// noteAlike is about doses that are skipped, and about other cups that are made
// alike.
func noteAlike(t *Test) {
	groups := t.IdenticalCups()
	for s := range t.Plan.Blend.Series {
		n := skippedDoses(t, s, groups)
		t.note(n, n.Cups != nil)
	}
	var n Identical
	skipped := func(cup int) bool { return slices.ContainsFunc(t.Cells[cup-1].Doses, Dose.None) }
	for _, group := range groups {
		if group = slices.DeleteFunc(slices.Clone(group), skipped); len(group) > 1 {
			n.Groups = append(n.Groups, group)
		}
	}
	t.note(n, n.Groups != nil)
}

// noteLargeStocks is about stocks of which much more is made than is poured.
func noteLargeStocks(t *Test) {
	n := LargeStocks{Scale: t.Plan.Kit.Dosing()}
	for _, s := range t.Stocks {
		if s.NeedML > 0 && s.ML > mostMade*s.NeedML {
			n.Stocks = append(n.Stocks, s)
		}
	}
	t.note(n, n.Stocks != nil)
}

// noteOverLimit is about the cups that can be further off than the plan's limit.
func noteOverLimit(t *Test) {
	worst, limit := t.worstCup(), t.Plan.Kit.Worst
	cups := t.cups(func(c Cell) bool { return c.Got.Worst > limit*(1+hair) })
	n := OverLimit{cups, limit, worst.Number, worst.Got.Worst, worst.Got.Cause, t.Smallest}
	t.note(n, n.Cups != nil)
}

// noteStockWater is about stocks that thin a cup too much.
func noteStockWater(t *Test) {
	c, room := t.most(func(c Cell) float64 { return c.WaterML }), t.mostWater()
	t.note(StockWater{c.Number, c.WaterML, room, c.Got.SG, t.Plan.Kit.Syringe}, c.WaterML > room*(1+hair))
}

// noteInseparable is about neighbours that the measuring cannot tell apart, but
// for those that are made alike: Identical has them.
func noteInseparable(t *Test) {
	pairs := slices.DeleteFunc(t.Indistinguishable(), func(p [2]int) bool {
		return t.sign(t.Cells[p[0]-1], Measured) == t.sign(t.Cells[p[1]-1], Measured)
	})
	t.note(Inseparable{pairs}, len(pairs) > 0)
}

// thickDifference is the spread of specific gravity over the cups from which
// on coats of one dip differ to the eye (common practice, no source).
const thickDifference = 0.02

// noteUneven is about cups that differ in specific gravity.
func noteUneven(t *Test) {
	thin, thick := t.thinAndThick()
	low, high := thin.Got.SG, thick.Got.SG
	if low <= 1 || high-low < thickDifference {
		return
	}
	var most int64
	for _, c := range t.Cells {
		most = max(most, t.ThinningSteps(c, low))
	}
	step := t.ThinningStep()
	t.note(UnevenGravity{thin.Number, thick.Number, low, high, step.Format(most), step.Unit, t.Plan.Cup.Even}, true)
}
