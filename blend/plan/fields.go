package plan

import (
	"encoding"
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

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

// unknown tells of keys that there are not.
func (f fields) unknown() {
	options := keysOf(f.path)
	for _, e := range f.t.entries {
		if slices.Contains(options, e.key) {
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
		near, other := spell.Nearest(e.key, options), slang(e.key)
		switch {
		case home(e.key, f.path) != "":
			f.problem(e.line, what, "it belongs in "+home(e.key, f.path))
		case near != "":
			f.problem(e.line, what, "did you mean "+shape(near)+"?")
		case slices.Contains(options, other):
			f.problem(e.line, what, "did you mean "+other+"?")
		default:
			f.problem(e.line, what, meant(e.key, options))
		}
	}
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

// words is the text of a key: one line of it, not blank. example shows how it
// is written.
func (f fields) words(key, example string) (string, bool) {
	v := f.get(key)
	if v == nil {
		return "", false
	}
	return f.wordsOf(v, key, key+" = "+quote(example))
}

func (f fields) wordsOf(v *value, key, example string) (string, bool) {
	if v.kind != text {
		f.problem(v.line, key+" is "+describe(v), "text in quotes: "+example)
		return "", false
	}
	s := strings.TrimSpace(v.text)
	const longest = 200
	switch {
	case s == "":
		f.problem(v.line, key+" is empty", "some words: "+example)
	case len([]rune(s)) > longest:
		f.problem(v.line, key+" is "+strconv.Itoa(len([]rune(s)))+" signs long", "at most "+strconv.Itoa(longest))
	case strings.ContainsFunc(s, unicode.IsControl):
		f.problem(v.line, key+" has a line break, a tab or another control sign in it", "plain words on one line")
	default:
		return s, true
	}
	return "", false
}

// choice is a text that is one of few.
func (f fields) choice(key string, options ...string) (string, bool) {
	v := f.get(key)
	if v == nil {
		return "", false
	}
	if v.kind != text {
		f.problem(v.line, key+" is "+describe(v), listed(quoted(options), "or"))
		return "", false
	}
	s := strings.TrimSpace(v.text)
	if !slices.Contains(options, s) {
		f.problem(v.line, key+" = "+quote(s)+" is not known", meantText(s, options))
		return "", false
	}
	return s, true
}

// yes is true or false.
func (f fields) yes(key string) bool {
	v := f.get(key)
	if v == nil {
		return false
	}
	if v.kind != truth {
		f.problem(v.line, key+" is "+describe(v), "true or false, without quotes")
		return false
	}
	return v.text == "true"
}

// whole is a whole number from lo to hi.
func (f fields) whole(key string, lo, hi int) (int, bool) {
	v := f.get(key)
	if v == nil {
		return 0, false
	}
	right := "a whole number from " + strconv.Itoa(lo) + " to " + strconv.Itoa(hi)
	x, ok := f.figure(v, key, right+", without quotes")
	if !ok {
		return 0, false
	}
	if x != math.Trunc(x) || x < float64(lo) || x > float64(hi) {
		f.problem(v.line, key+" = "+shown(v)+" will not do", right)
		return 0, false
	}
	return int(x), true
}

// plain is a number in (lo, hi).
func (f fields) plain(key string, lo, hi float64) (float64, bool) {
	v := f.get(key)
	if v == nil {
		return 0, false
	}
	right := "a number above " + number(lo) + " and below " + number(hi)
	x, ok := f.figure(v, key, right+", without quotes or unit")
	if !ok {
		return 0, false
	}
	if !(x > lo && x < hi) {
		f.problem(v.line, key+" = "+shown(v)+" will not do", right)
		return 0, false
	}
	return x, true
}

// figure is the number of a value that has no unit.
func (f fields) figure(v *value, key, right string) (float64, bool) {
	if v.kind != figure {
		f.problem(v.line, key+" is "+describe(v), right)
		return 0, false
	}
	x, err := strconv.ParseFloat(strings.ReplaceAll(v.text, "_", ""), 64)
	if err != nil {
		var n int64
		n, err = strconv.ParseInt(v.text, 0, 64) // 0x1F
		x = float64(n)
	}
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		f.problem(v.line, key+" = "+shown(v)+" cannot be measured", right)
		return 0, false
	}
	return x + 0, true // not -0
}

// amount reads a quantity with its unit into q; example shows one.
func (f fields) amount(key, example string, q encoding.TextUnmarshaler) bool {
	v := f.get(key)
	if v == nil {
		return false
	}
	switch v.kind {
	case text:
		if err := q.UnmarshalText([]byte(v.text)); err != nil {
			f.wrong(v.line, key, err)
			return false
		}
		return true
	case figure:
		unit := strings.TrimLeft(example, "0123456789.x ")
		if unit == "" || strings.Contains(example, "x") {
			f.problem(v.line, key+" = "+shown(v)+" is a bare number", "with its unit, in quotes: "+key+" = "+quote(example))
		} else {
			f.problem(v.line, key+" = "+shown(v)+" has no unit", "number and unit in quotes: "+key+" = "+quote(shown(v)+" "+unit))
		}
	default:
		f.problem(v.line, key+" is "+describe(v), "a number and its unit in quotes: "+key+" = "+quote(example))
	}
	return false
}

// mass is an amount in g, from lo to hi.
func (f fields) mass(key, example string, lo, hi float64) (float64, bool) {
	var m Mass
	ok := f.amount(key, example, &m)
	return m.G, ok && f.within(key, m.G, lo, hi, "g")
}

// volume is an amount in mL, from lo to hi.
func (f fields) volume(key, example string, lo, hi float64) (float64, bool) {
	var v Volume
	ok := f.amount(key, example, &v)
	return v.ML, ok && f.within(key, v.ML, lo, hi, "mL")
}

// length is an amount in mm, from lo to hi; 0 when it is not given or wrong.
func (f fields) length(key, example string, lo, hi float64) float64 {
	var l Length
	if !f.amount(key, example, &l) || !f.within(key, l.MM, lo, hi, "mm") {
		return 0
	}
	return l.MM
}

func (f fields) within(key string, x, lo, hi float64, unit string) bool {
	if x >= lo && x <= hi {
		return true
	}
	f.problem(f.at(key), key+" = "+shown(f.get(key))+" will not do", "from "+number(lo)+" to "+number(hi)+" "+unit)
	return false
}

// percent is a share in percent, 0 to hi: a plain number or a text with %.
func (f fields) percent(v *value, key string, hi float64) (float64, bool) {
	right := "a percentage from 0 to " + number(hi)
	var x float64
	if v.kind == text {
		var p Percent
		if err := p.UnmarshalText([]byte(v.text)); err != nil {
			f.wrong(v.line, key, err)
			return 0, false
		}
		x = shift(p.Fraction, 2)
	} else {
		var ok bool
		if x, ok = f.figure(v, key, right); !ok {
			return 0, false
		}
	}
	if x < 0 || x > hi {
		f.problem(v.line, key+" = "+shown(v)+" will not do", right)
		return 0, false
	}
	return x, true
}

// names is a list of names, all different. noun is what they are names of.
func (f fields) names(key, noun, example string) (names []string, lines []int) {
	v := f.get(key)
	if v == nil {
		return nil, nil
	}
	if v.kind != list {
		f.problem(v.line, key+" is "+describe(v), "a list in square brackets: "+key+" = "+example)
		return nil, nil
	}
	if len(v.items) == 0 {
		f.problem(v.line, key+" is empty", "at least one "+noun+": "+key+" = "+example)
	}
	seen := map[string]bool{}
	for _, item := range v.items {
		s, ok := f.wordsOf(item, "a "+noun+" in "+key, key+" = "+example)
		if !ok {
			continue
		}
		if seen[fold(s)] {
			f.problem(item.line, quote(s)+" stands twice in "+key, "each "+noun+" once")
			continue
		}
		seen[fold(s)] = true
		names, lines = append(names, s), append(lines, item.line)
	}
	return names, lines
}

// fold is what two names have in common that a reader would take for one.
func fold(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

// describe says what sort of value stands there.
func describe(v *value) string {
	switch v.kind {
	case text:
		return "the text " + quote(v.text)
	case figure:
		return "the number " + shown(v)
	case truth:
		return v.text
	case date:
		return "a date or a time"
	case list:
		return "a list"
	default:
		return "a group of keys"
	}
}

// shown is a value as the maker wrote it.
func shown(v *value) string {
	if v.kind == text {
		return quote(v.text)
	}
	const longest = 40
	if len(v.text) > longest {
		return v.text[:longest] + "…"
	}
	return v.text
}

// quoteKey is a key as it has to be written: plain where that will do.
func quoteKey(key string) string {
	if key != "" && strings.Trim(key, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_") == "" {
		return key
	}
	return quote(key)
}
