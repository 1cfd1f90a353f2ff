package sheets

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// reserve begins the first sheet, which is filled when all others are drawn:
// it names their pages.
func (d *drawer) reserve() {
	p := d.doc.Add(d.part.title, d.w, d.h)
	p.Bookmark(d.part.title)
	d.first["start"] = p
}

// startLead is what is tested, in a sentence or two.
func (d *drawer) startLead() string {
	tiles := d.plan.Tiles
	text := wording.Sentence(d.about()) + fmt.Sprintf(" %s, %s of %s, %s.", strings.Join(tiles.Bodies, ", "),
		quantity.Plural(len(d.Places.Tiles), "tile", "tiles"), strings.Join(strings.Fields(tiles.Size), " "), quantity.Plural(tiles.Coats, "coat", "coats"))
	return text
}

// drawStart is the first sheet: care, the shopping list, the batches, the
// order of work with its pages, and how well it can be measured.
func (d *drawer) drawStart() {
	p := d.first["start"]
	if p == nil {
		return
	}
	for extra := 0; ; { // a second page would shift the pages that it names
		before := d.doc.Pages()
		f := page.NewFlow(p, d.head("Start", d.startLead(), false))
		d.fillStart(f, extra)
		more := d.doc.Pages() - before
		if few := more > 0 && f.Lines < leastLines && d.advised > 0; few {
			d.advised = 0 // the notes have it, rather than a page of its own
		} else if more == extra {
			return
		}
		p.Clear(more)
		extra = more
	}
}

// fillStart fills the first sheet, which takes so many pages more than one.
func (d *drawer) fillStart(f *page.Flow, extra int) {
	f.Heading("Before you weigh", 20)
	f.Items(body, d.care(d.Test.Materials()))
	d.shopping(f)
	d.batchTable(f)
	d.order(f, extra)
	d.accuracy(f)
}

// shopping is every raw material with all that the test takes of it.
func (d *drawer) shopping(f *page.Flow) {
	list := d.Test.Shopping()
	if len(list) == 0 {
		return
	}
	f.Heading("Have ready", 25)
	materials(d.doc, f, list)
}

// materials is a table of materials with their grams.
func materials(doc *page.Doc, f *page.Flow, list []blend.Mass) {
	var names, grams []string
	for _, p := range list {
		names, grams = append(names, p.Material), append(grams, fmt.Sprintf("%.1f", p.G))
	}
	name := doc.Texts("material", names, body, 4)
	name.W, name.Grow = min(name.W, f.Rest().W*0.6), 1
	f.Grid(page.Grid{
		Columns: []page.Column{name, doc.Figures("g", grams, strong, 1)},
		Rows:    len(names), HeadH: 5, RowH: 5.2, Strips: 2, Even: true, Rule: page.EveryRow,
	})
}

// batchTable is what is mixed, with the pages of the tickets.
func (d *drawer) batchTable(f *page.Flow) {
	if d.plan.Blend.Method == blend.ByWeigh {
		return
	}
	var names, sgs, mls, drys, waters, ready []string
	for i, b := range d.Test.Batches {
		if d.fromBucket(i) {
			if b.Mixed {
				ready = append(ready, fmt.Sprintf("There are %s mL of %s; the cups need %s mL.", quantity.VolumeText(b.ML), b.Glaze, quantity.VolumeText(b.NeedML)))
			}
			if b.ML > 0 && !b.Mixed {
				ready = append(ready, haveReady(b))
			}
			continue
		}
		sg := quantity.SGText(b.SG)
		if d.Test.Ends[i].Assumed {
			sg = "assumed"
		}
		names, sgs, mls = append(names, b.Glaze), append(sgs, sg), append(mls, quantity.VolumeText(b.ML))
		dry, water := wording.ScaleText(d.Test, b.DryG), wording.BatchWaterText(b.WaterG)
		if b.Mixed {
			dry, water = "ready", dash
		}
		drys, waters = append(drys, dry), append(waters, water)
	}
	for i, s := range d.Test.Stocks {
		names, sgs = append(names, d.Test.StockLabel(i)+" "+s.Material+" stock"), append(sgs, "")
		mls, drys, waters = append(mls, quantity.VolumeText(s.ML)), append(drys, wording.DosingText(d.Test, s.G)), append(waters, wording.ScaleText(d.Test, s.WaterG))
	}
	f.Heading("Glazes", 20)
	f.Items(body, ready)
	if ready != nil {
		f.Para(fine, "A glaze without a recipe is not mixed. Cups that hold it have no recipe, chemistry or unity formula.")
	}
	if names == nil {
		return
	}
	name := d.doc.Texts("glaze", names, strong, 4)
	name.W, name.Grow = min(name.W, f.Rest().W*0.4), 1
	f.Grid(page.Grid{
		Columns: []page.Column{name, d.doc.Texts("SG", sgs, body.To(page.Right), 5), d.doc.Figures("mix mL", mls, strong, 5),
			d.doc.Figures("dry g", drys, body, 5), d.doc.Figures("water g", waters, body, 1)},
		Rows: len(names), HeadH: 5, RowH: 5.6, Rule: page.EveryRow,
	})
}

// A job is a step of the work and the part that it is done by.
type job struct{ text, part string }

// jobs are the steps in order.
func (d *drawer) jobs() []job {
	t := d.Test
	jobs := []job{{fmt.Sprintf("Number the cups 1 to %d. Stand them as on the map.", len(t.Cells)), "map"},
		{"Paint the mark of every tile, above and underneath.", "tiles"}}
	if d.lacksTickets() == "" {
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

const orderH = 6.0 // of a step, mm

// order is the jobs with their pages, all on one page.
func (d *drawer) order(f *page.Flow, extra int) {
	var numbers, texts, pages []string
	for i, j := range d.jobs() {
		name := j.part
		if d.small.has(name) {
			name = "bench"
		}
		at := ""
		if p := d.first[name]; p != nil {
			at = fmt.Sprint(p.Number() + extra)
		}
		numbers, texts, pages = append(numbers, fmt.Sprint(i+1)), append(texts, j.text), append(pages, at)
	}
	f.Heading("Order of work", 5+orderH*float64(len(texts)))
	text := d.doc.Texts("", texts, body, 2)
	text.W, text.Grow = min(text.W, f.Rest().W-25), 1
	f.Grid(page.Grid{
		Columns: []page.Column{d.doc.Texts("", numbers, strong.To(page.Right), 3), text, d.doc.Texts("page", pages, strong.To(page.Right), 1)},
		Rows:    len(texts), HeadH: 5, RowH: orderH, Rule: page.EveryRow,
	})
}

// accuracy is how well the test can be measured, in three lines; the notes have
// the rest.
func (d *drawer) accuracy(f *page.Flow) {
	lines := wording.Advice(d.Advice, d.plan)
	if len(lines) == 0 || d.advised == 0 {
		return
	}
	f.Heading("How well it can be measured", 15)
	f.Items(body, lines[:min(d.advised, len(lines))])
}
