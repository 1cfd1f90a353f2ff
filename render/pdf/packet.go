package pdf

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/wording"
)

// Packet is everything that goes on paper for one test.
type Packet struct {
	Test   *blend.Test
	Places *layout.Places
	Advice blend.Advice
	Notes  []wording.Line // of the plan and of the test, for the summary

	Only       []string // names of the sections wanted; nil: all that the plan calls for
	MeasuredMM float64  // what the printed 100 mm bar measured, 0 for 100
	Free       []int    // places that are free on the first sheet of labels, nil for all
	Tried      string   // what was asked for otherwise than the plan's file says, for the head of every section
}

// A section is a run of pages that can be handed out alone.
type section struct {
	name  string // as it is asked for
	title string // as it is printed
	calls func(t *blend.Test) bool
	lacks string // what a plan lacks that does not call for it
	draw  func(s *sheets)
}

// sections are those of a packet in the order in which they are worked by.
func sections() []section {
	always := func(*blend.Test) bool { return true }
	return []section{
		{"summary", "Summary", always, "", (*sheets).summary},
		{"tickets", "Batch tickets", always, "", (*sheets).tickets},
		{"stock", "Stock suspensions", hasStocks, "no colourant is poured from a stock suspension", (*sheets).stock},
		{"pour", "Pour sheet", always, "", (*sheets).pour},
		{"dose", "Dose sheet", (*blend.Test).Dosed, "nothing is dosed into the cups", (*sheets).dose},
		{"mat", "Cup mat", hasMat, "the cup has no diameter", (*sheets).mat},
		{"labels", "Labels", hasLabels, "no label stock is described", (*sheets).labels},
		{"marks", "Mark list", always, "", (*sheets).marks},
		{"board", "Boards at life size", isLife, "the board's scale is \"fit\"", (*sheets).boards},
		{"map", "Board maps", always, "", (*sheets).maps},
		{"dip", "Dip sheet", always, "", (*sheets).dip},
		{"chemistry", "Chemistry", hasChemistry, "no cup holds only materials with an analysis", (*sheets).chemistry},
		{"log", "Log", always, "", (*sheets).log},
	}
}

func hasStocks(t *blend.Test) bool { return len(t.Stocks) > 0 }

func hasMat(t *blend.Test) bool    { return t.Plan.Cup.DiameterMM > 0 }
func hasLabels(t *blend.Test) bool { return t.Plan.Labels != nil }
func isLife(t *blend.Test) bool    { return t.Plan.Board.Scale != blend.Fit }

// Sections names the sections of a packet, in order.
func Sections() []string {
	var names []string
	for _, s := range sections() {
		names = append(names, s.name)
	}
	return names
}

// sheets draws one packet.
type sheets struct {
	Packet
	test    *blend.Test
	plan    *blend.Plan
	mats    []layout.Board  // of the cups
	cupRows []layout.CupRow // of each cell
	doc     *doc
	section section // being drawn
	wMM     float64 // of the sheets for the bench
	hMM     float64
	drawn   []wording.Line // notes of what was drawn
}

// Write draws the packet as a PDF file; nothing is written if anything is
// wrong. Warnings are about texts that cannot be printed as they are, about
// sections asked for that the plan does not call for, and about many pages.
func (p Packet) Write(w io.Writer) ([]wording.Line, error) {
	s, notes, err := p.draw()
	if err != nil {
		return nil, err
	}
	if err := s.doc.write(w); err != nil {
		return nil, err
	}
	return slices.Concat(notes, s.drawn, s.strange("packet"), s.doc.tellLength()), nil
}

// manyPages is how many a person may not expect to come out of the printer.
const manyPages = 50

// tellLength tells of a packet of many pages, and where most of them are.
func (d *doc) tellLength() []wording.Line {
	if len(d.pages) <= manyPages {
		return nil
	}
	count := map[string]int{}
	longest := ""
	for _, p := range d.pages {
		count[p.section]++
		if count[p.section] > count[longest] {
			longest = p.section
		}
	}
	return []wording.Line{{
		Place: "packet",
		What:  fmt.Sprintf("has %d pages, %d of them of %q", len(d.pages), count[longest], longest),
		Fix:   "print the pages that are needed, or make parts of it with --only",
	}}
}

// draw is Write without the writing.
func (p Packet) draw() (*sheets, []wording.Line, error) {
	plan := p.Test.Plan
	wanted, notes, err := p.wanted()
	if err != nil {
		return nil, nil, err
	}
	d, err := newDoc(plan.Title, wording.Summary(p.Test))
	if err != nil {
		return nil, nil, err
	}
	if p.MeasuredMM != 0 {
		if err := d.correctScale(p.MeasuredMM); err != nil {
			return nil, nil, err
		}
	}
	s := &sheets{Packet: p, test: p.Test, plan: plan, mats: layout.Mat(p.Test), doc: d}
	s.cupRows = layout.CupRows(p.Test, s.mats)
	s.wMM, s.hMM = benchPaper(plan.Board)
	for _, s.section = range wanted {
		s.section.draw(s)
	}
	return s, notes, nil
}

// Drawn names the sections that are drawn: of those asked for, in the order in
// which they are asked for, the ones that the plan calls for. The error says why
// there are none.
func (p Packet) Drawn() ([]string, error) {
	list, _, err := p.wanted()
	if err != nil {
		return nil, err
	}
	var names []string
	for _, s := range list {
		names = append(names, s.name)
	}
	slices.SortStableFunc(names, func(a, b string) int {
		return cmp.Compare(slices.Index(p.Only, a), slices.Index(p.Only, b))
	})
	return names, nil
}

// wanted are the sections to draw.
func (p Packet) wanted() (list []section, notes []wording.Line, err error) {
	names := Sections()
	for _, name := range p.Only {
		if !slices.Contains(names, name) {
			return nil, nil, fmt.Errorf("the packet has no section %q; it has %s", name, strings.Join(names, ", "))
		}
	}
	for _, s := range sections() {
		switch {
		case p.Only != nil && !slices.Contains(p.Only, s.name):
		case s.calls(p.Test):
			list = append(list, s)
		case p.Only != nil:
			notes = append(notes, wording.Line{Place: "section " + s.name, What: "left out", Why: s.lacks})
		}
	}
	if len(list) == 0 {
		var why []string
		for _, n := range notes {
			why = append(why, n.Place+": "+n.Why)
		}
		return nil, nil, fmt.Errorf("there is nothing to print: %s", strings.Join(why, "; "))
	}
	return list, notes, nil
}

// benchPaper is the paper of the sheets that are read in the hand: the plan's
// own from A5 to Legal, otherwise the common size of its kind.
func benchPaper(b blend.Board) (wMM, hMM float64) {
	short, long := min(b.PaperW, b.PaperH), max(b.PaperW, b.PaperH)
	switch {
	case short >= 148 && short <= 216 && long >= 200 && long <= 356:
		return b.PaperW, b.PaperH
	case b.Paper == "Tabloid":
		return 215.9, 279.4
	}
	return 210, 297
}

// begin starts the section that is being drawn, on a page of its own with what
// it needs to be used without the others: which test it is about, and what to
// have at hand.
func (s *sheets) begin(needs string) *flow {
	f := s.doc.startSection(s.section.title, s.wMM, s.hMM)
	s.about(f, needs)
	return f
}

// again goes on with the section on a page that can be handed out alone too.
func (s *sheets) again(f *flow, needs string) {
	f.freshPage()
	f.heading(s.section.title)
	s.about(f, needs)
}

func (s *sheets) about(f *flow, needs string) {
	f.lines(s.plan.Title, bold(benchPt), left, 4*bold(benchPt).lineMM())
	f.para(s.aboutTest(), regular(benchPt))
	if s.Tried != "" {
		f.para(sentence(s.Tried), bold(benchPt))
	}
	if needs != "" {
		f.para("You need: "+needs+".", regular(benchPt))
	}
	f.page.line(f.left(), f.y, f.right(), f.y, medium)
	f.space(2)
}

// numbered is the heading of one of several parts, index from 0.
func numbered(what string, index, of int, name string) string {
	if of == 1 {
		return what + ": " + name
	}
	return fmt.Sprintf("%s %d of %d: %s", what, index+1, of, name)
}

// aboutTest is the test in a line.
func (s *sheets) aboutTest() string {
	text := wording.Summary(s.test)
	if s.plan.Mark != "" {
		text += "; marks begin with " + s.plan.Mark
	}
	return text + "."
}
