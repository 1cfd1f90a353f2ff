package plan

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"pourboard/blend/quantity"
)

// This file says what a statement that is not TOML was meant to be, for what
// people do: quotes missing or curly, a colon for the =, no =, a decimal comma,
// a section without its brackets. Of anything else it says why the library stopped,
// with a line that is right. A plan that was repaired is never accepted.

// longestStatement is how many bytes of a statement are looked at.
const longestStatement = 100_000

// tree is a text as a tree. Each statement that is not TOML is a problem; it is
// read as it was meant, or else left out, so that the rest is looked at too.
func (r *reader) tree(src []byte) *value {
	p := newParser(r.problem)
	for line := 1; len(r.problems) <= mostProblems; {
		fault := p.add(src, line)
		if fault == nil {
			break
		}
		line += bytes.Count(src[:fault.start], []byte("\n"))
		src = src[fault.start:]
		statement := string(src[:extent(src)])
		src = src[len(statement):]
		r.mended(p, statement, fault, line)
		line += strings.Count(statement, "\n")
	}
	return p.root
}

// mended adds a statement to the tree as it was meant, and says what is wrong.
func (r *reader) mended(p *parser, statement string, fault *syntax, line int) {
	if len(statement) < longestStatement {
		fixed, what := mend(statement)
		if what != "" && newParser(ignore).add([]byte(fixed), line) == nil {
			below, right := changed(statement, fixed)
			r.problem(line+below, what, right)
			p.add([]byte(fixed), line)
			return
		}
	}
	below, what, right := explain(statement, fault)
	r.problem(line+below, what, right)
	r.broken = true
}

// ignore is for texts whose problems are known or none.
func ignore(int, string, string) {}

// extent is how many bytes a statement takes: its line, and the lines below it
// that begin no other.
func extent(src []byte) int {
	for end := 0; ; {
		if end = lineAfter(src, end); end == len(src) {
			return end
		}
		below, _, _ := bytes.Cut(src[end:min(len(src), end+longestKey)], []byte("\n"))
		line := string(below)
		if sectionMeant(line) != nil || aHeading.MatchString(line) || assigned(line).separator != 0 {
			return end
		}
	}
}

// aHeading is a line that is nothing but a heading.
var aHeading = regexp.MustCompile(`^\s*\[{1,2}\s*[A-Za-z.-]+\s*\]{1,2}\s*(#.*)?$`)

// sectionMeant is the section that a line names, in any brackets; nil for
// a line that names none.
func sectionMeant(line string) *Section {
	line, _, _ = strings.Cut(line, "#")
	if path := strings.Trim(line, "[](): \t\r\n"); path != "" {
		return section(path)
	}
	return nil
}

// assignment is a statement parted at its = or what was typed instead.
type assignment struct {
	typed     string // the key as it was typed
	key       *Key   // the one that it must be, nil when there is none
	separator byte   // '=', ':' or ' '; 0 for a statement that has none
	value     string
}

// assigned parts a statement. A colon or a blank parts it only behind a key that
// there is.
func assigned(text string) assignment {
	head := text[:min(len(text), longestKey)]
	at := strings.IndexAny(head, "=:\"'[{#\n")
	if at > 0 && (head[at] == '=' || head[at] == ':') {
		a := assignment{typed: oneLine(head[:at]), separator: head[at], value: text[at+1:]}
		a.key = knownKey(strings.Trim(a.typed, `"'`))
		if a.separator == '=' || a.key != nil {
			return a
		}
	}
	head, _, _ = strings.Cut(head, "\n")
	typed, value, ok := strings.Cut(strings.Replace(strings.TrimLeft(head, " \t"), "\t", " ", 1), " ")
	if ok && value != "" && strings.ContainsAny(value[:1], `"0123456789`) {
		if k := knownKey(typed); k != nil {
			return assignment{oneLine(typed), k, ' ', text[strings.Index(text, typed)+len(typed):]}
		}
	}
	return assignment{}
}

var (
	straight = strings.NewReplacer(
		"“", `"`, "”", `"`, "„", `"`, "‟", `"`, "«", `"`, "»", `"`, "″", `"`)
	decimalComma = regexp.MustCompile(`^\s*[+-]?\d+,\d+\s*$`)
	bareName     = regexp.MustCompile(`[\[,]\s*\pL[^\[\]{},"=#\n]*`)
)

// mend is a statement as it may have been meant, with what is wrong with it;
// what is "" when nothing can be told.
func mend(statement string) (fixed, what string) {
	first, _, _ := strings.Cut(statement, "\n")
	if s := sectionMeant(first); s != nil {
		return s.heading() + statement[len(first):], oneLine(first) + " needs the brackets of a section"
	}
	fixed = straight.Replace(statement)
	a := assigned(fixed)
	if fixed != statement {
		what = a.typed + " has curly quotes"
	}
	switch {
	case a.key == nil:
		return fixed, what
	case a.separator != '=':
		what = a.typed + " has no = before its value"
	case a.key.Name != a.typed:
		what = "unknown key " + quote(a.typed)
	}
	if newParser(ignore).add([]byte("k ="+a.value), 1) != nil {
		value, lacks := a.withQuotes()
		if what == "" && lacks != "" {
			what = a.typed + " " + lacks
		}
		a.value = value
	}
	return a.key.Name + " = " + strings.TrimLeft(a.value, " \t"), what
}

// withQuotes is a value that is not TOML with its quotes or its decimal point, and
// what it lacks; the value as it is when it lacks something else. What it ought
// to look like is what the key's example looks like.
func (a assignment) withQuotes() (value, lacks string) {
	first, _, _ := strings.Cut(a.value, "\n")
	text, _, _ := strings.Cut(first, "#")
	bare := strings.Trim(text, "\"'‘’ \t\r\u00a0")
	switch like := a.key.Example[0]; {
	case '0' <= like && like <= '9' && decimalComma.MatchString(text):
		return strings.Replace(a.value, ",", ".", 1), "has a decimal comma"
	case like == '"' && bare != "" && !strings.ContainsAny(bare, "\"=\\") && bare == oneLine(bare):
		return quantity.TOML(bare) + a.value[len(strings.TrimRight(text, " \t\r")):], "needs its value in quotes"
	case like == '[':
		return bareName.ReplaceAllStringFunc(a.value, func(name string) string {
			at := strings.IndexFunc(name, unicode.IsLetter)
			return name[:at] + quantity.TOML(strings.TrimSpace(name[at:]))
		}), "needs its names in quotes"
	}
	return a.value, ""
}

// changed is the first line that differs in a text of as many, from 0, and that
// line as it is to be written.
func changed(old, now string) (line int, right string) {
	before, after := strings.Split(old, "\n"), strings.Split(now, "\n")
	for before[line] == after[line] {
		line++
	}
	return line, oneLine(after[line])
}

// stops is why the library stops reading a statement: words of its message, and
// the same in ours.
var stops = []struct {
	words []string
	plain string
}{
	{[]string{"incomplete", "after array", "after inline table"}, "a quote, a comma or a closing bracket is missing"},
	{[]string{"have new lines", "unterminated", "not terminated"}, "its text is not closed"},
	{[]string{"expected newline"}, "something is left over after its value"},
	{[]string{"start of value", "must be quoted", "keyword"}, "a text goes in quotes, a list in square brackets"},
	{[]string{"escape", `after \`}, `for a \ in a text write \\`},
}

// explain says why the library stopped in a statement, and on which of its lines,
// from 0.
func explain(statement string, fault *syntax) (line int, what, right string) {
	why := stops[0].plain
	if at := max(fault.at-fault.start, 0); at < len(statement) {
		why = strings.TrimPrefix(fault.what, "toml: ")
		// What is missing is missing before the place where the library stopped.
		line = strings.Count(strings.TrimRightFunc(statement[:at], unicode.IsSpace), "\n")
		for _, s := range stops {
			if slices.ContainsFunc(s.words, func(w string) bool { return strings.Contains(fault.what, w) }) {
				why = s.plain
				break
			}
		}
	}
	switch a := assigned(statement); {
	case a.separator == 0:
		return line, "this is neither a key with its value nor a section",
			"a comment begins with #: # " + quantity.Shorten(oneLine(statement))
	case a.key == nil:
		return line, "unknown key " + quote(a.typed), `as in key = "value", [section] or # comment`
	case oneLine(a.value) == "":
		return line, a.key.Name + " has no value", "as in " + a.key.line()
	default:
		return line, a.key.Name + " cannot be read: " + why, "as in " + a.key.line()
	}
}

// oneLine is the first line of a text without control characters.
func oneLine(text string) string {
	first, _, _ := strings.Cut(text, "\n")
	return strings.TrimSpace(strings.Join(strings.FieldsFunc(first, unicode.IsControl), " "))
}
