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
	return readSheets(name, r, size, limitsFor(tiles))
}

// Letters reads what the marks of a log have behind their numbers, and nothing
// else of it. The error is that of Read.
func Letters(name string, r io.ReaderAt, size int64, tiles int) (mark.Letters, error) {
	limits := limitsFor(tiles)
	limits.Sheet = record.SheetPlan
	sheets, err := readSheets(name, r, size, limits)
	return record.CarriedLetters(sheets), err
}

// limitsFor are the limits of a log of so many tiles.
func limitsFor(tiles int) xlsx.Limits {
	limits := xlsx.LimitsFor(tiles, mostLogColumns)
	limits.Rows += mostPlanLines
	return limits
}

func readSheets(name string, r io.ReaderAt, size int64, limits xlsx.Limits) ([]record.Sheet, error) {
	tables, err := xlsx.Read(name, r, size, limits)
	if err != nil {
		return nil, err
	}
	sheets := make([]record.Sheet, len(tables))
	for i, table := range tables {
		sheets[i] = record.Sheet{Name: table.Name, Rows: make([]record.Row, len(table.Rows))}
		for k, row := range table.Rows {
			cells := make([]record.Cell, len(row.Cells))
			for c, v := range row.Cells {
				cells[c] = logCell(v)
			}
			sheets[i].Rows[k] = record.Row{Number: row.Number, Cells: cells, Width: row.Width, Hidden: row.Hidden, Struck: row.Struck}
		}
	}
	return sheets, nil
}

// logCell is a value as package record takes it.
func logCell(v xlsx.Value) record.Cell {
	if v.Unsaved {
		return record.Cell{Kind: record.Stale}
	}
	kind := record.Blank
	switch v.Kind {
	case xlsx.KindText:
		kind = record.Text
	case xlsx.KindNumber:
		return record.Cell{Kind: record.Number, Text: v.Text, Number: v.Number}
	case xlsx.KindBool:
		kind = record.Truth
	case xlsx.KindMoment:
		kind = record.Date
	case xlsx.KindFault:
		kind = record.Fault
	}
	return record.Cell{Kind: kind, Text: v.Text}
}
