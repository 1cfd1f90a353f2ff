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
	g := grid{left: []bool{true, true, false, true}}
	g.add("mark", "underneath", "cup", "body", "board", "row", "place", "contents")
	g.left = append(g.left, false, false, false, true)
	g.rule()
	for _, tile := range tiles {
		spot := places.Spot(tile.Index)
		g.add(tile.Mark, tile.Under, strconv.Itoa(tile.Cell), oneLine(t.Plan.Tiles.Bodies[tile.Body]),
			strconv.Itoa(places.Boards[places.Tiles[tile.Index].Board].Number), strconv.Itoa(spot.Row+1), strconv.Itoa(spot.Column+1),
			oneLine(wording.Contents(t, t.Cells[tile.Cell-1])))
	}
	return g.write(w)
}
