package blend

import (
	"pourboard/blend/design"
	"pourboard/blend/quantity"
	"strings"

	"pourboard/blend/oxide"
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
	recipe, additions := percent(g)
	density, missing := lib.SolidsDensity(oxideParts(recipe, additions))
	if len(missing) > 0 || !(density > 1) {
		return assumedSolids
	}
	return density
}

// percent is a glaze's recipe brought to 100, and its additions.
func percent(g Glaze) (recipe, additions []Part) {
	sum := 0.0
	for _, p := range g.Recipe {
		sum += p.Percent
	}
	recipe = make([]Part, len(g.Recipe))
	for i, p := range g.Recipe {
		recipe[i] = Part{p.Material, 100 * p.Percent / sum}
	}
	return recipe, g.Additions
}

func oxideParts(lists ...[]Part) []oxide.Part {
	var all []oxide.Part
	for _, list := range lists {
		for _, p := range list {
			all = append(all, oxide.Part{Material: p.Material, Amount: p.Percent})
		}
	}
	return all
}

// over is what additions weigh with 1 g of recipe, in g.
func over(additions []Part) float64 {
	sum := 0.0
	for _, p := range additions {
		sum += p.Percent / 100
	}
	return sum
}

// newEnd works out a glaze's slip; without a specific gravity it is left open.
func newEnd(g Glaze, lib oxide.Library) End {
	e := End{Name: g.Name, Solids: g.SolidsDensity(lib), SG: g.SG, Bucket: len(g.Recipe) == 0}
	e.Recipe, e.Additions = percent(g)
	e.Over = over(e.Additions)
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

// corner says how much of each series' material an end glaze holds, in percent
// of its recipe.
type corner []float64

// corners are the end slips whose blends make a series by pouring, and for
// each point its shares of their recipe.
//
// A line has the slips of the lowest and the highest percentage; a biaxial
// those of the four corners, blended bilinearly; a triaxial one for each
// series; rows share the base, and have the slip of its highest percentage each.
// A point that lies at one slip takes nothing of the others.
func corners(b Blend, points []design.Point) (slips []corner, shares [][]float64) {
	shares = make([][]float64, len(points))
	switch b.Kind {
	case Triaxial:
		for i := range b.Series {
			c := make(corner, len(b.Series))
			c[i] = b.Series[i].To
			slips = append(slips, c)
		}
		for i, p := range points {
			shares[i] = p.Shares
		}
		return slips, shares
	case Rows:
		return rowCorners(b, points)
	}
	// One series at a time doubles the slips: those so far with its lowest
	// percentage, then the same with its highest.
	slips = []corner{{}}
	for i := range shares {
		shares[i] = []float64{1}
	}
	for k, series := range b.Series {
		across := spanOf(series.Percents)
		low := slips
		slips = nil
		for _, c := range low {
			slips = append(slips, append(c[:k:k], across.lo))
		}
		if across.lo == across.hi {
			continue
		}
		for _, c := range low {
			slips = append(slips, append(c[:k:k], across.hi))
		}
		for i, p := range points {
			u := across.place(p.Shares[k])
			n := len(shares[i])
			for _, x := range shares[i][:n:n] {
				shares[i] = append(shares[i], u*x)
			}
			for j := range n {
				shares[i][j] *= 1 - u
			}
		}
	}
	return slips, shares
}

// rowCorners is corners for rows.
func rowCorners(b Blend, points []design.Point) (slips []corner, shares [][]float64) {
	none := make(corner, len(b.Series))
	slips = []corner{none}
	for i, series := range b.Series {
		c := make(corner, len(b.Series))
		c[i] = spanOf(series.Percents).hi
		slips = append(slips, c)
	}
	for _, p := range points {
		s := make([]float64, len(slips))
		s[0] = 1
		for i, x := range p.Shares {
			if x > 0 {
				u := x / slips[i+1][i]
				s[0], s[i+1] = 1-u, u
			}
		}
		shares = append(shares, s)
	}
	return slips, shares
}

// span is the range of a series' percentages.
type span struct{ lo, hi float64 }

func spanOf(percents []float64) span {
	s := span{percents[0], percents[0]}
	for _, p := range percents {
		s.lo, s.hi = min(s.lo, p), max(s.hi, p)
	}
	return s
}

// place is where a percentage lies between lo, 0, and hi, 1.
func (s span) place(p float64) float64 {
	if s.hi == s.lo {
		return 0
	}
	return (p - s.lo) / (s.hi - s.lo)
}

// cornerEnd is the base with a corner's additions stirred in dry: its water per
// gram of recipe stays.
func cornerEnd(base End, c corner, series []Series, densities []float64) End {
	e := base
	e.Percents = c
	e.Additions = append([]Part(nil), base.Additions...)
	names := []string{base.Name}
	volume := (1 + base.Over) / base.Solids // mL of solids with 1 g of recipe
	for i, p := range c {
		if p == 0 {
			continue
		}
		e.Additions = append(e.Additions, Part{series[i].Material, p})
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

// SeriesPart is where the material of a series is among the recipe and the
// additions of an end slip that holds some of it.
func (t *Test) SeriesPart(end, series int) int {
	e := t.Ends[end]
	part := len(e.Recipe) + len(t.Base.Additions)
	for _, p := range e.Percents[:series] {
		if p != 0 {
			part++
		}
	}
	return part
}
