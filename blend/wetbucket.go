package blend

import (
	"fmt"

	"pourboard/blend/measure"
)

// WetBucket is a cell made again in a large amount from wet glazes, since one of
// them has no recipe.
type WetBucket struct {
	Cell  int // number
	View  View
	ML    []float64   // by end: wet glaze to pour
	Doses []FineScale // the colourants to weigh into it, each with its scale
	Water float64     // mL, of a cup whose colourant came with water
}

// WetBucket is a cell's pours and doses to scale: size is the volume of wet
// glaze poured, or its dry weight where the SG of every glaze is known. Doses
// come on top, as in the cup; one that the scale of kit cannot weigh to the
// kit's Worst has a finer scale.
func (t *Test) WetBucket(i int, view View, size Amount, kit measure.Kit) (WetBucket, error) {
	if err := t.there(i); err != nil {
		return WetBucket{}, err
	}
	c := t.Cells[i]
	if t.Plan.Blend.Method == ByPour && len(c.Doses) > 0 {
		return WetBucket{}, fmt.Errorf("cup %d is blended from batches with colourant in them (give the recipe of %q)", c.Number, t.Base.Name)
	}
	b := WetBucket{Cell: c.Number, View: view}
	total := 0.0
	for e, p := range c.Pours {
		ml, end := p.ML, t.Ends[e]
		if view == Measured {
			ml = p.GotML
		}
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
		return WetBucket{}, nothingIn(i)
	}
	factor := size.Value / total
	for e := range b.ML {
		b.ML[e] *= factor
	}
	b.Water = c.WaterML * factor
	for s, d := range c.Doses {
		g := c.grams(s, view) * factor
		if g == 0 {
			continue
		}
		step := kit.Scale
		if coarse(g, kit) {
			step = finer(g, kit)
		}
		percent := d.Percent
		if view == Measured {
			percent = d.GotPercent
		}
		b.Doses = append(b.Doses, FineScale{Material: t.Plan.Blend.Series[s].Material, Percent: percent, Addition: true, G: step.Amount(step.Count(g)), Step: step})
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
