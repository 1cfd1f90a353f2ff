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
	benchRoom     = 2.5 // behind a box
)

// small is what the bench page holds of the other sheets.
type small struct {
	parts []string // nil where it does not fit
	text  page.Style
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
			try := *d
			try.small = small{parts, text}
			if f := try.drawBench(d.doc.Scrap(d.w, d.h)); f != nil && f.Breaks == 0 {
				return try.small
			}
		}
	}
	return small{}
}

// bench is the bench page.
func (d *drawer) bench() { d.drawBench(d.doc.Add(d.part.title, d.w, d.h)) }

// drawBench draws the bench page; it is nil where the tables are wider than it.
func (d *drawer) drawBench(p *page.Page) *page.Flow {
	grids := d.benchGrids()
	for _, g := range grids {
		if g.Width() > d.w-2*page.Margin {
			return nil
		}
	}
	f := page.NewFlow(p, d.titles("Bench page", d.benchLead()).Draw)
	p.Foot = "Cups stand left to right by number. " + edgeFoot
	title := func(text string) { f.Page.Text(f.Take(partName.LineH()+0.5), partName, text) }
	n := 0
	step := func(text string) string { n++; return fmt.Sprint(n, "  ", text) }
	if d.small.has("start") {
		title("Before you weigh")
		f.Items(d.small.text, d.care(d.Test.Materials()))
		f.Y += 2
	}
	if d.small.has("tickets") {
		t := d.batchTicket(0)
		t.short = true
		do := "Mix the batch"
		if d.fromBucket(0) {
			do = "Stir the glaze"
		}
		left, right := f.Split(leftPart, columnsGap)
		left.Para(partName, step(do))
		left.Para(d.small.text, t.about)
		d.mixing(left, right, t)
		f.Join(left, right)
		f.Y++
	} else if d.small.has("start") {
		title(step("Have ready"))
		f.Para(body, d.haveInLine())
		f.Y += 1.5
	}
	if d.small.has("map") && !d.inLine() {
		in := f.Rest()
		c := d.place(d.measure(d.mapStyles()[0], d.allContents()), in.W, 60)
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
	title(step(do))
	f.Para(d.small.text, d.dipLine())
	f.Items(d.small.text, wording.Dilutions(d.Test))
	f.Para(fine, d.benchFoot())
	for _, g := range grids {
		f.Grid(g)
	}
	return f
}

// haveInLine is the shopping list in one sentence.
func (d *drawer) haveInLine() string {
	var list []string
	for _, p := range d.Test.Shopping() {
		list = append(list, p.Material+"\u00A0"+quantity.Fixed(p.G, 1)+"\u00A0g")
	}
	return strings.Join(list, ", ") + "."
}

// benchLead is what is tested.
func (d *drawer) benchLead() string {
	if d.small.has("tickets") {
		return wording.Sentence(wording.Summary(d.Test))
	}
	return wording.Sentence(wording.Summary(d.Test)) + " " + wording.Sentence(d.contentsKey())
}

// benchGrids are amounts, a box for stirring, and tiles: one table, or one for
// the tiles below the other where all is wider than the paper.
func (d *drawer) benchGrids() []page.Grid {
	amounts := d.cupColumns()
	for _, field := range d.fields() {
		c := d.column(field, benchRoom)
		c.Grow = 0.5
		amounts = append(amounts, c)
	}
	amounts = append(append(amounts, d.inCup()...), page.Column{
		Head: "stir", W: page.Tick + 3, Grow: 0.3,
		Draw: func(p *page.Page, r page.Rect, _ int) { p.Tick(r) },
	})
	tiles := d.tileColumns()
	g := page.Grid{Columns: slices.Concat(amounts, tiles), Rows: len(d.Test.Cells), HeadH: cardHeadH, RowH: benchRowH, LeastH: leastBenchH}
	g.Measure(d.doc, d.w-2*page.Margin)
	if g.Width() <= d.w-2*page.Margin {
		return []page.Grid{g}
	}
	g.RowH = leastBenchH
	below := g
	g.Columns, below.Columns, below.Strips, below.Even = amounts, append(d.cupColumns(), tiles...), 3, true
	g.Measure(d.doc, d.w-2*page.Margin)
	below.Measure(d.doc, d.w-2*page.Margin)
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

// benchFoot is what stays over, of what percentages are, and what a star means.
func (d *drawer) benchFoot() string {
	text := ""
	if d.plan.Blend.HasSeries() && len(d.Test.Batches) == 1 && d.plan.Blend.Method != blend.ByWeigh {
		text = fmt.Sprintf("%s mL stay in the bucket. Percentages are of the cup’s dry glaze, not of the batch. ", quantity.VolumeText(d.Test.LeftML(0)))
	}
	return strings.TrimSpace(text + d.letterKey() + " " + d.starLine())
}
