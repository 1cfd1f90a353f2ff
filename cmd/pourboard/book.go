package main

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"pourboard/blend/book"
	"pourboard/blend/quantity"
	"pourboard/render/recordbook"
)

// bookMemory is about how many bytes the program keeps to while it reads a studio:
// most of what is read of a thousand tests is dropped again.
const bookMemory = 100 << 20

func bookFlags(f *pflag.FlagSet) action {
	crate := f.StringSlice("crate", nil, "copper,ash")
	missing := f.Bool("missing", false, "")
	out := f.String("out", "", "print")
	paper, _ := quantity.ReadPaper("A4")
	add(f, &paper, "paper", "A4", quantity.ReadPaper)
	return func(u *ui, args []string) error {
		if *missing && *crate == nil {
			return usagef("--missing needs --crate (name the tests of the crate)")
		}
		b, err := u.readBook(args[0])
		if err != nil {
			return err
		}
		folder := filepath.Clean(args[0])
		if abs, err := filepath.Abs(folder); err == nil && filepath.Base(folder) == "." {
			folder = abs
		}
		base := filepath.Join(cmp.Or(*out, filepath.Dir(folder)), filepath.Base(folder))
		if *crate != nil {
			return u.sortingList(b, *crate, *missing, base+"-crate.pdf", paper)
		}
		notes, err := u.writeAll(&output{file: base + "-book.xlsx",
			render: func(w io.Writer) ([]string, error) { return recordbook.WriteWorkbook(w, b) },
		}, &output{file: base + "-book.pdf",
			render: func(w io.Writer) ([]string, error) { return nil, recordbook.WritePages(w, b, paper.W, paper.H) },
		})
		if err != nil {
			return err
		}
		u.printf("%s, %s of fired tiles, %d skipped\n", quantity.Plural(len(b.Chapters), "test", "tests"),
			quantity.Plural(b.Tiles, "row", "rows"), len(b.Skipped))
		u.tellSkipped(b)
		u.warn(args[0], notes...)
		return nil
	}
}

// readBook reads the book of a folder.
func (u *ui) readBook(folder string) (*book.Book, error) {
	debug.SetMemoryLimit(bookMemory)
	s, err := findTests(folder)
	if err != nil {
		return nil, err
	}
	if len(s.tests) == 0 {
		return nil, fmt.Errorf("%s: no plans or logs beneath this folder (plans end in .toml)", folder)
	}
	defer u.progress("reading " + quantity.Plural(len(s.tests), "test", "tests"))()
	s.read()
	b := book.Bind(s.chapters, s.skipped)
	for _, kind := range slices.Sorted(maps.Keys(s.others)) {
		count := quantity.Plural(s.others[kind], "file", "files")
		b.Others = append(b.Others, book.Skip{File: kind, Reason: count + " of another kind, not read"})
	}
	return b, nil
}

// mostSkips is how many skipped files and rows the terminal lists.
const mostSkips = 10

// tellSkipped lists what was skipped, as far as a terminal's page goes.
func (u *ui) tellSkipped(b *book.Book) {
	for i, skip := range b.Skipped {
		if i == mostSkips {
			u.note("%d more on the sheet Skipped of the workbook", len(b.Skipped)-i)
			break
		}
		u.note("%s: skipped: %s", skip.File, skip.Reason)
	}
	for _, t := range b.Twice {
		u.note("note: mark %s is used by %s", t.Mark, strings.Join(t.Plans, ", "))
	}
}

// sortingList prints the tiles of a crate by mark.
func (u *ui) sortingList(b *book.Book, names []string, missing bool, file string, paper quantity.Paper) error {
	list, err := b.Crate(names, missing)
	if err != nil {
		return usagef("--crate: %s", err)
	}
	_, err = u.writeAll(&output{file: file,
		render: func(w io.Writer) ([]string, error) { return nil, recordbook.WriteCrate(w, list, paper.W, paper.H) }})
	if err != nil {
		return err
	}
	u.printf("%s of %s\n", quantity.Plural(len(list.Marks), "tile", "tiles"),
		quantity.Plural(len(list.Chapters), "test", "tests"))
	if shared := list.Shared(); shared != nil {
		u.note("note: %s on tiles of more than one test, such as %s (tell them apart by body and glaze)",
			quantity.Plural(len(shared), "mark", "marks"), shared[0])
	}
	return nil
}
