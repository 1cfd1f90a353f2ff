package layout

import "pourboard/blend"

// squareMM is the place of one coded square, its white border included: 8 × 8
// modules of 0.9 mm, and one module of white all round. It stays free right of
// each caption, where the rulers meet, and at the header's end.
const squareMM = 9.0

// Trays lays the tiles out on tray cards, loose sheets of whole tiles at life
// size, each a board on a page of its own: in the order of the boards, which is
// that of the map or random; the cards of a body and repeat together. It is nil
// where a tile is larger than a card.
func Trays(t *blend.Test, p *Places, s Sheet) []Spread {
	g := tileGauge(t)
	g.head, g.pitchX, g.pitchY = 0, max(g.w+normalGap, g.capW+1), g.h+g.capH+normalGap
	var card Page
	across, per := 0, 0
	for _, turned := range []bool{false, true} {
		c := s.tray(turned)
		nx, ny := fit(c.View.W, g.pitchX, g.capW), fit(c.View.H, g.pitchY, g.high())
		if nx*ny > per {
			card, across, per = c, nx, nx*ny
		}
	}
	if per == 0 {
		return nil
	}
	var cards []Spread
	for body := range t.Plan.Tiles.Bodies {
		for repeat := range max(1, t.Plan.Tiles.Repeats) {
			tiles := p.tilesOf(body, repeat)
			for from := 0; from < len(tiles); from += per {
				b := &Board{gauge: g, W: card.View.W, H: card.View.H}
				page := card
				for i, tile := range tiles[from:min(from+per, len(tiles))] {
					s := g.spot(float64(i%across), i/across, i%across)
					s.Tile, s.Cell = tile, p.Tiles[tile].Cell
					s.Caption.W -= squareMM + 1
					b.Spots, page.Spots = append(b.Spots, s), append(page.Spots, i)
				}
				cards = append(cards, Spread{b, []Page{page}})
			}
		}
	}
	return cards
}

// tilesOf is the tiles of a body and repeat, by index, in the order of their boards.
func (p *Places) tilesOf(body, repeat int) []int {
	var tiles []int
	for _, b := range p.Boards {
		for _, s := range b.Spots {
			if t := p.Tiles[s.Tile]; t.Body == body && t.Repeat == repeat {
				tiles = append(tiles, s.Tile)
			}
		}
	}
	return tiles
}

// tray is a card that is upright or turned on its side: a page of a board, with
// room for the card's own coded squares.
func (s Sheet) tray(turned bool) Page {
	const more = squareMM - Ruler
	p := s.page(turned)
	p.At = Point{p.At.X + more, p.At.Y + more}
	p.View.W, p.View.H = p.View.W-more, p.View.H-more
	p.Header.W -= squareMM + 2
	p.RulerX = Rect{X: p.At.X, Y: p.At.Y - Ruler, W: p.View.W, H: Ruler}
	p.RulerY = Rect{X: p.At.X - Ruler, Y: p.At.Y, W: Ruler, H: p.View.H}
	return p
}
