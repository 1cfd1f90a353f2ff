package mark

import "strings"

// unlike is a penalty that no reading overcomes.
const unlike = 1000.0

// weights are what it costs to take a reading for a mark.
type weights struct {
	gap      float64 // a '?', which stands for one character
	impostor float64 // a character that no mark has, for the one that it looks like
	alike    float64 // a character for another that looks like it
	other    float64 // a character for any other
	lost     float64 // a character of the mark that was not read
	extra    float64 // a character that was read and is not in the mark
	swapped  float64 // two neighbours that changed places
	swallow  float64 // each character that a '*' stands for
}

// byGaps takes '?' and '*' for lost characters, and otherwise only characters that look
// alike for each other.
func byGaps() weights {
	return weights{impostor: 0.25, alike: 0.75, other: unlike, lost: unlike, extra: unlike, swapped: unlike, swallow: 0.01}
}

// bySlips looks for the likeliest slips of eye or hand.
func bySlips() weights {
	return weights{impostor: 0.25, alike: 0.5, other: 1, lost: 0.8, extra: 0.9, swapped: 0.7, swallow: 0.01}
}

// byCount counts slips, all alike.
func byCount() weights {
	return weights{gap: 1, impostor: 1, alike: 1, other: 1, lost: 1, extra: 1, swapped: 1, swallow: unlike}
}

// cost is the least that it costs to take the reading for the mark: an edit
// distance with these weights (Damerau's four slips), where '?' in the reading
// stands for one character and '*' for any number. The mark has at most 32 characters.
func (w weights) cost(reading, mark string) float64 {
	var rows [3][maxPattern + 1]float64
	before, above, row := &rows[0], &rows[1], &rows[2]
	n := min(len(mark), maxPattern)
	for j := 1; j <= n; j++ {
		above[j] = above[j-1] + w.lost
	}
	for i := 1; i <= len(reading); i++ {
		c := reading[i-1]
		if c == '*' {
			row[0] = above[0]
			for j := 1; j <= n; j++ {
				row[j] = min(above[j], row[j-1]+w.swallow)
			}
		} else {
			row[0] = above[0] + w.extra
			for j := 1; j <= n; j++ {
				best := min(above[j]+w.extra, row[j-1]+w.lost, above[j-1]+w.sign(c, mark[j-1]))
				if i > 1 && j > 1 && c == mark[j-2] && reading[i-2] == mark[j-1] && c != mark[j-1] {
					best = min(best, before[j-2]+w.swapped)
				}
				row[j] = best
			}
		}
		before, above, row = above, row, before
	}
	return above[n]
}

// sign is what it costs to take the character read for the one in the mark.
func (w weights) sign(read, mark byte) float64 {
	switch {
	case read == mark:
		return 0
	case read == '?':
		return w.gap
	case w.alike == w.other || !looksLike(read, mark):
		return w.other
	case strings.IndexByte(impostors, read) >= 0:
		return w.impostor
	}
	return w.alike
}

// impostors are the letters that no mark has after its prefix, because they
// read as another character.
const impostors = "OISZBGQV"

// lookAlikes are the characters that a painted character is taken for, also
// where a stroke has burnt away or the tile is held upside down. It is common
// practice, no source.
var lookAlikes = [...]string{
	'0': "DOQ", '1': "7IJLT", '2': "Z", '3': "8", '4': "9A", '5': "6S",
	'6': "589G", '7': "1LT", '8': "36B", '9': "46", 'A': "4R", 'B': "8",
	'C': "GLO", 'D': "0OP", 'E': "FL", 'F': "EP", 'G': "6C", 'H': "KMN",
	'I': "1JLT", 'J': "1IU", 'K': "HX", 'L': "17CEI", 'M': "HNW", 'N': "HM",
	'O': "0CDQ", 'P': "DFR", 'Q': "0O", 'R': "AP", 'S': "5", 'T': "17IY",
	'U': "JVW", 'V': "UWY", 'W': "MUV", 'X': "KY", 'Y': "TVX", 'Z': "2",
}

// looksLike reports whether two characters are taken for each other.
func looksLike(a, b byte) bool {
	return int(a) < len(lookAlikes) && strings.IndexByte(lookAlikes[a], b) >= 0
}
