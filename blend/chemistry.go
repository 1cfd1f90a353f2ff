package blend

import (
	"slices"

	"pourboard/blend/oxide"
)

// Chemistry is the oxides and the unity formula of what a cell's cup fires to, in
// the convention that the plan chooses. Where the cup has materials without analysis
// or glazes without a recipe, it names these alone.
func (t *Test) Chemistry(i int, view View) oxide.Chemistry {
	v, missing := t.vector(i, view)
	if missing != nil {
		return oxide.Chemistry{Missing: missing}
	}
	return v.Chemistry(t.Plan.Chemistry.ColourantsInUnity)
}

// vector is what 1 g of the dry matter in a cell's cup fires to, or what it cannot
// be known for.
func (t *Test) vector(i int, view View) (v oxide.Vector, missing []string) {
	if without := t.WithoutRecipe(i); without != nil {
		return v, without
	}
	recipe, additions := t.Recipe(i, view)
	return t.Library.Vector(slices.Concat(recipe, additions))
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
