package layout

import (
	"cmp"
	"fmt"
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
	Name   string  // "Buff", "Buff, repeat 1 of 2, layer 2 of 5"
	Body   int     // index into the plan's bodies, -1 when the board has several or none
	Repeat int     // from 0
	Layer  int     // from 0
	Round  bool    // the spots are circles of diameter W: a cup mat
	W, H   float64 // Edge included
	Spots  []Spot  // row by row from the top, left to right
	Heads  []Head  // names of rows, where rows have names
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

// Head is the name of a row, with the room for it above the row.
type Head struct {
	Row  int // the row of spots that it is above
	Body int // index into the plan's bodies
	Rect
}

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

// gauge is the measures of one place of a board.
type gauge struct {
	w, h         float64 // outline
	capW, capH   float64 // caption, centred below the outline
	pitchX       float64 // from place to place
	pitchY       float64
	head         float64 // above each row
	round        bool
	bodiesAsRows int // bodies whose rows are below each other, or 0
}

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
	if board.BodiesAsRows && t.Plan.Blend.Kind == blend.Line {
		g.bodiesAsRows = len(tiles.Bodies)
		g.head = headRoom
	}
	g.pitchX = max(g.w+gap, g.capW+1)
	g.pitchY = max(g.h+gap, g.head+g.h+g.capH+normalGap)
	return g
}

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
	g := tileGauge(t)
	layers := cellsByLayer(t)
	shapes := make([]Board, len(layers))
	for i, cells := range layers {
		shapes[i] = g.board(g.slots(t, cells))
	}
	bodies, repeats := t.Plan.Tiles.Bodies, max(t.Plan.Tiles.Repeats, 1)
	draws := uint64(0)
	for body := 0; body < len(bodies); body += max(g.bodiesAsRows, 1) {
		on := []int{body} // the bodies on one board
		for len(on) < g.bodiesAsRows {
			on = append(on, len(on))
		}
		for repeat := range repeats {
			for layer, cells := range layers {
				b := shapes[layer]
				b.Number = len(p.Boards) + 1
				b.Body, b.Repeat, b.Layer = body, repeat, t.Cells[cells[0]].Layer
				if g.bodiesAsRows > 0 {
					b.Body = -1
				}
				b.Name = boardName(t, &b)
				order := make([][]int, len(on))
				for k := range order {
					order[k] = cells
					if t.Plan.Board.Shuffle {
						order[k] = shuffled(cells, t.Plan.Board.Seed, draws)
						draws++
					}
				}
				b.Spots = slices.Clone(b.Spots)
				p.lay(t, b, on, order)
			}
		}
	}
	return p
}

// boardName tells a board from the others of its test.
func boardName(t *blend.Test, b *Board) string {
	name := "All bodies"
	if b.Body >= 0 {
		name = t.Plan.Tiles.Bodies[b.Body]
	}
	if repeats := t.Plan.Tiles.Repeats; repeats > 1 {
		name += fmt.Sprintf(", repeat %d of %d", b.Repeat+1, repeats)
	}
	if t.Layers > 1 {
		name += fmt.Sprintf(", layer %d of %d", b.Layer+1, t.Layers)
	}
	return name
}

// lay adds a board with its tiles: the spots of each of the bodies on it take
// cells (indexes) in that body's order.
func (p *Places) lay(t *blend.Test, b Board, bodies []int, order [][]int) {
	next := make([]int, len(bodies))
	for i := range b.Spots {
		s := &b.Spots[i]
		k := s.Row % len(bodies)
		s.Cell = t.Cells[order[k][next[k]]].Number
		next[k]++
		s.Tile = p.Scheme.IndexOf(s.Cell, bodies[k], b.Repeat)
		p.Tiles[s.Tile].Board, p.Tiles[s.Tile].Spot = len(p.Boards), i
	}
	p.Boards = append(p.Boards, b)
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

// slot is one place of a board before it has a size: x in places from wherever
// the design starts.
type slot struct {
	row, column int
	x           float64
}

// shape is the places of some cells (indexes) of one layer: in rows of across
// cups where the design is a line or list, otherwise in the rows of the design,
// those of a triangle each half a place further left.
func shape(t *blend.Test, cells []int, across int) []slot {
	slots := make([]slot, len(cells))
	for k, i := range cells {
		c := &t.Cells[i]
		s := slot{row: c.Row, column: c.Column, x: float64(c.Column)}
		switch t.Plan.Blend.Kind {
		case blend.Line, blend.List:
			s = slot{row: k / across, column: k % across, x: float64(k % across)}
		case blend.Triaxial, blend.Quadraxial:
			s.x -= float64(c.Row) / 2
		}
		slots[k] = s
	}
	return slots
}

// slots is the shape of a layer on a board: with bodies as rows, each row of it
// for each body.
func (g gauge) slots(t *blend.Test, cells []int) []slot {
	slots := shape(t, cells, g.columns(len(cells), t.Plan.Board))
	if g.bodiesAsRows == 0 {
		return slots
	}
	var all []slot
	for body := range g.bodiesAsRows {
		for _, s := range slots {
			s.row = s.row*g.bodiesAsRows + body
			all = append(all, s)
		}
	}
	slices.SortStableFunc(all, func(a, b slot) int { return cmp.Compare(a.row, b.row) })
	return all
}

// board gives slots their size. Rows and places that the design leaves free at
// its borders take no room; those inside it do.
func (g gauge) board(slots []slot) Board {
	b := Board{Round: g.round, Spots: make([]Spot, len(slots))}
	top, left := slots[0].row, slots[0].x
	for _, s := range slots {
		top, left = min(top, s.row), min(left, s.x)
	}
	wide := max(g.w, g.capW)
	for i, s := range slots {
		x := Edge + (s.x-left)*g.pitchX
		y := Edge + float64(s.row-top)*g.pitchY + g.head
		spot := Spot{
			Row:     s.row - top,
			Column:  s.column,
			Rect:    Rect{X: x + (wide-g.w)/2, Y: y, W: g.w, H: g.h},
			Caption: Rect{X: x + (wide-g.capW)/2, Y: y + g.h, W: g.capW, H: g.capH},
		}
		b.Spots[i] = spot
		whole := spot.Whole()
		b.W, b.H = max(b.W, whole.Right()+Edge), max(b.H, whole.Bottom()+Edge)
		if g.head > 0 && s.column == 0 {
			b.Heads = append(b.Heads, Head{
				Row:  spot.Row,
				Body: spot.Row % max(g.bodiesAsRows, 1),
				Rect: Rect{X: x, Y: y - g.head, W: wide, H: g.head},
			})
		}
		if n := len(b.Heads); n > 0 {
			b.Heads[n-1].W = whole.Right() - b.Heads[n-1].X
		}
	}
	return b
}

// columns is how many of n places of a line or list make a row: at life size as
// many as a page takes, turned so that there are the fewest pages, and then
// evened out; on one page, what lets the places be largest.
func (g gauge) columns(n int, plan blend.Board) int {
	sheet := SheetOf(plan)
	best, least := 1, 0.0
	for _, turned := range []bool{false, true} {
		view := sheet.frame(turned).view
		if plan.Scale == blend.Fit {
			for c := 1; c <= n; c++ {
				rows := (n + c - 1) / c * max(g.bodiesAsRows, 1)
				size := min(view.W/(float64(c)*g.pitchX), view.H/(float64(rows)*g.pitchY))
				if -size < least {
					best, least = c, -size
				}
			}
			continue
		}
		across := max(1, int((view.W-2*Edge+g.pitchX-max(g.w, g.capW)+hair)/g.pitchX))
		down := max(1, int((view.H-2*Edge+g.pitchY-g.head-g.h-g.capH+hair)/g.pitchY))
		rows := (n + across - 1) / across
		pages := float64((rows*max(g.bodiesAsRows, 1) + down - 1) / down)
		if least == 0 || pages < least {
			best, least = (n+rows-1)/rows, pages
		}
	}
	return best
}
