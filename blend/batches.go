package blend

import (
	"math"

	"pourboard/blend/measure"
	"pourboard/blend/slip"
)

// batches works out what to mix of each end: its measured pours and what each
// loses, the extra, what stays in the jug, rounded up to a convenient figure
// of dry material.
func (t *Test) batches() {
	kit := t.Plan.Kit
	t.Batches = make([]Batch, len(t.Ends))
	for i, e := range t.Ends {
		b := Batch{Glaze: e.Name}
		for _, c := range t.Cells {
			if p := c.Pours[i]; p.ML > 0 {
				b.NeedML += t.measuredML(i, p) + kit.Loss
			}
		}
		if h := t.had(e.Name); b.NeedML > 0 && h != nil {
			b.Mixed, b.DryG = true, t.ml(*h, i)*e.DryPerML
			b.weigh(e, kit)
		} else if b.NeedML > 0 {
			b.mix(e, b.NeedML*(1+kit.Extra)+kit.Dead, kit)
		}
		t.Batches[i] = b
	}
}

// had is what the plan says of a batch that is mixed already, or nil.
func (t *Test) had(name string) *Have {
	for i := range t.Plan.Have {
		if t.Plan.Have[i].Glaze == name {
			return &t.Plan.Have[i]
		}
	}
	return nil
}

// mix makes the batch at least ml of the end's slip.
func (b *Batch) mix(e End, ml float64, kit measure.Kit) {
	dry := kit.Scale.Amount(kit.Scale.Ceil(measure.Convenient(ml * e.DryPerML)))
	*b = Batch{Glaze: b.Glaze, NeedML: b.NeedML, DryG: dry}
	b.weigh(e, kit)
}

// weigh fills in a batch of b.DryG from its end: materials and water in whole
// steps of the scale, split where the scale takes no more.
func (b *Batch) weigh(e End, kit measure.Kit) {
	if b.loads(e, kit) > MostLoads {
		kit.Capacity = 0
	}
	b.ML = b.DryG / e.DryPerML
	water := kit.Scale.Count(e.WaterPerG * b.DryG)
	b.WaterG = kit.Scale.Amount(water)
	b.G = b.DryG + b.WaterG
	b.SG = slip.Mixed(b.WaterG/b.DryG, e.Solids).SG
	for load := int64(0); load < water; {
		part := water - load
		if kit.Capacity > 0 {
			part = min(part, max(1, kit.Scale.Floor(kit.Capacity)))
		}
		b.WaterLoads = append(b.WaterLoads, kit.Scale.Amount(part))
		load += part
	}
	b.Weighings = weighings(e, b.DryG/overHundred(e.Additions), kit)
}

// MostLoads is into how many loads a batch is split; a scale that would need
// more of them is the wrong one, and is warned of.
const MostLoads = 100

// loads is how many loads of the scale the heavier of a batch's dry material
// and water is, 1 when nothing is known of its capacity.
func (b *Batch) loads(e End, kit measure.Kit) float64 {
	if kit.Capacity == 0 {
		return 1
	}
	return b.DryG * max(1, e.WaterPerG) / kit.Capacity
}

// weighings are the dry materials of a batch in order, as parts of a running
// sum on the scale. A material that the scale has no room for starts a new
// load; one that is more than the scale takes at all is split.
// perPercent is the g that one percent of the dry recipe is.
func weighings(e End, perPercent float64, kit measure.Kit) []Weighing {
	all := make([]Weighing, 0, len(e.Recipe)+len(e.Additions))
	for _, p := range e.Recipe {
		all = append(all, Weighing{Material: p.Material, Percent: p.Amount})
	}
	for _, p := range e.Additions {
		all = append(all, Weighing{Material: p.Material, Percent: p.Amount, Addition: true})
	}
	exact := make([]float64, len(all))
	for i, w := range all {
		exact[i] = w.Percent * perPercent
	}
	parts, readings := make([]int64, len(all)), make([]int64, len(all))
	kit.Scale.Running(exact, parts, readings)

	most := int64(math.MaxInt64)
	if kit.Capacity > 0 {
		most = max(1, kit.Scale.Floor(kit.Capacity))
	}
	split := make([]Weighing, 0, len(all))
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
