package blend

import (
	"cmp"
	"math"
	"slices"

	"pourboard/blend/measure"
)

// Dilution is a colourant ground with dry base (recipe and additions), so that
// its doses that are too small for the scale can be weighed in the mix.
type Dilution struct {
	Series     int
	Parts      int     // g of the mix that hold 1 g of colourant: 5 for 1 + 4
	ColourantG float64 // to grind, in whole steps of the scale that weighs doses
	BaseG      float64 // dry base to grind with it
	Doses      []DilutedDose
}

// DilutedDose is a dose that is weighed in a mix. What the mix brings of base is
// left out of the cup, so that it has as much base as the others.
type DilutedDose struct {
	Percent   float64 // asked
	Cups      []int   // numbers, from 1
	Steps     int64   // of the mix, in steps of the scale that weighs doses
	MixG      float64 // the same in g
	BaseG     float64 // dry base in it
	LessSteps int64   // to pour less, in steps of the pouring instrument; 0 where that cannot pour it
	LessG     float64 // otherwise wet glaze to take out of the cup, in g, in steps of the scale
	WaterG    float64 // that the wet glaze left out would have brought, in whole g
	PlusMinus float64 // ± of the percentage (2u), as a fraction of it

	dose Dose
	pour Pour
}

// dilutions of a colourant in dry base: one part in so many.
var dilutions = [...]int{2, 5, 10, 20, 50, 100}

const (
	// mostTriturate is how much of a cup's dry base may come with a mix, dry, in
	// place of wet glaze (common practice, no source).
	mostTriturate = 0.1
	// SameBase is how much of the plan's limit the base of a cup may differ from
	// that of the others for pouring less in whole steps.
	SameBase = 0.1
)

// findDilutions are the mixes that bring doses within the plan's limit, by series.
func findDilutions(t *Test) []Dilution {
	if t.Plan.Blend.Method != ByDose || t.Ends[0].Bucket {
		return nil
	}
	var all []Dilution
	for s := range t.Plan.Blend.Series {
		small := smallDoses(t, s)
		for _, parts := range dilutions {
			if d, ok := dilute(t, s, parts, small); ok {
				all = append(all, d)
				break
			}
		}
	}
	return all
}

// smallDoses are the doses of a series that are over the plan's limit, alike
// ones together, from the smallest.
func smallDoses(t *Test, s int) (small []DilutedDose) {
	for _, c := range t.Cells {
		d, p := c.Doses[s], c.Pours[0]
		if d.Percent == 0 || p.Got.ML == 0 || d.GotPercent > 0 && d.PlusMinus <= d.GotPercent*t.Plan.Kit.Worst*(1+hair) {
			continue
		}
		alike := func(x DilutedDose) bool { return x.Percent == d.Percent && x.pour.Got.ML == p.Got.ML }
		i := slices.IndexFunc(small, alike)
		if i < 0 {
			i = len(small)
			small = append(small, DilutedDose{Percent: d.Percent, dose: d, pour: p})
		}
		small[i].Cups = append(small[i].Cups, c.Number)
	}
	slices.SortStableFunc(small, func(a, b DilutedDose) int { return cmp.Compare(a.dose.G, b.dose.G) })
	return small
}

// dilute is the mix of one part of a colourant in so many for its small doses;
// ok is false where the smallest is not within the limit then, the mix brings
// too much dry base, or MostSpare times what is needed would have to be ground.
func dilute(t *Test, s, parts int, small []DilutedDose) (d Dilution, ok bool) {
	kit, base := t.Plan.Kit, float64(parts-1)
	scale := kit.Dosing()
	d = Dilution{Series: s, Parts: parts}
	need := 0.0 // g of colourant
	for _, x := range small {
		if x.dose.G*base > mostTriturate*x.pour.Got.RecipeG*(1+hair) {
			continue
		}
		if x.Steps = scale.Count(x.dose.G * float64(parts)); x.Steps == 0 {
			return d, false
		}
		x.MixG = scale.Amount(x.Steps)
		x.BaseG = x.MixG * base / float64(parts)
		leaveOut(t, &x)
		d.Doses = append(d.Doses, x)
		need += x.MixG / float64(parts) * float64(len(x.Cups))
	}
	if len(d.Doses) == 0 {
		return d, false
	}
	for g := measure.Convenient(need * (1 + kit.Extra)); g <= MostSpare*need; g = nextConvenient(g) {
		d.ColourantG = scale.RoundedUp(g)
		d.BaseG = d.ColourantG * base
		// The mix holds c/(c+b) of colourant; two weighings make it.
		mix := base / float64(parts) * measure.RootSumSquare(scale.Tared()/d.ColourantG, scale.Tared()/d.BaseG)
		for i := range d.Doses {
			x := &d.Doses[i]
			pouring := t.pouring(&t.Cells[x.Cups[0]-1])
			pour := math.Hypot(pouring.Tare, pouring.U) / x.pour.Got.Shown(kit)
			x.PlusMinus = measure.Coverage * measure.RootSumSquare(pour, scale.Tared()/x.MixG, mix)
		}
		if d.Doses[0].PlusMinus <= kit.Worst*(1+hair) {
			return d, true
		}
	}
	return d, false
}

// leaveOut works out what to leave out of a cup for the base that a mix brings:
// less to pour where whole steps come near enough, else wet glaze in g.
func leaveOut(t *Test, x *DilutedDose) {
	kit, e := t.Plan.Kit, t.Ends[0]
	ml := x.BaseG / e.DryPerML
	less := ml * e.perML(kit)
	steps := kit.Pour.Count(less)
	near := math.Abs(less-kit.Pour.Amount(steps)) <= SameBase*kit.Worst*x.pour.Got.Shown(kit)
	if near && steps > 0 && !x.pour.Other && kit.Fill == 0 {
		x.LessSteps = steps
		ml = kit.Pour.Amount(steps) / e.perML(kit)
	} else {
		scale := kit.Dosing()
		x.LessG = scale.Rounded(ml * e.SG)
		ml = x.LessG / e.SG
	}
	x.WaterG = cupWaterStep.Rounded(ml * (e.SG - e.DryPerML))
}
