package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"pourboard/blend"
	"pourboard/blend/book"
	"pourboard/blend/identity"
	"pourboard/render/text"
	"pourboard/render/wording"
)

func checkFlags(f *pflag.FlagSet) action {
	studio := f.String("book", "", "tests")
	var o overrides
	o.add(f)
	return func(u *ui, args []string) error {
		j, err := load(args[0], o)
		if err != nil {
			return err
		}
		return u.check(j, *studio)
	}
}

// check prints what is to be known of a plan without mistakes; studio is a folder of
// earlier tests, or empty.
func (u *ui) check(j *job, studio string) error {
	u.printf("%s: %s\n", j.file, wording.Summary(j.test))
	if worst := wording.Worst(j.test.Library.Hazards(j.test.Materials())); worst != "" {
		u.printf("Take care. %s\n", worst)
	}
	if usual := j.plan.Kit.Defaults; len(usual) > 0 {
		u.printf("Defaults used: %s. Put your own under [measure].\n", strings.Join(usual, ", "))
	}
	advice, err := blend.Advise(j.test)
	if err != nil {
		return fmt.Errorf("%s: %w", j.file, err)
	}
	for _, line := range slices.Concat(wording.Advice(advice, j.plan), wording.Dilutions(j.test)) {
		u.printf("%s\n", line)
	}
	u.print(text.Methods(advice))
	if studio != "" {
		if err := u.firedBefore(j, studio); err != nil {
			return err
		}
	}
	u.warnPlan(j)
	u.warnMark(j)
	u.warnLog(j)
	return nil
}

// warnLog says what became of the numbers of the cups since the log beside the
// plan was made: its tiles are painted with them. results says what is wrong with a
// log that cannot be read.
func (u *ui) warnLog(j *job) {
	b := j.logBeside()
	if b.changed == "" {
		return
	}
	lists := identity.Reorderings(b.carried.Outline, identity.OutlineOf(j.plan))
	if lines := wording.Reordered(lists, filepath.Base(j.logFile())); lines != nil {
		u.warn(j.file, lines...)
	} else {
		u.warn(j.file, b.changed)
	}
}

// firedBefore says which cups of a plan earlier tests of a folder have, with
// what was written of them.
func (u *ui) firedBefore(j *job, folder string) error {
	b, err := u.readBook(folder)
	if err != nil {
		return err
	}
	own := ""
	info, _ := os.Stat(j.file)
	for _, c := range b.Chapters {
		if other, err := os.Stat(c.Plan); err == nil && os.SameFile(info, other) {
			own = c.Plan
		}
	}
	matches := b.Fired(own, book.Mixes(book.Source{Test: j.test}), j.plan.Tiles.Bodies)
	if len(matches) == 0 {
		u.printf("\nNo cup of this plan has been fired before (%d tests in %s).\n", len(b.Chapters), folder)
		return nil
	}
	u.printf("\nFired before, the best of each cup first:\n\n")
	u.print(text.Fired(matches))
	return nil
}
