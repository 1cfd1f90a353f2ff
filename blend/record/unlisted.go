package record

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend/quantity"
	"pourboard/blend/spell"
)

// Count is a word with how many tiles it was written of.
type Count struct {
	Word  string
	Tiles int
}

// Words parts what is in a cell of words, of which there can be several.
func Words(text string) []string {
	var words []string
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(",;/+&\n", r) }) {
		if word = strings.TrimSpace(word); word != "" {
			words = append(words, word)
		}
	}
	return words
}

// IsNone reports whether a word in the column of defects says that there are
// none.
func IsNone(word string) bool {
	return slices.Contains([]string{"none", "no", "nothing", "-", "–", "0"}, fold(word))
}

// CountWords adds the words of one tile to counts, each once.
func CountWords(counts []Count, words []string) []Count {
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

// mostUnlisted is how many words of one column are reported.
const mostUnlisted = 8

// unlistedWords says which words are none of those that a column offers. They
// are kept as typed: the list is a help, and not all that can be seen.
func (l *Log) unlistedWords() []string {
	var notes []string
	for _, c := range l.Columns {
		if c.Choices == nil {
			continue
		}
		var unlisted []Count
		for i := range l.Readings {
			text := l.Readings[i].Surface
			if c.Field == DefectsField {
				text = l.Readings[i].Defects
			}
			unlisted = CountWords(unlisted, slices.DeleteFunc(Words(text), func(word string) bool {
				return c.Field == DefectsField && IsNone(word) ||
					slices.ContainsFunc(c.Choices, func(choice string) bool { return fold(choice) == fold(word) })
			}))
		}
		for i, s := range unlisted {
			if i == mostUnlisted {
				notes = append(notes, fmt.Sprintf("%s: and %d more words not in its list", c.Head, len(unlisted)-mostUnlisted))
				break
			}
			right := "the list has " + strings.Join(c.Choices, ", ")
			if near := spell.Nearest(s.Word, c.Choices); near != "" {
				right = "did you mean " + near + "?"
			}
			notes = append(notes, fmt.Sprintf("%s: %q, on %s, is not in its list; kept as typed (%s)", c.Head, short(s.Word), quantity.Plural(s.Tiles, "tile", "tiles"), right))
		}
	}
	return notes
}
