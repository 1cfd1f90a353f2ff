package sheets

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// startLead is what is tested, in a sentence or two.
func (d *drawer) startLead() string {
	tiles := d.plan.Tiles
	text := wording.Sentence(wording.Summary(d.Test)) + fmt.Sprintf(" %s, %s of %s, %s.", strings.Join(tiles.Bodies, ", "),
		quantity.Plural(len(d.Places.Tiles), "tile", "tiles"), strings.Join(strings.Fields(tiles.Size), " "), quantity.Plural(tiles.Coats, "coat", "coats"))
	return text
}

// reserve begins the first sheet, which is drawn when all others are: it names
// their pages.
func (d *drawer) reserve() { d.doc.Add(d.part.title, d.w, d.h) }

// start is the first sheet, whose page is there already. It is drawn again where it
// takes two, since the second shifts the pages that it names. No page is for a few
// lines: the notes then have what of the advice goes here.
func (d *drawer) start() {
	p := d.first["start"]
	if p == nil {
		return
	}
	f := d.drawStart(p, 0)
	if f.Breaks > 0 && f.Lines < leastLines {
		d.advised = 0
		p.Clear(f.Breaks)
		f = d.drawStart(p, 0)
	}
	if f.Breaks > 0 {
		p.Clear(f.Breaks)
		f = d.drawStart(p, f.Breaks)
	}
	d.rooms = append(d.rooms, f)
}

// drawStart draws care, the shopping list, the batches, the order of work with its
// pages, and how well it can be measured, on so many pages more than one.
func (d *drawer) drawStart(p *page.Page, extra int) *page.Flow {
	f := page.NewFlow(p, d.titles("Start", d.startLead()).Draw)
	f.List("Before you weigh", body, d.care(d.Test.Materials()))
	if list := d.Test.Shopping(); len(list) > 0 {
		f.Heading("Have ready", 25)
		materials(f, list)
	}
	d.batchTable(f)
	d.order(f, extra)
	lines := wording.Advice(d.Advice, d.plan)
	f.List("How well it can be measured", body, lines[:min(d.advised, len(lines))]) // the notes have the rest
	return f
}

// materials is a table of materials with their grams.
func materials(f *page.Flow, list []blend.Mass) {
	name, grams := page.Column{Head: "material", Style: body, Grow: 1}, page.Column{Head: "g", Style: strong.To(page.Decimal)}
	for _, p := range list {
		name.Texts, grams.Texts = append(name.Texts, p.Material), append(grams.Texts, quantity.Fixed(p.G, 1))
	}
	f.Grid(page.Grid{Columns: []page.Column{name, grams}, Rows: len(list), HeadH: 5, RowH: 5.2, Strips: 2, Even: true})
}

// batchTable is what is mixed, with the pages of the tickets.
func (d *drawer) batchTable(f *page.Flow) {
	if d.plan.Blend.Method == blend.ByWeigh {
		return
	}
	var rows [][]string
	var ready []string
	for i, b := range d.Test.Batches {
		sg, dry, water := quantity.SGText(b.SG), wording.ScaleText(d.Test, b.DryG), wording.BatchWaterText(b.WaterG)
		switch {
		case d.fromBucket(i) && b.Mixed:
			ready = append(ready, fmt.Sprintf("There are %s mL of %s; the cups need %s mL.", quantity.VolumeText(b.ML), b.Glaze, quantity.VolumeText(b.NeedML)))
		case d.fromBucket(i) && b.ML > 0:
			ready = append(ready, haveReady(b))
		}
		if d.fromBucket(i) {
			continue
		}
		if d.Test.Ends[i].Assumed {
			sg = "assumed"
		}
		if b.Mixed {
			dry, water = "ready", dash
		}
		rows = append(rows, []string{b.Glaze, sg, quantity.VolumeText(b.ML), dry, water})
	}
	for i, s := range d.Test.Stocks {
		rows = append(rows, []string{d.Test.Stocks[i].Label + " " + s.Material + " stock", "", quantity.VolumeText(s.ML),
			wording.DosingText(d.Test, s.G), wording.ScaleText(d.Test, s.WaterG)})
	}
	f.Heading("Glazes", 20)
	f.Items(body, ready)
	if ready != nil {
		f.Para(fine, "A glaze without a recipe is not mixed. Cups that hold it have no recipe, chemistry or unity formula.")
	}
	if rows != nil {
		f.Table([]page.Column{{Head: "glaze", Style: strong, Grow: 1}, {Head: "SG", Style: body.To(page.Right)}, {Head: "mix mL", Style: strong.To(page.Decimal)},
			{Head: "dry g", Style: body.To(page.Decimal)}, {Head: "water g", Style: body.To(page.Decimal)}}, rows)
	}
}

// A job is a step of the work and the part that it is done by.
type job struct{ text, part string }

// jobs are the steps in order.
func (d *drawer) jobs() []job {
	t := d.Test
	jobs := []job{{fmt.Sprintf("Number the cups 1 to %d. Stand them as on the map.", len(t.Cells)), "map"},
		{"Paint the mark of every tile, above and underneath.", "tiles"}}
	if d.lacks("tickets") == "" {
		jobs = append(jobs, job{"Mix each batch. Sieve it, check its SG, and decide.", "tickets"})
	}
	do := "Pour the glazes into the cups."
	switch {
	case d.plan.Blend.Method == blend.ByWeigh:
		do = "Weigh the dry materials into each cup. Add the water and stir."
	case t.Dosed():
		do = "Pour the base into the cups. Weigh each dose into its cup."
	}
	jobs = append(jobs, job{do, "pour"}, job{"Sieve or stir each cup until it is even. Undispersed powder makes spots.", ""},
		job{"Dip the tiles, coat by coat.", "tiles"}, job{"Fire. Write down what came out.", "log"})
	return jobs
}

// order is the jobs with their pages, all on one page.
func (d *drawer) order(f *page.Flow, extra int) {
	var rows [][]string
	for i, j := range d.jobs() {
		name := j.part
		if d.small.has(name) {
			name = "bench"
		}
		at := ""
		if p := d.first[name]; p != nil {
			at = fmt.Sprint(p.Number() + extra)
		}
		rows = append(rows, []string{fmt.Sprint(i + 1), j.text, at})
	}
	f.Heading("Order of work", 5+5.4*float64(len(rows)))
	f.Table([]page.Column{{Style: strong.To(page.Right)}, {Style: body, Grow: 1}, {Head: "page", Style: strong.To(page.Right)}}, rows)
}
