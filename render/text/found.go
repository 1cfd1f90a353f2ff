package text

import (
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/book"
	"pourboard/blend/mark"
	"pourboard/blend/quantity"
	"pourboard/blend/record"
	"pourboard/layout"
	"pourboard/render/wording"
)

// Found lists tiles of several tests, a row for each firing: what they are, and
// where they are kept.
func Found(found []book.Found) string {
	g := table("llrlllrll", "mark", "underneath", "cup", "body", "firing", "kept in", "rating", "plan", "test")
	for _, f := range found {
		row := func(fired, keptIn, rating string) {
			g.add(f.Tile.Mark, f.Tile.Under, strconv.Itoa(f.Tile.Cell), f.Body, fired, keptIn, rating,
				f.Chapter.Plan, f.Chapter.Title)
		}
		for _, r := range f.Rows {
			firing := f.Chapter.Firings.Of(r.Firing)
			row(firedText(firing), firing.Value(book.KeptInLabel), ratingText(r))
		}
		if f.Rows == nil {
			row("not recorded", "", "")
		}
	}
	return g.String()
}

// firedText is a firing in a few words: "A, cone 6, 2026-03-01".
func firedText(f record.Firing) string {
	text := f.Letter
	if cone := f.Value("Cone"); cone != "" {
		text += ", cone " + cone
	}
	if date := f.Value("Date"); date != "" {
		text += ", " + date
	}
	return text
}

func ratingText(t *book.Tile) string {
	if t.Rating == 0 {
		return ""
	}
	return quantity.AtMost(t.Rating, 1)
}

// Fired lists tiles of earlier tests that are made like cups of a plan, at most four
// of each, with what was entered of them.
func Fired(matches []book.Match) string {
	const most = 4
	of := map[int]int{} // by cup, its matches
	g := table("rllrlll", "cup", "mark", "body", "rating", "firing", "test", "entered")
	for i, m := range matches {
		if of[m.Cup]++; of[m.Cup] <= most {
			cup := ""
			if of[m.Cup] == 1 {
				cup = strconv.Itoa(m.Cup)
			}
			g.add(cup, m.Tile.Mark, m.Tile.Body, ratingText(m.Tile), firedText(m.Chapter.Firings.Of(m.Tile.Firing)),
				m.Chapter.Title, entered(m))
		}
		if last := i == len(matches)-1 || matches[i+1].Cup != m.Cup; last && of[m.Cup] > most {
			g.add("", "", "", "", "", "", "and "+strconv.Itoa(of[m.Cup]-most)+" more")
		}
	}
	return g.String()
}

// entered is what was entered of a tile in one line. That it has no defects is
// not said.
func entered(m book.Match) string {
	var words []string
	if m.Near {
		words = append(words, "other materials, near in oxides")
	}
	for _, word := range []string{m.Tile.Surface, m.Tile.Defects, m.Tile.Colour, m.Tile.Notes} {
		if word != "" && !strings.EqualFold(word, quantity.Nothing) {
			words = append(words, word)
		}
	}
	return strings.Join(words, "; ")
}

// Tiles lists tiles: their marks, what they are and where they lie.
func Tiles(t *blend.Test, places *layout.Places, tiles []mark.Tile) string {
	g := table("llrlrrrl", "mark", "underneath", "cup", "body", "board", "row", "place", "contents")
	for _, tile := range tiles {
		spot := places.Spot(tile.Index)
		board := places.Boards[places.Tiles[tile.Index].Board].Number
		g.add(tile.Mark, tile.Under, strconv.Itoa(tile.Cell), t.Plan.Tiles.Bodies[tile.Body],
			strconv.Itoa(board), strconv.Itoa(spot.Row+1), strconv.Itoa(spot.Column+1),
			wording.Contents(t, t.Cells[tile.Cell-1]))
	}
	return g.String()
}
