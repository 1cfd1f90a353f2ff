package text

import (
	"io"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/layout"
	"pourboard/render/wording"
)

// Tiles lists tiles: their marks, what they are and where they lie.
func Tiles(w io.Writer, t *blend.Test, places *layout.Places, tiles []mark.Tile) error {
	g := table("llrlrrrl", "mark", "underneath", "cup", "body", "board", "row", "place", "contents")
	for _, tile := range tiles {
		spot := places.Spot(tile.Index)
		board := places.Boards[places.Tiles[tile.Index].Board].Number
		g.add(tile.Mark, tile.Under, strconv.Itoa(tile.Cell), t.Plan.Tiles.Bodies[tile.Body],
			strconv.Itoa(board), strconv.Itoa(spot.Row+1), strconv.Itoa(spot.Column+1),
			wording.Contents(t, t.Cells[tile.Cell-1]))
	}
	var p printer
	p.grid(g)
	return p.to(w)
}
