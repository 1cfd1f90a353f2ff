package blend

import (
	"pourboard/blend/measure"
	"slices"
)

// Method weigh: no batch is mixed. Every cup's recipe, additions and colourants
// are weighed dry into it, one after the other on the scale that weighs doses,
// which is not tared between: the running sums are rounded, so no rounding adds
// up. Water then brings the cup to the SG that its glazes are planned with.

// cupWaterStep is to what water is weighed into a cup.
var cupWaterStep = measure.Step{Size: 1, Unit: measure.Gram}

// weighCup works out the weighings of a cup from its exact pours, and the cup
// as they make it.
func (t *Test) weighCup(c *Cell) {
	scale := t.Plan.Kit.Dosing()
	c.Contents = t.poured(c, Asked)
	recipe, additions := t.grams(c, Asked)
	c.Weighings = make([]CupWeighed, 0, len(t.order))
	exact := make([]float64, 0, len(t.order))
	asked := 0.0 // dry glaze with all additions, g
	for _, m := range t.order {
		list := recipe
		if m.Addition {
			list = additions
		}
		for _, p := range list {
			if p.Material == m.Material {
				c.Weighings = append(c.Weighings, CupWeighed{DryMaterial: m, G: p.G})
				exact = append(exact, p.G)
				asked += p.G
			}
		}
	}
	reading := int64(0)
	for i, steps := range scale.Running(exact) {
		w := &c.Weighings[i]
		reading += steps
		w.Steps, w.ReadingG = steps, scale.Amount(reading)
		g := scale.Amount(w.Steps)
		c.Got.DryG += g
		if !w.Addition {
			c.Got.RecipeG += g
		}
	}
	// The pours bring their water; a colourant has as much as keeps the SG:
	// x = (m − ρ·V)/(ρ − 1), V the volume of its grains.
	water, volume, sg := 0.0, c.ML, c.G/c.ML
	for i, e := range t.Ends {
		p := &c.Pours[i]
		p.GotShare, p.Got = c.Shares[i], Contents{RecipeG: p.RecipeG, DryG: p.DryG}
		water += p.DryG * e.WaterPerG
	}
	volume -= water // of the dry materials, mL
	for s := range c.Doses {
		d := &c.Doses[s]
		d.G = c.grams(s, Asked)
		grains := d.G / t.Densities[s]
		water += (d.G - sg*grains) / (sg - 1)
		volume += grains
	}
	c.WaterG = cupWaterStep.Rounded(water)
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
	return slices.DeleteFunc(t.WeighOrder(), func(m DryMaterial) bool {
		return !slices.ContainsFunc(t.Cells, func(c Cell) bool { return c.weighed(m).G > 0 })
	})
}

// WeighOrder is all materials that can be in a cup, of recipes first, as DryMaterials
// has those that are weighed into one.
func (t *Test) WeighOrder() (all []DryMaterial) {
	for _, e := range t.Ends {
		for _, p := range e.Recipe {
			all = append(all, DryMaterial{p.Material, false})
		}
	}
	for _, e := range t.Ends {
		for _, p := range e.Additions {
			all = append(all, DryMaterial{p.Material, true})
		}
	}
	for _, s := range t.Plan.Blend.Series {
		all = append(all, DryMaterial{s.Material, true})
	}
	return once(all)
}

// weighedPlusMinus works out the ± of a cup that is weighed dry: of each material's
// percentage of the recipe, which is 100·mⱼ/M over the recipe's M. A material is
// the difference of two readings, each shared with its neighbour, so the sum of
// squares goes over readings (JCGM 100:2008, 5.1.2).
func weighedPlusMinus(t *Test, c *Cell) {
	scale := t.Plan.Kit.Dosing()
	slopes := make([]float64, len(c.Weighings))
	if c.Got.RecipeG == 0 {
		c.Got.missing(Cause{Kind: CauseWeighing, Name: t.Ends[0].Name})
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
		w.PlusMinus = measure.Coverage * measure.RunningU(slopes, scale.Reading(), scale.Reading())
		cause := Cause{Kind: CauseWeighing, Name: w.Material}
		switch {
		case w.G == 0:
		case w.Steps == 0:
			c.Got.missing(cause)
		default:
			c.Got.worse(w.PlusMinus/w.Percent, cause)
		}
	}
	for s := range c.Doses {
		d, material := &c.Doses[s], t.Plan.Blend.Series[s].Material
		w := c.weighed(DryMaterial{material, true})
		if d.Percent == 0 {
			continue
		}
		// An addition of the base of the same material is part of the weighing.
		own := w.Percent
		for _, p := range t.Base.Additions {
			if p.Material == material {
				own -= p.Percent
			}
		}
		if w.Steps == 0 {
			own = 0
		}
		d.Steps, d.GotPercent, d.PlusMinus, d.MeasuredG = w.Steps, own, w.PlusMinus, own/100*c.Got.RecipeG
	}
}

// weighed is what is weighed of a material, nothing where the cup has none.
func (c Cell) weighed(m DryMaterial) CupWeighed {
	if i := slices.IndexFunc(c.Weighings, func(w CupWeighed) bool { return w.DryMaterial == m }); i >= 0 {
		return c.Weighings[i]
	}
	return CupWeighed{}
}

// reweigh makes a cup one that was weighed dry with another amount of a
// colourant, in g.
func reweigh(t *Test, c *Cell, series int, g float64) {
	more := g - c.Doses[series].MeasuredG
	for i := range c.Weighings {
		w := &c.Weighings[i]
		if w.Addition && w.Material == t.Plan.Blend.Series[series].Material {
			w.Steps += t.Plan.Kit.Dosing().Count(more)
		}
	}
	c.Got.add(more, 0, t.Densities[series])
	c.Got.SG = c.Got.G / c.Got.ML
}
