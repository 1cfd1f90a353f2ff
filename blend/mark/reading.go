package mark

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Read finds the tile of a mark, with or without its check sign. Small letters,
// spaces and hyphens do not matter, and O and I are taken for 0 and 1. The
// error says what is wrong in one line; Nearest then has proposals.
func (s Scheme) Read(mark string) (Tile, error) {
	index, f := s.parse(plain(mark))
	if f != sound {
		return Tile{}, s.complain(mark, f)
	}
	return s.Tile(index), nil
}

// complain puts a fault into one line.
func (s Scheme) complain(mark string, f fault) error {
	if r := []rune(mark); len(r) > 40 {
		mark = string(r[:40]) + "…"
	}
	switch f {
	case badCell:
		return fmt.Errorf("mark %q has a number beyond the %d cups: marks are %s", mark, s.cells, s.Form())
	case badCopy:
		return fmt.Errorf("mark %q has a copy letter beyond the %d tiles of a cup: marks are %s", mark, s.copies, s.Form())
	case badCheck:
		return fmt.Errorf("mark %q is read wrong: its last letter, the check sign, does not fit the rest", mark)
	case noCopy:
		return fmt.Errorf("mark %q lacks a letter before its check sign: marks are %s", mark, s.Form())
	}
	return fmt.Errorf("mark %q is none of this plan: marks are %s", mark, s.Form())
}

// plain is a mark in capitals without the spaces, hyphens and points that are
// typed into it.
func plain(mark string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case ' ', '\t', '\u00a0', '-', '‐', '‑', '–', '_', '.':
			return -1
		}
		return r
	}, strings.ToUpper(mark))
}

// Candidate is a tile that a half-lost or wrong mark can be.
type Candidate struct {
	Tile
	Penalty float64 // 0 when the mark reads so as it stands; the smaller the likelier
}

// maxPattern is the longest pattern that is looked at, in signs: longer than
// any mark, short enough to cost nothing.
const maxPattern = 32

// Candidates lists the tiles that a pattern can be, most likely first: '?' is
// one lost sign, '*' any number of them, and the rest are signs as they are
// read. The pattern may be of the top or of the underside; it may also leave
// out the copy letters, or the prefix, which makes its tiles less likely.
//
// A sign that no mark has (O I S Z B G Q V outside the prefix) counts almost
// as if the sign that it looks like were read; one that a mark can have but
// that is easily taken for another (1 and 7) is held against the tile.
//
// keep may be nil; otherwise it says which tiles come into question: those of
// a body, those that are not in the log yet. A pattern longer than 32 signs
// has no candidates.
func (s Scheme) Candidates(pattern string, keep func(Tile) bool) []Candidate {
	want := plain(pattern)
	if len(want) > maxPattern || strings.Trim(want, "*") == "" && want != "*" {
		return nil
	}
	var found []Candidate
	w := byGaps()
	for i := range s.Tiles() {
		t := s.Tile(i)
		if keep != nil && !keep(t) {
			continue
		}
		number := t.Mark[:len(t.Mark)-s.letters]
		penalty := math.Inf(1)
		for _, form := range []struct {
			text  string
			extra float64
		}{
			{t.Mark, 0},
			{t.Under, 0},
			{number, 1},
			{t.Mark[len(s.prefix):], 2},
			{t.Under[len(s.prefix):], 2},
			{number[len(s.prefix):], 3},
		} {
			if form.extra < penalty {
				penalty = min(penalty, form.extra+w.cost(want, form.text))
			}
		}
		if penalty < unlike {
			found = append(found, Candidate{t, penalty})
		}
	}
	likeliestFirst(found)
	return found
}

// Nearest lists the tiles whose marks differ least from a wrong one, at most n
// and the nearest first; none when nothing is near. Signs that look alike, a
// lost sign, one too many and two that changed places all count.
func (s Scheme) Nearest(mark string, n int) []Candidate {
	read := plain(mark)
	if len(read) > maxPattern {
		return nil
	}
	var found []Candidate
	w := bySlips()
	for i := range s.Tiles() {
		t := s.Tile(i)
		penalty := math.Inf(1)
		for _, form := range []string{t.Mark, t.Under, t.Mark[len(s.prefix):]} {
			if d := len(form) - len(read); d >= -2 && d <= 2 {
				penalty = min(penalty, w.cost(read, form))
			}
		}
		// Beyond two errors, or when nothing of the reading is left, any tile is as near as another.
		if penalty <= 2 && penalty < float64(len(read)) {
			found = append(found, Candidate{t, penalty})
		}
	}
	likeliestFirst(found)
	return found[:min(n, len(found))]
}

// Repair puts a mark of the underside right that Read refuses, where that is
// certain: one tile alone can be meant if one sign is wrong, lost, too many, or
// has changed places with its neighbour. '?' is a lost sign. keep is what else
// is known, the tile's body and its place; nil when nothing is. Where several
// tiles can be meant it reports false and guesses none.
func (s Scheme) Repair(mark string, keep func(Tile) bool) (Tile, bool) {
	read := plain(mark)
	if len(read) > maxPattern {
		return Tile{}, false
	}
	w := byCount()
	var only Tile
	found := 0
	for i := range s.Tiles() {
		t := s.Tile(i)
		if d := len(t.Under) - len(read); d < -1 || d > 1 {
			continue
		}
		if keep != nil && !keep(t) {
			continue
		}
		if w.cost(read, t.Under) <= 1 {
			only = t
			found++
		}
	}
	if found != 1 {
		return Tile{}, false
	}
	return only, true
}

// likeliestFirst sorts by penalty and keeps the order of the tiles among equals.
func likeliestFirst(c []Candidate) {
	slices.SortStableFunc(c, func(a, b Candidate) int {
		switch {
		case a.Penalty < b.Penalty:
			return -1
		case a.Penalty > b.Penalty:
			return 1
		}
		return 0
	})
}
