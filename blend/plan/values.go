package plan

import (
	"encoding"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

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
		plain := strings.Join(strings.FieldsFunc(s, func(r rune) bool { return unicode.IsControl(r) || r == ' ' }), " ")
		f.problem(v.line, key+" has a line break, a tab or another control sign in it", "plain words on one line: "+quote(plain))
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
		f.problem(v.line, key+" = "+quote(s)+" is not known", choiceMeant(key, s, options))
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
		if digits, ok := plainNumber(v.text); ok && v.kind == text {
			right += "; here " + digits
		}
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
		if thousand := asThousand(v.text); thousand != "" {
			f.caution(v.line, key+" = "+shown(v), "has a decimal point", "", "if a thousand is meant, write "+quote(thousand))
		}
		return true
	case figure:
		unit := strings.TrimLeft(example, "0123456789.x ")
		if unit == "kg" { // who leaves the unit out reads it off a scale in g
			unit = "g"
		}
		if share, isFraction := fraction(v.text); unit == "%" && isFraction {
			f.problem(v.line, key+" = "+shown(v)+" has no unit", "in percent and in quotes: "+key+" = "+quote(share+" %"))
		} else if unit == "" || strings.Contains(example, "x") {
			f.problem(v.line, key+" = "+shown(v)+" is a bare number", "with its unit, in quotes: "+key+" = "+quote(example))
		} else {
			f.problem(v.line, key+" = "+shown(v)+" has no unit", "number and unit in quotes: "+key+" = "+quote(shown(v)+" "+unit))
		}
	default:
		f.problem(v.line, key+" is "+describe(v), "a number and its unit in quotes: "+key+" = "+quote(example))
	}
	return false
}

// fraction is a number below 1 as a percentage: 0.1 is 10.
func fraction(digits string) (percent string, ok bool) {
	x, err := strconv.ParseFloat(digits, 64)
	if err != nil || x <= 0 || x >= 1 {
		return "", false
	}
	return number(shift(x, 2)), true
}

// asThousand is a quantity in small units with three places after its point, as
// who writes 1.000 g for a thousand will have meant it; "" for any other.
func asThousand(text string) string {
	digits, sign := split(text)
	whole, after, _ := strings.Cut(digits, ".")
	if len(after) != 3 || strings.Trim(whole, "0") == "" || !slices.Contains([]string{"g", "mL", "ml", "mm"}, sign) {
		return ""
	}
	return whole + after + " " + sign
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
		if texts, _ := entries(atomsOf(v), nameList); texts != nil {
			example = "[" + strings.Join(texts, ", ") + "]"
		}
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
