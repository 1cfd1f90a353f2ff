package mark

import (
	"strings"
	"testing"
)

func marksOf(c []Candidate, most int) string {
	var all []string
	for _, one := range c[:min(most, len(c))] {
		all = append(all, one.Mark)
	}
	return strings.Join(all, " ")
}

func TestCandidates(t *testing.T) {
	one, three := scheme("MR", 66, 1, 1), scheme("MR", 66, 3, 1)
	ofBody := func(b int) func(Tile) bool { return func(t Tile) bool { return t.Body == b } }
	for _, c := range []struct {
		s       Scheme
		pattern string
		keep    func(Tile) bool
		first   string // the first tiles, in order
		all     int    // how many, -1 when it does not matter
	}{
		{one, "MR7", nil, "MR7", -1},
		{one, "M?7", nil, "MR7", -1},
		{one, "mr 5?", nil, "MR5 MR50 MR51 MR52 MR53 MR54 MR55 MR56 MR57 MR58 MR59", -1}, // MR5 and its check letter
		{one, "M*66", nil, "MR66", -1},
		{three, "M?7", nil, "MR7P MR7U MR7R", -1},
		{three, "M?7", ofBody(1), "MR7U", -1},
		{three, "MR7?", ofBody(2), "MR7R", -1},
		{three, "MRIOP", nil, "MR10P", -1},   // the letters are in no mark
		{three, "MR1ZP", nil, "MR12P", -1},   // nor is Z
		{three, "MRSBU", nil, "MR58U", -1},   // S, B
		{three, "MR7RU", nil, "MR7R", -1},    // (7+1+3+k): that is the check letter
		{three, "*U", ofBody(1), "MR1U", 66}, // every tile of the body
		{three, "XX7A", nil, "", 0},
		{three, "", nil, "", 0},
		{three, "**", nil, "", 0},
		{three, strings.Repeat("?", 40), nil, "", 0},
	} {
		if strings.HasSuffix(c.pattern, "RU") {
			c.pattern = c.s.Tile(20).Under
		}
		got := c.s.Candidates(c.pattern, c.keep)
		if first := marksOf(got, max(1, len(strings.Fields(c.first)))); first != c.first {
			t.Errorf("Candidates(%q) starts with %s, want %s", c.pattern, first, c.first)
		}
		if c.all >= 0 && len(got) != c.all {
			t.Errorf("Candidates(%q) has %d tiles, want %d", c.pattern, len(got), c.all)
		}
		for i := 1; i < len(got); i++ {
			if got[i].Penalty < got[i-1].Penalty {
				t.Errorf("Candidates(%q): %s after %s", c.pattern, got[i].Mark, got[i-1].Mark)
			}
		}
	}
	// The underside with one sign gone is one tile and its like, that one first.
	for i := range three.Tiles() {
		tile := three.Tile(i)
		for at := range len(tile.Under) - 1 {
			pattern := tile.Under[:at] + "?" + tile.Under[at+1:]
			if got := three.Candidates(pattern, nil); len(got) == 0 || got[0].Tile != tile {
				t.Fatalf("Candidates(%s) = %s, want %s first", pattern, marksOf(got, 3), tile.Mark)
			}
		}
	}
}

// Without ? and * a mark may have slips.
func TestCandidates_slips(t *testing.T) {
	s := scheme("MR", 66, 3, 1)
	for _, c := range []struct{ mark, want string }{
		{"MR7 P", "MR7P"},
		{"MR1ZP", "MR12P"}, // Z is read for 2
		{"MP7P", "MR7P"},   // R without its leg
		{"MRR7P", "MR7P"},  // one too many
		{"M7P", "MR7P"},    // one lost
		{"RM7P", "MR7P"},   // changed places
		{"7P", "MR7P"},     // without the prefix
		{"MR7", "MR7P"},    // without the copy
		{"MR77U", "MR17U"}, // 7 for 1, the commonest
		{"nothing", ""},
		{"", ""},
		{strings.Repeat("M", 100), ""},
	} {
		if got := marksOf(s.Candidates(c.mark, nil), 1); got != c.want {
			t.Errorf("Candidates(%q) is %q, want %q", c.mark, got, c.want)
		}
	}
	if got := marksOf(s.Candidates("MR7", nil), 3); got != "MR7P MR7U MR7R" {
		t.Errorf("Candidates of MR7 are %s", got)
	}
}

// TestRepair_uncertain holds that two errors are not put right, and that
// nothing is chosen where several tiles can be meant.
func TestRepair_uncertain(t *testing.T) {
	s := scheme("", 66, 1, 1)
	// 12 has the check letter R (2+3 = 5). 22R: cell 12 with its first digit
	// wrong, or 22 with the check letter wrong (U, 6).
	if got, certain := s.Repair("22R", nil); certain {
		t.Errorf("Repair(22R) takes %s, though 12P and 22U are as near", got.Mark)
	}
	if got, certain := s.Repair("22R", func(t Tile) bool { return t.Cell == 12 || t.Cell == 40 }); !certain || got.Cell != 12 {
		t.Errorf("Repair(22R) among cells 12 and 40 is %s, %v", got.Mark, certain)
	}
	if got, certain := s.Repair("??R", nil); certain {
		t.Errorf("Repair(??R) takes %s", got.Mark)
	}
	if got, certain := s.Repair("1O", nil); certain {
		t.Errorf("Repair(1O) takes %s, though it may be 10", got.Mark)
	}
	if got, certain := s.Repair("#2R", nil); !certain || got.Cell != 12 {
		t.Errorf("Repair(#2R) is %s, %v; no other digit fits the check sign", got.Mark, certain)
	}
}

// FuzzRead looks for text that upsets the readers, and for marks that Read and
// Candidates take for different tiles.
func FuzzRead(f *testing.F) {
	for _, text := range []string{"MR7P", "MR7PK", "M?7*", "mr-10 u", "\xff\xfe", "Ж7", "**?"} {
		f.Add(text)
	}
	s := scheme("MR", 66, 3, 1)
	f.Fuzz(func(t *testing.T, text string) {
		tile, err := s.Read(text)
		found := s.Candidates(text, nil)
		s.Repair(text, nil)
		if err != nil {
			if strings.Contains(err.Error(), "\n") {
				t.Errorf("error of several lines: %v", err)
			}
			return
		}
		if len(found) == 0 || found[0].Tile != tile {
			t.Errorf("Read(%q) = %s, Candidates start with %s", text, tile.Mark, marksOf(found, 1))
		}
	})
}

func BenchmarkCandidates_600(b *testing.B) {
	s := scheme("MR", 200, 3, 1)
	for b.Loop() {
		s.Candidates("M?7", nil)
	}
}

func BenchmarkMarks_200000(b *testing.B) {
	s := scheme("MR", 100_000, 2, 1)
	for b.Loop() {
		for i := range s.Tiles() {
			s.Tile(i)
		}
	}
}
