package layout

import "pourboard/blend"

// PourOrder is the order in which an end is poured: the cells (indexes into
// Test.Cells) that take any of it, back and forth along the rows of each layer,
// so that the hand never crosses the board between two cups. A negative end
// means every cell.
func PourOrder(t *blend.Test, end int) []int {
	order := make([]int, 0, len(t.Cells))
	for from := 0; from < len(t.Cells); {
		to, row := from, &t.Cells[from]
		for to < len(t.Cells) && t.Cells[to].Row == row.Row && t.Cells[to].Layer == row.Layer {
			to++
		}
		for k := from; k < to; k++ {
			i := k
			if row.Row%2 == 1 {
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
func DipOrder(t *blend.Test, p *Places) []int {
	order := make([]int, 0, len(p.Tiles))
	for _, i := range PourOrder(t, -1) {
		first := p.Scheme.IndexOf(t.Cells[i].Number, 0, 0)
		for k := range p.Scheme.copies {
			order = append(order, first+k)
		}
	}
	return order
}
