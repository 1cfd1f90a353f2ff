package book

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/record"
)

// Crate is the sorting list of a crate of mixed tiles.
type Crate struct {
	Chapters []*Chapter
	Missing  bool     // only tiles that no log has an entry for
	Marks    []string // by prefix, number and letters
}

// Crate lists the tiles of some tests by mark. A name is that of a plan's file,
// a part of a test's title, or a place that a firing is kept in. With missing,
// only the tiles that no log has an entry for. A name that fits no test is an
// error.
func (b *Book) Crate(names []string, missing bool) (*Crate, error) {
	list := &Crate{Missing: missing}
	for _, name := range names {
		found := b.named(strings.TrimSpace(name))
		if len(found) == 0 {
			return nil, fmt.Errorf("%q matches no test and no place (give a plan's file name, such as %s)", name, b.anyName())
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
	slices.SortStableFunc(list.Marks, compareMarks)
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

// named are the tests that a name fits, by file if any does.
func (b *Book) named(name string) []*Chapter {
	fits := []func(c *Chapter) bool{
		func(c *Chapter) bool { return strings.EqualFold(fileName(c.Plan), name) || c.Plan == name },
		func(c *Chapter) bool {
			return slices.ContainsFunc(c.Firings, func(f record.Firing) bool { return strings.EqualFold(f.Value(KeptInLabel), name) })
		},
		func(c *Chapter) bool {
			return name != "" && strings.Contains(strings.ToLower(c.Title), strings.ToLower(name))
		},
	}
	for _, fit := range fits {
		var all []*Chapter
		for _, c := range b.Chapters {
			if fit(c) {
				all = append(all, c)
			}
		}
		if all != nil {
			return all
		}
	}
	return nil
}

func (b *Book) anyName() string {
	if len(b.Chapters) == 0 {
		return "test"
	}
	return fileName(b.Chapters[0].Plan)
}

// fileName is a file's name without folder and ending.
func fileName(path string) string {
	base := filepath.Base(path)
	return strings.TrimSuffix(base, filepath.Ext(base))
}

// compareMarks orders marks as a person sorts tiles: CU2 before CU10.
func compareMarks(x, y string) int {
	px, nx, sx := splitMark(x)
	py, ny, sy := splitMark(y)
	return cmp.Or(strings.Compare(px, py), nx-ny, strings.Compare(sx, sy))
}

// splitMark parts a mark into its prefix, the cup's number, and the letters
// behind it. A prefix ends in a letter or is empty.
func splitMark(mark string) (prefix string, number int, letters string) {
	digit := func(i int) bool { return '0' <= mark[i] && mark[i] <= '9' }
	end := len(mark)
	for end > 0 && !digit(end-1) {
		end--
	}
	begin := end
	for begin > 0 && digit(begin-1) {
		begin--
	}
	number, _ = strconv.Atoi(mark[begin:end])
	return mark[:begin], number, mark[end:]
}
