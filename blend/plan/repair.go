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
// a section without its brackets. Of anything else it says where it stops being
// TOML, with a line that is right. A plan that was repaired is never accepted.

// longestStatement is how many bytes of a statement are looked at.
const longestStatement = 100_000

// repair lists every statement that is not TOML, and returns the text with each
// as it was meant, or left out, on as many lines: the rest is read on.
func (r *reader) repair(src []byte) []byte {
	var out bytes.Buffer
	for line := 1; len(r.problems) <= mostProblems; {
		fault := faultIn(src)
		if fault == nil {
			break
		}
		out.Write(src[:fault.start])
		line += bytes.Count(src[:fault.start], []byte("\n"))
		src = src[fault.start:]
		statement := string(src[:extent(src)])
		fixed, what := "", ""
		if len(statement) < longestStatement {
			fixed, what = mend(statement)
		}
		if what != "" && faultIn([]byte(fixed)) == nil {
			below, right := changed(statement, fixed)
			r.problem(line+below, what, right)
		} else {
			below, what, right := explain(statement, fault)
			r.problem(line+below, what, right)
			r.broken = true
			fixed = strings.Repeat("\n", strings.Count(statement, "\n"))
		}
		out.WriteString(fixed)
		line += strings.Count(statement, "\n")
		src = src[len(statement):]
	}
	out.Write(src)
	return out.Bytes()
}

// extent is how many bytes a statement takes: its line, and the lines below it
// that begin no other.
func extent(src []byte) int {
	for end := 0; ; {
		next := bytes.IndexByte(src[end:], '\n')
		if next < 0 {
			return len(src)
		}
		end += next + 1
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
		a := assignment{typed: strings.TrimSpace(head[:at]), separator: head[at], value: text[at+1:]}
		a.key = knownKey(strings.Trim(a.typed, `"'`))
		if a.separator == '=' || a.key != nil {
			return a
		}
	}
	typed, value, ok := strings.Cut(strings.Replace(strings.TrimLeft(head, " \t"), "\t", " ", 1), " ")
	if ok && strings.Trim(value[:min(len(value), 1)], `"0123456789`) == "" && strings.IndexFunc(typed, unicode.IsLetter) == 0 {
		if k := knownKey(typed); k != nil {
			return assignment{typed, k, ' ', text[strings.Index(text, typed)+len(typed):]}
		}
	}
	return assignment{}
}

var (
	straight     = strings.NewReplacer("“", `"`, "”", `"`, "„", `"`, "‟", `"`, "«", `"`, "»", `"`, "″", `"`)
	decimalComma = regexp.MustCompile(`^\s*[+-]?\d+,\d+\s*$`)
	bareName     = regexp.MustCompile(`[\[,]\s*\pL[^\[\]{},"=#\n]*`)
)

// mend is a statement as it may have been meant, with what is wrong with it;
// what is "" when nothing can be told.
func mend(statement string) (fixed, what string) {
	first, _, _ := strings.Cut(statement, "\n")
	if s := sectionMeant(first); s != nil {
		return s.heading() + statement[len(first):], strings.TrimSpace(first) + " needs the brackets of a section"
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
	if faultIn([]byte("k ="+a.value)) != nil {
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
	case like == '"' && bare != "" && !strings.ContainsAny(bare, "\"=\\") && !strings.ContainsFunc(bare, unicode.IsControl):
		digits, sign := quantity.Split(bare)
		if known, each := quantity.Spelling(sign); digits != "" && each == 1 {
			bare = digits + " " + known
		}
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
	return line, strings.TrimSpace(after[line])
}

// stops is why the library stops reading a value: words of its message, and what
// is wrong with the key in words of ours. right is "" for an example of the key.
var stops = []struct {
	words       []string
	what, right string
}{
	{[]string{"have new lines", "unterminated", "not terminated"}, "the text of %s is not closed", `a quote before it and one after it: "…"`},
	{[]string{"escape", `after \`}, `a \ is in the text of %s`, `\\ for the character itself`},
	{[]string{"control character", "carriage return"}, "a control character is in %s", "save the file as plain text"},
	{[]string{"expected newline"}, "something is left over after the value of %s", ""},
}

// explain says in the maker's words why the parser stopped in a statement, and on
// which of its lines, from 0.
func explain(statement string, fault *syntax) (line int, what, right string) {
	at := min(max(fault.at-fault.start, 0), len(statement))
	ended := at == len(statement)
	subject, example := "this line", `as in key = "value", [section] or # comment`
	a := assigned(statement)
	if a.key != nil {
		subject, example = a.key.Name, "as in "+a.key.line()
	}
	has := func(words ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(fault.what, w) })
	}
	below := func(text string) int { return strings.Count(text, "\n") }
	if !ended {
		line = below(statement[:at])
	}
	switch {
	case a.separator != 0 && oneLine(a.value) == "":
		return line, subject + " has no value", example
	case a.separator != 0 && ended:
		return line, subject + " lacks a comma or a closing bracket", example
	case has("after array value", "array is incomplete", "after inline table", "inline table is incomplete"):
		// What is missing is missing before the place where the parser stopped.
		return below(strings.TrimRightFunc(statement[:at], unicode.IsSpace)), subject + " lacks a comma or a closing bracket", example
	}
	for _, s := range stops {
		if has(s.words...) {
			if s.right == "" {
				s.right = example
			}
			return line, strings.Replace(s.what, "%s", subject, 1), s.right
		}
	}
	switch {
	case a.separator == '=' && a.key == nil && has("key"):
		return line, "unknown key " + quote(a.typed), example
	case a.separator == 0:
		return line, "this is neither a key with its value nor a section", "a comment begins with #: # " + quantity.Shorten(oneLine(statement))
	}
	return line, subject + " cannot be read", example
}

// oneLine is the first line of a text without control characters.
func oneLine(text string) string {
	first, _, _ := strings.Cut(text, "\n")
	return strings.TrimSpace(strings.Join(strings.FieldsFunc(first, unicode.IsControl), " "))
}
