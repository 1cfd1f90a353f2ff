package pdf

import (
	"cmp"
	"fmt"
	"math"
	"pourboard/blend/quantity"
	"slices"
	"strconv"
	"strings"
)

// A plotted point is one cup, or several whose dots lie in one another.
type plotted struct {
	x, y  float64 // as plotted, mol
	at    point   // on the page
	cells []int   // numbers
}

// plot is a rectangle of the page with two axes.
type plot struct {
	page         *page
	x, y, w, h   float64 // mm
	loX, hiX     float64 // values at its edges
	loY, hiY     float64
	stepX, stepY float64    // values from one figure to the next
	taken        []occupied // by texts and points so far
}

// plotSection draws the cups by their alumina against their silica.
func (s *sheets) plotSection(f *flow, known []fired) {
	var points []plotted
	for _, c := range known {
		if len(c.Unity) > 0 {
			points = append(points, plotted{x: c.unity("Al2O3"), y: c.unity("SiO2"), cells: []int{c.cell.Number}})
		}
	}
	if len(points) < 2 { // one point is read in the table
		return
	}
	if alike(points) {
		f.para(fmt.Sprintf("%s and %s are the same in every cup, %s and %s mol, to two digits: a plot of them would be one point.",
			formula("Al2O3"), formula("SiO2"), quantity.UnityText(points[0].x), quantity.UnityText(points[0].y)), regular(benchPt))
		return
	}
	const headMM = 22.0
	height := min(0.8*f.width(), f.whole()-headMM-10)
	f.need(height + headMM)
	title := fmt.Sprintf("%s against %s, mol in the unity formula", formula("Al2O3"), formula("SiO2"))
	f.subheading(title)
	f.doc.bookmark(1, title)
	p := newPlot(f, points, height)
	p.axes()
	p.ratios()
	crowded := p.points(points)
	f.y = p.y + p.h + 12
	const most = 40 // in words; beyond it the table serves better
	switch n := len(crowded); {
	case n > most:
		f.para(fmt.Sprintf("%d places had no room for their numbers: find them by the columns %s and %s of the table.", n, formula("Al2O3"), formula("SiO2")), regular(benchPt))
	case n > 0:
		f.need(20)
		f.para("Where numbers had no room, from left to right:", bold(deskPt))
		var texts []string
		for _, c := range crowded {
			texts = append(texts, fmt.Sprintf("%s at %s, %s", quantity.Cups(c.cells, len(c.cells)), quantity.UnityText(c.x), quantity.UnityText(c.y)))
		}
		f.para(strings.Join(texts, "; ")+".", regular(deskPt))
	}
}

// alike says that the points differ by less than is printed.
func alike(points []plotted) bool {
	const printed = 0.01 // mol
	for _, q := range points {
		if math.Abs(q.x-points[0].x) >= printed || math.Abs(q.y-points[0].y) >= printed {
			return false
		}
	}
	return true
}

var (
	plotFont  = regular(deskPt)
	pointFont = bold(deskPt)
)

func newPlot(f *flow, points []plotted, height float64) *plot {
	const axisMM = 17.0 // left of the plot, for its figures
	const airMM = 5.0   // above and right of it, for halves of figures
	p := &plot{page: f.page, x: f.left() + axisMM, y: f.y + airMM, w: f.width() - axisMM - airMM, h: height - 14 - airMM}
	p.loX, p.hiX, p.loY, p.hiY = math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, q := range points {
		p.loX, p.hiX = min(p.loX, q.x), max(p.hiX, q.x)
		p.loY, p.hiY = min(p.loY, q.y), max(p.hiY, q.y)
	}
	p.loX, p.hiX, p.stepX = ticks(p.loX, p.hiX, p.w/22)
	p.loY, p.hiY, p.stepY = ticks(p.loY, p.hiY, p.h/14)
	return p
}

// ticks is a range that holds lo to hi with a margin, and the step, 1, 2 or 5
// times a power of ten, of which it holds no more than so many.
func ticks(lo, hi, most float64) (from, to, step float64) {
	span := max(hi-lo, 0.1) // so that figures need no more than two digits
	lo, hi = (lo+hi)/2-0.58*span, (lo+hi)/2+0.58*span
	step = math.Pow(10, math.Floor(math.Log10((hi-lo)/most)))
	for _, k := range []float64{1, 2, 5, 10} {
		if (hi-lo)/(k*step) <= most {
			step *= k
			break
		}
	}
	return max(lo, 0), hi, step
}

// place is where a value lies on the page.
func (p *plot) place(x, y float64) point {
	return point{p.x + (x-p.loX)/(p.hiX-p.loX)*p.w, p.y + p.h - (y-p.loY)/(p.hiY-p.loY)*p.h}
}

// axes draws the frame, a faint grid and the figures.
func (p *plot) axes() {
	figure := func(v, step float64) string {
		return strconv.FormatFloat(v, 'f', max(0, int(math.Ceil(-math.Log10(step)-1e-9))), 64)
	}
	half := plotFont.pt * 0.36 * mmPerPt
	for i := math.Ceil(p.loX/p.stepX - 1e-9); i*p.stepX <= p.hiX+1e-9; i++ {
		v := i * p.stepX
		at := p.place(v, p.loY)
		p.page.line(at.x, p.y, at.x, p.y+p.h, faint)
		p.page.text(at.x, p.y+p.h+5, figure(v, p.stepX), plotFont, centre)
	}
	for i := math.Ceil(p.loY/p.stepY - 1e-9); i*p.stepY <= p.hiY+1e-9; i++ {
		v := i * p.stepY
		at := p.place(p.loX, v)
		p.page.line(p.x, at.y, p.x+p.w, at.y, faint)
		p.page.text(p.x-1.5, at.y+half, figure(v, p.stepY), plotFont, right)
	}
	p.page.rect(p.x, p.y, p.w, p.h, medium)
	p.page.text(p.x+p.w, p.y+p.h+10, formula("Al2O3")+" →", pointFont, right)
	p.page.textUp(p.x-13, p.y, formula("SiO2")+" →", pointFont, right)
}

// ratios draws lines along which silica is a multiple of alumina.
func (p *plot) ratios() {
	last := math.Inf(-1)
	for _, k := range []float64{2, 3, 4, 5, 6, 8, 10, 12, 15, 20} {
		x1, x2 := max(p.loX, p.loY/k), min(p.hiX, p.hiY/k)
		if x2 <= x1 {
			continue
		}
		a, b := p.place(x1, k*x1), p.place(x2, k*x2)
		if math.Hypot(b.x-a.x, b.y-a.y) < 25 {
			continue
		}
		text := fmt.Sprintf("%g : 1", k)
		w := p.page.doc.width(text, plotFont)
		// The name stands inside, at the end of the line.
		at := point{b.x - 1 - w, b.y + 1 + plotFont.ascentMM()}
		if b.x < p.x+p.w-0.1 { // it ends at the upper edge
			at = point{b.x - 1.5 - w, p.y + 1 + plotFont.ascentMM()}
		}
		along := at.x - at.y
		name := p.textBox(at.x, at.y, text, plotFont)
		if math.Abs(along-last) < 8 || name.x0 < p.x || p.meets(name) {
			continue
		}
		last = along
		p.page.line(a.x, a.y, b.x, b.y, pen{mm: 0.2, grey: 0.4}.dashed(2, 1.5))
		p.page.fillRect(name.x0-0.5, name.y0, name.x1-name.x0+1, name.y1-name.y0, 1)
		p.page.text(at.x, at.y, text, plotFont, left)
		p.taken = append(p.taken, name)
	}
}

// occupied is a rectangle that nothing else may be set in, mm on the page.
type occupied struct{ x0, y0, x1, y1 float64 }

func (p *plot) textBox(x, base float64, text string, f font) occupied {
	return occupied{x, base - f.ascentMM(), x + p.page.doc.width(text, f), base + f.descentMM()}
}

func (p *plot) meets(b occupied) bool {
	for _, t := range p.taken {
		if b.x0 < t.x1 && t.x0 < b.x1 && b.y0 < t.y1 && t.y0 < b.y1 {
			return true
		}
	}
	return false
}

const pointMM = 0.8 // radius of a point: a dot, for a cross before a number reads as a plus

// points draws the points with the numbers of their cups, and gives those
// whose numbers had no room, from left to right.
func (p *plot) points(all []plotted) (crowded []plotted) {
	for i := range all {
		all[i].at = p.place(all[i].x, all[i].y)
		at := all[i].at
		p.page.fillCircle(at.x, at.y, pointMM, 0)
		p.taken = append(p.taken, occupied{at.x - pointMM, at.y - pointMM, at.x + pointMM, at.y + pointMM})
	}
	// Dots that lie in one another share one text.
	var list []plotted
next:
	for _, q := range all {
		for i, r := range list {
			if math.Hypot(q.at.x-r.at.x, q.at.y-r.at.y) < pointMM {
				list[i].cells = append(r.cells, q.cells...)
				continue next
			}
		}
		list = append(list, q)
	}
	for _, q := range list {
		if !p.number(q) {
			crowded = append(crowded, q)
		}
	}
	slices.SortStableFunc(crowded, func(a, b plotted) int { return cmp.Compare(a.at.x, b.at.x) })
	return crowded
}

// number sets the numbers of a point beside it, wherever there is room.
func (p *plot) number(q plotted) bool {
	const most = 28.0 // mm
	text := strings.TrimPrefix(strings.TrimPrefix(quantity.Cups(q.cells, len(q.cells)), "cups "), "cup ")
	w := p.page.doc.width(text, pointFont)
	if w > most {
		return false
	}
	up, down := pointFont.ascentMM(), pointFont.descentMM()
	middle := (up - down) / 2
	gap := pointMM + 0.3
	for _, at := range []point{
		{gap, middle}, {-gap - w, middle}, {-w / 2, -gap - down}, {-w / 2, gap + up},
		{gap * 0.7, -gap*0.5 - down}, {gap * 0.7, gap*0.5 + up}, {-gap*0.7 - w, -gap*0.5 - down}, {-gap*0.7 - w, gap*0.5 + up},
	} {
		b := p.textBox(q.at.x+at.x, q.at.y+at.y, text, pointFont)
		if b.x0 < p.x || b.x1 > p.x+p.w || b.y0 < p.y || b.y1 > p.y+p.h || p.meets(b) {
			continue
		}
		p.page.text(b.x0, q.at.y+at.y, text, pointFont, left)
		p.taken = append(p.taken, b)
		return true
	}
	return false
}
