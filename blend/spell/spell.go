// Package spell finds the name that a misspelt one was meant to be, for "did
// you mean".
package spell

import (
	"strings"
	"unicode"
)

// Nearest is the option that name was most likely meant to be, or "" when none
// is near.
func Nearest(name string, options []string) string {
	const longest = 80 // beyond it a slip of the finger is not what is wrong
	if len(name) > longest {
		return ""
	}
	plain := Bare(name)
	best, least := "", 1+min(3, len([]rune(plain))/3)
	for _, option := range options {
		if len(option) > longest {
			continue
		}
		// Of two that are equally near, the one that only goes on longer.
		d := Distance(plain, Bare(option), least+1)
		if d < least || d == least && best != "" && strings.HasPrefix(Bare(option), plain) {
			best, least = option, d
		}
	}
	return best
}

// Bare leaves out what people write now so, now so: case, accents, blanks and
// hyphens.
func Bare(s string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(s) {
		switch {
		case r == ' ' || r == '-' || r == '_' || unicode.Is(unicode.Mn, r): // Mn are accents on their own
		default:
			if plain, ok := Unaccented(r); ok {
				b.WriteString(plain)
			} else {
				b.WriteRune(r)
			}
		}
	}
	return b.String()
}

// Unaccented is the plain letters of a small letter with an accent; ok is false
// when it has none.
func Unaccented(r rune) (plain string, ok bool) {
	plain, ok = accents[r]
	return plain, ok
}

// accents maps the accented letters of Western European languages.
var accents = func() map[rune]string {
	m := map[rune]string{'ß': "ss", 'æ': "ae", 'œ': "oe", 'ø': "o", 'ł': "l", 'đ': "d"}
	for plain, accented := range map[string]string{
		"a": "àáâãäåāăą", "c": "çćč", "d": "ď", "e": "èéêëēėęě", "g": "ğ",
		"i": "ìíîïīį", "l": "ľĺ", "n": "ñńň", "o": "òóôõöōő", "r": "řŕ",
		"s": "śšşș", "t": "ťțţ", "u": "ùúûüūůű", "y": "ýÿ", "z": "źżž",
	} {
		for _, r := range accented {
			m[r] = plain
		}
	}
	return m
}()

// Distance is how many letters have to be changed, put in, left out or swapped
// with their neighbour to make b of a; enough or more is given as enough.
func Distance(a, b string, enough int) int {
	ra, rb := []rune(a), []rune(b)
	if d := len(ra) - len(rb); d >= enough || -d >= enough {
		return enough
	}
	before := make([]int, len(rb)+1)
	last := make([]int, len(rb)+1)
	row := make([]int, len(rb)+1)
	for j := range last {
		last[j] = j
	}
	for i := range ra {
		row[0] = i + 1
		for j := range rb {
			d := last[j]
			if ra[i] != rb[j] {
				d++
			}
			d = min(d, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && ra[i] == rb[j-1] && ra[i-1] == rb[j] {
				d = min(d, before[j-1]+1)
			}
			row[j+1] = d
		}
		before, last, row = last, row, before
	}
	return min(last[len(rb)], enough)
}
