package page

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// distinct are texts in the order in which they were met, each once.
type distinct []string

func (l *distinct) add(text string) {
	if !slices.Contains(*l, text) {
		*l = append(*l, text)
	}
}

// Cut lists the texts that were shortened, whole, in the order in which they
// were met: they have to be printed in full somewhere.
func (d *Doc) Cut() []string { return d.cut }

// clean makes a text fit to draw on one line: white space becomes spaces, and
// what the fonts cannot show becomes a visible replacement, of which Unprinted
// tells. Nothing disappears.
func (d *Doc) clean(text string) string {
	if isASCII(text) {
		return text
	}
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\u00A0' || r == '\u202F':
			return '\u00A0'
		case unicode.IsSpace(r):
			return ' '
		case d.lacks(r):
			d.missing.add(string(r))
			return replacement
		case fromRight(r):
			d.backward.add(string(r))
		}
		return r
	}, text)
}

// isASCII reports whether a text is printable ASCII alone, as most are.
func isASCII(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}

// fromRight reports whether a letter is of a script written from right to left.
func fromRight(r rune) bool {
	return r >= 0x590 && unicode.In(r, unicode.Hebrew, unicode.Arabic, unicode.Syriac, unicode.Thaana, unicode.Nko,
		unicode.Samaritan, unicode.Mandaic)
}

// Unprinted says what could not be printed as it is: characters that the fonts
// lack, and writing from right to left.
func (d *Doc) Unprinted() []string {
	var notes []string
	const fix = " (use Latin, Greek or Cyrillic letters)"
	if d.missing != nil {
		notes = append(notes, fmt.Sprintf("the font lacks %q; %c is printed instead%s",
			strings.Join(d.missing, ""), replacement, fix))
	}
	if d.backward != nil {
		notes = append(notes, fmt.Sprintf("%q runs from right to left, and prints in the wrong order%s",
			strings.Join(d.backward, ""), fix))
	}
	return notes
}

// shortened is as much of a text as goes in w mm with … behind it.
func (d *Doc) shortened(text string, s Style, w float64) string {
	runes := []rune(text)
	for len(runes) > 1 && d.width(string(runes)+"…", s) > w {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ") + "…"
}

// Lines breaks a text into lines no wider than w mm, at its spaces and line
// breaks; a number stays with its unit where there is room for both. A word wider
// than the line is broken after a mark such as / or - in it, else between two
// letters with a hyphen, else anywhere. There is at least one line.
func (d *Doc) Lines(text string, s Style, w float64) []string {
	limit, space := w+1e-6, d.width(" ", s)
	var lines []string
	for paragraph := range strings.SplitSeq(text, "\n") {
		line, used := "", 0.0
		for _, word := range held(d.clean(paragraph)) {
			wide := d.width(word, s)
			if line != "" {
				if joined := used + space + wide; joined <= limit {
					line, used = line+" "+word, joined
					continue
				}
				lines = append(lines, line)
			}
			for wide > limit {
				head, hyphen := d.breakWord(word, s, limit)
				if head >= len(word) {
					break
				}
				lines = append(lines, strings.TrimRight(word[:head], " \u00A0")+hyphen)
				word = strings.TrimLeft(word[head:], " \u00A0")
				wide = d.width(word, s)
			}
			line, used = word, wide
		}
		lines = append(lines, line)
	}
	return lines
}

// broken reports whether a word of the text is wider than the line.
func (d *Doc) broken(text string, s Style, w float64) bool {
	return slices.ContainsFunc(strings.Fields(text), func(word string) bool { return d.Width(word, s) > w+1e-6 })
}

// units are the words that stay with a number before them.
var units = map[string]bool{
	"%": true, "g": true, "kg": true, "mL": true, "L": true, "mm": true, "mol": true, "pt": true, "s": true,
}

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

// breakWord says how many bytes of a word too wide for the line go on it, one
// character at least, and the hyphen that follows them.
func (d *Doc) breakWord(word string, s Style, limit float64) (head int, hyphen string) {
	fit := 0
	width := 0.0
	for i, r := range word {
		if width += d.glyph(r, s.Bold).advance * s.Pt; width > limit && i > 0 {
			break
		}
		fit = i + utf8.RuneLen(r)
	}
	if space := strings.LastIndexAny(word[:fit], " \u00A0"); space > 0 {
		return space, ""
	}
	mark := 0
	for i, r := range word[:fit] {
		before, _ := utf8.DecodeLastRuneInString(word[:i])
		switch {
		case strings.ContainsRune("-/_,;:.+)]&=–—→", before) && !unicode.IsDigit(r):
			mark = i
		case unicode.IsLetter(before) && unicode.IsLetter(r) && d.width(word[:i]+"-", s) <= limit:
			head, hyphen = i, "-"
		}
	}
	if 2*mark >= fit { // otherwise it leaves the line half empty
		return mark, ""
	}
	return cmp.Or(head, fit), hyphen
}
