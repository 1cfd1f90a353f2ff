package book

import (
	"math"
	"slices"
)

// Match is a cup of an earlier test that was made like one of a plan.
type Match struct {
	Cup     int // of the plan
	Chapter *Chapter
	Tiles   []*Tile // of the same mixture and body, in every firing
	Near    bool    // its materials are other ones; its oxides are near
}

// nearOxides is how far apart two glazes are at most that are near in oxides,
// in weight percent of each oxide.
const nearOxides = 0.5

// Fired looks for cups of earlier tests with the recipe of a plan's cups: each
// material within the root sum of squares of both ±, on one of the bodies.
// Recipes of other materials that come to the same oxides are near. plan is the
// file, which is not compared with itself; mixes are its cups.
func (b *Book) Fired(plan string, mixes []*Mix, bodies []string) []Match {
	var all []Match
	for i, m := range mixes {
		for _, c := range b.Chapters {
			if c.Plan == plan {
				continue
			}
			same, near := Match{Cup: i + 1, Chapter: c}, Match{Cup: i + 1, Chapter: c, Near: true}
			for k := range c.Tiles {
				t := &c.Tiles[k]
				switch {
				case !slices.Contains(bodies, t.Body):
				case m.sameRecipe(t.Mix):
					same.Tiles = append(same.Tiles, t)
				case m.sameOxides(t.Mix):
					near.Tiles = append(near.Tiles, t)
				}
			}
			for _, found := range []Match{same, near} {
				if found.Tiles != nil {
					all = append(all, found)
				}
			}
		}
	}
	return all
}

// sameRecipe reports whether no material differs by more than both ± allow.
func (m *Mix) sameRecipe(o *Mix) bool {
	if len(m.Recipe) == 0 || len(o.Recipe) == 0 {
		return false
	}
	covered := 0
	for _, p := range m.Recipe {
		q := Part{}
		if k := indexOf(o.Recipe, p.Name); k >= 0 {
			q = o.Recipe[k]
			covered++
		}
		if math.Abs(p.Percent-q.Percent) > math.Hypot(p.PlusMinus, q.PlusMinus) {
			return false
		}
	}
	if covered == len(o.Recipe) {
		return true
	}
	for _, q := range o.Recipe {
		if indexOf(m.Recipe, q.Name) < 0 && q.Percent > q.PlusMinus {
			return false
		}
	}
	return true
}

// sameOxides reports whether every oxide is near.
func (m *Mix) sameOxides(o *Mix) bool {
	if len(m.Oxides) == 0 || len(o.Oxides) == 0 {
		return false
	}
	difference := map[string]float64{}
	for _, a := range m.Oxides {
		difference[string(a.Oxide)] += a.Value
	}
	for _, a := range o.Oxides {
		difference[string(a.Oxide)] -= a.Value
	}
	for _, d := range difference {
		if math.Abs(d) > nearOxides {
			return false
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
