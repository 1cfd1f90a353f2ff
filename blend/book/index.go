package book

import (
	"cmp"
	"slices"
	"strings"
)

// Use is what one test says of a colourant or end glaze.
type Use struct {
	Part     string
	Chapter  *Chapter
	Bodies   []string // of the tiles recorded
	From, To float64  // percent as made, over the tiles recorded that have any
	Tiles    int
	Best     *Tile // the highest rating, the first of equals; nil where none is rated
}

// Uses is the index by colourant and end glaze: for each a line a test, by name
// and then in the order of the book.
func (b *Book) Uses() []Use {
	var all []Use
	for _, c := range b.Chapters {
		byPart := map[string]*Use{}
		for i := range c.Tiles {
			t := &c.Tiles[i]
			for _, p := range t.Mix.Parts {
				if p.Percent <= 0 {
					continue
				}
				u := byPart[p.Name]
				if u == nil {
					u = &Use{Part: p.Name, Chapter: c, From: p.Percent, To: p.Percent}
					byPart[p.Name] = u
				}
				u.From, u.To = min(u.From, p.Percent), max(u.To, p.Percent)
				u.Tiles++
				if !slices.Contains(u.Bodies, t.Body) {
					u.Bodies = append(u.Bodies, t.Body)
				}
				if t.Rating > 0 && (u.Best == nil || t.Rating > u.Best.Rating) {
					u.Best = t
				}
			}
		}
		for _, u := range byPart {
			all = append(all, *u)
		}
	}
	order := map[*Chapter]int{}
	for i, c := range b.Chapters {
		order[c] = i
	}
	slices.SortFunc(all, func(x, y Use) int {
		return cmp.Or(strings.Compare(strings.ToLower(x.Part), strings.ToLower(y.Part)), strings.Compare(x.Part, y.Part), order[x.Chapter]-order[y.Chapter])
	})
	return all
}

// Rated is a tile with its test.
type Rated struct {
	Chapter *Chapter
	Tile    *Tile
}

// Best are the tiles rated at least so high, the highest first, then in the
// order of the book.
func (b *Book) Best(rating int) []Rated {
	var all []Rated
	for _, c := range b.Chapters {
		for i := range c.Tiles {
			if c.Tiles[i].Rating >= rating {
				all = append(all, Rated{c, &c.Tiles[i]})
			}
		}
	}
	slices.SortStableFunc(all, func(x, y Rated) int { return y.Tile.Rating - x.Tile.Rating })
	return all
}

// Unrecorded are the tests of which no tile is recorded.
func (b *Book) Unrecorded() []*Chapter {
	var all []*Chapter
	for _, c := range b.Chapters {
		if len(c.Tiles) == 0 {
			all = append(all, c)
		}
	}
	return all
}

// Keeping is what is kept in one place.
type Keeping struct {
	Place string
	Tests []Kept
}

// Kept is a firing of a test, and how many of its tiles are recorded.
type Kept struct {
	Chapter *Chapter
	Firing  string
	Tiles   int
}

// KeptIn are the places in which fired tiles are kept, by name.
func (b *Book) KeptIn() []Keeping {
	places := map[string]*Keeping{}
	for _, c := range b.Chapters {
		for _, f := range c.Firings {
			name := f.Value(KeptInLabel)
			if name == "" {
				continue
			}
			if places[name] == nil {
				places[name] = &Keeping{Place: name}
			}
			k := Kept{c, f.Letter, c.Recorded(f.Letter)}
			places[name].Tests = append(places[name].Tests, k)
		}
	}
	var all []Keeping
	for _, k := range places {
		all = append(all, *k)
	}
	slices.SortFunc(all, func(x, y Keeping) int { return strings.Compare(x.Place, y.Place) })
	return all
}

// KeptInLabel is the label of the place in which a firing's tiles are kept.
const KeptInLabel = "Kept in"
