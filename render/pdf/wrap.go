package pdf

import (
	"strings"
	"unicode"
)

// clean makes a text fit to draw on one line: line breaks, tabs and other
// white space become spaces, and what the fonts cannot show becomes a visible
// replacement, of which strange tells, as of what is written from right to left.
// Nothing disappears.
func (d *doc) clean(text string) string {
	if plain(text) {
		return text
	}
	lost, backward := false, false
	cleaned := strings.Map(func(r rune) rune {
		switch {
		case r >= '\u00A0' && r <= '\u00FF': // the fonts have all of them
			return r
		case r == '\u202F': // a space that holds words together
		case unicode.IsSpace(r) || r == '\u2028' || r == '\u2029':
			return ' '
		}
		if d.lacks(r) {
			lost = true
			return replacement
		}
		backward = backward || fromRight(r)
		return r
	}, text)
	if lost {
		d.missing.add(text)
	}
	if backward {
		d.backward.add(text)
	}
	return cleaned
}

// plain says whether a text is printable ASCII alone, as most are.
func plain(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}

// wrap breaks a text into lines no wider than widthMM, at its spaces and line
// breaks. A word wider than the line is broken after a mark such as / or - in
// it, or else between two letters with a hyphen, or else anywhere; a character
// wider than the line gets a line of its own. A number stays with its unit, as
// "25 %", where the line has room for both. There is at least one line.
func (d *doc) wrap(text string, f font, widthMM float64) []string {
	pieces := d.wrapPieces(text, f, widthMM)
	lines := make([]string, len(pieces))
	for i, p := range pieces {
		lines[i] = p.text
		if p.hyphen {
			lines[i] += "-"
		}
	}
	return lines
}

// A piece is one line before its hyphen, if it ends in one that the text has not.
type piece struct {
	text   string
	hyphen bool
	parted bool // it ends between words that are held together
}

func (d *doc) wrapPieces(text string, f font, widthMM float64) []piece {
	limit := widthMM + 1e-9 // what was measured to fit must fit
	width := func(s string) float64 { return d.faces.widthMM(s, f) }
	if plain(text) && text == strings.Trim(text, " ") && !strings.Contains(text, "  ") && width(text) <= limit {
		return []piece{{text: text}} // most texts: the cells of tables
	}
	var lines []piece
	for paragraph := range strings.SplitSeq(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		line, lineWidth := "", 0.0
		for _, word := range held(d.clean(paragraph)) {
			w := width(word)
			if line != "" {
				if joined := lineWidth + width(" ") + w; joined <= limit {
					line, lineWidth = line+" "+word, joined
					continue
				}
				lines = append(lines, piece{text: line})
			}
			for w > limit {
				if first, rest, ok := part(word, func(s string) bool { return width(s) <= limit }); ok {
					lines = append(lines, piece{text: first, parted: true})
					word, w = rest, width(rest)
					continue
				}
				head, hyphen := d.breakWord(word, f, limit)
				if head == len(word) {
					break
				}
				// Of words that are held together the space may be where it breaks.
				rest := strings.TrimLeft(word[head:], " ")
				lines = append(lines, piece{text: strings.TrimRight(word[:head], " "), hyphen: hyphen})
				w -= width(word[:len(word)-len(rest)]) // not measured anew, which would be quadratic
				word = rest
			}
			line, lineWidth = word, w
		}
		lines = append(lines, piece{text: line})
	}
	return lines
}

// units are the words that stay with a number before them.
var units = map[string]bool{"%": true, "g": true, "kg": true, "mL": true, "L": true, "mm": true, "mol": true, "pt": true}

// held are the words of a text, a number and its unit, and a ± and its number,
// as one.
func held(text string) []string {
	words := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' })
	kept := words[:0]
	for _, word := range words {
		if n := len(kept); n > 0 {
			last := kept[n-1]
			end := last[len(last)-1]
			if end >= '0' && end <= '9' && units[strings.TrimRight(word, ".,;:)")] || strings.HasSuffix(last, "±") {
				kept[n-1] = last + " " + word
				continue
			}
		}
		kept = append(kept, word)
	}
	return kept
}

// part parts words that are held together at the last space before which they
// fit, if there is one.
func part(word string, fits func(string) bool) (first, rest string, ok bool) {
	for i, r := range word {
		if r != ' ' && r != '\u00A0' {
			continue
		}
		if !fits(word[:i]) {
			break
		}
		first, rest, ok = word[:i], word[i+len(string(r)):], true
	}
	return first, rest, ok && first != "" && rest != ""
}

// breakWord says how many bytes of a word too wide for the line go on it, and
// whether a hyphen follows them.
func (d *doc) breakWord(word string, f font, limit float64) (head int, hyphen bool) {
	hyphenWidth := d.faces.widthMM("-", f)
	width := 0.0
	var before rune
	mark, letters, some := 0, 0, 0
	for i, r := range word {
		if i > 0 {
			some = i
			if strings.ContainsRune("-/_,;:.+)]&=\u2013\u2014\u2192", before) && !unicode.IsDigit(r) {
				mark = i
			}
			if unicode.IsLetter(before) && unicode.IsLetter(r) && width+hyphenWidth <= limit {
				letters = i
			}
		}
		next := width + d.faces.widthMM(string(r), f)
		if next > limit {
			break
		}
		width, before = next, r
		if i+len(string(r)) == len(word) {
			return len(word), false
		}
	}
	switch {
	case mark > 0 && 2*mark >= letters: // unless it leaves the line half empty
		return mark, false
	case letters > 0:
		return letters, true
	case some > 0:
		return some, false
	}
	return len(word[:firstRune(word)]), false
}

// firstRune is the length in bytes of a word's first character.
func firstRune(word string) int {
	for i := range word {
		if i > 0 {
			return i
		}
	}
	return len(word)
}
