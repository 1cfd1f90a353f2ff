package blend

import (
	"slices"

	"pourboard/blend/oxide"
)

// Vector is what 1 g of the dry matter in a cell's cup fires to. Missing names
// the materials without analysis that are in it, and the glazes without a recipe;
// then the vector is zero.
func (t *Test) Vector(i int, view View) (v oxide.Vector, missing []string) {
	if without := t.WithoutRecipe(i); without != nil {
		return v, without
	}
	recipe, additions := t.Recipe(i, view)
	return t.Library.Vector(slices.Concat(recipe, additions))
}

// Chemistry is the oxides and the unity formula of a cell, in the convention
// that the plan chooses.
func (t *Test) Chemistry(i int, view View) oxide.Chemistry {
	v, missing := t.Vector(i, view)
	if missing != nil {
		return oxide.Chemistry{Missing: missing}
	}
	return v.Chemistry(t.Plan.Chemistry.ColourantsInUnity)
}

// Unanalysed names the materials of the test that have no analysis, and the
// glazes without a recipe.
func (t *Test) Unanalysed() []string {
	var all []string
	for _, e := range t.Ends {
		_, missing := t.Library.Vector(slices.Concat(e.Recipe, e.Additions))
		if e.Bucket { // what is in it nobody knows
			missing = []string{e.Name}
		}
		all = append(all, missing...)
	}
	for _, s := range t.Plan.Blend.Series {
		_, missing := t.Library.Vector([]oxide.Part{{Material: s.Material, Percent: 1}})
		all = append(all, missing...)
	}
	return once(all)
}
