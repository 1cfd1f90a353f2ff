package blend

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"pourboard/blend/oxide"
)

// Target is a value of a fired glaze that cups are looked for by.
type Target struct {
	Oxide oxide.Oxide
	Over  oxide.Oxide // a ratio of moles, Oxide : Over; empty otherwise
	Unity bool        // mol of the unity formula, in place of weight %
	Value float64     // above 0
}

// value is the target's quantity in a fired glaze; ok is false where there is none.
func (g Target) value(c oxide.Chemistry) (x float64, ok bool) {
	switch {
	case g.Over != "":
		below := oxide.Of(c.MolPercent, g.Over)
		return oxide.Of(c.MolPercent, g.Oxide) / below, below > 0
	case g.Unity:
		return oxide.Of(c.Unity, g.Oxide), c.Unity != nil
	}
	return oxide.Of(c.WeightPercent, g.Oxide), len(c.WeightPercent) > 0
}

// Near is a cup with its values of the targets.
type Near struct {
	Cup    int // by number
	Values []float64
	off    float64
}

// Nearest are the cups in the order of how near they come to the targets, as
// measured: by the root sum of squares of (value − target)/target. Cups without
// chemistry are left out; the error says that none has any.
func (t *Test) Nearest(targets []Target) (all []Near, err error) {
cups:
	for i := range t.Cells {
		chemistry, near := t.Chemistry(i, Measured), Near{Cup: i + 1}
		for _, target := range targets {
			x, ok := target.value(chemistry)
			if !ok {
				continue cups
			}
			near.Values = append(near.Values, x)
			near.off = math.Hypot(near.off, (x-target.Value)/target.Value)
		}
		all = append(all, near)
	}
	if all == nil {
		return nil, errors.New("no cup has a value to compare (chemistry needs the analysis of every material)")
	}
	// Below nine digits a difference is of the arithmetic.
	slices.SortStableFunc(all, func(a, b Near) int { return cmp.Compare(math.Round(a.off*1e9), math.Round(b.off*1e9)) })
	return all, nil
}
