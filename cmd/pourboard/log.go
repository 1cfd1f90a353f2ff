package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/record"
	"pourboard/render/logbook"
	"pourboard/render/wording"
)

// readLog reads a filled-in log, as a workbook or as CSV. Reading never writes to
// it. t is the test with its cups as that log measured them, or, for CSV, the log
// that make wrote beside the plan; notes say where that is not as planned.
func (j *job) readLog(file string) (log *record.Log, t *blend.Test, notes []string, err error) {
	sheets, err := j.logSheets(file)
	if err != nil {
		return nil, nil, nil, err
	}
	carried := record.Carry(sheets)
	var beside *record.Log
	var unread []string
	if filepath.Clean(file) != j.logFile() {
		beside, unread = j.logBeside()
	}
	t = j.test
	if !carried.Amounts.Empty() {
		t, notes = j.asMeasured("the log", carried)
	} else if beside != nil {
		changed := j.changedSince(beside.Origin.Carried)
		if changed != "" && carried.Fingerprint == "" && !hasPercentages(sheets) {
			return nil, nil, nil, fmt.Errorf("%s: its marks may mean other cups: %s (give the log with its columns of percentages, or the plan as it was)", file, changed)
		}
		t, notes = j.measuredBeside(beside)
	}
	if log, err = record.Read(t, sheets); err != nil {
		return nil, nil, nil, fmt.Errorf("%s: %w", file, err)
	}
	if !carried.Amounts.Empty() {
		notes = append(wording.DoneTexts(t, log), notes...)
	} else {
		notes = append(unread, notes...)
	}
	return log, doneBeside(t, beside), notes, nil
}

// hasPercentages reports whether some column of a log is one of percentages, by
// which a row is held against the plan.
func hasPercentages(sheets []record.Sheet) bool {
	for _, s := range sheets {
		for _, row := range s.Rows {
			for _, cell := range row.Cells {
				if cell.Kind == record.Text && strings.HasSuffix(strings.TrimSpace(cell.Text), " %") {
					return true
				}
			}
		}
	}
	return false
}

// logFile is where make writes the log, beside the plan.
func (j *job) logFile() string { return filepath.Join(filepath.Dir(j.file), j.name+"-log.xlsx") }

// logBeside is the log that make wrote beside the plan; nil where there is none, or
// none that can be read, of which the note tells.
func (j *job) logBeside() (log *record.Log, unread []string) {
	if _, err := os.Stat(j.logFile()); err != nil {
		return nil, nil
	}
	sheets, err := j.logSheets(j.logFile())
	if err != nil {
		return nil, []string{err.Error() + "; amounts and marks are the plan's own"}
	}
	log, err = record.Read(j.test, sheets)
	if err != nil { // what it carries counts all the same
		return &record.Log{Origin: record.Origin{Carried: record.Carry(sheets)}}, nil
	}
	return log, nil
}

// measuredBeside is the test with its cups as the log beside the plan measured
// them; notes say so, and in what the plan was changed since.
func (j *job) measuredBeside(beside *record.Log) (t *blend.Test, notes []string) {
	if beside == nil {
		return j.test, nil
	}
	t, notes = j.asMeasured(j.logFile(), beside.Origin.Carried)
	if changed := j.changedSince(beside.Origin.Carried); changed != "" {
		notes = append([]string{changed}, notes...)
	}
	return t, notes
}

// doneBeside is a test with its cups as the log beside the plan says that they
// were really poured and dosed; what the plan itself says is counted already.
func doneBeside(t *blend.Test, beside *record.Log) *blend.Test {
	if beside == nil || beside.Origin.Other {
		return t
	}
	return t.AsDone(beside.Done())
}

// changedSince says in what the plan differs from that of the log beside it, as far
// as which mark is which mixture goes; empty where it does not.
func (j *job) changedSince(log record.Carried) string {
	if differ := j.differences(log); differ != nil {
		return "the plan has changed since " + j.logFile() + " was made: " + strings.Join(differ, "; ")
	}
	return ""
}

// differences are those of changedSince, a matter each.
func (j *job) differences(log record.Carried) []string {
	if log.Fingerprint == "" || log.Fingerprint == identity.Fingerprint(j.plan) {
		return nil
	}
	return identity.Differences(log.Outline, identity.OutlineOf(j.plan))
}

// asMeasured is the test with its cups as the amounts of a log measured them,
// unless this run's flags give amounts. A log that was kept may be of sheets that
// were printed before, so notes say which amounts count and which do not.
func (j *job) asMeasured(name string, log record.Carried) (t *blend.Test, notes []string) {
	logs, runs := j.otherAmounts(log)
	if j.flagged {
		if logs != "" || runs != "" {
			notes = []string{fmt.Sprintf("your options count: %s; %s has %s", orNone(runs), name, orNone(logs))}
		}
		return j.test, notes
	}
	t, err := j.byAmounts(log)
	switch {
	case err != nil:
		return j.test, []string{fmt.Sprintf("%s has %s, which this plan cannot take; the plan's amounts count: %s", name, logs, err)}
	case logs != "" || runs != "":
		notes = []string{fmt.Sprintf("the amounts in %s count: %s; the plan has %s", name, orNone(logs), orNone(runs))}
	case t != j.test:
		notes = []string{name + " is of the first version; its cups hold what that version measured"}
	}
	return t, notes
}

// byAmounts is record.Carried.AsMeasured, one test for all logs of the same
// amounts: their cups are the same cups.
func (j *job) byAmounts(log record.Carried) (*blend.Test, error) {
	key := fmt.Sprint(log.First, log.Amounts.Lines())
	if j.measured[key] != nil {
		return j.measured[key], nil
	}
	t, err := log.AsMeasured(j.test)
	if err == nil {
		j.measured[key] = t
	}
	return t, err
}

func orNone(text string) string {
	if text == "" {
		return "none"
	}
	return text
}

// otherAmounts are the amounts of a log and of this run that the other has
// otherwise, in words.
func (j *job) otherAmounts(log record.Carried) (logs, runs string) {
	was, is := identity.Common(log.Amounts, identity.AmountsOf(j.plan))
	if identity.Same(was, is) {
		return "", ""
	}
	inLog, inRun := wording.Amounts(was), wording.Amounts(is)
	return without(inLog, inRun), without(inRun, inLog)
}

// without are the lines that are not among others.
func without(lines, others []string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(lines), func(line string) bool { return slices.Contains(others, line) }), ", ")
}

// keptLetters is what marks have behind their numbers by the log beside a plan's
// file, or in another folder: tiles that were painted keep their marks. A log that
// cannot be read is reported.
func keptLetters(file, folder string, tiles int) (lines []string, unread []wording.Line) {
	name := strings.TrimSuffix(filepath.Base(file), filepath.Ext(file)) + "-log.xlsx"
	for _, dir := range []string{folder, filepath.Dir(file)} {
		log := filepath.Join(dir, name)
		if info, err := os.Stat(log); dir == "" || err != nil || !info.Mode().IsRegular() {
			continue
		}
		f, info, err := openFile(log)
		if err == nil {
			defer f.Close()
			letters, err := logbook.Letters(log, f, info.Size(), tiles)
			if err == nil && letters.Check != "" {
				return letters.Lines(), nil
			}
		}
		unread = []wording.Line{{Place: log, What: "the letters of the marks are missing",
			Why: "new letters were chosen; they may differ from those on painted tiles", Fix: "put an earlier copy of the log in its place"}}
	}
	return nil, unread
}

// view is the recipes to use: as asked, or as measured into the cups, as the log
// beside the plan says. Notes say so, and what the amounts rest on.
func (j *job) view(u *ui, asked bool) blend.View {
	for _, n := range blend.NotesOf[blend.NoGravity](j.test) {
		u.warn(j.file, []wording.Line{wording.LineOf(n)})
	}
	if asked {
		return blend.Asked
	}
	j.measure(u)
	return blend.Measured
}

// measure takes the cups as the log beside the plan says that they were measured.
func (j *job) measure(u *ui) {
	beside, unread := j.logBeside()
	t, notes := j.measuredBeside(beside)
	for _, note := range append(unread, notes...) {
		u.note("%s: note: %s", j.file, note)
	}
	j.test = doneBeside(t, beside)
}

func (j *job) logSheets(file string) ([]record.Sheet, error) {
	f, info, err := openFile(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return logbook.Read(file, f, info.Size(), len(j.places.Tiles))
}

// tellLog prints what of a log could not be read, and its notes.
func (u *ui) tellLog(file string, log *record.Log) {
	for _, c := range record.Alike(log.Complaints) {
		u.note("%s: %s", file, c)
	}
	for _, n := range log.Notes {
		u.note("%s: note: %s", file, n)
	}
}
