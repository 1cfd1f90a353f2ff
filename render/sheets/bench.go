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
			if f := try.drawBench(d.doc.Scrap(d.w, d.h)); f.Breaks == 0 {
				return try.small
			}
		}
	}
	return small{}
}

// bench is the bench page.
func (d *drawer) bench() { d.drawBench(d.doc.Add(d.part.title, d.w, d.h)) }

// drawBench draws the bench page.
func (d *drawer) drawBench(p *page.Page) *page.Flow {
	lead := wording.Sentence(wording.Summary(d.Test))
	if !d.small.has("tickets") {
		lead += " " + wording.Sentence(d.contentsKey())
	}
	f := page.NewFlow(p, d.titles("Bench page", lead).Draw)
	p.Foot = "Cups stand left to right by number. " + edgeFoot
	n := 0
	step := func(do string) string { n++; return fmt.Sprint(n, "  ", do) }
	if d.small.has("start") {
		benchTitle(f, "Before you weigh")
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
		benchTitle(f, step("Have ready"))
		var list []string
		for _, p := range d.Test.Shopping() {
			list = append(list, p.Material+"\u00A0"+quantity.Fixed(p.G, 1)+"\u00A0g")
		}
		f.Para(body, strings.Join(list, ", ")+".")
		f.Y += 1.5
	}
	if d.small.has("map") && !d.inLine() {
		in := f.Rest()
		c, _ := d.place(d.measure(d.mapStyles()[0], d.allContents()), in.W, 60)
		c.h = d.placeH(c, c.w)
		at := f.Take(c.H*c.h + 3)
		d.drawPlaces(f.Page, page.Point{X: in.X + (in.W-c.W*c.w)/2, Y: at.Y + 1}, c)
	}
	benchTitle(f, step(d.benchWork()))
	f.Para(d.small.text, d.dipLine())
	f.Items(d.small.text, wording.Dilutions(d.Test))
	f.Para(fine, d.benchFoot())
	d.benchTables(f)
	return f
}

// benchTitle heads a part of the bench page.
func benchTitle(f *page.Flow, text string) { f.Page.Text(f.Take(partName.LineH()+0.5), partName, text) }

// benchWork is what is done cup by cup.
func (d *drawer) benchWork() string {
	switch {
	case d.plan.Blend.Method == blend.ByWeigh:
		return "Weigh, stir, dip"
	case !d.plan.Blend.HasSeries():
		return "Pour, stir, dip"
	}
	return "Pour, weigh, stir, dip"
}

// benchTables are amounts, a box for stirring, and tiles: one table, or one for
// the tiles below the other where all is wider than the paper.
func (d *drawer) benchTables(f *page.Flow) {
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
	g := page.Grid{
		Columns: slices.Concat(amounts, tiles), Keep: 2, Rows: len(d.Test.Cells),
		HeadH: cardHeadH, RowH: benchRowH, LeastH: leastBenchH,
	}
	if g.Measure(d.doc, f.Rest().W); g.Width() > f.Rest().W {
		g.Columns, g.RowH = amounts, leastBenchH
		f.Grid(g)
		g.Columns, g.Strips, g.Even = append(d.cupColumns(), tiles...), 3, true
	}
	f.Grid(g)
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
		text = quantity.VolumeText(d.Test.LeftML(0)) + " mL stay in the bucket. " +
			"Percentages are of the cup’s dry glaze, not of the batch. "
	}
	return strings.TrimSpace(text + d.letterKey() + " " + d.starLine())
}
