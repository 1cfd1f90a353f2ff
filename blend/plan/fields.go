package plan

import (
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/spell"
)

// mostProblems is how many problems of a plan are told: beyond it the file is
// something else than a plan.
const mostProblems = 200

// reader gathers what is wrong and what deserves a question.
type reader struct {
	file     string
	problems Problems
	warnings []Note
	design   string // by its name in the schema, "" when it cannot be told
	broken   bool   // part of the text was lost: what is missing may be in it
}

func (r *reader) problem(line int, what, right string) {
	if len(r.problems) > mostProblems {
		return
	}
	if n := len(r.problems); n > 0 && r.problems[n-1].Line == line && r.problems[n-1].What == what {
		return // once is enough, as for a recipe without any pairs
	}
	if len(r.problems) == mostProblems {
		what, right = "more than "+strconv.Itoa(mostProblems)+" problems", "mend those above first"
	}
	r.problems = append(r.problems, Problem{r.file, line, what, right})
}

// missing is a problem of something that is not there.
func (r *reader) missing(line int, what, right string) {
	if !r.broken {
		r.problem(line, what, right)
	}
}

func (r *reader) caution(line int, place, what, why, fix string) {
	r.warnings = append(r.warnings, Note{Place: place + " (line " + strconv.Itoa(line) + ")", What: what, Why: why, Fix: fix})
}

// fields is the keys of one section of a file.
type fields struct {
	*reader
	s    *Section
	line int    // of its heading
	t    *table // nil when the file does not have it
}

// section reads a section, or each of several, into the draft.
func (f fields) section(s *Section, d *draft) fields {
	name, _ := f.s.child(s.Path)
	sub := fields{reader: f.reader, s: s, line: f.line}
	v := f.get(name)
	if s.Several {
		for _, each := range f.each(s, name) {
			d.begin(each)
			each.read(d)
		}
		return sub
	}
	if v != nil {
		sub.line = v.line
		if v.kind != group {
			f.problem(v.line, name+" is "+describe(v), "a section with keys under it: "+s.heading())
			return sub
		}
		sub.t = v.table
	}
	sub.read(d)
	return sub
}

// each is the fields of every [[section]].
func (f fields) each(s *Section, name string) []fields {
	v := f.get(name)
	if v == nil {
		return nil
	}
	right := "a section in double brackets for each: " + s.heading()
	if v.kind != list {
		f.problem(v.line, name+" is "+describe(v), right)
		return nil
	}
	var all []fields
	for _, item := range v.items {
		if item.kind != group {
			f.problem(item.line, name+" lists something other than sections", right)
			continue
		}
		all = append(all, fields{reader: f.reader, s: s, line: item.line, t: item.table})
	}
	return all
}

// begin makes the draft of a [[section]] the one at work.
func (d *draft) begin(f fields) {
	switch f.s.Path {
	case "glaze":
		d.glaze = &glazeDraft{fields: f}
		d.glazes = append(d.glazes, d.glaze)
	case "material":
		d.material = &materialDraft{fields: f}
		d.materials = append(d.materials, d.material)
	case "blend.series":
		d.series = &seriesDraft{fields: f}
		d.steps = append(d.steps, d.series)
	case "poured":
		d.poured = &pouredDraft{fields: f}
		d.pours = append(d.pours, d.poured)
	}
}

// read reads the keys that the schema has for the section into the draft, and
// takes the defaults of those that are left out.
func (f fields) read(d *draft) {
	if f.t != nil {
		f.unknown()
	}
	for i := range f.s.Keys {
		k := &f.s.Keys[i]
		v := f.get(k.Name)
		if v == nil {
			f.leftOut(k, d)
			continue
		}
		if f.misfit(k) {
			continue
		}
		c := cell{reader: f.reader, k: k, v: v}
		if f.s.Several && k.Name != "name" {
			c.of = f.ofName()
		}
		k.form.codec().read(c, k.at(d))
	}
	if f.s.Path == "blend" {
		f.section(section("blend.series"), d)
	}
}

// misfit tells of a key that another design takes.
func (f fields) misfit(k *Key) bool {
	if k.fits(f.design) || !slices.Contains(ofEnds, f.design) && !slices.Contains(ofSeries, f.design) {
		return false
	}
	var takes []string
	for i := range f.s.Keys {
		if other := &f.s.Keys[i]; other.fits(f.design) && other.Name != "kind" {
			takes = append(takes, other.Name)
		}
	}
	f.problem(f.at(k.Name), k.Name+" does not belong to "+kindText(f.design), "it takes "+listed(takes, "and"))
	return true
}

// leftOut takes the default of a key, or asks for a key that is needed.
func (f fields) leftOut(k *Key, d *draft) {
	switch {
	case k.Default != "":
		silent := &reader{}
		root, _ := parse([]byte(k.Name+" = "+k.Default), silent.problem)
		k.form.codec().read(cell{reader: silent, k: k, v: root.byKey[k.Name].value}, k.at(d))
	case k.Needed && f.s.Path == "":
		f.missing(1, "the plan has no "+k.Name, k.line())
	case k.Needed && f.t != nil:
		f.missing(f.line, f.s.heading()+" has no "+k.Name, k.line())
	}
}

// ofName is ` of "Soda blue"` for a section with a name.
func (f fields) ofName() string {
	if v := f.get("name"); v != nil && v.kind == text && strings.TrimSpace(v.text) != "" {
		return " of " + quote(strings.TrimSpace(v.text))
	}
	return ""
}

// unknown tells of keys that there are not. One that was surely meant for a key
// that the section lacks is read as that.
func (f fields) unknown() {
	options := f.s.names()
	for _, e := range f.t.entries {
		if slices.Contains(options, e.key) {
			continue
		}
		if len(f.problems) > mostProblems {
			return
		}
		what := "unknown key " + quote(e.key) + " in " + f.s.heading()
		choices, show := options, func(key string) string { return key }
		if f.s.Path == "" && e.value.kind == group {
			what = "unknown section [" + quoteKey(e.key) + "]"
			choices = slices.DeleteFunc(slices.Clone(options), func(k string) bool { return section(k) == nil })
			show = func(path string) string { return section(path).heading() }
		}
		right := otherNames[spell.Bare(e.key)]
		if !slices.Contains(choices, right) {
			right = ""
		}
		at := home(e.key, f.s.Path)
		if right == "" && at == "" {
			right = spell.Nearest(e.key, choices)
		}
		switch {
		case right != "":
			f.problem(e.line, what, "did you mean "+show(right)+"?")
			if f.t.byKey[right] == nil {
				f.t.byKey[right] = e
			}
		case at != "":
			f.problem(e.line, what, "it belongs in "+at)
		default:
			f.problem(e.line, what, "one of "+listed(choices, "or"))
		}
	}
}

// get is the value of a key, nil when the file does not have it.
func (f fields) get(key string) *value {
	if f.t == nil {
		return nil
	}
	if e := f.t.byKey[key]; e != nil {
		return e.value
	}
	return nil
}

func (f fields) has(key string) bool { return f.get(key) != nil }

// at is the line of a key, or of the heading when there is no such key.
func (f fields) at(key string) int {
	if f.t != nil {
		if e := f.t.byKey[key]; e != nil {
			return e.line
		}
	}
	return f.line
}

// shown is the value of a key as it was written.
func (f fields) shown(key string) string { return key + " = " + shown(f.get(key)) }
