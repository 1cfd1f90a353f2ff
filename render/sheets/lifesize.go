package sheets

import (
	"fmt"
	"strings"

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
	const side, bar = 50.0, 100.0
	k := d.doc.Scale() // this page is not one at life size, the bar and the square are
	f.Heading("Check the printer", side*k+12)
	f.Para(body, "Print on one side, at 100 % (“actual size”), never fitted to the paper. Then measure the bar and the square with a steel ruler.")
	r := f.Take(side*k + 4)
	f.Page.Box(page.Rect{X: r.X + 0.5, Y: r.Y + 1, W: side * k, H: side * k}, page.Medium)
	f.Page.Text(page.Rect{X: r.X + 0.5, Y: r.Y + 1, W: side * k, H: side * k}, body.To(page.Centre), "50 mm square")
	x, y := r.X+side*k+8, r.Y+8
	if below := x+bar*k > r.Right(); below {
		f.Y += 12
		x, y = r.X+0.5, r.Bottom()+6
	}
	f.Page.Line(x, y, x+bar*k, y, page.Medium)
	for _, end := range []float64{0, bar * k} {
		f.Page.Line(x+end, y-3, x+end, y+3, page.Thin)
	}
	f.Page.At(x+bar*k/2, y-1.4, body.To(page.Centre), "100 mm bar")
	what := "If the bar is not 100 mm long, switch the printer’s scaling off. If it still is not, repeat make with what the bar measures, such as --measured 97.4."
	if d.MeasuredMM != 0 {
		what = fmt.Sprintf("Corrected for a bar that measured %g mm: now it must measure 100. If it does not, print without --measured and measure again.", d.MeasuredMM)
	}
	if y > r.Bottom() {
		f.Para(body, what)
		return
	}
	f.Page.Para(page.Rect{X: x, Y: y + 5, W: r.Right() - x}, body, what)
}

// spelled is a mark to read aloud, its figures in words, so that it cannot be
// taken for another by whoever holds the sheet upside down.
func spelled(mark string) string {
	figures := [...]string{"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"}
	var words []string
	for _, r := range mark {
		if r >= '0' && r <= '9' {
			words = append(words, figures[r-'0'])
		} else {
			words = append(words, string(r))
		}
	}
	return mark + " (" + strings.Join(words, " ") + ")"
}
