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
			for _, s := range card.Spots {
				if tile := p.Tiles[s.Tile]; tile.Body != card.Body || tile.Repeat != card.Repeat {
					t.Errorf("tile %d lies on a card of body %d", s.Tile, card.Body)
				}
				taken = append(taken, s.Rect, s.Caption, s.Square)
				tiles = append(tiles, s.Tile)
			}
			for i, r := range taken {
				if !r.inside(card.View) || slices.ContainsFunc(taken[:i], r.meets) {
					t.Errorf("%v is not alone within %v", r, card.View)
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
