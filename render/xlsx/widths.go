package xlsx

import "strings"

// HeadWidth is the width in digits that a column needs for its head to be
// broken at blanks only. A word beyond all measure is broken all the same.
func HeadWidth(head string) float64 {
	const margins, most = 1, 30
	widest := 0.0
	for _, word := range strings.Fields(head) {
		width := 0.0
		for _, r := range word {
			width += boldWidth(r)
		}
		widest = max(widest, width)
	}
	return min(widest+margins, most)
}

// boldWidth is about how many digits wide a character is in the bold font of heads
// (widths of Helvetica Bold, which Arial has too, to a digit's 0.556 em).
func boldWidth(r rune) float64 {
	switch {
	case strings.ContainsRune("fijlrtI.,:;'()/-", r):
		return 0.7
	case strings.ContainsRune("mMW%@", r):
		return 1.65
	case strings.ContainsRune("wOQGCDHNRUABKV&", r):
		return 1.4
	case r > 0x2E7F: // East Asian characters are square
		return 1.8
	case 'a' <= r && r <= 'z' || '0' <= r && r <= '9':
		return 1.1
	}
	return 1.25
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
