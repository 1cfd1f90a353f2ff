package sheets

import (
	"fmt"

	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// trayCards are the tiles on tray cards.
func (d *drawer) trayCards() []layout.Tray {
	return layout.Trays(d.Test, d.Places, d.sheet())
}

// lacksTrays says why there are none.
func (d *drawer) lacksTrays() string {
	if d.trayCards() == nil {
		return "a tile is larger than the paper (take larger paper)"
	}
	return ""
}

// trays are loose sheets of tile places at life size, after a page that says
// how to check the printer.
func (d *drawer) trays() {
	cards := d.trayCards()
	f := d.begin("Tray cards", fmt.Sprintf("%s at life size%s. Lay each tile on the place with its mark. %s %s",
		quantity.Plural(len(cards), "loose sheet", "loose sheets"), d.tileOrder(", in the order of the map"), wording.Sentence(d.contentsKey()), d.letterKey()), false)
	d.checkPrinter(f)
	for i, c := range cards {
		p := d.doc.AddLife(d.part.title, c.PaperW, c.PaperH)
		p.FootRect = c.Footer
		p.Foot = "Keep this edge towards you."
		d.tray(p, c, i+1, len(cards))
	}
	d.doc.OneSided = true
}

// tray draws a card. The places of the coded squares stay free.
func (d *drawer) tray(p *page.Page, c layout.Tray, n, of int) {
	h := c.Header
	h.W -= d.toYou(p, h) + 4
	name := fmt.Sprintf("Tray %d of %d: %s", n, of, d.plan.Tiles.Bodies[c.Body])
	if d.plan.Tiles.Repeats > 1 {
		name += fmt.Sprintf(", %s tile", ordinal(c.Repeat+1))
	}
	p.Text(page.Rect{X: h.X, Y: h.Y, W: h.W, H: 6}, page.Bold(page.Head), name)
	p.Fitted(page.Rect{X: h.X, Y: h.Y + 6, W: h.W, H: h.H - 6.5}, fine, d.firstAndLast(c.Spots[0].Tile, c.Spots[len(c.Spots)-1].Tile))
	p.Ruler(c.RulerX, 0)
	p.Ruler(c.RulerY, 0)
	// The corner of the card, and which way it lies.
	p.Corner(c.View.X, c.View.Y, layout.Edge-1)
	for _, s := range c.Spots {
		p.Box(s.Rect, page.Thin)
		d.caption(p, s.Caption, s.Tile)
	}
}
