package layout

import "pourboard/blend"

// Tile is one tile of a test and what is painted on it.
type Tile struct {
	Index  int    // from 0: by cell, then body, then repeat
	Cell   int    // number of the cell, from 1
	Body   int    // index into the plan's bodies
	Repeat int    // from 0
	Mark   string // painted above
	Under  string // painted underneath: the mark and its check sign
}

// Scheme is how the tiles of a plan are marked.
type Scheme struct {
	prefix         string
	cells          int
	bodies, copies int // copies of each cell: bodies × repeats
	letters        int // copy letters in a mark
}

// Marks is the scheme of a plan whose design has so many cells.
func Marks(p *blend.Plan, cells int) Scheme { return Scheme{} }

// Tiles is how many tiles there are.
func (s Scheme) Tiles() int { return 0 }

// Tile is the tile of an index.
func (s Scheme) Tile(index int) Tile { return Tile{} }

// Underlined says which signs of a mark get a line below.
func (s Scheme) Underlined(mark string) []bool { return nil }

// Read finds the tile of a mark, with or without its check sign.
func (s Scheme) Read(mark string) (Tile, error) { return Tile{}, nil }

// ReadUnder finds the tile of a mark read from the underside, which must have
// its check sign.
func (s Scheme) ReadUnder(mark string) (Tile, error) { return Tile{}, nil }

// Candidate is a tile that a half-lost mark can be.
type Candidate struct {
	Tile
	Penalty float64 // 0 when the mark reads so as it stands; the smaller the likelier
}

// Candidates lists the tiles that a pattern can be, most likely first: '?' is
// one lost sign, '*' any number. keep may be nil; otherwise it says which
// tiles come into question (those of a body, those not logged yet).
func (s Scheme) Candidates(pattern string, keep func(Tile) bool) []Candidate { return nil }

// Nearest lists the tiles whose marks differ least from a wrong one, at most n.
func (s Scheme) Nearest(mark string, n int) []Candidate { return nil }

// Repair puts a wrong mark right where only one tile can be meant.
func (s Scheme) Repair(mark string, keep func(Tile) bool) (Tile, bool) { return Tile{}, false }
