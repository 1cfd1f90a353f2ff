package logbook

import (
	"io"

	"pourboard/blend/mark"
	"pourboard/blend/record"
	"pourboard/render/xlsx"
)

// mostLogColumns is more columns than a log comes with. People add some, which
// limitsFor leaves room for.
const mostLogColumns = 60

// mostPlanLines is how many lines of a plan a log carries.
const mostPlanLines = 10_000

// Read reads a log that a person has filled in, a workbook or CSV, within
// the limits of a plan with so many tiles. Name, r, size and the error are
// those of read.
func Read(name string, r io.ReaderAt, size int64, tiles int) ([]record.Sheet, error) {
	return xlsx.Read(name, r, size, limitsFor(tiles))
}

// Letters reads what the marks of a log have behind their numbers, and nothing
// else of it. The error is that of Read.
func Letters(name string, r io.ReaderAt, size int64, tiles int) (mark.Letters, error) {
	limits := limitsFor(tiles)
	limits.Sheet = record.SheetPlan
	sheets, err := xlsx.Read(name, r, size, limits)
	return record.Carry(sheets).Letters, err
}

// limitsFor are the limits of a log of so many tiles.
func limitsFor(tiles int) xlsx.Limits {
	limits := xlsx.LimitsFor(tiles, mostLogColumns)
	limits.Rows += mostPlanLines
	return limits
}
