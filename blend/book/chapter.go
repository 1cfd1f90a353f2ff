package book

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/blend/record"
	"pourboard/blend/results"
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
	Firings []Firing
	Notes   []string // about the test as a whole
	Copies  []string // files that hold the same plan and agree with it
	Skipped []Skip   // rows of its logs

	series bool
	ends   []glaze // end glazes, or the base
	scheme mark.Scheme
	bodies []string
}

// glaze is what tells glazes of one name apart.
type glaze struct {
	name   string
	recipe string // its materials and amounts in one text
}

// Tile is one fired tile in one firing.
type Tile struct {
	Mark    string
	Cup     int // number, from 1
	Body    string
	Repeat  int    // from 1
	Firing  string // letter
	Mix     *Mix   // of the cup, shared by its tiles
	Rating  int    // 0 when not given
	Surface string
	Defects string
	Colour  string
	Coats   []string
	Numbers []Number // by the plan's own columns, those given
	Notes   string
	Photo   string
}

// Number is a figure in a column of the plan's own.
type Number struct {
	Head  string
	Value float64
}

// Firing is one firing of a test.
type Firing struct {
	Letter  string
	Entries []record.Entry // label and value, in the order of the log
}

// Value is what was entered beside a label, "" for nothing.
func (f Firing) Value(label string) string {
	for _, e := range f.Entries {
		if strings.EqualFold(e.Label, label) {
			return e.Value
		}
	}
	return ""
}

// Source is a test with the logs that belong to it.
type Source struct {
	Plan   string // file
	Test   *blend.Test
	Scheme mark.Scheme
	Logs   []LogFile
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
		Cups: len(s.Test.Cells), Planned: s.Scheme.Tiles(), series: p.Blend.HasSeries(),
		scheme: s.Scheme, bodies: p.Tiles.Bodies,
	}
	for i := range c.Planned {
		c.Marks = append(c.Marks, s.Scheme.Tile(i).Mark)
	}
	for _, e := range p.Blend.Ends {
		c.ends = append(c.ends, glaze{p.Glazes[e].Name, recipeText(p.Glazes[e])})
	}
	if c.series {
		base := p.Glazes[p.Blend.Base]
		c.Base = base.Name
		c.ends = []glaze{{base.Name, recipeText(base)}}
	}
	rows := map[place]entry{}
	for _, l := range s.Logs {
		made, lost := l.Test, results.Lost(l.Log)
		if done := results.Done(l.Log); done != nil {
			made = made.AsDone(done)
		}
		mixes := map[int]*Mix{}
		c.Logs = append(c.Logs, l.File)
		for _, complaint := range l.Log.Complaints {
			c.Skipped = append(c.Skipped, Skip{l.File, complaint.String()})
		}
		for _, r := range l.Log.Readings {
			if slices.Contains(lost, r.Cell) {
				c.Skipped = append(c.Skipped, Skip{l.File, fmt.Sprintf("%s, firing %s: cup %d was forgotten or spilled", r.Mark, r.Firing, r.Cell)})
				continue
			}
			if mixes[r.Cell] == nil {
				mixes[r.Cell] = newMix(made, r.Cell-1)
			}
			e := entry{c.tile(s.Test, r, mixes[r.Cell]), l.File}
			at := place{r.Index, r.Firing}
			if was, twice := rows[at]; twice && !was.tile.agrees(e.tile) {
				c.Skipped = append(c.Skipped, Skip{l.File, r.Mark + ", firing " + r.Firing + ": differs from " + was.file + " (keep one)"})
				continue
			}
			rows[at] = e
		}
		c.addFirings(l.Log)
	}
	for _, e := range rows {
		c.Tiles = append(c.Tiles, e.tile)
	}
	slices.SortFunc(c.Tiles, Tile.compare)
	return c
}

// place is a tile of the scheme in one firing.
type place struct {
	tile   int
	firing string
}

// entry is a row of a log.
type entry struct {
	tile Tile
	file string
}

func (c *Chapter) tile(t *blend.Test, r record.Reading, mix *Mix) Tile {
	it := Tile{
		Mark: r.Mark, Cup: r.Cell, Body: t.Plan.Tiles.Bodies[r.Body], Repeat: r.Repeat + 1, Firing: r.Firing,
		Mix: mix, Rating: r.Rating, Surface: r.Surface, Defects: r.Defects, Colour: r.Colour, Notes: r.Notes, Photo: r.Photo,
	}
	for _, coat := range r.Coats {
		it.Coats = append(it.Coats, coat.Text)
	}
	for i, n := range r.Numbers {
		if n.Given {
			it.Numbers = append(it.Numbers, Number{t.Plan.Log.Numbers[i], n.Value})
		}
	}
	return it
}

func (t Tile) compare(o Tile) int {
	switch {
	case t.Cup != o.Cup:
		return t.Cup - o.Cup
	case t.Mark != o.Mark:
		return strings.Compare(t.Mark, o.Mark)
	}
	return strings.Compare(t.Firing, o.Firing)
}

// agrees reports whether two rows of one tile say the same.
func (t Tile) agrees(o Tile) bool {
	return t.Rating == o.Rating && t.Surface == o.Surface && t.Defects == o.Defects && t.Colour == o.Colour &&
		t.Notes == o.Notes && t.Photo == o.Photo && slices.Equal(t.Coats, o.Coats) && slices.Equal(t.Numbers, o.Numbers)
}

// addFirings adds the firings of a log that the chapter does not have yet.
func (c *Chapter) addFirings(l *record.Log) {
	for _, said := range l.Firings {
		has := func(f Firing) bool { return f.Letter == said.Letter }
		if !slices.ContainsFunc(c.Firings, has) {
			c.Firings = append(c.Firings, Firing{said.Letter, said.Entries})
		}
	}
}

// Firing is the firing of a letter, empty where the log says nothing of it.
func (c *Chapter) Firing(letter string) Firing {
	for _, f := range c.Firings {
		if f.Letter == letter {
			return f
		}
	}
	return Firing{Letter: letter}
}

// Recorded is how many rows a firing has.
func (c *Chapter) Recorded(firing string) int {
	n := 0
	for _, t := range c.Tiles {
		if t.Firing == firing {
			n++
		}
	}
	return n
}

// Number is the figure in a column of the plan's own.
func (t *Tile) Number(head string) (x float64, has bool) {
	for _, n := range t.Numbers {
		if n.Head == head {
			return n.Value, true
		}
	}
	return 0, false
}

// RecordedTiles is how many tiles have a row, in whatever firing.
func (c *Chapter) RecordedTiles() int {
	tiles := map[string]bool{}
	for _, t := range c.Tiles {
		tiles[t.Mark] = true
	}
	return len(tiles)
}
