package main

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/record"
	"pourboard/render/logbook"
	"pourboard/render/wording"
)

// logOf is where make writes the log of a plan's file, beside it.
func logOf(plan string) string {
	return strings.TrimSuffix(filepath.Clean(plan), filepath.Ext(plan)) + "-log.xlsx"
}

func (j *job) logFile() string { return logOf(j.file) }

// readSheets reads the sheets of a log of at most so many tiles.
func readSheets(file string, tiles int) ([]record.Sheet, error) {
	f, info, err := openFile(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return logbook.Read(file, f, info.Size(), tiles)
}

// logSheets reads the sheets of a log of this plan.
func (j *job) logSheets(file string) ([]record.Sheet, error) {
	return readSheets(file, len(j.places.Tiles))
}

// beside is the log that make wrote beside the plan, as far as it counts for the
// cups.
type beside struct {
	test    *blend.Test // by its amounts; the plan's own where there is no log
	log     *record.Log // what it says of cups; nil where it cannot be read or is of another plan
	carried record.Carried
	changed string // in what the plan was changed since, as far as marks mean mixtures
	notes   []string
}

// logBeside reads the log beside the plan. Its amounts count even where its rows
// cannot be read.
func (j *job) logBeside() beside {
	file := j.logFile()
	if !exists(file) {
		return beside{test: j.test}
	}
	sheets, err := j.logSheets(file)
	if err != nil {
		return beside{test: j.test, notes: []string{err.Error() + "; amounts and marks are the plan's own"}}
	}
	b := beside{carried: record.Carry(sheets)}
	if differ := j.differences(b.carried); differ != nil {
		b.changed = "the plan has changed since " + file + " was made: " + strings.Join(differ, "; ")
		b.notes = []string{b.changed}
	}
	t, notes := j.asMeasured(file, b.carried)
	b.test, b.notes = t, append(b.notes, notes...)
	if log, err := record.Read(j.test, sheets); err == nil && !log.Origin.Other {
		b.log = log
	}
	return b
}

// readLog reads a filled-in log, as a workbook or as CSV. Reading never writes to
// it. t is the test with its cups as that log measured them, or, for CSV, the log
// beside the plan; notes say where that is not as planned.
func (j *job) readLog(file string) (log *record.Log, t *blend.Test, notes []string, err error) {
	sheets, err := j.logSheets(file)
	if err != nil {
		return nil, nil, nil, err
	}
	carried := record.Carry(sheets)
	if carried.Amounts == nil {
		b := j.logBeside()
		if b.changed != "" && carried.Fingerprint == "" && !hasPercentages(sheets) {
			const fix = "give the log with its columns of percentages, or the plan as it was"
			return nil, nil, nil, fmt.Errorf("%s: its marks may mean other cups: %s (%s)", file, b.changed, fix)
		}
		if log, err = record.Read(b.test, sheets); err == nil {
			notes = b.notes
			if log.Cups == nil && b.log != nil && b.log.Cups != nil {
				log.Cups = b.log.Cups
				notes = append(notes, "what was done otherwise is read from "+j.logFile())
			}
			return log, b.test, append(wording.DoneTexts(b.test, log), notes...), nil
		}
	} else {
		t, notes = j.asMeasured(file, carried)
		if log, err = record.Read(t, sheets); err == nil {
			return log, t, append(wording.DoneTexts(t, log), notes...), nil
		}
	}
	return nil, nil, nil, fmt.Errorf("%s: %w", file, err)
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

// measure takes the cups as a log measured and made them, and says where that is
// not as planned: the log named, which is returned, or the one beside the plan.
func (j *job) measure(u *ui, named string) (log *record.Log, err error) {
	b := beside{}
	if named == "" {
		b = j.logBeside()
	} else if log, b.test, b.notes, err = j.readLog(named); err != nil {
		return nil, err
	} else {
		b.log = log
	}
	u.warn(j.file, b.notes...)
	j.test = b.test
	if b.log != nil {
		j.test = b.test.AsDone(b.log.Done())
	}
	return log, nil
}

// differences are in what the plan differs from that of a log, as far as which mark
// is which mixture goes, a matter each.
func (j *job) differences(log record.Carried) []string {
	if log.Fingerprint == "" || log.Fingerprint == identity.Fingerprint(j.plan) {
		return nil
	}
	return identity.Differences(log.Outline, identity.OutlineOf(j.plan))
}

// asMeasured is the test with its cups as the amounts of a log measured them,
// unless this run's flags give amounts. A log that was kept may be of sheets that
// were printed before, so notes say which amounts count and which do not. Logs of
// the same amounts have one test: their cups are the same cups.
func (j *job) asMeasured(file string, log record.Carried) (t *blend.Test, notes []string) {
	logs, runs := j.otherAmounts(log)
	if j.flagged {
		if logs != "" {
			notes = []string{fmt.Sprintf("your options count: %s; %s has %s", runs, file, logs)}
		}
		return j.test, notes
	}
	key := fmt.Sprint(log.First, log.Amounts.Lines())
	if t = j.measured[key]; t == nil {
		var err error
		if t, err = log.AsMeasured(j.test); err != nil {
			note := fmt.Sprintf("%s has %s, which this plan cannot take; the plan's amounts count: %s", file, logs, err)
			return j.test, []string{note}
		}
		j.measured[key] = t
	}
	switch {
	case logs != "":
		notes = []string{fmt.Sprintf("the amounts in %s count: %s; the plan has %s", file, logs, runs)}
	case t != j.test:
		notes = []string{file + " is of the first version; its cups hold what that version measured"}
	}
	return t, notes
}

// otherAmounts are the amounts of a log and of this run that the other has
// otherwise, in words; both are empty where all are the same.
func (j *job) otherAmounts(log record.Carried) (logs, runs string) {
	was, is := identity.Common(log.Amounts, identity.AmountsOf(j.plan))
	if identity.Same(was, is) {
		return "", ""
	}
	inLog, inRun := wording.Amounts(was), wording.Amounts(is)
	without := func(lines, others []string) string {
		rest := slices.DeleteFunc(slices.Clone(lines), func(line string) bool { return slices.Contains(others, line) })
		return strings.Join(rest, ", ")
	}
	if logs, runs = without(inLog, inRun), without(inRun, inLog); logs+runs == "" {
		return "", ""
	}
	return cmp.Or(logs, "none"), cmp.Or(runs, "none")
}

// keptLetters returns the lines on the letters of marks in the log beside a plan's file,
// or in another folder: tiles that were painted keep their marks. Notes in unread name a
// log that cannot be read.
func keptLetters(file, folder string, tiles int) (lines []string, unread []string) {
	for _, dir := range []string{folder, filepath.Dir(file)} {
		log := filepath.Join(dir, filepath.Base(logOf(file)))
		if dir == "" || !isFile(log) {
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
		unread = []string{log + ": the letters of the marks are missing; new letters were chosen; " +
			"they may differ from those on painted tiles (put an earlier copy of the log in its place)"}
	}
	return nil, unread
}

// keep says that make keeps the log, and in what it is not of these sheets.
func (u *ui) keep(j *job, file string) {
	u.printf("  %s kept; it may be filled in\n", file)
	sheets, err := j.logSheets(file)
	if err != nil {
		u.warn(j.file, err.Error())
		return
	}
	carried := record.Carry(sheets)
	other := j.differences(carried)
	if logs, runs := j.otherAmounts(carried); logs != "" {
		other = append(other, fmt.Sprintf("it has %s, the sheets %s", logs, runs))
	}
	if other != nil {
		const fix = "rename it or add --log-as NAME, then run make again"
		u.warn(j.file, fmt.Sprintf("%s does not match these sheets: %s (%s)", file, strings.Join(other, "; "), fix))
	}
}
