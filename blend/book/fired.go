package book

import (
	"cmp"
	"math"
	"slices"
)

// Match is a tile of an earlier test that was made like a cup of a plan.
type Match struct {
	Cup     int // of the plan
	Chapter *Chapter
	Tile    *Tile
	Near    bool // its materials are other ones; its oxides are near
}

// Two glazes are near in oxides when no oxide differs by more than nearOxides
// percentage points and nearPart of its amount together. Common practice, no
// source: analyses of natural materials scatter by about as much.
const (
	nearOxides = 0.1
	nearPart   = 0.03
)

// Fired looks for tiles of earlier tests with the recipe of a plan's cups: each
// material within the root sum of squares of both ±, on one of the bodies.
// Recipes of other materials that come to the same oxides are near. plan is the
// file, which is not compared with itself; mixes are its cups. Matches are in the
// order of the cups, the same recipes first, the highest rating first.
func (b *Book) Fired(plan string, mixes []*Mix, bodies []string) []Match {
	var all []Match
	for i, m := range mixes {
		for _, c := range b.Chapters {
			if c.Plan == plan {
				continue
			}
			for k := range c.Tiles {
				t := &c.Tiles[k]
				same := m.sameRecipe(t.Mix)
				near := !same && !m.sameMaterials(t.Mix) && m.sameOxides(t.Mix)
				if (same || near) && slices.Contains(bodies, t.Body) {
					all = append(all, Match{Cup: i + 1, Chapter: c, Tile: t, Near: near})
				}
			}
		}
	}
	other := map[bool]int{true: 1}
	slices.SortStableFunc(all, func(x, y Match) int {
		return cmp.Or(x.Cup-y.Cup, other[x.Near]-other[y.Near], cmp.Compare(y.Tile.Rating, x.Tile.Rating))
	})
	return all
}

// sameRecipe reports whether no material differs by more than both ± allow.
func (m *Mix) sameRecipe(o *Mix) bool {
	for _, p := range slices.Concat(m.Recipe, o.Recipe) {
		x, _ := part(m.Recipe, p.Name)
		y, _ := part(o.Recipe, p.Name)
		if math.Abs(x.Percent-y.Percent) > math.Hypot(x.PlusMinus, y.PlusMinus) {
			return false
		}
	}
	return m.Recipe != nil && o.Recipe != nil
}

// sameMaterials reports whether two recipes are of the same materials.
func (m *Mix) sameMaterials(o *Mix) bool {
	return !slices.ContainsFunc(slices.Concat(m.Recipe, o.Recipe), func(p Part) bool {
		_, here := part(m.Recipe, p.Name)
		_, there := part(o.Recipe, p.Name)
		return p.Percent > p.PlusMinus && !(here && there)
	})
}

// sameOxides reports whether every oxide is near.
func (m *Mix) sameOxides(o *Mix) bool {
	for _, a := range slices.Concat(m.Oxides, o.Oxides) {
		x, _ := m.Oxide(a.Oxide)
		y, _ := o.Oxide(a.Oxide)
		if math.Abs(x-y) > nearOxides+nearPart*a.Value {
			return false
		}
	}
	return m.Oxides != nil && o.Oxides != nil
}

// Mixes is what each cup of a plan is made of, by cup.
func Mixes(s Source) []*Mix {
	var all []*Mix
	for i := range s.Test.Cells {
		all = append(all, newMix(s.Test, i))
	}
	return all
}
