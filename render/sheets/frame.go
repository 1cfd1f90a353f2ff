package sheets

import (
	"slices"

	"pourboard/render/page"
)

// The styles of the sheets.
var (
	body   = page.Regular(page.Body)
	strong = page.Bold(page.Body)
	fine   = page.Regular(page.Small)
	amount = page.Bold(page.Amount)
	cupNo  = page.Bold(page.Amount)
)

// paper is the sheets that are read in the hand, upright or turned, mm.
func (d *drawer) paper(turned bool) (w, h float64) {
	if turned {
		return d.h, d.w
	}
	return d.w, d.h
}

// begin begins a part on a new page under its title and a line or two of what
// to do.
func (d *drawer) begin(title, lead string, turned bool) *page.Flow {
	w, h := d.paper(turned)
	return page.NewFlow(d.doc.Add(d.part.title, w, h), d.titles(title, lead).Draw)
}

// titles are the head of a sheet. Those that are ticked have room for who did it
// and when.
func (d *drawer) titles(title, lead string) page.Titles {
	signed := slices.Contains([]string{"Bench page", "Pour card", "Weigh card", "Tiles", "Log"}, title)
	return page.Titles{Title: title, Test: d.plan.Title, Tried: d.Tried, Lead: lead, Signed: signed}
}
