package results_test

import (
	"slices"
	"testing"

	"pourboard/blend"
	"pourboard/blend/record"
	"pourboard/blend/record/recordtest"
	. "pourboard/blend/results"
)

// TestEvaluate_cups holds what the sheet of cups says: a pour that came out
// otherwise moves the cup, and tiles of a lost cup are in no result.
func TestEvaluate_cups(t *testing.T) {
	m := recordtest.Planned(t, "line", func(p *blend.Plan) { p.Log.Numbers = []string{"Gloss"} })
	sheets := m.BlankLog()
	for i := range m.Scheme.Tiles() {
		recordtest.Put(t, &sheets[0], m.Scheme.Tile(i).Mark, "Gloss", recordtest.Number(float64(i)))
	}
	cups := record.Sheet{Name: "Cups"}
	var heads record.Row
	columns := record.CupColumns(m.Test)
	for _, c := range columns {
		heads.Cells = append(heads.Cells, recordtest.Words(c.Head))
	}
	cups.Rows = append(cups.Rows, heads)
	row := func(cup float64, field record.Field, cell record.Cell) {
		r := record.Row{Number: len(cups.Rows) + 1, Cells: make([]record.Cell, len(columns))}
		r.Cells[0] = recordtest.Number(cup)
		for i, c := range columns {
			if c.Field == field && c.Index == 0 {
				r.Cells[i] = cell
			}
		}
		cups.Rows = append(cups.Rows, r)
	}
	row(1, record.PourEntered, record.Cell{})
	row(2, record.PourEntered, recordtest.Number(20))
	row(3, record.MishapField, recordtest.Words("forgotten"))
	row(4, record.MishapField, recordtest.Words("spilled"))
	row(5, record.MishapField, recordtest.Words("looked odd"))
	row(99, record.MishapField, recordtest.Words("spilled"))
	log := m.Read(t, append(sheets, cups))
	if got := log.Lost(); !slices.Equal(got, []int{3, 4}) {
		t.Errorf("lost are %v", got)
	}
	done := log.Done()
	if len(done) != 1 || done[0].Cup != 2 || done[0].Poured[0] != 20 {
		t.Errorf("done otherwise: %+v", done)
	}
	if len(log.Complaints) != 1 || log.Complaints[0].Row != 7 {
		t.Errorf("complaints %v", log.Complaints)
	}
	r := Evaluate(m.Test, log)
	copies := m.Scheme.Tiles() / len(m.Test.Cells)
	if want := m.Scheme.Tiles() - 2*copies; r.Tiles != want {
		t.Errorf("%d tiles in the results, want %d", r.Tiles, want)
	}
	if r.Test.Cells[1].Pours[0].Got.ML != 20 || m.Test.Cells[1].Pours[0].Got.ML == 20 {
		t.Errorf("cup 2 was poured %+v, is %+v", m.Test.Cells[1].Pours[0], r.Test.Cells[1].Pours[0])
	}
	if r.Point(2)[0] >= PointOf(m.Test, 2)[0] {
		t.Errorf("cup 2 lies at %v, as planned at %v", r.Point(2), PointOf(m.Test, 2))
	}
}
