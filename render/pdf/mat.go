package pdf

import (
	"fmt"

	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/wording"
)

// mat is the places of the cups at life size, each with what goes into the cup.
func (s *sheets) mat() {
	mats := s.mats
	spreads := s.lifeSize(mats)
	box := mats[0].Spots[0].Caption
	box.W = captionMM(box.W)
	full := func(c blend.Cell) []string {
		var list []string
		for _, a := range s.amounts(c) {
			list = append(list, a.name+" "+a.text)
		}
		return list
	}
	short := func(c blend.Cell) []string {
		var list []string
		for _, a := range s.amounts(c) {
			list = append(list, a.letter+" "+a.text)
		}
		return list
	}
	key := ""
	pack := s.packCaptions(full, box, 10)
	if pack.lines == nil {
		pack, key = s.packCaptions(short, box, 7), s.amountKey()
	}
	about := "The number in the circle is that of the cup; beside it stands what goes in."
	if key != "" {
		about = "The number in the circle is that of the cup; beside it stands what goes in: " + key + "."
	}
	for _, text := range wording.SkippedDoses(s.test) {
		about += " " + text
	}
	s.assembly(spreads, assembly{
		needs: "the cups, numbered; scissors, adhesive tape",
		lead:  "Every cup has its place, so that none is forgotten and none gets another's share. Cover the mat with clear film: slip will drip on it.",
		key:   about,
		noun:  "mat",
	})
	pt := spreads[0].board.Spots[0].W * 0.5 / s.doc.width(fmt.Sprint(len(s.test.Cells)), bold(1))
	number := bold(min(pt, mats[0].Spots[0].H*0.5/mmPerPt))
	s.drawLife(spreads, func(p *page, at layout.Spot) {
		x, y := at.X+at.W/2, at.Y+at.H/2
		p.circle(x, y, at.W/2, thin)
		p.text(x, y+0.36*number.pt*mmPerPt, fmt.Sprint(at.Cell), number, centre)
	}, func(p *page, r layout.Rect, spot layout.Spot) {
		p.text(r.X, r.Y+bold(14).ascentMM(), cupText(spot.Cell), bold(14), left)
		pack.draw(p, r, spot.Cell)
	}, key)
}
