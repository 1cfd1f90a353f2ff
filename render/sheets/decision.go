package sheets

import (
	"fmt"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/page"
)

// decision is what to do by the specific gravity that is read.
func (d *drawer) decision(f *page.Flow, t ticket) {
	if t.sg == 0 {
		return
	}
	f.Para(partName, "Check the specific gravity (SG)")
	f.Para(fine, "Weigh 100 mL of the sieved glaze in g, and divide by 100.")
	line := f.Take(8)
	f.Page.Text(line, body, "SG read")
	from := line.X + d.doc.Width("SG read ", body)
	expected := "expected " + quantity.SGText(t.sg)
	to := min(from+18, line.Right()-d.doc.Width(expected, strong)-3)
	f.Page.Line(from, line.Bottom()-1.5, to, line.Bottom()-1.5, page.Thin)
	if t.assumed {
		f.Para(body, fmt.Sprintf("The plan gives no SG; %s is assumed. Give the SG that you read with --sg, and print again.", quantity.SGText(t.sg)))
		return
	}
	f.Page.Text(page.Rect{X: to + 3, Y: line.Y, W: line.Right() - to - 3, H: line.H}, strong, expected)
	f.Table([]page.Column{{Style: strong}, {Style: body, Grow: 1}}, d.sgRows(t))
	if !t.short {
		f.Para(fine, "Between two lines: take the nearer. After adding water, stir and read again.")
	}
}

// sgRows is the table of the specific gravities that may be read, and what to do.
func (d *drawer) sgRows(t ticket) [][]string {
	check := blend.CheckSG(t.sg, d.plan.Kit.Worst, t.short)
	low, high := quantity.SGText(check.Low), quantity.SGText(check.High)
	as := low + " to " + high
	if low == high {
		as = low
	}
	rows := [][]string{{as, "as expected: use it"}}
	for _, x := range check.Thinnings {
		water := strconv.FormatFloat(x.WaterPerLitre, 'f', 0, 64)
		rows = append(rows, []string{quantity.SGText(x.SG), "add " + water + " mL of water a litre"})
	}
	if t.bucket {
		return append(rows, []string{"below " + low, "too thin: let it settle, take off clear water"})
	}
	return append(rows, []string{"below " + low, "type it into the pour workbook, or use --sg; print the pour card again"})
}
