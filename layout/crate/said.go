package crate

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend/spell"
)

// Said is what a log says in words of the tiles of one cell.
type Said struct {
	Cell    int // by number
	Tiles   int // with anything filled in
	Surface []Count
	Defects []Count // without those that say that there are none
	Colour  []Count
	Notes   []string // with the mark of the tile before each
}

// Count is a word with how many tiles it was written of.
type Count struct {
	Word  string
	Tiles int
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
		s.Surface = counting(s.Surface, listed(it.Surface))
		s.Defects = counting(s.Defects, slices.DeleteFunc(listed(it.Defects), isNone))
		if it.Colour != "" {
			s.Colour = counting(s.Colour, []string{it.Colour})
		}
		if it.Notes != "" {
			s.Notes = append(s.Notes, it.Mark+": "+it.Notes)
		}
	}
	for _, counts := range [][]Count{s.Surface, s.Defects, s.Colour} {
		slices.SortStableFunc(counts, func(a, b Count) int { return b.Tiles - a.Tiles })
	}
	return s
}

// Empty reports whether nothing was written in words.
func (s Said) Empty() bool {
	return len(s.Surface)+len(s.Defects)+len(s.Colour)+len(s.Notes) == 0
}

// Text lists words with how many of the cell's tiles each was written of:
// "crawling 2 of 3, crazing 1 of 3"; of a single tile the words alone.
func (s Said) Text(counts []Count) string {
	var texts []string
	for _, c := range counts {
		if s.Tiles > 1 {
			texts = append(texts, fmt.Sprintf("%s %d of %d", c.Word, c.Tiles, s.Tiles))
		} else {
			texts = append(texts, c.Word)
		}
	}
	return strings.Join(texts, ", ")
}

// DefectsText says which cells of a place in a ranking have defects on the
// ranking's body: "crawling 2 of 3", "cup 2 crawling, cup 7 crazing 1 of 2" for
// several; nothing when none has.
func (r *Results) DefectsText(body int, k Rank) string {
	var texts []string
	for _, cell := range k.Cells {
		s := r.Said(cell, body)
		if len(s.Defects) == 0 {
			continue
		}
		text := s.Text(s.Defects)
		if len(k.Cells) > 1 {
			text = fmt.Sprintf("cup %d %s", cell, text)
		}
		texts = append(texts, text)
	}
	return strings.Join(texts, "; ")
}

// RankedText is RankText with what is wrong with the cells of the place, for a
// glaze that crawled is not best for being rated so.
func (r *Results) RankedText(m *Measure, body int, k Rank) string {
	text := m.RankText(k)
	if defects := r.DefectsText(body, k); defects != "" {
		text += ", but " + defects
	}
	return text
}

// listed parts what stands in a cell of words, of which there can be several.
func listed(text string) []string {
	var words []string
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(",;/+&\n", r) }) {
		if word = strings.TrimSpace(word); word != "" {
			words = append(words, word)
		}
	}
	return words
}

// isNone reports whether a word in the column of defects says that there are
// none.
func isNone(word string) bool {
	return slices.Contains([]string{"none", "no", "nothing", "-", "–", "0"}, fold(word))
}

// counting counts the words of one tile, each once.
func counting(counts []Count, words []string) []Count {
	var seen []string
	for _, word := range words {
		if slices.Contains(seen, fold(word)) {
			continue
		}
		seen = append(seen, fold(word))
		same := func(c Count) bool { return fold(c.Word) == fold(word) }
		if i := slices.IndexFunc(counts, same); i >= 0 {
			counts[i].Tiles++
		} else {
			counts = append(counts, Count{word, 1})
		}
	}
	return counts
}

// mostStrange is how many words of one column are told of.
const mostStrange = 8

// strangeWords says which words are none of those that a column offers. They
// are kept as typed: the list is a help, and not all that can be seen.
func (l *Log) strangeWords() []string {
	var notes []string
	for _, c := range l.Columns {
		if c.Choices == nil {
			continue
		}
		var strange []Count
		for i := range l.Readings {
			text := l.Readings[i].Surface
			if c.Field == DefectsField {
				text = l.Readings[i].Defects
			}
			strange = counting(strange, slices.DeleteFunc(listed(text), func(word string) bool {
				return c.Field == DefectsField && isNone(word) ||
					slices.ContainsFunc(c.Choices, func(choice string) bool { return fold(choice) == fold(word) })
			}))
		}
		for i, s := range strange {
			if i == mostStrange {
				notes = append(notes, fmt.Sprintf("%s: and %d more words that are not in its list", c.Head, len(strange)-mostStrange))
				break
			}
			right := "the list has " + strings.Join(c.Choices, ", ")
			if near := spell.Nearest(s.Word, c.Choices); near != "" {
				right = "did you mean " + near + "?"
			}
			notes = append(notes, fmt.Sprintf("%s: %q, of %s, is not in its list and is kept as typed (%s)", c.Head, short(s.Word), counted(s.Tiles, "tile", "tiles"), right))
		}
	}
	return notes
}
