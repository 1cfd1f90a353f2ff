package mark

import (
	"fmt"
	"strings"
	"testing"

	"pourboard/blend"
)

// scheme is the marks of a plan with a prefix, cells, bodies and repeats.
func scheme(prefix string, cells, bodies, repeats int) Scheme {
	p := &blend.Plan{Mark: prefix, Tiles: blend.Tiles{Bodies: make([]string, bodies), Repeats: repeats}}
	return New(p, cells)
}

// boardsOfMarks are boards of 10, 66 and 600 tiles with several prefixes, with
// no copy letter, one and two.
func boardsOfMarks() map[string]Scheme {
	all := map[string]Scheme{}
	for _, b := range []struct{ cells, bodies, repeats int }{
		{10, 1, 1}, {5, 2, 1},
		{66, 1, 1}, {22, 3, 1}, {33, 1, 2}, {6, 11, 1},
		{600, 1, 1}, {200, 3, 1}, {100, 2, 3}, {50, 12, 1},
	} {
		prefixes := []string{"MR", "K2", "", "M", "MM", "WXYZ", "A101", "OI"}
		if b.cells*b.bodies*b.repeats > 100 {
			prefixes = prefixes[:3]
		}
		for _, prefix := range prefixes {
			name := fmt.Sprintf("%s/%dx%dx%d", prefix, b.cells, b.bodies, b.repeats)
			all[name] = scheme(prefix, b.cells, b.bodies, b.repeats)
		}
	}
	return all
}

func TestMarks(t *testing.T) {
	for _, c := range []struct {
		s      Scheme
		index  int
		mark   string
		body   int
		repeat int
	}{
		{scheme("MR", 66, 1, 1), 6, "MR7", 0, 0},
		{scheme("MR", 66, 3, 1), 18, "MR7A", 0, 0},
		{scheme("MR", 66, 3, 1), 19, "MR7C", 1, 0},
		{scheme("MR", 66, 3, 1), 20, "MR7D", 2, 0},
		{scheme("mr", 66, 3, 2), 6*6 + 1, "MR7C", 0, 1},
		{scheme("MR", 66, 3, 2), 6*6 + 2, "MR7D", 1, 0},
		{scheme("", 10, 12, 1), 7, "1CA", 7, 0},
		{scheme("X", 10, 12, 20), 239, "X1KTC", 11, 19}, // 239 = 4·49 + 6·7 + 1
	} {
		got := c.s.Tile(c.index)
		if got.Mark != c.mark || got.Body != c.body || got.Repeat != c.repeat {
			t.Errorf("tile %d is %+v; want %s, body %d, repeat %d", c.index, got, c.mark, c.body, c.repeat)
		}
		if at := c.s.IndexOf(got.Cell, got.Body, got.Repeat); at != c.index {
			t.Errorf("IndexOf tile %d is %d", c.index, at)
		}
	}
}

// TestCheckSign_byHand works two check signs out as the comment on the code
// says, with nothing of the program but its alphabets.
func TestCheckSign_byHand(t *testing.T) {
	// No prefix, cell 12: (1+1) + (2+1) = 5, the sixth of FHJLNPRUWXY is P.
	if got := scheme("", 66, 1, 1).Tile(11).Under; got != "12P" {
		t.Errorf("cell 12 is %s underneath, want 12P", got)
	}
	// Cell 12, third copy: 5 + 1·2 (D is number 2 of ACDEKMT) = 7, U.
	if got := scheme("", 66, 3, 1).Tile(35).Under; got != "12DU" {
		t.Errorf("cell 12, copy D is %s underneath, want 12DU", got)
	}
}

// TestSigns holds the alphabets to what their comment says.
func TestSigns(t *testing.T) {
	if modulus != 11 {
		t.Errorf("%d check signs, not a prime number of them that is above ten", modulus)
	}
	for _, c := range copySigns + checkSigns {
		if strings.Count(copySigns+checkSigns, string(c)) != 1 {
			t.Errorf("%c is used twice", c)
		}
		if strings.ContainsRune(impostors, c) {
			t.Errorf("%c is a look-alike", c)
		}
	}
	// What differs by a stroke or half a turn is told apart by its place, or
	// stands among the check signs.
	for i, a := range []byte(copySigns) {
		for _, b := range []byte(copySigns[i+1:]) {
			if looksLike(a, b) {
				t.Errorf("copy letters %c and %c look alike", a, b)
			}
		}
	}
}

func TestRead_everyMark(t *testing.T) {
	for name, s := range boardsOfMarks() {
		seen := map[string]bool{}
		for i := range s.Tiles() {
			tile := s.Tile(i)
			if seen[tile.Mark] || seen[tile.Under] {
				t.Fatalf("%s: %s or %s stands on two tiles", name, tile.Mark, tile.Under)
			}
			seen[tile.Mark], seen[tile.Under] = true, true
			for _, text := range []string{tile.Mark, tile.Under, " " + strings.ToLower(tile.Under[:2]) + "-" + tile.Under[2:]} {
				if got, err := s.Read(text); err != nil || got != tile {
					t.Fatalf("%s: Read(%q) = %+v, %v; want tile %d", name, text, got, err, i)
				}
			}
		}
	}
}

// parseUnder is parse where the mark is known to be of the underside, and so
// to end with its check sign.
func (s Scheme) parseUnder(mark string) (index int, f fault) {
	index, f = s.parse(mark)
	if f == sound && strings.IndexByte(checkSigns, mark[len(mark)-1]) < 0 {
		return 0, badForm
	}
	return index, f
}

// TestRead_everyWrongSign puts every other sign at every place of every
// underside, and asks that it is refused; O for 0 and I for 1 may also be read
// as what they were typed for.
func TestRead_everyWrongSign(t *testing.T) {
	tried := 0
	for name, s := range boardsOfMarks() {
		for i := range s.Tiles() {
			tile := s.Tile(i)
			word := []byte(tile.Under)
			for at, right := range word {
				for _, wrong := range []byte(signs + "#") {
					if wrong == right {
						continue
					}
					word[at] = wrong
					tried++
					got, f := s.parseUnder(string(word))
					if f == sound && (got != i || typed(wrong) != typed(right)) {
						t.Fatalf("%s: %s for %s is read as tile %d", name, word, tile.Under, got)
					}
					// With copy letters the side need not be known.
					if s.letters > 0 {
						if got, f := s.parse(string(word)); f == sound && got != i {
							t.Fatalf("%s: %s for %s, side unknown, is read as tile %d", name, word, tile.Under, got)
						}
					}
				}
				word[at] = right
			}
		}
	}
	t.Logf("%d wrong signs", tried)
}

// TestRead_everyLostSign takes one sign out of every underside without trace:
// it is refused, or the right tile is read all the same. One sign too many is
// tried with it.
func TestRead_everyLostSign(t *testing.T) {
	lost, extra := 0, 0
	for name, s := range boardsOfMarks() {
		for i := range s.Tiles() {
			tile := s.Tile(i)
			for at := range len(tile.Under) {
				word := tile.Under[:at] + tile.Under[at+1:]
				lost++
				if got, f := s.parse(word); f == sound && got != i {
					t.Fatalf("%s: %s, left of %s, is read as tile %d", name, word, tile.Under, got)
				}
				if got, f := s.parseUnder(word); f == sound {
					t.Fatalf("%s: %s, left of %s, is read as tile %d", name, word, tile.Under, got)
				}
				for _, more := range []byte(signs) {
					word := tile.Under[:at] + string(more) + tile.Under[at:]
					extra++
					if got, f := s.parseUnder(word); f == sound {
						t.Fatalf("%s: %s, made of %s, is read as tile %d", name, word, tile.Under, got)
					}
				}
			}
		}
	}
	t.Logf("%d lost signs, %d too many", lost, extra)
}

// TestRepair_gap puts every sign that left a gap right, with nothing else known.
func TestRepair_gap(t *testing.T) {
	for name, s := range boardsOfMarks() {
		step := max(1, s.Tiles()/30)
		for i := 0; i < s.Tiles(); i += step {
			tile := s.Tile(i)
			for at := range len(tile.Under) {
				word := tile.Under[:at] + "?" + tile.Under[at+1:]
				if got, certain := s.Repair(word, nil); !certain || got != tile {
					t.Fatalf("%s: Repair(%s) = %s, %v; want %s", name, word, got.Mark, certain, tile.Mark)
				}
			}
		}
	}
}

// TestRepair_place puts every wrong and every lost sign right where body and
// place are known, and asks that without the place it is never put wrong.
func TestRepair_place(t *testing.T) {
	var withBody, certainly int
	for name, s := range boardsOfMarks() {
		step := max(1, s.Tiles()/10)
		for i := 0; i < s.Tiles(); i += step {
			tile := s.Tile(i)
			ofBody := func(other Tile) bool { return other.Body == tile.Body }
			here := func(other Tile) bool {
				return ofBody(other) && other.Cell == tile.Cell && other.Repeat == tile.Repeat
			}
			try := func(word string) {
				if got, certain := s.Repair(word, here); !certain || got != tile {
					t.Fatalf("%s: Repair(%s) at its place = %s, %v; want %s", name, word, got.Mark, certain, tile.Mark)
				}
				got, certain := s.Repair(word, ofBody)
				if certain && got != tile {
					t.Fatalf("%s: Repair(%s) guesses %s for %s", name, word, got.Mark, tile.Mark)
				}
				withBody++
				if certain {
					certainly++
				}
			}
			for at := range len(tile.Under) {
				try(tile.Under[:at] + tile.Under[at+1:])
				for k := at % 5; k < len(signs); k += 5 {
					try(tile.Under[:at] + string(signs[k]) + tile.Under[at+1:])
				}
			}
		}
	}
	t.Logf("%d of %d put right by the body alone, none put wrong", certainly, withBody)
	if certainly == 0 || certainly == withBody {
		t.Errorf("%d of %d put right by the body alone: it should be some and not all", certainly, withBody)
	}
}

func TestRead_refused(t *testing.T) {
	s := scheme("MR", 66, 3, 1)
	for _, c := range []struct{ mark, says string }{
		{"", "none of this plan: marks are MR1 to MR66 with one of the letters A C D"},
		{"MR", "none of this plan"},
		{"MR7", "none of this plan"},
		{"MR0A", "none of this plan"},
		{"MR07A", "none of this plan"},
		{"MR67A", "beyond the 66 cups"},
		{"MR99999999999999999999A", "none of this plan"},
		{"MR7E", "beyond the 3 tiles of a cup"},
		{"MR7K", "beyond the 3 tiles of a cup"},
		{"MR7F", "lacks a letter before its check sign"},
		{"MP7A", "none of this plan"},
		{"Ünïcode", "none of this plan"},
		{strings.Repeat("MR7A", 50), "…"},
	} {
		if got, err := s.Read(c.mark); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("Read(%q) = %s, %v; want an error with %q", c.mark, got.Mark, err, c.says)
		}
	}
	if got, err := s.Read("mrIOa"); err != nil || got.Mark != "MR10A" {
		t.Errorf("Read(mrIOa) = %s, %v; want MR10A", got.Mark, err)
	}
}

func TestUnderlined(t *testing.T) {
	for _, c := range []struct {
		s          Scheme
		mark, want string
	}{
		{scheme("MR", 99, 1, 1), "MR7", "..."},
		{scheme("MR", 99, 1, 1), "MR16", "..._"},
		{scheme("MR", 99, 1, 1), "MR69", ".._" + "_"},
		{scheme("", 99, 1, 1), "18", "__"},   // 81 upside down
		{scheme("", 99, 1, 1), "10", ".."},   // 01 is no mark
		{scheme("", 99, 1, 1), "88", ".."},   // itself
		{scheme("", 80, 1, 1), "18", ".."},   // there is no 81
		{scheme("", 99, 1, 1), "13", ".."},   // 3 turned is an E
		{scheme("", 99, 3, 1), "18A", "..."}, // the letter shows the way up
	} {
		got := ""
		for _, line := range c.s.Underlined(c.mark) {
			got += map[bool]string{true: "_", false: "."}[line]
		}
		if got != c.want {
			t.Errorf("%s is underlined %s, want %s", c.mark, got, c.want)
		}
	}
}

// A letter beside a mark must not be taken for the one in it.
func TestMarks_lettersOfGlazes(t *testing.T) {
	for i := range 4 {
		for _, letter := range []string{blend.GlazeLetter(i), blend.SeriesLetter(min(i, 2))} {
			if strings.Contains(copySigns, letter) {
				t.Errorf("%s stands for a glaze and for a tile of a cell", letter)
			}
		}
	}
}
