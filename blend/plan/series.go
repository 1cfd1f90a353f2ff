package plan

import (
	"math"
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// doses checks what only a series has: base, method and each [[blend.series]].
func (f fields) doses() {
	b := &f.d.Blend
	if f.d.Base != "" {
		b.Base = f.glazeNamed(f.d.Base, "base")
	}
	b.Basis = blend.Dry
	if b.Method == "" {
		b.Method = blend.ByDose
	}
	if !f.has("series") {
		f.missing(f.group.line, "[blend] has a base and no [[blend.series]]",
			`one for each colourant, with material = "Copper carbonate" and percent = [0, 1, 2]`)
	}
	seen := map[string]bool{}
	for _, it := range f.d.items["blend.series"] {
		s := it.Series
		name := quantity.Fold(s.Material)
		if name != "" && seen[name] && b.Kind != blend.Rows {
			f.problem(it.at("material"), "two series are of "+quote(s.Material), "another material in one of them")
		}
		seen[name] = true
		if b.Kind == blend.Triaxial {
			it.corner()
		} else {
			s.Percents, s.To = it.steps(), 0
		}
		b.Series = append(b.Series, s)
	}
	f.seriesFit()
}

// corner checks a series of a triaxial: its percentage at its own corner.
func (it *item) corner() {
	if !it.has("to") {
		it.missing(it.group.line, "the series has no to", "the percentage at its corner: to = 4")
	} else if it.Series.To == 0 && len(it.problems) == 0 {
		it.wrong("to", "leaves the corner without the colourant", "a percentage above 0")
	}
}

// written checks that the percentages of a series are written out, or from and to.
func (it *item) written() {
	for _, key := range []string{"from", "to", "cells", "spacing"} {
		switch {
		case it.has("percent") && it.has(key):
			it.problem(it.at(key), "the series has percent and "+key, "keep percent, or from, to and cells")
		case it.has("percent", key), key == "spacing", key == "to" && it.Spacing == "doubling":
		default:
			it.missing(it.group.line, "the series has neither percent nor "+key,
				"percent = [0, 0.5, 1, 2], or from = 0, to = 4, cells = 5")
		}
	}
}

// steps is the percentages of a series, nil after a problem.
func (it *item) steps() []float64 {
	it.written()
	if it.has("percent") {
		it.decimalCommas()
		return it.Series.Percents
	}
	if len(it.problems) > 0 {
		return nil
	}
	from, to, doubling := it.From, it.Series.To, it.Spacing == "doubling"
	if doubling && !it.has("to") { // each twice the one before
		to = from * math.Pow(2, float64(it.Steps-1))
	}
	switch {
	case doubling && (from == 0 || to == 0):
		it.problem(it.at("from"), "a percentage of 0 cannot be doubled", "above 0, as in from = 0.25")
	case !(to < 100):
		it.problem(it.at("cells"), "doubled over "+quantity.Plural(it.Steps, "cup", "cups")+" the series goes beyond 100 %",
			"fewer cells or a smaller from")
	default:
		return between(from, to, it.Steps, doubling)
	}
	return nil
}

// between is n percentages from the first to the last.
func between(from, to float64, n int, doubling bool) []float64 {
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
	return all
}

// decimalCommas asks about percentages that go up and down: [0, 0,5, 1] was typed
// with decimal commas.
func (it *item) decimalCommas() {
	percents := it.Series.Percents
	falling := slices.Clone(percents)
	slices.Reverse(falling)
	if !slices.IsSorted(percents) && !slices.IsSorted(falling) {
		read := "is read as " + quantity.Plural(len(percents), "percentage", "percentages") + " that neither rise nor fall"
		it.caution(it.at("percent"), "percent", read, "if a decimal comma is among them, write a point")
	}
}

// seriesFit checks that a design of doses has the series that its kind takes.
func (f fields) seriesFit() {
	const right = `kind = "line" for one, "biaxial" for two across and down, "triaxial" for three, "rows" for a row each`
	b := &f.d.Blend
	n := len(b.Series)
	want, known := map[blend.Kind]int{"": n, blend.Line: 1, blend.Biaxial: 2, blend.Triaxial: 3, blend.Rows: n}[b.Kind]
	switch {
	case !known:
		f.problem(f.at("kind"), "a "+string(b.Kind)+" cannot be made of one base and series", right)
	case n > 0 && n != want:
		takes := "a " + string(b.Kind) + " has " + strconv.Itoa(want) + " [[blend.series]]"
		f.problem(f.at("series"), takes+", here there are "+strconv.Itoa(n), right)
	}
	oneStep := func(s blend.Series) bool { return len(s.Percents) == 1 }
	if b.Method == blend.ByPour && slices.ContainsFunc(b.Series, oneStep) {
		f.problem(f.at("series"), "a series has one step, and blending takes two end glazes",
			`two steps or more, or method = "dose"`)
	}
}
