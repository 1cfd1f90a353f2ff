package main

import (
	"fmt"
	"os"
	"strings"

	"pourboard/blend/book"
)

// mostMatches is how many earlier tests of cups are listed.
const mostMatches = 30

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
	u.printf("\nFired before:\n")
	for i, m := range matches {
		if i == mostMatches {
			u.printf("  %d more\n", len(matches)-i)
			break
		}
		how := ""
		if m.Near {
			how = " (near in oxides, other materials)"
		}
		var tiles []string
		for _, t := range m.Tiles {
			tiles = append(tiles, tileText(m.Chapter, t))
		}
		u.printf("  cup %d in %s%s: %s\n", m.Cup, m.Chapter.Title, how, strings.Join(tiles, "; "))
	}
	return nil
}

// tileText is a tile with what was written of it: "CU4P on Porcelain, cone 6,
// rated 5, gloss, crawling".
func tileText(c *book.Chapter, t *book.Tile) string {
	parts := []string{t.Mark + " on " + t.Body}
	if cone := c.Firing(t.Firing).Value("Cone"); cone != "" {
		parts = append(parts, "cone "+cone)
	}
	if t.Rating > 0 {
		parts = append(parts, fmt.Sprint("rated ", t.Rating))
	}
	for _, word := range []string{t.Surface, t.Defects, t.Colour, t.Notes} {
		if word != "" {
			parts = append(parts, word)
		}
	}
	return strings.Join(parts, ", ")
}
