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
	bodies := s.plan.Tiles.Bodies
	for body, name := range bodies {
		var tiles []layout.Placed
		for _, t := range s.Places.Tiles {
			if t.Body == body {
				tiles = append(tiles, t)
			}
		}
		if len(tiles) == 0 {
			continue
		}
		s.markList(f, name, tiles)
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
	if repeats > 1 {
		f.para("Letters behind the number, for the first, the second and further tiles of each body:", bold(benchPt))
	} else {
		f.para("Letters behind the number, by body:", bold(benchPt))
	}
	f.facts(list)
}

// markList is the marks of one body.
func (s *sheets) markList(f *flow, body string, tiles []layout.Placed) {
	scheme := s.Places.Scheme
	const gap = 4.0
	var ft font
	var above, under, tick float64
	for pt := 18.0; pt >= benchPt; pt-- {
		ft, above, under = bold(pt), 0, 0
		for _, t := range tiles {
			above = max(above, s.doc.width(t.Mark, ft))
			under = max(under, s.doc.width(t.Under, ft))
		}
		tick = tickSide(ft)
		if tick+above+under+2*gap <= f.width() {
			break
		}
	}
	small := regular(benchPt)
	above = max(above, s.doc.width("above", small))
	under = max(under, s.doc.width("underneath", small))
	row := ft.lineMM() * 1.25
	title := fmt.Sprintf("%s: %s, %s", body, counted(len(tiles), "tile", "tiles"), tiles[0].Mark)
	if len(tiles) > 1 {
		title += " to " + tiles[len(tiles)-1].Mark
	}
	wMM, headMM := tick+above+under+2*gap, small.lineMM()+1
	f.startListing(title, len(tiles), row)
	// Closer rows, if that saves a page.
	if closer := ft.lineMM() * 1.05; f.pagesOf(len(tiles), wMM, closer, headMM) < f.pagesOf(len(tiles), wMM, row, headMM) {
		row = closer
	}
	if len(s.plan.Tiles.Bodies) > 1 {
		s.doc.bookmark(1, body)
	}
	f.listing(listing{
		count: len(tiles), wMM: wMM, hMM: row, headMM: headMM,
		head: func(p *page, x, y float64) {
			p.text(x+tick+gap, y+small.ascentMM(), "above", small, left)
			p.text(x+tick+above+2*gap, y+small.ascentMM(), "underneath", small, left)
		},
		entry: func(p *page, x, y float64, i int, _ bool) {
			t := tiles[i]
			base := y + row*0.5 + 0.36*ft.pt*mmPerPt
			p.checkbox(x, y+(row-tick)/2, tick)
			p.mark(x+tick+gap, base, t.Mark, scheme.Underlined(t.Mark), ft, left)
			p.mark(x+tick+above+2*gap, base, t.Under, scheme.Underlined(t.Under), ft, left)
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
