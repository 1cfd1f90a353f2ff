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
	slices.SortStableFunc(all, func(x, y Match) int {
		switch {
		case x.Cup == y.Cup && x.Near != y.Near && x.Near:
			return 1
		case x.Cup == y.Cup && x.Near != y.Near:
			return -1
		}
		return cmp.Or(x.Cup-y.Cup, cmp.Compare(y.Tile.Rating, x.Tile.Rating))
	})
	return all
}

// sameRecipe reports whether no material differs by more than both ± allow.
func (m *Mix) sameRecipe(o *Mix) bool {
	if len(m.Recipe) == 0 || len(o.Recipe) == 0 {
		return false
	}
	for _, list := range [][2]*Mix{{m, o}, {o, m}} {
		for _, p := range list[0].Recipe {
			q := Part{}
			if k := indexOf(list[1].Recipe, p.Name); k >= 0 {
				q = list[1].Recipe[k]
			}
			if math.Abs(p.Percent-q.Percent) > math.Hypot(p.PlusMinus, q.PlusMinus) {
				return false
			}
		}
	}
	return true
}

// sameMaterials reports whether two recipes are of the same materials.
func (m *Mix) sameMaterials(o *Mix) bool {
	within := func(a, b *Mix) bool {
		for _, p := range a.Recipe {
			if p.Percent > p.PlusMinus && indexOf(b.Recipe, p.Name) < 0 {
				return false
			}
		}
		return true
	}
	return within(m, o) && within(o, m)
}

// sameOxides reports whether every oxide is near.
func (m *Mix) sameOxides(o *Mix) bool {
	if len(m.Oxides) == 0 || len(o.Oxides) == 0 {
		return false
	}
	for _, list := range [][2]*Mix{{m, o}, {o, m}} {
		for _, a := range list[0].Oxides {
			other, _ := list[1].Oxide(a.Oxide)
			if math.Abs(a.Value-other) > nearOxides+nearPart*a.Value {
				return false
			}
		}
	}
	return true
}

// Mixes is what each cup of a plan is made of, by cup.
func Mixes(s Source) []*Mix {
	var all []*Mix
	for i := range s.Test.Cells {
		all = append(all, newMix(s.Test, i))
	}
	return all
}
