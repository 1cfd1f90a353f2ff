package plan

import (
	"bytes"
	"math"
	"regexp"
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// doses checks what only a series has: base, method and each [[blend.series]].
func (f fields) doses(d *draft) {
	b := &d.plan.Blend
	if d.base != "" {
		b.Base = f.glazeNamed(d, d.base, f.at("base"), "base")
	}
	b.Basis = blend.Dry
	if b.Method == "" {
		b.Method = blend.ByDose
	}
	if !f.has("series") {
		f.missing(f.line, "[blend] has a base and no [[blend.series]]", `one for each colourant, with material = "Copper carbonate" and percent = [0, 1, 2]`)
	}
	seen := map[string]bool{}
	for _, it := range d.items["blend.series"] {
		s := it.series
		name := quantity.Fold(s.Material)
		if name != "" && seen[name] && b.Kind != blend.Rows {
			f.problem(it.fields.at("material"), "two series are of "+quote(s.Material), "another material in one of them")
		}
		seen[name] = true
		if b.Kind == blend.Triaxial {
			it.corner()
		} else {
			s.Percents, s.To = it.steps(), 0
		}
		b.Series = append(b.Series, s)
	}
}

// corner checks a series of a triaxial: its percentage at its own corner.
func (it *item) corner() {
	f := it.fields
	if !f.has("to") {
		f.missing(f.line, "the series has no to", "the percentage at its corner: to = 4")
	} else if it.series.To == 0 && len(f.problems) == 0 {
		f.wrong("to", "leaves the corner without the colourant", "a percentage above 0")
	}
}

// steps is the percentages of a series, written out or from and to.
func (it *item) steps() []float64 {
	f := it.fields
	if f.has("percent") {
		for _, key := range []string{"from", "to", "cells", "spacing"} {
			if f.has(key) {
				f.problem(f.at(key), "the series has percent and "+key, "keep percent, or from, to and cells")
			}
		}
		it.decimalCommas()
		return it.series.Percents
	}
	for _, key := range []string{"from", "to", "cells"} {
		if !f.has(key) && !(it.spacing == "doubling" && key == "to") {
			f.missing(f.line, "the series has neither percent nor "+key, "percent = [0, 0.5, 1, 2], or from = 0, to = 4, cells = 5")
			return nil
		}
	}
	if it.cells < 2 || len(f.problems) > 0 {
		return nil // a problem already
	}
	return it.spaced()
}

// tightComma is a comma with no blank behind it, between whole numbers.
var tightComma = regexp.MustCompile(`(^|[^.\d])\d+,\d`)

// decimalCommas asks about a list of percentages that a decimal comma may be
// among: one that goes up and down, as [0, 0,5, 1] does, or one that was typed
// with and without a blank behind its commas, as [1, 2,5].
func (it *item) decimalCommas() {
	f := it.fields
	percents := it.series.Percents
	falling := slices.Clone(percents)
	slices.Reverse(falling)
	what := ""
	if !slices.IsSorted(percents) && !slices.IsSorted(falling) {
		what = " that neither rise nor fall"
	} else if lines := bytes.Split(f.src, []byte("\n")); f.at("percent") > len(lines) {
		return
	} else if line := lines[f.at("percent")-1]; !bytes.Contains(line, []byte(", ")) || !tightComma.Match(line) {
		return
	}
	f.caution(f.at("percent"), "percent", "is read as "+quantity.Plural(len(percents), "percentage", "percentages")+what,
		"if a decimal comma is among them, write a point")
}

// spaced is the percentages of from, to, cells and spacing.
func (it *item) spaced() []float64 {
	f := it.fields
	doubling := it.spacing == "doubling"
	from, to := it.from, it.series.To
	if doubling && !f.has("to") { // each twice the one before
		to = from * math.Pow(2, float64(it.cells-1))
	}
	switch {
	case doubling && (from == 0 || to == 0):
		f.problem(f.at("from"), "a percentage of 0 cannot be doubled", "above 0, as in from = 0.25")
	case !(to < 100):
		f.problem(f.at("cells"), "doubled over "+quantity.Plural(it.cells, "cup", "cups")+" the series goes beyond 100 %", "fewer cells or a smaller from")
	default:
		return it.between(from, to, doubling)
	}
	return nil
}

// between is the percentages from the first to the last.
func (it *item) between(from, to float64, doubling bool) []float64 {
	all := make([]float64, it.cells)
	for i := range all {
		along := float64(i) / float64(len(all)-1)
		x := from + (to-from)*along
		if doubling {
			x = from * math.Pow(to/from, along)
		}
		all[i] = math.Round(x*1e9) / 1e9
	}
	all[0], all[len(all)-1] = from, to
	return all
}

// seriesFit checks that a design of doses has the series that its kind takes,
// and reports whether its kind takes any.
func (f fields) seriesFit(b *blend.Blend) bool {
	const right = `kind = "line" for one, "biaxial" for two across and down, "triaxial" for three, "rows" for a row each`
	want, known := map[blend.Kind]int{blend.Line: 1, blend.Biaxial: 2, blend.Triaxial: 3, blend.Rows: 0}[b.Kind]
	if !known {
		f.problem(f.at("kind"), "a "+string(b.Kind)+" cannot be made of one base and series", right)
		return false
	}
	if n := len(b.Series); want > 0 && n > 0 && n != want {
		f.problem(f.at("series"), "a "+string(b.Kind)+" has "+strconv.Itoa(want)+" [[blend.series]], here there are "+strconv.Itoa(n), right)
	}
	for i, s := range b.Series {
		if b.Method == blend.ByPour && len(s.Percents) == 1 {
			f.problem(f.at("series"), "series "+strconv.Itoa(i+1)+" has one step, and blending takes two end glazes", `two steps or more, or method = "dose"`)
		}
	}
	return true
}
