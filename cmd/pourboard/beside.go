package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"pourboard/blend/mark"
	"pourboard/render/wording"
)

// mostBeside is how many plans of a folder are looked into for their marks.
const mostBeside = 200

// marksBeside is the marks of the other plans in a plan's folder, with their
// files, the first by name of those that share one. A mark stands in the first
// lines of a plan; the rest is not read, and a plan that is wrong has one too.
func marksBeside(file string) map[string]string {
	marks := map[string]string{}
	folder := filepath.Dir(file)
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil
	}
	own, _ := os.Stat(file)
	looked := 0
	for _, e := range entries {
		other := filepath.Join(folder, e.Name())
		info, err := os.Stat(other)
		if filepath.Ext(other) != ".toml" || err != nil || !info.Mode().IsRegular() || os.SameFile(info, own) {
			continue
		}
		if looked++; looked > mostBeside {
			break
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

// warnMark says when another plan in the folder has the plan's mark.
func (u *ui) warnMark(j *job) {
	taken := marksBeside(j.file)
	if other := taken[j.plan.Mark]; other != "" {
		u.warn(j.file, []wording.Line{{
			Place: "mark " + j.plan.Mark,
			What:  "is that of " + other + " too",
			Why:   "nobody can tell the tiles of the two apart",
			Fix:   fmt.Sprintf("mark = %q", freeMark(j.plan.Mark, taken)),
		}})
	}
}

// freeMark is the mark for a test that follows, which no plan beside it has.
func freeMark(own string, taken map[string]string) string {
	tried := []string{own}
	next := mark.Next(own)
	for taken[next] != "" && !slices.Contains(tried, next) {
		tried = append(tried, next)
		next = mark.Next(next)
	}
	return next
}
