package plan

import (
	"bytes"
	"strings"
)

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
	var whole strings.Builder
	whole.WriteString(name + " = " + begin)
	at, last := 0, strings.Count(raw, "\n")
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
	var hint string
	m := mended{text: whole.String()}
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
	inQuotes     = pattern(`"[^"]*"`)
	counted      = pattern(`\d\s*(%|\pL)`)
	decimalComma = pattern(`\d,\d`)
	crooked      = pattern(`(^|[^\d.])(\.\d|0\d)|\d\.([^\d]|$)`)
	lacksComma   = pattern(`("|\]|\d)\s*("|\[)|(\]|"|\d\s)\s*\d`)
	barePlain    = pattern(`\pL`)
	closingOnly  = pattern(`^[\s\]})]*$`)
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
		outside := inQuotes().ReplaceAllString(text, `"`)
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
		case n == 0 && !startsList(outside):
			return n, key + " has no brackets", "a list is in square brackets: "
		case group && strings.HasPrefix(outside, "["):
			return n, key + " has square brackets", "braces: "
		case strings.Contains(outside, ";"):
			return n, key + " has semicolons", "commas between the entries, a point in a number: "
		case f != nameList && counted().MatchString(outside):
			return n, "a number in " + key + " has a unit or a sign after it", "plain numbers: "
		case !group && strings.ContainsAny(outside, ":="):
			return n, key + " has a sign in it that is no comma", "commas between the entries: "
		case group && decimalComma().MatchString(outside):
			return n, "a number in " + key + " has a decimal comma", "a point: "
		case group && strings.ContainsAny(outside, "₀₁₂₃₄₅₆₇₈₉"):
			return n, "a formula in " + key + " has small figures", "plain ones: "
		case group && strings.Contains(outside, ":"):
			return n, key + " has a colon in it", "an = for it: "
		case f != nameList && crooked().MatchString(outside):
			return n, "a number in " + key + " is not written as one", "digits with one decimal point: "
		case !group && barePlain().MatchString(outside):
			return n, "a name in " + key + " has no quotes", "text needs quotes: "
		case lacksComma().MatchString(outside):
			return n, key + " lacks a comma", "one between the entries: "
		case next != "" && depth > 0 && outside != "" && !strings.ContainsAny(outside[len(outside)-1:], ",[{") && !closingOnly().MatchString(next):
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
var aHeading = pattern(`^\s*\[{1,2}\s*[A-Za-z.-]+\s*\]{1,2}\s*(#.*)?$`)

// longestList is how many bytes of a list are mended: to read on in the rest of
// a plan takes longer than it helps.
const longestList = 100_000

// extent is where a list ends that begins before end: where its brackets are
// closed, or where the next key or heading stands. One without a value on its
// own line has the lines below. It looks no further than a list is mended.
func extent(src []byte, end int, value string) int {
	begin := end - len(value)
	depth := func(line string) int {
		line = inQuotes().ReplaceAllString(evenQuotes(line), `"`)
		line, _, _ = strings.Cut(line, "#")
		return strings.Count(line, "[") + strings.Count(line, "{") - strings.Count(line, "]") - strings.Count(line, "}")
	}
	open := depth(value)
	below := strings.TrimSpace(value) == ""
	for (open > 0 || below) && end < len(src) && end-begin <= longestList {
		start := end + 1
		stop := len(src)
		if n := bytes.IndexByte(src[start:], '\n'); n >= 0 {
			stop = start + n
		}
		line := string(src[start:stop])
		if p := parted(line); aHeading().MatchString(line) || p.separator != "" && alike(p.key) != "" || below && strings.TrimSpace(line) == "" {
			break
		}
		if open += depth(line); below && open > 0 {
			below = false
		}
		end = stop
	}
	return end
}
