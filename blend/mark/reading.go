package mark

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"pourboard/blend/quantity"
)

// Read finds the tile of a mark, with or without its check letter. Capitals or
// not, and spaces or hyphens between prefix, number and what is behind it do not
// matter; nothing may be between figures. No letter is taken for a figure, and a
// small l only for an L where it cannot be a 1. The error says what is wrong in one
// line; Candidates then has proposals.
func (s Scheme) Read(text string) (Tile, error) {
	typed := s.typed(text)
	read := strings.ToUpper(typed)
	index, fault := s.parse(read)
	text = quantity.Shorten(text)
	switch {
	case fault == badCell:
		return Tile{}, fmt.Errorf("mark %q has a number beyond the %d cups: marks are %s", text, s.cells, s.Form())
	case fault == badCheck:
		return Tile{}, fmt.Errorf("mark %q misread: its check letter does not match", text)
	case fault != sound:
		return Tile{}, fmt.Errorf("mark %q is not in this plan: marks are %s", text, s.Form())
	}
	tile := s.Tile(index)
	if other := s.withOnes(typed[:len(s.prefix)], typed[len(s.prefix):], index); other != "" {
		if read == tile.Under {
			read = tile.Mark + " with check letter " + read[len(tile.Mark):]
		}
		return Tile{}, fmt.Errorf("mark %q is ambiguous: %s or %s (type it in capitals)", text, read, other)
	}
	return tile, nil
}

// withOnes is a mark of another tile than that of the index, which a typed mark is
// when some of the small l in its rest are a 1; "" where there is none.
func (s Scheme) withOnes(head, rest string, index int) string {
	before, after, found := strings.Cut(rest, "l")
	if found {
		return cmp.Or(s.withOnes(head+before+"L", after, index), s.withOnes(head+before+"1", after, index))
	}
	other := strings.ToUpper(head + rest)
	if at, fault := s.parse(other); fault != sound || at == index {
		return ""
	}
	return other
}

// typed is a mark without what may be between its parts: spaces and hyphens behind
// the prefix, and where one side is a letter. Of a text that holds anything else it
// is empty.
func (s Scheme) typed(text string) string {
	text = strings.TrimSpace(text)
	n := min(len(s.prefix), len(text))
	rest := strings.TrimLeft(text[n:], gaps)
	typed := text[:n] + strings.Map(withoutGaps, rest)
	strange := func(r rune) bool { return r > 'z' || strings.ContainsRune(gaps, r) }
	if figuresApart.MatchString(rest) || strings.ContainsFunc(typed, strange) || strings.IndexAny(text, gaps) == 0 {
		return ""
	}
	return typed
}

// gaps are the characters that may stand between those of a mark.
const gaps = " \t\u00a0\u2009\u202f‐‑–_-"

// figuresApart finds a gap that is between figures, or at the end.
var figuresApart = regexp.MustCompile("[0-9][" + gaps + "]+[0-9]|[" + gaps + "]$")

func withoutGaps(r rune) rune {
	if strings.ContainsRune(gaps, r) {
		return -1
	}
	return r
}

// normaliseMark returns a mark in capitals, without spaces, hyphens and points, as
// damaged marks are compared.
func normaliseMark(mark string) string {
	return strings.ReplaceAll(strings.Map(withoutGaps, strings.ToUpper(strings.TrimSpace(mark))), ".", "")
}

// Candidate is a tile that a half-lost or wrong mark can be.
type Candidate struct {
	Tile
	Penalty float64 // 0 when the mark reads so as it is, up to 1 for one slip; the smaller the likelier
}

// Fits reports whether the mark reads so as it is, with what '?' and '*' stand for.
func (c Candidate) Fits() bool { return c.Penalty < impostor }

// maxPattern is the longest pattern that is looked at, in characters: longer than
// any mark, short enough to cost nothing.
const maxPattern = 32

// Candidates lists the tiles that a mark can be, most likely first: '?' is one lost
// character, '*' any number of them, and the rest are characters as they are read.
// The mark may be of the top or of the underside; it may also leave out the letters,
// or the prefix, which makes its tiles less likely. Where it has no '?' or '*', or
// no tile fits these, it may have slips: one, or two where no tile is so near.
//
// keep may be nil; otherwise it says which tiles come into question: those of
// a body, those that are not in the log yet.
func (s Scheme) Candidates(text string, keep func(Tile) bool) []Candidate {
	read := normaliseMark(text)
	if len(read) > maxPattern || strings.Trim(read, "*") == "" && read != "*" {
		return nil
	}
	if strings.ContainsAny(read, "?*") {
		if found := s.fitting(read, keep, false, unlike-1); found != nil {
			return found
		}
	}
	// When nothing of it is left, any tile is as near as another.
	found := s.fitting(read, keep, true, min(2, float64(len(read))-0.01))
	if len(found) > 0 && found[0].Penalty <= 1 {
		found = slices.DeleteFunc(found, func(c Candidate) bool { return c.Penalty > 1 })
	}
	return found
}

// fitting are the tiles that a mark can be at a penalty of at most so much.
func (s Scheme) fitting(read string, keep func(Tile) bool, slips bool, most float64) (found []Candidate) {
	prefix := len(s.prefix)
	for i := range s.Tiles() {
		t := s.Tile(i)
		if keep != nil && !keep(t) {
			continue
		}
		number := t.Mark[:len(t.Mark)-len(s.Behind(t.Body, t.Repeat))]
		penalty := math.Inf(1)
		for _, form := range []struct {
			text string
			less float64 // what it costs to take it so
		}{{t.Mark, 0}, {t.Under, 0}, {number, 1}, {t.Mark[prefix:], 0.6}, {t.Under[prefix:], 0.6}, {number[prefix:], 1.6}} {
			if form.less < penalty {
				penalty = min(penalty, form.less+cost(read, form.text, slips))
			}
		}
		if penalty <= most {
			found = append(found, Candidate{t, penalty})
		}
	}
	slices.SortStableFunc(found, func(a, b Candidate) int { return cmp.Compare(a.Penalty, b.Penalty) })
	return found
}

// oneSlip reports whether a reading is a mark but for one character that is wrong,
// lost or too many, or two neighbours that changed places.
func oneSlip(read, mark string) bool {
	for read != "" && mark != "" && read[0] == mark[0] {
		read, mark = read[1:], mark[1:]
	}
	for read != "" && mark != "" && read[len(read)-1] == mark[len(mark)-1] {
		read, mark = read[:len(read)-1], mark[:len(mark)-1]
	}
	return len(read) <= 1 && len(mark) <= 1 || len(read) == 2 && len(mark) == 2 && read[0] == mark[1] && read[1] == mark[0]
}

// Repair puts a mark of the underside right that Read refuses, where that is
// certain: only one tile fits if one character is wrong, lost, too many, or has
// changed places with its neighbour, and no other where an O or I is a figure.
// '?' is a lost character. keep says which
// tiles are possible by what else is known; nil allows all. Where several tiles
// fit, it reports false and guesses none.
func (s Scheme) Repair(mark string, keep func(Tile) bool) (only Tile, certain bool) {
	read := normaliseMark(mark)
	figures := spelt(read) // as it may have been typed of the top
	fit := 0
	for i := range s.Tiles() {
		if t := s.Tile(i); (keep == nil || keep(t)) && (oneSlip(read, t.Under) || figures == t.Mark) {
			only = t
			fit++
		}
	}
	if fit != 1 {
		return Tile{}, false
	}
	return only, true
}
