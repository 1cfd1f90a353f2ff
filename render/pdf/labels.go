package pdf

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/wording"
)

// Labels are read at the length of an arm, their small print from near by.
const (
	labelPadMM   = 2.5  // free inside a label: stock lies askew in a printer
	labelEdgeMM  = 5.0  // free along the edges of a sheet at least, where printers print nothing
	labelMostOff = 0.25 // of a label that begins nearer to an edge than edgeMM, what it may lose to that
	labelTextPt  = 11.0
	labelEasyPt  = 8.0 // as long as it takes no less, each part has a line of its own
	labelLeastPt = 6.0
)

// labels are the stickers for cups and for bags of what is left, on the stock
// that the plan describes.
func (s *sheets) labels() {
	stock := s.plan.Labels
	places := layout.Labels(stock, len(s.test.Cells), s.Free)
	pages := map[int]*page{}
	numberPt := s.labelNumberPt(places)
	title := s.plan.Title
	if s.plan.Mark != "" {
		title = s.plan.Mark + ": " + title
	}
	lettered := false                      // there are letters for names on them
	titles := map[layout.Rect]labelTitle{} // by the size of what is printed on
	for _, l := range places {
		p := pages[l.Sheet]
		if p == nil {
			p = s.doc.addLifePage(s.section.title, stock.SheetW, stock.SheetH)
			p.bare = true // nothing but labels: the stock is used to its edges
			if len(pages) == 0 {
				s.doc.bookmark(0, s.section.title)
			}
			pages[l.Sheet] = p
		}
		in := labelInside(l.Rect, p)
		size := layout.Rect{W: in.W, H: in.H}
		head, ok := titles[size]
		if !ok {
			head = s.doc.labelTitle(title, in)
			titles[size] = head
		}
		if s.label(p, in, s.test.Cells[l.Cell-1], numberPt, head) {
			lettered = true
		}
	}
	if lettered || len(s.doc.long.fresh) > 0 {
		f := &flow{doc: s.doc, section: s.section.title, wMM: s.wMM, hMM: s.hMM}
		f.nextPage()
		if lettered {
			key := s.shareKey()
			if s.strays() {
				key += madeKey
			}
			f.para("On the labels: "+key+".", regular(benchPt))
		}
		f.longTexts()
	}
}

// labelInside is the part of a label that is printed on: clear of the edges of
// the sheet by edgeMM, as all of the packet, or by less where that would take
// too much of the label.
func labelInside(r layout.Rect, p *page) layout.Rect {
	pad := min(labelPadMM, r.W/8, r.H/8)
	along := func(from, length, sheet float64) (at, size float64) {
		inside := func(edge float64) (at, size float64) {
			at = max(from+pad, edge)
			return at, min(from+length-pad, sheet-edge) - at
		}
		at, size = inside(labelEdgeMM)
		if x, less := inside(edgeMM); less >= (1-labelMostOff)*size {
			return x, less
		}
		return at, size
	}
	var in layout.Rect
	in.X, in.W = along(r.X, r.W, p.wMM)
	in.Y, in.H = along(r.Y, r.H, p.hMM)
	return in
}

// numberPart is how much of a label's width the cup's number takes.
const numberPart = 0.3

// labelNumberPt is the size in which every cup's number fits its label.
func (s *sheets) labelNumberPt(places []layout.Label) float64 {
	widest := s.doc.width(strings.Repeat("0", len(fmt.Sprint(len(s.test.Cells)))), bold(1))
	pt := 60.0
	for _, l := range places {
		in := labelInside(l.Rect, &page{wMM: s.plan.Labels.SheetW, hMM: s.plan.Labels.SheetH})
		pt = min(pt, in.W*numberPart*0.92/widest, in.H*0.7/((ascentEm+descentEm)*mmPerPt))
	}
	return pt
}

// A labelTitle is the name of the test as a label has it, in small print.
type labelTitle struct {
	small font
	lines []string // bold
}

// numberGapMM is between the number and what stands beside it.
const numberGapMM = 1.5

// labelTitle sets the name of the test for labels printed on inside r. It goes
// over two lines, or over one on a low label, and is cut short where it takes
// more: labels at the edges of a sheet are narrower, and are not to go without.
// A small label has no room for all: first goes the title, then the date.
func (d *doc) labelTitle(title string, r layout.Rect) labelTitle {
	t := labelTitle{small: regular(max(labelLeastPt, min(8, r.H/8/mmPerPt)))}
	lines := int(r.H/t.small.lineMM() + 1e-9)
	if lines < 4 {
		return t
	}
	most := 1
	if lines >= 8 {
		most = 2
	}
	strong, w := bold(t.small.pt), r.W*(1-numberPart)-numberGapMM
	t.lines = d.wrap(title, strong, w)
	if len(t.lines) > most {
		rest := strings.Join(t.lines[most-1:], " ")
		t.lines = append(t.lines[:most-1:most-1], d.shorten(rest, strong, w))
	}
	return t
}

// label draws one label inside r: the number large, and beside it the test,
// what is in the cup, and a line for the date. It says whether the names of what
// is in the cup had to give way to letters.
func (s *sheets) label(p *page, r layout.Rect, c blend.Cell, numberPt float64, title labelTitle) (lettered bool) {
	number := bold(numberPt)
	numberMM := r.W * numberPart
	p.text(r.X+numberMM/2, r.Y+r.H/2+0.36*number.pt*mmPerPt, fmt.Sprint(c.Number), number, centre)

	x, w := r.X+numberMM+numberGapMM, r.W-numberMM-numberGapMM
	small := title.small
	line := small.lineMM()
	top, bottom := r.Y, r.Bottom()
	for _, text := range title.lines {
		p.text(x, top+small.ascentMM(), text, bold(small.pt), left)
		top += line
	}
	if title.lines != nil {
		top += line / 4
	}
	if r.H >= 3*line {
		base := bottom - small.descentMM()
		p.text(x, base, "date", small, left)
		p.line(x+s.doc.width("date", small)+1, base+0.4, x+w, base+0.4, thin)
		bottom -= line + 1.2 // clear of what is written by hand
	}
	f := regular(labelTextPt)
	parts := s.contents(c)
	text := strings.Join(parts, "\n")
	if !s.doc.fits(text, w, bottom-top, f, labelEasyPt) {
		text = strings.Join(parts, ", ")
	}
	if !s.doc.fits(text, w, bottom-top, f, labelLeastPt) {
		brief := s.sharesBriefly(c)
		for i := range brief {
			brief[i] = strings.ReplaceAll(brief[i], " ", "\u00A0") // held together on one line
		}
		if short := strings.Join(brief, " "); s.doc.fits(short, w, bottom-top, f, labelLeastPt) {
			text, lettered = short, true
		}
	}
	p.textIn(x, top, w, bottom-top, text, f, labelLeastPt, left)
	return lettered
}

// contents says what a cup holds, by name: "Magnesia matte 50 %", "Soda blue 50 %".
func (s *sheets) contents(c blend.Cell) []string {
	const held = "\u00A0%" // the sign stays with its number
	var parts []string
	if s.plan.Blend.HasSeries() {
		parts = append(parts, s.plan.Glazes[s.plan.Blend.Base].Name)
		for i, d := range c.Doses {
			if d.Percent > 0 {
				parts = append(parts, "+ "+s.plan.Blend.Series[i].Material+" "+strings.ReplaceAll(wording.DoseSaid(d), " %", held))
			}
		}
		return parts
	}
	for i, share := range c.Shares {
		if share > 0 {
			parts = append(parts, s.test.Ends[i].Name+" "+strings.ReplaceAll(wording.ShareSaid(c, i), " %", held))
		}
	}
	return parts
}
