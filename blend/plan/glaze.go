package plan

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

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
func (r *reader) glazes(d *draft) {
	r.named(d.items["glaze"], "glazes", func(it *item) string { return it.glaze.Name })
	for _, it := range d.items["glaze"] {
		f, g := it.fields, it.glaze
		sum := 0.0
		for _, p := range g.Recipe {
			sum += p.Percent
		}
		if g.Recipe != nil && (sum < 99 || sum > 101) {
			f.caution(f.at("recipe"), "recipe"+f.ofName(), "adds up to "+quantity.Significant(sum, 6)+"; scaled to 100", "check the amounts")
		}
		if f.has("additions") && !f.has("recipe") {
			f.missing(f.at("additions"), "additions"+f.ofName()+" have no recipe to go over", "add the recipe, or leave both out for a glaze from the bucket")
		}
		d.plan.Glazes = append(d.plan.Glazes, g)
	}
}

// density holds each glaze's specific gravity against that of its materials.
func (d *draft) density(library oxide.Library) {
	for _, it := range d.items["glaze"] {
		g := it.glaze
		solids := g.SolidsDensity(library)
		if (g.Recipe != nil || g.Solids > 0) && g.SG >= solids {
			it.fields.wrong("specific-gravity", "is too high", "keep below the density of the dry materials, "+quantity.SGText(solids)+" g/mL")
		}
	}
}

// materials checks every [[material]].
func (r *reader) materials(d *draft) {
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

// use is a material of a recipe or a series, and the first line that has it.
type use struct {
	name string
	line int
}

// used is the materials of all recipes and series, each once.
func (d *draft) used() (all []use) {
	add := func(name string, line int) {
		if !slices.ContainsFunc(all, func(u use) bool { return quantity.Fold(u.name) == quantity.Fold(name) }) {
			all = append(all, use{name, line})
		}
	}
	for _, it := range d.items["glaze"] {
		for _, p := range it.glaze.Recipe {
			add(p.Material, it.fields.lineOf("recipe", p.Material))
		}
		for _, p := range it.glaze.Additions {
			add(p.Material, it.fields.lineOf("additions", p.Material))
		}
	}
	for _, it := range d.items["blend.series"] {
		add(it.series.Material, it.fields.at("material"))
	}
	return all
}

// questions asks about materials that are unknown or unused, and about glazes
// that no cup is poured from.
func (r *reader) questions(d *draft, library oxide.Library) {
	taken := map[string]bool{}
	var unknown []string
	for _, u := range d.used() {
		found, ok := library.Find(u.name)
		if taken[found.Name] = ok; ok {
			continue
		}
		text := quote(u.name) + " on line " + strconv.Itoa(u.line)
		if near := library.Nearest(u.name); near != "" {
			text += ", did you mean " + quote(near) + "?"
		}
		unknown = append(unknown, text)
	}
	const most = 8 // a plan with more is in another language
	if more := len(unknown) - most; more > 0 {
		unknown = append(unknown[:most], quantity.Plural(more, "other", "others"))
	}
	if unknown != nil {
		r.warnings = append(r.warnings, "materials: unknown: "+strings.Join(unknown, "; ")+
			"; density assumed, chemistry left blank (describe each in a [[material]])")
	}
	for _, own := range d.items["material"] {
		if !taken[own.material.Name] {
			r.caution(own.fields.line, "material "+own.material.Name, "is in no recipe of this plan", "spell its name as in the recipe")
		}
	}
	poured := d.plan.Blend.Ends
	if d.plan.Blend.HasSeries() {
		poured = []int{d.plan.Blend.Base}
	}
	for i, it := range d.items["glaze"] {
		if !slices.Contains(poured, i) {
			r.caution(it.fields.line, "glaze "+it.glaze.Name, "is not used", "add it to ends, or delete it")
		}
	}
}
