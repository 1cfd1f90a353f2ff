package plan

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"pourboard/blend/spell"
)

// mended is a statement of a plan, a line or some, that is no TOML, as its
// maker will have meant it.
type mended struct {
	text  string // to be read in its place, with as many lines
	line  int    // that is wrong, from 0 within the statement
	what  string // is wrong, "" when the reader of the tree will say so
	right string
	lost  bool // a part of it was left out
}

// mend looks for what will have been meant by the statement that the parser
// stopped at. It gives the text with that in place of it, and from which line.
func mend(src []byte, fault *syntax) (text []byte, first int, m mended, ok bool) {
	first = fault.start
	start, end := lineAt(src, first)
	statement := strings.TrimRight(string(src[start:end]), "\r")
	if strings.ContainsFunc(statement, func(r rune) bool { return unicode.IsControl(r) && r != '\t' }) ||
		strings.Contains(statement, `"""`) || strings.Contains(statement, "'''") || len(statement) > 10_000 {
		return nil, 0, m, false
	}
	p := parted(statement)
	f, _ := written(alike(p.key))
	switch {
	case remark(statement) != "":
		m = mended{text: remark(statement), what: "a remark begins with #", right: remark(statement)}
	case p.separator == "" || strings.HasPrefix(strings.TrimSpace(statement), "[") || strings.TrimSpace(p.value) == "" && known(p.key):
		m = headed(statement)
	case alike(p.key) == "" && startsList(p.value):
		if m.text = asKey(p.key) + " = " + strings.TrimSpace(p.value); p.separator != "=" {
			return nil, 0, m, false
		}
	case f == inWords || f == inDigits || f == yesOrNo || f == rowList && !strings.ContainsAny(p.value, "[({;"):
		m = scalar(p)
	default:
		end = extent(src, end, f, p.value)
		m = listing(parted(strings.ReplaceAll(string(src[start:end]), "\r", "")), f)
	}
	if m.text == "" {
		return nil, 0, m, false
	}
	if _, still := parse([]byte(m.text), func(int, string, string) {}); still != nil {
		return nil, 0, m, false
	}
	return bytes.Join([][]byte{src[:start], []byte(m.text), src[end:]}, nil), first, m, true
}

// startsList reports whether a value is, or would be, a list or a group.
func startsList(value string) bool {
	value = strings.TrimSpace(value)
	return value != "" && strings.ContainsAny(value[:1], "[{(")
}

// remark is a line that people of other trades take for a remark, as one.
func remark(line string) string {
	line = strings.TrimSpace(line)
	for _, sign := range []string{"//", ";", "--", "/*"} {
		if rest, ok := strings.CutPrefix(line, sign); ok {
			return "# " + strings.TrimSpace(strings.TrimRight(rest, "*/"))
		}
	}
	return ""
}

// pair is a statement parted into key and value. Without = or : between them
// the key must be one that there is.
type pair struct {
	typed, key string // the key as it stands there, and without signs that no key has
	value      string
	separator  string // "" when the statement is no key with a value
}

// parted parts a statement.
func parted(statement string) pair {
	line, _, _ := strings.Cut(statement, "\n")
	at := func(end int, separator string) pair {
		p := pair{typed: strings.TrimSpace(line[:end]), value: statement[end+len(separator):], separator: separator}
		if separator == "" {
			p.separator = " "
		}
		p.key = strings.TrimFunc(p.typed, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(`-*•–"“”'`, r) })
		p.key = strings.NewReplacer("–", "-", "‑", "-", "—", "-", "−", "-", "\u00a0", " ", "\t", " ").Replace(p.key)
		return p
	}
	for i, r := range line {
		switch {
		case r == '=' || r == ':':
			if p := at(i, string(r)); p.key != "" {
				return p
			}
			return pair{}
		case strings.ContainsRune("[({#", r):
			return pair{}
		case r == '"' && i > 0 || strings.ContainsRune("“„«", r) || r >= '0' && r <= '9':
			if p := at(i, ""); alike(p.key) != "" {
				return p
			}
		}
	}
	return pair{}
}

// headed is a statement without a value: a heading, or none.
func headed(line string) mended {
	name, _, _ := strings.Cut(line, "#")
	bare := strings.Trim(name, "[](){}<>: \t\u00a0\"“”")
	path := bare
	if !known(path) {
		path = meantPath(bare)
	}
	bracketless := strings.TrimSpace(name) == bare
	switch {
	case path == "" && (bracketless || bare == "" || strings.ContainsAny(bare, "[](),")):
		return mended{}
	case path == "":
		path = "[" + quoteKey(bare) + "]"
	default:
		path = bracketed(path)
	}
	what := "the brackets of the heading do not match"
	switch {
	case strings.HasPrefix(strings.TrimSpace(name), "[") && !strings.Contains(name, "]"):
		what = "a heading is not closed"
	case !strings.ContainsAny(name, "[]"):
		what = strings.TrimSpace(name) + " is no heading without square brackets"
	}
	return mended{text: path, what: what, right: path}
}

// asKey is a key as it is to be written: the one that there is, if it is known.
func asKey(key string) string {
	if known := alike(key); known != "" && spell.Bare(known) == spell.Bare(key) {
		return known
	}
	return quoteKey(key)
}

// loose is a statement's value as it stands on its line.
type loose struct {
	text   string // without its quotes
	after  string // what stands behind it, a remark left out
	quoted bool
	inner  bool // there are quotes inside of it
}

// noSuchKey is what is wrong with a key that is there in another spelling.
func noSuchKey(p pair) string {
	if strings.ContainsAny(p.typed, "–‑—−") {
		return "the dash in the key " + quote(p.typed) + " is no hyphen"
	}
	return "there is no key " + quote(p.typed)
}

// nextKey is where, on a line that goes on after its value, a second key stands.
var nextKey = regexp.MustCompile(`[,;\s]\s*[A-Za-z][A-Za-z-]*\s*=`)

// looseValue parts a value from what stands after it on its line.
func looseValue(raw string) loose {
	raw = strings.Trim(evenQuotes(raw), "= \t\u00a0")
	signs := []rune(raw)
	if len(signs) > 0 && strings.ContainsRune(`"'`+curly, signs[0]) {
		if closing := closingQuote(signs, 0); closing > 0 {
			v := loose{text: strings.TrimSpace(string(signs[1:closing])), quoted: true}
			rest, _, _ := strings.Cut(string(signs[closing+1:]), "#")
			v.after = strings.TrimSpace(rest)
			if strings.ContainsAny(v.after, `"`+curly) && !nextKey.MatchString(rest) { // quotes inside a text
				v.text = strings.Join(strings.FieldsFunc(raw, func(r rune) bool { return strings.ContainsRune(`"`+curly, r) }), "")
				v.after, v.inner = "", true
			}
			return v
		}
	}
	raw, _, _ = strings.Cut(raw, "#")
	raw, _, _ = strings.Cut(raw, " //")
	after := ""
	if at := nextKey.FindStringIndex(raw); at != nil {
		raw, after = raw[:at[0]], raw[at[0]:]
	}
	return loose{text: strings.Trim(raw, `"'`+curly+" \t\u00a0;,"), after: after}
}

// scalar is a statement with one value.
func scalar(p pair) mended {
	key, raw := p.key, p.value
	name, v := asKey(key), looseValue(raw)
	f, example := written(alike(key))
	if v.text == "" {
		return mended{text: name + ` = ""`, what: key + " has no value", right: "as in " + name + " = " + example}
	}
	fixed, hint := tomlText(v.text), ""
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
	case nextKey.MatchString(" " + v.after):
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
	case withUnit.MatchString(v.text):
		m.what, hint = read+" has no quotes", "a value with a unit needs quotes: "
	default:
		m.what, hint = read+" has no quotes", "text needs quotes: "
	}
	m.right = hint + m.text
	return m
}

// listing is a statement whose value is a list or a group in braces; it may go
// over several lines.
func listing(p pair, f form) mended {
	key, raw := p.key, p.value
	name := asKey(key)
	list := atoms(raw, f == pairList || f == pairGroup || f == rangeGroup || strings.Contains(raw, ";"))
	texts, lines := entries(list, f)
	if texts == nil {
		if strings.TrimSpace(raw) == "" {
			_, example := written(alike(key))
			return mended{text: name + " = []", what: key + " has no value", right: "as in " + name + " = " + example}
		}
		return mended{}
	}
	begin, end := "[", "]"
	if f == pairGroup || f == rangeGroup {
		begin, end = "{ ", " }"
	}
	m := mended{text: name + " = " + begin}
	at, last := 0, strings.Count(raw, "\n")
	for i, text := range texts {
		if i > 0 {
			m.text += ","
		}
		if gap := lines[i] - at; gap > 0 {
			m.text += strings.Repeat("\n", gap)
			at = lines[i]
		} else if i > 0 {
			m.text += " "
		}
		m.text += text
	}
	m.text += strings.Repeat("\n", last-at) + end
	var hint string
	m.line, m.what, hint = listFault(p, f)
	switch {
	case m.what == "" && strings.HasPrefix(name, `"`): // the reader of the tree tells of the key
	case m.what == "":
		return mended{}
	case last == 0 || m.line == 0:
		m.right = hint + name + " = " + begin + strings.Join(texts, ", ") + end
	default:
		var here []string
		for i, text := range texts {
			if lines[i] == m.line {
				here = append(here, text)
			}
		}
		m.right = hint + strings.Join(here, ", ") + ","
	}
	return m
}

var (
	inQuotes     = regexp.MustCompile(`"[^"]*"`)
	counted      = regexp.MustCompile(`\d\s*(%|\pL)`)
	decimalComma = regexp.MustCompile(`\d,\d`)
	crooked      = regexp.MustCompile(`(^|[^\d.])(\.\d|0\d)|\d\.([^\d]|$)`)
	lacksComma   = regexp.MustCompile(`("|\]|\d)\s*("|\[)|(\]|"|\d\s)\s*\d`)
	barePlain    = regexp.MustCompile(`\pL`)
	closingOnly  = regexp.MustCompile(`^[\s\]})]*$`)
)

// listFault is what is wrong with a list, on which of its lines, and how what
// would be right begins.
func listFault(p pair, f form) (line int, what, hint string) {
	key := p.key
	switch name := asKey(key); {
	case p.separator != "=":
		return 0, key + " has no = before its value", ""
	case p.typed != name && !strings.HasPrefix(name, `"`):
		return 0, noSuchKey(p), ""
	}
	depth := 0
	lines := strings.Split(p.value, "\n")
	group := f == pairGroup || f == rangeGroup
	for n, text := range lines {
		// Texts in quotes become one quote: what is looked for stands outside.
		outside := inQuotes.ReplaceAllString(text, `"`)
		outside, _, _ = strings.Cut(outside, "#")
		outside = strings.TrimSpace(outside)
		next := ""
		if n+1 < len(lines) {
			next = strings.TrimSpace(lines[n+1])
		}
		open, closed := strings.Count(outside, "[")+strings.Count(outside, "{"), strings.Count(outside, "]")+strings.Count(outside, "}")
		depth += open - closed
		switch {
		case strings.ContainsAny(text, curly):
			return n, key + " has curly quotes", "straight ones: "
		case oddQuotes(text):
			return n, "a text in " + key + " is not closed", "a quote before it and one after it: "
		case strings.ContainsAny(outside, "()"):
			return n, key + " has round brackets", "square ones: "
		case n == 0 && outside == "":
			return n, key + " has no brackets", "a list is in square brackets: "
		case n == 0 && !strings.ContainsAny(outside[:1], "[{"):
			return n, key + " has no brackets", "a list is in square brackets: "
		case group && strings.HasPrefix(outside, "["):
			return n, key + " has square brackets", "braces: "
		case strings.Contains(outside, ";"):
			return n, key + " has semicolons", "commas between the entries, a point in a number: "
		case f != nameList && counted.MatchString(outside):
			return n, "a number in " + key + " has a unit or a sign after it", "plain numbers: "
		case !group && strings.ContainsAny(outside, ":="):
			return n, key + " has a sign in it that is no comma", "commas between the entries: "
		case group && decimalComma.MatchString(outside):
			return n, "a number in " + key + " has a decimal comma", "a point: "
		case group && strings.ContainsAny(outside, "₀₁₂₃₄₅₆₇₈₉"):
			return n, "a formula in " + key + " has small figures", "plain ones: "
		case group && strings.Contains(outside, ":"):
			return n, key + " has a colon in it", "an = for it: "
		case f != nameList && crooked.MatchString(outside):
			return n, "a number in " + key + " is not written as one", "digits with one decimal point: "
		case !group && barePlain.MatchString(outside):
			return n, "a name in " + key + " has no quotes", "text needs quotes: "
		case lacksComma.MatchString(outside):
			return n, key + " lacks a comma", "one between the entries: "
		case next != "" && depth > 0 && outside != "" && !strings.ContainsAny(outside[len(outside)-1:], ",[{") && !closingOnly.MatchString(next):
			return n, key + " lacks a comma at the end of this line", "one between the entries: "
		case depth < 0:
			return n, key + " has more ] than [", ""
		}
	}
	switch {
	case depth > 0 && group:
		return 0, "the group in braces of " + key + " is not closed", ""
	case depth > 0:
		return 0, "the list of " + key + " is not closed", "as many ] as [: "
	case group:
		return 0, "the group in braces of " + key + " lacks a comma or an =", ""
	}
	if strings.HasPrefix(asKey(key), `"`) {
		return 0, "", ""
	}
	return 0, key + " has its brackets in the wrong places", ""
}

// aHeading is a line that is nothing but a heading.
var aHeading = regexp.MustCompile(`^\s*\[{1,2}\s*[A-Za-z.-]+\s*\]{1,2}\s*(#.*)?$`)

// extent is where a list ends that begins before end: where its brackets are
// closed, or where the next key or heading stands. One without a value on its
// own line has the lines below.
func extent(src []byte, end int, f form, value string) int {
	depth := func(line string) int {
		line = inQuotes.ReplaceAllString(evenQuotes(line), `"`)
		line, _, _ = strings.Cut(line, "#")
		return strings.Count(line, "[") + strings.Count(line, "{") - strings.Count(line, "]") - strings.Count(line, "}")
	}
	open := depth(value)
	below := strings.TrimSpace(value) == ""
	for (open > 0 || below) && end < len(src) {
		start := end + 1
		stop := len(src)
		if n := bytes.IndexByte(src[start:], '\n'); n >= 0 {
			stop = start + n
		}
		line := string(src[start:stop])
		if p := parted(line); aHeading.MatchString(line) || p.separator != "" && alike(p.key) != "" || below && strings.TrimSpace(line) == "" {
			break
		}
		if open += depth(line); below && open > 0 {
			below = false
		}
		end = stop
	}
	return end
}
