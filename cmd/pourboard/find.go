package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"pourboard/blend/book"
	"pourboard/blend/mark"
	"pourboard/blend/quantity"
	"pourboard/blend/spell"
	"pourboard/render/text"
)

func findFlags(f *pflag.FlagSet) action {
	body, log := f.String("body", "", "Buff"), f.String("log", "", "plan-log.xlsx")
	var o overrides
	o.add(f)
	return func(u *ui, args []string) error {
		place, read := args[0], args[1]
		if filepath.Ext(read) == ".toml" && filepath.Ext(place) != ".toml" {
			return usagef("%s is a plan (put it first: pourboard find %s '%s')", read, read, place)
		}
		if info, err := os.Stat(place); err != nil || !info.IsDir() {
			return u.findInPlan(place, o, read, *body, *log)
		}
		var wrong error
		f.Visit(func(flag *pflag.Flag) {
			if flag.Name != "body" && flag.Name != "quiet" {
				wrong = usagef("--%s is for one plan; %s is a folder", flag.Name, place)
			}
		})
		if wrong != nil {
			return wrong
		}
		return u.findInFolder(place, read, *body)
	}
}

// findInPlan lists the tiles of one test that a mark can be: of bodies whose name has
// body in it, and not recorded by a log, if one is named.
func (u *ui) findInPlan(file string, o overrides, read, body, log string) error {
	j, err := load(file, o)
	if err != nil {
		return err
	}
	bodies := j.plan.Tiles.Bodies
	of := func(name string) bool { return strings.Contains(spell.Bare(name), spell.Bare(body)) }
	if !slices.ContainsFunc(bodies, of) {
		return usagef("unknown body %q%s", body, nearestOrAll(body, bodies, "the plan has"))
	}
	recorded := map[int]bool{}
	filled, err := j.measure(u, log)
	if err != nil {
		return err
	}
	if filled != nil {
		u.tellLog(log, filled)
		for _, r := range filled.Readings {
			recorded[r.Index] = true
		}
	}
	u.findTiles(j, read, func(t mark.Tile) string {
		switch {
		case !of(bodies[t.Body]):
			return "its body is " + bodies[t.Body]
		case recorded[t.Index]:
			return "it is recorded in the log"
		}
		return ""
	})
	return nil
}

// mostShown is how many tiles are listed.
const mostShown = 20

// findTiles lists the tiles that a mark can be; skipped says why a tile is not
// looked for, or nothing.
func (u *ui) findTiles(j *job, read string, skipped func(mark.Tile) string) {
	scheme := j.places.Scheme
	keep := func(t mark.Tile) bool { return skipped(t) == "" }
	tile, err := scheme.Read(read)
	switch repaired, certain := scheme.Repair(read, keep); {
	case err == nil && keep(tile):
		u.printf("%s is in this test\n\n", read)
		u.print(text.Tiles(j.test, j.places, []mark.Tile{tile}))
		return
	case err == nil:
		u.printf("%s is in this test, but %s\n", read, skipped(tile))
	case strings.ContainsAny(read, "?*"):
	case certain:
		u.printf("%s\n\nwith one wrong or lost character, only this tile fits\n\n", err)
		u.print(text.Tiles(j.test, j.places, []mark.Tile{repaired}))
		return
	default:
		u.printf("%s\n", err)
	}
	possible, head := scheme.Candidates(read, keep), "possible tiles"
	if len(possible) > 0 && !possible[0].Fits() && strings.ContainsAny(read, "?*") {
		head = "no tile fits " + read + " as it is; nearest tiles"
	}
	if len(possible) == 0 {
		u.printf("no tile fits; find takes a mark as painted, such as %s (pourboard book lists tests by colourant)\n",
			scheme.Tile(0).Mark)
		return
	}
	u.printf("%s%s\n\n", head, order(possible[0].Penalty, possible[len(possible)-1].Penalty))
	var tiles []mark.Tile
	for _, c := range possible[:min(len(possible), mostShown)] {
		tiles = append(tiles, c.Tile)
	}
	u.print(text.Tiles(j.test, j.places, tiles))
	u.more(len(possible))
}

// more says how many tiles there are beyond those that are listed.
func (u *ui) more(found int) {
	if found > mostShown {
		u.printf("and %d more\n", found-mostShown)
	}
}

// order says that the likeliest tiles come first, where some are likelier.
func order(first, last float64) string {
	if first < last {
		return ", most likely first"
	}
	return ""
}

// findInFolder lists the tiles of all tests in a folder that a mark can be.
func (u *ui) findInFolder(folder, read, body string) error {
	b, err := u.readBook(folder)
	if err != nil {
		return err
	}
	if n := len(b.Skipped); n > 0 {
		u.note("note: %s skipped (pourboard book %s says why)", quantity.Plural(n, "file or row", "files or rows"),
			folder)
	}
	found, how := b.Find(read, body)
	where := quantity.Plural(len(b.Chapters), "test", "tests") + " in " + folder
	switch how {
	case book.NotFound:
		u.printf("%s fits no tile of %s; find takes a mark as painted (pourboard book %s lists tests by colourant)\n",
			read, where, folder)
		return nil
	case book.Exactly:
		u.printf("%s is in %d of %s\n\n", read, len(found), where)
	case book.Repaired:
		u.printf("with one wrong or lost character, only this tile fits of %s\n\n", where)
	default:
		u.printf("possible tiles for %s in %s%s\n\n", read, where, order(found[0].Penalty, found[len(found)-1].Penalty))
	}
	u.print(text.Found(found[:min(len(found), mostShown)]))
	u.more(len(found))
	return nil
}
