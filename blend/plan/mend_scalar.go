package plan

import (
	"slices"
	"strings"
)

// loose is a statement's value as it stands on its line.
type loose struct {
	text   string // without its quotes
	after  string // what stands behind it, a remark left out
	quoted bool
	inner  bool // there are quotes inside of it
}

// nextKey is where, on a line that goes on after its value, a second key stands.
var nextKey = pattern(`[,;\s]\s*[A-Za-z][A-Za-z-]*\s*=`)

// looseValue parts a value from what stands after it on its line.
func looseValue(raw string) loose {
	raw = strings.Trim(evenQuotes(raw), "= \t\u00a0")
	signs := []rune(raw)
	if len(signs) > 0 && strings.ContainsRune(`"'`+curly, signs[0]) {
		if closing := closingQuote(signs, 0); closing > 0 {
			v := loose{text: strings.TrimSpace(string(signs[1:closing])), quoted: true}
			rest, _, _ := strings.Cut(string(signs[closing+1:]), "#")
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

// spelledUnit is an amount with its unit as a plan has it, any other text as it
// is.
func spelledUnit(text string) string {
	digits, sign := split(text)
	if known, each := elsewhere(sign); digits != "" && each == 1 {
		return digits + " " + known
	}
	return text
}

// scalar is a statement with one value.
func scalar(p pair) mended {
	key, raw := p.key, p.value
	name, v := asKey(key), looseValue(raw)
	f, example := written(alike(key))
	if v.text == "" {
		return mended{text: name + ` = ""`, what: key + " has no value", right: "as in " + name + " = " + example}
	}
	if f == rowList { // cells of a line
		f = inDigits
	}
	fixed, hint := tomlText(spelledUnit(v.text)), ""
	digits, isNumber := plainNumber(v.text)
	switch first, _, _ := strings.Cut(v.text, " "); {
	case f == yesOrNo:
		yes := slices.Contains([]string{"true", "yes", "on", "1"}, strings.ToLower(v.text))
		fixed = map[bool]string{true: "true", false: "false"}[yes]
	case f == inWords && isNumber && !v.quoted && strings.Trim(v.text, "0123456789.,+-") == "":
		return mended{text: name + " = " + digits} // the reader of amounts asks for its unit
	case f == inWords:
	case isNumber:
		fixed, hint = digits, "a plain number: "
	default:
		if digits, isNumber = plainNumber(first); isNumber {
			fixed, hint = digits, "a plain number: "
		} else {
			fixed, hint = example, "a number, as in "
		}
	}
	m := mended{text: name + " = " + fixed}
	read := key + " = " + v.text
	switch {
	case nextKey().MatchString(" " + v.after):
		m.what, hint, m.lost = "two keys stand on one line", "a line for each: ", true
	case p.separator != "=":
		m.what, hint = key+" has no = before its value", ""
	case strings.HasPrefix(strings.TrimSpace(raw), "="):
		m.what, hint = key+" has more than one =", ""
	case strings.HasPrefix(name, `"`) && v.quoted == strings.HasPrefix(strings.TrimSpace(raw), `"`):
		return mended{text: m.text} // the reader of the tree tells of the key
	case p.typed != name:
		m.what, hint = noSuchKey(p), ""
	case strings.ContainsAny(raw, curly):
		m.what = key + " has curly quotes"
		if hint == "" {
			hint = "straight ones: "
		}
	case oddQuotes(raw):
		m.what, hint = "the text of "+key+" is not closed", "a quote before it and one after it: "
	case v.quoted && strings.Trim(v.after, ";,. ") == "" && v.after != "":
		m.what, hint = v.after+" is left over after the value of "+key, ""
	case v.quoted && v.after != "":
		m.what, hint = "something is left over after the value of "+key, "a remark begins with #: "
		m.text += "  # " + strings.TrimLeft(v.after, "/;-, ")
	case strings.Contains(v.text, `\`):
		m.what, hint = `a \ stands in the text of `+key, "two for one: "
	case v.inner:
		m.what, hint = key+" has quotes inside its text", "one before it and one after it: "
	case v.quoted: // nothing else is left that a parser could stop at
		m.what, hint = "a blank or another sign on this line is none that a plan can have", "typed anew: "
	case f == yesOrNo:
		m.what = read + " is not understood"
	case f == inDigits && strings.Contains(v.text, ","):
		m.what, hint = read+" is not a number", "one decimal point and no comma: "
	case f == inDigits && fixed == digits && fixed+" " == v.text[:min(len(fixed)+1, len(v.text))]:
		m.what = "something is left over after " + key + " = " + digits
	case f == inDigits:
		m.what = read + " is not a number"
	case withUnit().MatchString(v.text):
		m.what, hint = read+" has no quotes", "a value with a unit needs quotes: "
	default:
		m.what, hint = read+" has no quotes", "text needs quotes: "
	}
	m.right = hint + m.text
	return m
}
