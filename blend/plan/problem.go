package plan

import (
	"fmt"
	"sort"
	"strings"

	"pourboard/blend/quantity"
)

// Problem is one fault of a plan.
type Problem struct {
	File  string
	Line  int    // from 1
	What  string // what is wrong
	Right string // what would be right
}

// String is the problem as one line: "plan.toml:14: what (right)".
func (p Problem) String() string {
	return fmt.Sprintf("%s:%d: %s", p.File, p.Line, withFix(p.What, p.Right))
}

func withFix(s, fix string) string {
	if fix != "" {
		s += " (" + fix + ")"
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

func quote(s string) string                 { return quantity.Quote(s) }
func number(x float64) string               { return quantity.Plain(x) }
func listed(w []string, last string) string { return quantity.Listed(w, last) }

// quoteAll is the words in quotes, as values are written in the file.
func quoteAll(words []string) []string {
	all := make([]string, len(words))
	for i, w := range words {
		all[i] = quote(w)
	}
	return all
}

// describe is the sort of a value, in words.
func describe(v *value) string {
	switch v.kind {
	case text:
		return "the text " + quote(v.text)
	case figure:
		return "the number " + shown(v)
	case truth:
		return v.text
	}
	return map[kind]string{date: "a date or a time", list: "a list", group: "a group of keys"}[v.kind]
}

// shown is a value as it was written.
func shown(v *value) string {
	const longest = 40
	switch {
	case v.kind == text:
		return quote(v.text)
	case len(v.text) > longest:
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
