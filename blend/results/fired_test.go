package results_test

import (
	"slices"
	"testing"

	"pourboard/blend"
	"pourboard/blend/record"
	"pourboard/blend/record/recordtest"
	. "pourboard/blend/results"
	"pourboard/render/wording"
)

// TestEvaluate_firedTwice holds that a tile read in two firings is two results
// and not their mean; the rest worked by hand.
func TestEvaluate_firedTwice(t *testing.T) {
	m := recordtest.Planned(t, "line", func(p *blend.Plan) {
		p.Tiles.Repeats, p.Tiles.Bodies, p.Log.Numbers = 1, []string{"Buff", "Red"}, []string{"Gloss"}
		p.Blend.Cells = 5
	})
	sheets := m.BlankLog()
	s := &sheets[0]
	blank := len(s.Rows)
	put := func(row int, cell, body int, firing, gloss string) {
		at := m.Scheme.IndexOf(cell, body, 0)
		of := m.Scheme.Tile(at).Mark
		if row > 0 { // another row of the same tile
			for _, r := range s.Rows[:blank] {
				if r.Cells[0].Text == of {
					s.Rows = append(s.Rows, record.Row{Number: len(s.Rows) + 1, Cells: slices.Clone(r.Cells)})
				}
			}
			last := s.Rows[len(s.Rows)-1:]
			one := record.Sheet{Name: s.Name, Rows: append([]record.Row{s.Rows[0]}, last...)}
			recordtest.Put(t, &one, of, "Gloss", recordtest.Words(gloss))
			recordtest.Put(t, &one, of, record.HeadFiring, recordtest.Words(firing))
			s.Rows[len(s.Rows)-1] = one.Rows[1]
			return
		}
		recordtest.Put(t, s, of, "Gloss", recordtest.Words(gloss))
	}
	for cell, gloss := range []string{"10", "20", "30", "40"} {
		put(0, cell+1, 0, "A", gloss)
		put(0, cell+1, 1, "A", gloss)
	}
	put(1, 1, 0, "B", "90") // cup 1 on buff again
	log := m.Read(t, sheets)
	if len(log.Readings) != 9 || len(log.Complaints) > 0 {
		t.Fatalf("%d readings, %v", len(log.Readings), log.Complaints)
	}
	r := Evaluate(m.Test, log)
	if r.Tiles != 8 {
		t.Errorf("%d tiles recorded, want 8", r.Tiles)
	}
	var names []string
	for at := range r.Fired {
		names = append(names, wording.BodyText(r, at))
	}
	if want := []string{"Buff, firing A", "Buff, firing B", "Red"}; !slices.Equal(names, want) {
		t.Fatalf("results of %q, want %q", names, want)
	}
	gloss := measureOf(t, r, "Gloss")
	for at, want := range [][]float64{{10, 20, 30, 40}, {90}, {10, 20, 30, 40}} {
		for cell, x := range want {
			if mean := gloss.Means[at][cell]; mean.N != 1 || mean.Value != x {
				t.Errorf("%s: cup %d is %+v, want %v once", names[at], cell+1, mean, x)
			}
		}
	}
	// Together the bodies are compared in the firing with most cups, A.
	all := gloss.Highest[0]
	if all.Body != AllBodies || all.Of != 4 || all.Ranks[0].Value != 40 || all.Ranks[0].Cells[0] != 4 {
		t.Errorf("of all bodies %+v", all)
	}
	if got := wording.RankingText(r, gloss, all); got != "all bodies, firing A" {
		t.Errorf("of all bodies: %q, which is of one firing", got)
	}
	if got := r.Missing; len(got) != 2 || !slices.Equal(got[0].Cells, []int{5}) || !slices.Equal(got[1].Cells, []int{5}) {
		t.Errorf("missing %+v", got)
	}
	// Different tiles in different firings are results of one body still.
	log.Readings = slices.DeleteFunc(log.Readings, func(x record.Reading) bool { return x.Cell == 1 && x.Firing == "A" && x.Body == 0 })
	if once := Evaluate(m.Test, log); len(once.Fired) != 2 {
		t.Errorf("results of %+v where no tile was fired twice", once.Fired)
	}
}
