package layout

import "pourboard/blend"

// MapPlace is where a cup is on the map, in places: X across, may be halves,
// and Y down.
type MapPlace struct {
	Cup  int // number, from 1
	X, Y float64
}

// MapBlock is one layer of a design on its map.
type MapBlock struct {
	Layer  int // from 0
	W, H   float64
	Places []MapPlace // in the order of the cups
}

// Map is the design in its own shape, in places, a block for each layer: a
// triangle is a triangle, 5 × 5 is 5 × 5. Rows and places that the design leaves
// free at its borders take no room. across is how many cups of a line or list
// stand in a row.
func Map(t *blend.Test, across int) []MapBlock {
	var blocks []MapBlock
	for i, cells := range cellsByLayer(t) {
		b := MapBlock{Layer: i}
		for k, s := range shape(t, cells, across) {
			b.Places = append(b.Places, MapPlace{Cup: t.Cells[cells[k]].Number, X: s.x, Y: float64(s.row)})
		}
		b.trim()
		blocks = append(blocks, b)
	}
	return blocks
}

// trim takes away what is free at the borders.
func (b *MapBlock) trim() {
	left, top := b.Places[0].X, b.Places[0].Y
	for _, p := range b.Places {
		left, top = min(left, p.X), min(top, p.Y)
	}
	for i := range b.Places {
		p := &b.Places[i]
		p.X, p.Y = p.X-left, p.Y-top
		b.W, b.H = max(b.W, p.X+1), max(b.H, p.Y+1)
	}
}

// Packed is where blocks lie on a sheet, in places, with gap places between.
type Packed struct {
	W, H float64
	At   []Point // by block, its top left corner
}

// Pack puts blocks side by side in rows no wider than w places.
func Pack(blocks []MapBlock, w, gap float64) Packed {
	var p Packed
	x, y, high := 0.0, 0.0, 0.0
	for _, b := range blocks {
		if x > 0 && x+b.W > w {
			x, y, high = 0, y+high+gap, 0
		}
		p.At = append(p.At, Point{x, y})
		p.W, p.H = max(p.W, x+b.W), max(p.H, y+b.H)
		x += b.W + gap
		high = max(high, b.H)
	}
	return p
}
