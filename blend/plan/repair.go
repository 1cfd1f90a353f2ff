package plan

import (
	"bytes"
	"regexp"
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

// repair tells of every statement that is not TOML, and gives the text with each
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
			below, what, right := spoken(statement, fault)
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
		if sectionMeant(line) != nil || aHeading.MatchString(line) || assigned(line).separator != none {
			return end
		}
	}
}

// aHeading is a line that is nothing but a heading.
var aHeading = regexp.MustCompile(`^\s*\[{1,2}\s*[A-Za-z.-]+\s*\]{1,2}\s*(#.*)?$`)

// sectionMeant is the section that a line names, in whatever brackets; nil for
// a line that names none.
func sectionMeant(line string) *Section {
	line, _, _ = strings.Cut(line, "#")
	if path := strings.Trim(line, "[](): \t\r\n"); path != "" {
		return section(path)
	}
	return nil
}

// What stands between a key and its value.
const (
	none = iota
	equals
	colon
	blank
)

// assignment is a statement parted at its = or what stands for it.
type assignment struct {
	typed     string // the key as it was typed
	key       *Key   // the one that it must be, nil when there is none
	separator int
	value     string
}

// assigned parts a statement. A colon or a blank parts it only behind a key that
// there is.
func assigned(text string) assignment {
	head := text[:min(len(text), longestKey)]
	at := strings.IndexAny(head, "=:\"'[{#\n")
	if at > 0 && (head[at] == '=' || head[at] == ':') {
		a := assignment{typed: strings.TrimSpace(head[:at]), separator: equals, value: text[at+1:]}
		a.key = knownKey(strings.Trim(a.typed, `"'`))
		if head[at] == ':' {
			a.separator = colon
		}
		if a.separator == equals || a.key != nil {
			return a
		}
	}
	typed, value, ok := strings.Cut(strings.Replace(strings.TrimLeft(head, " \t"), "\t", " ", 1), " ")
	if ok && strings.Trim(value[:min(len(value), 1)], `"0123456789`) == "" && strings.IndexFunc(typed, unicode.IsLetter) == 0 {
		if k := knownKey(typed); k != nil {
			return assignment{typed, k, blank, text[strings.Index(text, typed)+len(typed):]}
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
	first, rest, _ := strings.Cut(statement, "\n")
	rest = statement[len(first):len(statement)-len(rest)] + rest
	if s := sectionMeant(first); s != nil {
		return s.heading() + rest, strings.TrimSpace(first) + " needs the brackets of a section"
	}
	fixed = straight.Replace(statement)
	a := assigned(fixed)
	if fixed != statement {
		what = a.typed + " has curly quotes"
	}
	switch {
	case a.key == nil:
		return fixed, what
	case a.separator != equals:
		what = a.typed + " has no = before its value"
	case a.key.Name != a.typed:
		what = "unknown key " + quote(a.typed)
	}
	if faultIn([]byte("k ="+a.value)) != nil {
		value, fault := a.quoted()
		if what == "" {
			what = fault
		}
		a.value = value
	}
	return a.key.Name + " = " + strings.TrimLeft(a.value, " \t"), what
}

// quoted is a value that is not TOML with its quotes or its decimal point, and
// what it lacks; the value as it is when it lacks something else.
func (a assignment) quoted() (value, what string) {
	first, _, _ := strings.Cut(a.value, "\n")
	text, _, _ := strings.Cut(first, "#")
	bare := strings.Trim(text, "\"'‘’ \t\r\u00a0")
	switch shape := a.key.form.codec().shape; {
	case shape == inDigits && decimalComma.MatchString(text):
		return strings.Replace(a.value, ",", ".", 1), a.typed + " has a decimal comma"
	case shape == inWords && bare != "" && !strings.ContainsAny(bare, "\"=\\") && !strings.ContainsFunc(bare, unicode.IsControl):
		digits, sign := quantity.Split(bare)
		if known, each := quantity.Spelling(sign); digits != "" && each == 1 {
			bare = digits + " " + known
		}
		return tomlText(bare) + a.value[len(strings.TrimRight(text, " \t\r")):], a.typed + " needs its value in quotes"
	case shape == inLists:
		return bareName.ReplaceAllStringFunc(a.value, func(name string) string {
			at := strings.IndexFunc(name, unicode.IsLetter)
			return name[:at] + tomlText(strings.TrimSpace(name[at:]))
		}), a.typed + " needs its names in quotes"
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

// spoken says in the maker's words why the parser stopped in a statement, and on
// which of its lines, from 0.
func spoken(statement string, fault *syntax) (line int, what, right string) {
	at := max(fault.at-fault.start, 0)
	if at < len(statement) {
		line = strings.Count(statement[:at], "\n")
	}
	subject, right := "this line", `as in key = "value", [section] or # comment`
	a := assigned(statement)
	if a.key != nil {
		subject, right = a.key.Name, "as in "+a.key.line()
	}
	has := func(words ...string) bool {
		for _, w := range words {
			if strings.Contains(fault.what, w) {
				return true
			}
		}
		return false
	}
	switch {
	case a.separator != none && oneLine(a.value) == "":
		return line, subject + " has no value", right
	case has("after array value", "array is incomplete", "after inline table", "inline table is incomplete"), at >= len(statement) && a.separator != none:
		if at < len(statement) { // what is missing is missing after what stands before
			line = strings.Count(strings.TrimRightFunc(statement[:at], unicode.IsSpace), "\n")
		}
		return line, subject + " lacks a comma or a closing bracket", right
	case has("have new lines", "unterminated", "not terminated"):
		return line, "the text of " + subject + " is not closed", "a quote before it and one after it: \"…\""
	case has("escape", `after \`):
		return line, `a \ is in the text of ` + subject, `\\ for the character itself`
	case has("control character", "carriage return"):
		return line, "a control character is in " + subject, "save the file as plain text"
	case has("expected newline"):
		return line, "something is left over after the value of " + subject, right
	case a.separator == equals && a.key == nil && has("key"):
		return line, "unknown key " + quote(a.typed), right
	case a.separator == none:
		return line, "this is neither a key with its value nor a section", "a comment begins with #: # " + quantity.Shorten(oneLine(statement))
	}
	return line, subject + " cannot be read", right
}

// oneLine is the first line of a text without control characters.
func oneLine(text string) string {
	first, _, _ := strings.Cut(text, "\n")
	return strings.TrimSpace(strings.Join(strings.FieldsFunc(first, unicode.IsControl), " "))
}
