package book

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/record"
	"pourboard/blend/record/recordtest"
)

// made is a test with a log in which some tiles have a rating.
func made(t *testing.T, name, title, prefix string, ratings map[int]int) Source {
	t.Helper()
	m := recordtest.Planned(t, name, func(p *blend.Plan) { p.Title, p.Mark = title, prefix })
	log := &record.Log{}
	for i := range m.Scheme.Tiles() {
		if r, has := ratings[i]; has {
			log.Readings = append(log.Readings, record.Reading{Tile: m.Scheme.Tile(i), Rating: float64(r), Firing: record.FirstFiring})
		}
	}
	return Source{title + ".toml", m.Test, m.Scheme, []LogFile{{title + "-log.xlsx", log, m.Test}}, nil}
}

func chapter(t *testing.T, s Source) *Chapter {
	t.Helper()
	c := NewChapter(s)
	if c.Skipped != nil {
		t.Fatalf("%v were skipped", c.Skipped)
	}
	return c
}

// Every row of every log of a studio stands in the book once, or is skipped
// with the file that it is in.
func TestNewChapter_everyRowOnce(t *testing.T) {
	rng := rand.New(rand.NewPCG(19, 11))
	plans := []string{"triaxial", "line-series", "biaxial-series", "line"}
	for trial := range 40 {
		m := recordtest.Planned(t, plans[trial%len(plans)], nil)
		s := Source{Plan: "p.toml", Test: m.Test, Scheme: m.Scheme}
		type row struct {
			tile   int
			firing string
			rating float64
		}
		want := map[string]row{}
		refused := 0
		for l := range 1 + rng.IntN(3) {
			log := &record.Log{}
			for i := range m.Scheme.Tiles() {
				for _, firing := range []string{"A", "B"} {
					if rng.IntN(3) > 0 {
						continue
					}
					r := record.Reading{Tile: m.Scheme.Tile(i), Rating: float64(1 + rng.IntN(2)), Firing: firing}
					log.Readings = append(log.Readings, r)
					key := r.Mark + firing
					if was, twice := want[key]; !twice {
						want[key] = row{i, firing, r.Rating}
					} else if was.rating != r.Rating {
						refused++
					}
				}
			}
			s.Logs = append(s.Logs, LogFile{fmt.Sprintf("%d.xlsx", l), log, s.Test})
		}
		c := NewChapter(s)
		if len(c.Tiles) != len(want) || len(c.Skipped) != refused {
			t.Fatalf("%d rows and %d skipped, want %d and %d", len(c.Tiles), len(c.Skipped), len(want), refused)
		}
		for _, tile := range c.Tiles {
			w := want[tile.Mark+tile.Firing]
			at := m.Scheme.Tile(w.tile)
			if tile.Rating != w.rating || tile.Cell != at.Cell || tile.Body != m.Test.Plan.Tiles.Bodies[at.Body] {
				t.Errorf("%s in %s is %+v", tile.Mark, tile.Firing, tile)
			}
		}
	}
}

// What a tile is made of in the book is what its own test says of its cup.
func TestMix(t *testing.T) {
	for _, name := range []string{"triaxial", "line-series", "biaxial-pour", "line-stock"} {
		m := recordtest.Planned(t, name, nil)
		for i, cell := range m.Test.Cells {
			mix := newMix(m.Test, i)
			for k, p := range mix.Parts {
				want := 0.0
				if m.Test.Plan.Blend.HasSeries() {
					want = cell.Doses[k].GotPercent
				} else {
					want = 100 * cell.Pours[k].GotShare
				}
				if p.Percent != want {
					t.Errorf("%s, cup %d, %s: %v %%, want %v", name, i+1, p.Name, p.Percent, want)
				}
			}
			sum := 0.0
			for _, p := range mix.Recipe {
				if !p.Addition {
					sum += p.Percent
				}
			}
			// A material that is in one recipe and an addition to another counts
			// with both, so the recipe's lines may hold a little over 100.
			if sum < 100-1e-6 || sum > 103 {
				t.Errorf("%s, cup %d: the recipe sums to %v", name, i+1, sum)
			}
		}
	}
}

func TestBind_copies(t *testing.T) {
	rated := map[int]int{0: 3, 4: 5}
	first := chapter(t, made(t, "line-series", "Copper", "CU", rated))
	again := chapter(t, made(t, "line-series", "Copper", "CU", rated))
	again.Plan = "old/Copper.toml"
	other := chapter(t, made(t, "line-series", "Copper", "CU", map[int]int{0: 3, 4: 4}))
	other.Plan = "new/Copper.toml"
	b := Bind([]*Chapter{again, first, other}, nil)
	if len(b.Chapters) != 2 || b.Tiles != 4 {
		t.Fatalf("%d tests with %d rows, want 2 with 4: one copy agrees, one does not", len(b.Chapters), b.Tiles)
	}
	if len(b.Skipped) != 1 || b.Skipped[0].File != "old/Copper.toml" {
		t.Errorf("skipped: %v", b.Skipped)
	}
	if len(b.Twice) != 1 || b.Twice[0].Count != len(first.Marks) {
		t.Errorf("marks used twice: %+v, want all %d of the two that differ", b.Twice, len(first.Marks))
	}
}

// A log that was read by the plan that it carries joins that plan's test: its rows
// are added, and those that differ are skipped. Of two tests it joins neither.
func TestBind_logWithoutPlan(t *testing.T) {
	logged := chapter(t, made(t, "line-series", "Copper", "CU", map[int]int{0: 3, 4: 5}))
	alone := func(ratings map[int]int) *Chapter {
		s := made(t, "line-series", "Copper", "CU", ratings)
		s.Plan, s.Logs[0].File = "friend.xlsx", "friend.xlsx"
		return chapter(t, s)
	}
	b := Bind([]*Chapter{alone(map[int]int{4: 4, 5: 2}), logged}, nil)
	if len(b.Chapters) != 1 || b.Tiles != 3 || !slices.Equal(b.Chapters[0].Logs, []string{"Copper-log.xlsx", "friend.xlsx"}) {
		t.Errorf("%d tests, %d rows", len(b.Chapters), b.Tiles)
	}
	if len(b.Skipped) != 1 || b.Skipped[0].File != "friend.xlsx" || !strings.Contains(b.Skipped[0].Reason, "differs from Copper-log.xlsx") {
		t.Errorf("skipped: %v", b.Skipped)
	}
	again := chapter(t, made(t, "line-series", "Copper", "CU", map[int]int{7: 1}))
	again.Plan = "new/Copper.toml"
	b = Bind([]*Chapter{alone(map[int]int{5: 2}), again, chapter(t, made(t, "line-series", "Copper", "CU", map[int]int{0: 3}))}, nil)
	if len(b.Chapters) != 3 || b.Tiles != 3 {
		t.Errorf("%d tests, %d rows", len(b.Chapters), b.Tiles)
	}
}

func TestBind_columns(t *testing.T) {
	b := Bind([]*Chapter{
		chapter(t, made(t, "line-series", "Copper", "CU", map[int]int{9: 3})),
		chapter(t, made(t, "triaxial", "Ash", "AS", map[int]int{24: 2})),
		chapter(t, made(t, "line", "Empty", "EM", nil)),
	}, []Skip{{"z.toml", "broken"}})
	if got := strings.Join(b.Parts, "|"); got != "Copper carbonate|Field ash runny|Magnesia matte|Soda blue" {
		t.Errorf("columns %s", got)
	}
	if u := b.Unrecorded(); len(u) != 1 || u[0].Title != "Empty" {
		t.Errorf("without entries: %v", u)
	}
	if len(b.Skipped) != 1 {
		t.Errorf("skipped: %v", b.Skipped)
	}
	for _, name := range b.Parts {
		if !slices.ContainsFunc(b.Uses(name == "Copper carbonate"), func(u *Use) bool { return u.Part == name }) {
			t.Errorf("%s has no line in the index", name)
		}
	}
}

// A colourant's line names the best tile on each body, in the plan's order.
func TestUses(t *testing.T) {
	m := recordtest.Planned(t, "line-series", nil)
	rated, at := map[int]int{}, map[string]int{}
	for i := range m.Scheme.Tiles() {
		tile := m.Scheme.Tile(i)
		if body := m.Test.Plan.Tiles.Bodies[tile.Body]; tile.Cell > 1 && body != "Red" {
			rated[i] = 1 + (i*7)%5
			if was, has := at[body]; !has || rated[i] > rated[was] {
				at[body] = i
			}
		}
	}
	b := Bind([]*Chapter{chapter(t, made(t, "line-series", "Copper", "MC", rated))}, nil)
	uses := b.Uses(true)
	if len(uses) != 1 || uses[0].Rows != len(rated) || len(b.Uses(false)) != 0 {
		t.Fatalf("uses %+v", uses)
	}
	var got, want []string
	for _, best := range uses[0].Best {
		got = append(got, best.Body+" "+best.Mark)
	}
	for _, body := range []string{"Porcelain", "Buff"} {
		want = append(want, body+" "+m.Scheme.Tile(at[body]).Mark)
	}
	if !slices.Equal(got, want) {
		t.Errorf("best %v, want %v", got, want)
	}
}

func TestBest(t *testing.T) {
	b := Bind([]*Chapter{
		chapter(t, made(t, "line-series", "A", "CU", map[int]int{0: 4, 1: 3, 2: 5, 9: 4})), // three bodies a cup
		chapter(t, made(t, "line-series", "B", "CB", map[int]int{3: 4, 4: 5, 5: 4})),
	}, nil)
	var got []string
	for _, r := range b.Best(4) {
		text := r.Chapter.Title
		for _, tile := range r.Tiles {
			text += fmt.Sprint(" ", tile.Cell, tile.Body[:1], tile.Rating)
		}
		got = append(got, text)
	}
	if want := []string{"B 2B5 2P4 2R4", "A 1R5 1P4", "A 4P4"}; !slices.Equal(got, want) {
		t.Errorf("best %q, want %q", got, want)
	}
}

func TestDoubts(t *testing.T) {
	b := &Book{Parts: []string{"Ball clay", "Copper carbonate", "Feldspar", "Potash feldspar", "Rutile"}}
	b.doubts()
	want := [][2]string{{"Feldspar", "Potash feldspar"}}
	if !slices.Equal(b.Doubts, want) {
		t.Errorf("doubts %+v, want %+v", b.Doubts, want)
	}
}

// The same oxides from other materials are near; a neighbour of the same
// materials is not.
func TestFired_near(t *testing.T) {
	mix := func(feldspar string, silica, potash float64) *Mix {
		return &Mix{Recipe: []Part{{Name: feldspar, Percent: 60}, {Name: "Silica", Percent: 40}},
			Oxides: []oxide.Amount{{Oxide: "SiO2", Value: silica}, {Oxide: "K2O", Value: potash}}}
	}
	for _, test := range []struct {
		other *Mix
		want  bool
	}{
		{mix("Own feldspar", 71.5, 10.2), true},
		{mix("Own feldspar", 71.5, 11), false},
		{mix("Feldspar", 70.1, 10), false},
	} {
		b := &Book{Chapters: []*Chapter{{Plan: "old.toml", Tiles: []Tile{{Body: "Buff", Mix: test.other}}}}}
		test.other.Recipe[1].Percent += 0.5
		found := b.Fired("new.toml", []*Mix{mix("Feldspar", 70, 10)}, []string{"Buff"})
		if (len(found) == 1 && found[0].Near) != test.want {
			t.Errorf("%v: found %v", test.other, found)
		}
	}
}

// A cup that was fired before is found within both ±, by hand: 2 % ± 0.03 and
// 2.04 % ± 0.03 are the same (0.042 apart at most), 2.05 % is not.
func TestFired(t *testing.T) {
	mix := func(copper float64, feldspar string) *Mix {
		return &Mix{Recipe: []Part{{Name: feldspar, Percent: 60, PlusMinus: 0.05}, {Name: "Silica", Percent: 40, PlusMinus: 0.05},
			{Name: "Copper carbonate", Percent: copper, PlusMinus: 0.03, Addition: true}}}
	}
	for _, test := range []struct {
		other *Mix
		body  string
		want  bool
	}{
		{mix(2.04, "Feldspar"), "Buff", true},
		{mix(2.05, "Feldspar"), "Buff", false},
		{mix(2, "Soda feldspar"), "Buff", false},
		{mix(2, "Feldspar"), "Red", false},
	} {
		b := &Book{Chapters: []*Chapter{{Plan: "old.toml", Tiles: []Tile{{Body: test.body, Mix: test.other}}}}}
		found := b.Fired("new.toml", []*Mix{mix(2, "Feldspar")}, []string{"Buff"})
		if (len(found) == 1) != test.want {
			t.Errorf("%v on %s: found %v", test.other.Recipe, test.body, found)
		}
		if b.Fired("old.toml", []*Mix{mix(2, "Feldspar")}, []string{"Buff"}) != nil {
			t.Error("a test was compared with itself")
		}
	}
}

func TestCrate(t *testing.T) {
	b := Bind([]*Chapter{
		chapter(t, made(t, "line-series", "Copper", "CU", map[int]int{0: 4, 1: 4})),
		chapter(t, made(t, "line-series", "Iron", "B", nil)),
	}, nil)
	all, err := b.Crate([]string{"copper", "Iron"}, false)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.IsSortedFunc(all.Marks, compareNames) || !strings.HasPrefix(all.Marks[0], "B1") {
		t.Errorf("order %v", all.Marks)
	}
	if shared := all.Shared(); shared != nil {
		t.Errorf("%v are marks of two tests", shared)
	}
	twice := &Crate{Marks: []string{"CU1A", "CU2A", "CU2A", "CU2A", "CU3A", "CU3A"}}
	if got := twice.Shared(); !slices.Equal(got, []string{"CU2A", "CU3A"}) {
		t.Errorf("shared are %v", got)
	}
	missing, _ := b.Crate([]string{"copper"}, true)
	if want := b.Chapters[0].Planned - 2; len(missing.Marks) != want {
		t.Errorf("%d are missing, want %d", len(missing.Marks), want)
	}
	if _, err := b.Crate([]string{"Nobody"}, false); err == nil {
		t.Error("a crate of nothing has a list")
	}
	if compareNames("CU2A", "CU10A") >= 0 || compareNames("CU2A", "CU2C") >= 0 || compareNames("AZ9", "CU1") >= 0 {
		t.Error("marks are not in the order in which a person sorts them")
	}
}

// A tile that was fired twice stands once for each firing, with the cone, the
// date and the place of its own firing.
func TestNewChapter_firedTwice(t *testing.T) {
	s := made(t, "line-series", "Copper", "CU", map[int]int{0: 2, 1: 3})
	log := s.Logs[0].Log
	again := log.Readings[0]
	again.Firing, again.Rating = "B", 5
	log.Readings = append(log.Readings, again)
	log.Firings = []record.Firing{
		{Letter: "A", Entries: []record.Entry{{Label: "Cone", Value: "6"}, {Label: "Date", Value: "2026-03-01"}}},
		{Letter: "B", Entries: []record.Entry{{Label: "Cone", Value: "10"}, {Label: "Atmosphere", Value: "reduction"}, {Label: "Kept in", Value: "Crate 4"}}},
	}
	c := chapter(t, s)
	var got []string
	for _, tile := range c.Tiles {
		f := c.Firings.Of(tile.Firing)
		got = append(got, fmt.Sprint(tile.Cell, tile.Firing, tile.Rating, " ", f.Value("Cone"), f.Value("Atmosphere"), f.Value("Date"), f.Value(KeptInLabel)))
	}
	if want := []string{"1A2 62026-03-01", "1B5 10reductionCrate 4", "1A3 62026-03-01"}; !slices.Equal(got, want) {
		t.Errorf("tiles %q, want %q", got, want)
	}
	if c.Recorded("A") != 2 || c.Recorded("B") != 1 {
		t.Errorf("%d and %d rows", c.Recorded("A"), c.Recorded("B"))
	}
	kept := Bind([]*Chapter{c}, nil).KeptIn()
	if len(kept) != 1 || kept[0].Place != "Crate 4" || kept[0].Tests[0].Firing != "B" {
		t.Errorf("kept in %+v", kept)
	}
}

// A dose that came out as twice the planned one counts, by hand: the percentage
// is twice the one of the plan. A cup that was spilled is skipped.
func TestNewChapter_asDone(t *testing.T) {
	s := made(t, "line-series", "Copper", "CU", map[int]int{3: 2, 6: 3})
	cell := s.Test.Cells[1]
	s.Logs[0].Log.Cups = []record.CupEntry{
		{Done: blend.Done{Cup: 2, Dosed: map[int]float64{0: 2 * cell.Doses[0].MeasuredG}}},
		{Done: blend.Done{Cup: 3}, Mishap: "spilled"},
	}
	c := NewChapter(s)
	if len(c.Tiles) != 1 || len(c.Skipped) != 1 || !strings.Contains(c.Skipped[0].Reason, "cup 3 was forgotten or spilled") {
		t.Fatalf("%d tiles, skipped %v", len(c.Tiles), c.Skipped)
	}
	if got, want := c.Tiles[0].Mix.Parts[0].Percent, 2*cell.Doses[0].GotPercent; math.Abs(got-want) > 1e-9 {
		t.Errorf("%v %%, want %v", got, want)
	}
}

// A half-lost mark is looked for in every test.
func TestFind(t *testing.T) {
	b := Bind([]*Chapter{
		chapter(t, made(t, "line-series", "Copper", "CU", map[int]int{0: 4})),
		chapter(t, made(t, "line-series", "Iron", "FE", nil)),
		chapter(t, made(t, "line-series", "Copper again", "CU", map[int]int{5: 1})),
	}, nil)
	first := b.Chapters[0].scheme.Tile(0)
	found, how := b.Find(first.Mark, "")
	if how != Exactly || len(found) != 2 || len(found[0].Rows) != 1 || found[1].Rows != nil {
		t.Errorf("%s: %v, %d found", first.Mark, how, len(found))
	}
	for i := range b.Chapters[2].scheme.Tiles() {
		tile := b.Chapters[2].scheme.Tile(i) // of the iron test, whose marks no other has
		for at := len("FE"); at < len(tile.Mark); at++ {
			lost := tile.Mark[:at] + "?" + tile.Mark[at+1:]
			found, how := b.Find(lost, "")
			if how != Likely || !slices.ContainsFunc(found, func(f Found) bool { return f.Tile.Mark == tile.Mark && f.Penalty == 0 }) {
				t.Errorf("%s does not find %s", lost, tile.Mark)
			}
		}
	}
	if _, how := b.Find("QXQX99", ""); how != NotFound {
		t.Error("a mark of nothing is found")
	}
	tile := b.Chapters[2].scheme.Tile(4)
	if found, how := b.Find(tile.Under[:len(tile.Under)-1]+"?", b.Chapters[2].bodies[tile.Body]); how != Likely || found[0].Tile.Mark != tile.Mark {
		t.Errorf("underneath: %v %+v", how, found)
	}
}
