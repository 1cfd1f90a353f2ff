package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"

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
	tests   []testFiles // by path
	skipped []book.Skip
	others  map[string]int // files of other kinds, by ending
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
	files := map[string]bool{}
	err := filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			s.skip(path, reasonOf(err))
			if e != nil && e.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		switch name := e.Name(); {
		case strings.HasPrefix(name, ".") && path != folder:
			if e.IsDir() {
				return fs.SkipDir
			}
		case e.Type()&fs.ModeSymlink != 0:
			if info, err := os.Stat(path); err != nil {
				s.skip(path, "link to a missing file")
			} else if info.IsDir() {
				s.skip(path, "link to a folder; not followed (name that folder itself)")
			} else {
				files[path] = info.Mode().IsRegular()
			}
		case e.Type().IsRegular():
			files[path] = true
		}
		return nil
	})
	if err != nil {
		return nil, notRead(folder, err)
	}
	s.pair(files)
	return s, nil
}

func (s *studio) skip(file, reason string) {
	s.skipped = append(s.skipped, book.Skip{File: file, Reason: reason})
}

// pair puts logs to the plans that they are named for. A table that is named for
// none may be a log all the same.
func (s *studio) pair(files map[string]bool) {
	paths := make([]string, 0, len(files))
	for path := range files {
		paths = append(paths, path)
	}
	slices.Sort(paths)
	at := map[string]int{} // by the plan's path without ending
	for _, path := range paths {
		if name, ok := strings.CutSuffix(path, ".toml"); ok {
			at[name] = len(s.tests)
			s.tests = append(s.tests, testFiles{plan: path})
		}
	}
	for _, path := range paths {
		ending := strings.ToLower(filepath.Ext(path))
		name, isLog := strings.CutSuffix(strings.TrimSuffix(path, filepath.Ext(path)), "-log")
		table := ending == ".xlsx" || ending == ".csv"
		switch i, planned := at[name]; {
		case ending == ".toml":
		case ending == ".pdf", strings.HasSuffix(path, "-pour.xlsx"), strings.HasSuffix(path, "-book.xlsx"): // made of plans
		case isLog && table && planned:
			s.tests[i].logs = append(s.tests[i].logs, path)
		case ending == ".csv", ending == ".xlsx":
			s.tests = append(s.tests, testFiles{logs: []string{path}})
		default:
			s.others[ending]++
		}
	}
}

// reading is a test with its log, as far as they could be read.
type reading struct {
	sources   []book.Source
	notes     []string
	skipped   []book.Skip
	plan      string // whose fingerprint is
	code      string // fingerprint of the plan
	homeless  string // a log that names no plan beside it and carries none
	planCodes []string
}

// read reads every test, on all processors, and hands it to each in the order
// of the files. What cannot be read is skipped with its reason.
func (s *studio) read(each func(source book.Source, notes []string)) {
	results := make([]chan reading, len(s.tests))
	for i := range results {
		results[i] = make(chan reading, 1)
	}
	ahead := make(chan struct{}, 4*runtime.NumCPU()) // so many tests in memory at once
	var next atomic.Int64
	for range runtime.NumCPU() {
		go func() {
			for {
				ahead <- struct{}{}
				i := int(next.Add(1)) - 1
				if i >= len(s.tests) {
					<-ahead
					return
				}
				results[i] <- s.tests[i].read()
			}
		}()
	}
	plans := map[string][]string{} // by fingerprint
	var homeless []reading
	take := func(r reading) {
		s.skipped = append(s.skipped, r.skipped...)
		for _, source := range r.sources {
			each(source, r.notes)
		}
	}
	for _, done := range results {
		r := <-done
		<-ahead
		take(r)
		if r.plan != "" {
			plans[r.code] = append(plans[r.code], r.plan)
		}
		if r.homeless != "" {
			homeless = append(homeless, r)
		}
	}
	for _, r := range homeless {
		if plan := s.home(r, plans); plan != "" {
			take(testFiles{plan, []string{r.homeless}}.read())
		}
	}
}

// home is the plan of a log that was found beside none, by the plan code of its
// rows. Where there is none, or several, the log is skipped.
func (s *studio) home(log reading, plans map[string][]string) string {
	var fit []string
	if len(log.planCodes) == 1 {
		fit = plans[log.planCodes[0]]
	}
	isCSV := strings.EqualFold(filepath.Ext(log.homeless), ".csv")
	name, isLog := strings.CutSuffix(strings.TrimSuffix(log.homeless, filepath.Ext(log.homeless)), "-log")
	switch {
	case len(fit) == 1:
		return fit[0]
	case len(fit) > 1:
		s.skip(log.homeless, "log of one of "+strings.Join(fit, ", ")+" (name it after its plan, as NAME-log"+filepath.Ext(log.homeless)+")")
	case isLog:
		s.skip(log.homeless, "log without a plan ("+filepath.Base(name)+".toml is missing)")
	case log.planCodes != nil:
		s.skip(log.homeless, "log without a plan (no plan here has the code "+strings.Join(log.planCodes, ", ")+")")
	case isCSV:
		s.others[".csv"]++
	default:
		s.skip(log.homeless, errNoLog.Error())
	}
	return ""
}

// read reads a plan and its logs. A log whose plan was changed since, or is
// gone, is read by the text of the plan that it carries.
func (f testFiles) read() (r reading) {
	skip := func(file string, err error) {
		r.skipped = append(r.skipped, book.Skip{File: file, Reason: reason(file, err)})
	}
	var own *reader
	if f.plan != "" {
		text, err := readFile(f.plan, largestPlan)
		if err == nil {
			own, err = newReader(f.plan, text)
		}
		if err != nil {
			skip(f.plan, err)
		}
	}
	var source book.Source
	if own != nil {
		source = book.Source{Plan: f.plan, Test: own.test, Scheme: own.scheme}
		r.plan, r.code = f.plan, own.fingerprint
	}
	for _, file := range f.logs {
		sheets, err := readSheets(file)
		if err != nil {
			skip(file, err)
			continue
		}
		carried := record.Carry(sheets)
		by, note, err := own.readerFor(file, carried)
		if err == errNoLog && f.plan == "" {
			r.homeless, r.planCodes = file, record.PlanCodes(sheets)
			continue
		}
		if err != nil {
			skip(file, err)
			continue
		}
		log, err := by.read(file, sheets, carried)
		if err != nil {
			skip(file, err)
			continue
		}
		if by != own {
			r.notes = append(r.notes, note)
			r.sources = append(r.sources, book.Source{Plan: by.file, Test: by.test, Scheme: by.scheme, Logs: []book.LogFile{log}})
			continue
		}
		source.Scheme = own.scheme
		source.Logs = append(source.Logs, log)
	}
	if own != nil && (len(source.Logs) > 0 || len(r.sources) == 0) {
		r.sources = append(r.sources, source)
	}
	return r
}

// reason is the first line of an error about a file, without the file's name.
func reason(file string, err error) string {
	text, _, _ := strings.Cut(err.Error(), "\n")
	text, named := strings.CutPrefix(text, file)
	text = strings.TrimSpace(text)
	if !named {
		return text
	}
	text = strings.TrimLeft(text, ": ")
	if line, fault, ok := strings.Cut(text, ": "); ok {
		if _, err := strconv.Atoi(line); err == nil {
			return "line " + line + ": " + fault
		}
	}
	return text
}

// reader reads the logs of one test.
type reader struct {
	file        string
	test        *blend.Test
	scheme      mark.Scheme
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
	return &reader{file, t, mark.New(p, len(t.Cells)), identity.Fingerprint(p)}, nil
}

// errNoLog is why a workbook that is named for no plan is not taken.
var errNoLog = errors.New("not a log, or its plan is missing (no plan beside it can be read, and it carries none)")

// readerFor is what a log is read by: its own plan, or the one that it carries
// where that is another or the plan is gone.
func (r *reader) readerFor(file string, log record.Carried) (*reader, string, error) {
	if r != nil && (log.Fingerprint == "" || log.Fingerprint == r.fingerprint) {
		r.keepLetters(log)
		return r, "", nil
	}
	if log.PlanText == "" {
		if r != nil {
			return r, "", nil
		}
		return nil, "", errNoLog
	}
	carried, err := newReader(file, []byte(log.PlanText))
	if err != nil {
		return nil, "", err
	}
	carried.keepLetters(log)
	if r == nil {
		return carried, file + ": no plan beside it can be read; the plan in the log counts", nil
	}
	carried.file = r.file
	return carried, file + ": the plan was changed since this log was made; the plan in the log counts", nil
}

// keepLetters marks the tiles as they were painted by a log.
func (r *reader) keepLetters(log record.Carried) {
	if log.Letters.Check != "" {
		r.test.Plan.Letters = log.Letters.Lines()
		r.scheme = mark.New(r.test.Plan, len(r.test.Cells))
	}
}

// read reads a log by the amounts that it carries. CSV carries no letters, so that its marks say whether the
// tiles were painted by those of the first version.
func (r *reader) read(file string, sheets []record.Sheet, carried record.Carried) (book.LogFile, error) {
	t, err := carried.AsMeasured(r.test)
	if err != nil {
		return book.LogFile{}, err
	}
	log, err := record.Read(t, sheets)
	if err != nil {
		return book.LogFile{}, err
	}
	painted := func(e record.Reading) bool { return e.Mark != r.scheme.Tile(e.Index).Mark }
	if slices.ContainsFunc(log.Readings, painted) {
		p := r.test.Plan
		r.scheme = mark.Keep(p, len(r.test.Cells), mark.Earlier(p.Tiles.Bodies, p.Tiles.Repeats))
	}
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
