// Package mark makes the marks that are painted on tiles, and reads them back.
//
// A mark is the plan's prefix, the cup's number and, where a cup has more than
// one tile, the letter of the body and, where tiles are repeated, a figure:
// MR7P, MR7B are cup 7 on porcelain and on buff, MR7P2 is the second of two.
// Underneath, in oxide wash, the mark is repeated with a check letter behind it.
// Characters are painted with a brush, fired, and read weeks later.
//
// # Letters
//
// Of the letters, O I S Z B G are left out because they read as 0 1 5 2 8 6,
// Q because it reads as 0, and V as U: 18 can be read. A body has the first
// of these in its name that no other body has, so that a crate is sorted by
// eye. Up to seven bodies have one letter, more have two, of seven letters in
// all. Check letters are eleven of the others, so that a letter tells by itself
// whether it is the check letter.
//
// # The check letter
//
// With figures d of the number and of the repeat, the places c₁ c₂ … of the
// body's letters among those of all bodies, from 1 and counted from the right,
// and a constant k of the prefix, the check letter is that of the number
//
//	k + Σ (d+1) + Σ j·c_j   modulo 11.
//
// The number has no fixed length, and a figure that is lost without trace shifts
// every figure before it. A sum whose weights differed from figure to figure
// would change by the lost figure and by all those shifts together, which may
// cancel. With equal weights nothing shifts, and because a figure counts d+1, 1
// to 10, none is worth nothing modulo 11. Hence:
//
//   - One figure read as another changes the sum by 1 to 9 either way, never by
//     a multiple of 11: found. One of the body's letters read as another of them
//     changes it by j times 1 to 6, with j less than 11 and 11 prime: found; as
//     a letter that no body has, it breaks the form. A wrong check letter is
//     another number, or no check letter.
//   - A figure for a letter or a letter for a figure breaks the form (prefix,
//     figures, body's letters, figures of the repeat): found, but for a plan of
//     one tile a cup, whose marks end in a figure on the top. A body that is added
//     when all single letters are taken has three, for with two its first letter,
//     read as a figure, would leave another body's mark. A wrong character of the
//     prefix is seen, for the prefix is known.
//   - One figure lost without trace changes the sum by 1 to 10: found, at every
//     length; and so is one too many, or one painted twice. A lost letter leaves
//     too few: found. When the check letter itself is lost, what is left is the
//     mark on the top: right.
//   - One character that is lost and leaves a gap is worked out from the others.
//
// Why 11: ten figures must differ from each other and from nothing, so no
// smaller number does; a larger prime needs more letters than can be read.
//
// What it cannot do: two figures that have changed places are not found. (Weights
// that found them would leave one lost figure in eleven unfound: of two-figure
// numbers, the ten with the same first figure take all letters but the one that
// must be kept from the first figure alone, and no choice of unequal weights
// keeps it.) Of marks with two wrong characters about one in eleven passes. A
// mark without its check letter, as on the top, has no more than its form to go
// by.
package mark

import (
	"fmt"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// Tile is one tile of a test and what is painted on it.
type Tile struct {
	Index  int    // from 0: by cell, then body, then repeat
	Cell   int    // number of the cell, from 1
	Body   int    // index into the plan's bodies
	Repeat int    // from 0
	Mark   string // painted above
	Under  string // painted underneath: the mark and its check letter
}

// Scheme is how the tiles of a plan are marked. Make one with New or Keep.
type Scheme struct {
	prefix  string
	cells   int
	repeats int
	copies  int      // tiles of each cell: bodies × repeats
	behind  []string // by copy: the characters after the number
	place   map[string]int
	letters Letters
	start   int // what the prefix adds to the check sum
}

// New is the scheme of a plan whose design has so many cells, with the letters
// that the plan keeps. Copies are counted over bodies, then repeats: body 1
// repeat 1, body 1 repeat 2, body 2 repeat 1.
func New(p *blend.Plan, cells int) Scheme {
	kept, _ := ParseLetters(p.Letters)
	return Keep(p, cells, kept)
}

// Keep is New with the letters that tiles of the plan were marked with before.
// Bodies and repeats that have none yet are given letters that tell them apart.
func Keep(p *blend.Plan, cells int, kept Letters) Scheme {
	s := Scheme{
		prefix:  strings.ToUpper(p.Mark),
		cells:   cells,
		repeats: max(p.Tiles.Repeats, 1),
		place:   map[string]int{},
	}
	bodies := p.Tiles.Bodies
	if len(bodies) == 0 {
		bodies = []string{""}
	}
	s.copies = s.repeats * len(bodies)
	s.letters = kept.extend(bodies, s.repeats)
	for _, body := range bodies {
		for repeat := range s.repeats {
			behind, _ := s.letters.behind(body, repeat)
			s.place[behind] = len(s.behind)
			s.behind = append(s.behind, behind)
		}
	}
	for i := range len(s.prefix) {
		// Plans of one kiln differ in their prefix: with it in the sum, ten of
		// eleven marks of another plan are noticed even where its prefix is misread.
		s.start += (i + 2) * strings.IndexByte(characters, s.prefix[i])
	}
	s.start = (s.start%modulus + modulus) % modulus
	return s
}

// characters is every character that a prefix can have.
const characters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"

// Letters are what the marks have behind their numbers.
func (s Scheme) Letters() Letters { return s.letters }

// Behind is what the marks of a body and a repeat (both from 0) have behind
// their numbers, "" where there is nothing to tell apart.
func (s Scheme) Behind(body, repeat int) string { return s.behind[body*s.repeats+repeat] }

// Tiles is how many tiles there are.
func (s Scheme) Tiles() int { return s.cells * s.copies }

// Tile is the tile of an index from 0 to Tiles()−1.
func (s Scheme) Tile(index int) Tile {
	cell, copied := index/s.copies+1, index%s.copies
	buf := make([]byte, 0, len(s.prefix)+12)
	buf = append(buf, s.prefix...)
	buf = strconv.AppendInt(buf, int64(cell), 10)
	buf = append(buf, s.behind[copied]...)
	buf = append(buf, s.letters.Check[s.sum(buf[len(s.prefix):])])
	under := string(buf)
	return Tile{
		Index:  index,
		Cell:   cell,
		Body:   copied / s.repeats,
		Repeat: copied % s.repeats,
		Mark:   under[:len(under)-1],
		Under:  under,
	}
}

// IndexOf is the index of the tile of a cell (number from 1), body and repeat
// (both from 0).
func (s Scheme) IndexOf(cell, body, repeat int) int {
	return (cell-1)*s.copies + body*s.repeats + repeat
}

// sum is the check sum of a mark without its prefix: figures and body's letters.
func (s Scheme) sum(mark []byte) int {
	n, weight := s.start, 0
	for i := len(mark) - 1; i >= 0; i-- {
		if c := mark[i]; c <= '9' {
			n += int(c-'0') + 1
		} else {
			weight++
			n += weight * (strings.IndexByte(s.letters.Bodies, c) + s.letters.first)
		}
	}
	return n % modulus
}

// Underlined says which characters of a mark, top or underside, get a line
// below: 6 and 9 always, and every one of a mark that turned upside down reads
// as the mark of another tile.
func (s Scheme) Underlined(mark string) []bool {
	lines := make([]bool, len(mark))
	turned := upsideDown(mark)
	_, fault := s.parse(turned)
	for i := range lines {
		lines[i] = fault == sound && turned != mark || mark[i] == '6' || mark[i] == '9'
	}
	return lines
}

// upsideDown is a mark as it reads when the tile is turned by half a turn, empty
// where not every character of it then still reads as one. 2 and 5 count as they
// are painted with straight strokes.
func upsideDown(mark string) string {
	const upright, turned = "01256789EHILMNOSWXZ3", "01259L863HI7WNOSMXZE"
	out := make([]byte, len(mark))
	for i := range len(mark) {
		at := strings.IndexByte(upright, mark[i])
		if at < 0 {
			return ""
		}
		out[len(mark)-1-i] = turned[at]
	}
	return string(out)
}

// fault is what is wrong with a mark that was read.
type fault int

const (
	sound    fault = iota
	badForm        // not prefix, number, letters of a body
	badCell        // a number that the design does not have
	badCheck       // the check letter does not fit
)

// longest is how many characters a mark may have behind its prefix.
const longest = 16

// parse returns the index of the tile of a mark. No character is taken for another.
func (s Scheme) parse(mark string) (index int, f fault) {
	rest, ok := strings.CutPrefix(mark, s.prefix)
	if !ok || rest == "" || len(rest) > longest {
		return 0, badForm
	}
	digits, cell := 0, 0
	for digits < len(rest) && isFigure(rest[digits]) && (digits > 0 || rest[0] != '0') {
		cell = min(cell*10+int(rest[digits]-'0'), blend.MaxCells*10)
		digits++
	}
	if digits == 0 {
		return 0, badForm
	}
	top := strings.TrimRight(rest[len(rest)-1:], s.letters.Check) // without its check letter
	top = rest[:len(rest)-1] + top
	copied, known := s.place[top[digits:]]
	switch {
	case cell > s.cells:
		return 0, badCell
	case !known:
		return 0, badForm
	case top != rest && rest[len(rest)-1] != s.letters.Check[s.sum([]byte(top))]:
		return 0, badCheck
	}
	return (cell-1)*s.copies + copied, sound
}

func isFigure(c byte) bool { return '0' <= c && c <= '9' }

// Form says in words what the marks of the plan look like: "MR1 to MR66, then P,
// B or R".
func (s Scheme) Form() string {
	form := fmt.Sprintf("%s1 to %s%d", s.prefix, s.prefix, s.cells)
	if s.cells == 1 {
		form = s.prefix + "1"
	}
	switch {
	case s.behind[0] == "":
		return form
	case s.copies > 8:
		return form + ", then " + s.behind[0] + " to " + s.behind[s.copies-1]
	}
	return form + ", then " + quantity.Listed(s.behind, "or")
}
