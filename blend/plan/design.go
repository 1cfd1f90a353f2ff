package plan

import (
	"math"
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/design"
	"pourboard/blend/quantity"
)

// blend checks [blend] with its [[blend.series]].
func (f fields) blend(d *draft) {
	if f.t == nil {
		return
	}
	b := &d.plan.Blend
	b.Parts = d.cells.parts
	if !f.has("ends", "base", "series") {
		f.missing(f.line, "[blend] has neither ends nor base", `ends = ["A", "B"], or base = "A" and [[blend.series]]`)
	}
	series := f.has("base", "series") && !f.has("ends")
	if series {
		f.doses(d)
	} else {
		f.endGlazes(d)
	}
	if b.Method == blend.ByWeigh {
		f.weigh(d)
	}
	if series && b.Kind != "" && !f.seriesFit(b) {
		return
	}
	switch b.Kind {
	case blend.Line, blend.List:
		if !series {
			f.cups(d)
		}
	case blend.Triaxial:
		f.lattice(d, 3)
	case blend.Quadraxial:
		f.lattice(d, 4)
	case blend.Pairs:
		if !f.has("shares") {
			b.PairShares = []float64{50}
		}
		if slices.Contains(b.PairShares, 0) {
			f.problem(f.at("shares"), "a share of 0 % leaves one glaze of the pair out", "above 0 and below 100; alone = true makes each glaze alone")
		}
	}
}

// kindText is a kind of design in a message; pairs and rows have no singular.
func kindText(kind string) string {
	if kind == string(blend.Pairs) || kind == string(blend.Rows) {
		return "kind = " + quote(kind)
	}
	return "a " + kind
}

// glazeNamed is the place of a glaze by its name, 0 after a problem when there is
// none; key is the one that names it.
func (f fields) glazeNamed(d *draft, name string, line int, key string) int {
	var options []string
	for i, it := range d.items["glaze"] {
		if it.glaze.Name == name {
			return i
		}
		if it.glaze.Name != "" {
			options = append(options, it.glaze.Name)
		}
	}
	right := "describe it in a [[glaze]]"
	if options != nil {
		right = meantText(name, options)
	}
	f.missing(line, "unknown glaze "+quote(name)+" in "+key, right)
	return 0
}

// endGlazes checks what only blends of end glazes have: ends, basis and bounds.
func (f fields) endGlazes(d *draft) {
	b := &d.plan.Blend
	for _, name := range d.ends {
		b.Ends = append(b.Ends, f.glazeNamed(d, name, f.lineOf("ends", name), "ends"))
	}
	if b.Basis == "" {
		b.Basis = d.usualBasis()
	}
	if b.Method != "" && b.Method != blend.ByWeigh {
		f.wrong("method", "needs a base and [[blend.series]]", `leave it out to pour end glazes, or method = "weigh"`)
	}
	least, most := b.Kind.Ends()
	if v := f.get("ends"); v != nil && b.Kind != "" && len(v.items) > 0 && (len(v.items) < least || len(v.items) > most) {
		needs := strconv.Itoa(least)
		if most > least {
			needs += " to " + strconv.Itoa(most)
		}
		f.problem(v.line, kindText(string(b.Kind))+" needs "+needs+" end glazes; ends lists "+strconv.Itoa(len(v.items)), "list "+needs)
	}
	if d.bounds != nil && d.ends != nil {
		f.limits(d)
	}
}

// usualBasis is what shares count in a plan that leaves it out: dry glaze; but
// volume for cups in mL of glazes from the bucket whose SG is unknown, since no dry
// share of those can be poured.
func (d *draft) usualBasis() blend.Basis {
	if d.plan.Cup.Size.Of == blend.Volume {
		for _, i := range d.plan.Blend.Ends {
			if g := d.items["glaze"][i].glaze; len(g.Recipe) == 0 && g.SG == 0 && g.WaterPer == 0 {
				return blend.Volume
			}
		}
	}
	return blend.Dry
}

// weigh checks that cups can be weighed dry.
func (f fields) weigh(d *draft) {
	b := &d.plan.Blend
	if b.Basis != blend.Dry {
		f.wrong("basis", `does not go with method = "weigh"`, `dry materials are weighed: basis = "dry"`)
	}
	if d.plan.Cup.BatchG > 0 {
		f.problem(f.at("method"), `method = "weigh" mixes no batch, and [cup] has one`, `the size of a cup: [cup] dry = "100 g"`)
	}
	used := b.Ends
	if f.has("base") {
		used = []int{b.Base}
	}
	for _, i := range used {
		if glazes := d.items["glaze"]; i < len(glazes) && !glazes[i].fields.has("recipe") {
			f.missing(f.at("method"), `method = "weigh" needs the recipe of `+quote(glazes[i].glaze.Name), "add its recipe, or leave method out")
		}
	}
}

// limits turns bounds by name into bounds by end glaze.
func (f fields) limits(d *draft) {
	limits := slices.Repeat([]blend.Bound{{Lo: 0, Hi: 1}}, len(d.ends))
	for _, b := range d.bounds {
		at := slices.Index(d.ends, b.name)
		if at < 0 {
			f.problem(b.line, "unknown end glaze "+quote(b.name)+" in bounds", meantText(b.name, d.ends))
			return
		}
		limits[at] = blend.Bound{Lo: quantity.Shift(b.lo, -2), Hi: quantity.Shift(b.hi, -2)}
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

// cups checks how many cups a line has, its ends among them or not, or what is in
// each cup of a list.
func (f fields) cups(d *draft) {
	b := &d.plan.Blend
	b.Cells = d.cells.n + d.tiles // one of the two
	switch {
	case b.Kind == blend.List && b.Cells > 0:
		f.problem(f.at("cells"), "cells of a list is a number", "a pair of brackets for each cup: cells = "+writtenCups)
	case b.Kind == blend.Line && b.Parts != nil:
		f.problem(f.at("cells"), "cells of a line is a list", `how many cups: cells = 6; or kind = "list"`)
	case b.Cells == 1 && !b.Interior:
		f.problem(f.at("cells"), "a line has one cup", "2 cups or more: cells = 6")
	}
	for i, parts := range b.Parts {
		if n := len(d.ends); n > 0 && len(parts) != n {
			f.problem(f.get("cells").items[i].line, "cup "+strconv.Itoa(i+1)+" has "+quantity.Plural(len(parts), "part", "parts"),
				"one for each of the "+quantity.Plural(n, "end glaze", "end glazes"))
		}
	}
}

// lattice checks the divisions of a simplex of q ends, or finds them from the
// number of cups.
func (f fields) lattice(d *draft, q int) {
	switch b := &d.plan.Blend; {
	case f.has("tiles") && f.has("bounds"):
		f.problem(f.at("tiles"), "tiles cannot be counted inside bounds", "divisions = 6, the steps along each side")
	case d.tiles > 0 && !f.has("divisions"):
		b.Divisions = f.divisions(d.tiles, q, b.Interior)
	}
}

// divisions is the m of the lattice {q,m} that has n points; when there is
// none, the counts near n are told.
func (f fields) divisions(n, q int, interior bool) int {
	first, what := 1, "tiles"
	count := func(m int) int { return design.LatticeCount(q, m) }
	if interior { // the inner points of {q,m} are a lattice {q,m−q}
		first, what = q, "tiles inside its edges"
		count = func(m int) int { return design.LatticeCount(q, m-q) }
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
	f.problem(f.at("tiles"), kindText(f.design)+" cannot have "+strconv.Itoa(n)+" "+what, listed(counts, "or"))
	return 0
}

// extent holds the design against what can be worked out and painted.
func (f fields) extent(d *draft, log fields) {
	p := d.plan
	line := f.line
	for _, key := range []string{"series", "columns", "cells", "divisions", "tiles"} {
		if f.has(key) {
			line = f.at(key)
		}
	}
	if p.Blend.Count() > blend.MaxCells {
		f.problem(line, "the design has more than "+strconv.Itoa(blend.MaxCells)+" cups", "fewer steps")
		return
	}
	once := p.Blend
	once.Repeat = nil
	cups, err := once.CellCount()
	if err != nil {
		f.problem(line, "the design has no cup", "more steps, or wider bounds")
		return
	}
	exist := func(line int, key string, numbers []int) {
		if i := slices.IndexFunc(numbers, func(n int) bool { return n > cups }); i >= 0 {
			f.problem(line, "cup "+strconv.Itoa(numbers[i])+" in "+key+" does not exist", "cups are 1 to "+strconv.Itoa(cups))
		}
	}
	exist(f.at("repeat"), "repeat", p.Blend.Repeat)
	cups += len(p.Blend.Repeat)
	exist(log.at("check"), "check", p.Log.Check)
	for _, it := range d.items["poured"] {
		exist(it.fields.at("cups"), "cups", it.poured.Cups)
	}
	const mostTiles = 200_000
	if tiles := cups * len(p.Tiles.Bodies) * p.Tiles.Repeats; tiles > mostTiles {
		f.problem(line, "cups x bodies x repeats are "+strconv.Itoa(tiles)+" tiles", "at most "+strconv.Itoa(mostTiles))
	}
}
