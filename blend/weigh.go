package blend

import (
	"pourboard/blend/measure"
	"slices"
)

// Method weigh: no batch is mixed. Every cup's recipe, additions and colourants
// are weighed dry into it, one after the other on the scale that weighs doses,
// which is not tared between: the running sums are rounded, so no rounding adds
// up. Water then brings the cup to the SG that its glazes are planned with.

// waterStep is to what water is weighed into a cup.
var waterStep = measure.Step{Size: 1, Unit: measure.Gram}

// weighCup works out the weighings of a cup from its exact pours, and the cup
// as they make it.
func (t *Test) weighCup(c *Cell) {
	scale := t.Plan.Kit.Dosing()
	recipe, additions := t.askedGrams(c)
	order := t.weighOrder()
	inOrder := func(addition bool) func(a, b Mass) int {
		at := func(p Mass) int { return slices.Index(order, DryMaterial{p.Material, addition}) }
		return func(a, b Mass) int { return at(a) - at(b) }
	}
	slices.SortStableFunc(recipe, inOrder(false))
	slices.SortStableFunc(additions, inOrder(true))
	for _, p := range recipe {
		c.Weighings = append(c.Weighings, CupWeighed{Material: p.Material, G: p.G})
	}
	for _, p := range additions {
		c.Weighings = append(c.Weighings, CupWeighed{Material: p.Material, G: p.G, Addition: true})
	}
	exact := make([]float64, len(c.Weighings))
	for i, w := range c.Weighings {
		exact[i] = w.G
	}
	parts, readings := make([]int64, len(exact)), make([]int64, len(exact))
	scale.Running(exact, parts, readings)
	for i := range c.Weighings {
		w := &c.Weighings[i]
		w.Steps, w.ReadingG = parts[i], scale.Amount(readings[i])
		g := scale.Amount(w.Steps)
		c.Got.DryG += g
		if !w.Addition {
			c.Got.RecipeG += g
		}
	}
	asked := 0.0 // dry glaze with all additions, g
	for _, g := range exact {
		asked += g
	}
	for i := range c.Pours {
		p := &c.Pours[i]
		p.GotShare, p.GotML, p.GotRecipeG = c.Shares[i], p.ML, p.RecipeG
	}
	// The pours bring their water; a colourant has as much as keeps the SG:
	// x = (m − ρ·V)/(ρ − 1), V the volume of its grains.
	water, volume, sg := 0.0, c.ML, c.G/c.ML
	for i, e := range t.Ends {
		water += c.Pours[i].DryG * e.WaterPerG
	}
	volume -= water // of the dry materials, mL
	for s, d := range c.Doses {
		grains := d.G / t.Densities[s]
		water += (d.G - sg*grains) / (sg - 1)
		volume += grains
	}
	c.WaterG = waterStep.Amount(waterStep.Count(water))
	c.DryG, c.G, c.ML, c.SG = asked, asked+water, volume+water, sg
	c.Got.G, c.Got.ML = c.Got.DryG+c.WaterG, volume*c.Got.DryG/asked+c.WaterG
	c.Got.SG = c.Got.G / c.Got.ML
}

// DryMaterial is a material of a recipe, or an addition over it.
type DryMaterial struct {
	Material string
	Addition bool
}

// DryMaterials are what is weighed into cups, in the order in which every cup is
// weighed (method weigh): readings then rise from left to right in a table.
func (t *Test) DryMaterials() []DryMaterial {
	return slices.DeleteFunc(t.weighOrder(), func(m DryMaterial) bool {
		return !slices.ContainsFunc(t.Cells, func(c Cell) bool {
			return slices.ContainsFunc(c.Weighings, func(w CupWeighed) bool { return w.Material == m.Material && w.Addition == m.Addition })
		})
	})
}

// weighOrder is DryMaterials with those that no cup has.
func (t *Test) weighOrder() []DryMaterial {
	var all []DryMaterial
	add := func(parts []Part, addition bool) {
		for _, p := range parts {
			if m := (DryMaterial{p.Material, addition}); !slices.Contains(all, m) {
				all = append(all, m)
			}
		}
	}
	for _, e := range t.Ends {
		add(e.Recipe, false)
	}
	for _, e := range t.Ends {
		add(e.Additions, true)
	}
	for _, s := range t.Plan.Blend.Series {
		add([]Part{{Material: s.Material}}, true)
	}
	return all
}

// askedGrams is what a cup should hold, in g of each material: of the recipes,
// and of the additions over them with the colourants of a series.
func (t *Test) askedGrams(c *Cell) (recipe, additions []Mass) {
	base := 0.0
	for e, p := range c.Pours {
		if p.RecipeG == 0 {
			continue
		}
		base += p.RecipeG
		recipe = addParts(recipe, t.Ends[e].Recipe, p.RecipeG)
		additions = addParts(additions, t.Ends[e].Additions, p.RecipeG)
	}
	for s := range c.Doses {
		d := &c.Doses[s]
		d.G = d.Percent / 100 * base
		additions = addMass(additions, t.Plan.Blend.Series[s].Material, d.G)
	}
	return recipe, additions
}

// weighedPlusMinus works out the ± of a cup that is weighed dry: of each material's
// percentage of the recipe, which is 100·mⱼ/M over the recipe's M. A material is
// the difference of two readings, each shared with its neighbour, so the sum of
// squares goes over readings (JCGM 100:2008, 5.1.2).
func (t *Test) weighedPlusMinus(c *Cell) {
	scale := t.Plan.Kit.Dosing()
	slopes := make([]float64, len(c.Weighings))
	if c.Got.RecipeG == 0 {
		c.Got.worse(1, Cause{Kind: CauseWeighing, Name: t.Ends[0].Name, TooSmall: true})
		return
	}
	for i := range c.Weighings {
		w := &c.Weighings[i]
		g := scale.Amount(w.Steps)
		w.Percent = 100 * g / c.Got.RecipeG
		for j, other := range c.Weighings {
			slopes[j] = 0
			if !other.Addition {
				slopes[j] = -w.Percent / c.Got.RecipeG
			}
		}
		slopes[i] += 100 / c.Got.RecipeG
		w.PlusMinus = measure.Coverage * measure.RunningU(slopes, scale.Reading())
		cause := Cause{Kind: CauseWeighing, Name: w.Material}
		switch {
		case w.G == 0:
		case w.Steps == 0:
			c.Got.worse(1, cause.tooSmall())
		default:
			c.Got.worse(w.PlusMinus/w.Percent, cause)
		}
	}
	for s := range c.Doses {
		d := &c.Doses[s]
		if d.Percent == 0 {
			continue
		}
		for _, w := range c.Weighings {
			if w.Addition && w.Material == t.Plan.Blend.Series[s].Material {
				// An addition of the base of the same material is part of the weighing.
				own := w.Percent - t.baseHas(w.Material)
				d.Steps, d.GotPercent, d.PlusMinus = w.Steps, own, w.PlusMinus
				d.MeasuredG = own / 100 * c.Got.RecipeG
				if w.Steps == 0 {
					d.GotPercent, d.MeasuredG = 0, 0
				}
			}
		}
	}
}

// baseHas is the percentage of a material among the base's own additions.
func (t *Test) baseHas(material string) float64 {
	sum := 0.0
	for _, p := range t.Base.Additions {
		if p.Material == material {
			sum += p.Percent
		}
	}
	return sum
}

// weighed is what is weighed of a material, nothing where the cup has none.
func (c Cell) weighed(m DryMaterial) CupWeighed {
	for _, w := range c.Weighings {
		if w.Material == m.Material && w.Addition == m.Addition {
			return w
		}
	}
	return CupWeighed{}
}

// reweigh is a cup that was weighed dry with other amounts of its colourants.
func (t *Test) reweigh(c *Cell, done Done) {
	scale := t.Plan.Kit.Dosing()
	c.Weighings = slices.Clone(c.Weighings)
	for s, amount := range done.Dosed {
		if s >= len(c.Doses) {
			continue
		}
		more := amount - c.Doses[s].MeasuredG
		for i := range c.Weighings {
			w := &c.Weighings[i]
			if w.Addition && w.Material == t.Plan.Blend.Series[s].Material {
				w.Steps += scale.Count(more)
			}
		}
		c.Got.add(more, 0, t.Densities[s])
	}
	c.Got.SG = c.Got.G / c.Got.ML
	c.Got.Worst, c.Got.Cause, c.AsMade = 0, Cause{}, false
	t.weighedPlusMinus(c)
	t.label(c)
}
