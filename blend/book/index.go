package book

import (
	"cmp"
	"slices"
)

// Use is one test of a colourant or end glaze.
type Use struct {
	Part     string
	Chapter  *Chapter
	From, To float64 // percent as made, over the rows that have any
	Rows     int
	Best     []*Tile // on each body the highest rating, the first of equals; bodies in the plan's order
}

// Uses is the index of colourants, or of end glazes: for each a line a test, by
// name and then in the order of the book.
func (b *Book) Uses(colourants bool) []*Use {
	var all []*Use
	for _, c := range b.Chapters {
		if (c.Base != "") != colourants {
			continue
		}
		byPart := map[string]*Use{}
		for i := range c.Tiles {
			t := &c.Tiles[i]
			for _, p := range t.Mix.Parts {
				if p.Percent <= 0 {
					continue
				}
				u := byPart[p.Name]
				if u == nil {
					u = &Use{Part: p.Name, Chapter: c, From: p.Percent}
					byPart[p.Name], all = u, append(all, u)
				}
				u.From, u.To = min(u.From, p.Percent), max(u.To, p.Percent)
				u.Rows++
				u.rate(t)
			}
		}
	}
	slices.SortStableFunc(all, func(x, y *Use) int { return compareNames(x.Part, y.Part) })
	return all
}

// rate counts a tile among the best if it is.
func (u *Use) rate(t *Tile) {
	if t.Rating == 0 {
		return
	}
	k, rated := slices.BinarySearchFunc(u.Best, t, func(x, y *Tile) int { return x.Reading.Body - y.Reading.Body })
	switch {
	case !rated:
		u.Best = slices.Insert(u.Best, k, t)
	case t.Rating > u.Best[k].Rating:
		u.Best[k] = t
	}
}

// Rated is the tiles of one cup, in one firing, that are rated high.
type Rated struct {
	Chapter *Chapter
	Tiles   []*Tile // the highest rating first, then by body
}

// Best are the tiles rated at least so high, cup by cup: the highest rating first,
// then the cups with the most of them, then in the order of the book.
func (b *Book) Best(rating float64) []*Rated {
	var all []*Rated
	for _, c := range b.Chapters {
		type mixture struct {
			cup    int
			firing string
		}
		of := map[mixture]*Rated{}
		for i := range c.Tiles {
			t := &c.Tiles[i]
			if t.Rating < rating {
				continue
			}
			key := mixture{t.Cell, t.Firing}
			if of[key] == nil {
				of[key] = &Rated{Chapter: c}
				all = append(all, of[key])
			}
			of[key].Tiles = append(of[key].Tiles, t)
		}
	}
	for _, r := range all {
		slices.SortStableFunc(r.Tiles, func(x, y *Tile) int { return cmp.Compare(y.Rating, x.Rating) })
	}
	slices.SortStableFunc(all, func(x, y *Rated) int {
		return cmp.Or(cmp.Compare(y.Tiles[0].Rating, x.Tiles[0].Rating), len(y.Tiles)-len(x.Tiles))
	})
	return all
}

// Unrecorded are the tests of which no tile is recorded.
func (b *Book) Unrecorded() []*Chapter {
	return slices.DeleteFunc(slices.Clone(b.Chapters), func(c *Chapter) bool { return len(c.Tiles) > 0 })
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
func (b *Book) KeptIn() (all []Keeping) {
	places := map[string][]Kept{}
	for _, c := range b.Chapters {
		for _, f := range c.Firings {
			if place := f.Value(KeptInLabel); place != "" {
				places[place] = append(places[place], Kept{c, f.Letter, c.Recorded(f.Letter)})
			}
		}
	}
	for _, name := range names(places) {
		all = append(all, Keeping{name, places[name]})
	}
	return all
}

// KeptInLabel is the label of the place in which a firing's tiles are kept.
const KeptInLabel = "Kept in"
