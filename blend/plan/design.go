package plan

import (
	"math"
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/design"
	"pourboard/blend/quantity"
)

// designOf is the design of a file by its name in the schema, as far as it can
// be told before anything is read.
func designOf(root *table) string {
	e := root.byKey["blend"]
	if e == nil || e.value.kind != group {
		return ""
	}
	t := e.value.table
	kind := ""
	if k := t.byKey["kind"]; k != nil && k.value.kind == text {
		kind = k.value.text
	}
	has := func(keys ...string) bool {
		return slices.ContainsFunc(keys, func(key string) bool { return t.byKey[key] != nil })
	}
	series := has("base", "series")
	if series && has("ends", "basis", "bounds") {
		return "" // family tells of it
	}
	return designName(blend.Kind(kind), series)
}

// blend checks [blend] with its [[blend.series]].
func (f fields) blend(d *draft, m *materials) {
	b := &d.plan.Blend
	if f.t == nil {
		f.missing(1, "the plan has no [blend]", `the design: [blend] with kind = "triaxial" and its ends`)
		return
	}
	series := f.family()
	known := b.Kind != ""
	if series {
		f.doses(d, m)
	} else {
		f.shares(d)
	}
	if !known {
		return
	}
	if series {
		f.seriesSteps(d)
	} else {
		f.steps(d)
	}
	f.pairs(d)
}

// family says whether the plan doses one base, and refuses a mixture of the two
// families.
func (f fields) family() (series bool) {
	var ends, base []string
	for _, key := range []string{"ends", "basis", "bounds"} {
		if f.has(key) {
			ends = append(ends, key)
		}
	}
	for _, key := range []string{"base", "series"} {
		if f.has(key) {
			base = append(base, key)
		}
	}
	switch {
	case len(ends) > 0 && len(base) > 0:
		f.problem(f.at(base[0]), base[0]+" and "+ends[0]+" exclude each other",
			"keep ends, whose glazes are blended, or base with its [[blend.series]]")
	case len(ends) == 0 && len(base) == 0:
		f.missing(f.line, "[blend] has neither ends nor base", `ends = ["A", "B"], or base = "A" and [[blend.series]]`)
	}
	return len(base) > 0 && !f.has("ends")
}

// kindText is a kind of design in a message; pairs and rows have no singular.
func kindText(kind string) string {
	if kind == string(blend.Pairs) || kind == string(blend.Rows) {
		return "kind = " + quote(kind)
	}
	return "a " + kind
}

// find is the place of a glaze by its name, 0 when there is none.
func (f fields) find(d *draft, name string, line int, key string) int {
	var options []string
	for i, g := range d.glazes {
		if g.Name == name {
			return i
		}
		if g.Name != "" {
			options = append(options, g.Name)
		}
	}
	if !f.broken {
		right := "describe it in a [[glaze]]"
		if options != nil {
			right = meantText(name, options)
		}
		f.problem(line, "unknown glaze "+quote(name)+" in "+key, right)
	}
	return 0
}

// shares checks what only blends of end glazes have: ends, basis and bounds.
func (f fields) shares(d *draft) {
	b := &d.plan.Blend
	for i, name := range d.ends.names {
		b.Ends = append(b.Ends, f.find(d, name, d.ends.lines[i], "ends"))
	}
	if b.Basis == "" {
		b.Basis = blend.Dry
	}
	if m := b.Method; m != "" && m != blend.ByWeigh {
		f.problem(f.at("method"), f.shown("method")+" needs a base and [[blend.series]]", `leave it out to pour end glazes, or method = "weigh"`)
	}
	least, most := b.Kind.Ends()
	v := f.get("ends")
	switch {
	case v == nil:
		if f.has("basis") || f.has("bounds") {
			f.missing(f.line, "[blend] has no ends", `the glazes that are blended: ends = ["A", "B"]`)
		}
	case v.kind == list && len(v.items) > 0 && b.Kind != "" && (len(v.items) < least || len(v.items) > most):
		needs := strconv.Itoa(least)
		if most > least {
			needs += " to " + strconv.Itoa(most)
		}
		right := "list " + needs
		f.problem(v.line, kindText(string(b.Kind))+" needs "+needs+" end glazes; ends lists "+strconv.Itoa(len(v.items)), right)
	}
	f.limits(d)
	if b.Method == blend.ByWeigh {
		f.weigh(d)
	}
}

// weigh checks that cups can be weighed dry.
func (f fields) weigh(d *draft) {
	b := &d.plan.Blend
	if b.Basis != blend.Dry && b.Basis != "" {
		f.problem(f.at("basis"), f.shown("basis")+` does not go with method = "weigh"`, `dry materials are weighed: basis = "dry"`)
	}
	if d.plan.Cup.BatchG > 0 {
		f.problem(f.at("method"), `method = "weigh" mixes no batch, and [cup] has one`, `the size of a cup: [cup] dry = "100 g"`)
	}
	used := b.Ends
	if f.has("base") {
		used = []int{b.Base}
	}
	for _, i := range used {
		if i < len(d.glazes) && !d.glazes[i].fields.has("recipe") && !f.broken {
			f.problem(f.at("method"), `method = "weigh" needs the recipe of `+quote(d.glazes[i].Name), "add its recipe, or leave method out")
		}
	}
}

// limits turns bounds by name into bounds by end glaze.
func (f fields) limits(d *draft) {
	if !f.has("bounds") || d.bounds == nil {
		return
	}
	limits := make([]blend.Bound, len(d.ends.names))
	for i := range limits {
		limits[i] = blend.Bound{Lo: 0, Hi: 1}
	}
	good := f.get("bounds").kind == group && len(d.bounds) == len(f.get("bounds").table.entries)
	for _, b := range d.bounds {
		at := slices.Index(d.ends.names, b.name)
		if at < 0 {
			good = false
			if d.ends.names != nil {
				f.problem(b.line, "unknown end glaze "+quote(b.name)+" in bounds", meantText(b.name, d.ends.names))
			}
			continue
		}
		limits[at] = blend.Bound{Lo: quantity.Shift(b.lo, -2), Hi: quantity.Shift(b.hi, -2)}
	}
	if !good {
		return
	}
	d.plan.Blend.Bounds = limits
	least, most := 0.0, 0.0
	for _, b := range limits {
		least, most = least+b.Lo, most+b.Hi
	}
	const hair = 1e-9
	percent := func(x float64) string { return number(math.Round(x*1e6)/1e4) + " %" }
	switch {
	case least >= 1-hair:
		f.problem(f.at("bounds"), "bounds leave nothing to vary: the minimums add up to "+percent(least), "less than 100 % together")
	case most <= 1+hair:
		f.problem(f.at("bounds"), "bounds leave no mixture: the maximums add up to "+percent(most), "more than 100 % together")
	}
}

// pairs checks the shares of pairs, and the cups that are made again.
func (f fields) pairs(d *draft) {
	b := &d.plan.Blend
	if b.Kind == blend.Pairs {
		b.PairShares = d.shares
		if !f.has("shares") {
			b.PairShares = []float64{50}
		}
		for _, x := range b.PairShares {
			if x <= 0 {
				f.problem(f.at("shares"), "a share of "+number(x)+" % leaves one glaze of the pair out", "above 0 and below 100; alone = true makes each glaze alone")
				break
			}
		}
	}
}

// steps checks how many cups a blend of end glazes has.
func (f fields) steps(d *draft) {
	b := &d.plan.Blend
	switch b.Kind {
	case blend.Line:
		f.lineCups(d)
	case blend.Biaxial:
		for _, key := range []string{"columns", "rows"} {
			if !f.has(key) {
				f.missing(f.line, "the biaxial has no "+key, key+" = 5")
			}
		}
	case blend.Triaxial:
		f.lattice(d, 3)
	case blend.Quadraxial:
		f.lattice(d, 4)
	case blend.List:
		f.listOfCups(d)
	}
}

// lineCups checks how many cups a line has, its ends among them or not.
func (f fields) lineCups(d *draft) {
	b := &d.plan.Blend
	key, n := "cells", d.cells.n
	switch {
	case f.has("cells") && f.has("tiles"):
		f.problem(f.at("tiles"), "the line has cells and tiles", "keep one of them")
		return
	case f.has("tiles"):
		key, n = "tiles", d.tiles
	case !f.has("cells"):
		f.missing(f.line, "the line has no cells", "how many cups: cells = 6")
		return
	case d.cells.parts != nil:
		f.problem(f.at("cells"), "cells of a line is a list", `how many cups: cells = 6; or kind = "list"`)
		return
	}
	if n == 0 {
		return // told already
	}
	least := 2
	if b.Interior {
		least = 1
	}
	if n < least {
		f.problem(f.at(key), f.shown(key)+" is out of range", strconv.Itoa(least)+" to "+strconv.Itoa(blend.MaxCells))
		return
	}
	b.Cells = n
}

// lattice checks the divisions of a simplex of q ends, or finds them from the
// number of cups.
func (f fields) lattice(d *draft, q int) {
	b := &d.plan.Blend
	switch {
	case f.has("divisions") && f.has("tiles"):
		f.problem(f.at("tiles"), "[blend] has divisions and tiles", "keep one; the other follows")
	case f.has("tiles") && f.has("bounds"):
		f.problem(f.at("tiles"), "tiles cannot be counted inside bounds", "divisions = 6, the steps along each side")
	case f.has("tiles"):
		if d.tiles > 0 {
			b.Divisions = f.divisions(d.tiles, q, b.Interior)
		}
	case !f.has("divisions"):
		f.missing(f.line, "the "+string(b.Kind)+" has no divisions", "steps along each side: divisions = 6, or tiles = "+strconv.Itoa(design.LatticeCount(q, 6)))
	case b.Interior && b.Divisions > 0 && b.Divisions < q:
		f.problem(f.at("divisions"), f.shown("divisions")+" leaves no cup with every end glaze", "at least "+strconv.Itoa(q)+" with interior = true")
	}
}

// divisions is the m of the lattice {q,m} that has n points; when there is
// none, the counts near n are told.
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
	f.problem(f.at("tiles"), "no "+kind+" has "+plural(n, "tile"), listed(counts, "or"))
	return 0
}

// listOfCups checks cups that are written out.
func (f fields) listOfCups(d *draft) {
	const right = "a pair of brackets for each cup: cells = [[70, 30], [50, 50]]"
	switch {
	case !f.has("cells"):
		f.missing(f.line, "the list has no cells", right)
	case d.cells.n > 0:
		f.problem(f.at("cells"), "cells of a list is a number", right)
	}
	for i, parts := range d.cells.parts {
		if n := len(d.ends.names); n > 0 && len(parts) != n {
			f.problem(d.cells.lines[i], "cup "+strconv.Itoa(i+1)+" has "+plural(len(parts), "part"), "one for each of the "+plural(n, "end glaze"))
		}
	}
	d.plan.Blend.Parts = d.cells.parts
}
