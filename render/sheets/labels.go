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
	p.Text(r.Before(r.W*numberPart), number.To(page.Centre), fmt.Sprint(c.Number))
	r = r.After(r.W*numberPart + numberGap)
	small := page.Regular(page.Least)
	if line := small.LineH(); r.H >= 4*line {
		p.Text(r.Upper(line), page.Bold(page.Least), strings.TrimPrefix(d.plan.Mark+": "+d.plan.Title, ": "))
		r = r.Below(line)
	}
	if line := small.LineH(); r.H >= 3*line {
		r.H -= line
		p.Text(r.Below(r.H).Upper(line), small, "date")
		y := r.Bottom() + line - 0.5
		p.Line(r.X+d.doc.Width("date", small)+1, y, r.Right(), y, page.Thin)
	}
	text := wording.Contents(d.Test, c)
	if float64(len(d.doc.Lines(text, small, r.W)))*small.LineH() > r.H {
		text = d.contentsLine(c)
	}
	p.Fitted(r, body, text)
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
