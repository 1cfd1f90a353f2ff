package blend

import (
	"math"
	"slices"

	"pourboard/blend/measure"
	"pourboard/blend/slip"
)

// mixBatches works out what to mix of each end: its measured pours and what each
// loses, the extra, what stays in the jug, rounded up to a convenient figure
// of recipe.
func mixBatches(t *Test) {
	kit := t.Plan.Kit
	t.Batches, t.AsWeighed = make([]Batch, len(t.Ends)), slices.Clone(t.Ends)
	for i, e := range t.Ends {
		b := &t.Batches[i]
		b.Glaze = e.Name
		if t.Plan.Blend.Method != ByWeigh {
			b.NeedML = t.PouredML(i)
		}
		if b.NeedML == 0 {
			continue
		}
		need, recipe := b.NeedML*(1+kit.Extra)+kit.Dead, t.Plan.Cup.BatchG
		if h := t.Plan.had(e.Name); h != nil {
			b.ML, _ = h.volume(e) // a weight without SG is refused before
			b.Mixed, recipe = true, b.ML*e.RecipePerML
		} else if recipe > 0 {
			b.ML = recipe / e.RecipePerML
		} else {
			b.ML, recipe = measure.Convenient(need), kit.Scale.RoundedUp(measure.Convenient(need*e.RecipePerML))
		}
		if b.SG = e.SG; !e.Bucket {
			b.RecipeG = recipe
			b.weigh(e, kit, ownFine)
		}
		t.AsWeighed[i] = b.made(e)
	}
}

// weigh fills in a batch of b.RecipeG from its end: materials and water in whole
// steps of the scale, split where the scale takes no more, and what that scale
// is too coarse for in steps of the finer scale that apart chooses.
func (b *Batch) weigh(e End, kit measure.Kit, apart func(g float64, kit measure.Kit) measure.Step) {
	b.DryG = b.RecipeG * (1 + e.Over)
	if b.heavierG(e) > MostLoads*kit.Capacity {
		kit.Capacity = 0
	}
	b.ML = b.DryG / e.DryPerML
	b.WaterG = e.WaterPerG * b.DryG
	if !b.Mixed {
		b.WaterG = kit.Water(b.WaterG)
	}
	water := kit.Scale.Count(b.WaterG)
	b.WaterG = kit.Scale.Amount(water)
	b.G = b.DryG + b.WaterG
	b.SG = slip.Mixed(b.WaterG/b.DryG, e.Solids).SG
	for ; water > 0; water -= fullScale(kit) {
		b.WaterLoads = append(b.WaterLoads, kit.Scale.Amount(min(water, fullScale(kit))))
	}
	b.materials(e, kit, apart)
}

// MostLoads is into how many loads a batch is split; a scale that would need
// more of them is the wrong one, and is warned of.
const MostLoads = 100

// heavierG is the heavier of a batch's dry materials and its water, in g.
func (b *Batch) heavierG(e End) float64 { return b.DryG * max(1, e.WaterPerG) }

// coarse reports whether the scale of kit weighs g worse than to the kit's
// Worst. It decides what is weighed apart on a finer scale, in batches and in
// buckets, and what the notes say of it.
func coarse(g float64, kit measure.Kit) bool {
	return g > 0 && g < measure.Smallest(kit.Scale.Tared(), kit.Worst)
}

// ownFine is the kit's own finer scale for whatever the other is too coarse
// for, since it is better in any case; Size 0 when there is none.
func ownFine(_ float64, kit measure.Kit) measure.Step {
	if kit.Fine.Size < kit.Scale.Size {
		return kit.Fine
	}
	return measure.Step{}
}

// finest makes the kit's own finer scale weigh everything, if there is one.
func finest(kit measure.Kit) measure.Kit {
	if fine := ownFine(0, kit); fine.Size > 0 {
		kit.Scale = fine
	}
	return kit
}

// materials are the dry materials of a batch in order. Those that the scale is
// too coarse for are weighed apart, each by itself, when apart has a finer
// scale for them; the others are parts of a running sum on the scale, which
// therefore is of them alone.
func (b *Batch) materials(e End, kit measure.Kit, apart func(g float64, kit measure.Kit) measure.Step) {
	var kept []Weighing
	var exact []float64
	for i, p := range slices.Concat(e.Recipe, e.Additions) {
		w := Weighing{Part: i, Material: p.Material, Percent: p.Percent, Addition: i >= len(e.Recipe), Step: kit.Scale}
		g := p.Percent * b.RecipeG / 100
		if coarse(g, kit) {
			w.Step = apart(g, kit)
		}
		if w.Step.Size > 0 && w.Step != kit.Scale {
			w.Steps = w.Step.Count(g)
			w.G = w.Step.Amount(w.Steps)
			b.Apart, b.WeighedG = append(b.Apart, w), b.WeighedG+w.G
			continue
		}
		w.Step = kit.Scale
		kept, exact = append(kept, w), append(exact, g)
	}
	b.Weighings = running(kept, exact, kit)
	var steps int64
	for _, w := range b.Weighings {
		steps += w.Steps
	}
	b.WeighedG += kit.Scale.Amount(steps)
}

// weighed returns what is weighed of a part of a batch, in g, and the step of the
// scale that weighs it.
func (b *Batch) weighed(part int) (g float64, step measure.Step) {
	for _, w := range slices.Concat(b.Weighings, b.Apart) {
		if w.Part == part {
			g, step = g+w.G, w.Step
		}
	}
	return g, step
}

// running weighs materials one after the other onto the scale, exact in g. One
// that the scale has no room for starts a new load; one that is more than the
// scale takes at all is split.
func running(all []Weighing, exact []float64, kit measure.Kit) (split []Weighing) {
	parts := kit.Scale.Running(exact)
	most := fullScale(kit)
	load, reading := 1, int64(0)
	for i, w := range all {
		left := parts[i]
		for first := true; left > 0 || first; first = false {
			if reading+left > most && reading > 0 && (left <= most || reading == most) {
				load, reading = load+1, 0
			}
			w.Steps = min(left, most-reading)
			left -= w.Steps
			reading += w.Steps
			w.Load, w.G, w.ReadingG = load, kit.Scale.Amount(w.Steps), kit.Scale.Amount(reading)
			split = append(split, w)
		}
	}
	return split
}

// fullScale is the most that the scale takes at once, in its steps.
func fullScale(kit measure.Kit) int64 {
	if kit.Capacity == 0 {
		return math.MaxInt64
	}
	return max(1, kit.Scale.Floor(kit.Capacity))
}

// made is an end with its recipe, additions and percents as its batch is weighed.
// A batch that is not weighed, or is there already, and one of whose recipe the
// scale weighs nothing, is taken to be as its recipe says.
func (b *Batch) made(e End) End {
	whole, parts := 0.0, slices.Concat(e.Recipe, e.Additions)
	for k := range parts {
		parts[k].Percent, _ = b.weighed(k)
		if k < len(e.Recipe) {
			whole += parts[k].Percent
		}
	}
	if b.Mixed || whole == 0 {
		return e
	}
	for k := range parts {
		parts[k].Percent *= 100 / whole
	}
	e.Percents = slices.Clone(e.Percents)
	for s, p := range e.Percents {
		if p != 0 {
			e.Percents[s] = parts[e.SeriesPart(s)].Percent
		}
	}
	e.Recipe, e.Additions = parts[:len(e.Recipe):len(e.Recipe)], parts[len(e.Recipe):]
	e.Over = over(e.Additions)
	return e
}
