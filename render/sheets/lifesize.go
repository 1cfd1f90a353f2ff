package sheets

import (
	"fmt"

	"pourboard/layout"
	"pourboard/render/page"
)

// sheet is the plan's paper, its margins widened for a printer that stretches or
// shrinks.
func (d *drawer) sheet() layout.Sheet {
	s := layout.SheetOf(d.plan.Board)
	u := &s.Usable
	if x := d.doc.LifeMargin(s.W); u.X < x {
		u.X, u.W = x, s.W-2*x
	}
	if y := d.doc.LifeMargin(s.H); u.Y < y {
		u.Y, u.H = y, s.H-2*y
	}
	return s
}

// checkPrinter draws what the printer is checked by, and says what to do.
func (d *drawer) checkPrinter(f *page.Flow) {
	k := d.doc.Scale() // this page is not one at life size, the bar and the square are
	side, bar := 50*k, 100*k
	f.Heading("Check the printer", side+24)
	f.Para(body, "Print on one side, at 100 % (“actual size”), never fitted to the paper. Then measure the bar and the square with a steel ruler.")
	r := f.Take(11)
	f.Page.At(r.X+bar/2, r.Y+5, body.To(page.Centre), "100 mm bar")
	f.Page.Line(r.X+0.5, r.Y+7, r.X+0.5+bar, r.Y+7, page.Medium)
	for _, x := range []float64{r.X + 0.5, r.X + 0.5 + bar} {
		f.Page.Line(x, r.Y+4, x, r.Y+10, page.Thin)
	}
	what := "If the bar is not 100 mm long, switch the printer’s scaling off. If it still is not, repeat make with what the bar measures, such as --measured 97.4."
	if d.MeasuredMM != 0 {
		what = fmt.Sprintf("Corrected for a bar that measured %g mm: now it must measure 100. If it does not, print without --measured and measure again.", d.MeasuredMM)
	}
	left, right := f.Split((side+1)/r.W, 6)
	square := left.Take(side + 2)
	square = page.Rect{X: square.X + 0.5, Y: square.Y + 1, W: side, H: side}
	f.Page.Box(square, page.Medium)
	f.Page.Text(square, body.To(page.Centre), "50 mm square")
	right.Para(body, what)
	f.Join(left, right)
}
