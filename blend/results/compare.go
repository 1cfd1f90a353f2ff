package results

import (
	"slices"

	"pourboard/blend"
	"pourboard/blend/record"
)

// Comparison is several logs side by side: firings of one test, or several tests.
type Comparison struct {
	Results []*Results // in the order given, each evaluated alone
	// OneDesign says that all tests blend the same glazes, or dose the same
	// colourants into the same base: then they are modelled together.
	OneDesign bool
	// Together is what came of modelling each column of numbers that all logs
	// have, with bodies and firings as additive terms; nil unless OneDesign.
	Together []Together
}

// Together is a column of numbers of several logs.
type Together struct {
	Measure *Measure // of the first log
	Model   Model
}

// Compare holds logs against each other.
func Compare(all []*Results) *Comparison {
	c := &Comparison{Results: all, OneDesign: true}
	for _, r := range all[1:] {
		c.OneDesign = c.OneDesign && oneDesign(all[0].Test, r.Test)
	}
	if !c.OneDesign {
		return c
	}
	for _, m := range all[0].Judged() {
		everywhere := !slices.ContainsFunc(all, func(r *Results) bool {
			return !slices.ContainsFunc(r.Judged(), func(other *Measure) bool { return other.Head == m.Head })
		})
		if everywhere {
			model := all[0].fit(measured(all, m.Head), AllBodies, m.Field != record.RatingField)
			c.Together = append(c.Together, Together{m, model})
		}
	}
	return c
}

// oneDesign reports whether mixtures of two tests are points of one space: the
// same glazes by name and recipe, the same colourants.
func oneDesign(a, b *blend.Test) bool {
	if a.Plan == b.Plan {
		return true
	}
	p, q := a.Plan.Blend, b.Plan.Blend
	spaceA, endsA := endsOf(a)
	spaceB, endsB := endsOf(b)
	if spaceA != spaceB || p.HasSeries() != q.HasSeries() || !slices.Equal(endsA, endsB) || p.Basis != q.Basis {
		return false
	}
	return slices.EqualFunc(p.Glazes(), q.Glazes(), func(i, k int) bool {
		g, h := a.Plan.Glazes[i], b.Plan.Glazes[k]
		return g.Name == h.Name && slices.Equal(g.Recipe, h.Recipe) && slices.Equal(g.Additions, h.Additions)
	})
}
