package text

import (
	"io"
	"strconv"

	"pourboard/blend/book"
)

// Found lists tiles of several tests, a row for each firing: what they are, and
// where they are kept.
func Found(w io.Writer, found []book.Found) error {
	g := grid{left: []bool{true, true, false, true, true, true, false, true, true}}
	g.add("mark", "underneath", "cup", "body", "firing", "kept in", "rating", "plan", "test")
	g.rule()
	for _, f := range found {
		row := func(firing book.Firing, rating string) {
			fired := firing.Letter
			if cone := firing.Value("Cone"); cone != "" {
				fired += ", cone " + cone
			}
			if date := firing.Value("Date"); date != "" {
				fired += ", " + date
			}
			g.add(f.Tile.Mark, f.Tile.Under, strconv.Itoa(f.Tile.Cell), oneLine(f.Body),
				oneLine(fired), oneLine(firing.Value(book.KeptInLabel)), rating, oneLine(f.Chapter.Plan), oneLine(f.Chapter.Title))
		}
		for _, r := range f.Rows {
			rating := ""
			if r.Rating > 0 {
				rating = strconv.Itoa(r.Rating)
			}
			row(f.Chapter.Firing(r.Firing), rating)
		}
		if f.Rows == nil {
			row(book.Firing{Letter: "not recorded"}, "")
		}
	}
	return g.write(w)
}
