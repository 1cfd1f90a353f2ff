package plan

import (
	"bytes"
	"strings"

	"pourboard/blend/spell"
)

// This file says what a statement that is not TOML was meant to be, for what
// people do: quotes missing or curly, a colon for the =, no =, a decimal comma,
// a heading without its brackets. A plan that was repaired is never accepted;
// its problems show each line as it should be, and the rest is read on.

// mended is a statement as it was meant.
type mended struct {
	text  string // with as many lines as it had
	line  int    // of the statement, from 0, that the problem is on
	what  string // "" where the reader of keys will say it
	right string
	lost  bool // a part of it could not be kept
}

// longestStatement is how many bytes of a statement are looked at.
const longestStatement = 100_000

// repair tells of every statement that is not TOML, and gives the text with each
// as it was meant, or left out.
func (r *reader) repair(src []byte) []byte {
	var out bytes.Buffer
	lines := strings.SplitAfter(string(src), "\n")
	for n := 0; n < len(lines) && len(r.problems) <= mostProblems; {
		count := extent(lines[n:])
		statement := strings.Join(lines[n:n+count], "")
		body := strings.TrimRight(statement, "\r\n")
		fault := faultIn(body)
		if fault == nil {
			out.WriteString(statement)
			n += count
			continue
		}
		m, ok := mended{}, false
		if len(body) <= longestStatement {
			m, ok = mend(body)
		}
		if ok && faultIn(m.text) == nil && strings.Count(m.text, "\n") == strings.Count(body, "\n") {
			if m.what != "" {
				r.problem(n+1+m.line, m.what, m.right)
				r.told[n+1+m.line] = true
			}
			r.broken = r.broken || m.lost
			out.WriteString(m.text + "\n")
		} else {
			what, right := spoken([]byte(body), fault)
			r.problem(n+fault.line, what, right)
			r.told[n+fault.line] = true
			r.broken = true
			out.WriteString(strings.Repeat("\n", count))
		}
		n += count
	}
	return out.Bytes()
}

// faultIn is what is not TOML in a statement, nil when nothing is.
func faultIn(statement string) *syntax {
	_, fault := parse([]byte(statement), func(int, string, string) {})
	return fault
}

// aHeading is a line that is nothing but a heading.
var aHeading = pattern(`^\s*\[{1,2}\s*[A-Za-z.-]+\s*\]{1,2}\s*(#.*)?$`)

// extent is how many lines the statement takes that begins at the first: to
// where its brackets close, or to the next heading, key or blank line.
func extent(lines []string) int {
	first := strings.TrimSpace(lines[0])
	if first == "" || first[0] == '#' || aHeading().MatchString(first) {
		return 1
	}
	a := assigned(first)
	open := depth(a.value)
	below := a.key != nil && a.key.form.codec().shape >= nameShape && strings.TrimSpace(a.value) == ""
	size := 0
	for n := 1; n < len(lines); n++ {
		if open <= 0 && !below || size > longestStatement {
			return n
		}
		line := strings.TrimRight(lines[n], "\r\n")
		if aHeading().MatchString(line) || below && strings.TrimSpace(line) == "" || assigned(line).key != nil && assigned(line).separator != "" {
			return n
		}
		size += len(line)
		if open += depth(line); below && open > 0 {
			below = false
		}
	}
	return len(lines)
}

var inQuotes = pattern(`"[^"]*"`)

// depth is how many brackets a line leaves open.
func depth(line string) int {
	line = outside(line)
	return strings.Count(line, "[") + strings.Count(line, "{") - strings.Count(line, "]") - strings.Count(line, "}")
}

// outside is a line with each text in quotes made one quote, without a comment.
func outside(line string) string {
	line = inQuotes().ReplaceAllString(evenQuotes(line), `"`)
	line, _, _ = strings.Cut(line, "#")
	return strings.TrimSpace(line)
}

// assignment is a statement parted at its = or what stands for it.
type assignment struct {
	typed     string // the key as it was typed
	key       *Key   // the one that it must be, nil when there is none
	separator string // "=", ":" or ""
	value     string
}

// assigned parts a statement. Without a separator the longest known key in
// front of it counts.
func assigned(line string) assignment {
	if at := strings.IndexAny(line, "=:\"[#"); at >= 0 && at <= longestKey && strings.ContainsRune("=:", rune(line[at])) {
		typed := strings.Trim(strings.TrimSpace(line[:at]), `"'`)
		return assignment{typed, knownKey(typed), line[at : at+1], line[at+1:]}
	}
	head := line[:min(len(line), longestKey)]
	words := strings.Fields(head)
	for n := min(3, len(words)-1); n > 0; n-- {
		typed := strings.Join(words[:n], " ")
		if k := knownKey(typed); k != nil && !strings.ContainsAny(typed, `"[`) {
			at := 0
			for _, w := range words[:n] {
				at += strings.Index(line[at:], w) + len(w)
			}
			return assignment{typed, k, "", line[at:]}
		}
	}
	return assignment{typed: line}
}

// mend is a statement as it was meant; ok is false when it cannot be told.
func mend(statement string) (m mended, ok bool) {
	if m, ok := mendHeading(statement); ok {
		return m, true
	}
	if comment, ok := strings.CutPrefix(strings.TrimSpace(statement), "//"); ok {
		m.text = "# " + strings.TrimSpace(comment)
		m.what, m.right = "// does not begin a comment", "a comment begins with #: "+m.text
		return m, !strings.Contains(statement, "\n")
	}
	a := assigned(statement)
	switch {
	case a.key == nil && a.separator == "=" && faultIn("k ="+a.value) == nil && !strings.HasPrefix(a.typed, "/"):
		return mended{text: tomlText(a.typed) + " =" + a.value}, true // the key is told of by its reader
	case a.key == nil:
		return m, false
	case a.key.form.codec().shape >= nameShape:
		m = a.list()
	default:
		m = a.scalar()
	}
	return m, m.text != ""
}

// mendHeading is a line that was meant as a heading.
func mendHeading(statement string) (m mended, ok bool) {
	line, _, _ := strings.Cut(statement, "#")
	line = strings.TrimSpace(line)
	bare := strings.TrimSpace(strings.Trim(line, "[]() :"))
	s := section(bare)
	if s == nil {
		s = meantPath(bare)
	}
	bracketed := strings.ContainsAny(line[:min(1, len(line))], "[(")
	switch {
	case bare == "" || strings.ContainsAny(bare, "[](),=\":"):
		return m, false
	case s == nil && !bracketed, !bracketed && section(bare) == nil && !strings.HasSuffix(line, ":"):
		return m, false
	case s == nil:
		return mended{text: "[" + quoteKey(bare) + "]", what: "a heading is not closed", right: "[" + quoteKey(bare) + "]"}, true
	}
	m.text, m.right = s.heading(), s.heading()
	switch {
	case strings.HasPrefix(line, "[") && !strings.Contains(line, "]"):
		m.what = "a heading is not closed"
	case !strings.ContainsAny(line, "[]"):
		m.what = line + " is not a heading without square brackets"
	default:
		m.what = "the brackets of the heading do not match"
	}
	return m, true
}

// name is the key as it is to be written: the known one, where only its
// spelling was wrong.
func (a assignment) name() string {
	if spell.Bare(a.key.Name) == spell.Bare(hyphens.Replace(a.typed)) {
		return a.key.Name
	}
	return quoteKey(a.typed)
}

// keyFault is what is wrong before the value, "" for nothing.
func (a assignment) keyFault() string {
	switch {
	case a.separator != "=":
		return a.typed + " has no = before its value"
	case a.typed != a.key.Name && a.name() == a.key.Name:
		return "unknown key " + quote(a.typed)
	}
	return ""
}
