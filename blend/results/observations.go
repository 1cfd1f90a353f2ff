package results

import (
	"slices"
	"strings"

	"pourboard/blend/quantity"
)

// Count is a word with how many tiles it was written of.
type Count struct {
	Word  string
	Tiles int
}

// Observations is what a log says in words of the tiles of one cell.
type Observations struct {
	Cell    int // by number
	Tiles   int // with anything filled in
	Surface []Count
	Defects []Count // "none" too, where it was entered
	Colour  []Count
	Coats   [][]Count // by coat: what was entered of it, of coats that hold words
	Notes   []string  // with the mark of the tile before each
}

// Observations gathers what was written of a cell's tiles of one body, or of all bodies.
func (r *Results) Observations(cell, body int) Observations {
	s := Observations{Cell: cell, Coats: make([][]Count, r.Test.Plan.Tiles.Coats)}
	for i := range r.Log.Readings {
		it := &r.Log.Readings[i]
		if it.Cell != cell || body != AllBodies && r.fired(it) != body {
			continue
		}
		s.Tiles++
		s.Surface = count(s.Surface, words(it.Surface))
		s.Defects = count(s.Defects, words(it.Defects))
		s.Colour = count(s.Colour, []string{it.Colour})
		for k, coat := range it.Coats {
			if !slices.ContainsFunc(r.Coats(), func(m *Measure) bool { return m.Index == k }) {
				s.Coats[k] = count(s.Coats[k], []string{coat.Text})
			}
		}
		if it.Notes != "" {
			s.Notes = append(s.Notes, it.Mark+": "+it.Notes)
		}
	}
	for _, counts := range append([][]Count{s.Surface, s.Defects, s.Colour}, s.Coats...) {
		slices.SortStableFunc(counts, func(a, b Count) int { return b.Tiles - a.Tiles })
	}
	return s
}

// words are the words of a cell, which may hold several.
func words(text string) (all []string) {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(",;/+&\n", r) }) {
		all = append(all, strings.TrimSpace(word))
	}
	return all
}

// count adds the words of one tile to counts, each once.
func count(counts []Count, words []string) []Count {
	var seen []string
	for _, word := range words {
		folded := quantity.Fold(word)
		if folded == "" || slices.Contains(seen, folded) {
			continue
		}
		seen = append(seen, folded)
		if i := slices.IndexFunc(counts, func(c Count) bool { return quantity.Fold(c.Word) == folded }); i >= 0 {
			counts[i].Tiles++
		} else {
			counts = append(counts, Count{word, 1})
		}
	}
	return counts
}

// Empty reports whether nothing was written in words.
func (s Observations) Empty() bool {
	return len(s.Surface)+len(s.Defects)+len(s.Colour)+len(s.Notes) == 0 &&
		!slices.ContainsFunc(s.Coats, func(counts []Count) bool { return len(counts) > 0 })
}

// Faults returns the defects, without words such as "none".
func (s Observations) Faults() []Count {
	return slices.DeleteFunc(slices.Clone(s.Defects), func(c Count) bool {
		return slices.Contains([]string{"none", "no", "nothing", "-", "–", "0"}, quantity.Fold(c.Word))
	})
}
