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

// named refuses a second [[glaze]] or [[material]] of one name.
func (r *reader) named(items []*item, sort string, name func(*item) string) {
	first := map[string]int{}
	for _, it := range items {
		key, line := quantity.Fold(name(it)), it.fields.at("name")
		if at := first[key]; at > 0 && key != "" {
			r.problem(line, "two "+sort+" are named "+quote(name(it)), "rename one; the first is on line "+strconv.Itoa(at))
		} else {
			first[key] = line
		}
	}
}

// glazes checks every [[glaze]].
func (r *reader) glazes(d *draft, m *materials) {
	all := d.items["glaze"]
	if n := len(all); n > mostGlazes {
		r.problem(all[mostGlazes].fields.line, "there are "+strconv.Itoa(n)+" glazes", "at most "+strconv.Itoa(mostGlazes))
	}
	r.named(all, "glazes", func(it *item) string { return it.glaze.Name })
	for _, it := range all {
		it.checkGlaze(m)
		d.plan.Glazes = append(d.plan.Glazes, it.glaze)
	}
}

// checkGlaze holds the keys of one [[glaze]] against each other.
func (it *item) checkGlaze(m *materials) {
	f, g := it.fields, &it.glaze
	sum := 0.0
	for _, p := range g.Recipe {
		m.use(p.Material, f.lineOf("recipe", p.Material))
		sum += p.Percent
	}
	for _, p := range g.Additions {
		m.use(p.Material, f.lineOf("additions", p.Material))
	}
	if g.Recipe != nil && (sum < 99 || sum > 101) {
		f.caution(f.at("recipe"), "recipe"+f.ofName(), "adds up to "+quantity.Significant(sum, 6)+"; scaled to 100", "", "check the amounts")
	}
	if f.has("additions") && !f.has("recipe") {
		f.missing(f.at("additions"), "additions"+f.ofName()+" have no recipe to go over", "add the recipe, or leave both out for a glaze from the bucket")
	}
}

// density holds each glaze's specific gravity against that of its materials.
func (m *materials) density(d *draft) {
	for _, it := range d.items["glaze"] {
		g := it.glaze
		solids := g.SolidsDensity(m.library)
		if (g.Recipe != nil || g.Solids > 0) && g.SG >= solids {
			it.fields.wrong("specific-gravity", "is too high", "keep below the density of the dry materials, "+quantity.SGText(solids)+" g/mL")
		}
	}
}

// materials is what a plan's recipes can be made of, and what they use.
type materials struct {
	*reader
	library oxide.Library
	used    []use
}

// use is a material of a recipe or a series, and the first line that has it.
type use struct {
	name string
	line int
}

// materials checks every [[material]].
func (r *reader) materials(d *draft) *materials {
	r.named(d.items["material"], "materials", func(it *item) string { return it.material.Name })
	for _, it := range d.items["material"] {
		f := it.fields
		if !f.has("analysis", "density") {
			f.missing(f.line, "the material"+strings.TrimPrefix(f.ofName(), " of")+" has neither analysis nor density",
				"analysis = { SiO2 = 60, … } in weight percent, or density = 2.6 in g/mL")
		}
		if it.analysis != nil {
			it.analyse()
		}
		d.plan.Materials = append(d.plan.Materials, it.material)
	}
	return &materials{reader: r, library: oxide.Builtin().With(d.plan.Materials...)}
}

// analyse works an analysis out. One of the fired material adds up to 100 %
// without its loss, and becomes one of the raw material here.
func (it *item) analyse() {
	percents, lines := map[string]float64{}, map[string]int{"": it.fields.at("analysis")}
	isLoss := func(e percentOf) bool { return strings.EqualFold(e.key, "LOI") }
	raw := 1.0
	if i := slices.IndexFunc(it.analysis, isLoss); i >= 0 && it.analysisOf == "fired" {
		raw -= it.analysis[i].percent / 100
	}
	for _, e := range it.analysis {
		percents[e.key], lines[e.key] = e.percent, e.line
		if !isLoss(e) {
			percents[e.key] *= raw
		}
	}
	a, err := oxide.ParseAnalysis(percents)
	var wrong *oxide.AnalysisError
	if errors.As(err, &wrong) {
		it.fields.problem(lines[wrong.Key], wrong.Reason, "")
	}
	it.material.Analysis, it.material.Basis = a, oxide.Own
}

// use notes that a recipe or a series has a material.
func (m *materials) use(name string, line int) {
	if !slices.ContainsFunc(m.used, func(u use) bool { return quantity.Fold(u.name) == quantity.Fold(name) }) {
		m.used = append(m.used, use{name, line})
	}
}

// questions asks about materials that are unknown or unused, and about glazes
// that no cup is poured from.
func (m *materials) questions(d *draft) {
	taken := map[string]bool{}
	var unknown []use
	for _, u := range m.used {
		if found, ok := m.library.Find(u.name); ok {
			taken[found.Name] = true
		} else {
			unknown = append(unknown, u)
		}
	}
	m.unknown(unknown)
	for _, own := range d.items["material"] {
		if !taken[own.material.Name] {
			m.caution(own.fields.line, "material "+own.material.Name, "is in no recipe of this plan", "", "spell its name as in the recipe")
		}
	}
	used := d.plan.Blend.Ends
	if d.plan.Blend.HasSeries() {
		used = []int{d.plan.Blend.Base}
	}
	for i, it := range d.items["glaze"] {
		if !slices.Contains(used, i) {
			m.caution(it.fields.line, "glaze "+it.glaze.Name, "is not used", "", "add it to ends, or delete it")
		}
	}
}

// unknown asks about the materials that the library does not have.
func (m *materials) unknown(all []use) {
	const most = 8 // a plan with more is in another language
	var texts []string
	for _, u := range all[:min(most, len(all))] {
		text := quote(u.name) + " on line " + strconv.Itoa(u.line)
		if near := m.library.Nearest(u.name); near != "" {
			text += ", did you mean " + quote(near) + "?"
		}
		texts = append(texts, text)
	}
	if more := len(all) - most; more > 0 {
		texts = append(texts, quantity.Plural(more, "other", "others"))
	}
	if texts != nil {
		m.warnings = append(m.warnings, Note{Place: "materials", What: "unknown: " + strings.Join(texts, "; "),
			Why: "density assumed, chemistry left blank", Fix: "describe each in a [[material]]"})
	}
}
