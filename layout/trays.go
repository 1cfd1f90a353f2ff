package layout

import "pourboard/blend"

// squareMM is the place of one coded square, its white border included: 8 × 8
// modules of 0.9 mm, and one module of white all round.
const squareMM = 9.0

// Tray is one tray card: a loose sheet of tile places at life size, whole
// tiles only. Rect are mm on paper.
type Tray struct {
	PaperW, PaperH float64 // as the card is turned
	Body, Repeat   int     // of all its tiles
	Header, Footer Rect
	View           Rect // where the tiles lie; the rulers count from its corner
	RulerX, RulerY Rect
	Spots          []TraySpot
}

// TraySpot is the place of a tile on its card.
type TraySpot struct {
	Tile    int // index
	Rect        // outline
	Caption Rect
	Square  Rect // place of its coded square, right of the caption
}

// Trays lays the tiles out on tray cards in the order of the boards, which is
// that of the map or random; the cards of a body and repeat together. It is nil
// where a tile is larger than a card.
func Trays(t *blend.Test, p *Places, s Sheet) []Tray {
	w, h := t.Plan.Tiles.WidthMM, t.Plan.Tiles.HeightMM
	g := tileGauge(t)
	capW := max(w, narrowest)
	pitchX, pitchY := max(w+normalGap, capW+1), h+g.capH+normalGap
	best, per := Tray{}, 0
	across := 0
	for _, turned := range []bool{false, true} {
		card := s.tray(turned)
		nx := int((card.View.W - 2*Edge + pitchX - max(w, capW) + hair) / pitchX)
		ny := int((card.View.H - 2*Edge + normalGap + hair) / pitchY)
		if nx*ny > per {
			best, per, across = card, nx*ny, nx
		}
	}
	if per == 0 {
		return nil
	}
	var cards []Tray
	for body := range t.Plan.Tiles.Bodies {
		for repeat := range max(1, t.Plan.Tiles.Repeats) {
			tiles := p.tilesOf(body, repeat)
			for from := 0; from < len(tiles); from += per {
				card := best
				card.Body, card.Repeat = body, repeat
				for i, tile := range tiles[from:min(from+per, len(tiles))] {
					x := card.View.X + Edge + float64(i%across)*pitchX
					y := card.View.Y + Edge + float64(i/across)*pitchY
					below := Rect{X: x, Y: y + h, W: capW, H: g.capH}
					card.Spots = append(card.Spots, TraySpot{
						Tile:    tile,
						Rect:    Rect{X: x + (capW-w)/2, Y: y, W: w, H: h},
						Caption: Rect{X: x, Y: below.Y, W: capW - squareMM - 1, H: g.capH},
						Square:  Rect{X: below.Right() - squareMM, Y: below.Y + 3, W: squareMM, H: squareMM},
					})
				}
				cards = append(cards, card)
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

// tray shares out a card that is upright or turned on its side: as a page of a
// board, with room for the card's own coded squares where the rulers meet and at the
// header's end.
func (s Sheet) tray(turned bool) Tray {
	f := s.frame(turned)
	const more = squareMM - Ruler
	c := Tray{PaperW: f.w, PaperH: f.h, Header: f.header, Footer: f.footer, View: f.view}
	c.View.X, c.View.W = c.View.X+more, c.View.W-more
	c.View.Y, c.View.H = c.View.Y+more, c.View.H-more
	c.Header.W -= squareMM + 2
	c.RulerX = Rect{X: c.View.X, Y: c.View.Y - Ruler, W: c.View.W, H: Ruler}
	c.RulerY = Rect{X: c.View.X - Ruler, Y: c.View.Y, W: Ruler, H: c.View.H}
	return c
}
