package crate

import (
	"slices"
	"strings"
	"testing"
)

// A table from CSV has no name, no fingerprint, and lines instead of rows.
func TestRead_table(t *testing.T) {
	m := planned(t, "triaxial", nil)
	sheets := m.blankLog()[:1]
	sheets[0].Name = ""
	put(t, &sheets[0], "MR7A", "Rating", words("9"))
	log := m.read(t, sheets)
	if log.Origin.Other || log.Origin.Fingerprint != "" || len(log.Notes) != 1 || !strings.Contains(log.Notes[0], "does not say which plan") {
		t.Errorf("origin %+v, notes %q", log.Origin, log.Notes)
	}
	if got := complaints(log); got != "line 20, Rating: 9 is left out (a whole number from 1 to 5)" {
		t.Errorf("%s", got)
	}
}

func TestRead_notes(t *testing.T) {
	m := planned(t, "triaxial", nil)
	sheets := m.blankLog()
	s := &sheets[0]
	s.Rows[0].Cells[column(t, *s, "Gloss")] = words("Shine")
	s.Rows[0].Cells = append(s.Rows[0].Cells, words("RATING"))
	second := m.blankLog()[0]
	second.Name = "Second reader"
	second.Rows[1].Cells[column(t, second, "Rating")] = numberCell(4)
	log := m.read(t, append(sheets, second))
	if log.Sheet != "Second reader" || len(log.Notes) != 0 { // it has all heads, and nothing is filled in in the other
		t.Errorf("read %q, notes %q", log.Sheet, log.Notes)
	}
	third := m.blankLog()[0]
	third.Name = "Third reader"
	for i := range 3 {
		third.Rows[i+1].Cells[column(t, third, "Rating")] = numberCell(4)
	}
	log = m.read(t, append(sheets, second, third))
	if want := []string{`sheet "Second reader" has tiles filled in too and is not read, for sheet "Third reader" has more`}; !slices.Equal(log.Notes, want) {
		t.Errorf("notes %q, want %q", log.Notes, want)
	}
	log = m.read(t, sheets)
	want := []string{
		"columns that are missing: Gloss",
		"columns that the log does not know and that are not read: Shine",
		"columns that stand there twice and are read where they stand first: RATING",
	}
	if !slices.Equal(log.Notes, want) {
		t.Errorf("notes %q, want %q", log.Notes, want)
	}
}

func TestRead_refused(t *testing.T) {
	m := planned(t, "triaxial", nil)
	blank := m.blankLog()
	noMark := m.blankLog()[:1]
	noMark[0].Rows[0].Cells[0] = words("Tile")
	for _, test := range []struct {
		sheets []Sheet
		want   string
	}{
		{nil, "no sheet with a row of heads such as Mark, Coat 1, Coat 2, Coat 3, Surface, Defects"},
		{blank[1:], "no sheet with a row of heads such as Mark, Coat 1, Coat 2, Coat 3, Surface, Defects"},
		{noMark, `sheet "Tiles" has no column "Mark": every row of a log begins with the mark of its tile`},
	} {
		if log, err := Read(m.test, m.places, test.sheets, "", nil); err == nil || err.Error() != test.want {
			t.Errorf("got %v, %v\nwant %s", log, err, test.want)
		}
	}
}
