// Package mark is what is painted on tiles, and how it is read back.
//
// A mark is the plan's prefix, the cell's number, and, where a cell has more
// than one tile, a letter for the copy: MR7A, MR7C, MR7D are cell 7 on three
// bodies. Underneath, in oxide wash, the mark is repeated with one check sign
// more. Signs are painted with a brush, fired, and read weeks later.
//
// # Signs
//
// Of the letters, O I S Z B G are left out because they read as 0 1 5 2 8 6,
// Q because it reads as 0, and V as U. The 18 others are shared out: 7 count
// copies and 11 are check signs. No letter is both, so a letter tells by itself
// whether it is the check sign, and most pairs that a lost stroke or half a turn
// makes alike (E F, E L, C L, A R, K X, K H, M W, M N, T Y, D P) stand one on
// each side, where the place in the mark tells them apart. The rest (P R, P F,
// H N, U W) are all check signs, where a wrong one is found.
//
// # The check sign
//
// With digits d of the number, places c₁ c₂ … of the copy letters in their
// alphabet, counted from the right, and a constant k of the prefix, the check
// sign is that of the number
//
//	k + Σ (d+1) + Σ j·c_j   modulo 11.
//
// The number has no fixed length, and a digit that is lost without trace shifts
// every digit before it. A sum whose weights differed from digit to digit would
// change by the lost digit and by all those shifts together, which may cancel.
// With equal weights nothing shifts, and because a digit counts d+1, 1 to 10,
// none is worth nothing modulo 11. Hence:
//
//   - One wrong digit changes the sum by 1 to 9 either way, never by a multiple
//     of 11: found. One wrong copy letter changes it by j times 1 to 6, with j
//     less than 11 and 11 prime: found. A wrong check sign is another number.
//   - A digit for a letter or a letter for a digit breaks the form (prefix,
//     digits, so many letters): found. A wrong sign of the prefix is seen, for
//     the prefix is known.
//   - One digit lost without trace changes the sum by 1 to 10: found, at every
//     length; and so is one too many, or one painted twice. A lost copy letter
//     leaves too few letters, the last of which is a check sign: found. What is
//     left when the check sign itself is lost is the mark on the top: right.
//   - One sign that is lost and leaves a gap is worked out from the others: the
//     sum fixes one digit or letter at a known place. So is a sign that no mark
//     has at that place.
//
// Why 11: ten digits must differ from each other and from nothing, so no
// smaller number does; a larger prime needs more letters than can be read.
//
// What it cannot do: two digits that have changed places are not found. (Weights
// that found them would leave one lost digit in eleven unfound: of two-digit
// numbers, the ten with the same first digit take all signs but the one that
// must be kept from the first digit alone, and no choice of unequal weights
// keeps it.) Of marks with two wrong signs about one in eleven passes. A mark
// without its check sign, as on the top, has no more than its form to go by,
// and a plan with one tile for each cell has marks that end in a digit, so a
// check sign read as a digit is found only by whoever knows that the mark is the
// one underneath.
package mark

import (
	"fmt"
	"strconv"
	"strings"

	"pourboard/blend"
)

// Letters of copies, and check letters.
const (
	copySigns  = "ACDEKMT"
	checkSigns = "FHJLNPRUWXY"
	modulus    = len(checkSigns)
)

// Tile is one tile of a test and what is painted on it.
type Tile struct {
	Index  int    // from 0: by cell, then body, then repeat
	Cell   int    // number of the cell, from 1
	Body   int    // index into the plan's bodies
	Repeat int    // from 0
	Mark   string // painted above
	Under  string // painted underneath: the mark and its check sign
}

// Scheme is how the tiles of a plan are marked. Make one with New.
type Scheme struct {
	prefix  string
	cells   int
	repeats int
	copies  int // tiles of each cell: bodies × repeats
	letters int // copy letters in a mark
	start   int // what the prefix adds to the check sum
}

// New is the scheme of a plan whose design has so many cells. Copies are
// counted over bodies, then repeats: body 1 repeat 1, body 1 repeat 2, body 2
// repeat 1. Seven copies take one letter, 49 two, 343 three.
func New(p *blend.Plan, cells int) Scheme {
	s := Scheme{
		prefix:  strings.ToUpper(p.Mark),
		cells:   cells,
		repeats: max(p.Tiles.Repeats, 1),
	}
	s.copies = s.repeats * max(len(p.Tiles.Bodies), 1)
	for reach := 1; reach < s.copies; reach *= len(copySigns) {
		s.letters++
	}
	for i := range len(s.prefix) {
		// Plans of one kiln differ in their prefix: with it in the sum, ten of
		// eleven marks of another plan are told even where its prefix is misread.
		s.start += (i + 2) * strings.IndexByte(signs, s.prefix[i])
	}
	s.start = (s.start%modulus + modulus) % modulus
	return s
}

// signs is every sign that a prefix can have.
const signs = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"

// Copies is how many tiles each cell has: bodies times repeats.
func (s Scheme) Copies() int { return s.copies }

// Tiles is how many tiles there are.
func (s Scheme) Tiles() int { return s.cells * s.copies }

// Tile is the tile of an index from 0 to Tiles()−1.
func (s Scheme) Tile(index int) Tile {
	cell, copied := index/s.copies+1, index%s.copies
	buf := make([]byte, 0, len(s.prefix)+12)
	buf = append(buf, s.prefix...)
	buf = strconv.AppendInt(buf, int64(cell), 10)
	for j := s.letters - 1; j >= 0; j-- {
		n := copied
		for range j {
			n /= len(copySigns)
		}
		buf = append(buf, copySigns[n%len(copySigns)])
	}
	buf = append(buf, checkSigns[s.sum(buf[len(s.prefix):])])
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

// sum is the check sum of a mark without its prefix: digits, then copy letters.
func (s Scheme) sum(mark []byte) int {
	n := s.start
	for i, c := range mark {
		if c <= '9' {
			n += int(c-'0') + 1
		} else {
			n += (len(mark) - i) * strings.IndexByte(copySigns, c)
		}
	}
	return n % modulus
}

// Underlined says which signs of a mark, top or underside, get a line below:
// 6 and 9 always, and every sign of a mark that turned upside down reads as the
// mark of another tile.
func (s Scheme) Underlined(mark string) []bool {
	lines := make([]bool, len(mark))
	turned, turns := upsideDown(mark)
	if turns && turned != mark {
		_, fault := s.parse(turned)
		turns = fault == sound
	} else {
		turns = false
	}
	for i := range lines {
		lines[i] = turns || mark[i] == '6' || mark[i] == '9'
	}
	return lines
}

// upsideDown is a mark as it reads when the tile is turned by half a turn, and
// whether every sign of it then still reads as a sign. 2 and 5 count as they
// are painted with straight strokes.
func upsideDown(mark string) (string, bool) {
	const upright, turned = "01256789EHILMNOSWXZ3", "01259L863HI7WNOSMXZE"
	out := make([]byte, len(mark))
	for i := range len(mark) {
		at := strings.IndexByte(upright, mark[i])
		if at < 0 {
			return "", false
		}
		out[len(mark)-1-i] = turned[at]
	}
	return string(out), true
}

// fault is what is wrong with a mark that was read.
type fault int

const (
	sound    fault = iota
	badForm        // not prefix, number, letters
	badCell        // a number that the design does not have
	badCopy        // copy letters beyond the copies there are
	badCheck       // the check sign does not fit
	noCopy         // the copy letter is missing in front of the check sign
)

// parse finds the index of the tile of a mark of plain signs. The letters O and
// I, which no mark has after its prefix, are taken for 0 and 1, as they are
// typed.
func (s Scheme) parse(mark string) (index int, f fault) {
	if len(mark) <= len(s.prefix) || len(mark) > len(s.prefix)+16 {
		return 0, badForm
	}
	for i := range len(s.prefix) {
		if typed(mark[i]) != typed(s.prefix[i]) {
			return 0, badForm
		}
	}
	var buf [16]byte
	rest := buf[:copy(buf[:], mark[len(s.prefix):])]
	digits, cell := 0, 0
	for digits < len(rest) {
		c := typed(rest[digits])
		if c < '0' || c > '9' || digits == 0 && c == '0' {
			break
		}
		rest[digits] = c
		cell = min(cell*10+int(c-'0'), blend.MaxCells*10)
		digits++
	}
	letters := len(rest) - digits
	if digits == 0 || letters > s.letters+1 {
		return 0, badForm
	}
	for _, c := range rest[digits:] {
		if c < 'A' || c > 'Z' {
			return 0, badForm
		}
	}
	last := rest[len(rest)-1]
	checked := letters > 0 && strings.IndexByte(checkSigns, last) >= 0
	copied := rest[digits:]
	if checked {
		copied = copied[:letters-1]
	}
	switch {
	case checked && len(copied) < s.letters:
		return 0, noCopy
	case len(copied) != s.letters:
		return 0, badForm
	case cell > s.cells:
		return 0, badCell
	}
	n := 0
	for _, c := range copied {
		at := strings.IndexByte(copySigns, c)
		if at < 0 {
			return 0, badForm
		}
		n = n*len(copySigns) + at
	}
	if n >= s.copies {
		return 0, badCopy
	}
	if checked && last != checkSigns[s.sum(rest[:digits+s.letters])] {
		return 0, badCheck
	}
	return (cell-1)*s.copies + n, sound
}

// typed takes the letters O and I for the digits that they are typed for.
func typed(c byte) byte {
	switch c {
	case 'O':
		return '0'
	case 'I':
		return '1'
	}
	return c
}

// Form says in words what the marks of the plan look like: "MR1 to MR66 with
// one of the letters A C D".
func (s Scheme) Form() string {
	form := fmt.Sprintf("%s1 to %s%d", s.prefix, s.prefix, s.cells)
	if s.cells == 1 {
		form = s.prefix + "1"
	}
	switch s.letters {
	case 0:
		return form
	case 1:
		return form + " with one of the letters " + strings.Join(strings.Split(copySigns[:s.copies], ""), " ")
	}
	first, last := s.Tile(0), s.Tile(s.copies-1)
	at := len(s.prefix) + 1
	return fmt.Sprintf("%s with %d letters, %s to %s", form, s.letters, first.Mark[at:], last.Mark[at:])
}
