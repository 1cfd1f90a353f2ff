package book

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"pourboard/blend/record"
)

// Crate is the sorting list of a crate of mixed tiles.
type Crate struct {
	Chapters []*Chapter
	Missing  bool     // only tiles that no log has an entry for
	Marks    []string // in the order in which tiles are sorted: CU2 before CU10
}

// Crate lists the tiles of some tests by mark. A name is that of a plan's file,
// a part of a test's title, or a place that a firing is kept in. With missing,
// only the tiles that no log has an entry for. A name that fits no test is an
// error.
func (b *Book) Crate(names []string, missing bool) (*Crate, error) {
	list := &Crate{Missing: missing}
	for _, name := range names {
		found := b.named(strings.TrimSpace(name))
		if found == nil {
			const fault = "%q matches no test and no place (give a plan's file name, such as %s)"
			return nil, fmt.Errorf(fault, name, fileName(b.Chapters[0].Plan))
		}
		for _, c := range found {
			if !slices.Contains(list.Chapters, c) {
				list.Chapters = append(list.Chapters, c)
			}
		}
	}
	for _, c := range list.Chapters {
		recorded := map[string]bool{}
		for _, t := range c.Tiles {
			recorded[t.Mark] = missing
		}
		for _, m := range c.Marks {
			if !recorded[m] {
				list.Marks = append(list.Marks, m)
			}
		}
	}
	slices.SortStableFunc(list.Marks, compareNames)
	return list, nil
}

// Shared are the marks of the list that tiles of more than one test have.
func (c *Crate) Shared() []string {
	var all []string
	for i, m := range c.Marks {
		if i > 0 && m == c.Marks[i-1] && !slices.Contains(all, m) {
			all = append(all, m)
		}
	}
	return all
}

// named are the tests that a name fits, by file if any does, then by place, then by
// title.
func (b *Book) named(name string) []*Chapter {
	keptThere := func(f record.Firing) bool { return strings.EqualFold(f.Value(KeptInLabel), name) }
	for _, fits := range []func(c *Chapter) bool{
		func(c *Chapter) bool { return strings.EqualFold(fileName(c.Plan), name) || c.Plan == name },
		func(c *Chapter) bool { return slices.ContainsFunc(c.Firings, keptThere) },
		func(c *Chapter) bool {
			return name != "" && strings.Contains(strings.ToLower(c.Title), strings.ToLower(name))
		},
	} {
		all := slices.DeleteFunc(slices.Clone(b.Chapters), func(c *Chapter) bool { return !fits(c) })
		if len(all) > 0 {
			return all
		}
	}
	return nil
}

// fileName is a file's name without folder and ending.
func fileName(path string) string {
	return strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
}
