package plan

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// mostProblems is how many problems of a plan are told: beyond it the file is
// something else than a plan.
const mostProblems = 200

// reader makes a draft of a file, and gathers what is wrong and what deserves a
// question.
type reader struct {
	file     string
	problems Problems
	warnings []string
	src      []byte            // the text
	broken   bool              // part of the text was lost: what is missing may be in it
	design   string            // by its name in the schema, "" when it cannot be told
	in       map[string]fields // each section that there is once, by its path
	d        draft
}

func (r *reader) problem(line int, what, right string) {
	n := len(r.problems)
	switch {
	case n > mostProblems:
		return
	case n > 0 && r.problems[n-1].Line == line && r.problems[n-1].What == what:
		return // once is enough, as for a recipe without any pairs
	case n == mostProblems:
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

func (r *reader) caution(line int, place, what, fix string) {
	r.warnings = append(r.warnings, withFix(fmt.Sprintf("%s (line %d): %s", place, line, what), fix))
}

// section reads a section, or each of several, into the draft.
func (r *reader) section(s *Section, root *value) {
	_, name := parted(s.Path)
	v := root.below(s.Path)
	f := fields{reader: r, s: s, group: &value{line: 1}}
	switch {
	case v == nil && s.Needed != "":
		r.missing(1, "the plan has no "+s.heading(), s.Needed)
	case v == nil:
	case s.Path == "blend.series" && isBlend(r.design):
		r.problem(v.line, s.heading()+" does not belong to "+kindText(r.design)+" of ends",
			"a base for the series, or the ends alone")
	case s.Several && v.kind == list:
		for _, entry := range v.items {
			f.group = entry
			if entry.kind != group {
				r.problem(entry.line, name+" lists "+describe(entry), "a section for each: "+s.heading())
			} else {
				it := &item{fields: f}
				f.read(r.d.add(s.Path, it))
			}
		}
	case s.Several || v.kind != group:
		r.problem(v.line, name+" is "+describe(v), "a section with keys under it: "+s.heading())
	default:
		f.group = v
	}
	if !s.Several {
		r.in[s.Path] = f
		f.read(&r.d)
	}
}

// fields is the keys of one section of a file.
type fields struct {
	*reader
	s     *Section
	group *value // an empty text when the file does not have it
}

// given reports whether the file has the section.
func (f fields) given() bool { return f.group.kind == group }

// read reads the keys that the schema has for the section into the draft, or an
// item of it, and takes the defaults of those that are left out.
func (f fields) read(to any) {
	f.unknown()
	for _, k := range f.s.Keys {
		c := cell{fields: f, k: k, v: f.get(k.Name), name: k.Name}
		if f.s.Several && k.Name != "name" {
			c.name += f.ofName()
		}
		if c.v == nil && k.Default != "" {
			c.v = parse(k.Name + " = " + k.Default).byKey[k.Name]
		}
		if c.v != nil && !f.misfit(k) {
			c.read(k.place(to))
		}
		f.oneOf(k)
	}
}

// misfit refuses a key that only other designs take.
func (f fields) misfit(k *Key) bool {
	if !f.has(k.Name) || k.fits(f.design) || !isBlend(f.design) && !isSeries(f.design) {
		return false
	}
	var takes []string
	for _, k := range f.s.Keys {
		if k.Name != "kind" && k.fits(f.design) {
			takes = append(takes, k.Name)
		}
	}
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
	case len(given) == 0 && k.Needed && k.fits(f.design) && f.given():
		f.missing(f.group.line, f.subject()+" has no "+listed(missing, "or"), listed(lines, "or"))
	}
}

// subject is the section in a message.
func (f fields) subject() string {
	if f.s.Path == "" {
		return "the plan"
	}
	return f.s.heading()
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
	options := f.s.names()
	for _, e := range f.group.items {
		if slices.Contains(options, e.key) {
			continue
		}
		if len(f.problems) > mostProblems {
			return
		}
		what, choices := "unknown key "+quote(e.key)+" in "+f.s.heading(), options
		if f.s.Path == "" && e.kind == group {
			what = "unknown section [" + quoteKey(e.key) + "]"
			choices = slices.DeleteFunc(slices.Clone(options), func(k string) bool { return section(k) == nil })
		}
		switch meant, at := f.s.meantKey(e.key, choices); {
		case meant != "":
			f.problem(e.line, what, "did you mean "+meant+"?")
			if !f.has(meant) {
				f.group.byKey[meant] = e
			}
		case at != "":
			f.problem(e.line, what, "it belongs in "+at)
		default:
			f.problem(e.line, what, "one of "+listed(choices, "or"))
		}
	}
}

// get is the value of a key, nil when the file does not have it.
func (f fields) get(key string) *value { return f.group.byKey[key] }

func (f fields) has(keys ...string) bool {
	return slices.ContainsFunc(keys, func(key string) bool { return f.get(key) != nil })
}

// at is the line of a key, or of the heading when there is no such key.
func (f fields) at(key string) int {
	if v := f.get(key); v != nil {
		return v.line
	}
	return f.group.line
}

// lineOf is the line of a name in the list that a key has, or of a material in
// its recipe.
func (f fields) lineOf(key, name string) int {
	if v := f.get(key); v != nil {
		for _, entry := range v.items {
			first := entry
			if len(entry.items) > 0 {
				first = entry.items[0]
			}
			if strings.TrimSpace(first.text) == name {
				return entry.line
			}
		}
	}
	return f.at(key)
}

// wrong reports what is wrong, after the key and its value.
func (f fields) wrong(key, what, right string) {
	f.problem(f.at(key), key+" = "+shown(f.get(key))+" "+what, right)
}
