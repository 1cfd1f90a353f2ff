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
	name    string                 // as it is asked for
	title   string                 // as it is printed
	request bool                   // only when it is asked for
	lacks   func(d *drawer) string // why the plan has none, "" where it has; nil where every plan has
	draw    func(d *drawer)
}

// parts are in the order of the work.
func parts() []part {
	return []part{
		{"start", "Start", false, nil, (*drawer).reserve},
		{"tickets", "Tickets", false, (*drawer).lacksTickets, (*drawer).tickets},
		{"labels", "Labels", true, (*drawer).lacksLabels, (*drawer).labels},
		{"mat", "Mat", true, (*drawer).lacksMat, (*drawer).mat},
		{"bench", "Bench page", false, (*drawer).lacksBench, (*drawer).bench},
		{"pour", "Pour card", false, nil, (*drawer).pour},
		{"map", "Map", false, nil, (*drawer).maps},
		{"tiles", "Tiles", false, nil, (*drawer).tiles},
		{"trays", "Tray cards", true, (*drawer).lacksTrays, (*drawer).trays},
		{"board", "Board", true, (*drawer).lacksBoards, (*drawer).boards},
		{"log", "Log", false, nil, (*drawer).log},
		{"unity", "Unity formula", false, (*drawer).lacksChemistry, (*drawer).unity},
		{"chemistry", "Chemistry", true, (*drawer).lacksChemistry, (*drawer).chemistry},
		{"notes", "Notes", false, nil, (*drawer).notes},
	}
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

	advised int                   // sentences on accuracy that the first sheet has; the notes have the others
	small   small                 // what the bench page holds
	first   map[string]*page.Page // of each part drawn
	room    *page.Flow            // what the unity formulas leave of their page
}

// Write draws the sheets as a PDF file; nothing is written if anything is
// wrong. The notes are about texts that cannot be printed as they are and about
// parts asked for that the plan has not.
func (s Sheets) Write(w io.Writer) ([]string, error) {
	d, notes, err := s.drawn()
	if err != nil {
		return nil, err
	}
	if err := d.doc.Write(w); err != nil {
		return nil, err
	}
	return append(notes, d.doc.Unprinted(d.ownTexts())...), nil
}

// drawn is Write without the writing.
func (s Sheets) drawn() (*drawer, []string, error) {
	d, err := s.drawer()
	if err != nil {
		return nil, nil, err
	}
	list, notes, err := d.chosen()
	if err != nil {
		return nil, nil, err
	}
	for _, d.part = range list {
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
			notes = append(notes, "shortened to fit: "+strings.Join(cut, "; "))
		}
	}
	return d, notes, nil
}

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
	list, _, err := d.chosen()
	for _, p := range list {
		names = append(names, p.name)
	}
	for _, p := range parts() {
		if d.Only == nil && p.request && !d.asked(p) && p.lacks(d) == "" {
			more = append(more, p.name)
		}
	}
	slices.SortStableFunc(names, func(a, b string) int {
		return cmp.Compare(slices.Index(s.Only, a), slices.Index(s.Only, b))
	})
	return names, more, err
}

// asked reports whether a part is to be drawn, as far as it was asked for.
func (d *drawer) asked(p part) bool {
	switch {
	case d.Only != nil:
		return slices.Contains(d.Only, p.name)
	case p.request:
		return slices.Contains(d.Also, p.name) || slices.Contains(d.plan.Also, p.name)
	case p.name == "bench":
		return d.small.parts != nil
	}
	return !d.small.has(p.name)
}

// chosen are the parts to draw, and why others that were asked for are not drawn.
func (d *drawer) chosen() (list []part, notes []string, err error) {
	for _, name := range slices.Concat(d.Only, d.Also, d.plan.Also) {
		if names := Parts(); !slices.Contains(names, name) {
			return nil, nil, fmt.Errorf("unknown part %q of the sheets (choose from %s)", name, strings.Join(names, ", "))
		}
	}
	for _, p := range parts() {
		if !d.asked(p) {
			continue
		}
		if p.lacks == nil || p.lacks(d) == "" {
			list = append(list, p)
		} else if d.Only != nil || p.request {
			notes = append(notes, fmt.Sprintf("part %s skipped: %s", p.name, p.lacks(d)))
		}
	}
	if len(list) == 0 {
		return nil, nil, fmt.Errorf("nothing to print: %s", strings.Join(notes, "; "))
	}
	return list, notes, nil
}

// ownTexts are the person's own texts.
func (d *drawer) ownTexts() []string {
	own := []string{d.plan.Title}
	for _, g := range d.plan.Glazes {
		own = append(own, g.Name)
		for _, p := range slices.Concat(g.Recipe, g.Additions) {
			own = append(own, p.Material)
		}
	}
	for _, s := range d.plan.Blend.Series {
		own = append(own, s.Material, s.Name)
	}
	return slices.Concat(own, d.plan.Tiles.Bodies, d.plan.Log.Numbers)
}
