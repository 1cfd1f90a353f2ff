package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/record"
	"pourboard/blend/results"
	"pourboard/render/logbook"
	"pourboard/render/wording"
)

// readLog reads a filled-in log, as a workbook or as CSV. Reading never writes
// to it. amounts are notes on a log whose amounts are not those of this run.
func (j *job) readLog(u *ui, file string) (log *record.Log, amounts []string, err error) {
	sheets, err := j.logSheets(file)
	if err != nil {
		return nil, nil, err
	}
	log, err = record.Read(j.test, j.places.Scheme, sheets, identity.Fingerprint(j.plan), identity.OutlineOf(j.plan).Lines())
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", file, err)
	}
	if record.CarriedAmounts(sheets) == nil { // CSV carries no amounts, but the log that make wrote does
		if log.Origin.Fingerprint == "" && !hasPercentages(sheets) {
			if changed := j.changedBeside(); changed != "" {
				return nil, nil, fmt.Errorf("%s: its marks may mean other cups: %s (give the log with its columns of percentages, or the plan as it was)", file, changed)
			}
		}
		return log, j.logBeside(u), nil
	}
	amounts = wording.DoneTexts(j.test, log)
	if parts := j.otherAmounts(u, "the log", sheets); parts != nil {
		amounts = append(amounts, strings.Join(parts, "; "))
	}
	return log, amounts, nil
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

// logBeside says of the log that make wrote beside the plan, if there is one,
// that the plan was changed since, or that its amounts are not those of this run.
func (j *job) logBeside(u *ui) []string {
	file := j.logFile()
	if _, err := os.Stat(file); err != nil {
		return nil
	}
	sheets, err := j.logSheets(file)
	if err != nil {
		return nil // nothing was asked of that log
	}
	var notes []string
	if changed := j.changedBeside(); changed != "" {
		notes = append(notes, changed)
	}
	if parts := j.otherAmounts(u, file, sheets); parts != nil {
		notes = append(notes, strings.Join(parts, "; "))
	}
	return notes
}

// changedBeside says in what the plan differs from that of the log that make wrote
// beside it; empty where it does not, or where there is no such log.
func (j *job) changedBeside() string {
	file := filepath.Join(filepath.Dir(j.file), j.name+"-log.xlsx")
	if _, err := os.Stat(file); err != nil {
		return ""
	}
	sheets, err := j.logSheets(file)
	if err != nil {
		return ""
	}
	if differ := j.changedSince(sheets); differ != nil {
		return "the plan has changed since " + file + " was made: " + strings.Join(differ, "; ")
	}
	return ""
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

// changedSince says in what the plan differs from that of a log, as far as which
// mark is which mixture goes.
func (j *job) changedSince(sheets []record.Sheet) []string {
	fingerprint, outline := record.Carried(sheets)
	if fingerprint == "" || fingerprint == identity.Fingerprint(j.plan) {
		return nil
	}
	return identity.Differences(identity.ReadOutline(outline), identity.OutlineOf(j.plan))
}

// asDone takes the cups as the log that make wrote beside the plan says that they
// were really poured and dosed; what the plan itself says is counted already.
func (j *job) asDone() {
	sheets, err := j.logSheets(j.logFile())
	if err != nil {
		return // there is none, or nothing was asked of it
	}
	log, err := record.Read(j.test, j.places.Scheme, sheets, identity.Fingerprint(j.plan), identity.OutlineOf(j.plan).Lines())
	if err == nil && !log.Origin.Other {
		j.test = j.test.AsDone(results.Done(log))
	}
}

// view is the recipes to use: as asked, or as measured, with a note
// when the log says other amounts, and when they rest on what is assumed.
func (j *job) view(u *ui, asked bool) blend.View {
	if n, ok := j.test.Assumed(); ok {
		u.warn(j.file, []wording.Line{wording.LineOf(n)})
	}
	if asked {
		return blend.Asked
	}
	for _, note := range j.logBeside(u) {
		u.note("%s: note: %s", j.file, note)
	}
	j.asDone()
	return blend.Measured
}

// otherAmounts says which amounts a log says and which this run takes, where
// they differ, and how a run takes those of the log. Which of the two were
// really measured into the cups it cannot know: a log that was kept may be of
// an earlier packet.
func (j *job) otherAmounts(u *ui, log string, sheets []record.Sheet) []string {
	logs, runs := identity.Common(identity.ReadAmounts(record.CarriedAmounts(sheets)), identity.AmountsOf(j.plan))
	if identity.Same(logs, runs) {
		return nil
	}
	says, takes := logs.Lines(), runs.Lines()
	onlyLog, onlyRun := without(says, takes), without(takes, says)
	parts := []string{log + " has " + strings.Join(onlyLog, ", "), "this run has " + strings.Join(onlyRun, ", ")}
	switch {
	case onlyLog == nil:
		parts[0] = log + " lacks " + strings.Join(onlyRun, ", ")
		parts[1] = "this run has it"
	case onlyRun == nil:
		parts[1] = "this run lacks it"
	}
	if how := j.amountsOf(u, says, takes); how != "" {
		parts = append(parts, "for the log's amounts, "+how)
	}
	return parts
}

// amountsOf says which flags are to be given and left out, and what is to be
// written into the plan, for a run that takes the amounts says in place of
// takes. It is empty where the plan's file cannot be worked out with them.
func (j *job) amountsOf(u *ui, says, takes []string) string {
	bare, err := load(j.file, overrides{})
	if err != nil {
		return ""
	}
	var o overrides
	var give []string
	batches := slices.ContainsFunc(says, isBatch)
	for _, line := range without(says, identity.AmountsOf(bare.plan).Lines()) {
		key, text, _ := strings.Cut(line, " = ")
		switch size := strings.Trim(text, `"`); {
		case isBatch(line):
			batch, err := strconv.Unquote(strings.TrimPrefix(line, "--have "))
			if err != nil {
				return ""
			}
			o.have = append(o.have, batch)
			give = append(give, line)
		case key == "[measure] pour":
			o.pour = size
			give = append(give, "--pour "+text)
		case isCup(line) && !batches:
			o.cup = size
			give = append(give, "--cup-size "+text)
		}
	}
	with, err := load(j.file, o)
	if err != nil {
		return ""
	}
	var how []string
	if give != nil {
		how = append(how, "give "+strings.Join(give, " "))
	}
	leave := slices.DeleteFunc(without(takes, says), func(line string) bool { return !isBatch(line) })
	if u.flags.Changed("cup-size") && o.cup == "" {
		leave = append(leave, "--cup-size")
	}
	if u.flags.Changed("pour") && o.pour == "" {
		leave = append(leave, "--pour")
	}
	if len(leave) > 0 {
		how = append(how, "leave out "+strings.Join(leave, " "))
	}
	write := without(says, identity.AmountsOf(with.plan).Lines())
	if batches { // from which the size of the cup follows
		write = slices.DeleteFunc(write, isCup)
	}
	if len(write) > 0 {
		how = append(how, "write "+strings.Join(write, ", ")+" into the plan")
	}
	return strings.Join(how, ", ")
}

// isBatch reports whether a line of amounts is of --have.
func isBatch(line string) bool { return strings.HasPrefix(line, "--have ") }

// isCup reports whether a line of amounts is the size of the cups.
func isCup(line string) bool { return strings.HasPrefix(line, "[cup] ") }

// without are the lines that are not among others.
func without(lines, others []string) []string {
	var left []string
	for _, line := range lines {
		if !slices.Contains(others, line) {
			left = append(left, line)
		}
	}
	return left
}

func (j *job) logSheets(file string) ([]record.Sheet, error) {
	f, info, err := openFile(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return logbook.Read(file, f, info.Size(), len(j.places.Tiles))
}

// filledIn is the tiles, by index, that a log has something filled in for, and
// the notes on its amounts.
func (j *job) filledIn(u *ui, file string) (tiles map[int]bool, amounts []string, err error) {
	log, amounts, err := j.readLog(u, file)
	if err != nil {
		return nil, nil, err
	}
	u.tellLog(file, log)
	tiles = map[int]bool{}
	for _, r := range log.Readings {
		tiles[r.Index] = true
	}
	return tiles, amounts, nil
}

// tellLog prints what of a log could not be read, and its notes.
func (u *ui) tellLog(file string, log *record.Log) {
	for _, c := range log.Complaints {
		u.note("%s: %s", file, c)
	}
	for _, n := range log.Notes {
		u.note("%s: note: %s", file, n)
	}
}
