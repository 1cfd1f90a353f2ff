package blend

import (
	"errors"
	"fmt"

	"pourboard/blend/measure"
	"pourboard/blend/quantity"
	"pourboard/blend/slip"
)

// Bucket is a cell mixed again in a large amount, from dry materials.
type Bucket struct {
	Cell      int  // number
	View      View // the cup as asked or as measured
	Recipe    []Part
	Additions []Part
	Batch     Batch
}

// Bucket works out what to weigh for a bucket of a cell: size is its dry
// weight, its volume or its weight as slip; sg is the specific gravity wanted,
// 0 for the cell's own. A material that the scale of kit cannot weigh to the
// kit's Worst is weighed apart with the coarsest step that can, so that nothing
// comes out as 0 g; a scale that is too coarse for all of them is an error.
func (t *Test) Bucket(i int, view View, size Amount, sg float64, kit measure.Kit) (Bucket, error) {
	if err := t.there(i); err != nil {
		return Bucket{}, err
	}
	c := t.Cells[i]
	if c.Got.DryG == 0 && view == Measured {
		return Bucket{}, errors.New("the cup is empty: nothing was measured into it")
	}
	if without := t.WithoutRecipe(i); without != nil {
		return Bucket{}, t.noRecipe(i, without[0])
	}
	switch {
	case sg > 0:
	case view == Measured:
		sg = c.Got.SG
	default:
		sg = c.SG
	}
	b := Bucket{Cell: c.Number, View: view}
	b.Recipe, b.Additions = t.Recipe(i, view)
	e := End{Name: fmt.Sprintf("cup %d", c.Number), SG: sg, Solids: t.cellSolids(i, view)}
	if err := (slip.Slip{SG: e.SG, Solids: e.Solids}).Check(); err != nil {
		return Bucket{}, err
	}
	e.Recipe, e.Additions = b.Recipe, b.Additions
	e.Over = over(e.Additions)
	e.settle()
	per := e.per(size.Of)
	recipe := size.Value * per.recipe / per.of(size.Of)
	b.Batch = Batch{Glaze: e.Name, RecipeG: recipe}
	b.Batch.weigh(e, kit, finer)
	if len(b.Batch.Weighings) == 0 {
		return Bucket{}, fmt.Errorf("a %s scale cannot weigh any material of %s g dry (use a finer scale or a larger batch)", kit.Scale, quantity.MassText(recipe))
	}
	return b, nil
}

// noRecipe says that a cell, by its index, holds a glaze without a recipe.
func (t *Test) noRecipe(i int, glaze string) error {
	return fmt.Errorf("cup %d holds %q, which has no recipe (write its recipe into the plan)", t.Cells[i].Number, glaze)
}

// cellSolids is the density in g/mL of a cell's dry matter: volumes add.
func (t *Test) cellSolids(i int, view View) float64 {
	c := t.Cells[i]
	mass, volume := 0.0, 0.0
	for e, p := range c.Pours {
		dry := t.pourDry(e, p, view)
		mass += dry
		volume += dry / t.Ends[e].Solids
	}
	if t.Plan.Blend.Method != ByPour {
		for s := range c.Doses {
			g := c.grams(s, view)
			mass += g
			volume += g / t.Densities[s]
		}
	}
	if volume == 0 {
		return assumedSolids
	}
	return mass / volume
}

// finer is the coarsest step that weighs g to the kit's Worst: the kit's own
// fine scale if that does, or one that can be bought.
func finer(g float64, kit measure.Kit) measure.Step {
	good := func(s measure.Step) bool { return g >= measure.Smallest(s.Tared(), kit.Worst) }
	if kit.Fine.Size > 0 && good(kit.Fine) {
		return kit.Fine
	}
	s := measure.Step{Unit: measure.Gram}
	for _, s.Size = range scaleSteps {
		if s.Size < kit.Scale.Size && good(s) {
			return s
		}
	}
	// Smaller than any scale weighs well: the finest one that sees it at all.
	for s.Count(g) == 0 && s.Size > 1e-9 {
		s.Size /= 10
	}
	return s
}
