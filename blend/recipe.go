package blend

import (
	"slices"

	"pourboard/blend/measure"
)

// View says whether a cup is taken as asked or as measured.
type View int

// The two views of a cup.
const (
	Asked View = iota
	Measured
)

// Recipe is the dry recipe of a cell: percent summing to 100, and additions as
// percent over that. A material that is part of one end's recipe and an
// addition of another is in both lists. The order is that of the ends.
func (t *Test) Recipe(i int, view View) (recipe, additions []Part) {
	grams, over := t.grams(&t.Cells[i], view)
	sum := 0.0
	for _, m := range grams {
		sum += m.G
	}
	if sum == 0 {
		return nil, nil
	}
	percent := func(list []Mass) (parts []Part) {
		for _, m := range list {
			parts = append(parts, Part{Material: m.Material, Percent: m.G * (100 / sum)})
		}
		return parts
	}
	return percent(grams), percent(over)
}

// grams is what a cup holds, in g of each dry material: of the recipes, and of
// the additions over them. What there is nothing of is left out. Both are nil
// where a glaze without recipe is in the cup.
func (t *Test) grams(c *Cell, view View) (recipe, additions []Mass) {
	if view == Measured && t.Plan.Blend.Method == ByWeigh {
		for _, w := range c.Weighings {
			list := &recipe
			if w.Addition {
				list = &additions
			}
			*list = addMass(*list, w.Material, t.Plan.Kit.Dosing().Amount(w.Steps))
		}
		return recipe, additions
	}
	ends := t.Ends
	if view == Measured {
		ends = t.AsWeighed
	}
	for e := range c.Pours {
		g := t.brings(c, e, view).RecipeG
		if g > 0 && ends[e].Bucket {
			return nil, nil
		}
		for _, p := range ends[e].Recipe {
			recipe = addMass(recipe, p.Material, p.Percent*(g/100))
		}
		for _, p := range ends[e].Additions {
			additions = addMass(additions, p.Material, p.Percent*(g/100))
		}
	}
	if t.Plan.Blend.Method != ByPour {
		for s, series := range t.Plan.Blend.Series {
			additions = addMass(additions, series.Material, c.grams(s, view))
		}
	}
	return recipe, additions
}

// WithoutRecipe names the glazes of a cell that have no recipe, so that neither
// its recipe nor its chemistry is known; nil where all have one.
func (t *Test) WithoutRecipe(i int) []string {
	var names []string
	for e, p := range t.Cells[i].Pours {
		if t.Ends[e].Bucket && p.ML > 0 {
			names = append(names, t.Ends[e].Name)
		}
	}
	return names
}

// addMass adds g of a material to a list that has each material once, and
// nothing of what a coarse scale left nothing of.
func addMass(list []Mass, material string, g float64) []Mass {
	if g == 0 {
		return list
	}
	for i := range list {
		if list[i].Material == material {
			list[i].G += g
			return list
		}
	}
	return append(list, Mass{material, g})
}

// Written is a recipe as a potter writes it: to a sum of exactly 100, in tenths
// where it was measured and in hundredths where it was asked, finer where a part
// would be less than five steps; 24.99 and 15.01 are 25 and 15. The parts are
// rounded by largest remainder. A recipe of another sum than 100, or of nothing,
// stays as it is.
func Written(recipe []Part, view View) []Part {
	step := measure.Step{Size: 0.1}
	if view == Asked {
		step.Size = 0.01
	}
	least, exact := 100.0, make([]float64, len(recipe))
	for i, p := range recipe {
		if exact[i] = p.Percent; p.Percent > 0 {
			least = min(least, p.Percent)
		}
	}
	for least < 5*step.Size && step.Size > 0.001 {
		step.Size /= 10
	}
	rounded := toHundred(exact, step)
	if rounded == nil {
		return recipe
	}
	all := slices.Clone(recipe)
	for i, x := range rounded {
		all[i].Percent = x
	}
	return all
}
