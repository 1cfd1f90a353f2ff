package mark

import "strings"

// What it costs to take a character read for one of the mark: a likely slip of eye
// or hand costs less.
const (
	impostor = 0.25 // a character that no mark has, for the one that it looks like
	alike    = 0.5  // a character for another that looks like it
	other    = 1.0  // a character for any other
	lost     = 0.8  // a character of the mark that was not read
	extra    = 0.9  // a character that was read and is not in the mark
	swapped  = 0.7  // two neighbours that changed places
	swallow  = 0.01 // each character that a '*' stands for
	unlike   = 1000 // what no reading overcomes
)

// cost is the least that it costs to take the reading for the mark: an edit
// distance with Damerau's four slips, where '?' in the reading stands for one
// character and '*' for any number. Without slips only characters that look alike
// are taken for each other. The mark has at most maxPattern characters.
func cost(reading, mark string, slips bool) float64 {
	slip := func(c float64) float64 {
		if slips {
			return c
		}
		return unlike
	}
	var rows [3][maxPattern + 1]float64
	before, above, row := &rows[0], &rows[1], &rows[2]
	n := min(len(mark), maxPattern)
	for j := 1; j <= n; j++ {
		above[j] = above[j-1] + slip(lost)
	}
	for i := range len(reading) {
		c := reading[i]
		row[0] = above[0] + slip(extra)
		if c == '*' {
			row[0] = above[0]
		}
		for j := 1; j <= n; j++ {
			if c == '*' {
				row[j] = min(above[j], row[j-1]+swallow)
				continue
			}
			same := taken(c, mark[j-1])
			if same == other {
				same = slip(other)
			}
			row[j] = min(above[j]+slip(extra), row[j-1]+slip(lost), above[j-1]+same)
			if i > 0 && j > 1 && c == mark[j-2] && reading[i-1] == mark[j-1] && c != mark[j-1] {
				row[j] = min(row[j], before[j-2]+slip(swapped))
			}
		}
		before, above, row = above, row, before
	}
	return above[n]
}

// taken is the cost of taking a character that was read for one of the mark.
func taken(read, painted byte) float64 {
	switch {
	case read == painted || read == '?':
		return 0
	case !looksLike(read, painted):
		return other
	case strings.IndexByte(impostors, read) >= 0:
		return impostor
	}
	return alike
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
