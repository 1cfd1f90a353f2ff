package main

import (
	"os"
	"path/filepath"
	"strings"

	"pourboard/blend/mark"
	"pourboard/blend/spell"
	"pourboard/render/text"
)

func findCommand() command {
	return command{
		name: "find",
		line: "find tiles from a damaged mark",
		help: `Usage:  pourboard find PLAN|FOLDER MARK [FLAGS]

Lists the tiles that a mark can be, most likely first. Given a folder, it looks
in all tests and says where each tile is kept. In MARK, type ? for one character
that cannot be read and * for several. Put MARK in quotes. One wrong or lost
character of a mark underneath is corrected if only one tile fits. Otherwise all
that fit are listed.

  --body NAME       only tiles of this body
  --log LOG         skip tiles that this log has recorded (with a plan)
` + measuredHelp + `
Example:

  pourboard find plan.toml 'M?7' --body Buff
  pourboard find tests 'M?7'
`,
		run: runFind,
	}
}

func runFind(u *ui, args []string) error {
	f := flags("find")
	body, log := f.String("body", "", ""), f.String("log", "", "")
	var o overrides
	o.add(f)
	args, err := u.parse(f, args, "a plan or folder", "a mark")
	if err != nil {
		return err
	}
	if filepath.Ext(args[1]) == ".toml" && filepath.Ext(args[0]) != ".toml" {
		return usagef("%s is a plan (put it first: pourboard find %s '%s')", args[1], args[1], args[0])
	}
	if info, err := os.Stat(args[0]); err == nil && info.IsDir() {
		return u.findInFolder(args[0], args[1], *body)
	}
	j, err := load(args[0], o)
	if err != nil {
		return err
	}
	only := -1
	if *body != "" {
		if only, err = bodyNamed(*body, j.plan.Tiles.Bodies); err != nil {
			return err
		}
	}
	logged := map[int]bool{}
	if *log == "" {
		j.measure(u)
	} else if err := j.recorded(u, *log, logged); err != nil {
		return err
	}
	why := func(t mark.Tile) string {
		switch {
		case only >= 0 && t.Body != only:
			return "its body is " + j.plan.Tiles.Bodies[t.Body]
		case logged[t.Index]:
			return "it is recorded in the log"
		}
		return ""
	}
	return u.findTiles(j, args[1], why)
}

// recorded notes the tiles, by index, that a log has something filled in for, and
// takes the cups as it measured them.
func (j *job) recorded(u *ui, file string, tiles map[int]bool) error {
	log, t, notes, err := j.readLog(file)
	if err != nil {
		return err
	}
	u.tellLog(file, log)
	for _, note := range notes {
		u.note("%s: note: %s", j.file, note)
	}
	for _, r := range log.Readings {
		tiles[r.Index] = true
	}
	j.test = t
	return nil
}

// bodyNamed is the index of the body of that name, but for case and accents, or
// of the only one whose name has it.
func bodyNamed(name string, bodies []string) (int, error) {
	typed := spell.Bare(name)
	var holds []int
	for i, b := range bodies {
		if spell.Bare(b) == typed {
			return i, nil
		}
		if typed != "" && strings.Contains(spell.Bare(b), typed) {
			holds = append(holds, i)
		}
	}
	if len(holds) == 1 {
		return holds[0], nil
	}
	return 0, usagef("unknown body %q%s", name, nearestOrAll(name, bodies, "the plan has"))
}

// mostShown is how many tiles are listed.
const mostShown = 20

// findTiles lists the tiles that a mark can be; leftOut says why a tile is not
// looked for, or nothing.
func (u *ui) findTiles(j *job, read string, leftOut func(mark.Tile) string) error {
	scheme := j.places.Scheme
	keep := func(t mark.Tile) bool { return leftOut(t) == "" }
	tile, err := scheme.Read(read)
	other := err == nil
	switch {
	case err == nil && keep(tile):
		u.printf("%s is in this test\n\n", read)
		return text.Tiles(u.out, j.test, j.places, []mark.Tile{tile})
	case err == nil:
		u.printf("%s is in this test, but %s\n", read, leftOut(tile))
	case !strings.ContainsAny(read, "?*"):
		u.printf("%s\n\n", err)
		if tile, certain := scheme.Repair(read, keep); certain {
			u.printf("with one wrong or lost character, only this tile fits\n\n")
			return text.Tiles(u.out, j.test, j.places, []mark.Tile{tile})
		}
	}
	possible := scheme.Possible(read, keep)
	if len(possible) == 0 {
		possible = scheme.Nearest(read, keep)
	}
	if best := scheme.Candidates(read, nil); !other && len(best) > 0 && !keep(best[0].Tile) && (len(possible) == 0 || best[0].Penalty < possible[0].Penalty) {
		u.printf("%s is closest to %s, but %s\n", read, best[0].Mark, leftOut(best[0].Tile))
		other = true
	}
	return u.listTiles(j, possible, other)
}

// listTiles lists tiles that a mark can be, other than one that was named where
// other says so.
func (u *ui) listTiles(j *job, possible []mark.Candidate, other bool) error {
	switch {
	case len(possible) == 0 && other:
		u.printf("no other tile of this test fits\n")
		return nil
	case len(possible) == 0:
		u.printf("no tile of this test fits\n")
		return nil
	case other:
		u.printf("other possible tiles, most likely first\n\n")
	case possible[len(possible)-1].Penalty > possible[0].Penalty:
		u.printf("possible tiles, most likely first\n\n")
	}
	var tiles []mark.Tile
	for _, c := range possible[:min(len(possible), mostShown)] {
		tiles = append(tiles, c.Tile)
	}
	if err := text.Tiles(u.out, j.test, j.places, tiles); err != nil {
		return err
	}
	if more := len(possible) - len(tiles); more > 0 {
		u.printf("and %d more\n", more)
	}
	return nil
}
