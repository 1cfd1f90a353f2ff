package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/plan"
	"pourboard/layout/crate"
	"pourboard/render/workbook"
)

// readLog reads a filled-in log, as a workbook or as CSV. Reading never writes
// to it.
func (j *job) readLog(file string) (*crate.Log, error) {
	sheets, err := j.logSheets(file)
	if err != nil {
		return nil, err
	}
	log, err := crate.Read(j.test, j.places, sheets, plan.Fingerprint(j.plan), plan.Outline(j.plan))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	if changed := j.measuredOtherwise(sheets); changed != "" {
		log.Notes = append(log.Notes, "the log "+changed)
	} else if crate.CarriedAmounts(sheets) == nil {
		log.Notes = append(log.Notes, j.logBeside()...) // CSV carries no amounts, but the log that make wrote does
	}
	return log, nil
}

// logBeside says of the log that make wrote beside the plan, if there is one,
// that its cups were measured otherwise than is worked out now.
func (j *job) logBeside() []string {
	file := filepath.Join(filepath.Dir(j.file), j.name+"-log.xlsx")
	if _, err := os.Stat(file); err != nil {
		return nil
	}
	sheets, err := j.logSheets(file)
	if err != nil {
		return nil // nothing was asked of that log
	}
	if changed := j.measuredOtherwise(sheets); changed != "" {
		return []string{file + " " + changed}
	}
	return nil
}

// which is the recipes that are wanted: as asked, or as measured, with a note
// when the log says that they were measured otherwise.
func (j *job) which(u *ui, asked bool) blend.Which {
	if asked {
		return blend.Asked
	}
	for _, note := range j.logBeside() {
		u.note("%s: note: %s", j.file, note)
	}
	return blend.Measured
}

// measuredOtherwise says in what the amounts that a log was made for differ
// from those that are worked out now, and what would bring them back.
func (j *job) measuredOtherwise(sheets []crate.Sheet) string {
	was, is := crate.CarriedAmounts(sheets), plan.Amounts(j.plan)
	changed := plan.AmountsChanged(was, is)
	if len(changed) == 0 {
		return ""
	}
	right := "write that into the plan"
	if flags := flagsFor(was, is); flags != "" {
		right = "add " + flags + ", or " + right
	}
	return fmt.Sprintf("was made for cups that were measured otherwise: %s; for what is really in them %s", strings.Join(changed, ", "), right)
}

// flagsFor are the flags that bring amounts back that were; of cups that follow
// from a batch the batch says enough.
func flagsFor(was, is []string) string {
	isBatch := func(line string) bool { return strings.HasPrefix(line, "--have ") }
	var flags []string
	for _, line := range was {
		switch {
		case slices.Contains(is, line):
		case isBatch(line):
			flags = append(flags, line)
		case strings.HasPrefix(line, "[measure] pour = "):
			flags = append(flags, "--pour "+strings.TrimPrefix(line, "[measure] pour = "))
		case slices.ContainsFunc(was, isBatch):
		case strings.HasPrefix(line, "[cup] dry = "):
			flags = append(flags, "--cup "+strings.TrimPrefix(line, "[cup] dry = "))
		case strings.HasPrefix(line, "[cup] volume = "):
			flags = append(flags, "--cup "+strings.TrimPrefix(line, "[cup] volume = "))
		}
	}
	return strings.Join(flags, " ")
}

func (j *job) logSheets(file string) ([]crate.Sheet, error) {
	f, info, err := openFile(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return workbook.ReadLog(file, f, info.Size(), len(j.places.Tiles))
}

// filledIn is the tiles, by index, that a log has something filled in for.
func (j *job) filledIn(file string) (map[int]bool, error) {
	log, err := j.readLog(file)
	if err != nil {
		return nil, err
	}
	tiles := map[int]bool{}
	for _, r := range log.Readings {
		tiles[r.Index] = true
	}
	return tiles, nil
}
