package sheets

import (
	"fmt"
	"strconv"

	"pourboard/blend/quantity"
	"pourboard/blend/slip"
	"pourboard/render/page"
)

// decision is what to do by the specific gravity that is read.
func (d *drawer) decision(p *page.Page, r page.Rect, t ticket) float64 {
	if t.sg == 0 {
		return r.Y
	}
	y := p.Para(r, partName, "Check the specific gravity (SG)") + 0.5
	y = p.Para(page.Rect{X: r.X, Y: y, W: r.W}, fine, "Weigh 100 mL of the sieved glaze in g, and divide by 100.") + 1
	line := page.Rect{X: r.X, Y: y, W: r.W, H: 8}
	p.Text(line, body, "SG read")
	expected := "expected " + quantity.SGText(t.sg)
	from, to := r.X+d.doc.Width("SG read ", body), r.Right()-d.doc.Width(expected, strong)-3
	to = min(to, from+22)
	p.Line(from, line.Bottom()-1.5, to, line.Bottom()-1.5, page.Thin)
	if t.assumed {
		y = line.Bottom() + 0.5
		return p.Para(page.Rect{X: r.X, Y: y, W: r.W}, body, fmt.Sprintf("The plan gives no SG; %s is assumed. Give the SG that you read with --sg, and print again.", quantity.SGText(t.sg))) + 1
	}
	p.Text(page.Rect{X: to + 3, Y: line.Y, W: r.Right() - to - 3, H: line.H}, strong, expected)
	y = line.Bottom() + 0.5
	rows := d.sgRows(t)
	wide := 0.0
	for _, row := range rows {
		wide = max(wide, d.doc.Width(row[0], strong))
	}
	p.Line(r.X, y, r.Right(), y, page.Medium)
	for _, row := range rows {
		text := page.Rect{X: r.X + wide + 4, Y: y + 0.7, W: r.W - wide - 4}
		p.Para(page.Rect{X: r.X, Y: y + 0.7, W: wide + 1}, strong, row[0])
		y = p.Para(text, body, row[1]) + 0.7
		p.Line(r.X, y, r.Right(), y, page.Hair)
	}
	if t.short {
		return y + 1
	}
	return p.Para(page.Rect{X: r.X, Y: y + 1, W: r.W}, fine, "Between two lines: take the nearer. After adding water, stir and read again.") + 1
}

// thicker are how far above the expected the readings of the table lie.
var thicker = []float64{0.02, 0.03, 0.05, 0.07, 0.10}

// sgRows is the table of the specific gravities that may be read.
func (d *drawer) sgRows(t ticket) [][2]string {
	leeway := slip.Leeway(t.sg, d.plan.Kit.Worst/2)
	low, high := quantity.SGText(t.sg-leeway), quantity.SGText(t.sg+leeway)
	as := low + " to " + high
	if leeway == 0 {
		as = low
	}
	rows := [][2]string{{as, "as expected: use it"}}
	for _, more := range thicker {
		if t.short && more != 0.03 && more != 0.05 && more != 0.10 {
			continue
		}
		if more > leeway+0.009 {
			water := strconv.FormatFloat(slip.WaterPerLitre(t.sg+more, t.sg), 'f', 0, 64)
			rows = append(rows, [2]string{quantity.SGText(t.sg + more), "add " + water + " mL of water a litre"})
		}
	}
	if t.bucket {
		return append(rows, [2]string{"below " + low, "too thin: let it settle, take off clear water"})
	}
	return append(rows, [2]string{"below " + low, "type it into the pour workbook, or use --sg; print the pour card again"})
}
