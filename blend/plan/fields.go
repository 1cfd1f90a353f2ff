package plan

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/spell"
)

// mostProblems is how many problems of a plan are told of: beyond it the file
// is something else than a plan.
const mostProblems = 200

// reader gathers what is wrong and what deserves a question.
type reader struct {
	file     string
	problems Problems
	warnings []blend.Warning
	broken   bool         // the text could be read only in part: what is missing may be in the rest
	told     map[int]bool // lines of which the problem is told already
}

func (r *reader) problem(line int, what, right string) {
	if r.told[line] || len(r.problems) > mostProblems {
		return
	}
	if n := len(r.problems); n > 0 && r.problems[n-1].Line == line && r.problems[n-1].What == what {
		return // once is enough, as for a recipe that has no pairs at all
	}
	if len(r.problems) == mostProblems {
		what, right = "there are more problems than the "+strconv.Itoa(mostProblems)+" above", "put those right first"
	}
	r.problems = append(r.problems, Problem{r.file, line, what, right})
}

// wrong is problem for an error that says what would be right.
func (r *reader) wrong(line int, key string, err error) {
	var a amiss
	if errors.As(err, &a) {
		r.problem(line, key+" = "+a.what, a.right)
		return
	}
	r.problem(line, key+": "+err.Error(), "")
}

// missing is a problem of something that is not there.
func (r *reader) missing(line int, what, right string) {
	if !r.broken {
		r.problem(line, what, right)
	}
}

func (r *reader) caution(line int, place, what, why, fix string) {
	r.warnings = append(r.warnings, blend.Warning{Place: place + " (line " + strconv.Itoa(line) + ")", What: what, Why: why, Fix: fix})
}

// fields reads the keys of one group.
type fields struct {
	*reader
	path string
	line int    // of its heading
	t    *table // nil when the plan has none
}

// group is the fields under a key of f, with its unknown keys told of.
func (f fields) group(key string) fields {
	sub := fields{reader: f.reader, path: key, line: f.line}
	if v := f.get(key); v != nil {
		sub.line = v.line
		if v.kind != group {
			f.problem(v.line, key+" is "+describe(v), "a heading with keys under it: "+bracketed(key))
			return sub
		}
		sub.t = v.table
		sub.unknown()
	}
	return sub
}

// groups is the fields of each [[key]], with unknown keys told of. path is the
// whole heading.
func (f fields) groups(key, path string) []fields {
	v := f.get(key)
	if v == nil {
		return nil
	}
	if v.kind != list {
		f.problem(v.line, key+" is "+describe(v), "a heading in double brackets for each: "+bracketed(path))
		return nil
	}
	var all []fields
	for _, item := range v.items {
		if item.kind != group {
			f.problem(item.line, key+" is a list of something else than groups of keys", "a heading in double brackets for each: "+bracketed(path))
			continue
		}
		sub := fields{reader: f.reader, path: path, line: item.line, t: item.table}
		sub.unknown()
		all = append(all, sub)
	}
	return all
}

// unknown tells of keys that there are not. One that was surely meant for a key
// that the group lacks is read as that.
func (f fields) unknown() {
	options := keysOf(f.path)
	loose := f.looseRecipe()
	if loose != nil {
		lines := make([]string, len(loose))
		for i, e := range loose {
			lines[i] = "[" + tomlText(e.key) + ", " + e.value.text + "]"
		}
		f.problem(loose[0].line, "the recipe is not in brackets", "recipe = ["+strings.Join(lines, ", ")+"]")
	}
	for _, e := range f.t.entries {
		if slices.Contains(options, e.key) || slices.Contains(loose, e) {
			continue
		}
		if len(f.problems) > mostProblems {
			return
		}
		what := "there is no key " + quote(e.key) + " in " + bracketed(f.path)
		options := options
		shape := func(key string) string { return key }
		if f.path == "" && e.value.kind == group {
			what = "there is no heading [" + quoteKey(e.key) + "]"
			options = slices.DeleteFunc(slices.Clone(options), func(k string) bool { return !known(k) })
			shape = bracketed
		}
		right := slang(e.key)
		if !slices.Contains(options, right) {
			right = ""
		}
		at := home(e.key, f.path)
		if right == "" && at == "" {
			right = spell.Nearest(e.key, options)
		}
		switch {
		case right != "":
			f.problem(e.line, what, "did you mean "+shape(right)+"?")
			if f.t.byKey[right] == nil {
				f.t.byKey[right] = e
			}
		case at != "":
			f.problem(e.line, what, "it belongs in "+at)
		default:
			f.problem(e.line, what, meant(e.key, options))
		}
	}
}

// looseRecipe is the lines of a recipe that stand in a [[glaze]] as keys of
// their own, "Silica = 40".
func (f fields) looseRecipe() []*entry {
	if f.t == nil || f.path != "glaze" || f.has("recipe") {
		return nil
	}
	var lines []*entry
	for _, e := range f.t.entries {
		if e.value.kind == figure && home(e.key, "") == "" && slang(e.key) == "" && spell.Nearest(e.key, keysOf("glaze")) == "" {
			lines = append(lines, e)
		}
	}
	return lines
}

// get is the value of a key, nil when the plan does not have it.
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
