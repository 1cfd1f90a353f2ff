package plan

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

const mostGlazes = 100

// What still is a wet glaze (common practice, no source): in specific gravity,
// and in g of water for 100 g of dry glaze.
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

// readGravity reads a specific gravity, which is also given as the weight of
// 100 mL or a litre.
func readGravity(c cell, to any) bool {
	const right = "a plain number such as specific-gravity = 1.45"
	x, ok := c.number(right)
	if !ok {
		return false
	}
	is := "specific-gravity = " + shown(c.v)
	switch {
	case x >= 100 && x <= 250: // g of 100 mL
		c.problem(c.v.line, is+" is the weight of 100 mL", "specific-gravity = "+number(quantity.Shift(x, -2)))
	case x >= 1000 && x <= 2500: // g of a litre
		c.problem(c.v.line, is+" is the weight of a litre", "specific-gravity = "+number(quantity.Shift(x, -3)))
	case x < thinnest:
		c.problem(c.v.line, is+" is too low", "water is 1.00; weigh 100 mL again")
	case x > thickest:
		c.problem(c.v.line, is+" is too high", "keep below the solids density, 2.6")
	default:
		if x < usuallyThin || x > usuallyThick {
			c.caution(c.v.line, is, "is unusual for a wet glaze", "", "most are 1.3 to 1.6; weigh 100 mL again")
		}
		*to.(*float64) = x
		return true
	}
	return false
}

// glazes checks every [[glaze]].
func (f fields) glazes(d *draft, m *materials) {
	if len(d.glazes) == 0 && !f.has("glaze") {
		f.missing(1, "the plan has no [[glaze]]", "one for each glaze, with its name and recipe")
	}
	if n := len(d.glazes); n > mostGlazes {
		f.problem(d.glazes[mostGlazes].fields.line, "there are "+strconv.Itoa(n)+" glazes", "at most "+strconv.Itoa(mostGlazes))
	}
	first := map[string]int{}
	for _, g := range d.glazes {
		name, line := fold(g.Name), g.fields.at("name")
		if at := first[name]; at > 0 && name != "" {
			f.problem(line, "two glazes are named "+quote(g.Name), "rename one; the first is on line "+strconv.Itoa(at))
		} else {
			first[name] = line
		}
		g.check(m)
		d.plan.Glazes = append(d.plan.Glazes, g.Glaze)
	}
}

// check holds the keys of one [[glaze]] against each other.
func (g *glazeDraft) check(m *materials) {
	f := g.fields
	of := f.ofName()
	g.Recipe, g.Additions = g.recipe.parts, g.additions.parts
	for _, list := range []partList{g.recipe, g.additions} {
		for i, p := range list.parts {
			m.use(p.Material, list.lines[i])
		}
	}
	sum := 0.0
	for _, p := range g.Recipe {
		sum += p.Amount
	}
	if g.Recipe != nil && (sum < 99 || sum > 101) {
		f.caution(f.at("recipe"), "recipe"+of, "adds up to "+strconv.FormatFloat(sum, 'g', 6, 64)+"; scaled to 100", "", "check the amounts")
	}
	if f.t != nil && !f.has("recipe") {
		if f.has("additions") {
			f.missing(f.at("additions"), "additions"+of+" have no recipe to go over", "add the recipe, or leave both out for a glaze from the bucket")
		}
	}
	if g.SG > 0 && g.Solids > 0 && g.SG >= g.Solids {
		f.problem(f.at("specific-gravity"), f.shown("specific-gravity")+" is too high", "keep below the solids density, "+number(g.Solids)+" g/mL")
	}
	if g.SG > 0 && g.WaterPer > 0 {
		f.problem(f.at("water"), "the glaze"+of+" has specific-gravity and water", "keep one; the other follows")
	}
}

// density holds each glaze's specific gravity against that of its solids.
func (f fields) density(d *draft) {
	library := oxide.Builtin().With(d.plan.Materials...)
	for i, glaze := range d.plan.Glazes {
		g := d.glazes[i].fields
		if glaze.SG == 0 || glaze.Recipe == nil && glaze.Solids == 0 {
			continue
		}
		if solids := glaze.SolidsDensity(library); glaze.SG >= solids {
			f.problem(g.at("specific-gravity"), g.shown("specific-gravity")+" is too high",
				"keep below the density of the dry materials, "+strconv.FormatFloat(solids, 'f', 2, 64)+" g/mL")
		}
	}
}

// materials is what a plan's recipes can be made of, and what they use.
type materials struct {
	*reader
	own     []*materialDraft
	library oxide.Library
	used    map[string]bool // names, folded
	unknown []unknownMaterial
}

// unknownMaterial is one that the library does not have.
type unknownMaterial struct {
	name string
	line int
}

// materials checks every [[material]].
func (r *reader) materials(d *draft) *materials {
	m := &materials{reader: r, own: d.materials, used: map[string]bool{}}
	seen := map[string]bool{}
	for _, own := range d.materials {
		f, name := own.fields, fold(own.Name)
		if name != "" && seen[name] {
			r.problem(f.at("name"), "two materials are named "+quote(own.Name), "keep one [[material]] of each name")
		}
		seen[name] = true
		if !f.has("analysis") && !f.has("density") {
			f.missing(f.line, "the material"+strings.TrimPrefix(f.ofName(), " of")+" has neither analysis nor density", "analysis = { SiO2 = 60, … } in weight percent, or density = 2.6 in g/mL")
		}
		if own.analysis != nil {
			own.analyse()
		}
		d.plan.Materials = append(d.plan.Materials, own.Material)
	}
	m.library = oxide.Builtin().With(d.plan.Materials...)
	return m
}

// analyse works an analysis out. One of the fired material adds up to 100 %
// without its loss, and becomes one of the raw material here.
func (own *materialDraft) analyse() {
	f := own.fields
	percents, lines := map[string]float64{}, map[string]int{}
	loss := 0.0
	for _, e := range own.analysis {
		if strings.EqualFold(e.key, "LOI") {
			loss = e.value
		}
	}
	for _, e := range own.analysis {
		percents[e.key], lines[e.key] = e.value, e.line
		if own.of == "fired" && !strings.EqualFold(e.key, "LOI") {
			percents[e.key] = e.value * (1 - loss/100)
		}
	}
	a, err := oxide.ParseAnalysis(percents)
	var wrong *oxide.AnalysisError
	if errors.As(err, &wrong) {
		line := lines[wrong.Key]
		if line == 0 {
			line = f.at("analysis")
		}
		f.problem(line, wrong.Reason, "")
	}
	own.Analysis, own.Basis = a, oxide.Own
}

// use notes that a recipe or a series has a material.
func (m *materials) use(name string, line int) {
	if m.used[fold(name)] {
		return
	}
	m.used[fold(name)] = true
	if _, ok := m.library.Find(name); !ok {
		m.unknown = append(m.unknown, unknownMaterial{name, line})
	}
}

// questions asks about materials that are unknown or unused, and about glazes
// that no cup is poured from.
func (m *materials) questions(d *draft) {
	m.askUnknown()
	taken := map[string]bool{}
	for name := range m.used {
		if found, ok := m.library.Find(name); ok {
			taken[found.Name] = true
		}
	}
	for _, own := range m.own {
		if !taken[own.Name] {
			m.caution(own.fields.line, "material "+own.Name, "is in no recipe of this plan", "", "spell its name as in the recipe")
		}
	}
	used := d.plan.Blend.Ends
	if d.plan.Blend.HasSeries() {
		used = []int{d.plan.Blend.Base}
	}
	for i, g := range d.glazes {
		if !slices.Contains(used, i) {
			m.caution(g.fields.line, "glaze "+g.Name, "is not used", "", "add it to ends, or delete it")
		}
	}
}

// askUnknown asks about all unknown materials in one question.
func (m *materials) askUnknown() {
	const why, fix = "density assumed, chemistry left blank", "describe it in a [[material]]"
	near := func(name string) string {
		if n := m.library.Nearest(name); n != "" {
			return "did you mean " + quote(n) + "?"
		}
		return ""
	}
	if len(m.unknown) == 1 {
		only := m.unknown[0]
		right := fix
		if n := near(only.name); n != "" {
			right = n
		}
		m.caution(only.line, "material "+only.name, "is unknown", why, right)
	}
	if len(m.unknown) < 2 {
		return
	}
	const most = 20 // a plan with more is in another language
	var all []string
	for i, u := range m.unknown {
		if i == most {
			all = append(all, plural(len(m.unknown)-i, "other"))
			break
		}
		text := quote(u.name) + " on line " + strconv.Itoa(u.line)
		if n := near(u.name); n != "" {
			text += ", " + n
		}
		all = append(all, text)
	}
	m.warnings = append(m.warnings, Note{Place: "materials", What: "unknown: " + strings.Join(all, "; "), Why: why, Fix: "describe each in a [[material]]"})
}
