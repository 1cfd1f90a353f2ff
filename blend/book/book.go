package book

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"pourboard/blend/oxide"
)

// Book is the record book of a studio.
type Book struct {
	Chapters []*Chapter // by title, then plan
	Parts    []string   // names of all colourants and end glazes, in order of their names
	Oxides   []oxide.Oxide
	Numbers  []string // heads of the plans' own columns
	Coats    int      // the most coats that a tile has
	Tiles    int      // rows: fired tiles that something is recorded of
	Skipped  []Skip
	Others   []Skip      // files of other kinds, by kind
	Doubts   [][2]string // names of colourants and glazes that may be one
	Twice    []Twice
}

// Skip is a file, or a row of one, that was not taken.
type Skip struct{ File, Reason string }

// Twice is a mark that two tests have.
type Twice struct {
	Mark  string
	Plans []string
	Count int // marks of tiles that they share
}

// Bind joins chapters to a book. Those of one test are one: a copy under another
// name is skipped, and a log whose plan is among the others goes there.
func Bind(chapters []*Chapter, skipped []Skip) *Book {
	b := &Book{Skipped: slices.Clone(skipped)}
	chapters = slices.Clone(chapters)
	byTitle := func(x, y *Chapter) int { return cmp.Or(compareNames(x.Title, y.Title), compareNames(x.Plan, y.Plan)) }
	// Plans with a log come first, plans without one next, logs without a plan last:
	// each can only be a copy or a part of one before it.
	slices.SortStableFunc(chapters, func(x, y *Chapter) int { return cmp.Or(x.rank()-y.rank(), byTitle(x, y)) })
	for _, c := range chapters {
		if !b.merge(c) {
			b.Chapters = append(b.Chapters, c)
		}
	}
	slices.SortStableFunc(b.Chapters, byTitle)
	for _, c := range b.Chapters {
		b.Tiles += len(c.Tiles)
		b.Skipped = append(b.Skipped, c.Skipped...)
	}
	b.columns()
	b.doubts()
	b.clashes()
	slices.SortStableFunc(b.Skipped, func(x, y Skip) int { return compareNames(x.File, y.File) })
	return b
}

// rank is 0 for a plan with a log, 1 for one without, 2 for a log that was read by
// the plan that it carries.
func (c *Chapter) rank() int {
	switch {
	case len(c.Logs) == 0:
		return 1
	case c.Plan == c.Logs[0]:
		return 2
	}
	return 0
}

// merge takes a chapter into the one of the same test that is in the book already.
// It reports false where there is none, or where more than one could be meant.
func (b *Book) merge(c *Chapter) bool {
	of := func(fits func(o *Chapter) bool) []*Chapter {
		return slices.DeleteFunc(slices.Clone(b.Chapters), func(o *Chapter) bool {
			return o.Title != c.Title || o.fingerprint != c.fingerprint || !fits(o)
		})
	}
	home := of(func(o *Chapter) bool { return o.Plan == c.Plan })
	if len(home) == 0 {
		if same := of(func(o *Chapter) bool { return len(c.Logs) == 0 || o.sameTiles(c) }); len(same) > 0 {
			reason := "copy of " + same[0].Plan
			if len(c.Logs) == 0 {
				reason += " without a log"
			}
			same[0].Copies = append(same[0].Copies, c.Plan)
			b.Skipped = append(b.Skipped, Skip{c.Plan, reason + "; counted once"})
			return true
		}
		home = of(func(o *Chapter) bool { return o.rank() < 2 && c.rank() == 2 })
	}
	if len(home) != 1 {
		return false
	}
	if len(c.Logs) > 0 {
		home[0].add(c.Logs[0], c.Tiles, c.Firings)
		home[0].Skipped = append(home[0].Skipped, c.Skipped...)
	}
	return true
}

// sameTiles reports whether the rows of two chapters of one test all say the same.
func (c *Chapter) sameTiles(o *Chapter) bool {
	return slices.EqualFunc(c.Tiles, o.Tiles, func(t, u Tile) bool {
		return t.Tile == u.Tile && t.agrees(u) && slices.Equal(t.Mix.Parts, u.Mix.Parts)
	})
}

// columns collects what the tiles of all chapters have columns for.
func (b *Book) columns() {
	parts, numbers := map[string]bool{}, map[string]bool{}
	oxides := map[oxide.Oxide]bool{}
	for _, c := range b.Chapters {
		for _, t := range c.Tiles {
			b.Coats = max(b.Coats, len(t.Coats))
			for i := range t.Numbers {
				numbers[t.heads[i]] = true
			}
			for _, p := range t.Mix.Parts {
				parts[p.Name] = true
			}
			for _, o := range t.Mix.Oxides {
				oxides[o.Oxide] = true
			}
		}
	}
	b.Parts, b.Numbers = names(parts), names(numbers)
	b.Oxides = slices.SortedFunc(maps.Keys(oxides), func(x, y oxide.Oxide) int {
		i, _ := x.Place()
		j, _ := y.Place()
		return i - j
	})
}

// names are the keys of a set in the order of an index.
func names[T any](set map[string]T) []string { return slices.SortedFunc(maps.Keys(set), compareNames) }

// doubts lists names that may be one material. Nothing is merged: only the person
// knows.
func (b *Book) doubts() {
	library := oxide.Builtin()
	words := func(name string) []string { return strings.Fields(strings.ToLower(name)) }
	within := func(short, long string) bool { // all of its words are there
		return !slices.ContainsFunc(words(short), func(w string) bool { return !slices.Contains(words(long), w) })
	}
	for i, x := range b.Parts {
		for _, y := range b.Parts[i+1:] {
			m, known := library.Find(x)
			n, _ := library.Find(y)
			if within(x, y) || within(y, x) || known && m.Name == n.Name {
				b.Doubts = append(b.Doubts, [2]string{x, y})
			}
		}
	}
}

// clashes lists the marks that two tests have tiles of.
func (b *Book) clashes() {
	owners := map[string][]int{}
	for i, c := range b.Chapters {
		for _, m := range c.Marks {
			owners[m] = append(owners[m], i)
		}
	}
	shared := map[string]*Twice{}
	for _, who := range owners {
		if len(who) < 2 {
			continue
		}
		key := fmt.Sprint(who)
		if shared[key] == nil {
			shared[key] = &Twice{Mark: b.Chapters[who[0]].Mark}
			for _, i := range who {
				shared[key].Plans = append(shared[key].Plans, b.Chapters[i].Plan)
			}
		}
		shared[key].Count++
	}
	for _, t := range shared {
		b.Twice = append(b.Twice, *t)
	}
	slices.SortFunc(b.Twice, func(x, y Twice) int {
		return cmp.Or(strings.Compare(x.Mark, y.Mark), slices.Compare(x.Plans, y.Plans))
	})
}
