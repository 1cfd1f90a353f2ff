package book

import (
	"cmp"
	"slices"
	"strings"

	"pourboard/blend/mark"
)

// Found is a tile that a mark can be, in one of the tests.
type Found struct {
	Chapter *Chapter
	Tile    mark.Tile
	Body    string
	Rows    []*Tile // what is recorded of it, by firing
	Penalty float64 // 0 for the mark itself; see mark.Candidate
}

// HowFound says how surely a mark was found.
type HowFound int

// The ways in which a mark is found.
const (
	NotFound HowFound = iota
	Exactly           // the mark is in these tests
	Repaired          // one wrong or lost character of the underside leaves one tile over all tests
	Likely            // all that fit, the likeliest first
)

// Find looks a mark up in all tests; ? stands for one lost character, * for any
// number. body, where it is not empty, is a part of the body's name.
func (b *Book) Find(read, body string) ([]Found, HowFound) {
	var exact, repaired, near []Found
	for _, c := range b.Chapters {
		keep := func(t mark.Tile) bool {
			return body == "" || strings.Contains(strings.ToLower(c.bodies[t.Body]), strings.ToLower(body))
		}
		if t, err := c.scheme.Read(read); err == nil && keep(t) {
			exact = append(exact, c.found(t, 0))
			continue
		}
		if t, certain := c.scheme.Repair(read, keep); certain {
			repaired = append(repaired, c.found(t, 0))
		}
		for _, m := range c.scheme.Candidates(read, keep) {
			near = append(near, c.found(m.Tile, m.Penalty))
		}
	}
	elsewhere := func(f Found) bool { return f.Penalty <= 1 && f.Chapter != repaired[0].Chapter }
	switch {
	case exact != nil:
		return exact, Exactly
	case len(repaired) == 1 && !slices.ContainsFunc(near, elsewhere) && !strings.ContainsAny(read, "?*"):
		return repaired, Repaired
	case near == nil:
		return nil, NotFound
	}
	slices.SortStableFunc(near, func(x, y Found) int { return cmp.Compare(x.Penalty, y.Penalty) })
	return near, Likely
}

func (c *Chapter) found(t mark.Tile, penalty float64) Found {
	f := Found{Chapter: c, Tile: t, Body: c.bodies[t.Body], Penalty: penalty}
	for i := range c.Tiles {
		if r := &c.Tiles[i]; r.Index == t.Index {
			f.Rows = append(f.Rows, r)
		}
	}
	return f
}
