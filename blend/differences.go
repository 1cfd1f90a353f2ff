package blend

import (
	"cmp"
	"math"
	"slices"
)

// Difference is what measuring in whole steps makes of one share or percentage
// of a cup.
type Difference struct {
	Cell      int    // number
	Of        string // the end or the material
	Asked     float64
	Got       float64 // both in percent
	PlusMinus float64 // of Got, percentage points
}

// Differences lists the shares, or in a series the percentages, that come out
// other than asked, largest first: shares by percentage points, percentages of
// a series relative to what is asked, for a tenth more is as much of a weak
// colourant as of a strong one.
func (t *Test) Differences() []Difference {
	var all []Difference
	for _, c := range t.Cells {
		all = append(all, t.differences(c)...)
	}
	size := func(d Difference) float64 {
		off := math.Abs(d.Got - d.Asked)
		if t.Plan.Blend.HasSeries() && d.Asked > 0 {
			off /= d.Asked
		}
		return math.Round(off*1e6) / 1e6 // less is of the arithmetic, not of the jug
	}
	all = slices.DeleteFunc(all, func(d Difference) bool { return size(d) == 0 })
	slices.SortStableFunc(all, func(a, b Difference) int { return cmp.Compare(size(b), size(a)) })
	return all
}

// differences are the shares of a cup, or in a series its percentages, whether
// they differ or not.
func (t *Test) differences(c Cell) (all []Difference) {
	all = make([]Difference, 0, len(c.Pours)+len(c.Doses))
	if !t.Plan.Blend.HasSeries() {
		for e, p := range c.Pours {
			all = append(all, Difference{c.Number, t.Ends[e].Name, 100 * c.Shares[e], 100 * p.GotShare, 100 * p.PlusMinus})
		}
	}
	for s, d := range c.Doses {
		all = append(all, Difference{c.Number, t.Plan.Blend.Series[s].Material, d.Percent, d.GotPercent, d.PlusMinus})
	}
	return all
}
