package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"

	"pourboard/blend"
	"pourboard/blend/book"
	"pourboard/blend/identity"
	"pourboard/blend/mark"
	"pourboard/blend/plan"
	"pourboard/blend/record"
)

// studio is the plans and logs beneath a folder.
type studio struct {
	tests    []testFiles // those with a plan, by path, and behind them logs named for none
	chapters []*book.Chapter
	skipped  []book.Skip
	others   map[string]int // files of other kinds, by "*" and their ending
}

// testFiles are a plan and its logs. A log whose plan is gone has no plan: it
// carries the plan's text.
type testFiles struct {
	plan string
	logs []string
}

// findTests walks a folder. Nothing is read yet. Links to folders are not
// followed, so that no circle of them is walked.
func findTests(folder string) (*studio, error) {
	s := &studio{others: map[string]int{}}
	if info, err := os.Stat(folder); err != nil {
		return nil, notRead(folder, err)
	} else if !info.IsDir() {
		return nil, fmt.Errorf("%s is a file (name a folder)", folder)
	}
	var files []string
	err := filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
		hidden := e != nil && strings.HasPrefix(e.Name(), ".") && path != folder
		switch {
		case err != nil:
			s.skip(path, reasonOf(err))
		case hidden && e.IsDir():
			return fs.SkipDir
		case hidden || e.IsDir():
		default:
			if info, err := os.Stat(path); err != nil {
				s.skip(path, "link to a missing file")
			} else if info.IsDir() {
				s.skip(path, "link to a folder; not followed (name that folder itself)")
			} else if info.Mode().IsRegular() {
				files = append(files, path)
			}
		}
		return nil
	})
	if err != nil {
		return nil, notRead(folder, err)
	}
	slices.Sort(files)
	s.pair(files)
	return s, nil
}

func (s *studio) skip(file, reason string) {
	s.skipped = append(s.skipped, book.Skip{File: file, Reason: reason})
}

// logName is the path of a log without its ending, and without the "-log" that
// follows its plan's name.
func logName(file string) (name string, isLog bool) {
	return strings.CutSuffix(strings.TrimSuffix(file, filepath.Ext(file)), "-log")
}

// pair puts logs to the plans that they are named for. A table that is named for
// none may be a log all the same.
func (s *studio) pair(files []string) {
	at := map[string]int{} // by the plan's path without ending
	for _, path := range files {
		if name, ok := strings.CutSuffix(path, ".toml"); ok {
			at[name] = len(s.tests)
			s.tests = append(s.tests, testFiles{plan: path})
		}
	}
	for _, path := range files {
		name, isLog := logName(path)
		i, planned := at[name]
		switch ending := strings.ToLower(filepath.Ext(path)); {
		case ending == ".toml", ending == ".pdf":
		case strings.HasSuffix(path, "-pour.xlsx"), strings.HasSuffix(path, "-book.xlsx"): // made of plans
		case ending != ".csv" && ending != ".xlsx":
			s.others["*"+ending]++
		case isLog && planned:
			s.tests[i].logs = append(s.tests[i].logs, path)
		default:
			s.tests = append(s.tests, testFiles{logs: []string{path}})
		}
	}
}

// reading is a test with its logs, as far as they could be read.
type reading struct {
	chapters []*book.Chapter
	skipped  []book.Skip
	code     string // fingerprint of the plan, "" where it could not be read
	noLog    bool   // a CSV that is something else
}

// skip says why a file is not in the book, if err says so.
func (r *reading) skip(file string, err error) {
	if err != nil {
		r.skipped = append(r.skipped, book.Skip{File: file, Reason: reason(file, err)})
	}
}

// read reads every test, on all processors, into chapters in the order of the
// files, first those with a plan. What cannot be read is skipped with its reason.
func (s *studio) read() {
	plans := map[string][]string{} // by fingerprint
	loose := slices.IndexFunc(append(s.tests, testFiles{}), func(t testFiles) bool { return t.plan == "" })
	for _, part := range [][]testFiles{s.tests[:loose], s.tests[loose:]} {
		for tests := range slices.Chunk(part, 8*runtime.NumCPU()) { // so many are in memory at once
			results := make([]reading, len(tests))
			var wait sync.WaitGroup
			for i, t := range tests {
				wait.Go(func() { results[i] = t.read(plans) })
			}
			wait.Wait()
			for i, r := range results {
				s.chapters, s.skipped = append(s.chapters, r.chapters...), append(s.skipped, r.skipped...)
				if r.code != "" && tests[i].plan != "" {
					plans[r.code] = append(plans[r.code], tests[i].plan)
				}
				if r.noLog {
					s.others["*.csv"]++
				}
			}
		}
	}
}

// read reads a plan and its logs. A log whose plan was changed since, or is
// gone, is read by the text of the plan that it carries. plans are those of the
// studio by their codes, for a log without a plan.
func (f testFiles) read(plans map[string][]string) (r reading) {
	own, err := openPlan(f.plan)
	r.skip(f.plan, err)
	var sources []book.Source
	for _, file := range f.logs {
		by, log, err := readLog(own, file)
		switch {
		case err == errNoLog && f.plan == "":
			return strayLog(file, plans)
		case err != nil:
			r.skip(file, err)
		case by == own:
			own.Logs = append(own.Logs, log)
		default:
			by.Logs = []book.LogFile{log}
			sources = append(sources, by.Source)
		}
	}
	if own != nil {
		r.code = own.fingerprint
		if len(own.Logs) > 0 || sources == nil {
			sources = append(sources, own.Source)
		}
	}
	for _, source := range sources {
		r.chapters = append(r.chapters, book.NewChapter(source))
	}
	return r
}

// strayLog reads a log that is named for no plan and carries none, by the plan whose
// code its rows have.
func strayLog(file string, plans map[string][]string) (r reading) {
	sheets, err := readSheets(file, mostStudioTiles)
	if err != nil {
		r.skip(file, err)
		return r
	}
	codes := record.PlanCodes(sheets)
	var fit []string
	if len(codes) == 1 {
		fit = plans[codes[0]]
	}
	ending := filepath.Ext(file)
	name, isLog := logName(file)
	switch {
	case len(fit) == 1:
		return testFiles{fit[0], []string{file}}.read(plans)
	case len(fit) > 1:
		err = fmt.Errorf("log of one of %s (name it after its plan, as NAME-log%s)", strings.Join(fit, ", "), ending)
	case isLog:
		err = fmt.Errorf("log without a plan (%s.toml is missing)", filepath.Base(name))
	case codes != nil:
		err = fmt.Errorf("log without a plan (no plan here has the code %s)", strings.Join(codes, ", "))
	case strings.EqualFold(ending, ".csv"):
		r.noLog = true
	default:
		err = errNoLog
	}
	r.skip(file, err)
	return r
}

// lineNumber begins an error about a file behind the file's name.
var lineNumber = regexp.MustCompile(`^(\d+): `)

// reason is the first line of an error about a file, without the file's name.
func reason(file string, err error) string {
	text, _, _ := strings.Cut(err.Error(), "\n")
	return lineNumber.ReplaceAllString(strings.TrimLeft(strings.TrimPrefix(text, file), ": "), "line $1: ")
}

// reader is a test whose logs are read.
type reader struct {
	book.Source
	fingerprint string
}

// openPlan is the reader of a plan's file, nil without one.
func openPlan(file string) (*reader, error) {
	if file == "" {
		return nil, nil
	}
	text, err := readFile(file, largestPlan)
	if err != nil {
		return nil, err
	}
	return newReader(file, text)
}

func newReader(file string, text []byte) (*reader, error) {
	p, _, err := plan.Read(file, text)
	if err != nil {
		return nil, err
	}
	t, err := blend.New(p)
	if err != nil {
		return nil, err
	}
	return &reader{book.Source{Plan: file, Test: t, Scheme: mark.New(p, len(t.Cells))}, identity.Fingerprint(p)}, nil
}

// errNoLog is why a workbook that is named for no plan is not taken.
var errNoLog = errors.New("not a log, or its plan is missing (no plan beside it can be read, and it carries none)")

// readLog reads a log by its own plan's reader, nil where that is gone, or by one of
// the plan that it carries where that is another, with a note that says so.
func readLog(own *reader, file string) (by *reader, log book.LogFile, err error) {
	sheets, err := readSheets(file, mostStudioTiles)
	if err != nil {
		return nil, log, err
	}
	carried := record.Carry(sheets)
	switch {
	case own != nil && (carried.Fingerprint == "" || carried.Fingerprint == own.fingerprint || carried.PlanText == ""):
		by = own
	case carried.PlanText == "":
		return nil, log, errNoLog
	default:
		if by, err = newReader(file, []byte(carried.PlanText)); err != nil {
			return nil, log, err
		}
		by.Notes = []string{file + ": no plan beside it can be read; the plan in the log counts"}
		if own != nil {
			by.Plan = own.Plan
			by.Notes = []string{file + ": the plan was changed since this log was made; the plan in the log counts"}
		}
	}
	log, err = by.read(file, sheets, carried)
	return by, log, err
}

// read reads a log by the amounts that it carries. The test's marks have the letters
// that its tiles are painted with.
func (r *reader) read(file string, sheets []record.Sheet, carried record.Carried) (book.LogFile, error) {
	t, err := carried.AsMeasured(r.Test)
	if err != nil {
		return book.LogFile{}, err
	}
	log, err := record.Read(t, sheets)
	if err != nil {
		return book.LogFile{}, err
	}
	r.Scheme = mark.Keep(r.Test.Plan, len(r.Test.Cells), log.Letters)
	return book.LogFile{File: file, Log: log, Test: t}, nil
}

// mostStudioTiles is how many rows a log can have in a studio.
const mostStudioTiles = 20_000
