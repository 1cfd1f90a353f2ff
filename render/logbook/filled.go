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

// entered is what a reading has in a column to fill in.
func entered(c *record.Column, r *record.Reading) record.Cell {
	text := ""
	switch c.Field {
	case record.RatingField:
		return figure(record.Amount{Value: float64(r.Rating), Given: r.Rating > 0})
	case record.NumberField:
		return figure(r.Numbers[c.Index])
	case record.CoatField:
		text = r.Coats[c.Index].Text
	case record.SurfaceField:
		text = r.Surface
	case record.DefectsField:
		text = r.Defects
	case record.ColourField:
		text = r.Colour
	case record.BlockField:
		text = r.Block
	case record.PhotoField:
		text = r.Photo
	case record.NotesField:
		text = r.Notes
	case record.FiringField:
		text = r.Firing
	}
	if text == "" {
		return record.Cell{}
	}
	return record.Cell{Kind: record.Text, Text: text}
}

func figure(a record.Amount) record.Cell {
	if !a.Given {
		return record.Cell{}
	}
	return record.Cell{Kind: record.Number, Number: a.Value}
}

// value is what is entered beside a label of a firing.
func value(entries []record.Entry, label string) string {
	for _, e := range entries {
		if e.Label == label {
			return e.Value
		}
	}
	return ""
}
