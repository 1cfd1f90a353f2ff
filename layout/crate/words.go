package crate

import (
	"fmt"

	"pourboard/layout"
)

// The printed forms of what was read and worked out: every page, table and
// workbook takes them from here.

// PlaceText says where a tile lies: "board 1, row 2, place 3".
func PlaceText(places *layout.Places, tile int) string {
	at := places.Tiles[tile]
	board := &places.Boards[at.Board]
	spot := board.Spots[at.Spot]
	return fmt.Sprintf("board %d, row %d, place %d", board.Number, spot.Row+1, spot.Column+1)
}
