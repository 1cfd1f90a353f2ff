// Package spell finds the name that a misspelt one was meant to be, for "did
// you mean".
package spell

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Bare is a name's letters and figures alone, small and without accents, and with
// the figures of subscripts: what people write now so, now so, is left out.
func Bare(s string) string {
	if strings.ContainsFunc(s, func(r rune) bool { return r > unicode.MaxASCII }) {
		s = norm.NFKD.String(ligatures.Replace(s))
	}
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

// ligatures are the letters of Western European languages that Unicode does not
// take apart.
var ligatures = strings.NewReplacer(
	"ß", "ss", "æ", "ae", "Æ", "ae", "œ", "oe", "Œ", "oe", "ø", "o", "Ø", "o", "ł",
	"l", "Ł", "l", "đ", "d", "Đ", "d")

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
		d := distance(plain, Bare(option))
		if d < least || d == least && best != "" && strings.HasPrefix(Bare(option), plain) {
			best, least = option, d
		}
	}
	return best
}

// distance is how many letters have to be changed, put in, left out or swapped
// with their neighbour to make b of a.
func distance(a, b string) int {
	ra, rb := []rune(a), []rune(b)
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
	return last[len(rb)]
}
