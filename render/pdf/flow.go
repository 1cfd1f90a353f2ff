package pdf

import (
	"fmt"

	"pourboard/layout"
)

// The margins of sheets of text. Printers cannot print nearer to an edge than
// a few millimetres; nothing of the packet lies within 10 mm of one.
const (
	edgeMM   = 10.0
	marginMM = 12.0
	// footerMM is the strip along the lower edge that the footer needs: its
	// line, which ends edgeMM above the edge, and some air.
	footerMM = edgeMM + 7
	// headLineMM is the height of the line at the top of further pages.
	headLineMM = 6.0
)

// A flow sets text and tables down a page, and on to the next when it is full.
type flow struct {
	doc      *doc
	page     *page
	section  string
	y        float64 // top of what comes next, mm
	top      float64 // of the page, below its head line, mm
	wMM, hMM float64 // of its pages
	lead     lead    // the last heading, as long as nothing stands under it
}

// A lead is a heading that goes to the next page with what comes under it.
type lead struct {
	page     *page
	lines    []string
	ops      int     // drawn on the page before it
	marks    int     // bookmarks before it
	top, end float64 // from y to y
}

// startSection begins a section of the packet on a page of its own, with its
// name as a heading and as a bookmark.
func (d *doc) startSection(name string, wMM, hMM float64) *flow {
	f := &flow{doc: d, section: name, wMM: wMM, hMM: hMM}
	f.freshPage()
	d.bookmark(0, name)
	f.heading(name)
	return f
}

// freshPage goes on at the top of a new page without a head.
func (f *flow) freshPage() {
	f.page = f.doc.addPage(f.section, f.wMM, f.hMM)
	f.y, f.top = marginMM, marginMM
}

// nextPage goes on at the top of a new page, under a line that says what goes
// on there.
func (f *flow) nextPage() {
	f.freshPage()
	d, ft := f.doc, regular(footerPt)
	const on = ", further on"
	text := d.shorten(f.section, bold(footerPt), f.width()/2-d.width(on, bold(footerPt))) + on
	base := f.y + ft.ascentMM()
	f.page.text(f.left(), base, text, bold(footerPt), left)
	f.page.text(f.right(), base, d.shorten(d.title, ft, f.width()-d.width(text, bold(footerPt))-4), ft, right)
	f.page.line(f.left(), f.y+ft.lineMM(), f.right(), f.y+ft.lineMM(), faint)
	f.y += headLineMM
	f.top = f.y
}

// left, right and width are those of the page between its margins, in mm.
func (f *flow) left() float64  { return marginMM }
func (f *flow) right() float64 { return f.wMM - marginMM }
func (f *flow) width() float64 { return f.wMM - 2*marginMM }

// bottom is the lowest y that may be drawn on, in mm.
func (f *flow) bottom() float64 { return f.hMM - footerMM }

// whole is the height of a further page, in mm.
func (f *flow) whole() float64 { return f.bottom() - marginMM - headLineMM }

// room is the height left on the page, in mm.
func (f *flow) room() float64 { return f.bottom() - f.y }

// need goes to the next page unless hMM are left on this one, and takes a
// heading with it that has nothing under it. It says whether it did.
func (f *flow) need(hMM float64) bool {
	if f.room() >= hMM || f.y == f.top {
		return false
	}
	head := f.lead
	if head.page != f.page || head.end != f.y || head.top == f.top {
		f.nextPage()
		return true
	}
	f.page.ops = f.page.ops[:head.ops]
	f.nextPage()
	for i := range f.doc.marks[head.marks:] {
		f.doc.marks[head.marks+i].page = len(f.doc.pages) - 1
	}
	f.subhead(head.lines)
	return true
}

// space leaves hMM free; at the top of a page it does nothing.
func (f *flow) space(hMM float64) {
	if f.y > f.top {
		f.y += hMM
	}
}

// heading sets the name of a section.
func (f *flow) heading(text string) {
	f.lines(text, bold(headingPt), left, 2*bold(headingPt).lineMM())
	f.space(2)
}

// subheading sets the name of a part, and keeps it with what follows.
func (f *flow) subheading(text string) {
	f.space(3)
	f.need(3 * bold(13).lineMM())
	f.subhead(f.doc.wrap(text, bold(13), f.width()))
}

// subhead sets a subheading that is broken into lines already.
func (f *flow) subhead(lines []string) {
	head := lead{page: f.page, lines: lines, ops: len(f.page.ops), marks: len(f.doc.marks), top: f.y}
	f.wrapped(lines, bold(13), left, 0)
	f.space(1)
	head.end = f.y
	f.lead = head
}

// para sets a paragraph. A short one stays on one page.
func (f *flow) para(text string, ft font) {
	const short = 4 // lines
	lines := f.doc.wrap(text, ft, f.width())
	f.wrapped(lines, ft, left, float64(min(short, len(lines)))*ft.lineMM())
	f.space(1.5)
}

// items sets paragraphs, each behind a mark such as a dash, a number, or, with
// an empty mark, a box to tick. A short one stays on one page, the first with
// the second and the last with the one before it.
func (f *flow) items(mark string, texts []string, ft font) {
	const short = 4 // lines
	indent := f.indentMM(mark, ft)
	all := make([][]string, len(texts))
	for i, text := range texts {
		all[i] = f.doc.wrap(text, ft, f.width()-indent)
	}
	// keep is the height of what is not to be broken of an item.
	keep := func(i int) float64 {
		n := len(all[i])
		if n > short {
			n = 2
		}
		return float64(n)*ft.lineMM() + itemGapMM
	}
	for i, lines := range all {
		with := keep(i)
		if n := len(all); n > 1 && (i == 0 || i == n-2) && len(lines) <= short {
			with += keep(i + 1)
		}
		f.need(with - itemGapMM)
		for k, line := range lines {
			if rest := len(lines) - k; len(lines) > short && rest == 2 {
				f.need(2 * ft.lineMM())
			} else if k > 0 {
				f.need(ft.lineMM())
			}
			base := f.y + ft.ascentMM()
			switch {
			case k > 0:
			case mark != "":
				f.page.text(f.left(), base, mark, ft, left)
			default:
				side := ft.pt * 0.85 * mmPerPt
				f.page.checkbox(f.left(), base-side, side)
			}
			f.page.text(f.left()+indent, base, line, ft, left)
			f.y += ft.lineMM()
		}
		f.space(itemGapMM)
	}
}

// itemGapMM is between items.
const itemGapMM = 1.0

// indentMM is how far the texts of items stand in.
func (f *flow) indentMM(mark string, ft font) float64 {
	if mark == "" {
		return ft.pt * 1.6 * mmPerPt
	}
	return f.doc.width(mark, ft) + ft.pt*0.6*mmPerPt
}

// itemsMM is the height of items.
func (f *flow) itemsMM(mark string, texts []string, ft font) float64 {
	high, indent := 0.0, f.indentMM(mark, ft)
	for _, text := range texts {
		high += float64(len(f.doc.wrap(text, ft, f.width()-indent)))*ft.lineMM() + itemGapMM
	}
	return high
}

// lines sets a text line by line; its first line starts only where keepMM are
// left on the page.
func (f *flow) lines(text string, ft font, a align, keepMM float64) {
	f.wrapped(f.doc.wrap(text, ft, f.width()), ft, a, keepMM)
}

// wrapped is lines for a text that is broken into them already.
func (f *flow) wrapped(lines []string, ft font, a align, keepMM float64) {
	x := [...]float64{left: f.left(), centre: (f.left() + f.right()) / 2, right: f.right()}[a]
	for i, line := range lines {
		if i == 0 {
			f.need(keepMM)
		} else {
			f.need(ft.lineMM())
		}
		f.page.text(x, f.y+ft.ascentMM(), line, ft, a)
		f.y += ft.lineMM()
	}
}

// longTexts prints in full the texts that did not fit since it was last
// called. Every section ends with it.
func (f *flow) longTexts() {
	numbers := f.doc.long.fresh
	if len(numbers) == 0 {
		return
	}
	f.doc.long.fresh = nil
	f.subheading("Texts in full")
	for _, n := range numbers {
		f.items(label(n), []string{f.doc.long.all[n-1]}, regular(benchPt))
	}
}

// footers draws the footer of every page: title, section, and the page's
// number within its section and within the packet. A section is a run of pages
// of one name.
func (d *doc) footers() {
	for first := 0; first < len(d.pages); {
		end := first
		for end < len(d.pages) && d.pages[end].section == d.pages[first].section {
			end++
		}
		for i := first; i < end; i++ {
			if p := d.pages[i]; !p.bare {
				p.footer(i-first+1, end-first, i+1, len(d.pages))
			}
		}
		first = end
	}
}

func (p *page) footer(inSection, ofSection, inPacket, ofPacket int) {
	f := regular(footerPt)
	in := p.foot
	if in == (layout.Rect{}) {
		in = layout.Rect{X: marginMM, Y: p.hMM - footerMM, W: p.wMM - 2*marginMM, H: footerMM - edgeMM}
	}
	base := in.Bottom() - f.descentMM() - 0.2
	where := fmt.Sprintf("%s %d of %d", p.section, inSection, ofSection)
	number := fmt.Sprintf("page %d of %d", inPacket, ofPacket)
	if p.doc.note != "" {
		number = p.doc.note + " · " + number
	}
	const gap = 4.0
	h := f.ascentMM() + f.descentMM()
	p.line(in.X, base-h-0.6, in.Right(), base-h-0.6, faint)
	if p.toYou {
		took := p.towardsYou(in.X, base) + gap
		in.X, in.W = in.X+took, in.W-took
	}
	room := in.W
	numberMM := min(p.doc.width(number, f), room)
	whereMM := min(p.doc.width(where, f), (room-numberMM-2*gap)*0.6)
	titleMM := room - numberMM - whereMM - 2*gap
	one := func(x, w float64, text string, a align) {
		x += [...]float64{left: 0, centre: w / 2, right: w}[a]
		if text = p.doc.shorten(text, f, w); text != cut { // on narrow paper
			p.text(x, base, text, f, a)
		}
	}
	one(in.X, titleMM, p.doc.title, left)
	one(in.X+titleMM+gap, whereMM, where, centre)
	one(in.Right()-numberMM, numberMM, number, right)
}

// towardsYou names the edge of a page that lies towards the reader, between two
// arrows from x on, and gives the width that it takes.
func (p *page) towardsYou(x, base float64) float64 {
	const text, head, gap = "this edge to you", 2.2, 1.0
	f := bold(footerPt)
	textMM := p.doc.width(text, f)
	for _, at := range []float64{x, x + head + gap + textMM + gap} {
		p.fill([]point{{at, base - head}, {at + head, base - head}, {at + head/2, base}}, 0)
	}
	p.text(x+head+gap, base, text, f, left)
	return textMM + 2*(head+gap)
}

// cut stands at the end of a text that was cut short.
const cut = "…"

// shorten cuts a text that is named in full elsewhere, such as the title in a
// footer, to a width in mm, and shows the cut.
func (d *doc) shorten(text string, f font, wMM float64) string {
	text = d.clean(text)
	if d.faces.widthMM(text, f) <= wMM+1e-9 {
		return text
	}
	room, end := wMM-d.faces.widthMM(cut, f), 0
	for i, r := range text {
		room -= d.faces.widthMM(string(r), f)
		if room < 0 {
			break
		}
		end = i + len(string(r))
	}
	return text[:end] + cut
}
