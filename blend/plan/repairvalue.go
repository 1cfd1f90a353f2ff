package plan

import (
	"slices"
	"strings"
	"unicode"

	"pourboard/blend/quantity"
)

// loose is a statement's value as it stands on its line.
type loose struct {
	text   string // without its quotes
	after  string // what stands behind it, a comment left out
	quoted bool
	inner  bool // there are quotes inside of it
}

// nextKey is where, on a line that goes on after its value, a second key stands.
var nextKey = pattern(`[,;\s]\s*[A-Za-z][A-Za-z-]*\s*=`)

// looseValue parts a value from what stands after it on its line.
func looseValue(raw string) loose {
	raw = strings.Trim(evenQuotes(raw), "= \t\u00a0")
	line := []rune(raw)
	if len(line) > 0 && strings.ContainsRune(`"'`+curly, line[0]) {
		if closing := closingQuote(line, 0); closing > 0 {
			v := loose{text: strings.TrimSpace(string(line[1:closing])), quoted: true}
			rest, _, _ := strings.Cut(string(line[closing+1:]), "#")
			v.after = strings.TrimSpace(rest)
			if strings.ContainsAny(v.after, `"`+curly) && !nextKey().MatchString(rest) { // quotes inside a text
				v.text = strings.Join(strings.FieldsFunc(raw, func(r rune) bool { return strings.ContainsRune(`"`+curly, r) }), "")
				v.after, v.inner = "", true
			}
			return v
		}
	}
	raw, _, _ = strings.Cut(raw, "#")
	raw, _, _ = strings.Cut(raw, " //")
	after := ""
	if at := nextKey().FindStringIndex(raw); at != nil {
		raw, after = raw[:at[0]], raw[at[0]:]
	}
	return loose{text: strings.Trim(raw, `"'`+curly+" \t\u00a0;,"), after: after}
}

// scalar is a statement with one value.
func (a assignment) scalar() mended {
	v, s := looseValue(a.value), a.key.form.codec().shape
	if strings.ContainsFunc(a.value, unicode.IsControl) && !strings.Contains(a.value, "\t") {
		return mended{} // the parser says it
	}
	name := a.name()
	if v.text == "" {
		return mended{text: name + ` = ""`, what: a.typed + " has no value", right: "as in " + name + " = " + a.key.Example}
	}
	fixed := tomlText(spelledUnit(v.text))
	digits, isNumber := plainNumber(v.text)
	first, _, _ := strings.Cut(v.text, " ")
	switch {
	case s == yesOrNo:
		fixed = "false"
		if slices.Contains([]string{"true", "yes", "on", "1"}, strings.ToLower(v.text)) {
			fixed = "true"
		}
	case s == inWords:
		if isNumber && !v.quoted && strings.Trim(v.text, "0123456789.,+-") == "" {
			return mended{text: name + " = " + digits} // the reader of amounts asks for its unit
		}
	case isNumber:
		fixed = digits
	default:
		if digits, isNumber = plainNumber(first); !isNumber {
			digits = a.key.Example
		}
		fixed = digits
	}
	m := mended{text: name + " = " + fixed}
	m.what, m.right = a.keyFault(), m.text
	if m.what == "" {
		m.what, m.right, m.lost = a.valueFault(v, m.text)
	}
	if v.quoted && strings.Trim(v.after, ";,. ") != "" && !m.lost {
		m.text += "  # " + strings.TrimLeft(v.after, "/;-, ")
		m.right = "a comment begins with #: " + m.text
	}
	return m
}

// valueFault is what is wrong with one value, and what to write.
func (a assignment) valueFault(v loose, fixed string) (what, right string, lost bool) {
	read := a.typed + " = " + v.text
	inWords := a.key.form.codec().shape == inWords
	switch {
	case nextKey().MatchString(" " + v.after):
		return "two keys are on one line", "a line for each: " + fixed, true
	case strings.HasPrefix(strings.TrimSpace(a.value), "="):
		return a.typed + " has more than one =", fixed, false
	case strings.ContainsAny(a.value, curly):
		return a.typed + " has curly quotes", "straight ones: " + fixed, false
	case oddQuotes(a.value):
		return "the text of " + a.typed + " is not closed", "a quote before it and one after it: " + fixed, false
	case v.quoted && v.after != "":
		return v.after + " is left over after the value of " + a.typed, fixed, false
	case strings.Contains(v.text, `\`):
		return `a \ is in the text of ` + a.typed, "two for one: " + fixed, false
	case v.inner:
		return a.typed + " has quotes inside its text", fixed, false
	case inWords && !v.quoted && withUnit().MatchString(v.text):
		return read + " has no quotes", "a value with a unit needs quotes: " + fixed, false
	case inWords && !v.quoted:
		return read + " has no quotes", "text needs quotes: " + fixed, false
	case inWords:
		return "a blank or another character on this line cannot be read", "typed anew: " + fixed, false
	case !inWords && strings.HasPrefix(v.text, strings.TrimPrefix(fixed, a.name()+" = ")+" "):
		return "something is left over after " + fixed, fixed, false
	case strings.Contains(v.text, ","):
		return read + " is not a number", "one decimal point and no comma: " + fixed, false
	}
	return read + " cannot be read", fixed, false
}

// spelledUnit is an amount with its unit as a plan has it, any other text as it
// is.
func spelledUnit(text string) string {
	digits, sign := quantity.Split(text)
	if known, each := quantity.Spelling(sign); digits != "" && each == 1 {
		return digits + " " + known
	}
	return text
}

// list is a statement whose value is a list or a group in braces; it may go
// over several lines.
func (a assignment) list() mended {
	s := a.key.form.codec().shape
	braces := s == figureShape || s == rangeShape
	name := a.name()
	texts, lines := entries(listItems(a.value, s == pairShape || braces || strings.Contains(a.value, ";")), s)
	if texts == nil {
		if strings.TrimSpace(a.value) == "" {
			return mended{text: name + " = []", what: a.typed + " has no value", right: "as in " + name + " = " + a.key.Example}
		}
		return mended{}
	}
	if s == rowShape && len(texts) == 1 && a.key.Example == texts[0] || s == rowShape && !strings.Contains(a.value, "[") {
		return a.scalar() // a number of cups
	}
	begin, end := "[", "]"
	if braces {
		begin, end = "{ ", " }"
	}
	var whole strings.Builder
	whole.WriteString(name + " = " + begin)
	at, last := 0, strings.Count(a.value, "\n")
	for i, text := range texts {
		if i > 0 {
			whole.WriteString(",")
		}
		if gap := lines[i] - at; gap > 0 {
			whole.WriteString(strings.Repeat("\n", gap))
			at = lines[i]
		} else if i > 0 {
			whole.WriteString(" ")
		}
		whole.WriteString(text)
	}
	whole.WriteString(strings.Repeat("\n", last-at) + end)
	m := mended{text: whole.String(), what: a.keyFault()}
	if m.what == "" {
		m.line, m.what = a.listFault(braces)
	}
	m.right = name + " = " + begin + strings.Join(texts, ", ") + end
	if m.line > 0 {
		var here []string
		for i, text := range texts {
			if lines[i] == m.line {
				here = append(here, text)
			}
		}
		m.right = strings.Join(here, ", ") + ","
	}
	return m
}

var (
	counted   = pattern(`\d\s*(%|\pL)`)
	barePlain = pattern(`\pL`)
)

// listFault is what is wrong with a list, and on which of its lines.
func (a assignment) listFault(braces bool) (line int, what string) {
	lines := strings.Split(a.value, "\n")
	open := 0
	for n, text := range lines {
		plain := outside(text)
		open += depth(text)
		next := ""
		if n+1 < len(lines) {
			next = outside(lines[n+1])
		}
		switch {
		case strings.ContainsAny(text, curly):
			return n, a.typed + " has curly quotes"
		case oddQuotes(text):
			return n, "a text in " + a.typed + " is not closed"
		case n == 0 && !strings.HasPrefix(plain, "[") && !strings.HasPrefix(plain, "{") && plain != "", plain == "" && n == 0 && !strings.ContainsAny(a.value, "[{"):
			return n, a.typed + " has no brackets"
		case counted().MatchString(plain) && a.key.form != names:
			return n, "a number in " + a.typed + " has a unit"
		case !braces && barePlain().MatchString(plain):
			return n, "a name in " + a.typed + " has no quotes"
		case open < 0:
			return n, a.typed + " has more ] than ["
		case open > 0 && next != "" && plain != "" && !strings.ContainsAny(plain[len(plain)-1:], ",[{") && !strings.ContainsAny(next[:1], "])}"):
			return n, a.typed + " lacks a comma at the end of this line"
		}
	}
	switch {
	case open > 0 && braces:
		return 0, "the braces of " + a.typed + " are not closed"
	case open > 0:
		return 0, "the list of " + a.typed + " is not closed"
	}
	return 0, a.typed + " is not written as a list"
}
