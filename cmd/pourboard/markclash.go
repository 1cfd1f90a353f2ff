package main

import (
	"bytes"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"pourboard/blend/mark"
	"pourboard/render/wording"
)

// marksBeside is the marks of the other plans in a plan's folder, with their
// files, the first by name of those that share one. A mark is in the first
// lines of a plan; the rest is not read, and a plan that is wrong has one too.
func marksBeside(file string) map[string]string {
	marks := map[string]string{}
	folder := filepath.Dir(file)
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil
	}
	own, _ := os.Stat(file)
	for _, e := range entries {
		other := filepath.Join(folder, e.Name())
		info, err := os.Stat(other)
		if filepath.Ext(other) != ".toml" || err != nil || !info.Mode().IsRegular() || os.SameFile(info, own) {
			continue
		}
		if mark := markIn(beginning(other, 4<<10)); mark != "" && marks[mark] == "" {
			marks[mark] = e.Name()
		}
	}
	return marks
}

// markIn is the mark that a plan's text gives, or "".
func markIn(text []byte) string {
	for line := range bytes.Lines(text) {
		key, value, _ := bytes.Cut(line, []byte("="))
		if string(bytes.TrimSpace(key)) != "mark" {
			continue
		}
		for _, quote := range []string{`"`, "'"} {
			if _, after, ok := bytes.Cut(value, []byte(quote)); ok {
				mark, _, _ := bytes.Cut(after, []byte(quote))
				return string(mark)
			}
		}
	}
	return ""
}

// beginning is the first bytes of a file, nil when it cannot be read.
func beginning(file string, most int64) []byte {
	f, err := os.Open(file)
	if err != nil {
		return nil
	}
	defer f.Close()
	start, _ := io.ReadAll(io.LimitReader(f, most))
	return start
}

// warnMark warns when tiles of another plan in the folder bear the same marks.
func (u *ui) warnMark(j *job) {
	taken := marksBeside(j.file)
	for _, prefix := range slices.Sorted(maps.Keys(taken)) {
		if !mark.MayClash(j.plan.Mark, prefix) {
			continue
		}
		note := wording.Line{Place: "mark " + j.plan.Mark, What: "is used by " + taken[prefix] + " too",
			Why: "nobody could tell the tiles of the two tests apart", Fix: fmt.Sprintf("mark = %q", freeMark(j.plan.Mark, taken))}
		if prefix != j.plan.Mark {
			other, err := load(filepath.Join(filepath.Dir(j.file), taken[prefix]), overrides{})
			if err != nil {
				continue // nothing was asked of that plan
			}
			first, last, clash := mark.Clash(j.places.Scheme, other.places.Scheme)
			if !clash {
				continue
			}
			note.What = fmt.Sprintf("shares marks with %s: %s to %s", taken[prefix], first, last)
		}
		u.warn(j.file, []wording.Line{note})
		return
	}
}

// freeMark is the mark for a test that follows, which no plan beside it has.
func freeMark(own string, taken map[string]string) string {
	tried := []string{own}
	next := mark.Next(own)
	for clashes(next, taken) && !slices.Contains(tried, next) {
		tried = append(tried, next)
		next = mark.Next(next)
	}
	return next
}

// clashes reports whether a mark may spell what one that is taken does.
func clashes(prefix string, taken map[string]string) bool {
	for other := range taken {
		if mark.MayClash(prefix, other) {
			return true
		}
	}
	return false
}
