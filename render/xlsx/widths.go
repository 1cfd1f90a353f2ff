package xlsx

import (
	"strings"
	"unicode/utf8"
)

// HeadWidth is the width in digits that a column needs for its bold head to be broken
// at blanks only. A word beyond all measure is broken all the same.
func HeadWidth(head string) float64 {
	const perLetter, margins, most = 1.2, 1, 30
	longest := 0
	for _, word := range strings.Fields(head) {
		longest = max(longest, utf8.RuneCountInString(word))
	}
	return min(perLetter*float64(longest)+margins, most)
}

// Heads writes the heads of a table in a row that is high enough for them, with room
// above and below in points; the row is repeated on every page, and stays in sight with
// some of the columns. Columns are as wide as is given, or as their head needs; how
// wide they are together is returned, in digits.
func (s *Sheet) Heads(names []string, width func(column int) float64, room float64, fixed int) (digits float64) {
	lines := 1
	for i, head := range names {
		w := max(width(i), HeadWidth(head))
		s.Width(i, i, w)
		digits, lines = digits+w, max(lines, LinesOf(head, w))
	}
	row := s.TallRow(float64(15*lines) + room)
	s.Page.HeadRows = [2]int{row, row}
	s.Freeze(fixed, row)
	for _, head := range names {
		s.Text(Head, head)
	}
	return digits
}

// LinesOf is about how many lines a bold text takes in a column of a width.
func LinesOf(text string, width float64) int {
	lines, room := 0, width/1.15
	for _, line := range strings.Split(text, "\n") {
		lines++
		used := 0.0
		for _, word := range strings.Fields(line) {
			n := float64(len([]rune(word)))
			if used > 0 && used+1+n > room {
				lines++
				used = 0
			}
			if used > 0 {
				used++
			}
			for used += n; used > room; used -= room {
				lines++
			}
		}
	}
	return lines
}

// LineHeight is the height in points of a row with a text in a column of a
// width. It is always written: not all programs find it themselves.
func LineHeight(text string, width float64) float64 {
	return float64(15*max(LinesOf(text, width), 1) + 1)
}
