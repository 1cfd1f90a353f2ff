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
	return fmt.Sprintf("%s %s, %s of %s, %s.", wording.Sentence(wording.Summary(d.Test)), strings.Join(tiles.Bodies, ", "),
		quantity.Plural(len(d.Places.Tiles), "tile", "tiles"), strings.Join(strings.Fields(tiles.Size), " "),
		quantity.Plural(tiles.Coats, "coat", "coats"))
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
	names := page.Each(list, func(p blend.Mass) string { return p.Material })
	grams := page.Each(list, func(p blend.Mass) string { return quantity.Fixed(p.G, 1) })
	f.Grid(page.Grid{
		Columns: []page.Column{
			{Head: "material", Style: body, Texts: names, Grow: 1},
			{Head: "g", Style: strong.To(page.Decimal), Texts: grams},
		},
		Rows: len(list), HeadH: 5, RowH: 5.2, Strips: 2, Even: true,
	})
}

// batchTable is what is mixed, and what to have ready.
func (d *drawer) batchTable(f *page.Flow) {
	if d.plan.Blend.Method == blend.ByWeigh {
		return
	}
	var rows [][]string
	var ready []string
	for i, b := range d.Test.Batches {
		volume := quantity.VolumeText(b.ML)
		row := []string{b.Glaze, quantity.SGText(b.SG), volume,
			wording.ScaleText(d.Test, b.DryG), wording.BatchWaterText(b.WaterG)}
		if d.Test.Ends[i].Assumed {
			row[1] = "assumed"
		}
		if b.Mixed {
			row[3], row[4] = "ready", dash
		}
		switch {
		case !d.fromBucket(i):
			rows = append(rows, row)
		case b.Mixed:
			ready = append(ready, fmt.Sprintf("There are %s mL of %s; the cups need %s mL.",
				volume, b.Glaze, quantity.VolumeText(b.NeedML)))
		case b.ML > 0:
			ready = append(ready, haveReady(b))
		}
	}
	for _, s := range d.Test.Stocks {
		rows = append(rows, []string{s.Label + " " + s.Material + " stock", "", quantity.VolumeText(s.ML),
			wording.DosingText(d.Test, s.G), wording.ScaleText(d.Test, s.WaterG)})
	}
	f.Heading("Glazes", 20)
	f.Items(body, ready)
	if ready != nil {
		f.Para(fine, "A glaze without a recipe is not mixed. Cups that hold it have no recipe, chemistry or unity formula.")
	}
	if rows != nil {
		right, point := body.To(page.Right), body.To(page.Decimal)
		f.Table([]page.Column{
			{Head: "glaze", Style: strong, Grow: 1}, {Head: "SG", Style: right},
			{Head: "mix mL", Style: strong.To(page.Decimal)}, {Head: "dry g", Style: point},
			{Head: "water g", Style: point},
		}, rows)
	}
}

// order is the steps of the work with their pages, all on one page.
func (d *drawer) order(f *page.Flow, extra int) {
	var rows [][]string
	step := func(text, part string) {
		if d.small.has(part) {
			part = "bench"
		}
		at := ""
		if p := d.first[part]; p != nil {
			at = fmt.Sprint(p.Number() + extra)
		}
		rows = append(rows, []string{fmt.Sprint(len(rows) + 1), text, at})
	}
	step(fmt.Sprintf("Number the cups 1 to %d. Stand them as on the map.", len(d.Test.Cells)), "map")
	step("Paint the mark of every tile, above and underneath.", "tiles")
	if d.lacks("tickets") == "" {
		step("Mix each batch. Sieve it, check its SG, and decide.", "tickets")
	}
	switch {
	case d.plan.Blend.Method == blend.ByWeigh:
		step("Weigh the dry materials into each cup. Add the water and stir.", "pour")
	case d.plan.Blend.Method == blend.ByStock:
		step("Pour the base into the cups. Add each stock with the syringe.", "pour")
	case d.Test.Dosed():
		step("Pour the base into the cups. Weigh each dose into its cup.", "pour")
	default:
		step("Pour the glazes into the cups.", "pour")
	}
	step("Sieve or stir each cup until it is even. Undispersed powder makes spots.", "")
	step("Dip the tiles, coat by coat.", "tiles")
	step("Fire. Write down what came out.", "log")
	f.Heading("Order of work", 5+5.4*float64(len(rows)))
	number := strong.To(page.Right)
	f.Table([]page.Column{{Style: number}, {Style: body, Grow: 1}, {Head: "page", Style: number}}, rows)
}
