package main

import (
	"os"

	"pourboard/blend/book"
	"pourboard/render/text"
)

// firedBefore says which cups of a plan earlier tests of a folder have, with
// what was written of them.
func (u *ui) firedBefore(j *job, folder string) error {
	b, err := u.readBook(folder)
	if err != nil {
		return err
	}
	own := ""
	if info, err := os.Stat(j.file); err == nil {
		for _, c := range b.Chapters {
			if other, err := os.Stat(c.Plan); err == nil && os.SameFile(info, other) {
				own = c.Plan
			}
		}
	}
	matches := b.Fired(own, book.Mixes(book.Source{Test: j.test}), j.plan.Tiles.Bodies)
	if len(matches) == 0 {
		u.printf("\nNo cup of this plan has been fired before (%d tests in %s).\n", len(b.Chapters), folder)
		return nil
	}
	u.printf("\nFired before, the best of each cup first:\n\n")
	return text.Fired(u.out, matches)
}
