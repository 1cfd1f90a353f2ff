package text

import (
	"fmt"
	"io"
	"strconv"

	"pourboard/blend"
	"pourboard/layout"
)

// Tiles lists tiles: their marks, what they are and where they lie.
func Tiles(w io.Writer, t *blend.Test, places *layout.Places, tiles []layout.Tile) error {
	g := grid{left: []bool{true, true, false, true}}
	g.add("mark", "underneath", "cup", "body", "board", "row", "place", "what is in it")
	g.left = append(g.left, false, false, false, true)
	g.rule()
	for _, tile := range tiles {
		spot := places.Spot(tile.Index)
		g.add(tile.Mark, tile.Under, strconv.Itoa(tile.Cell), oneLine(t.Plan.Tiles.Bodies[tile.Body]),
			strconv.Itoa(places.Boards[places.Tiles[tile.Index].Board].Number), strconv.Itoa(spot.Row+1), strconv.Itoa(spot.Column+1),
			oneLine(mixture(t, t.Cells[tile.Cell-1])))
	}
	return g.write(w)
}

// mixture says in a line what was asked of a cell.
func mixture(t *blend.Test, c blend.Cell) string {
	text := ""
	add := func(part string) {
		if text != "" {
			text += ", "
		}
		text += part
	}
	if !t.Plan.Blend.HasSeries() {
		for e, x := range c.Shares {
			if x > 0 {
				add(fmt.Sprintf("%s %% %s", blend.ShareText(x), t.Ends[e].Name))
			}
		}
		return text
	}
	for s, d := range c.Doses {
		add(fmt.Sprintf("%s %% %s", d.PercentText(), t.Plan.Blend.Series[s].Material))
	}
	return text
}
