package results

import (
	"slices"

	"pourboard/blend/record"
)

// Observations is what a log says in words of the tiles of one cell.
type Observations struct {
	Cell    int // by number
	Tiles   int // with anything filled in
	Surface []record.Count
	Defects []record.Count // "none" too, where it was entered
	Colour  []record.Count
	Coats   [][]record.Count // by coat: what was entered of it, of coats that hold words
	Notes   []string         // with the mark of the tile before each
}

// Observations gathers what was written of a cell's tiles of one body, or of all bodies.
func (r *Results) Observations(cell, body int) Observations {
	s := Observations{Cell: cell, Coats: make([][]record.Count, r.Test.Plan.Tiles.Coats)}
	for i := range r.Log.Readings {
		it := &r.Log.Readings[i]
		if it.Cell != cell || body != AllBodies && r.fired(it) != body {
			continue
		}
		s.Tiles++
		s.Surface = record.CountWords(s.Surface, record.Words(it.Surface))
		s.Defects = record.CountWords(s.Defects, record.Words(it.Defects))
		if it.Colour != "" {
			s.Colour = record.CountWords(s.Colour, []string{it.Colour})
		}
		for k, coat := range it.Coats {
			if coat.Text != "" && !slices.ContainsFunc(r.Coats(), func(m *Measure) bool { return m.Index == k }) {
				s.Coats[k] = record.CountWords(s.Coats[k], []string{coat.Text})
			}
		}
		if it.Notes != "" {
			s.Notes = append(s.Notes, it.Mark+": "+it.Notes)
		}
	}
	for _, counts := range append([][]record.Count{s.Surface, s.Defects, s.Colour}, s.Coats...) {
		slices.SortStableFunc(counts, func(a, b record.Count) int { return b.Tiles - a.Tiles })
	}
	return s
}

// Empty reports whether nothing was written in words.
func (s Observations) Empty() bool {
	return len(s.Surface)+len(s.Defects)+len(s.Colour)+len(s.Notes) == 0 &&
		!slices.ContainsFunc(s.Coats, func(counts []record.Count) bool { return len(counts) > 0 })
}

// Faults are the defects but for words that say that there are none.
func (s Observations) Faults() []record.Count {
	var faults []record.Count
	for _, c := range s.Defects {
		if !record.IsNone(c.Word) {
			faults = append(faults, c)
		}
	}
	return faults
}
