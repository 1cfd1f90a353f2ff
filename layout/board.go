package layout

import "pourboard/blend"

// Placed is a tile with its place on a board.
type Placed struct {
	Tile
	Board int // index into Places.Boards
	Spot  int // index into that board's Spots
}

// Places is where every tile of a test lies.
type Places struct {
	Scheme Scheme
	Tiles  []Placed // by tile index: by cell, then body, then repeat
	Boards []Board
}

// Board is one board with the spots that tiles lie on, or one cup mat with the
// circles that cups stand on. Its shape is that of the design.
type Board struct {
	Number int    // from 1
	Name   string // "Buff", "Buff, layer 2 of 5, repeat 1 of 2"
	Body   int    // index into the plan's bodies, -1 when the board has several or none
	Repeat int    // from 0
	Layer  int    // from 0
	Round  bool   // the spots are circles of diameter W: a cup mat
	W, H   float64
	Spots  []Spot // row by row from the top, left to right
	Heads  []Head // names of rows, where rows have names
}

// Spot is the place of one tile or cup.
type Spot struct {
	Tile        int // tile index, -1 on a cup mat
	Cell        int // number of the cell, from 1
	Row, Column int // place in the board's own rows, from 0
	Rect            // outline of the tile or of the circle, at life size
	Caption     Rect
}

// Whole is the outline and the caption together.
func (s Spot) Whole() Rect { return s.Rect.around(s.Caption) }

// Head is the name of a row, with the room for it above the row.
type Head struct {
	Body int // index into the plan's bodies
	Rect
}

// Boards lays out the tiles of a test.
func Boards(t *blend.Test) *Places { return nil }

// Mat lays out the places of the cups, one mat for each layer, or none when
// the plan does not give the cup's diameter.
func Mat(t *blend.Test) []Board { return nil }
