package main

import (
	"github.com/spf13/pflag"

	"pourboard/blend/book"
	"pourboard/blend/quantity"
	"pourboard/render/text"
)

// findInFolder lists the tiles of all tests in a folder that a mark can be.
func (u *ui) findInFolder(folder, read, body string) error {
	var wrong error
	u.flags.Visit(func(f *pflag.Flag) {
		if wrong == nil && f.Name != "body" && f.Name != "quiet" {
			wrong = usagef("--%s is for one plan; %s is a folder", f.Name, folder)
		}
	})
	if wrong != nil {
		return wrong
	}
	b, err := u.readBook(folder)
	if err != nil {
		return err
	}
	if n := len(b.Skipped); n > 0 {
		u.note("note: %s skipped (pourboard book %s says why)", quantity.Plural(n, "file or row", "files or rows"), folder)
	}
	found, how := b.Find(read, body)
	where := quantity.Plural(len(b.Chapters), "test", "tests") + " in " + folder
	switch {
	case how == book.NotFound:
		u.printf("%s fits no tile of %s\n", read, where)
		return nil
	case how == book.Exactly && len(found) == 1:
		u.printf("%s is in 1 of %s\n\n", read, where)
	case how == book.Exactly:
		u.printf("%s is in %d of %s\n\n", read, len(found), where)
	case how == book.Repaired:
		u.printf("with one wrong or lost character, only this tile fits of %s\n\n", where)
	default:
		u.printf("possible tiles for %s in %s%s\n\n", read, where, order(found))
	}
	if err := text.Found(u.out, found[:min(len(found), mostShown)]); err != nil {
		return err
	}
	if more := len(found) - mostShown; more > 0 {
		u.printf("and %d more\n", more)
	}
	return nil
}

// order says that the likeliest come first, where some are likelier.
func order(found []book.Found) string {
	if found[0].Penalty < found[len(found)-1].Penalty {
		return ", most likely first"
	}
	return ""
}
