package record_test

import (
	"slices"
	"testing"

	. "pourboard/blend/record"
	"pourboard/blend/record/recordtest"
)

// A table from CSV has no name, lines instead of rows, and says which plan it is
// of by its rows alone.
func TestRead_table(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	sheets := m.BlankLog()[:1]
	sheets[0].Name = ""
	recordtest.Put(t, &sheets[0], "MR7P", "Rating", recordtest.Words("9"))
	log := m.Read(t, sheets)
	if log.Origin.Other || log.Origin.Fingerprint != m.Fingerprint || len(log.Notes) != 0 {
		t.Errorf("origin %+v, notes %q", log.Origin, log.Notes)
	}
	if got := recordtest.Complaints(log); got != "line 20, Rating: 9 skipped (1 to 5, whole or half)" {
		t.Errorf("%s", got)
	}
}

func TestRead_notes(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	sheets := m.BlankLog()
	s := &sheets[0]
	s.Rows[0].Cells[recordtest.Column(t, *s, "Gloss")] = recordtest.Words("Shine")
	s.Rows[0].Cells = append(s.Rows[0].Cells, recordtest.Words("RATING"))
	second := m.BlankLog()[0]
	second.Name = "Second reader"
	second.Rows[1].Cells[recordtest.Column(t, second, "Rating")] = recordtest.Number(4)
	log := m.Read(t, append(sheets, second))
	if log.Sheet != "Second reader" || len(log.Notes) != 0 { // it has all heads, and nothing is filled in in the other
		t.Errorf("read %q, notes %q", log.Sheet, log.Notes)
	}
	third := m.BlankLog()[0]
	third.Name = "Third reader"
	for i := range 3 {
		third.Rows[i+1].Cells[recordtest.Column(t, third, "Rating")] = recordtest.Number(4)
	}
	log = m.Read(t, append(sheets, second, third))
	if want := []string{`sheet "Second reader" has tiles filled in too; skipped, since sheet "Third reader" has more`}; !slices.Equal(log.Notes, want) {
		t.Errorf("notes %q, want %q", log.Notes, want)
	}
	log = m.Read(t, sheets)
	want := []string{
		"missing columns: Gloss",
		"unknown or repeated columns, skipped: Shine, RATING",
	}
	if !slices.Equal(log.Notes, want) {
		t.Errorf("notes %q, want %q", log.Notes, want)
	}
}

func TestRead_refused(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	blank := m.BlankLog()
	noMark := m.BlankLog()[:1]
	noMark[0].Rows[0].Cells[0] = recordtest.Words("Tile")
	const want = "no sheet has a row of heads such as Mark, Rating, Surface (keep the heads of the log)"
	for _, test := range []struct {
		sheets []Sheet
		want   string
	}{
		{nil, want},
		{blank[1:], want},
		{noMark, want},
	} {
		if log, err := Read(m.Test, test.sheets); err == nil || err.Error() != test.want {
			t.Errorf("got %v, %v\nwant %s", log, err, test.want)
		}
	}
}
