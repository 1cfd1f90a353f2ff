package plan

import (
	"math"
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/design"
)

// blend reads [blend] with its [[blend.series]].
func (f fields) blend(glazes []blend.Glaze, m *materials) blend.Blend {
	if !f.has("blend") {
		f.missing(1, "the plan has no [blend]", `the design: [blend] with kind = "triaxial" and its ends`)
		return blend.Blend{}
	}
	d := f.group("blend")
	var b blend.Blend
	kinds := blend.Kinds()
	options := make([]string, len(kinds))
	for i, k := range kinds {
		options[i] = string(k)
	}
	if !d.has("kind") {
		d.missing(d.line, "[blend] has no kind", "kind = "+listed(quoted(options), "or"))
	}
	kind, knownKind := d.choice("kind", options...)
	b.Kind = blend.Kind(kind)

	series := d.family()
	names := make([]string, len(glazes))
	for i, g := range glazes {
		names[i] = g.Name
	}
	if series {
		d.doses(&b, names, m)
	} else {
		d.shares(&b, names)
	}
	if knownKind {
		d.misfits(b.Kind, series)
		if series {
			d.seriesSteps(&b)
		} else {
			d.steps(&b)
		}
	}
	return b
}

// family decides whether the plan doses one base, and refuses a mixture of the
// two families.
func (f fields) family() (series bool) {
	var ends, base []string
	for _, key := range []string{"ends", "basis", "bounds"} {
		if f.has(key) {
			ends = append(ends, key)
		}
	}
	for _, key := range []string{"base", "method", "series"} {
		if f.has(key) {
			base = append(base, key)
		}
	}
	switch {
	case len(ends) > 0 && len(base) > 0:
		f.problem(f.at(base[0]), base[0]+" and "+ends[0]+" do not go together",
			"either ends are poured together, or one base gets a series: keep ends, or base and [[blend.series]]")
	case len(ends) == 0 && len(base) == 0:
		f.missing(f.line, "[blend] does not say what is blended", `ends = ["A", "B"], or base = "A" and [[blend.series]]`)
	}
	return len(base) > 0 && !f.has("ends")
}

// misfits tells of keys that another kind of design takes.
func (f fields) misfits(kind blend.Kind, series bool) {
	fits := fitting(kind, series)
	what := "a " + string(kind)
	if series {
		if f.has("ends") || f.has("basis") || f.has("bounds") {
			return // told of by family
		}
		what += " of a series"
	} else if f.has("base") || f.has("method") || f.has("series") {
		return
	}
	for _, e := range f.t.entries {
		if e.key != "kind" && slices.Contains(keysOf("blend"), e.key) && !slices.Contains(fits, e.key) {
			f.problem(e.line, e.key+" does not belong to "+what, "it takes "+listed(fits, "and"))
		}
	}
}

// find is the place of a glaze.
func (f fields) find(name string, line int, names []string, key string) int {
	at := slices.Index(names, name)
	names = slices.DeleteFunc(slices.Clone(names), func(n string) bool { return n == "" })
	if at < 0 && !f.broken {
		what := "there is no glaze " + quote(name) + " for " + key
		switch {
		case len(names) == 0:
			f.problem(line, what, "describe it in a [[glaze]]")
		default:
			f.problem(line, what, meantText(name, names))
		}
	}
	return max(at, 0)
}

// shares reads what only family A has: ends, basis and bounds.
func (f fields) shares(b *blend.Blend, glazes []string) {
	names, lines := f.names("ends", "glaze", `["Magnesia matte", "Soda blue"]`)
	for i, name := range names {
		b.Ends = append(b.Ends, f.find(name, lines[i], glazes, "ends"))
	}
	b.Basis = blend.Dry
	if basis, ok := f.choice("basis", string(blend.Dry), string(blend.Volume), string(blend.Weight)); ok {
		b.Basis = blend.Basis(basis)
	}
	least, largest := endsOf(b.Kind)
	if v := f.get("ends"); v == nil {
		if f.has("basis") || f.has("bounds") {
			f.missing(f.line, "[blend] has no ends", `the glazes that are poured together: ends = ["A", "B"]`)
		}
	} else if n := len(v.items); v.kind == list && n > 0 && b.Kind != "" && (n < least || n > largest) {
		right := several(least, "glaze")
		if least != largest {
			right = strconv.Itoa(least) + " to " + strconv.Itoa(largest) + " glazes"
		}
		f.problem(v.line, "a "+string(b.Kind)+" does not have "+several(n, "end"), right)
	}
	f.bounds(b, names)
}

// endsOf is how many ends a kind of design has.
func endsOf(kind blend.Kind) (least, largest int) {
	switch kind {
	case blend.Line:
		return 2, 2
	case blend.Triaxial:
		return 3, 3
	case blend.Biaxial, blend.Quadraxial:
		return 4, 4
	default:
		return 2, 4
	}
}

// bounds reads the limits of the ends' shares.
func (f fields) bounds(b *blend.Blend, ends []string) {
	v := f.get("bounds")
	if v == nil {
		return
	}
	const right = `the least and the most of an end: bounds = { "Wood ash" = ["20 %", "60 %"] }`
	if v.kind != group {
		f.problem(v.line, "bounds is "+describe(v), right)
		return
	}
	b.Bounds = make([]blend.Bound, len(ends))
	for i := range b.Bounds {
		b.Bounds[i] = blend.Bound{Lo: 0, Hi: 1}
	}
	good := true
	for _, e := range v.table.entries {
		at := slices.Index(ends, e.key)
		if at < 0 {
			good = false
			if len(ends) > 0 {
				f.problem(e.line, "there is no end "+quote(e.key)+" for bounds", meantText(e.key, ends))
			}
			continue
		}
		if e.value.kind != list || len(e.value.items) != 2 {
			f.problem(e.line, "the bounds of "+quote(e.key)+" are not two percentages", right)
			good = false
			continue
		}
		lo, okLo := f.percent(e.value.items[0], "the least of "+quote(e.key), 100)
		hi, okHi := f.percent(e.value.items[1], "the most of "+quote(e.key), 100)
		if okLo && okHi && lo >= hi {
			f.problem(e.line, "the bounds of "+quote(e.key)+" leave nothing between "+number(lo)+" and "+number(hi)+" %", "the least before the most, and less than it")
		}
		good = good && okLo && okHi && lo < hi
		b.Bounds[at] = blend.Bound{Lo: shift(lo, -2), Hi: shift(hi, -2)}
	}
	if !good {
		return
	}
	least, largest := 0.0, 0.0
	for _, bound := range b.Bounds {
		least, largest = least+bound.Lo, largest+bound.Hi
	}
	const hair = 1e-9
	switch {
	case least >= 1-hair:
		f.problem(f.at("bounds"), "the bounds leave nothing to vary: the least shares make "+number(math.Round(least*1e6)/1e4)+" % together", "less than 100 %")
	case largest <= 1+hair:
		f.problem(f.at("bounds"), "the bounds leave no mixture: the largest shares make "+number(math.Round(largest*1e6)/1e4)+" % together", "more than 100 %")
	}
}

// steps reads how many cells a design of ends has.
func (f fields) steps(b *blend.Blend) {
	b.Interior = f.yes("interior")
	switch b.Kind {
	case blend.Line:
		f.line2(b)
	case blend.Biaxial:
		for _, key := range []string{"columns", "rows"} {
			if !f.has(key) {
				f.missing(f.line, "the biaxial has no "+key, key+" = 5")
			}
		}
		b.Columns, _ = f.whole("columns", 2, blend.MaxCells/2)
		b.Rows, _ = f.whole("rows", 2, blend.MaxCells/2)
	case blend.Triaxial:
		f.lattice(b, 3)
	case blend.Quadraxial:
		f.lattice(b, 4)
	case blend.List:
		f.listed(b)
	}
}

// line2 reads the cells of a line of two ends.
func (f fields) line2(b *blend.Blend) {
	least := 2
	if b.Interior {
		least = 3
	}
	switch {
	case f.has("cells") && f.has("tiles"):
		f.problem(f.at("tiles"), "the line has cells and tiles", "keep one of them")
	case f.has("tiles") && f.has("bounds"):
		f.problem(f.at("tiles"), "tiles cannot be counted inside bounds", "cells = 9, the steps between the bounds")
	case f.has("tiles") && b.Interior:
		n, _ := f.whole("tiles", 1, blend.MaxCells-2)
		b.Cells = n
	case f.has("tiles"):
		b.Cells, _ = f.whole("tiles", least, blend.MaxCells)
	case !f.has("cells"):
		f.missing(f.line, "the line has no cells", "how many steps from end to end: cells = 6")
	default:
		b.Cells, _ = f.whole("cells", least, blend.MaxCells)
	}
}

// lattice reads the divisions of a simplex of q ends, or finds them from the
// number of tiles.
func (f fields) lattice(b *blend.Blend, q int) {
	switch {
	case f.has("divisions") && f.has("tiles"):
		f.problem(f.at("tiles"), "[blend] has divisions and tiles", "keep one of them; the other follows from it")
		return
	case f.has("tiles") && f.has("bounds"):
		f.problem(f.at("tiles"), "tiles cannot be counted inside bounds", "divisions = 6, the steps along each side")
		return
	case f.has("tiles"):
		n, ok := f.whole("tiles", 1, blend.MaxCells)
		if !ok {
			return
		}
		b.Divisions = f.divisions(n, q, b.Interior)
		return
	case !f.has("divisions"):
		f.missing(f.line, "the "+string(b.Kind)+" has no divisions", "steps along each side: divisions = 6, or tiles = "+strconv.Itoa(design.LatticeCount(q, 6)))
		return
	}
	b.Divisions, _ = f.whole("divisions", 1, blend.MaxCells)
	if b.Interior && b.Divisions > 0 && b.Divisions < q {
		f.problem(f.at("divisions"), "divisions = "+strconv.Itoa(b.Divisions)+" leaves no cup that has every end", "at least "+strconv.Itoa(q)+" with interior = true")
	}
}

// divisions is the m of the lattice {q,m} that has n points; when there is
// none, the counts that there are about n are told.
func (f fields) divisions(n, q int, interior bool) int {
	first, count := 1, func(m int) int { return design.LatticeCount(q, m) }
	if interior { // the inner points of {q,m} are a lattice {q,m−q}
		first, count = q, func(m int) int { return design.LatticeCount(q, m-q) }
	}
	m := first
	for count(m) < n {
		m++
	}
	if count(m) == n {
		return m
	}
	var counts []string
	for i := max(m-1, first); len(counts) < 3 && count(i) <= blend.MaxCells; i++ {
		counts = append(counts, strconv.Itoa(count(i)))
	}
	kind := map[int]string{3: "triaxial", 4: "quadraxial"}[q]
	if interior {
		kind += " without its edges"
	}
	f.problem(f.at("tiles"), "no "+kind+" has "+several(n, "tile"), listed(counts, "or"))
	return 0
}

// listed reads cells that are written out.
func (f fields) listed(b *blend.Blend) {
	v := f.get("cells")
	const right = "a pair of brackets for each cell with a number for each end: cells = [[70, 30], [50, 50]]"
	if v == nil {
		f.missing(f.line, "the list has no cells", right)
		return
	}
	if v.kind != list {
		f.problem(v.line, "cells is "+describe(v), right)
		return
	}
	if len(v.items) == 0 {
		f.problem(v.line, "the list has no cell", right)
	}
	if len(v.items) > blend.MaxCells {
		f.problem(v.line, "the list has "+several(len(v.items), "cell"), "at most "+strconv.Itoa(blend.MaxCells))
		return
	}
	for i, cell := range v.items {
		place := "cell " + strconv.Itoa(i+1)
		if cell.kind != list {
			f.problem(cell.line, place+" is "+describe(cell), right)
			continue
		}
		if n := len(b.Ends); n > 0 && len(cell.items) != n {
			f.problem(cell.line, place+" has "+several(len(cell.items), "part"), "one for each of the "+several(n, "end"))
			continue
		}
		parts := make([]float64, len(cell.items))
		sum, good := 0.0, true
		for j, item := range cell.items {
			x, ok := f.figure(item, "a part of "+place, "plain numbers")
			if ok && (x < 0 || x > most || x > 0 && x < 1e-6) {
				f.problem(item.line, "a part of "+place+" is "+shown(item), "0, or from 0.000001 to "+number(most))
				ok = false
			}
			good = good && ok
			parts[j] = x
			sum += x
		}
		if good && sum == 0 {
			f.problem(cell.line, place+" is of nothing", "at least one part above 0")
		}
		b.Parts = append(b.Parts, parts)
	}
}
