package main

import (
	"fmt"
	"os"

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
	return log, nil
}

func (j *job) logSheets(file string) ([]crate.Sheet, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, plainly(file, err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, plainly(file, err)
	}
	if info.IsDir() {
		return nil, fmt.Errorf("%s is a folder; a log is a file", file)
	}
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
