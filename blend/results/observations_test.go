package results_test

import (
	"slices"
	"strings"
	"testing"

	"pourboard/blend/mark"
	"pourboard/blend/record/recordtest"
	. "pourboard/blend/results"
	"pourboard/render/wording"
)

// saidResults is results of a triaxial of which cells 1 and 2 were read on each of
// its bodies.
func saidResults(t *testing.T, defects, surfaces []string) *Results {
	t.Helper()
	m := recordtest.Planned(t, "triaxial", nil)
	sheets := m.BlankLog()
	m.Fill(t, &sheets[0], "Rating", func(tile mark.Tile) float64 {
		if tile.Cell > 2 {
			return 1
		}
		return 5
	})
	for i, mark := range []string{"MR1P", "MR1U"} {
		recordtest.Put(t, &sheets[0], mark, "Defects", recordtest.Words(defects[i]))
		recordtest.Put(t, &sheets[0], mark, "Surface", recordtest.Words(surfaces[i]))
		recordtest.Put(t, &sheets[0], mark, "Notes", recordtest.Words("note "+mark))
	}
	return Evaluate(m.Test, m.Read(t, sheets))
}

// What was written of a cell is counted by its tiles, and a first place says
// what is wrong with it.
func TestSaid(t *testing.T) {
	r := saidResults(t, []string{"Crawling, pinholes", "crawling"}, []string{"gloss", "shiny"})
	s := r.Observations(1, AllBodies)
	bodies := len(r.Test.Plan.Tiles.Bodies)
	if s.Tiles != bodies || bodies < 3 {
		t.Fatalf("%d tiles of %d bodies", s.Tiles, bodies)
	}
	if got := wording.CountsText(s, s.Defects); got != "Crawling 2 of 3, pinholes 1 of 3" {
		t.Errorf("defects %q", got)
	}
	if want := []string{"MR1P: note MR1P", "MR1U: note MR1U"}; !slices.Equal(s.Notes, want) {
		t.Errorf("notes %q, want %q", s.Notes, want)
	}
	if !r.Observations(2, AllBodies).Empty() {
		t.Error("something was written of cell 2")
	}
	one := r.Observations(1, 0)
	if got := wording.CountsText(one, one.Defects); got != "Crawling, pinholes" {
		t.Errorf("defects on one body %q", got)
	}
	rating := measureOf(t, r, "Rating")
	last := rating.Highest[0]
	if got := wording.RankedText(r, rating, last.Body, last.Ranks[0]); got != "1. cups 1-2 (tie): 5.0, but cup 1 Crawling 2 of 3, pinholes 1 of 3" {
		t.Errorf("ranked %q", got)
	}
}

// What was entered comes back, "none" as well; it is no fault.
func TestSaid_none(t *testing.T) {
	r := saidResults(t, []string{"none", "–"}, []string{"mattte", "Matte"})
	if s := r.Observations(1, AllBodies); wording.CountsText(s, s.Defects) != "none 1 of 3, – 1 of 3" || len(s.Faults()) != 0 {
		t.Errorf("defects %v, faults %v", s.Defects, s.Faults())
	}
}

// What is entered under a coat comes back with its coat.
func TestSaid_coats(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	sheets := m.BlankLog()
	m.Fill(t, &sheets[0], "Rating", func(tile mark.Tile) float64 { return float64(1 + tile.Cell%5) })
	recordtest.Put(t, &sheets[0], "MR1P", "Coat 3", recordtest.Words("runs, ran onto shelf"))
	r := Evaluate(m.Test, m.Read(t, sheets))
	s := r.Observations(1, AllBodies)
	if got := strings.Join(wording.ObservationTexts(s), "; "); got != "coat 3 runs, ran onto shelf 1 of 3" || s.Empty() {
		t.Errorf("said %q", got)
	}
	if got := wording.ObservationTexts(r.Observations(2, AllBodies)); got != nil {
		t.Errorf("of cup 2 nothing was entered, said %q", got)
	}
}
