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
	switch {
	case v == nil && s.Needed != "":
		f.missing(1, "the plan has no "+s.heading(), s.Needed)
	case v == nil:
	case s.Several && v.kind != list:
		f.problem(v.line, name+" is "+describe(v), "a section in double brackets for each: "+s.heading())
	case s.Several:
		for _, entry := range v.items {
			if entry.kind != group {
				f.problem(entry.line, name+" lists something other than sections", "a section in double brackets for each: "+s.heading())
				continue
			}
			each := fields{reader: f.reader, s: s, line: entry.line, t: entry.table}
			d.add(s.Path, &item{fields: each})
			each.read(d)
		}
		return sub
	case v.kind != group:
		f.problem(v.line, name+" is "+describe(v), "a section with keys under it: "+s.heading())
		return sub
	default:
		sub.line, sub.t = v.line, v.table
	}
	if !s.Several {
		sub.read(d)
	}
	return sub
}

// read reads the keys that the schema has for the section into the draft, and
// takes the defaults of those that are left out.
func (f fields) read(d *draft) {
	if f.t != nil {
		f.unknown()
	}
	for i := range f.s.Keys {
		k := &f.s.Keys[i]
		c := cell{reader: f.reader, k: k, v: f.get(k.Name)}
		switch {
		case c.v != nil && f.misfit(k):
		case c.v != nil:
			if f.s.Several && k.Name != "name" {
				c.of = f.ofName()
			}
			k.at(d).read(c)
		case k.Default != "":
			root, _ := parse([]byte(k.Name+" = "+k.Default), nil)
			k.at(d).read(cell{reader: &reader{}, k: k, v: root.byKey[k.Name].value})
		}
		f.oneOf(k)
	}
	if f.s.Path == "blend" {
		f.section(section("blend.series"), d)
	}
}

// misfit refuses a key that only other designs take.
func (f fields) misfit(k *Key) bool {
	if k.fits(f.design) || !slices.Contains(ofEnds, f.design) && !slices.Contains(ofSeries, f.design) {
		return false
	}
	takes := f.s.names(f.design)
	takes = slices.DeleteFunc(takes, func(key string) bool { return key == "kind" })
	f.problem(f.at(k.Name), k.Name+" does not belong to "+kindText(f.design), "it takes "+listed(takes, "and"))
	return true
}

// oneOf holds that of a key and those that say the same one is given, where the
// section needs it, and no more than one.
func (f fields) oneOf(k *Key) {
	var given, missing, lines []string
	for _, name := range append([]string{k.Name}, k.Instead...) {
		each := f.s.find(name)
		if f.has(name) {
			given = append(given, name)
		}
		if each.fits(f.design) {
			missing, lines = append(missing, name), append(lines, each.line())
		}
	}
	switch {
	case len(given) > 1:
		f.problem(f.at(given[1]), f.s.heading()+f.ofName()+" has "+listed(given, "and"), "keep one of them")
	case len(given) > 0 || !k.Needed || !k.fits(f.design):
	case f.s.Path == "":
		f.missing(1, "the plan has no "+k.Name, k.line())
	case f.t != nil:
		f.missing(f.line, f.s.heading()+" has no "+listed(missing, "or"), listed(lines, "or"))
	}
}

// ofName is ` of "Soda blue"` for a section with a name.
func (f fields) ofName() string {
	if v := f.get("name"); v != nil && v.kind == text && strings.TrimSpace(v.text) != "" {
		return " of " + quote(strings.TrimSpace(v.text))
	}
	return ""
}

// unknown refuses keys that the schema lacks. One that was surely meant for a key
// that the section lacks is read as that.
func (f fields) unknown() {
	options := f.s.names("")
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
	if e := f.entry(key); e != nil {
		return e.value
	}
	return nil
}

func (f fields) entry(key string) *entry {
	if f.t == nil {
		return nil
	}
	return f.t.byKey[key]
}

func (f fields) has(keys ...string) bool {
	return slices.ContainsFunc(keys, func(key string) bool { return f.entry(key) != nil })
}

// at is the line of a key, or of the heading when there is no such key.
func (f fields) at(key string) int {
	if e := f.entry(key); e != nil {
		return e.line
	}
	return f.line
}

// lineOf is the line of a name in the list that a key has, or of a material in
// its recipe.
func (f fields) lineOf(key, name string) int {
	if v := f.get(key); v != nil {
		for _, entry := range v.items {
			line := entry.line
			if len(entry.items) > 0 {
				entry = entry.items[0]
			}
			if strings.TrimSpace(entry.text) == name {
				return line
			}
		}
	}
	return f.at(key)
}

// wrong reports what is wrong, after the key and its value.
func (f fields) wrong(key, what, right string) {
	f.problem(f.at(key), key+" = "+shown(f.get(key))+" "+what, right)
}
