package layout

import "pourboard/blend"

// CupRow is a row that cups stand in, of a mat or of a layer of the design.
type CupRow struct{ Mat, Row int }

// CupRows is the row in which the cup of each cell stands: on the mats, or
// without mats as the design has it. A line or list is one row, wherever it goes
// on to the next: its cups are best met in their order.
func CupRows(t *blend.Test, mats []Board) []CupRow {
	rows := make([]CupRow, 0, len(t.Cells))
	if kind := t.Plan.Blend.Kind; kind == blend.Line || kind == blend.List {
		mats = nil
	}
	for k := range mats {
		for i := range mats[k].Spots {
			rows = append(rows, CupRow{k, mats[k].Spots[i].Row})
		}
	}
	if mats == nil {
		for i := range t.Cells {
			rows = append(rows, CupRow{t.Cells[i].Layer, t.Cells[i].Row})
		}
	}
	return rows
}

// PourOrder is the order in which an end is poured: the cells (indexes into
// Test.Cells) that take any of it, back and forth along the rows of the cups'
// mats, so that the hand never crosses them between two cups. A negative end
// means every cell.
func PourOrder(t *blend.Test, mats []Board, end int) []int {
	rows := CupRows(t, mats)
	order := make([]int, 0, len(t.Cells))
	for from := 0; from < len(rows); {
		to := from
		for to < len(rows) && rows[to] == rows[from] {
			to++
		}
		for k := from; k < to; k++ {
			i := k
			if rows[from].Row%2 == 1 {
				i = from + to - 1 - k
			}
			if end < 0 || t.Cells[i].Pours[end].ML > 0 {
				order = append(order, i)
			}
		}
		from = to
	}
	return order
}

// DipOrder is the order of dipping one coat: cup by cup in the order of
// pouring, and all tiles of a cup while it is stirred. The next coat takes the
// same way, when the first tile has dried for as long as all the others took.
func DipOrder(t *blend.Test, p *Places, mats []Board) []int {
	order := make([]int, 0, len(p.Tiles))
	for _, i := range PourOrder(t, mats, -1) {
		first := p.Scheme.IndexOf(t.Cells[i].Number, 0, 0)
		for k := range p.Scheme.Copies() {
			order = append(order, first+k)
		}
	}
	return order
}
