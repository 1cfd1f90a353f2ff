package plan

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// Flag is a flag of `new`: what most plans differ in, as a key of the plan.
type Flag struct {
	Name    string
	Several bool // given once for each glaze, or colourant

	path, key string // a design that takes the key takes the flag
}

// Flags is all flags that give a new plan what it is of.
func Flags() []Flag {
	return []Flag{
		{"glaze", true, "blend", "ends"}, {"base", false, "blend", "base"}, {"colourant", true, "blend", "base"},
		{"cups", false, "blend", "tiles"}, {"divisions", false, "blend", "divisions"},
		{"batch", false, "cup", "batch"}, {"cup-size", false, "cup", "dry"},
		{"jug", false, "measure", "pour"}, {"scale", false, "measure", "scale"},
		{"bodies", false, "tiles", "bodies"}, {"tile", false, "tiles", "size"}, {"paper", false, "board", "paper"},
		{"title", false, "", "title"}, {"mark", false, "", "mark"},
	}
}

// AssumedSG is the specific gravity that a plan is given for a base of which
// only the name is known: doses need it.
const AssumedSG = 1.45

// New is a commented plan of a design with what the flags give it, by their
// names. They are read as their keys, and checked as a plan;
// the error names the flag that is wrong.
func New(design Design, given map[string][]string) ([]byte, error) {
	start := design.plan()
	name := designName(start.Blend.Kind, start.Blend.HasSeries())
	if err := refused(name, given); err != nil {
		return nil, err
	}
	a := answers{given: given, root: parse(design.text()), weigh: start.Blend.Method == blend.ByWeigh, kind: start.Blend.Kind}
	if err := a.put(); err != nil {
		return nil, err
	}
	lines := newParser(ignore)
	lines.add([]byte(strings.ToValidUTF8(strings.Join(a.lines, "\n"), "\uFFFD")), firstLine)
	a.root.merge(lines.root)
	r := &reader{design: name}
	p := r.plan(a.root)
	r.problems.inOrder()
	if err := a.refusal(p, r.problems); err != nil {
		return nil, err
	}
	a.entitle(p)
	p.Kit.Defaults = []string{"syringe 1 mL"} // of a stock only
	return commented(p), nil
}

// refused is an error where a flag does not belong to a design, or two say the same.
func refused(design string, given map[string][]string) error {
	var takes, not []string
	for _, f := range Flags() {
		k := section(f.path).find(f.key)
		switch {
		case k.fits(design) && k.Designs != nil:
			takes = append(takes, "--"+f.Name)
		case !k.fits(design) && given[f.Name] != nil:
			not = append(not, "--"+f.Name)
		}
	}
	if not != nil {
		return errors.New(withFix(kindText(design)+" takes no "+not[0], "it takes "+listed(takes, "and")))
	}
	for _, two := range [][2]string{{"cups", "divisions"}, {"batch", "cup-size"}} {
		if given[two[0]] != nil && given[two[1]] != nil {
			return errors.New(withFix("--"+two[0]+" and --"+two[1]+" say the same", "keep one of them"))
		}
	}
	return nil
}

// answers puts what the flags give into a plan to start from, as lines of a plan.
type answers struct {
	given map[string][]string
	root  *table // of the plan to start from
	kind  blend.Kind
	weigh bool

	flag  string   // at work
	lines []string // "blend.divisions = 4"
	flags []string // that each line is of
}

// firstLine is beyond the lines of a plan to start from, so that a problem is put
// down to its flag.
const firstLine = 10_000

func (a *answers) put() error {
	a.drop("tiles", "bodies")
	a.drop("measure", "fine")
	for _, f := range Flags() {
		values := a.given[f.Name]
		if values == nil {
			continue
		}
		a.flag = f.Name
		switch f.Name {
		case "glaze":
			a.endGlazes(values)
		case "base":
			a.answer("blend", "base", values[0])
			a.set("glaze", "[{ name = "+quantity.TOML(values[0])+", specific-gravity = "+number(AssumedSG)+" }]")
		case "colourant":
			if err := a.colourants(values); err != nil {
				return err
			}
		case "cups":
			a.drop("blend", "cells", "divisions")
			a.answer("blend", "tiles", values[0])
		case "cup-size", "batch":
			key := f.key
			if _, in, err := quantity.Graduation(values[0]); err == nil && in == "mL" && key == "dry" {
				key = "volume"
			}
			a.drop("cup", "dry", "volume", "batch")
			a.answer("cup", key, values[0])
		default:
			a.answer(f.path, f.key, values[0])
		}
	}
	return nil
}

// merge puts the keys of another table in place of those that t has.
func (t *table) merge(other *table) {
	for _, v := range other.entries {
		if old := t.byKey[v.key]; old != nil && old.kind == group && v.kind == group {
			old.table.merge(v.table)
		} else {
			t.put(v)
		}
	}
}

// drop takes keys from a section.
func (a *answers) drop(path string, keys ...string) {
	for _, key := range keys {
		delete(a.root.byKey[path].table.byKey, key)
	}
}

// set writes a line of a plan for the flag at work.
func (a *answers) set(path, value string) {
	a.lines = append(a.lines, path+" = "+value)
	a.flags = append(a.flags, a.flag)
}

// answer writes a key with what was typed for it.
func (a *answers) answer(path, key, typed string) {
	k := section(path).find(key)
	a.set(strings.TrimPrefix(path+"."+key, "."), k.typed(typed))
}

// typed is an answer in the form that the key's example has.
func (k *Key) typed(answer string) string {
	form := quantity.TOML
	if strings.Trim(k.Example[:min(2, len(k.Example))], "[0123456789") == "" { // 5, or [0, 1]
		form = figureOrText
	}
	if k.Example[0] == '[' {
		return bracketed(strings.Split(answer, ","), form)
	}
	return form(answer)
}

// figureOrText is a number, or a text that is none.
func figureOrText(s string) string {
	if x, err := strconv.ParseFloat(strings.TrimSpace(s), 64); err == nil && x-x == 0 {
		return number(x)
	}
	return quantity.TOML(s)
}

// endGlazes puts in the glazes that are blended, known by their names alone;
// those of a weighed design are raw materials.
func (a *answers) endGlazes(names []string) {
	a.set("blend.ends", bracketed(names, quantity.TOML))
	a.set("glaze", bracketed(names, func(name string) string {
		if a.weigh {
			return "{ name = " + quantity.TOML(name) + ", specific-gravity = " + number(AssumedSG) + ", recipe = [[" + quantity.TOML(name) + ", 100]] }"
		}
		return "{ name = " + quantity.TOML(name) + " }"
	}))
	if a.kind == blend.List { // to be changed: a cup of equal parts
		a.set("blend.cells", "["+bracketed(slices.Repeat([]float64{1}, len(names)), number)+"]")
	}
	if !a.weigh {
		a.set("blend.basis", quote(string(blend.Volume)))
		a.drop("cup", "dry")
		if a.given["cup-size"] == nil {
			a.set("cup.volume", `"100 mL"`)
		}
	}
}

// colourants puts in the series.
func (a *answers) colourants(all []string) error {
	key := "percent"
	if a.kind == blend.Triaxial {
		key = "to"
	}
	var series []string
	zeros := 0
	for _, answer := range all {
		name, percent, ok := strings.Cut(answer, "=")
		if name = strings.TrimSpace(name); !ok || name == "" || strings.TrimSpace(percent) == "" {
			return errors.New(withFix("--colourant: "+quote(answer)+" has no percentages", `as in "Rutile=0,1,2,4"`))
		}
		value := section("blend.series").find(key).typed(percent)
		series = append(series, "{ material = "+quantity.TOML(name)+", "+key+" = "+value+" }")
		if strings.HasPrefix(value+",", "[0,") {
			zeros++
		}
	}
	a.set("blend.series", "["+strings.Join(series, ", ")+"]")
	a.drop("blend", "shared-zero")
	if a.kind == blend.Rows && zeros == len(all) {
		a.set("blend.shared-zero", "true")
	}
	return nil
}

// refusal is the first problem with its flag, or what glazes that are known by
// their names alone cannot be.
func (a *answers) refusal(p *blend.Plan, problems Problems) error {
	named := a.given["glaze"] != nil && !a.weigh
	switch {
	case len(problems) > 0:
		ofFlag := slices.IndexFunc(problems, func(p Problem) bool { return p.Line >= firstLine })
		first := problems[max(ofFlag, 0)]
		text := withFix(first.What, first.Right)
		if i := first.Line - firstLine; i >= 0 {
			text = "--" + a.flags[i] + ": " + text
		}
		return errors.New(text)
	case named && (p.Kit.OnScale() || p.Cup.Size.Of == blend.Dry):
		return errors.New("amounts in g need each glaze's SG (give --cup-size and --jug in mL, or write the SG into the plan)")
	}
	return nil
}

// entitle gives a plan of other glazes a title that names them, and a mark of
// their initials.
func (a *answers) entitle(p *blend.Plan) {
	if a.given["glaze"] == nil && a.given["base"] == nil && a.given["colourant"] == nil {
		return
	}
	var names []string
	in := ""
	for _, s := range p.Blend.Series {
		names, in = append(names, s.Material), " in "+p.Glazes[0].Name
	}
	if in == "" {
		for _, g := range p.Glazes {
			names = append(names, g.Name)
		}
	}
	if a.given["title"] == nil {
		p.Title = listed(names, "and") + in
	}
	initials := ""
	for _, name := range names {
		if c := strings.ToUpper(name[:1]); strings.Contains(clear, c) && len(initials) < 2 {
			initials += c
		}
	}
	if a.given["mark"] == nil && initials != "" {
		p.Mark = initials
	}
}
