package blend

import (
	"cmp"
	"fmt"

	"pourboard/blend/measure"
	"pourboard/blend/quantity"
	"pourboard/blend/slip"
)

// Bucket is a cell mixed again in a large amount, from dry materials.
type Bucket struct {
	Cell  int  // number
	View  View // the cup as asked or as measured
	End        // the cup's glaze
	Batch Batch
}

// Bucket works out what to weigh for a bucket of a cell: size is its dry
// weight, its volume or its weight as slip; sg is the specific gravity wanted,
// 0 for the cell's own. A material that the scale of kit cannot weigh to the
// kit's Worst is weighed apart with the coarsest step that can, so that nothing
// comes out as 0 g; a scale that is too coarse for all of them is an error.
func (t *Test) Bucket(i int, view View, size Amount, sg float64, kit measure.Kit) (Bucket, error) {
	c := t.Cells[i]
	e := End{Name: fmt.Sprintf("cup %d", c.Number), SG: cmp.Or(sg, c.contents(view).SG), Solids: t.solids(c, view)}
	e.Recipe, e.Additions = t.Recipe(i, view)
	if err := noRecipe(t, i, e.Recipe); err != nil {
		return Bucket{}, err
	}
	if err := (slip.Slip{SG: e.SG, Solids: e.Solids}).Check(); err != nil {
		return Bucket{}, err
	}
	e.Over = over(e.Additions)
	e.settle()
	recipe := size.Value * e.RecipePerML / e.in(size.Of)
	b := Bucket{c.Number, view, e, Batch{Glaze: e.Name, RecipeG: recipe}}
	b.Batch.weigh(e, kit, finer)
	if len(b.Batch.Weighings) == 0 {
		return Bucket{}, fmt.Errorf("a %s scale cannot weigh any material of %s g dry (use a finer scale or a larger batch)",
			kit.Scale, quantity.MassText(recipe))
	}
	return b, nil
}

// noRecipe is an error where a cell, by its index, has no recipe: it is empty, or
// holds a glaze without one.
func noRecipe(t *Test, i int, recipe []Part) error {
	if without := t.WithoutRecipe(i); without != nil {
		return fmt.Errorf("cup %d holds %q, which has no recipe (write its recipe into the plan)", i+1, without[0])
	}
	if recipe == nil {
		return emptyCup(i)
	}
	return nil
}

// emptyCup says that a cell, by its index, is empty.
func emptyCup(i int) error { return fmt.Errorf("cup %d is empty: nothing was measured into it", i+1) }

// solids is the density of the dry matter in a cell in g/mL: the volumes of what
// its pours and doses bring add.
func (t *Test) solids(c Cell, view View) float64 {
	mass, volume := 0.0, 0.0
	add := func(g, density float64) { mass, volume = mass+g, volume+g/density }
	for e, p := range c.Pours {
		add(p.contents(view).DryG, t.Ends[e].Solids)
	}
	for s, d := range c.Doses {
		switch {
		case t.Plan.Blend.Method == ByPour: // among the additions
		case view == Measured:
			add(d.MeasuredG, t.Densities[s])
		default:
			add(d.G, t.Densities[s])
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

// WetBucket is a cell made again in a large amount from wet glazes, since one of
// them has no recipe.
type WetBucket struct {
	Cell  int // number
	View  View
	ML    []float64  // by end: wet glaze to pour
	Doses []Weighing // the colourants to weigh into it, each with its scale
	Water float64    // mL, of a cup whose colourant came with water
}

// WetBucket is a cell's pours and doses to scale: size is the volume of wet
// glaze poured, or its dry weight where the SG of every glaze is known. Doses
// come on top, as in the cup; one that the scale of kit cannot weigh to the
// kit's Worst has a finer scale.
func (t *Test) WetBucket(i int, view View, size Amount, kit measure.Kit) (WetBucket, error) {
	c := t.Cells[i]
	if t.Plan.Blend.Method == ByPour && len(c.Doses) > 0 {
		return WetBucket{}, fmt.Errorf("cup %d is blended from batches with colourant in them (give the recipe of %q)",
			c.Number, t.Base.Name)
	}
	b := WetBucket{Cell: c.Number, View: view}
	total := 0.0
	for e, end := range t.Ends {
		ml := t.brings(&c, e, view).ML
		switch b.ML = append(b.ML, ml); {
		case size.Of == Volume:
			total += ml
		case ml > 0 && end.Assumed:
			return WetBucket{}, fmt.Errorf("%q has no SG, so its dry weight is unknown (give a volume)", end.Name)
		default:
			total += ml * end.RecipePerML
		}
	}
	if total == 0 {
		return WetBucket{}, emptyCup(i)
	}
	factor := size.Value / total
	for e := range b.ML {
		b.ML[e] *= factor
	}
	b.Water = c.WaterML * factor
	for s := range c.Doses {
		g := c.grams(s, view) * factor
		if g == 0 {
			continue
		}
		w := Weighing{Material: t.Plan.Blend.Series[s].Material, Step: kit.Scale}
		if coarse(g, kit) {
			w.Step = finer(g, kit)
		}
		w.Steps = w.Step.Count(g)
		w.G = w.Step.Amount(w.Steps)
		b.Doses = append(b.Doses, w)
	}
	return b, nil
}

// Materials are the colourants that are weighed.
func (b WetBucket) Materials() (names []string) {
	for _, d := range b.Doses {
		names = append(names, d.Material)
	}
	return names
}
