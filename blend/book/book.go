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
	Others   []Skip // files of other kinds, by kind
	Doubts   []Doubt
	Twice    []Twice
}

// Skip is a file, or a row of one, that was not taken.
type Skip struct{ File, Reason string }

// Doubt is two names that may be one thing, or one name that is two.
type Doubt struct {
	Kind DoubtKind
	A, B string // names; of one name, the plans in which it is two things
	Name string // DifferentGlazes: the name
}

// DoubtKind says what is in doubt.
type DoubtKind int

// The kinds of doubt.
const (
	SameMaterial    DoubtKind = iota // two names that may be one material
	DifferentGlazes                  // one name with two recipes
)

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
	// Plans with a log come first, plans without one next, logs without a plan last:
	// each can only be a copy or a part of one before it.
	slices.SortStableFunc(chapters, func(x, y *Chapter) int {
		return cmp.Or(x.rank()-y.rank(), compareNames(x.Title, y.Title), compareNames(x.Plan, y.Plan))
	})
	for _, c := range chapters {
		if !b.merge(c) {
			b.Chapters = append(b.Chapters, c)
		}
	}
	slices.SortStableFunc(b.Chapters, func(x, y *Chapter) int {
		return cmp.Or(compareNames(x.Title, y.Title), compareNames(x.Plan, y.Plan))
	})
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
	var homes []*Chapter // that a log without a plan may belong to
	for _, o := range b.Chapters {
		if o.Title != c.Title || o.fingerprint != c.fingerprint || !slices.Equal(o.ends, c.ends) {
			continue
		}
		copied := ""
		switch {
		case o.Plan == c.Plan:
			o.join(c)
			return true
		case len(c.Logs) == 0:
			copied = "copy of " + o.Plan + " without a log; counted once"
		case o.sameTiles(c):
			copied = "copy of " + o.Plan + "; counted once"
		case o.rank() < 2:
			homes = append(homes, o)
		}
		if copied != "" {
			o.Copies = append(o.Copies, c.Plan)
			b.Skipped = append(b.Skipped, Skip{c.Plan, copied})
			return true
		}
	}
	if c.rank() < 2 || len(homes) != 1 {
		return false
	}
	homes[0].join(c)
	return true
}

// join adds the log of another chapter of the same test.
func (c *Chapter) join(o *Chapter) {
	if len(o.Logs) > 0 {
		c.add(o.Logs[0], o.Tiles, o.Firings)
		c.Skipped = append(c.Skipped, o.Skipped...)
	}
}

// sameTiles reports whether the rows of two chapters of one test all say the same.
func (c *Chapter) sameTiles(o *Chapter) bool {
	return slices.EqualFunc(c.Tiles, o.Tiles, func(t, u Tile) bool {
		return t.Mark == u.Mark && t.Firing == u.Firing && t.agrees(u) && slices.Equal(t.Mix.Parts, u.Mix.Parts)
	})
}

// columns collects what the tiles of all chapters have columns for.
func (b *Book) columns() {
	parts, numbers := map[string]bool{}, map[string]bool{}
	oxides := map[oxide.Oxide]bool{}
	for _, c := range b.Chapters {
		for _, t := range c.Tiles {
			b.Coats = max(b.Coats, len(t.Coats))
			for _, n := range t.Numbers {
				numbers[n.Head] = true
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
	for o := range oxides {
		b.Oxides = append(b.Oxides, o)
	}
	slices.SortFunc(b.Oxides, func(x, y oxide.Oxide) int {
		i, _ := x.Place()
		j, _ := y.Place()
		return i - j
	})
}

// names are the keys of a set in the order of an index.
func names[T any](set map[string]T) []string { return slices.SortedFunc(maps.Keys(set), compareNames) }

// doubts lists names that may be one material, and glazes of one name that are
// two recipes. Nothing is merged: only the person knows.
func (b *Book) doubts() {
	library := oxide.Builtin()
	builtin := func(name string) string {
		m, _ := library.Find(name)
		return m.Name
	}
	for i, x := range b.Parts {
		for _, y := range b.Parts[i+1:] {
			if within(x, y) || within(y, x) || builtin(x) != "" && builtin(x) == builtin(y) {
				b.Doubts = append(b.Doubts, Doubt{Kind: SameMaterial, A: x, B: y})
			}
		}
	}
	type recipe struct {
		plan string // the first that has it
		glaze
	}
	known := map[string][]recipe{} // by name
	for _, c := range b.Chapters {
		for _, g := range c.ends {
			same := func(r recipe) bool { return r.glaze == g }
			if !slices.ContainsFunc(known[g.name], same) {
				known[g.name] = append(known[g.name], recipe{c.Plan, g})
			}
		}
	}
	for _, name := range names(known) {
		for _, r := range known[name][1:] {
			b.Doubts = append(b.Doubts, Doubt{Kind: DifferentGlazes, Name: name, A: known[name][0].plan, B: r.plan})
		}
	}
}

// within reports whether all words of one name are in another.
func within(short, long string) bool {
	words := strings.Fields(strings.ToLower(long))
	for _, w := range strings.Fields(strings.ToLower(short)) {
		if !slices.Contains(words, w) {
			return false
		}
	}
	return true
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
