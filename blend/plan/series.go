package plan

import (
	"math"
	"slices"
	"strconv"

	"pourboard/blend"
)

// doses checks what only a series has: base, method and each [[blend.series]].
func (f fields) doses(d *draft, m *materials) {
	b := &d.plan.Blend
	if !f.has("base") {
		f.missing(f.line, "[blend] has no base", f.s.find("base").line())
	} else if d.base != "" {
		b.Base = f.find(d, d.base, f.at("base"), "base")
	}
	b.Basis = blend.Dry
	if b.Method == "" {
		b.Method = blend.ByDose
	}
	if b.Method == blend.ByWeigh {
		f.weigh(d)
	}
	if !f.has("series") {
		f.missing(f.line, "[blend] has a base and no [[blend.series]]", `one for each colourant, with material = "Copper carbonate" and percent = [0, 1, 2]`)
	}
	seen := map[string]bool{}
	for _, s := range d.steps {
		g := s.fields
		if name := fold(s.Material); name != "" {
			if seen[name] && b.Kind != blend.Rows {
				g.problem(g.at("material"), "two series are of "+quote(s.Material), "another material in one of them")
			}
			seen[name] = true
			m.use(s.Material, g.at("material"))
		}
		if b.Kind == blend.Triaxial {
			s.corner()
		} else {
			s.To, s.Percents = 0, s.list()
		}
		b.Series = append(b.Series, s.Series)
	}
}

// corner checks a series of a triaxial: its percentage at its own corner.
func (s *seriesDraft) corner() {
	f := s.fields
	if !f.has("to") {
		f.missing(f.line, "the series has no to", "the percentage at its corner: to = 4")
	} else if s.To == 0 && len(f.problems) == 0 {
		f.problem(f.at("to"), f.shown("to")+" leaves the corner without the colourant", "a percentage above 0")
	}
}

// list is the percentages of a series, written out or from and to.
func (s *seriesDraft) list() []float64 {
	f := s.fields
	if !f.has("percent") {
		if !f.has("from") && !f.has("to") && !f.has("cells") {
			f.missing(f.line, "the series has no steps", "percent = [0, 0.5, 1, 2], or from = 0, to = 4, cells = 5")
			return nil
		}
		return s.spaced()
	}
	for _, key := range []string{"from", "to", "cells", "spacing"} {
		if f.has(key) {
			f.problem(f.at(key), "the series has percent and "+key, "keep percent, or from, to and cells")
		}
	}
	s.unordered()
	return s.percents
}

// unordered asks about a list of percentages that goes up and down, as one does
// with a decimal comma in it.
func (s *seriesDraft) unordered() {
	falling := slices.Clone(s.percents)
	slices.Reverse(falling)
	if !slices.IsSorted(s.percents) && !slices.IsSorted(falling) {
		s.fields.caution(s.fields.at("percent"), "percent", "is read as "+plural(len(s.percents), "percentage")+" that neither rise nor fall", "", "if a decimal comma is among them, write a point")
	}
}

// spaced is the percentages of from, to, cells and spacing.
func (s *seriesDraft) spaced() []float64 {
	f := s.fields
	doubling := s.spacing == "doubling"
	for _, key := range []string{"from", "to", "cells"} {
		if !f.has(key) && !(doubling && key == "to") {
			f.missing(f.line, "the series has no "+key, "from = 0, to = 4, cells = 5")
			return nil
		}
	}
	from, to, n := s.from, s.To, s.cells
	if n < 2 || len(f.problems) > 0 {
		return nil // told already
	}
	if doubling && !f.has("to") { // each twice the one before
		to = from * math.Pow(2, float64(n-1))
	}
	switch {
	case doubling && from == 0:
		f.problem(f.at("from"), f.shown("from")+" cannot be doubled", "above 0, as in from = 0.25")
		return nil
	case !(to < largestDose):
		f.problem(f.at("cells"), "doubled over "+plural(n, "cup")+" the series goes beyond 100 %", "fewer cells or a smaller from")
		return nil
	case from == to:
		f.problem(f.at("to"), "the series goes from "+number(from)+" to "+number(to)+" %", "two different percentages")
		return nil
	case doubling && to == 0:
		f.problem(f.at("to"), f.shown("to")+" is not reached by doubling", `above 0, or spacing = "even"`)
		return nil
	}
	return s.between(from, to, n, doubling)
}

// between is n percentages from the first to the last.
func (s *seriesDraft) between(from, to float64, n int, doubling bool) []float64 {
	all := make([]float64, n)
	for i := range all {
		along := float64(i) / float64(n-1)
		x := from + (to-from)*along
		if doubling {
			x = from * math.Pow(to/from, along)
		}
		all[i] = math.Round(x*1e9) / 1e9
	}
	all[0], all[n-1] = from, to
	for i, x := range all {
		if x < 0 || i > 0 && x == all[i-1] {
			s.fields.problem(s.fields.at("cells"), "the steps of the series are too small to be told apart", "fewer cells")
			return nil
		}
	}
	return all
}

// seriesSteps checks how many series and cups a design of doses has.
func (f fields) seriesSteps(d *draft) {
	b := &d.plan.Blend
	const right = `kind = "line" for one, "biaxial" for two across and down, "triaxial" for three, "rows" for a row each`
	want, known := map[blend.Kind]int{blend.Line: 1, blend.Biaxial: 2, blend.Triaxial: 3, blend.Rows: 0}[b.Kind]
	if !known {
		f.problem(f.at("kind"), "a "+string(b.Kind)+" cannot be made of one base and series", right)
		return
	}
	if n := len(b.Series); want > 0 && n > 0 && n != want {
		f.problem(f.at("series"), "a "+string(b.Kind)+" has "+strconv.Itoa(want)+" [[blend.series]], here there are "+strconv.Itoa(n), right)
	}
	if b.Kind == blend.Triaxial {
		f.lattice(d, 3)
		return
	}
	for i, s := range b.Series {
		if b.Method == blend.ByPour && len(s.Percents) == 1 {
			f.problem(f.at("series"), "series "+strconv.Itoa(i+1)+" has one step, and blending takes two end glazes", `two steps or more, or method = "dose"`)
		}
	}
}
