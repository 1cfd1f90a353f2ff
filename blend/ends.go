package blend

import (
	"slices"
	"strings"

	"pourboard/blend/design"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/blend/slip"
)

// What is assumed where a plan is silent.
const (
	// assumedSolids is the density in g/mL of solids that nothing is known of,
	// about that of feldspar, kaolin and silica (common practice, no source).
	assumedSolids = 2.6
	// assumedSG is the specific gravity of slips when the plan gives none, a
	// usual one for dipping (common practice, no source).
	assumedSG = 1.45
	// thickest is how near to its solids' density an assumed slip may come, as
	// a fraction of the way from water.
	thickest = 0.8
)

// SolidsDensity is the density of the glaze's dry solids in g/mL: its own, else
// that of its materials, else assumedSolids.
func (g Glaze) SolidsDensity(lib oxide.Library) float64 {
	if g.Solids > 0 {
		return g.Solids
	}
	density, missing := lib.SolidsDensity(slices.Concat(hundred(g.Recipe), g.Additions))
	if len(missing) > 0 || !(density > 1) {
		return assumedSolids
	}
	return density
}

// hundred is a recipe brought to 100.
func hundred(recipe []Part) []Part {
	whole := over(recipe)
	recipe = slices.Clone(recipe)
	for i := range recipe {
		recipe[i].Percent /= whole
	}
	return recipe
}

// over is what additions weigh with 1 g of recipe, in g.
func over(additions []Part) float64 {
	sum := 0.0
	for _, p := range additions {
		sum += p.Percent
	}
	return sum / 100
}

// newEnd works out a glaze's slip; without a specific gravity it is left open.
func newEnd(g Glaze, lib oxide.Library) End {
	e := End{Name: g.Name, Recipe: hundred(g.Recipe), Additions: g.Additions, Over: over(g.Additions),
		Solids: g.SolidsDensity(lib), SG: g.SG, Bucket: len(g.Recipe) == 0}
	if g.WaterPer > 0 {
		e.SG = slip.Mixed(g.WaterPer/100, e.Solids).SG
	}
	if e.SG > 0 {
		e.settle()
	}
	return e
}

// settle fills in what follows from an end's gravity and solids.
func (e *End) settle() {
	s := slip.Slip{SG: e.SG, Solids: e.Solids}
	e.DryPerML, e.WaterPerG = s.DryPerML(), s.WaterPerG()
	e.RecipePerML = e.DryPerML / (1 + e.Over)
}

// assumeDryContent gives the ends without a specific gravity one dry content, the mean of
// those that are known, so that shares of volume are shares of dry matter too.
func assumeDryContent(ends []End) {
	known, sum := 0, 0.0
	for _, e := range ends {
		if e.SG > 0 {
			known++
			sum += e.DryPerML
		}
	}
	dry := slip.Slip{SG: assumedSG, Solids: assumedSolids}.DryPerML()
	if known > 0 {
		dry = sum / float64(known)
	}
	for i := range ends {
		if e := &ends[i]; e.SG == 0 {
			e.Assumed = true
			// Never thicker than a slip can be, whatever the others are.
			e.SG = min(1+dry*(e.Solids-1)/e.Solids, 1+thickest*(e.Solids-1))
			e.settle()
		}
	}
}

// corners are the end slips whose blends make a series by pouring, as percents of
// each series' material over their recipe, and for each point its shares of them.
//
// A line has the slips of the lowest and the highest percentage; a biaxial
// those of the four corners, blended bilinearly; a triaxial one for each
// series; rows share the base, and have the slip of its highest percentage each.
// A point that lies at one slip takes nothing of the others.
func corners(b Blend, points []design.Point) (slips, shares [][]float64) {
	alone := func(series int, percent float64) []float64 {
		percents := make([]float64, len(b.Series))
		percents[series] = percent
		return percents
	}
	shares = make([][]float64, len(points))
	switch b.Kind {
	case Triaxial:
		for k, series := range b.Series {
			slips = append(slips, alone(k, series.To))
		}
		for i, p := range points {
			shares[i] = p.Shares
		}
	case Rows:
		slips = [][]float64{alone(0, 0)}
		for k, series := range b.Series {
			slips = append(slips, alone(k, slices.Max(series.Percents)))
		}
		for i, p := range points {
			base := 1.0
			shares[i] = make([]float64, len(slips))
			for k, x := range p.Shares {
				if x > 0 {
					shares[i][k+1] = x / slips[k+1][k]
					base -= shares[i][k+1]
				}
			}
			shares[i][0] = base
		}
	default:
		return bilinear(b.Series, points)
	}
	return slips, shares
}

// bilinear is corners of a line or a biaxial. One series at a time doubles the
// slips: those so far with its lowest percentage, then the same with its highest.
func bilinear(all []Series, points []design.Point) (slips, shares [][]float64) {
	slips, shares = [][]float64{nil}, make([][]float64, len(points))
	for i := range shares {
		shares[i] = []float64{1}
	}
	for k, series := range all {
		low, high := slices.Min(series.Percents), slices.Max(series.Percents)
		whole := len(slips)
		for _, percents := range slips[:whole] {
			slips = append(slips, append(slices.Clone(percents), high))
		}
		for n, percents := range slips[:whole] {
			slips[n] = append(slices.Clone(percents), low)
		}
		if low == high {
			slips = slips[:whole]
			continue
		}
		for i, p := range points {
			part := (p.Shares[k] - low) / (high - low)
			for n, x := range shares[i] {
				shares[i] = append(shares[i], x*part)
				shares[i][n] *= 1 - part
			}
		}
	}
	return slips, shares
}

// cornerEnd is the base with percents of each series' material stirred in dry: its
// water per gram of recipe stays.
func cornerEnd(base End, percents []float64, series []Series, densities []float64) End {
	e := base
	e.Percents = percents
	e.Additions = append([]Part(nil), base.Additions...)
	names := []string{base.Name}
	volume := (1 + base.Over) / base.Solids // mL of solids with 1 g of recipe
	for i, p := range percents {
		if p == 0 {
			continue
		}
		e.Additions = append(e.Additions, Part{Material: series[i].Material, Percent: p})
		names = append(names, quantity.PercentText(p)+" % "+series[i].Material)
		volume += p / 100 / densities[i]
	}
	e.Name = strings.Join(names, " + ")
	e.Over = over(e.Additions)
	e.Solids = (1 + e.Over) / volume
	e.SG = slip.Mixed(base.WaterPerG*(1+base.Over)/(1+e.Over), e.Solids).SG
	e.settle()
	return e
}

// SeriesPart is where the material of a series is among the recipe and then the
// additions of an end that holds some of it.
func (e End) SeriesPart(series int) int {
	part := len(e.Recipe) + len(e.Additions)
	for _, p := range e.Percents[series:] {
		if p != 0 {
			part--
		}
	}
	return part
}
