package pdf

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/layout"
)

// captions are what stands beside the spots of tiles.
type captions struct {
	s      *sheets
	wMM    float64
	mark   font
	cup    font
	long   bool // "cup 7", not "7"
	shares packing
	// lettered says that the shares name glazes and series by letters.
	lettered bool
	// brief says that only what was made stands there where that differs
	// noticeably from what was asked.
	brief bool
}

// captions finds the sizes that suit all captions, so that all look alike.
func (s *sheets) captions() captions {
	box := s.Places.Boards[0].Spots[0].Caption
	box.W = captionMM(box.W - s.captionAirMM())
	c := captions{s: s, wMM: box.W}
	widest := 0.0
	for _, t := range s.Places.Tiles {
		widest = max(widest, s.doc.width(t.Mark, bold(1)))
	}
	const gap = 1.5
	most := cupText(len(s.test.Cells))
	for pt := 14.0; pt >= 6; pt -= 0.5 {
		c.mark, c.cup = bold(pt), regular(min(benchPt, pt))
		room := box.W - gap - widest*pt
		if c.long = s.doc.width(most, c.cup) <= room; c.long {
			break
		}
		if pt <= benchPt && s.doc.width(strings.TrimPrefix(most, "cup "), c.cup) <= room {
			break
		}
	}
	if c.shares = s.packCaptions(s.sharesByName, box, deskPt); c.shares.lines == nil {
		c.lettered = true
		// What was asked too is not worth small print.
		if c.shares = s.packCaptions(s.shares, box, deskPt); c.shares.lines == nil {
			c.brief = s.strays()
			c.shares = s.packCaptions(s.sharesBriefly, box, 7)
		}
	}
	return c
}

// captionAirMM is what a caption leaves free at its right end, so that it does
// not run into the next where the layout sets them closer than two words.
func (s *sheets) captionAirMM() float64 {
	const apart = 3.0
	for _, b := range s.Places.Boards {
		for i := 1; i < len(b.Spots); i++ {
			if one, next := b.Spots[i-1], b.Spots[i]; one.Row == next.Row && one.Column+1 == next.Column {
				return max(0, apart-(next.Caption.X-one.Caption.Right()))
			}
		}
	}
	return 0
}

// draw sets the caption of a spot in its box on the page.
func (c captions) draw(p *page, r layout.Rect, spot layout.Spot) {
	tile := c.s.Places.Tiles[spot.Tile]
	base := r.Y + bold(14).ascentMM()
	p.mark(r.X, base, tile.Mark, c.s.Places.Scheme.Underlined(tile.Mark), c.mark, left)
	cup := fmt.Sprint(spot.Cell)
	if c.long {
		cup = cupText(spot.Cell)
	}
	p.text(r.X+c.wMM, base, cup, c.cup, right)
	c.shares.draw(p, r, spot.Cell)
}

// captionHeadMM is the first line of a caption, of 14 pt.
const captionHeadMM = 5.85

// packCaptions packs texts into the lines that captions have below their first.
func (s *sheets) packCaptions(texts func(c blend.Cell) []string, box layout.Rect, leastPt float64) packing {
	lines := max(1, int((box.H-layout.CaptionMark+1e-6)/layout.CaptionLine))
	return s.packAll(texts, lines, box.W, (box.H-captionHeadMM)/float64(lines), benchPt, leastPt)
}

// draw sets the lines of a cell below the first line of a caption.
func (k packing) draw(p *page, r layout.Rect, cell int) {
	if k.lines == nil {
		return
	}
	for i, line := range k.lines[cell-1] {
		p.text(r.X, r.Y+captionHeadMM+float64(i)*k.lineMM+k.font.ascentMM(), line, k.font, left)
	}
}
