package plan

import (
	"cmp"
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/design"
	"pourboard/blend/quantity"
)

// blend checks [blend] with its [[blend.series]].
func (f fields) blend() {
	if !f.given() {
		return
	}
	b := &f.d.Blend
	b.Parts = f.d.Cells.Parts
	if !f.has("ends", "base", "series") {
		f.missing(f.group.line, "[blend] has neither ends nor base", `ends = ["A", "B"], or base = "A" and [[blend.series]]`)
	}
	if f.has("base", "series") && !f.has("ends") {
		f.doses()
	} else {
		f.endGlazes()
	}
	if b.Method == blend.ByWeigh {
		f.weigh()
	}
	switch b.Kind {
	case blend.Line, blend.List:
		f.cups()
	case blend.Triaxial:
		f.lattice(3)
	case blend.Quadraxial:
		f.lattice(4)
	case blend.Pairs:
		f.pairs()
	}
}

// pairs checks the shares of pairs.
func (f fields) pairs() {
	b := &f.d.Blend
	if !f.has("shares") {
		b.PairShares = []float64{50}
	}
	if slices.Contains(b.PairShares, 0) {
		f.problem(f.at("shares"), "a share of 0 % leaves one glaze of the pair out",
			"above 0 and below 100; alone = true makes each glaze alone")
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
func (f fields) glazeNamed(name, key string) int {
	var options []string
	for i, it := range f.d.items["glaze"] {
		if it.Glaze.Name == name {
			return i
		}
		if it.Glaze.Name != "" {
			options = append(options, it.Glaze.Name)
		}
	}
	f.missing(f.lineOf(key, name), "unknown glaze "+quote(name)+" in "+key,
		cmp.Or(meantText(name, options), "describe it in a [[glaze]]"))
	return 0
}

// endGlazes checks what only blends of end glazes have.
func (f fields) endGlazes() {
	b := &f.d.Blend
	for _, name := range f.d.Ends {
		b.Ends = append(b.Ends, f.glazeNamed(name, "ends"))
	}
	if b.Basis == "" {
		b.Basis = f.usualBasis()
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
		f.problem(v.line, kindText(string(b.Kind))+" needs "+needs+" end glazes; ends lists "+strconv.Itoa(len(v.items)),
			"list "+needs)
	}
}

// usualBasis is what shares count in a plan that leaves it out: dry glaze; but
// volume for cups in mL of glazes from the bucket whose SG is unknown, since no dry
// share of those can be poured.
func (f fields) usualBasis() blend.Basis {
	if f.d.Cup.Size.Of == blend.Volume {
		for _, it := range f.glazes() {
			if !it.has("recipe", "specific-gravity", "water") {
				return blend.Volume
			}
		}
	}
	return blend.Dry
}

// glazes are those that the design is made from.
func (f fields) glazes() (all []*item) {
	for _, it := range f.d.items["glaze"] {
		if name := it.Glaze.Name; name == f.d.Base || slices.Contains(f.d.Ends, name) {
			all = append(all, it)
		}
	}
	return all
}

// weigh checks that cups can be weighed dry.
func (f fields) weigh() {
	if f.d.Blend.Basis != blend.Dry {
		f.wrong("basis", `does not go with method = "weigh"`, `dry materials are weighed: basis = "dry"`)
	}
	if f.d.Cup.BatchG > 0 {
		f.problem(f.at("method"), `method = "weigh" mixes no batch, and [cup] has one`,
			`the size of a cup: [cup] dry = "100 g"`)
	}
	for _, it := range f.glazes() {
		if !it.has("recipe") {
			f.missing(f.at("method"), `method = "weigh" needs the recipe of `+quote(it.Glaze.Name),
				"add its recipe, or leave method out")
		}
	}
}

// cups checks how many cups a line has, its ends among them or not, or what is in
// each cup of a list.
func (f fields) cups() {
	b := &f.d.Blend
	b.Cells = f.d.Cells.N + f.d.Count // one of the two
	switch {
	case b.Kind == blend.List && b.Cells > 0:
		f.problem(f.at("cells"), "cells of a list is a number", "a pair of brackets for each cup: cells = "+writtenCups)
	case b.Kind == blend.Line && b.Parts != nil:
		f.problem(f.at("cells"), "cells of a line is a list", `how many cups: cells = 6; or kind = "list"`)
	case b.Cells == 1 && !b.Interior:
		f.problem(f.at("cells"), "a line has one cup", "2 cups or more: cells = 6")
	}
	for i, parts := range b.Parts {
		if n := len(f.d.Ends); n > 0 && len(parts) != n {
			has := "cup " + strconv.Itoa(i+1) + " has " + quantity.Plural(len(parts), "part", "parts")
			f.problem(f.get("cells").items[i].line, has, "one for each of the "+quantity.Plural(n, "end glaze", "end glazes"))
		}
	}
}

// lattice finds the divisions of a simplex of q ends from the number of its tiles;
// when it cannot have as many, the counts near that are told.
func (f fields) lattice(q int) {
	b, n := &f.d.Blend, f.d.Count
	if n == 0 || f.has("divisions") {
		return
	}
	if f.has("bounds") {
		f.problem(f.at("tiles"), "tiles cannot be counted inside bounds", "divisions = 6, the steps along each side")
		return
	}
	m, edge, what := 1, 0, "tiles"
	if b.Interior { // the inner points of {q,m} are a lattice {q,m−q}
		m, edge, what = q, q, "tiles inside its edges"
	}
	var counts []string
	for above := 0; above < 2; m++ {
		count := design.LatticeCount(q, m-edge)
		if count == n {
			b.Divisions = m
			return
		}
		if count > n {
			above++
		}
		if count <= blend.MaxCells {
			counts = append(counts, strconv.Itoa(count))
		}
	}
	near := counts[max(0, len(counts)-3):]
	f.problem(f.at("tiles"), kindText(f.design)+" cannot have "+strconv.Itoa(n)+" "+what, listed(near, "or"))
}

// extent holds the design against what can be worked out and painted.
func (r *reader) extent() {
	f, p := r.in["blend"], &r.d
	line := f.group.line
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
	exist := func(f fields, key string, numbers []int) {
		if i := slices.IndexFunc(numbers, func(n int) bool { return n > cups }); i >= 0 {
			f.problem(f.at(key), "cup "+strconv.Itoa(numbers[i])+" in "+key+" does not exist",
				"cups are 1 to "+strconv.Itoa(cups))
		}
	}
	exist(f, "repeat", p.Blend.Repeat)
	cups += len(p.Blend.Repeat)
	exist(r.in["log"], "check", p.Log.Check)
	for _, it := range p.items["poured"] {
		exist(it.fields, "cups", it.Poured.Cups)
	}
	const mostTiles = 200_000
	if tiles := cups * len(p.Tiles.Bodies) * p.Tiles.Repeats; tiles > mostTiles {
		f.problem(line, "cups x bodies x repeats are "+strconv.Itoa(tiles)+" tiles", "at most "+strconv.Itoa(mostTiles))
	}
}
