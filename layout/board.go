package layout

import (
	"cmp"
	"fmt"
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"

	"pourboard/blend"
	"pourboard/blend/mark"
)

// Placed is a tile with its place on a board.
type Placed struct {
	mark.Tile
	Board int // index into Places.Boards
	Spot  int // index into that board's Spots
}

// Places is where every tile of a test lies.
type Places struct {
	Scheme mark.Scheme
	Tiles  []Placed // by tile index: by cell, then body, then repeat
	Boards []Board  // by body, then repeat, then layer
}

// Spot is the spot of a tile, by the tile's index.
func (p *Places) Spot(tile int) Spot {
	at := p.Tiles[tile]
	return p.Boards[at.Board].Spots[at.Spot]
}

// Board is one board with the spots that tiles lie on, or one cup mat with the
// circles that cups stand on. Its shape is that of the design.
type Board struct {
	Number int     // from 1
	Name   string  // "Board 4: Buff", "Board 4: Buff, repeat 1 of 2, layer 2 of 5"
	HeadH  float64 // room above each row for its name, 0 where rows have none
	W, H   float64 // Edge included
	Spots  []Spot  // row by row from the top, left to right
	gauge
}

// Spot is the place of one tile or cup.
type Spot struct {
	Tile        int  // tile index, -1 on a cup mat
	Cell        int  // number of the cell, from 1
	Row, Column int  // place in the board's own rows, from 0
	Rect             // outline of the tile, or the square around the circle, at life size
	Caption     Rect // below the outline
}

// Whole is the outline and the caption together.
func (s Spot) Whole() Rect { return s.Rect.around(s.Caption) }

// Edge is what a board has around its spots, mm.
const Edge = 5.0

// Room for captions, mm. They are read at arm's length: the mark or the cup's
// number takes one line of 14 pt, the others are of 11 pt with their leading.
const (
	CaptionMark = 6.0
	captionLine = 4.5
	headRoom    = 6.0
	normalGap   = 4.0  // between tiles, when the plan does not say
	cupGap      = 3.0  // between a cup and the caption above it
	narrowest   = 28.0 // caption below a narrow tile
	shareRoom   = 16.0 // "A 33.3" in 11 pt
	doseRoom    = 45.0 // caption of a cup: "Copper carb. 0.50 g"
)

// gauge is the measures of one place of a board, mm.
type gauge struct {
	w, h           float64 // outline
	capW, capH     float64 // caption, as wide as the outline at least
	pitchX, pitchY float64 // from place to place
	head           float64 // above each row
}

// high is a place with its caption and the name of its row, mm.
func (g gauge) high() float64 { return g.head + g.h + g.capH }

// tileGauge is the measures of a place for a tile.
func tileGauge(t *blend.Test) gauge {
	tiles, board := t.Plan.Tiles, t.Plan.Board
	g := gauge{w: tiles.WidthMM, h: tiles.HeightMM, capW: max(tiles.WidthMM, narrowest)}
	parts := max(len(t.Plan.Blend.Series), 1)
	if !t.Plan.Blend.HasSeries() {
		parts = len(t.Plan.Blend.Ends)
	}
	across := int(g.capW / shareRoom)
	g.capH = CaptionMark + captionLine*float64(max(2, (parts+across-1)/across))
	gap := board.GapMM
	if gap == 0 {
		gap = normalGap
	}
	if bodiesAsRows(t.Plan) {
		g.head = headRoom
	}
	g.pitchX = max(g.w+gap, g.capW+1)
	g.pitchY = max(g.h+gap, g.high()+normalGap)
	return g
}

// bodiesAsRows reports whether the bodies are rows of one board.
func bodiesAsRows(p *blend.Plan) bool { return p.Board.BodiesAsRows && p.Blend.Kind == blend.Line }

// Boards lays out the tiles of a test. Each body has a board of its own, so
// that a board is one colour of clay; each repeat has one too, a whole second
// test that can lie elsewhere in the kiln, so that the scatter between repeats
// holds what the place in the kiln does; and so has each layer of a quadraxial.
// A line may have its bodies as rows of one board.
//
// Rows run left to right, always. A line or list is cut into rows that a page
// takes whole. Places in random order are drawn for each board and each body
// by itself.
func Boards(t *blend.Test) *Places {
	p := &Places{Scheme: mark.New(t.Plan, len(t.Cells))}
	p.Tiles = make([]Placed, p.Scheme.Tiles())
	for i := range p.Tiles {
		p.Tiles[i].Tile = p.Scheme.Tile(i)
	}
	g, layers, bodies := tileGauge(t), cellsByLayer(t), t.Plan.Tiles.Bodies
	together := 1 // bodies on one board
	if bodiesAsRows(t.Plan) {
		together = len(bodies)
	}
	draws := uint64(0)
	for body := 0; body < len(bodies); body += together {
		for repeat := range max(t.Plan.Tiles.Repeats, 1) {
			for _, cells := range layers {
				orders := make([][]int, together)
				for k := range orders {
					orders[k] = cells
					if t.Plan.Board.Shuffle {
						orders[k] = shuffled(cells, t.Plan.Board.Seed, draws)
						draws++
					}
				}
				b := g.board(t, cells, orders...)
				name := bodies[body]
				if together > 1 {
					name = "All bodies"
				}
				b.Number = len(p.Boards) + 1
				b.Name = fmt.Sprintf("Board %d: %s", b.Number, name)
				if t.Plan.Tiles.Repeats > 1 {
					b.Name += fmt.Sprintf(", repeat %d of %d", repeat+1, t.Plan.Tiles.Repeats)
				}
				if t.Layers > 1 {
					b.Name += fmt.Sprintf(", layer %d of %d", t.Cells[cells[0]].Layer+1, t.Layers)
				}
				for i := range b.Spots {
					s := &b.Spots[i]
					s.Tile = p.Scheme.IndexOf(s.Cell, body+s.Row%together, repeat)
					p.Tiles[s.Tile].Board, p.Tiles[s.Tile].Spot = len(p.Boards), i
				}
				p.Boards = append(p.Boards, b)
			}
		}
	}
	return p
}

// cellsByLayer is the cells (indexes) of each layer that has any, in order.
func cellsByLayer(t *blend.Test) [][]int {
	var layers [][]int
	for i := range t.Cells {
		if i == 0 || t.Cells[i].Layer != t.Cells[i-1].Layer {
			layers = append(layers, nil)
		}
		layers[len(layers)-1] = append(layers[len(layers)-1], i)
	}
	return layers
}

// slot is one place of a design before it has a size: x in places from the
// left, and the row from the top.
type slot struct {
	row, column int
	x           float64
}

// shape is the places of some cells (indexes) of one layer, and how many places
// they are wide and high: in rows of across cups where the design is a line or
// list, otherwise in the rows of the design, those of a triangle each half a place
// further left. Rows and places that the design leaves free at its borders take no
// room; those inside it do.
func shape(t *blend.Test, cells []int, across int) (slots []slot, w, h float64) {
	slots = make([]slot, len(cells))
	left, top := math.Inf(1), math.MaxInt
	for k, i := range cells {
		c := &t.Cells[i]
		s := slot{row: c.Row, column: c.Column, x: float64(c.Column)}
		switch t.Plan.Blend.Kind {
		case blend.Line, blend.List:
			s = slot{row: k / across, column: k % across, x: float64(k % across)}
		case blend.Triaxial, blend.Quadraxial:
			s.x -= float64(c.Row) / 2
		}
		left, top, slots[k] = min(left, s.x), min(top, s.row), s
	}
	for k := range slots {
		s := &slots[k]
		s.x, s.row = s.x-left, s.row-top
		w, h = max(w, s.x+1), max(h, float64(s.row)+1)
	}
	return slots, w, h
}

// board gives the cells (indexes) of a layer their places. With several orders of
// them, each row of the design is there once for each, in that order.
func (g gauge) board(t *blend.Test, cells []int, orders ...[]int) Board {
	slots, w, h := shape(t, cells, g.columns(len(cells), len(orders), t.Plan.Board))
	b := Board{HeadH: g.head, gauge: g, W: 2*Edge + (w-1)*g.pitchX + g.capW}
	b.H = 2*Edge + (h*float64(len(orders))-1)*g.pitchY + g.high()
	for i, s := range slots {
		for k, order := range orders {
			spot := g.spot(s.x, s.row*len(orders)+k, s.column)
			spot.Cell = t.Cells[order[i]].Number
			b.Spots = append(b.Spots, spot)
		}
	}
	slices.SortStableFunc(b.Spots, func(a, b Spot) int { return cmp.Compare(a.Row, b.Row) })
	return b
}

// spot is a place so many places from the left, without tile and cup.
func (g gauge) spot(left float64, row, column int) Spot {
	x, y := Edge+left*g.pitchX, Edge+float64(row)*g.pitchY+g.head
	return Spot{
		Tile: -1, Row: row, Column: column,
		Rect:    Rect{X: x + (g.capW-g.w)/2, Y: y, W: g.w, H: g.h},
		Caption: Rect{X: x, Y: y + g.h, W: g.capW, H: g.capH},
	}
}

// columns is how many of n places of a line or list make a row, with so many
// rows of each: at life size as many as a page takes, turned so that there are the
// fewest pages, and then evened out; on one page, what lets the places be largest.
func (g gauge) columns(n, orders int, plan blend.Board) int {
	best, least := 1, math.Inf(1)
	try := func(across int, cost float64) {
		if cost < least {
			best, least = across, cost
		}
	}
	for _, turned := range []bool{false, true} {
		view := SheetOf(plan).page(turned).View
		if plan.Scale == blend.Fit {
			for c := 1; c <= n; c++ {
				rows := (n + c - 1) / c * orders
				try(c, -min(view.W/(float64(c)*g.pitchX), view.H/(float64(rows)*g.pitchY)))
			}
			continue
		}
		rows := (n-1)/max(1, fit(view.W, g.pitchX, g.capW)) + 1
		down := max(1, fit(view.H, g.pitchY, g.high()))
		try((n-1)/rows+1, float64((rows*orders-1)/down+1))
	}
	return best
}

// fit is how many places go in room, mm, with Edge around them.
func fit(room, pitch, place float64) int { return int((room - 2*Edge - place + hair + pitch) / pitch) }

// shuffled is the cells in an order that follows from the seed and from which
// draw of the test it is. The generator is PCG; the shuffle (Fisher and Yates,
// from the end) is written out, because a seed that is printed on a board has
// to give the same board years later.
func shuffled(cells []int, seed, draw uint64) []int {
	pcg := rand.NewPCG(seed, draw)
	out := append([]int(nil), cells...)
	for i := len(out) - 1; i > 0; i-- {
		// The high word of a product with i+1 is uniform to one part in 2⁶⁴/i.
		j, _ := bits.Mul64(pcg.Uint64(), uint64(i+1))
		out[i], out[j] = out[j], out[i]
	}
	return out
}
