package layout

import (
	"cmp"
	"slices"
	"testing"

	"pourboard/blend"
)

// Every tile lies once on a card of its body and repeat, whole, over nothing
// else, by cup, or in random order where the plan asks for it.
func TestTrays(t *testing.T) {
	each(t, designs(), func(t *testing.T, test *blend.Test) {
		p := Boards(test)
		var tiles []int
		for _, card := range Trays(test, p, SheetOf(test.Plan.Board)) {
			var taken []Rect
			first := p.Tiles[card.Board.Spots[0].Tile]
			for _, s := range card.Board.Spots {
				if tile := p.Tiles[s.Tile]; tile.Body != first.Body || tile.Repeat != first.Repeat {
					t.Errorf("tile %d lies on a card of body %d", s.Tile, first.Body)
				}
				square := Rect{X: s.Caption.Right() + 1, Y: s.Caption.Y + 3, W: squareMM, H: squareMM}
				taken = append(taken, s.Rect, s.Caption, square)
				tiles = append(tiles, s.Tile)
			}
			for i, r := range taken {
				if view := card.Pages[0].View; !r.inside(view) || slices.ContainsFunc(taken[:i], r.meets) {
					t.Errorf("%v is not alone within %v", r, view)
				}
			}
		}
		byCup := func(a, b int) int { return cmp.Compare(p.Tiles[a].Cell, p.Tiles[b].Cell) }
		if first := tiles[:len(test.Cells)]; slices.IsSortedFunc(first, byCup) == test.Plan.Board.Shuffle {
			t.Errorf("tiles lie in the order %v", first)
		}
		slices.Sort(tiles)
		for i, tile := range tiles {
			if i != tile || len(tiles) != len(p.Tiles) {
				t.Fatalf("of %d tiles, the cards have %v", len(p.Tiles), tiles)
			}
		}
	})
}
