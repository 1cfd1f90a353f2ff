package logbook

import (
	"pourboard/blend/mark"
	"pourboard/blend/record"
)

// tileRow is a row of the sheet of tiles: a tile, and what is entered of it.
type tileRow struct {
	tile    mark.Tile
	reading *record.Reading // nil where nothing is
}

// rows are the tiles in their order, each once for each firing that is entered
// of it and once where none is.
func (b *logBook) rows() []tileRow {
	entered := map[int][]*record.Reading{}
	for i := range b.filled.Readings {
		r := &b.filled.Readings[i]
		entered[r.Index] = append(entered[r.Index], r)
	}
	var all []tileRow
	for _, t := range b.marks.Tiles {
		for _, r := range entered[t.Index] {
			all = append(all, tileRow{t.Tile, r})
		}
		if entered[t.Index] == nil {
			all = append(all, tileRow{tile: t.Tile})
		}
	}
	return all
}
