package mark

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/blend/quantity"
)

// Read finds the tile of a mark, with or without its check letter. Capitals or
// not, and spaces or hyphens between prefix, number and what is behind it do not
// matter; nothing may be between figures. Where l, I or O can be a figure
// and only then does the mark fit, it is taken for one in front of another
// character; a mark that can be that of two tiles is refused with both. The error
// says what is wrong in one line; Nearest then has proposals.
func (s Scheme) Read(text string) (Tile, error) {
	read, as := s.normal(text)
	index, f := s.parse(read)
	others := s.asFigures(as, index, f)
	switch {
	case f != sound && len(others) == 1 && others[0].inside && s.certain(as, others[0]):
		return s.Tile(others[0].index), nil
	case len(others) > 0:
		return Tile{}, s.ask(text, read, index, f, others)
	case f != sound:
		return Tile{}, s.complain(text, f)
	}
	return s.Tile(index), nil
}

// Literal reports whether a mark reads as that of the tile as it was typed, no
// letter taken for a figure.
func (s Scheme) Literal(text string, t Tile) bool {
	read, _ := s.normal(text)
	return read == t.Mark || read == t.Under
}

// figured is a reading of a mark in which letters stand for figures.
type figured struct {
	index  int
	mark   string
	inside bool // the last character is as it was typed
}

// asFigures are the readings of a mark that differ from that of index where
// letters that look like a figure are taken for one.
func (s Scheme) asFigures(as string, index int, f fault) (all []figured) {
	var at []int
	for i := len(s.prefix); i < len(as); i++ {
		if figureOf(as[i]) != 0 {
			at = append(at, i)
		}
	}
	if len(at) > 8 { // more than a number has figures
		return nil
	}
	for which := 1; which < 1<<len(at); which++ {
		word := []byte(strings.ToUpper(as))
		inside := true
		for k, i := range at {
			if which&(1<<k) != 0 {
				word[i] = figureOf(as[i])
				inside = inside && i < len(as)-1
			}
		}
		n, fault := s.parse(string(word))
		if fault == sound && !(f == sound && n == index) && !slices.ContainsFunc(all, func(o figured) bool { return o.index == n }) {
			all = append(all, figured{n, string(word), inside})
		}
	}
	return all
}

// certain reports whether no other tile is meant if a letter that was taken for
// a figure is another letter, misread.
func (s Scheme) certain(as string, o figured) bool {
	for i := range as {
		if o.mark[i] == as[i] || !isFigure(o.mark[i]) {
			continue
		}
		for _, c := range []byte(s.letters.Bodies + s.letters.Check) {
			word := []byte(o.mark)
			word[i] = c
			if n, f := s.parse(string(word)); f == sound && n != o.index {
				return false
			}
		}
	}
	return true
}

// figureOf is the figure that a letter is typed for, as it was typed, or 0.
func figureOf(c byte) byte {
	switch c {
	case 'O', 'o':
		return '0'
	case 'I', 'i', 'l':
		return '1'
	}
	return 0
}

// ask is the error of a mark that can be read in more than one way.
func (s Scheme) ask(text, read string, index int, f fault, others []figured) error {
	var ways []string
	if f == sound {
		way := read
		if t := s.Tile(index); read == t.Under {
			way = t.Mark + " with check letter " + read[len(t.Mark):]
		}
		ways = append(ways, way)
	}
	for _, o := range others {
		ways = append(ways, o.mark)
	}
	if len(ways) == 1 {
		return fmt.Errorf("mark %q may be %s, or misread at its end (type it as %s if it is)", quantity.Shorten(text), ways[0], ways[0])
	}
	return fmt.Errorf("mark %q is ambiguous: %s (type it in capitals)", quantity.Shorten(text), strings.Join(ways, " or "))
}

// complain puts a fault into one line.
func (s Scheme) complain(text string, f fault) error {
	text = quantity.Shorten(text)
	switch f {
	case badCell:
		return fmt.Errorf("mark %q has a number beyond the %d cups: marks are %s", text, s.cells, s.Form())
	case badCheck:
		return fmt.Errorf("mark %q misread: its check letter does not match", text)
	}
	return fmt.Errorf("mark %q is not in this plan: marks are %s", text, s.Form())
}

// normal is a mark in capitals without what may be between its parts: spaces
// and hyphens behind the prefix, and where one side is a letter. as has the same
// characters as they were typed. Of a text that holds anything else it makes what
// no mark is.
func (s Scheme) normal(text string) (capitals, as string) {
	var typed []byte
	gap := false
	for _, r := range strings.TrimSpace(text) {
		if isGap(r) {
			gap = true
			continue
		}
		if r > 'z' {
			return "", ""
		}
		if gap && (len(typed) == 0 || len(typed) < len(s.prefix) || len(typed) > len(s.prefix) && isFigure(typed[len(typed)-1]) && '0' <= r && r <= '9') {
			return "", ""
		}
		gap = false
		typed = append(typed, byte(r))
	}
	if gap {
		return "", ""
	}
	return strings.ToUpper(string(typed)), string(typed)
}

// normaliseMark is a mark in capitals, without spaces and hyphens: how a damaged mark
// is compared, of which nothing is certain.
func normaliseMark(mark string) string {
	return strings.Map(func(r rune) rune {
		if isGap(r) || r == '.' {
			return -1
		}
		return r
	}, strings.ToUpper(strings.TrimSpace(mark)))
}

// isGap reports whether a character parts those of a mark and is none itself.
func isGap(r rune) bool { return strings.ContainsRune(" \t\u00a0\u2009\u202f-‐‑–_", r) }

// Candidate is a tile that a half-lost or wrong mark can be.
type Candidate struct {
	Tile
	Penalty float64 // 0 when the mark reads so as it is; the smaller the likelier
}

// maxPattern is the longest pattern that is looked at, in characters: longer than
// any mark, short enough to cost nothing.
const maxPattern = 32

// fitting are the tiles for which a reading costs at most so much, the likeliest
// first. forms are the ways in which a tile's mark can be read, each with what it
// costs to take it so. keep may be nil; otherwise it says which tiles come into
// question. A reading longer than 32 characters fits none.
func (s Scheme) fitting(reading string, w weights, most float64, keep func(Tile) bool, forms func(t Tile, form func(text string, extra float64))) []Candidate {
	if len(reading) > maxPattern {
		return nil
	}
	var found []Candidate
	for i := range s.Tiles() {
		t := s.Tile(i)
		if keep != nil && !keep(t) {
			continue
		}
		penalty := math.Inf(1)
		forms(t, func(text string, extra float64) {
			if extra < penalty {
				penalty = min(penalty, extra+w.cost(reading, text))
			}
		})
		if penalty <= most {
			found = append(found, Candidate{t, penalty})
		}
	}
	slices.SortStableFunc(found, func(a, b Candidate) int { return cmp.Compare(a.Penalty, b.Penalty) })
	return found
}

// Candidates lists the tiles that a pattern can be, most likely first: '?' is
// one lost character, '*' any number of them, and the rest are characters as they
// are read. The pattern may be of the top or of the underside; it may also leave
// out the letters, or the prefix, which makes its tiles less likely.
//
// A sign that no mark has (O I S Z B G Q V outside the prefix) counts almost
// as if the character that it looks like were read; one that a mark can have but
// that is easily taken for another (1 and 7) is held against the tile.
//
// keep may be nil; otherwise it says which tiles come into question: those of
// a body, those that are not in the log yet.
func (s Scheme) Candidates(pattern string, keep func(Tile) bool) []Candidate {
	want := normaliseMark(pattern)
	if strings.Trim(want, "*") == "" && want != "*" {
		return nil
	}
	prefix := len(s.prefix)
	return s.fitting(want, byGaps(), unlike-1, keep, func(t Tile, form func(string, float64)) {
		number := t.Mark[:len(t.Mark)-len(s.Behind(t.Body, t.Repeat))]
		form(t.Mark, 0)
		form(t.Under, 0)
		form(number, 1)
		form(t.Mark[prefix:], 2)
		form(t.Under[prefix:], 2)
		form(number[prefix:], 3)
	})
}

// Nearest lists the tiles whose marks differ least from a wrong one, the nearest
// first; none when nothing is near. Characters that look alike, a lost character, one too
// many and two that changed places all count.
func (s Scheme) Nearest(mark string, keep func(Tile) bool) []Candidate {
	read := normaliseMark(mark)
	// Beyond two errors, or when nothing of the reading is left, any tile is as near as another.
	most := min(2, float64(len(read))-0.01)
	return s.fitting(read, bySlips(), most, keep, func(t Tile, form func(string, float64)) {
		for _, text := range []string{t.Mark, t.Under, t.Mark[len(s.prefix):]} {
			if d := len(text) - len(read); -2 <= d && d <= 2 {
				form(text, 0)
			}
		}
	})
}

// Possible lists the tiles that a mark can be: its candidates, and, where no character
// stands for a lost one, those that are one other error away.
func (s Scheme) Possible(read string, keep func(Tile) bool) []Candidate {
	all := s.Candidates(read, keep)
	if all != nil && strings.ContainsAny(read, "?*") {
		return all
	}
	found := map[int]bool{}
	for _, c := range all {
		found[c.Index] = true
	}
	for _, c := range s.Nearest(read, keep) {
		if c.Penalty <= 1 && !found[c.Index] {
			all = append(all, c)
		}
	}
	return all
}

// Repair puts a mark of the underside right that Read refuses, where that is
// certain: only one tile fits if one character is wrong, lost, too many, or has
// changed places with its neighbour. '?' is a lost character. keep says which
// tiles are possible by what else is known; nil allows all. Where several tiles
// fit, it reports false and guesses none.
func (s Scheme) Repair(mark string, keep func(Tile) bool) (Tile, bool) {
	read := normaliseMark(mark)
	found := s.fitting(read, byCount(), 1, keep, func(t Tile, form func(string, float64)) {
		if d := len(t.Under) - len(read); -1 <= d && d <= 1 {
			form(t.Under, 0)
		}
	})
	if len(found) != 1 {
		return Tile{}, false
	}
	return found[0].Tile, true
}
