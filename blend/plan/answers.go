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
	if err := refusedFlags(designName(start.Blend.Kind, start.Blend.HasSeries()), given); err != nil {
		return nil, err
	}
	a := answers{given: given, weigh: start.Blend.Method == blend.ByWeigh, kind: start.Blend.Kind}
	a.root, _ = parse([]byte(design.text()), nil)
	if err := a.put(); err != nil {
		return nil, err
	}
	r := &reader{}
	p := r.plan(a.root)
	r.problems.inOrder()
	if err := a.refusal(p, r.problems); err != nil {
		return nil, err
	}
	a.entitle(p)
	p.Kit.Defaults = []string{"syringe 1 mL"} // of a stock only
	return commented(p), nil
}

// refusedFlags is an error where a flag does not belong to a design, or two say
// the same.
func refusedFlags(design string, given map[string][]string) error {
	var takes, chosen []Flag
	for _, f := range Flags() {
		k := section(f.path).find(f.key)
		if k.fits(design) && k.Designs != nil {
			takes = append(takes, f)
		}
		if given[f.Name] != nil {
			chosen = append(chosen, f)
		}
	}
	for _, f := range chosen {
		k := section(f.path).find(f.key)
		if !k.fits(design) {
			return errors.New(withFix(kindText(design)+" takes no --"+f.Name, "it takes "+listedFlags(takes)))
		}
		for _, g := range chosen {
			if g.path == f.path && slices.Contains(k.Instead, g.key) {
				return errors.New(withFix(listedFlags([]Flag{f, g})+" say the same", "keep one of them"))
			}
		}
	}
	return nil
}

func listedFlags(all []Flag) string {
	var names []string
	for _, f := range all {
		names = append(names, "--"+f.Name)
	}
	return listed(names, "and")
}

// answers puts what the flags give into the tree of a plan to start from.
type answers struct {
	given map[string][]string
	root  *table
	kind  blend.Kind
	weigh bool
	line  int // of what is put in: that of its flag
}

// firstLine is beyond the lines of a plan to start from: what the flags give has
// lines of its own, by which a problem is put down to its flag.
const firstLine = 10_000

func (a *answers) put() error {
	a.drop("tiles", "bodies")
	a.drop("measure", "fine")
	for i, f := range Flags() {
		values := a.given[f.Name]
		if values == nil {
			continue
		}
		a.line = firstLine + i
		switch f.Name {
		case "glaze":
			a.endGlazes(values)
		case "base":
			a.set("blend", "base", values[0])
			a.root.put("glaze", a.list([]*value{a.glaze(values[0], AssumedSG)}))
		case "colourant":
			if err := a.colourants(values); err != nil {
				return err
			}
		case "cups":
			a.drop("blend", "cells", "divisions")
			a.set("blend", "tiles", values[0])
		case "cup-size", "batch":
			key := f.key
			if _, in, err := quantity.Graduation(values[0]); err == nil && in == "mL" && key == "dry" {
				key = "volume"
			}
			a.drop("cup", "dry", "volume", "batch")
			a.set("cup", key, values[0])
		default:
			a.set(f.path, f.key, values[0])
		}
	}
	return nil
}

// section is the table of a section, made where there is none.
func (a *answers) section(path string) *table {
	if path == "" {
		return a.root
	}
	if a.root.byKey[path] == nil {
		a.root.put(path, a.group())
	}
	return a.root.byKey[path].value.table
}

// put gives a key a value, in place of the one that it has.
func (t *table) put(key string, v *value) {
	if old := t.byKey[key]; old != nil {
		old.value, old.line = v, v.line
		return
	}
	t.add(key, v.line, v)
}

func (a *answers) drop(path string, keys ...string) {
	for _, key := range keys {
		delete(a.section(path).byKey, key)
	}
}

func (a *answers) set(path, key, answer string) {
	a.section(path).put(key, a.value(section(path).find(key), answer))
}

// value is an answer in the form that the example of its key has.
func (a *answers) value(k *Key, answer string) *value {
	each := a.text
	if strings.Trim(k.Example[:min(2, len(k.Example))], "[0123456789.") == "" {
		each = a.figure
	}
	if k.Example[0] != '[' {
		return each(answer)
	}
	var all []*value
	for _, part := range strings.Split(answer, ",") {
		all = append(all, each(part))
	}
	return a.list(all)
}

func (a *answers) text(s string) *value { return &value{kind: text, line: a.line, text: s} }

// figure is a number, or a text that is none.
func (a *answers) figure(s string) *value {
	v := a.text(strings.TrimSpace(s))
	if _, err := strconv.ParseFloat(v.text, 64); err == nil {
		v.kind = figure
	}
	return v
}

func (a *answers) list(items []*value) *value { return &value{kind: list, line: a.line, items: items} }

func (a *answers) group() *value { return &value{kind: group, line: a.line, table: newTable()} }

// glaze is a glaze known by its name and, unless it is 0, its specific gravity.
func (a *answers) glaze(name string, sg float64) *value {
	g := a.group()
	g.table.put("name", a.text(name))
	if sg > 0 {
		g.table.put("specific-gravity", a.figure(number(sg)))
	}
	return g
}

// endGlazes puts in the glazes that are blended, known by their names alone;
// those of a weighed design are raw materials.
func (a *answers) endGlazes(names []string) {
	var ends, glazes, each []*value
	equal := a.list(nil)
	for i, name := range names {
		ends = append(ends, a.text(name))
		g := a.glaze(name, 0)
		if a.weigh {
			g = a.glaze(name, AssumedSG)
			g.table.put("recipe", a.list([]*value{a.list([]*value{a.text(name), a.figure("100")})}))
		}
		glazes = append(glazes, g)
		alone := a.list(nil)
		for j := range names {
			alone.items = append(alone.items, a.figure(strconv.Itoa(map[bool]int{true: 1}[i == j])))
		}
		each, equal.items = append(each, alone), append(equal.items, a.figure("1"))
	}
	a.section("blend").put("ends", a.list(ends))
	a.root.put("glaze", a.list(glazes))
	if a.kind == blend.List { // to be changed: each glaze alone, then all in equal parts
		a.section("blend").put("cells", a.list(append(each, equal)))
	}
	if !a.weigh {
		a.set("blend", "basis", string(blend.Volume))
		a.drop("cup", "dry")
		if a.given["cup-size"] == nil {
			a.set("cup", "volume", "100 mL")
		}
	}
}

// colourants puts in the series.
func (a *answers) colourants(all []string) error {
	key := "percent"
	if a.kind == blend.Triaxial {
		key = "to"
	}
	var series []*value
	zeros := 0
	for _, answer := range all {
		name, percent, ok := strings.Cut(answer, "=")
		if name = strings.TrimSpace(name); !ok || name == "" || strings.TrimSpace(percent) == "" {
			return errors.New(withFix("--colourant: "+quote(answer)+" has no percentages", `as in "Rutile=0,1,2,4"`))
		}
		s := a.group()
		s.table.put("material", a.text(name))
		v := a.value(section("blend.series").find(key), percent)
		s.table.put(key, v)
		if len(v.items) > 0 && v.items[0].text == "0" {
			zeros++
		}
		series = append(series, s)
	}
	a.section("blend").put("series", a.list(series))
	a.drop("blend", "shared-zero")
	if a.kind == blend.Rows && zeros == len(all) {
		a.section("blend").put("shared-zero", &value{kind: truth, line: a.line, text: "true"})
	}
	return nil
}

// refusal is the first problem with its flag, or what glazes that are known by
// their names alone cannot be.
func (a *answers) refusal(p *blend.Plan, problems Problems) error {
	named := a.given["glaze"] != nil && !a.weigh
	switch {
	case len(problems) > 0:
		first := problems[0]
		text := withFix(first.What, first.Right)
		if i := first.Line - firstLine; i >= 0 {
			text = "--" + Flags()[i].Name + ": " + text
		}
		return errors.New(text)
	case named && p.Kit.OnScale():
		return errors.New(`--jug: pouring on the scale needs each glaze's SG (a jug, such as --jug "5 mL", or write the SG into the plan)`)
	case named && p.Cup.Size.Of == blend.Dry:
		return errors.New(withFix("--cup-size: "+quote(a.given["cup-size"][0])+" needs each glaze's SG", `a volume, such as --cup-size "100 mL", or write the SG into the plan`))
	}
	return nil
}

// entitle gives a plan of other glazes a title that names them, and a mark of
// their initials.
func (a *answers) entitle(p *blend.Plan) {
	var names []string
	title := ""
	switch {
	case a.given["glaze"] != nil:
		for _, g := range p.Glazes {
			names = append(names, g.Name)
		}
		title = listed(names, "and")
	case a.given["base"] != nil || a.given["colourant"] != nil:
		for _, s := range p.Blend.Series {
			names = append(names, s.Material)
		}
		title = listed(names, "and") + " in " + p.Glazes[0].Name
		names = append(names, p.Glazes[0].Name)
	default:
		return
	}
	if a.given["title"] == nil {
		p.Title = title
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
