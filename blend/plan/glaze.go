package plan

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
)

const (
	mostGlazes  = 100
	mostLines   = 60 // of a recipe
	mostPercent = 15 // above it a colourant deserves a question: iron, titania and rutile go up to 12-15 % (common practice, no source)
)

// materials is what a plan's recipes can be made of.
type materials struct {
	*reader
	own     []oxide.Material
	lines   []int // of own
	library oxide.Library
	used    map[string]bool // names, folded
	strange []strange
}

// strange is a material that the library does not have.
type strange struct {
	name string
	line int
}

// materials reads every [[material]].
func (f fields) materials() *materials {
	m := &materials{reader: f.reader, used: map[string]bool{}}
	seen := map[string]bool{}
	for _, g := range f.groups("material", "material") {
		if !g.has("name") {
			g.missing(g.line, "a [[material]] has no name", `name = "Wood ash"`)
		}
		name, ok := g.words("name", "Wood ash")
		if ok && seen[fold(name)] {
			g.problem(g.at("name"), "there are two materials of the name "+quote(name), "one [[material]] for each name")
		}
		seen[fold(name)] = true
		own := oxide.Material{Name: name}
		if !g.has("analysis") && !g.has("density") {
			g.missing(g.line, "the material "+quote(name)+" has neither analysis nor density", "analysis = { SiO2 = 60, … } in weight percent, or density = 2.6 in g/mL")
		}
		if g.has("analysis") {
			own.Analysis, own.Basis = g.analysis(), oxide.Own
		}
		own.Density, _ = g.plain("density", 0.1, 25)
		m.own = append(m.own, own)
		m.lines = append(m.lines, g.line)
	}
	m.library = oxide.Builtin().With(m.own...)
	return m
}

// analysis is the weight percents of a material's own analysis.
func (f fields) analysis() oxide.Analysis {
	v := f.get("analysis")
	if v.kind != group {
		f.problem(v.line, "analysis is "+describe(v), "weight percents in braces: analysis = { SiO2 = 60, Al2O3 = 25, LOI = 15 }")
		return oxide.Analysis{}
	}
	entries := map[string]float64{}
	good := true
	for _, e := range v.table.entries {
		x, ok := f.figure(e.value, quoteKey(e.key), "a number of weight percent: "+quoteKey(e.key)+" = 12.5")
		entries[e.key] = x
		good = good && ok
	}
	if !good {
		return oxide.Analysis{}
	}
	a, err := oxide.ParseAnalysis(entries)
	var wrong *oxide.AnalysisError
	if errors.As(err, &wrong) {
		line := f.at("analysis")
		if e := v.table.byKey[wrong.Key]; e != nil {
			line = e.line
		}
		f.problem(line, wrong.Reason, "")
	}
	return a
}

// use notes that a recipe or a series has a material, and asks about one that
// nothing is known of, once.
func (m *materials) use(name string, line int) {
	if m.used[fold(name)] {
		return
	}
	m.used[fold(name)] = true
	if _, ok := m.library.Find(name); ok {
		return
	}
	m.strange = append(m.strange, strange{name, line})
}

// unknown asks about the materials that nothing is known of, all in one.
func (m *materials) unknown() {
	const helpful = 20 // a plan with more strange names is in another language
	what := make([]string, 0, len(m.strange))
	for i, s := range m.strange {
		if i == helpful {
			what = append(what, several(len(m.strange)-i, "other"))
			break
		}
		text := quote(s.name)
		if len(m.strange) > 1 {
			text += " on line " + strconv.Itoa(s.line)
		}
		if near := m.library.Nearest(s.name); near != "" {
			text += ", did you mean " + quote(near) + "?"
		}
		what = append(what, text)
	}
	switch len(m.strange) {
	case 0:
	case 1:
		fix := "describe it in a [[material]]"
		if _, near, found := strings.Cut(what[0], ", did you mean "); found {
			fix = "did you mean " + near
		}
		m.caution(m.strange[0].line, "material "+m.strange[0].name, "is not known", "its density is assumed, and cups that hold it have no oxides", fix)
	default:
		m.warnings = append(m.warnings, blend.Warning{
			Place: "materials", What: "are not known: " + strings.Join(what, "; "),
			Why: "their density is assumed, and cups that hold one of them have no oxides", Fix: "describe each in a [[material]]",
		})
	}
}

// unused asks about a [[material]] that no recipe has.
func (m *materials) unused() {
	taken := map[string]bool{}
	for name := range m.used {
		if found, ok := m.library.Find(name); ok {
			taken[found.Name] = true
		}
	}
	for i, own := range m.own {
		if !taken[own.Name] {
			m.caution(m.lines[i], "material "+own.Name, "is in no recipe of this plan", "", "is its name spelt as in the recipe?")
		}
	}
}

// unusedGlazes asks about a [[glaze]] that is no end and no base.
func (f fields) unusedGlazes(p *blend.Plan) {
	used := p.Blend.Ends
	if p.Blend.HasSeries() {
		used = []int{p.Blend.Base}
	}
	for i, item := range f.get("glaze").items {
		if !slices.Contains(used, i) {
			f.caution(item.line, "glaze "+p.Glazes[i].Name, "is poured into no cup of this plan", "", "is it meant to be one of the ends?")
		}
	}
}

// glazes reads every [[glaze]].
func (f fields) glazes(m *materials) []blend.Glaze {
	groups := f.groups("glaze", "glaze")
	if len(groups) == 0 && !f.has("glaze") {
		f.missing(1, "the plan has no [[glaze]]", "one for each glaze, with its name and recipe")
	}
	if len(groups) > mostGlazes {
		f.problem(groups[mostGlazes].line, "there are "+strconv.Itoa(len(groups))+" glazes", "at most "+strconv.Itoa(mostGlazes))
		groups = groups[:mostGlazes]
	}
	var all []blend.Glaze
	seen := map[string]int{}
	for _, g := range groups {
		if !g.has("name") {
			g.missing(g.line, "a [[glaze]] has no name", `name = "Magnesia matte"`)
		}
		name, ok := g.words("name", "Magnesia matte")
		if first, twice := seen[fold(name)]; ok && twice {
			g.problem(g.at("name"), "there are two glazes of the name "+quote(name), "another name for one of them; the first is on line "+strconv.Itoa(first))
		} else if ok {
			seen[fold(name)] = g.at("name")
		}
		all = append(all, g.glaze(name, m))
	}
	return all
}

// glaze reads one [[glaze]].
func (f fields) glaze(name string, m *materials) blend.Glaze {
	g := blend.Glaze{Name: name}
	of := ""
	if name != "" {
		of = " of " + quote(name)
	}
	if !f.has("recipe") && f.looseRecipe() == nil {
		f.missing(f.line, "the glaze"+of[min(len(of), 3):]+" has no recipe", `recipe = [["Potash feldspar", 44], ["Silica", 22], …]`)
	}
	g.Recipe = f.parts("recipe", of, most, m)
	g.Additions = f.parts("additions", of, 100, m)
	sum := 0.0
	for _, p := range g.Recipe {
		sum += p.Amount
	}
	if g.Recipe != nil && (sum < 99 || sum > 101) {
		f.caution(f.at("recipe"), "recipe"+of, "sums to "+strconv.FormatFloat(sum, 'g', 6, 64)+", not to 100", "it is brought to 100 for everything that is printed", "check that no line is missing")
	}
	g.Solids, _ = f.plain("solids-density", 1.5, 20)
	g.SG = f.gravity(g.Solids)
	if f.has("water") {
		if g.SG > 0 {
			f.problem(f.at("water"), "the slip"+of+" has a specific-gravity and water", "keep one of them; the other follows from it")
		}
		g.WaterPer, _ = f.mass("water", "98 g", driest, 10_000)
	}
	return g
}

// What still is a slip (common practice, no source): in specific gravity, and
// in g of water for 100 g of dry glaze.
const (
	thinnest = 1.01
	thickest = 2.5
	driest   = 15
)

// Beyond these a gravity deserves a question (common practice, no source).
const (
	usuallyThin  = 1.2
	usuallyThick = 1.8
)

// gravity is specific-gravity, between water and the slip's solids.
func (f fields) gravity(solids float64) float64 {
	v := f.get("specific-gravity")
	if v == nil {
		return 0
	}
	const right = "a plain number such as specific-gravity = 1.45"
	x, ok := f.figure(v, "specific-gravity", right)
	if !ok {
		return 0
	}
	switch {
	case x >= 100 && x <= 250: // g of 100 mL
		f.problem(v.line, "specific-gravity = "+shown(v)+" is the weight of 100 mL", "specific-gravity = "+number(shift(x, -2)))
	case x >= 1000 && x <= 2500: // g of a litre
		f.problem(v.line, "specific-gravity = "+shown(v)+" is the weight of a litre", "specific-gravity = "+number(shift(x, -3)))
	case x < thinnest:
		f.problem(v.line, "specific-gravity = "+shown(v)+" is hardly more than that of water", right)
	case x > thickest:
		f.problem(v.line, "specific-gravity = "+shown(v)+" is more than any slip has", right)
	case solids > 0 && x >= solids:
		f.problem(v.line, "specific-gravity = "+shown(v)+" is not below the density of the solids, "+number(solids)+" g/mL", right)
	default:
		if x < usuallyThin || x > usuallyThick {
			f.caution(v.line, "specific-gravity = "+shown(v), "is unusual for a glaze slip", "", "most are between 1.3 and 1.6; weigh 100 mL again")
		}
		return x
	}
	return 0
}

// parts is the lines of a recipe, in order.
func (f fields) parts(key, of string, largest float64, m *materials) []blend.Part {
	v := f.get(key)
	if v == nil {
		return nil
	}
	_, example := written(key)
	spelled := example
	if texts, _ := entries(atomsOf(v), pairList); texts != nil {
		spelled = "[" + strings.Join(texts, ", ") + "]"
	}
	spelled = key + " = " + spelled
	right := "a material and its amount in each pair of brackets: " + spelled
	if v.kind != list {
		f.problem(v.line, key+of+" is "+describe(v), right)
		return nil
	}
	if len(v.items) == 0 && key == "recipe" {
		f.problem(f.at(key), "the recipe"+of+" is empty", right)
	}
	if len(v.items) > mostLines {
		f.problem(f.at(key), key+of+" has "+strconv.Itoa(len(v.items))+" lines", "at most "+strconv.Itoa(mostLines))
		return nil
	}
	var all []blend.Part
	for _, item := range v.items {
		switch {
		case item.kind == list && len(item.items) == 3 && item.items[0].kind == text && item.items[2].tight:
			f.problem(item.line, "a line of "+key+of+" has a decimal comma", "a point: "+spelled)
			continue
		case item.kind != list || len(item.items) != 2:
			f.problem(item.line, "a line of "+key+of+" is not a material and its amount", right)
			continue
		case item.items[0].kind == figure && item.items[1].kind == text:
			f.problem(item.line, "a line of "+key+of+" has the amount before the material", "the material first: "+spelled)
			continue
		}
		name, ok := f.wordsOf(item.items[0], "a material in "+key, example)
		if !ok {
			continue
		}
		amount, ok := f.share(item.items[1], "the amount of "+quote(name), largest, key == "additions")
		if !ok {
			continue
		}
		if slices.ContainsFunc(all, func(p blend.Part) bool { return fold(p.Material) == fold(name) }) {
			f.caution(item.line, key+of, "has "+quote(name)+" twice", "", "add the two up")
		}
		m.use(name, item.line)
		all = append(all, blend.Part{Material: name, Amount: amount})
	}
	return all
}

// share is an amount of a recipe, above nothing; with percent it may also be a
// text such as "2 %".
func (f fields) share(v *value, what string, largest float64, percent bool) (float64, bool) {
	const least = 1e-6
	right := "a number above 0, without quotes or unit"
	var x float64
	var ok bool
	if percent && v.kind == text {
		x, ok = f.percent(v, what, largest)
	} else {
		x, ok = f.figure(v, what, right)
	}
	switch {
	case !ok:
	case x < least:
		f.problem(v.line, what+" is "+shown(v), right+"; leave out what is not used")
	case x > largest:
		f.problem(v.line, what+" is "+shown(v), "at most "+number(largest))
	default:
		return x, true
	}
	return 0, false
}
