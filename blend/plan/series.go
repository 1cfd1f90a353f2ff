package plan

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
)

// doses reads what only family B has: base, method and each [[blend.series]].
func (f fields) doses(b *blend.Blend, glazes []string, m *materials) {
	if !f.has("base") {
		f.missing(f.line, "[blend] has no base", `the glaze that is dosed: base = "Magnesia matte"`)
	}
	if name, ok := f.words("base", "Magnesia matte"); ok {
		b.Base = f.find(name, f.at("base"), glazes, "base")
	}
	b.Basis, b.Method = blend.Dry, blend.ByDose
	if method, ok := f.choice("method", string(blend.ByDose), string(blend.ByStock), string(blend.ByPour)); ok {
		b.Method = blend.Method(method)
	}
	if !f.has("series") {
		f.missing(f.line, "[blend] has a base and no [[blend.series]]", `one for each colourant, with material = "Copper carbonate" and percent = [0, 1, 2]`)
	}
	seen := map[string]bool{}
	for _, g := range f.groups("series", "blend.series") {
		if !g.has("material") {
			g.missing(g.line, "a [[blend.series]] has no material", `material = "Copper carbonate"`)
		}
		name, ok := g.words("material", "Copper carbonate")
		if ok && seen[fold(name)] {
			g.problem(g.at("material"), "there are two series of "+quote(name), "another material in one of them")
		}
		if ok {
			seen[fold(name)] = true
			m.use(name, g.at("material"))
		}
		s := blend.Series{Material: name}
		if b.Kind == blend.Triaxial {
			g.corner(&s)
		} else {
			g.percents(&s)
		}
		g.high(s)
		b.Series = append(b.Series, s)
	}
}

// largestDose is what a percentage of the dry base stays below.
const largestDose = 100

// high asks about a dose that is large for a colourant.
func (f fields) high(s blend.Series) {
	highest := s.To
	for _, p := range s.Percents {
		highest = max(highest, p)
	}
	if highest > mostPercent && highest < largestDose {
		f.caution(f.line, "series of "+s.Material, "goes up to "+number(highest)+" % of the dry base",
			"that is much for a colourant", "is it percent of the base in each cup?")
	}
}

// corner reads a series of a triaxial: its percentage at its own corner.
func (f fields) corner(s *blend.Series) {
	for _, key := range []string{"percent", "from", "cells", "spacing"} {
		if f.has(key) {
			f.problem(f.at(key), key+" does not belong to a series of a triaxial", "to = 4, the percentage at its corner; divisions in [blend] give the steps")
		}
	}
	if !f.has("to") {
		f.missing(f.line, "the series has no to", "the percentage at its corner: to = 4")
		return
	}
	s.To, _ = f.dose("to")
	if s.To == 0 && len(f.problems) == 0 {
		f.problem(f.at("to"), "to = "+shown(f.get("to"))+" is nothing at its own corner", "a percentage above 0")
	}
}

// dose is one percentage of a series.
func (f fields) dose(key string) (float64, bool) { return f.doseOf(f.get(key), key) }

func (f fields) doseOf(v *value, key string) (float64, bool) {
	x, ok := f.percent(v, key, largestDose)
	switch {
	case !ok:
	case x == largestDose:
		f.problem(v.line, key+" = "+shown(v)+" is as much as the base", "below 100 %")
	case x > 0 && x < 1e-6:
		f.problem(v.line, key+" = "+shown(v)+" is too small to be measured", "0, or at least 0.000001 %")
	default:
		return x, true
	}
	return 0, false
}

// percents reads the steps of a series, written out or from and to.
func (f fields) percents(s *blend.Series) {
	written := f.has("percent")
	if !written && !f.has("from") && !f.has("to") && !f.has("cells") {
		f.missing(f.line, "the series has no steps", "percent = [0, 0.5, 1, 2], or from = 0, to = 4, cells = 5")
		return
	}
	if !written {
		f.spaced(s)
		return
	}
	for _, key := range []string{"from", "to", "cells", "spacing"} {
		if f.has(key) {
			f.problem(f.at(key), "the series has percent and "+key, "keep percent, or from, to and cells")
		}
	}
	v := f.get("percent")
	if v.kind != list {
		right := "percent = [0, 0.5, 1, 2]"
		if texts, _ := entries(atomsOf(v), digitList); texts != nil {
			right = "percent = [" + strings.Join(texts, ", ") + "]"
		}
		f.problem(v.line, "percent is "+describe(v), "a list of percentages: "+right)
		return
	}
	if len(v.items) == 0 {
		f.problem(v.line, "percent is empty", "at least one percentage: percent = [0, 0.5, 1, 2]")
	}
	if len(v.items) > blend.MaxCells {
		f.problem(v.line, "percent has "+strconv.Itoa(len(v.items))+" entries", "at most "+strconv.Itoa(blend.MaxCells))
		return
	}
	joined := joinedDecimals(v.items)
	seen := map[float64]bool{}
	for _, item := range v.items {
		x, ok := f.doseOf(item, "percent")
		switch {
		case ok && seen[x] && joined != "":
			f.problem(item.line, "percent has a comma for a point: "+number(x)+" % stands twice in it", "percent = "+joined)
			return
		case ok && seen[x]:
			f.problem(item.line, number(x)+" % stands twice in percent", "each percentage once; repeats = 2 in [tiles] makes more tiles of each")
		}
		seen[x] = true
		s.Percents = append(s.Percents, x)
	}
	f.suspicion(v, s.Percents, joined)
}

// suspicion asks about a list of percentages that looks as if a decimal comma
// were in it.
func (f fields) suspicion(v *value, percents []float64, joined string) {
	const mostShown = 12
	texts := make([]string, 0, mostShown+1)
	for _, x := range percents {
		if len(texts) == mostShown {
			texts = append(texts, "…")
			break
		}
		texts = append(texts, number(x))
	}
	read := "is read as " + several(len(percents), "percentage") + ": " + listed(texts, "and")
	falling := slices.Clone(percents)
	slices.Reverse(falling)
	switch {
	case joined != "":
		f.caution(v.line, "percent", read, "a decimal needs a point", "is percent = "+joined+" meant?")
	case !slices.IsSorted(percents) && !slices.IsSorted(falling):
		f.caution(v.line, "percent", read, "they neither rise nor fall all along", "if a decimal comma is among them, write a point")
	}
}

// joinedDecimals is a list of numbers in which some commas have a blank after
// them and others have none, with the others read as decimal commas; "" when
// there is no such thing in it.
func joinedDecimals(items []*value) string {
	whole := func(v *value) bool { return v.kind == figure && strings.Trim(v.text, "0123456789") == "" }
	var texts []string
	loose, tight := false, false
	joined := false // the last text has its decimals
	for i, item := range items {
		if i > 0 && item.tight && !joined && whole(items[i-1]) && whole(item) {
			texts[len(texts)-1] += "." + item.text
			tight, joined = true, true
			continue
		}
		loose = loose || i > 0 && !item.tight
		texts = append(texts, shown(item))
		joined = false
	}
	if !loose || !tight {
		return ""
	}
	return "[" + strings.Join(texts, ", ") + "]"
}

// spaced reads from, to, cells and spacing.
func (f fields) spaced(s *blend.Series) {
	spacing, ok := f.choice("spacing", "even", "doubling")
	doubling := ok && spacing == "doubling"
	for _, key := range []string{"from", "to", "cells"} {
		if !f.has(key) && !(doubling && key == "to") {
			f.missing(f.line, "the series has no "+key, "from = 0, to = 4, cells = 5")
			return
		}
	}
	from, okFrom := f.dose("from")
	n, okCells := f.whole("cells", 2, blend.MaxCells)
	if !okFrom || !okCells {
		return
	}
	if doubling && from == 0 {
		f.problem(f.at("from"), "from = "+shown(f.get("from"))+" cannot be doubled", "above 0, as in from = 0.25")
		return
	}
	var to float64
	switch {
	case !f.has("to"): // each twice the one before
		to = from * math.Pow(2, float64(n-1))
		if !(to < largestDose) {
			f.problem(f.at("cells"), "doubled over "+several(n, "cup")+" the series goes beyond 100 %", "fewer cells or a smaller from")
			return
		}
	default:
		var okTo bool
		if to, okTo = f.dose("to"); !okTo {
			return
		}
	}
	if from == to {
		f.problem(f.at("to"), "the series goes from "+number(from)+" to "+number(to)+" %", "two different percentages")
		return
	}
	if doubling && to == 0 {
		f.problem(f.at("to"), "to = "+shown(f.get("to"))+" is not reached by doubling", "above 0, or spacing = \"even\"")
		return
	}
	for i := range n {
		along := float64(i) / float64(n-1)
		x := from + (to-from)*along
		if doubling {
			x = from * math.Pow(to/from, along)
		}
		s.Percents = append(s.Percents, math.Round(x*1e9)/1e9)
	}
	s.Percents[0], s.Percents[n-1] = from, to
	for i, x := range s.Percents {
		if x < 0 || i > 0 && x == s.Percents[i-1] {
			f.problem(f.at("cells"), "the steps of the series are too small to be told apart", "fewer cells")
			return
		}
	}
}

// seriesSteps checks how many series and cells a design of doses has.
func (f fields) seriesSteps(b *blend.Blend) {
	want := map[blend.Kind]int{blend.Line: 1, blend.Biaxial: 2, blend.Triaxial: 3}[b.Kind]
	if want == 0 {
		f.problem(f.at("kind"), "a "+string(b.Kind)+" cannot be made of one base and series", `kind = "line" for one series, "biaxial" for two, "triaxial" for three`)
		return
	}
	if n := len(b.Series); n > 0 && n != want {
		f.problem(f.at("series"), "a "+string(b.Kind)+" has "+strconv.Itoa(want)+" [[blend.series]], here there are "+strconv.Itoa(n), `kind = "line" for one, "biaxial" for two, "triaxial" for three`)
	}
	if b.Kind == blend.Triaxial {
		f.lattice(b, 3)
		return
	}
	for i, s := range b.Series {
		if b.Method == blend.ByPour && len(s.Percents) == 1 {
			f.problem(f.at("series"), "series "+strconv.Itoa(i+1)+" has one step, and pouring takes two slips", "two steps or more, or method = \"dose\"")
		}
	}
}
