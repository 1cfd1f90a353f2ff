package logbook

import (
	"io"

	"pourboard/layout/crate"
	"pourboard/render/xlsx"
)

// mostLogColumns is more columns than a log comes with. People add some, which
// limitsFor leaves room for.
const mostLogColumns = 60

// Read reads a log that a person has filled in, a workbook or CSV, within
// the limits of a plan with so many tiles. Name, r, size and the error are
// those of read.
func Read(name string, r io.ReaderAt, size int64, tiles int) ([]crate.Sheet, error) {
	tables, err := xlsx.Read(name, r, size, xlsx.LimitsFor(tiles, mostLogColumns))
	if err != nil {
		return nil, err
	}
	sheets := make([]crate.Sheet, len(tables))
	for i, table := range tables {
		sheets[i] = crate.Sheet{Name: table.Name, Rows: make([]crate.Row, len(table.Rows))}
		for k, row := range table.Rows {
			cells := make([]crate.Cell, len(row.Cells))
			for c, v := range row.Cells {
				cells[c] = crateCell(v)
			}
			sheets[i].Rows[k] = crate.Row{Number: row.Number, Cells: cells}
		}
	}
	return sheets, nil
}

// crateCell is a value as package crate takes it.
func crateCell(v xlsx.Value) crate.Cell {
	if v.Unsaved {
		return crate.Cell{Kind: crate.Stale}
	}
	kind := crate.Blank
	switch v.Kind {
	case xlsx.KindText:
		kind = crate.Text
	case xlsx.KindNumber:
		return crate.Cell{Kind: crate.Number, Text: v.Text, Number: v.Number}
	case xlsx.KindBool:
		kind = crate.Truth
	case xlsx.KindMoment:
		kind = crate.Date
	case xlsx.KindFault:
		kind = crate.Fault
	}
	return crate.Cell{Kind: kind, Text: v.Text}
}
