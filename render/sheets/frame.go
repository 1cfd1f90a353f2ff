package sheets

import (
	"fmt"

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

// begin begins a part on a new page under its title and a line or two of what
// to do. signed pages have room for who did it and when.
func (d *drawer) begin(title, lead string, signed bool) *page.Flow {
	return d.beginOn(d.w, d.h, title, lead, signed)
}

func (d *drawer) beginOn(w, h float64, title, lead string, signed bool) *page.Flow {
	return page.NewFlow(d.doc.Add(d.part.title, w, h), d.head(title, lead, signed))
}

// head is the head of a sheet.
func (d *drawer) head(title, lead string, signed bool) func(*page.Page, bool) float64 {
	return d.titles(title, lead, signed).Draw
}

func (d *drawer) titles(title, lead string, signed bool) page.Titles {
	return page.Titles{Title: title, Test: d.plan.Title, Tried: d.Tried, Lead: lead, Signed: signed}
}

// ordinal is the number of a coat: "1st".
func ordinal(n int) string {
	suffix := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			suffix = "st"
		case 2:
			suffix = "nd"
		case 3:
			suffix = "rd"
		}
	}
	return fmt.Sprint(n, suffix)
}
