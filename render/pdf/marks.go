package pdf

import (
	"fmt"
	"strings"

	"pourboard/layout"
)

// mark draws a mark with its baseline at y, and a line under each sign that is
// to be underlined on the tile: a line of its own, so that it is painted too.
func (p *page) mark(x, y float64, mark string, underlined []bool, f font, a align) {
	width := p.doc.width(mark, f)
	x -= [...]float64{left: 0, centre: width / 2, right: width}[a]
	p.text(x, y, mark, f, left)
	em := f.pt * mmPerPt
	with := pen{mm: 0.08 * em}
	for i := range mark {
		if i < len(underlined) && underlined[i] {
			from := x + p.doc.width(mark[:i], f)
			to := x + p.doc.width(mark[:i+1], f)
			p.line(from+0.07*em, y+0.15*em, to-0.07*em, y+0.15*em, with)
		}
	}
}

// spelled is a mark for reading aloud, its digits in words, so that it cannot
// be taken for another by whoever holds the sheet upside down.
func spelled(mark string) string {
	digits := [...]string{"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"}
	var words []string
	for _, r := range mark {
		if r >= '0' && r <= '9' {
			words = append(words, digits[r-'0'])
		} else {
			words = append(words, string(r))
		}
	}
	return strings.Join(words, " ")
}

// marks is the list to paint tiles from, body by body.
func (s *sheets) marks() {
	f := s.begin("a brush, an oxide wash and an underglaze that stands the firing")
	scheme := s.Places.Scheme
	f.para("Marks are "+scheme.Form()+". Paint the mark above, where no glaze goes, and underneath the same with one sign more, in oxide wash. "+
		"Paint the lines that stand under signs here: they say which way up the mark is read.", regular(benchPt))
	f.para("The sign more is a check sign, worked out from the others: any one sign that is misread or lost in the firing is noticed by it. "+
		"With the tile's body and its place on the board, the lost sign can then be put right.", regular(benchPt))

	s.bodyKey(f)
	var lists []markList
	for body, name := range s.plan.Tiles.Bodies {
		var tiles []layout.Placed
		for _, t := range s.Places.Tiles {
			if t.Body == body {
				tiles = append(tiles, t)
			}
		}
		if len(tiles) > 0 {
			lists = append(lists, s.newMarkList(f, name, tiles))
		}
	}
	// Closer rows, if that saves a page.
	const wide, close = 1.25, 1.05
	lines := wide
	if markPages(*f, lists, close) < markPages(*f, lists, wide) {
		lines = close
	}
	for _, l := range lists {
		s.markList(f, l, lines)
	}
	f.longTexts()
}

// mostInLine are the most copies of a cell whose letters stand in one line.
const mostInLine = 9

// bodyKey says which letter of a mark is which body and repeat. Where a cell has
// one tile alone there is no letter.
func (s *sheets) bodyKey(f *flow) {
	scheme, tiles := s.Places.Scheme, s.plan.Tiles
	repeats := max(1, tiles.Repeats)
	if repeats*len(tiles.Bodies) == 1 {
		return
	}
	letters := func(body, repeat int) string {
		digits := len(s.plan.Mark) + 1 // of cell 1
		return scheme.Tile(scheme.IndexOf(1, body, repeat)).Mark[digits:]
	}
	var line []string
	var list []fact
	for body, name := range tiles.Bodies {
		var all []string
		for repeat := range repeats {
			of := name
			if repeats > 1 {
				of += fmt.Sprint(" no. ", repeat+1)
			}
			all = append(all, letters(body, repeat))
			line = append(line, letters(body, repeat)+"\u00A0"+strings.ReplaceAll(of, " ", "\u00A0"))
		}
		list = append(list, fact{name, strings.Join(all, " ")})
	}
	if len(line) <= mostInLine {
		f.para("Letters behind the number: "+strings.Join(line, ", ")+".", bold(benchPt))
		return
	}
	f.need(min(f.whole(), float64(len(list)+2)*(regular(benchPt).lineMM()+1))) // in one piece
	if repeats > 1 {
		f.para("Letters behind the number, for the first, the second and further tiles of each body:", bold(benchPt))
	} else {
		f.para("Letters behind the number, by body:", bold(benchPt))
	}
	f.facts(list)
}

// A markList is the marks of one body.
type markList struct {
	body, title        string
	tiles              []layout.Placed
	ft                 font
	tick, above, under float64 // widths, mm
}

const markGapMM = 4.0

func (l markList) wMM() float64    { return l.tick + l.above + l.under + 2*markGapMM }
func (l markList) headMM() float64 { return regular(benchPt).lineMM() + 1 }

// newMarkList measures the marks of one body.
func (s *sheets) newMarkList(f *flow, body string, tiles []layout.Placed) markList {
	l := markList{body: body, tiles: tiles}
	for pt := 18.0; pt >= benchPt; pt-- {
		l.ft, l.above, l.under = bold(pt), 0, 0
		for _, t := range tiles {
			l.above = max(l.above, s.doc.width(t.Mark, l.ft))
			l.under = max(l.under, s.doc.width(t.Under, l.ft))
		}
		l.tick = tickSide(l.ft)
		if l.wMM() <= f.width() {
			break
		}
	}
	small := regular(benchPt)
	l.above = max(l.above, s.doc.width("above", small))
	l.under = max(l.under, s.doc.width("underneath", small))
	l.title = fmt.Sprintf("%s: %s, %s", body, counted(len(tiles), "tile", "tiles"), tiles[0].Mark)
	if len(tiles) > 1 {
		l.title += " to " + tiles[len(tiles)-1].Mark
	}
	return l
}

// markPages is how many more pages lists take with rows of so many lines.
func markPages(f flow, lists []markList, lines float64) int {
	pages := 0
	for _, l := range lists {
		row := l.ft.lineMM() * lines
		if f.y += f.listingTitleMM(l.title); f.room() < l.headMM()+f.firstMM(len(l.tiles), l.wMM(), row) {
			pages++
			f.y = marginMM + headLineMM + f.listingTitleMM(l.title)
		}
		more, bottom := f.pagesOf(len(l.tiles), l.wMM(), row, l.headMM())
		pages += more
		f.y = bottom + 2
	}
	return pages
}

// markList sets a list with rows of so many lines.
func (s *sheets) markList(f *flow, l markList, lines float64) {
	scheme, ft, small := s.Places.Scheme, l.ft, regular(benchPt)
	row := ft.lineMM() * lines
	f.startListing(l.title, len(l.tiles), l.wMM(), row, l.headMM())
	if len(s.plan.Tiles.Bodies) > 1 {
		s.doc.bookmark(1, l.body)
	}
	above, under := l.tick+markGapMM, l.tick+l.above+2*markGapMM
	f.listing(listing{
		count: len(l.tiles), wMM: l.wMM(), hMM: row, headMM: l.headMM(),
		head: func(p *page, x, y float64) {
			p.text(x+above, y+small.ascentMM(), "above", small, left)
			p.text(x+under, y+small.ascentMM(), "underneath", small, left)
		},
		entry: func(p *page, x, y float64, i int, _ bool) {
			t := l.tiles[i]
			base := y + row*0.5 + 0.36*ft.pt*mmPerPt
			p.checkbox(x, y+(row-l.tick)/2, l.tick)
			p.mark(x+above, base, t.Mark, scheme.Underlined(t.Mark), ft, left)
			p.mark(x+under, base, t.Under, scheme.Underlined(t.Under), ft, left)
		},
		rule: func(i int) bool { return i%10 == 0 },
	})
}

// counted is a number of things in words: "1 tile", "28 tiles".
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprint(n, " ", many)
}
