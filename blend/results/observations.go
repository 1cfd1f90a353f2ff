package results

import (
	"slices"

	"pourboard/blend/record"
)

// Said is what a log says in words of the tiles of one cell.
type Said struct {
	Cell    int // by number
	Tiles   int // with anything filled in
	Surface []record.Count
	Defects []record.Count // without those that say that there are none
	Colour  []record.Count
	Notes   []string // with the mark of the tile before each
}

// Said gathers what was written of a cell's tiles of one body, or of all bodies.
func (r *Results) Said(cell, body int) Said {
	s := Said{Cell: cell}
	for i := range r.Log.Readings {
		it := &r.Log.Readings[i]
		if it.Cell != cell || body != AllBodies && it.Body != body {
			continue
		}
		s.Tiles++
		s.Surface = record.CountWords(s.Surface, record.Words(it.Surface))
		s.Defects = record.CountWords(s.Defects, slices.DeleteFunc(record.Words(it.Defects), record.IsNone))
		if it.Colour != "" {
			s.Colour = record.CountWords(s.Colour, []string{it.Colour})
		}
		if it.Notes != "" {
			s.Notes = append(s.Notes, it.Mark+": "+it.Notes)
		}
	}
	for _, counts := range [][]record.Count{s.Surface, s.Defects, s.Colour} {
		slices.SortStableFunc(counts, func(a, b record.Count) int { return b.Tiles - a.Tiles })
	}
	return s
}

// Empty reports whether nothing was written in words.
func (s Said) Empty() bool {
	return len(s.Surface)+len(s.Defects)+len(s.Colour)+len(s.Notes) == 0
}
