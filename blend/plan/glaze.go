package plan

import (
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// named refuses a second [[glaze]] or [[material]] of one name.
func (r *reader) named(path string, name func(*item) string) {
	first := map[string]int{}
	for _, it := range r.d.items[path] {
		key, line := quantity.Fold(name(it)), it.at("name")
		if at := first[key]; at > 0 && key != "" {
			r.problem(line, "two "+path+"s are named "+quote(name(it)), "rename one; the first is on line "+strconv.Itoa(at))
		} else {
			first[key] = line
		}
	}
}

// What is usual of a wet glaze, in specific gravity, and beyond what it deserves a
// question (common practice, no source).
const usuallyThin, usuallyThick = 1.2, 1.8

// recipes checks every [[glaze]].
func (r *reader) recipes() {
	r.named("glaze", func(it *item) string { return it.Glaze.Name })
	for _, it := range r.d.items["glaze"] {
		it.Glaze.Line = it.at("specific-gravity")
		sum := 0.0
		for _, p := range it.Glaze.Recipe {
			sum += p.Percent
		}
		if it.Glaze.Recipe != nil && (sum < 99 || sum > 101) {
			r.caution(it.at("recipe"), "recipe"+it.ofName(), "adds up to "+quantity.Significant(sum, 6)+"; scaled to 100",
				"check the amounts")
		}
		if sg := it.Glaze.SG; sg > 0 && (sg < usuallyThin || sg > usuallyThick) {
			r.caution(it.at("specific-gravity"), "specific-gravity = "+number(sg), "is unusual for a wet glaze",
				"most are 1.3 to 1.6; weigh 100 mL again")
		}
		if it.has("additions") && !it.has("recipe") {
			r.missing(it.at("additions"), "additions"+it.ofName()+" have no recipe to go over",
				"add the recipe, or leave both out for a glaze from the bucket")
		}
		r.d.Glazes = append(r.d.Glazes, it.Glaze)
	}
}

// density holds each glaze's specific gravity against that of its materials.
func (r *reader) density(library oxide.Library) {
	for _, it := range r.d.items["glaze"] {
		g := it.Glaze
		solids := g.SolidsDensity(library)
		if (g.Recipe != nil || g.Solids > 0) && g.SG >= solids {
			it.wrong("specific-gravity", "is too high",
				"keep below the density of the dry materials, "+quantity.SGText(solids)+" g/mL")
		}
	}
}

// materials checks every [[material]].
func (r *reader) materials() {
	r.named("material", func(it *item) string { return it.Material.Name })
	for _, it := range r.d.items["material"] {
		if !it.has("analysis", "density") {
			r.missing(it.group.line, "the material"+strings.TrimPrefix(it.ofName(), " of")+" has neither analysis nor density",
				"analysis = { SiO2 = 60, … } in weight percent, or density = 2.6 in g/mL")
		}
		if it.has("analysis") {
			it.Material.Basis = oxide.Own
		}
		r.d.Materials = append(r.d.Materials, it.Material)
	}
}

// questions asks about materials that are unknown or unused, and about glazes
// that no cup is poured from.
func (r *reader) questions(library oxide.Library) {
	used, seen := map[string]bool{}, map[string]bool{}
	var unknown []string
	for _, m := range r.materialsUsed() {
		found, ok := library.Find(m.name)
		used[found.Name] = true
		if key := quantity.Fold(m.name); !ok && !seen[key] {
			seen[key] = true
			text := quote(m.name) + " on line " + strconv.Itoa(m.line)
			if near := library.Nearest(m.name); near != "" {
				text += ", did you mean " + quote(near) + "?"
			}
			unknown = append(unknown, text)
		}
	}
	const most = 8 // a plan with more is in another language
	if more := len(unknown) - most; more > 0 {
		unknown = append(unknown[:most], quantity.Plural(more, "other", "others"))
	}
	if unknown != nil {
		r.warnings = append(r.warnings, "materials: unknown: "+strings.Join(unknown, "; ")+
			"; density assumed, chemistry left blank (describe each in a [[material]])")
	}
	for _, own := range r.d.items["material"] {
		if !used[own.Material.Name] {
			r.caution(own.group.line, "material "+own.Material.Name, "is in no recipe of this plan",
				"spell its name as in the recipe")
		}
	}
	for i, it := range r.d.items["glaze"] {
		if !slices.Contains(r.d.Blend.Glazes(), i) {
			r.caution(it.group.line, "glaze "+it.Glaze.Name, "is not used", "add it to ends, or delete it")
		}
	}
}

// use is a material where a recipe or a series names it.
type use struct {
	name string
	line int
}

// materialsUsed is the materials of all recipes and series.
func (r *reader) materialsUsed() (all []use) {
	for _, it := range r.d.items["glaze"] {
		for _, p := range it.Glaze.Recipe {
			all = append(all, use{p.Material, it.lineOf("recipe", p.Material)})
		}
		for _, p := range it.Glaze.Additions {
			all = append(all, use{p.Material, it.lineOf("additions", p.Material)})
		}
	}
	for _, it := range r.d.items["blend.series"] {
		all = append(all, use{it.Series.Material, it.at("material")})
	}
	return all
}
