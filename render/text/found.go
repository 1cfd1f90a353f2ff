package text

import (
	"io"
	"strconv"
	"strings"

	"pourboard/blend/book"
	"pourboard/blend/quantity"
	"pourboard/blend/record"
)

// Found lists tiles of several tests, a row for each firing: what they are, and
// where they are kept.
func Found(w io.Writer, found []book.Found) error {
	g := grid{left: []bool{true, true, false, true, true, true, false, true, true}}
	g.add("mark", "underneath", "cup", "body", "firing", "kept in", "rating", "plan", "test")
	g.rule()
	for _, f := range found {
		row := func(firing record.Firing, rating string) {
			g.add(f.Tile.Mark, f.Tile.Under, strconv.Itoa(f.Tile.Cell), oneLine(f.Body),
				firedText(firing), oneLine(firing.Value(book.KeptInLabel)), rating, oneLine(f.Chapter.Plan), oneLine(f.Chapter.Title))
		}
		for _, r := range f.Rows {
			row(f.Chapter.Firing(r.Firing), ratingText(r))
		}
		if f.Rows == nil {
			row(record.Firing{Letter: "not recorded"}, "")
		}
	}
	return g.write(w)
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
	return oneLine(text)
}

func ratingText(t *book.Tile) string {
	if t.Rating == 0 {
		return ""
	}
	return strconv.Itoa(t.Rating)
}

// mostFired is how many earlier tiles are listed of a cup.
const mostFired = 4

// Fired lists tiles of earlier tests that are made like cups of a plan, with what
// was entered of them.
func Fired(w io.Writer, matches []book.Match) error {
	g := grid{left: []bool{false, true, true, false, true, true, true}}
	g.add("cup", "mark", "body", "rating", "firing", "test", "entered")
	g.rule()
	for i, m := range matches {
		of := 0 // the cup's matches before
		for of < i && matches[i-of-1].Cup == m.Cup {
			of++
		}
		cup := ""
		if of == 0 {
			cup = strconv.Itoa(m.Cup)
		}
		last := i == len(matches)-1 || matches[i+1].Cup != m.Cup
		switch {
		case of < mostFired:
			g.add(cup, m.Tile.Mark, oneLine(m.Tile.Body), ratingText(m.Tile), firedText(m.Chapter.Firing(m.Tile.Firing)), oneLine(m.Chapter.Title), entered(m))
		case last:
			g.add("", "", "", "", "", "", "and "+strconv.Itoa(of+1-mostFired)+" more")
		}
	}
	return g.write(w)
}

// entered is what was entered of a tile in one line. That it has no defects is
// not said.
func entered(m book.Match) string {
	var words []string
	if m.Near {
		words = append(words, "other materials, near in oxides")
	}
	defects := m.Tile.Defects
	if strings.EqualFold(defects, quantity.Nothing) {
		defects = ""
	}
	for _, word := range []string{m.Tile.Surface, defects, m.Tile.Colour, m.Tile.Notes} {
		if word != "" {
			words = append(words, oneLine(word))
		}
	}
	return strings.Join(words, "; ")
}
