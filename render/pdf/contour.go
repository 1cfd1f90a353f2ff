package pdf

import (
	"pourboard/blend/results"
	"pourboard/render/wording"
)

// A triangle is the drawing of one chart: a plot whose axes go from 0 to 1
// across the base and from the base to the top.
type triangle struct {
	*plot
	chart results.Chart
	least [3]float64 // of each end's share in the triangle drawn
	free  float64    // the share that is left over those
}

var (
	contourFont = regular(8)
	contourPen  = pen{mm: 0.3, grey: 0.25}
)

// Of a chart, mm.
const (
	leastChartMM = 75.0 // that a chart beside another is wide
	chartGapMM   = 6.0
	chartSlackMM = 5.0  // beside and below the triangle, for numbers at its sides
	cornerMM     = 8.0  // height of the names at the corners
	chartTitleMM = 14.0 // above the triangle, with the name of the top
	dotMM        = 0.7  // radius of a cup
)

// mostAbreast is for how many cups two charts go side by side: more need larger
// ones.
const mostAbreast = 80

// A chartPlan is where the charts of a model go.
type chartPlan struct {
	chart   results.Chart
	abreast bool
	wMM     float64 // of one chart
	side    float64 // of its triangle
	hMM     float64 // of one chart
}

// chartPlan says where the charts of a model go; ok is false when it has none.
func (p *report) chartPlan(f *flow, model results.Model) (c chartPlan, ok bool) {
	if c.chart, ok = p.r.Chart(&model); !ok || len(c.chart.Means) == 0 {
		return c, false // on one line there are no contours
	}
	c.wMM = (f.width() - chartGapMM) / 2
	c.abreast = c.wMM >= leastChartMM && len(p.test.Cells) <= mostAbreast
	const ratio = 0.5 * 1.7320508 // of an equal-sided triangle's height to its side
	over := chartTitleMM + chartSlackMM + cornerMM
	if !c.abreast {
		const keyMM = 26 // of the heading and the key
		c.wMM = f.width()
		c.side = min(c.wMM-2*chartSlackMM, ((f.whole()-keyMM)/2-over)/ratio)
	} else {
		c.side = c.wMM - 2*chartSlackMM
	}
	c.hMM = ratio*c.side + over
	return c, true
}

// needMM is the height that the charts take, with their key.
func (c chartPlan) needMM() float64 {
	if c.abreast {
		return c.hMM + 16
	}
	return 2*c.hMM + 24
}

// charts draws the prediction of a model and its standard error.
func (p *report) charts(f *flow, m *results.Measure, model results.Model, c chartPlan) {
	f.need(c.needMM())
	on := m.Head + " on " + wording.BodyText(p.r, model.Body)
	f.doc.bookmark(1, on+": contours")
	key := "Dots are the cups that were read"
	if p.unread(m, model.Body) {
		key += ", small circles those that were not"
	}
	key += "; the ring is at the highest prediction"
	if model.Lowest != nil {
		key += ", the square at the lowest"
	}
	f.para(key+". Nothing is drawn beyond the cups that were read.", regular(deskPt))
	crowded := p.chart(f, f.left(), on+", predicted", c, c.chart.Means, m, model)
	x := f.left() + c.wMM + chartGapMM
	if !c.abreast {
		x = f.left()
		f.y += c.hMM
	}
	if p.chart(f, x, "Standard error of the prediction", c, c.chart.Errors, m, model) {
		crowded = true
	}
	f.y += c.hMM
	if crowded {
		f.para("Numbers of cups that had no room are left out.", regular(deskPt))
	}
}

// unread says whether there are cups that the measure was not read of on a body.
func (p *report) unread(m *results.Measure, body int) bool {
	for i := range p.test.Cells {
		if !p.wasRead(m, body, i) {
			return true
		}
	}
	return false
}

// wasRead says of a cup, by its index, whether the measure was read of it on a
// body, or on any.
func (p *report) wasRead(m *results.Measure, body, i int) bool {
	if body != results.AllBodies {
		return m.Means[body][i].N > 0
	}
	for _, means := range m.Means {
		if means[i].N > 0 {
			return true
		}
	}
	return false
}

// chart draws one triangle below f.y with its left edge at x; it says whether
// numbers of cups had no room.
func (p *report) chart(f *flow, x float64, title string, c chartPlan, lines []results.Line, m *results.Measure, model results.Model) (crowded bool) {
	f.page.textIn(x, f.y, c.wMM, bold(benchPt).lineMM(), title, bold(benchPt), 6, left)
	t := newTriangle(f.page, c, x+(c.wMM-c.side)/2, f.y+chartTitleMM)
	p.cornerNames(x, c, t)
	t.outside()
	base := t.place(0, 0)
	t.taken = append(t.taken, occupied{base.x, base.y - 0.2, base.x + c.side, base.y + 0.2})
	corners := c.chart.Corners
	f.page.polygon([]point{t.at(corners[0]), t.at(corners[1]), t.at(corners[2])}, medium)
	for _, line := range lines {
		for _, part := range line.Lines {
			t.polyline(part)
		}
	}
	var read []plotted
	for i := range p.test.Cells {
		mixture := p.r.Point(i + 1)
		if !t.holds(mixture) {
			continue
		}
		at := t.at(mixture)
		t.keep(at, dotMM)
		if p.wasRead(m, model.Body, i) {
			f.page.fillCircle(at.x, at.y, dotMM, 0)
			read = append(read, plotted{at: at, cells: []int{i + 1}})
		} else {
			f.page.circle(at.x, at.y, dotMM, thin)
		}
	}
	t.best(model)
	for _, line := range lines {
		for _, part := range line.Lines {
			t.label(part, wording.LevelText(line))
		}
	}
	for _, cup := range read {
		crowded = !t.number(cup) || crowded
	}
	return crowded
}

// newTriangle is a triangle whose box, without the slack, has its top left
// corner at x, y.
func newTriangle(at *page, c chartPlan, x, y float64) *triangle {
	slack := chartSlackMM / c.side
	height := c.hMM - chartTitleMM - chartSlackMM - cornerMM
	t := &triangle{chart: c.chart, plot: &plot{
		page: at, x: x - chartSlackMM, y: y, w: c.side + 2*chartSlackMM, h: height + chartSlackMM,
		loX: -slack, hiX: 1 + slack, loY: -chartSlackMM / height, hiY: 1,
	}}
	for i := range t.least {
		t.least[i] = c.chart.Corners[(i+1)%3][i]
	}
	t.free = c.chart.Corners[0][0] - t.least[0]
	return t
}

// unit is a mixture's place in the triangle: the first corner is the top, the
// second the lower left.
func (t *triangle) unit(shares []float64) (x, y float64) {
	first, third := (shares[0]-t.least[0])/t.free, (shares[2]-t.least[2])/t.free
	return first/2 + third, first
}

func (t *triangle) at(shares []float64) point { return t.place(t.unit(shares)) }

// holds says whether a mixture lies in the triangle drawn.
func (t *triangle) holds(shares []float64) bool {
	for i, least := range t.least {
		if shares[i] < least-1e-9 {
			return false
		}
	}
	return true
}

// keep keeps texts off a mark that reaches so far.
func (t *triangle) keep(at point, reach float64) {
	t.taken = append(t.taken, occupied{at.x - reach, at.y - reach, at.x + reach, at.y + reach})
}

// outside dots what of the triangle lies beyond the cups that were read.
func (t *triangle) outside() {
	for i, n := range t.chart.Nodes {
		if !n.Inside && i%2 == 0 {
			at := t.at(n.Shares)
			t.page.line(at.x-0.1, at.y, at.x+0.1, at.y, pen{mm: 0.2, grey: 0.5})
		}
	}
}

func (t *triangle) polyline(line [][]float64) {
	for i := 1; i < len(line); i++ {
		a, b := t.at(line[i-1]), t.at(line[i])
		t.page.line(a.x, a.y, b.x, b.y, contourPen)
	}
}

// label writes the level of a contour on it, as near to its middle as there is
// room.
func (t *triangle) label(line [][]float64, text string) {
	w := t.page.doc.width(text, contourFont)
	drop := (contourFont.ascentMM() - contourFont.descentMM()) / 2
	for i := range line {
		k := len(line)/2 + (i+1)/2*(1-2*(i%2)) // from the middle to the ends
		if k < 0 || k >= len(line) {
			continue
		}
		at := t.at(line[k])
		b := t.textBox(at.x-w/2, at.y+drop, text, contourFont)
		if b.x0 < t.x || b.x1 > t.x+t.w || b.y0 < t.y || b.y1 > t.y+t.h || t.meets(b) {
			continue
		}
		t.page.fillRect(b.x0, b.y0+0.3, b.x1-b.x0, b.y1-b.y0-0.6, 1)
		t.page.text(b.x0, at.y+drop, text, contourFont, left)
		t.taken = append(t.taken, b)
		return
	}
}

// best marks the predicted extremes.
func (t *triangle) best(model results.Model) {
	const reach = 2.2
	at := t.at(model.Highest.Point)
	t.page.circle(at.x, at.y, reach, thick)
	t.keep(at, reach)
	if model.Lowest != nil {
		at := t.at(model.Lowest.Point)
		t.page.rect(at.x-reach, at.y-reach, 2*reach, 2*reach, thick)
		t.keep(at, reach)
	}
}

// cornerNames says what the corners are: beside the top, and below the base.
func (p *report) cornerNames(x float64, c chartPlan, t *triangle) {
	const asideMM = 4.0 // clear of a ring at the corner
	ft := bold(deskPt)
	top, half := t.place(0.5, 1), c.wMM/2-1
	var names [3]string
	for i, corner := range t.chart.Corners {
		names[i] = wording.MixtureText(p.r, corner)
	}
	t.page.textIn(top.x+asideMM, top.y-cornerMM, x+c.wMM-top.x-asideMM, cornerMM, names[0], ft, 5, left)
	t.page.textIn(x, t.y+t.h, half, cornerMM, names[1], ft, 5, left)
	t.page.textIn(x+c.wMM-half, t.y+t.h, half, cornerMM, names[2], ft, 5, right)
	t.taken = append(t.taken, occupied{top.x + asideMM, top.y - cornerMM, x + c.wMM, top.y})
}
