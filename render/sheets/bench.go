package sheets

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// A small test has all of its sheets, or the last three of them, on one page.
const (
	mostBenchCups = 15
	benchRowH     = 11.0
	leastBenchH   = 8.2
	benchHeadH    = cardHeadH
	benchRoom     = 1.0 // behind a box
)

// small is what the bench page holds of the other sheets.
type small struct {
	parts []string // nil where it does not fit
	text  page.Style
	rowH  float64
}

// has reports whether a part is on the bench page.
func (s small) has(part string) bool { return slices.Contains(s.parts, part) }

// lacksBench says why there is no bench page.
func (d *drawer) lacksBench() string {
	if d.small.parts == nil {
		return "the test does not fit on one page"
	}
	return ""
}

// fitBench finds out what goes on the bench page at full size: it is drawn on
// paper of its own and measured.
func (d *drawer) fitBench() small {
	if len(d.Test.Cells) > mostBenchCups {
		return small{}
	}
	work := []string{"pour", "map", "tiles"}
	tries := [][]string{work}
	switch {
	case d.plan.Blend.Method == blend.ByWeigh:
		tries = [][]string{{"start", "pour", "map", "tiles"}, {"start", "pour", "tiles"}, work}
	case d.plan.Blend.HasSeries() && len(d.Test.Batches) == 1 && len(d.Test.Stocks) == 0 && d.inLine():
		tries = [][]string{append([]string{"start", "tickets"}, work...), work}
	}
	for _, parts := range tries {
		for _, text := range []page.Style{body, fine} {
			for k := range 8 {
				s := small{parts, text, benchRowH - (benchRowH-leastBenchH)*float64(k)/7}
				if d.benchFits(s) {
					return s
				}
			}
		}
	}
	return small{}
}

// benchFits draws the bench page elsewhere.
func (d *drawer) benchFits(s small) bool {
	try := *d
	try.small = s
	for _, g := range try.benchGrids() {
		if g.Width() > d.w-2*page.Margin {
			return false
		}
	}
	p := d.doc.Scrap(d.w, d.h)
	f := try.drawBench(p)
	return f.Page == p && f.Y <= p.Inside().Bottom()+1e-6
}

// bench is the bench page.
func (d *drawer) bench() { d.drawBench(d.doc.Add(d.part.title, d.w, d.h)) }

func (d *drawer) drawBench(p *page.Page) *page.Flow {
	f := page.NewFlow(p, d.head("Bench page", d.benchLead(), true))
	p.Foot = "Cups stand left to right by number. Keep this edge towards you."
	if d.small.has("start") {
		f.Page.Text(f.Take(partName.LineH()), partName, "Before you weigh")
		f.Items(d.small.text, d.care(d.Test.Materials()))
		f.Y += 2.5
	}
	n := 1
	step := func(text string) string {
		text = fmt.Sprint(n, "  ", text)
		n++
		return text
	}
	if d.small.has("tickets") {
		d.benchMix(f, step)
	} else if d.small.has("start") {
		f.Page.Text(f.Take(partName.LineH()+1), partName, step("Have ready"))
		f.Para(body, d.haveInLine())
		f.Y += 1.5
	}
	if d.small.has("map") && !d.inLine() {
		in := f.Rest()
		c := d.place(d.mapStyles()[0], in.W, 60)
		c.h = d.placeH(c, c.w)
		at := f.Take(c.H*c.h + 3)
		d.drawPlaces(f.Page, page.Point{X: in.X + (in.W-c.W*c.w)/2, Y: at.Y + 1}, c, page.Rect{W: c.W, H: c.H})
	}
	do := "Pour, weigh, stir, dip"
	switch {
	case d.plan.Blend.Method == blend.ByWeigh:
		do = "Weigh, stir, dip"
	case !d.plan.Blend.HasSeries():
		do = "Pour, stir, dip"
	}
	f.Page.Text(f.Take(partName.LineH()+1), partName, step(do))
	f.Para(d.small.text, d.dipLine())
	f.Y += 0.5
	for _, g := range d.benchGrids() {
		f.Grid(g)
	}
	if star := d.starLine(); star != "" {
		f.Para(fine, star)
	}
	f.Items(d.small.text, wording.Dilutions(d.Test))
	f.Para(fine, d.benchFoot())
	return f
}

// haveInLine is the shopping list in one sentence.
func (d *drawer) haveInLine() string {
	var list []string
	for _, p := range d.Test.Shopping() {
		list = append(list, fmt.Sprintf("%s\u00A0%.1f\u00A0g", p.Material, p.G))
	}
	return strings.Join(list, ", ") + "."
}

// benchLead is what is tested.
func (d *drawer) benchLead() string {
	if d.small.has("tickets") {
		return wording.Sentence(d.about())
	}
	return wording.Sentence(d.about()) + " " + wording.Sentence(d.contentsKey())
}

// benchMix is the batch and the decision about it, side by side.
func (d *drawer) benchMix(f *page.Flow, step func(string) string) {
	t := d.batchTicket(0)
	t.short = true
	rest := f.Rest()
	left := page.Rect{X: rest.X, Y: f.Y, W: rest.W * leftPart}
	right := page.Rect{X: left.Right() + columnsGap, Y: f.Y, W: rest.W*(1-leftPart) - columnsGap}
	do := "Mix the batch"
	if d.fromBucket(0) {
		do = "Stir the glaze"
	}
	y := f.Page.Para(left, partName, step(do))
	y = f.Page.Para(page.Rect{X: left.X, Y: y, W: left.W}, d.small.text, t.about) + 0.5
	if t.dry != nil {
		y = d.weighingList(f.Page, page.Rect{X: left.X, Y: y, W: left.W}, t)
	}
	for _, s := range t.steps {
		right.Y = d.step(f.Page, right, s)
	}
	right.Y = d.decision(f.Page, right, t)
	f.Y = max(y, right.Y) + 2
}

// benchGrids are amounts, a box for stirring, and tiles: one table, or one for
// the tiles below the other where all is wider than the paper.
func (d *drawer) benchGrids() []page.Grid {
	cup := d.cupColumn(cupNo)
	amounts := []page.Column{cup}
	for _, field := range d.fields() {
		c := d.column(field, benchRoom)
		c.Grow = 0.5
		amounts = append(amounts, c)
	}
	if sums := d.inCup(); sums != nil {
		amounts = append(amounts, d.doc.Texts("in cup", sums, d.small.text.To(page.Right), 2))
	}
	amounts = append(amounts, page.Column{
		W: page.Tick + 3, Grow: 0.3,
		Head: page.HeadText("stir", fine, 0),
		Cell: func(p *page.Page, r page.Rect, _ int) { p.Tick(r) },
	})
	tiles := d.tileColumns(len(d.tilesOf(1)), 1)
	g := page.Grid{
		Columns: slices.Concat(amounts, tiles), Rows: len(d.Test.Cells), HeadH: benchHeadH, RowH: max(d.small.rowH, leastBenchH), Rule: page.EveryRow,
	}
	if g.Width() <= d.w-2*page.Margin {
		return []page.Grid{g}
	}
	below := g
	g.Columns, below.Columns, below.Strips, below.Even = amounts, append([]page.Column{cup}, tiles...), 3, true
	return []page.Grid{g, below}
}

// dipLine says how the tiles are marked and dipped.
func (d *drawer) dipLine() string {
	text := d.howToPour() + " Paint marks above, and underneath with the check letter. "
	if coats := d.plan.Tiles.Dips(); d.plan.Tiles.Bands != blend.Corner && len(coats) > 1 {
		var depths []string
		for _, c := range coats {
			depths = append(depths, strings.TrimSuffix(quantity.LengthText(c.MM), " mm"))
		}
		text += "Dip the lower edge first: coats " + strings.Join(depths, ", ") + " mm deep. "
	} else {
		for i, c := range coats {
			text += d.coatText(i+1, c) + " "
		}
	}
	if d.plan.Tiles.Coats > 1 {
		text += "Give every tile its first coat. Then start again for the second."
	}
	return text
}

// benchFoot is what stays over, and of what percentages are.
func (d *drawer) benchFoot() string {
	text := d.letterKey()
	if d.plan.Blend.HasSeries() && len(d.Test.Batches) == 1 && d.plan.Blend.Method != blend.ByWeigh {
		left := d.Test.Batches[0].ML - d.Test.PouredML(0)
		text = fmt.Sprintf("%s mL stay in the bucket. Percentages are of the cup’s dry glaze, not of the batch. ", quantity.VolumeText(left)) + text
	}
	return text
}
