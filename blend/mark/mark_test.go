package mark

import (
	"fmt"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
)

// bodies are invented names of as many bodies as a plan can have.
var bodies = []string{"Porcelain", "Buff", "Red", "Dark", "White stoneware", "Grey", "Pink", "Oatmeal", "Black", "Toasted", "Speckled", "日本"}

// planOf is a plan with a prefix, bodies and repeats.
func planOf(prefix string, of []string, repeats int) *blend.Plan {
	return &blend.Plan{Mark: prefix, Tiles: blend.Tiles{Bodies: of, Repeats: repeats}}
}

// scheme is the marks of a plan with a prefix, cells, bodies and repeats.
func scheme(prefix string, cells, of, repeats int) Scheme {
	return New(planOf(prefix, bodies[:of], repeats), cells)
}

// earlier is scheme with the letters of the first version.
func earlier(prefix string, cells, of, repeats int) Scheme {
	return Keep(planOf(prefix, bodies[:of], repeats), cells, Earlier(bodies[:of], repeats))
}

// boardsOfMarks are boards of tiles with several prefixes: of 1 to 12 bodies with
// and without repeats, of bodies and repeats that were added to marks that there
// were, and with the letters of the first version. Under POURBOARD_OUTSIDE=1 they
// have up to 600 tiles; otherwise they are a third, with cups of one to three
// figures.
func boardsOfMarks() map[string]Scheme {
	all := map[string]Scheme{}
	whole := os.Getenv("POURBOARD_OUTSIDE") == "1"
	prefixes := []string{"MR", "K2", "", "M", "MM", "WXYZ", "A101", "OI", "T0"}
	for of := 1; of <= 12; of++ {
		if !whole && !slices.Contains([]int{1, 3, 7, 8}, of) {
			continue
		}
		for i, repeats := range []int{1, 2, 3, 12} {
			prefix, cells := prefixes[(of+i)%len(prefixes)], 11
			if whole {
				cells += []int{113, 23, 11, 11}[i] / of
			} else if repeats == 3 {
				continue
			}
			all[fmt.Sprintf("%s/%dx%dx%d", prefix, cells, of, repeats)] = scheme(prefix, cells, of, repeats)
			if of*repeats <= 49 {
				all[fmt.Sprintf("first version %s/%dx%dx%d", prefix, cells, of, repeats)] = earlier(prefix, cells, of, repeats)
			}
			for more := of + 1; more <= 12; more += 3 {
				kept := New(planOf(prefix, bodies[:of], repeats), cells).Letters()
				all[fmt.Sprintf("%s/%dx%dx%d more bodies", prefix, cells, more, repeats)] = Keep(planOf(prefix, bodies[:more], repeats), 11, kept)
				if whole || repeats == 1 {
					all[fmt.Sprintf("%s/%dx%dx%d more of both", prefix, cells, more, repeats)] = Keep(planOf(prefix, bodies[12-more:], repeats+2), 11, kept)
				}
			}
		}
	}
	all["MR/120"] = scheme("MR", 120, 1, 1)
	all["/110x3"] = scheme("", 110, 3, 1)
	if whole {
		all["MR/600"] = scheme("MR", 600, 1, 1)
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
		{scheme("MR", 66, 3, 1), 18, "MR7P", 0, 0},
		{scheme("MR", 66, 3, 1), 19, "MR7U", 1, 0}, // B reads as 8
		{scheme("MR", 66, 3, 1), 20, "MR7R", 2, 0},
		{scheme("mr", 66, 3, 2), 6*6 + 1, "MR7P2", 0, 1},
		{scheme("MR", 66, 1, 2), 13, "MR7P2", 0, 1},
		{scheme("MR", 66, 4, 1), 27, "MR7D", 3, 0},
		{scheme("MR", 66, 1, 12), 6 * 12, "MR7P01", 0, 0},
		{scheme("", 10, 12, 1), 1, "1UP", 1, 0},
		{earlier("MR", 66, 3, 1), 19, "MR7C", 1, 0},
		{earlier("MR", 66, 3, 2), 6*6 + 2, "MR7D", 1, 0},
		{earlier("", 10, 12, 1), 7, "1CA", 7, 0},
		{earlier("X", 10, 12, 20), 239, "X1KTC", 11, 19}, // 239 = 4·49 + 6·7 + 1
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

// TestCheckLetter_byHand works check letters out as the comment on the package
// says, with nothing of the program but its alphabets.
func TestCheckLetter_byHand(t *testing.T) {
	// No prefix, cell 12: (1+1) + (2+1) = 5, the sixth of FHJLNRUWXYP is R.
	if got := scheme("", 66, 1, 1).Tile(11).Under; got != "12R" {
		t.Errorf("cell 12 is %s underneath, want 12R", got)
	}
	// Cell 12, third body: 5 + 1·3 (R is the third of PUR) = 8, the ninth of
	// FHJLNWXYKMT is K.
	if got := scheme("", 66, 3, 1).Tile(35).Under; got != "12RK" {
		t.Errorf("cell 12 on red is %s underneath, want 12RK", got)
	}
	// Its second repeat: 8 + (2+1) = 11, F.
	if got := scheme("", 66, 3, 2).Tile(71).Under; got != "12R2F" {
		t.Errorf("cell 12 on red, repeat 2, is %s underneath, want 12R2F", got)
	}
	// The first version: 5 is P of FHJLNPRUWXY; D is number 2 of ACDEKMT, 7 is U.
	if got := earlier("", 66, 1, 1).Tile(11).Under; got != "12P" {
		t.Errorf("cell 12 was %s underneath, want 12P", got)
	}
	if got := earlier("", 66, 3, 1).Tile(35).Under; got != "12DU" {
		t.Errorf("cell 12, copy D was %s underneath, want 12DU", got)
	}
}

// TestLetters holds every scheme to what the comment says of its letters.
func TestLetters(t *testing.T) {
	for name, s := range boardsOfMarks() {
		l := s.Letters()
		if len(l.Check) != 11 || len(l.Bodies) > 7 {
			t.Errorf("%s: %d check letters, %d of bodies", name, len(l.Check), len(l.Bodies))
		}
		for i, c := range l.Check + l.Bodies {
			if strings.IndexRune(l.Check+l.Bodies, c) != i || strings.ContainsRune("OISZBGQV0123456789", c) {
				t.Errorf("%s: %c is used twice, or is a look-alike", name, c)
			}
		}
		back, ok := ParseLetters(l.Lines())
		if !ok || !reflect.DeepEqual(back, l) {
			t.Errorf("%s: kept as %q and read as %+v, %v", name, l.Lines(), back, ok)
		}
	}
	for _, lines := range [][]string{nil, {"", "", ""}, {`letters of bodies "PW" from 1`, `check letters "ACDEFHJKLMN"`, `"x" repeat 0 is "P"`},
		{`letters of bodies "PA" from 1`, `check letters "ACDEFHJKLMN"`, `"x" repeat 1 is "P"`},
		{`letters of bodies "PW" from 1`, `check letters "ACDEFHJKLMN"`, `"x" repeat 1 is "P"`, `"y" repeat 1 is "P"`}} {
		if _, ok := ParseLetters(lines); ok {
			t.Errorf("letters are read from %q", lines)
		}
	}
}

// TestKeep holds that marks stay what they were when bodies are put in another
// order, and bodies and repeats are added.
func TestKeep(t *testing.T) {
	for of := 1; of <= 12; of++ {
		for _, repeats := range []int{1, 2} {
			for _, was := range []Scheme{scheme("MR", 30, of, repeats), earlier("MR", 30, of, repeats)} {
				changed := slices.Clone(bodies[:min(of+2, 12)])
				slices.Reverse(changed)
				now := Keep(planOf("MR", changed, repeats+1), 30, was.Letters())
				for i := range was.Tiles() {
					tile := was.Tile(i)
					at := slices.Index(changed, bodies[tile.Body])
					if got := now.Tile(now.IndexOf(tile.Cell, at, tile.Repeat)); got.Under != tile.Under {
						t.Fatalf("%s of %s, repeat %d became %s", tile.Under, bodies[tile.Body], tile.Repeat+1, got.Under)
					}
				}
			}
		}
	}
}

func TestRead_everyMark(t *testing.T) {
	t.Parallel()
	for name, s := range boardsOfMarks() {
		seen := map[string]bool{}
		for i := range s.Tiles() {
			tile := s.Tile(i)
			if seen[tile.Mark] || seen[tile.Under] {
				t.Fatalf("%s: %s or %s stands on two tiles", name, tile.Mark, tile.Under)
			}
			seen[tile.Mark], seen[tile.Under] = true, true
			for _, text := range []string{tile.Mark, tile.Under, strings.ToUpper(" " + s.prefix + "-" + tile.Under[len(s.prefix):])} {
				if s.prefix == "" {
					text = strings.ReplaceAll(text, "-", "")
				}
				if got, err := s.Read(text); err != nil || got != tile {
					t.Fatalf("%s: Read(%q) = %+v, %v; want tile %d", name, text, got, err, i)
				}
			}
		}
	}
}

// parseUnder is parse where the mark is known to be of the underside, and so
// to end with its check letter.
func (s Scheme) parseUnder(mark string) (index int, f fault) {
	index, f = s.parse(mark)
	if f == sound && !strings.Contains(s.letters.Check, mark[len(mark)-1:]) {
		return 0, badForm
	}
	return index, f
}

// TestRead_everyWrongCharacter puts every other character at every place of
// every underside: it is refused where it is known to be of the underside; and,
// a letter for a letter or a figure for a figure, also where it is not known.
func TestRead_everyWrongCharacter(t *testing.T) {
	t.Parallel()
	tried := 0
	for name, s := range boardsOfMarks() {
		for i := range s.Tiles() {
			tile := s.Tile(i)
			word := []byte(tile.Under)
			for at, right := range word {
				for _, wrong := range []byte(characters + "#") {
					if wrong == right {
						continue
					}
					word[at] = wrong
					tried++
					if got, f := s.parseUnder(string(word)); f == sound {
						t.Fatalf("%s: %s for %s is read as tile %d", name, word, tile.Under, got)
					}
					if got, f := s.parse(string(word)); f == sound && isFigure(wrong) == isFigure(right) {
						t.Fatalf("%s: %s for %s, side unknown, is read as tile %d", name, word, tile.Under, got)
					}
					if got, f := s.parseUnder(string(word)); f == sound && isFigure(wrong) == isFigure(right) {
						t.Fatalf("%s: %s for %s is read as tile %d", name, word, tile.Under, got)
					}
					if isFigure(wrong) != isFigure(right) || tried%29 > 0 {
						continue
					}
					if got, err := s.Read(string(word)); err == nil {
						t.Fatalf("%s: Read(%s) for %s is %s", name, word, tile.Under, got.Mark)
					}
				}
				word[at] = right
			}
		}
	}
	t.Logf("%d wrong characters", tried)
}

// TestRead_everyLostCharacter takes one character out of every underside without trace:
// it is refused, or the right tile is read all the same. One too many is
// tried with it.
func TestRead_everyLostCharacter(t *testing.T) {
	t.Parallel()
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
				for k := at % 3; k < len(characters); k += 3 {
					more := characters[k]
					word := tile.Under[:at] + string(more) + tile.Under[at:]
					extra++
					if got, f := s.parseUnder(word); f == sound {
						t.Fatalf("%s: %s, made of %s, is read as tile %d", name, word, tile.Under, got)
					}
				}
			}
		}
	}
	t.Logf("%d lost characters, %d too many", lost, extra)
}

// TestRepair_gap puts every sign that left a gap right, with nothing else known.
func TestRepair_gap(t *testing.T) {
	t.Parallel()
	for name, s := range boardsOfMarks() {
		step := max(1, s.Tiles()/3)
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
	t.Parallel()
	var withBody, certainly int
	for name, s := range boardsOfMarks() {
		step := max(1, s.Tiles()/2)
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
				for k := at % 5; k < len(characters); k += 5 {
					try(tile.Under[:at] + string(characters[k]) + tile.Under[at+1:])
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
	for _, c := range []struct {
		s          Scheme
		mark, says string
	}{
		{s, "", "not in this plan: marks are MR1 to MR66, then P, U or R"},
		{s, "MR", "not in this plan"},
		{s, "MR7", "not in this plan"},
		{s, "MR0P", "not in this plan"},
		{s, "MR07P", "not in this plan"},
		{s, "MR67P", "beyond the 66 cups"},
		{s, "MR99999999999999999999P", "not in this plan"},
		{s, "MR7E", "not in this plan"},
		{s, "MR7PY", "check letter does not match"},
		{s, "MR7F", "not in this plan"},
		{s, "MP7P", "not in this plan"},
		{s, "Ünïcode", "not in this plan"},
		{s, strings.Repeat("MR7P", 50), "…"},
		// Nothing stands between figures.
		{scheme("TA", 66, 1, 1), "TA1-3,5", "not in this plan"},
		{scheme("TA", 66, 1, 1), "TA1.2", "not in this plan"},
		{scheme("TA", 66, 1, 1), "TA1 2", "not in this plan"},
		{scheme("", 66, 1, 1), "1.3", "not in this plan"},
		{scheme("", 66, 1, 1), "-2", "not in this plan"},
		{scheme("", 66, 1, 1), "2-", "not in this plan"},
		// A letter that can be a figure is never chosen for one where both fit.
		{scheme("TA", 66, 1, 1), "TA2l", "ambiguous: TA2 with check letter L or TA21"},
		{scheme("TA", 66, 1, 1), "ta2I", "not in this plan"},
		{s, "mrIOp", "not in this plan"},
		{scheme("I", 66, 1, 1), "11", "not in this plan"},
		{scheme("TO", 66, 1, 1), "T03", "not in this plan"},
		{scheme("T0", 66, 1, 1), "TO3", "not in this plan"},
	} {
		if got, err := c.s.Read(c.mark); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("Read(%q) = %s, %v; want an error with %q", c.mark, got.Mark, err, c.says)
		}
	}
	for _, c := range []struct {
		s          Scheme
		text, mark string
	}{
		{s, "MR 7-P", "MR7P"}, {s, " mr7 p ", "MR7P"},
		{scheme("K2", 66, 1, 1), "k2 12", "K212"}, {scheme("TL", 66, 1, 1), "tl3", "TL3"},
	} {
		if got, err := c.s.Read(c.text); err != nil || got.Mark != c.mark {
			t.Errorf("Read(%q) = %s, %v; want %s", c.text, got.Mark, err, c.mark)
		}
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

// TestLettersOfGlazes holds that no glaze and no material of a series goes by a
// letter that a body of a test can have, and that all differ.
func TestLettersOfGlazes(t *testing.T) {
	seen := map[string]bool{}
	for end := range 12 {
		letter := blend.GlazeLetter(end)
		if seen[letter] || strings.Contains(ofBodies, letter[:1]) {
			t.Errorf("glaze %d goes by %s, which is taken", end+1, letter)
		}
		seen[letter] = true
	}
	seen = map[string]bool{blend.GlazeLetter(0): true}
	for series := range 30 {
		letter := blend.SeriesLetter(series)
		if seen[letter] || strings.Trim(letter, "ABCDEFGHJKLMNPQRSTUVWXYZ") != "" || strings.Contains(ofBodies, letter[:1]) {
			t.Errorf("series %d goes by %s, which is taken", series+1, letter)
		}
		seen[letter] = true
	}
	for of := 1; of <= 12; of++ {
		for _, names := range [][]string{bodies, {"Xylo", "Yellow", "Xenon", "YX", "XX", "Y", "X", "Xa", "Yb", "Xc", "Yd", "Xe"}} {
			if letters := New(planOf("MR", names[:of], 2), 5).Letters().Bodies; strings.Trim(letters, ofBodies) != "" {
				t.Errorf("%d bodies have %s", of, letters)
			}
		}
	}
	if first := Earlier(bodies, 1).Bodies; strings.Trim(first, ofBodies) != "" {
		t.Errorf("bodies of the first version had %s", first)
	}
}
