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
	"pourboard/render/logbook"
)

// studio is the plans and logs beneath a folder.
type studio struct {
	tests    []testFiles // by path
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
	chapters  []*book.Chapter
	skipped   []book.Skip
	code      string // fingerprint of the plan, "" where it could not be read
	homeless  string // a log that names no plan beside it and carries none
	planCodes []string
}

// read reads every test, on all processors, into chapters in the order of the
// files. What cannot be read is skipped with its reason.
func (s *studio) read() {
	plans := map[string][]string{} // by fingerprint
	var homeless []reading
	for tests := range slices.Chunk(s.tests, 8*runtime.NumCPU()) { // so many are in memory at once
		results := make([]reading, len(tests))
		var wait sync.WaitGroup
		for i, t := range tests {
			wait.Go(func() { results[i] = t.read() })
		}
		wait.Wait()
		for i, r := range results {
			s.take(r)
			if r.code != "" {
				plans[r.code] = append(plans[r.code], tests[i].plan)
			}
			if r.homeless != "" {
				homeless = append(homeless, r)
			}
		}
	}
	for _, r := range homeless {
		if plan := s.home(r, plans); plan != "" {
			s.take(testFiles{plan, []string{r.homeless}}.read())
		}
	}
}

func (s *studio) take(r reading) {
	s.chapters, s.skipped = append(s.chapters, r.chapters...), append(s.skipped, r.skipped...)
}

// home is the plan of a log that was found beside none, by the plan code of its
// rows. Where there is none, or several, the log is skipped.
func (s *studio) home(log reading, plans map[string][]string) string {
	var fit []string
	if len(log.planCodes) == 1 {
		fit = plans[log.planCodes[0]]
	}
	ending := filepath.Ext(log.homeless)
	name, isLog := logName(log.homeless)
	switch {
	case len(fit) == 1:
		return fit[0]
	case len(fit) > 1:
		s.skip(log.homeless, "log of one of "+strings.Join(fit, ", ")+" (name it after its plan, as NAME-log"+ending+")")
	case isLog:
		s.skip(log.homeless, "log without a plan ("+filepath.Base(name)+".toml is missing)")
	case log.planCodes != nil:
		s.skip(log.homeless, "log without a plan (no plan here has the code "+strings.Join(log.planCodes, ", ")+")")
	case strings.EqualFold(ending, ".csv"):
		s.others["*.csv"]++
	default:
		s.skip(log.homeless, errNoLog.Error())
	}
	return ""
}

// read reads a plan and its logs. A log whose plan was changed since, or is
// gone, is read by the text of the plan that it carries.
func (f testFiles) read() (r reading) {
	skip := func(file string, err error) {
		if err != nil {
			r.skipped = append(r.skipped, book.Skip{File: file, Reason: reason(file, err)})
		}
	}
	var own *reader
	if f.plan != "" {
		text, err := readFile(f.plan, largestPlan)
		if err == nil {
			own, err = newReader(f.plan, text)
		}
		skip(f.plan, err)
	}
	var others []book.Source
	for _, file := range f.logs {
		sheets, err := readSheets(file)
		if err != nil {
			skip(file, err)
			continue
		}
		carried := record.Carry(sheets)
		by, note, err := readerFor(own, file, carried)
		if err == errNoLog && f.plan == "" {
			r.homeless, r.planCodes = file, record.PlanCodes(sheets)
			continue
		}
		var log book.LogFile
		if err == nil {
			log, err = by.read(file, sheets, carried)
		}
		switch {
		case err != nil:
			skip(file, err)
		case by == own:
			own.Logs = append(own.Logs, log)
		default:
			by.Logs, by.Notes = []book.LogFile{log}, []string{note}
			others = append(others, by.Source)
		}
	}
	if own != nil {
		r.code = own.fingerprint
		if len(own.Logs) > 0 || others == nil {
			others = append(others, own.Source)
		}
	}
	for _, source := range others {
		r.chapters = append(r.chapters, book.NewChapter(source))
	}
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

// readerFor is what a log is read by: its own plan's reader, nil where that is gone, or
// one of the plan that it carries where that is another, with a note that says so.
func readerFor(own *reader, file string, log record.Carried) (by *reader, note string, err error) {
	switch {
	case own != nil && (log.Fingerprint == "" || log.Fingerprint == own.fingerprint || log.PlanText == ""):
		return own, "", nil
	case log.PlanText == "":
		return nil, "", errNoLog
	}
	if by, err = newReader(file, []byte(log.PlanText)); err != nil {
		return nil, "", err
	}
	if own == nil {
		return by, file + ": no plan beside it can be read; the plan in the log counts", nil
	}
	by.Plan = own.Plan
	return by, file + ": the plan was changed since this log was made; the plan in the log counts", nil
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

func readSheets(file string) ([]record.Sheet, error) {
	f, info, err := openFile(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return logbook.Read(file, f, info.Size(), mostStudioTiles)
}
