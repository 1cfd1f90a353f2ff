package main

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"

	"pourboard/blend/mark"
)

// markLine is the line of a plan that gives its mark.
var markLine = regexp.MustCompile(`(?m)^\s*mark\s*=\s*["']([^"'\n]*)["']`)

// marksBeside is the marks of the other plans in a plan's folder, with their
// files, the first by name of those that share one. A plan that is wrong has a mark
// too.
func marksBeside(file string) map[string]string {
	marks := map[string]string{}
	own, _ := os.Stat(file)
	entries, _ := os.ReadDir(filepath.Dir(file)) // where it cannot be read, none is known
	for _, e := range entries {
		other := filepath.Join(filepath.Dir(file), e.Name())
		if info, err := os.Stat(other); filepath.Ext(other) != ".toml" || err != nil || os.SameFile(info, own) {
			continue
		}
		text, _ := readFile(other, largestPlan) // what cannot be read has none
		if m := markLine.FindSubmatch(text); m != nil && marks[string(m[1])] == "" {
			marks[string(m[1])] = e.Name()
		}
	}
	return marks
}

// warnMark warns when tiles of another plan in the folder bear the same marks.
func (u *ui) warnMark(j *job) {
	taken := marksBeside(j.file)
	for _, prefix := range slices.Sorted(maps.Keys(taken)) {
		if !mark.MayClash(j.plan.Mark, prefix) {
			continue
		}
		what := "is used by " + taken[prefix] + " too"
		if prefix != j.plan.Mark {
			other, err := load(filepath.Join(filepath.Dir(j.file), taken[prefix]), overrides{})
			if err != nil {
				continue // nothing was asked of that plan
			}
			shared := mark.Shared(j.places.Scheme, other.places.Scheme)
			if shared == nil {
				continue
			}
			what = fmt.Sprintf("shares marks with %s: %s to %s", taken[prefix], shared[0], shared[len(shared)-1])
		}
		u.warn(j.file, fmt.Sprintf("mark %s: %s; nobody could tell the tiles of the two tests apart (mark = %q)",
			j.plan.Mark, what, freeMark(j.plan.Mark, taken)))
		return
	}
}

// freeMark is the mark for a test that follows, which no plan beside it has.
func freeMark(own string, taken map[string]string) string {
	tried := []string{own}
	next := mark.Next(own)
	clashes := func(other string) bool { return mark.MayClash(next, other) }
	for slices.ContainsFunc(slices.Collect(maps.Keys(taken)), clashes) && !slices.Contains(tried, next) {
		tried = append(tried, next)
		next = mark.Next(next)
	}
	return next
}
