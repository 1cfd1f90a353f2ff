package blend

import (
	"slices"

	"pourboard/blend/oxide"
)

// fired holds the oxides of everything that goes into a cup, worked out once,
// so that a cell is no more than their mean by dry mass.
type fired struct {
	ends    [2][]oxide.Vector // by Which and end
	doses   []oxide.Vector    // by series
	missing [2][][]string     // by Which, and then by end: materials without analysis
	lacks   [][]string        // the same by series
}

func newFired(t *Test, lib oxide.Library) fired {
	var f fired
	for view, ends := range [2][]End{Asked: t.Ends, Measured: t.AsWeighed} {
		for _, e := range ends {
			v, missing := lib.Vector(oxideParts(e.Recipe, e.Additions))
			if e.Bucket { // what is in it nobody knows
				missing = []string{e.Name}
			}
			f.ends[view], f.missing[view] = append(f.ends[view], v), append(f.missing[view], missing)
		}
	}
	for _, s := range t.Plan.Blend.Series {
		v, missing := lib.MaterialVector(s.Material)
		f.doses, f.lacks = append(f.doses, v), append(f.lacks, missing)
	}
	return f
}

// Vector is what 1 g of the dry matter in a cell's cup fires to. Missing names
// the materials without analysis that are in it; then the vector is zero.
func (t *Test) Vector(i int, view View) (v oxide.Vector, missing []string) {
	c := t.Cells[i]
	if t.Plan.Blend.Method == ByWeigh {
		recipe, additions := t.Recipe(i, view)
		return t.Library.Vector(oxideParts(recipe, additions))
	}
	var vectors []oxide.Vector
	var dry []float64
	add := func(v oxide.Vector, g float64, lacks []string) {
		if g == 0 {
			return
		}
		for _, m := range lacks {
			if !slices.Contains(missing, m) {
				missing = append(missing, m)
			}
		}
		vectors, dry = append(vectors, v), append(dry, g)
	}
	for e, p := range c.Pours {
		add(t.fired.ends[view][e], t.pourDry(e, p, view), t.fired.missing[view][e])
	}
	if t.Plan.Blend.Method != ByPour {
		for s := range c.Doses {
			add(t.fired.doses[s], c.grams(s, view), t.fired.lacks[s])
		}
	}
	if missing != nil || !v.Combine(vectors, dry) {
		return oxide.Vector{}, missing
	}
	return v, nil
}

// Chemistry is the oxides and the unity formula of a cell, in the convention
// that the plan chooses.
func (t *Test) Chemistry(i int, view View) oxide.Chemistry {
	v, missing := t.Vector(i, view)
	if missing != nil {
		return oxide.Chemistry{Missing: missing}
	}
	return v.Chemistry(oxide.Options{ColourantsInUnity: t.Plan.Chemistry.ColourantsInUnity})
}

// Unanalysed names the materials of the test that have no analysis.
func (t *Test) Unanalysed() []string {
	var all []string
	for _, list := range slices.Concat(t.fired.missing[Asked], t.fired.lacks) {
		for _, m := range list {
			if !slices.Contains(all, m) {
				all = append(all, m)
			}
		}
	}
	return all
}
