package sheets

import (
	"fmt"

	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// lacksMat says why there is no mat.
func (d *drawer) lacksMat() string {
	if d.plan.Cup.DiameterMM <= 0 {
		return "the cup has no diameter (give [cup] diameter)"
	}
	if !layout.Fits(&layout.Mat(d.Test)[0], d.sheet()) {
		return "a cup is larger than the paper (take larger paper)"
	}
	return ""
}

// mat is the places of the cups at life size, in the shape of the design, each
// with its number and what goes in.
func (d *drawer) mat() {
	mats := layout.Mat(d.Test)
	spreads := d.lifeSize(mats)
	d.layingOut("Mat", "The places of the cups at life size. Cover the mat with clear film. "+wording.Sentence(d.contentsKey()), spreads)
	most := d.doc.Width(fmt.Sprint(len(d.Test.Cells)), page.Bold(1))
	number := page.Bold(min(90, mats[0].Spots[0].W*0.5/most, mats[0].Spots[0].H*0.5/page.MMPerPt))
	for _, s := range spreads {
		d.drawLife(s, func(p *page.Page, r page.Rect, at layout.Spot) {
			for i := range s.pages { // the number inside the circle, on the page that has all of it
				for _, k := range s.pages[i].Spots {
					if s.board.Spots[k].Cell == at.Cell {
						p.Text(s.pages[i].RectOnPaper(s.board.Spots[k].Rect), number.To(page.Centre), fmt.Sprint(at.Cell))
					}
				}
			}
			p.Text(page.Rect{X: r.X, Y: r.Y, W: r.W, H: layout.CaptionMark}, partName, fmt.Sprint("cup ", at.Cell))
			p.Fitted(page.Rect{X: r.X, Y: r.Y + layout.CaptionMark, W: r.W, H: r.H - layout.CaptionMark}, body, d.contentsLine(d.Test.Cells[at.Cell-1]))
		})
	}
}
