package book

import (
	"fmt"
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

	ends        []glaze // end glazes, or the base
	scheme      mark.Scheme
	bodies      []string
	fingerprint string // of its plan
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
	Repeat  int     // from 1
	Firing  string  // letter
	Mix     *Mix    // of the cup, shared by its tiles
	Rating  float64 // 0 when not given
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
	}
	for i := range c.Planned {
		c.Marks = append(c.Marks, s.Scheme.Tile(i).Mark)
	}
	for _, e := range p.Blend.Ends {
		c.ends = append(c.ends, glaze{p.Glazes[e].Name, recipeText(p.Glazes[e])})
	}
	if p.Blend.HasSeries() {
		base := p.Glazes[p.Blend.Base]
		c.Base = base.Name
		c.ends = []glaze{{base.Name, recipeText(base)}}
	}
	for _, l := range s.Logs {
		c.addLog(l)
	}
	return c
}

// addLog adds the rows of a log. Those that it refused, those of cups that were
// lost, and those that differ from a row that is there are skipped.
func (c *Chapter) addLog(l LogFile) {
	made, lost := l.Test, l.Log.Lost()
	if done := l.Log.Done(); done != nil {
		made = made.AsDone(done)
	}
	for _, complaint := range l.Log.Complaints {
		c.Skipped = append(c.Skipped, Skip{l.File, complaint.String()})
	}
	mixes := map[int]*Mix{}
	var tiles []Tile
	for _, r := range l.Log.Readings {
		if slices.Contains(lost, r.Cell) {
			c.Skipped = append(c.Skipped, Skip{l.File, fmt.Sprintf("%s, firing %s: cup %d was forgotten or spilled", r.Mark, r.Firing, r.Cell)})
			continue
		}
		if mixes[r.Cell] == nil {
			mixes[r.Cell] = newMix(made, r.Cell-1)
		}
		tiles = append(tiles, tileOf(l.Test, r, mixes[r.Cell]))
	}
	var firings []record.Firing
	for _, f := range l.Log.Firings {
		firings = append(firings, record.Firing{Letter: f.Letter, Entries: slices.Clone(f.Entries)})
		for i, e := range f.Entries {
			if strings.EqualFold(e.Label, coneLabel) {
				firings[len(firings)-1].Entries[i].Value = coneNumber(e.Value)
			}
		}
	}
	c.add(l.File, tiles, firings)
}

// add adds tiles and firings that a file has. A tile in a firing that the chapter
// has already is skipped where the two differ.
func (c *Chapter) add(file string, tiles []Tile, firings []record.Firing) {
	type row struct {
		cup, repeat  int
		body, firing string
	}
	rowOf := func(t Tile) row { return row{t.Cup, t.Repeat, t.Body, t.Firing} }
	has := map[row]Tile{}
	for _, t := range c.Tiles {
		has[rowOf(t)] = t
	}
	for _, t := range tiles {
		was, twice := has[rowOf(t)]
		switch {
		case !twice:
			c.Tiles = append(c.Tiles, t)
		case !was.agrees(t):
			c.Skipped = append(c.Skipped, Skip{file, t.Mark + ", firing " + t.Firing + ": differs from " + strings.Join(c.Logs, ", ") + " (keep one)"})
		}
	}
	slices.SortFunc(c.Tiles, Tile.compare)
	for _, f := range firings {
		has := func(g record.Firing) bool { return g.Letter == f.Letter }
		if !slices.ContainsFunc(c.Firings, has) {
			c.Firings = append(c.Firings, f)
		}
	}
	c.Logs = append(c.Logs, file)
}

func tileOf(t *blend.Test, r record.Reading, mix *Mix) Tile {
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
