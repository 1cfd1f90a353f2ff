// Package sheets draws what is printed of one test: few sheets, in the order
// of the work. It prints what is in the finished table of the test and
// computes nothing but places.
package sheets

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// Sheets is everything that goes on paper for one test.
type Sheets struct {
	Test   *blend.Test
	Places *layout.Places
	Advice blend.Advice
	Notes  []string // of the plan and of the test

	Only       []string // parts wanted; nil for all that the plan calls for
	Also       []string // parts on request, beyond those of the plan
	MeasuredMM float64  // what the printed 100 mm bar measured, 0 for 100
	Free       []int    // free places on the first sheet of labels, nil for all
	Tried      string   // what was asked for otherwise than the plan's file says
}

// A part is a run of pages that can be printed alone.
type part struct {
	name    string // as it is asked for
	title   string // as it is printed
	request bool   // only when it is asked for
	draw    func(d *drawer)
}

// parts are in the order of the work.
func parts() []part {
	return []part{
		{"start", "Start", false, (*drawer).reserve},
		{"tickets", "Tickets", false, (*drawer).tickets},
		{"labels", "Labels", true, (*drawer).labels},
		{"mat", "Mat", true, (*drawer).mat},
		{"bench", "Bench page", false, (*drawer).bench},
		{"pour", "Pour card", false, (*drawer).pour},
		{"map", "Map", false, (*drawer).maps},
		{"tiles", "Tiles", false, (*drawer).tiles},
		{"trays", "Tray cards", true, (*drawer).trays},
		{"board", "Board", true, (*drawer).boards},
		{"log", "Log", false, (*drawer).log},
		{"unity", "Unity formula", false, (*drawer).unity},
		{"chemistry", "Chemistry", true, (*drawer).chemistry},
		{"notes", "Notes", false, (*drawer).notes},
	}
}

// lacks says why the plan has none of a part, "" where it has.
func (d *drawer) lacks(part string) string {
	analysed := func(c blend.Cell) bool { return d.Test.Chemistry(c.Number-1, blend.Measured).Missing == nil }
	switch {
	case part == "tickets" && d.plan.Blend.Method == blend.ByWeigh:
		return "every cup is weighed by itself"
	case part == "tickets" && d.allTickets() == nil:
		return "nothing is mixed: all glazes come from a bucket"
	case part == "labels" && d.plan.Labels == nil:
		return "no label stock is described (give [labels])"
	case part == "bench" && d.small.parts == nil:
		return "the test does not fit on one page"
	case (part == "unity" || part == "chemistry") && !slices.ContainsFunc(d.Test.Cells, analysed):
		return "every cup holds a material without an analysis"
	}
	return d.lacksRoom(part)
}

// Parts names the parts of the sheets, in order.
func Parts() []string {
	var names []string
	for _, p := range parts() {
		names = append(names, p.name)
	}
	return names
}

// drawer draws the sheets of one test.
type drawer struct {
	Sheets
	plan *blend.Plan
	doc  *page.Doc
	w, h float64 // of the sheets that are read in the hand
	part part    // being drawn

	list    []part                // to draw
	more    []string              // that could be asked for
	notices []string              // about parts that were asked for, and names that were cut
	advised int                   // sentences on accuracy that the first sheet has; the notes have the others
	small   small                 // what the bench page holds
	first   map[string]*page.Page // of each part drawn
	rooms   []*page.Flow          // pages that have room below for the notes
}

// Write draws the sheets as a PDF file; nothing is written if anything is
// wrong. The notices name parts that were asked for and are not drawn, texts that were
// shortened, and characters that cannot be printed.
func (s Sheets) Write(w io.Writer) (notices []string, err error) {
	d, err := s.drawn()
	if err != nil {
		return nil, err
	}
	if err := d.doc.Write(w); err != nil {
		return nil, err
	}
	return append(d.notices, d.doc.Unprinted()...), nil
}

// drawn draws the sheets without writing the file.
func (s Sheets) drawn() (*drawer, error) {
	d, err := s.drawer()
	if err != nil {
		return nil, err
	}
	for _, d.part = range d.list {
		if d.part.name == "notes" { // they have the names that were shortened
			d.start()
		}
		before := len(d.doc.Pages())
		d.part.draw(d)
		if drawn := d.doc.Pages()[before:]; len(drawn) > 0 {
			d.first[d.part.name] = drawn[0]
			drawn[0].Bookmark(d.part.title)
		}
	}
	if d.part.name != "notes" {
		d.start()
		if cut := d.doc.Cut(); len(cut) > 0 {
			d.notices = append(d.notices, "shortened to fit: "+strings.Join(cut, "; "))
		}
	}
	return d, nil
}

// drawer returns a drawer of the parts that are to be drawn, with a notice for each
// that was asked for and cannot be. The error says why there is none to draw.
func (s Sheets) drawer() (*drawer, error) {
	p := s.Test.Plan
	doc := page.New(p.Title, wording.Summary(s.Test), s.markSpan())
	if s.MeasuredMM != 0 {
		if err := doc.Correct(s.MeasuredMM); err != nil {
			return nil, err
		}
	}
	d := &drawer{Sheets: s, plan: p, doc: doc, first: map[string]*page.Page{}, advised: 3}
	d.w, d.h = layout.HandPaper(p.Board)
	d.small = d.fitBench()
	for _, part := range parts() {
		lack := d.lacks(part.name)
		switch asked := d.asked(part); {
		case asked && lack == "":
			d.list = append(d.list, part)
		case asked && (d.Only != nil || part.request):
			d.notices = append(d.notices, fmt.Sprintf("part %s skipped: %s", part.name, lack))
		case d.Only == nil && part.request && lack == "":
			d.more = append(d.more, part.name)
		}
	}
	if d.list == nil {
		return nil, fmt.Errorf("nothing to print: %s", strings.Join(d.notices, "; "))
	}
	return d, nil
}

// Chosen names the parts that are drawn, in the order in which they were asked
// for, and those that can be had on request and were not. The error says why there
// are none.
func (s Sheets) Chosen() (names, more []string, err error) {
	d, err := s.drawer()
	if err != nil {
		return nil, nil, err
	}
	for _, p := range d.list {
		names = append(names, p.name)
	}
	slices.SortStableFunc(names, func(a, b string) int {
		return cmp.Compare(slices.Index(s.Only, a), slices.Index(s.Only, b))
	})
	return names, d.more, nil
}

// asked reports whether a part is to be drawn, as far as it was asked for.
func (d *drawer) asked(p part) bool {
	switch {
	case d.Only != nil:
		return slices.Contains(d.Only, p.name)
	case p.request:
		return slices.Contains(d.Also, p.name) || slices.Contains(d.plan.Also, p.name)
	}
	return !d.small.has(p.name)
}

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
