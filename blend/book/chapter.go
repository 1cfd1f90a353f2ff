package book

import (
	"cmp"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/mark"
	"pourboard/blend/record"
)

// Chapter is what the book keeps of one test.
type Chapter struct {
	Title   string
	Mark    string // painted before the cup's number
	Kind    blend.Kind
	Base    string // name of the base, empty where glazes are blended
	Plan    string // file
	Logs    []string
	Cups    int
	Planned int      // tiles that the plan has
	Marks   []string // of all planned tiles, in their order
	Tiles   []Tile   // of which something is recorded, by cup, body, repeat and firing
	Firings record.Firings
	Notes   []string // about the test as a whole
	Copies  []string // files that hold the same plan and agree with it
	Skipped []Skip   // rows of its logs

	scheme      mark.Scheme
	bodies      []string
	fingerprint string // of its plan
}

// Tile is one fired tile in one firing.
type Tile struct {
	record.Reading
	Body string // its name
	Mix  *Mix   // of the cup, shared by its tiles

	heads []string // of the reading's numbers
}

// Number is the figure in a column of the plan's own.
func (t *Tile) Number(head string) (x float64, has bool) {
	if i := slices.Index(t.heads, head); i >= 0 && i < len(t.Numbers) {
		return t.Numbers[i].Value, t.Numbers[i].Given
	}
	return 0, false
}

// agrees reports whether two rows of one tile say the same.
func (t Tile) agrees(o Tile) bool {
	a, b := t.Reading, o.Reading
	a.Row, a.Tile, b.Row, b.Tile = 0, mark.Tile{}, 0, mark.Tile{}
	return reflect.DeepEqual(a, b)
}

// coneLabel is the label of a firing's cone in a log.
const coneLabel = "Cone"

// coneSign is what people write before the number of a cone.
var coneSign = regexp.MustCompile(`(?i)^(?:cone|[\^△Δ])\s*(\d)`)

// coneNumber is a cone as one number, by which firings are filtered: "cone 6" and
// "^6" are "6". What has no number behind it stays as it was typed.
func coneNumber(typed string) string {
	return coneSign.ReplaceAllString(strings.TrimSpace(typed), "$1")
}

// Source is a test with the logs that belong to it.
type Source struct {
	Plan   string // file
	Test   *blend.Test
	Scheme mark.Scheme
	Logs   []LogFile
	Notes  []string // about the test as a whole
}

// LogFile is a log that was read.
type LogFile struct {
	File string
	Log  *record.Log
	Test *blend.Test // with its cups as this log measured them
}

// NewChapter reads a test and its logs into a chapter. Rows that a log refused,
// and rows on which two logs disagree, are skipped.
func NewChapter(s Source) *Chapter {
	p := s.Test.Plan
	c := &Chapter{
		Title: p.Title, Mark: p.Mark, Kind: p.Blend.Kind, Plan: s.Plan,
		Cups: len(s.Test.Cells), Planned: s.Scheme.Tiles(),
		scheme: s.Scheme, bodies: p.Tiles.Bodies, fingerprint: identity.Fingerprint(p),
		Notes: s.Notes,
	}
	for i := range c.Planned {
		c.Marks = append(c.Marks, s.Scheme.Tile(i).Mark)
	}
	if p.Blend.HasSeries() {
		c.Base = p.Glazes[p.Blend.Base].Name
	}
	for _, l := range s.Logs {
		c.addLog(l)
	}
	return c
}

func (c *Chapter) skip(file, reason string, a ...any) {
	c.Skipped = append(c.Skipped, Skip{file, fmt.Sprintf(reason, a...)})
}

// addLog adds the rows of a log. Those that it refused, those of cups that were
// lost, and those that differ from a row that is there are skipped.
func (c *Chapter) addLog(l LogFile) {
	made, lost := l.Test, l.Log.Lost()
	if done := l.Log.Done(); done != nil {
		made = made.AsDone(done)
	}
	for _, complaint := range l.Log.Complaints {
		c.skip(l.File, "%s", complaint)
	}
	mixes := map[int]*Mix{}
	tiles := make([]Tile, 0, len(l.Log.Readings))
	for _, r := range l.Log.Readings {
		if slices.Contains(lost, r.Cell) {
			c.skip(l.File, "%s, firing %s: cup %d was forgotten or spilled", r.Mark, r.Firing, r.Cell)
			continue
		}
		if mixes[r.Cell] == nil {
			mixes[r.Cell] = newMix(made, r.Cell-1)
		}
		// Most tiles have nothing in these, and a studio has tens of thousands of tiles.
		if !slices.ContainsFunc(r.Coats, func(coat record.Coat) bool { return coat.Text != "" }) {
			r.Coats = nil
		}
		if !slices.ContainsFunc(r.Numbers, func(a record.Amount) bool { return a.Given }) {
			r.Numbers = nil
		}
		tiles = append(tiles, Tile{r, c.bodies[r.Body], mixes[r.Cell], l.Test.Plan.Log.Numbers})
	}
	var firings record.Firings
	for _, f := range l.Log.Firings {
		f.Entries = slices.Clone(f.Entries)
		for i, e := range f.Entries {
			if strings.EqualFold(e.Label, coneLabel) {
				f.Entries[i].Value = coneNumber(e.Value)
			}
		}
		firings = append(firings, f)
	}
	c.add(l.File, tiles, firings)
}

// add adds tiles and firings that a file has. A tile in a firing that the chapter
// has already is skipped where the two differ.
func (c *Chapter) add(file string, tiles []Tile, firings record.Firings) {
	order := func(t, o Tile) int { return cmp.Or(t.Index-o.Index, strings.Compare(t.Firing, o.Firing)) }
	had := slices.Clone(c.Tiles)
	c.Tiles = slices.Grow(c.Tiles, len(tiles))
	for _, t := range tiles {
		switch k, twice := slices.BinarySearchFunc(had, t, order); {
		case !twice:
			c.Tiles = append(c.Tiles, t)
		case !had[k].agrees(t):
			c.skip(file, "%s, firing %s: differs from %s (keep one)", t.Mark, t.Firing, strings.Join(c.Logs, ", "))
		}
	}
	slices.SortFunc(c.Tiles, order)
	for _, f := range firings {
		if !slices.ContainsFunc(c.Firings, func(g record.Firing) bool { return g.Letter == f.Letter }) {
			c.Firings = append(c.Firings, f)
		}
	}
	c.Logs = append(c.Logs, file)
}

// Recorded is how many rows a firing has.
func (c *Chapter) Recorded(firing string) (rows int) {
	for _, t := range c.Tiles {
		if t.Firing == firing {
			rows++
		}
	}
	return rows
}

// RecordedTiles is how many tiles have a row, in whatever firing.
func (c *Chapter) RecordedTiles() (tiles int) {
	for i, t := range c.Tiles {
		if i == 0 || t.Index != c.Tiles[i-1].Index {
			tiles++
		}
	}
	return tiles
}
