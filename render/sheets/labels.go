package sheets

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
)

const (
	labelPad   = 2.5 // free inside a label: stock lies askew in a printer
	numberPart = 0.3 // of a label's width, for the cup's number
	numberGap  = 1.5
)

// labels are stickers for cups and lids, on the stock that the plan describes.
func (d *drawer) labels() {
	stock := d.plan.Labels
	places := layout.Labels(stock, len(d.Test.Cells), d.Free)
	number := page.Bold(60)
	widest := d.doc.Width(fmt.Sprint(len(d.Test.Cells)), page.Bold(1))
	for _, l := range places {
		in := labelInside(l.Rect, stock)
		number.Pt = min(number.Pt, in.W*numberPart*0.92/widest, in.H*0.6/page.MMPerPt)
	}
	var p *page.Page
	for i, l := range places {
		if i == 0 || l.Sheet != places[i-1].Sheet {
			p = d.doc.AddLife(d.part.title, stock.SheetW, stock.SheetH)
			p.Bare = true
		}
		d.label(p, labelInside(l.Rect, stock), d.Test.Cells[l.Cell-1], number)
	}
}

// label draws one label: the cup's number large, and beside it the test, what
// is in the cup, and a line for the date where there is room.
func (d *drawer) label(p *page.Page, r page.Rect, c blend.Cell, number page.Style) {
	w := r.W * numberPart
	p.Text(page.Rect{X: r.X, Y: r.Y, W: w, H: r.H}, number.To(page.Centre), fmt.Sprint(c.Number))
	right := page.Rect{X: r.X + w + numberGap, Y: r.Y, W: r.W - w - numberGap, H: r.H}
	small := page.Regular(page.Least)
	title := d.plan.Title
	if d.plan.Mark != "" {
		title = d.plan.Mark + ": " + title
	}
	if right.H >= 4*small.LineH() {
		p.Text(page.Rect{X: right.X, Y: right.Y, W: right.W, H: small.LineH()}, page.Bold(page.Least), title)
		right.Y, right.H = right.Y+small.LineH(), right.H-small.LineH()
	}
	if right.H >= 3*small.LineH() {
		line := page.Rect{X: right.X, Y: right.Bottom() - small.LineH(), W: right.W, H: small.LineH()}
		p.Text(line, small, "date")
		x := line.X + d.doc.Width("date", small) + 1
		p.Line(x, line.Bottom()-0.5, line.Right(), line.Bottom()-0.5, page.Thin)
		right.H -= small.LineH()
	}
	text := d.contents(c)
	if len(d.doc.Lines(text, small, right.W)) > int(right.H/small.LineH()) {
		text = d.contentsLine(c)
	}
	p.Fitted(right, page.Regular(page.Body), text)
}

// contents says what a cup holds, by name.
func (d *drawer) contents(c blend.Cell) string {
	var parts []string
	for i, dose := range c.Doses {
		if dose.Percent > 0 {
			parts = append(parts, d.plan.Blend.Series[i].Material+" "+wording.DoseBrief(dose))
		}
	}
	if len(c.Doses) > 0 {
		return strings.Join(append([]string{d.plan.Glazes[d.plan.Blend.Base].Name}, parts...), "\n+ ")
	}
	for i, share := range c.Shares {
		if share > 0 {
			parts = append(parts, d.Test.Ends[i].Name+" "+wording.ShareBrief(c, i))
		}
	}
	return strings.Join(parts, "\n")
}

// labelInside is the part of a label that is printed on: clear of its own edges,
// and of those of the sheet as far as that costs no more than a quarter.
func labelInside(r page.Rect, stock *blend.Labels) page.Rect {
	along := func(from, length, sheet float64) (at, size float64) {
		pad, most := min(labelPad, r.W/8, r.H/8), length/4
		at = max(from+pad, min(page.Margin, from+most))
		return at, min(from+length-pad, max(sheet-page.Margin, from+length-most)) - at
	}
	var in page.Rect
	in.X, in.W = along(r.X, r.W, stock.SheetW)
	in.Y, in.H = along(r.Y, r.H, stock.SheetH)
	return in
}
