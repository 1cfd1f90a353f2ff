package plan

import (
	"fmt"
	"sort"
	"strconv"
	"strings"
	"unicode"
)

// Problem is one thing that is wrong in a plan.
type Problem struct {
	File  string
	Line  int    // from 1
	What  string // what is wrong
	Right string // what would be right
}

// String is the problem as one line: "plan.toml:14: what (right)".
func (p Problem) String() string {
	s := fmt.Sprintf("%s:%d: %s", p.File, p.Line, p.What)
	if p.Right != "" {
		s += " (" + p.Right + ")"
	}
	return s
}

// Problems is everything that is wrong in a plan, in the order of its lines.
type Problems []Problem

// Error is the problems, one a line.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}

// inOrder sorts by line, and leaves those of one line as they were found.
func (ps Problems) inOrder() {
	sort.SliceStable(ps, func(i, j int) bool { return ps[i].Line < ps[j].Line })
}

// amiss is a problem that does not know its line yet.
type amiss struct{ what, right string }

// Error is the problem as one line.
func (a amiss) Error() string {
	if a.right == "" {
		return a.what
	}
	return a.what + " (" + a.right + ")"
}

// quote shows text of the maker's in a message: in quotes, on one line, and
// no longer than a line bears.
func quote(s string) string {
	blank := func(r rune) rune {
		if unicode.Is(unicode.Zs, r) { // one that does not break, say
			return ' '
		}
		return r
	}
	return strconv.Quote(shortened(strings.Map(blank, s)))
}

// shortened is a text no longer than a line of messages bears.
func shortened(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return s
}

// number writes x as a person would, without an exponent.
func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// listed joins names as a sentence does: "A, B or C".
func listed(names []string, last string) string {
	switch len(names) {
	case 0:
		return ""
	case 1:
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " " + last + " " + names[len(names)-1]
}

// several writes a count with its noun: "1 end", "3 ends".
func several(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}
