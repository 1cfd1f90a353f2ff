package pdf

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/paper"
	"pourboard/layout"
	"pourboard/render/wording"
)

// Texts of a map are never smaller than mapLeastPt.
const (
	mapMostPt  = 14.0
	mapLeastPt = 8.0
	mapPadMM   = 0.7 // between the frame of a place and its text
	headAirEm  = 0.3 // of a line, for the lines under a mark

	// leastHeadMM is the least room above a row for its name, of mapLeastPt.
	leastHeadMM = (ascentEm + descentEm) * mapLeastPt * mmPerPt
)

// maps are the boards small, each on one page, with what is in every place. A
// board of so many places that one page is too small has several, and a list of
// what the cups hold where that does not go into the places.
func (s *sheets) maps() {
	plan := s.mapPlan()
	s.drawn = append(s.drawn, s.tellMaps(plan.maps)...)
	letters := s.bothKey()
	if plan.briefly {
		letters += madeKey
	}
	key := letters + ". Not to scale"
	if !plan.full {
		key = "Not to scale; the list after the maps says what the cups hold"
	}
	first, told := true, true // told: what the letters stand for, in every head
	var p *page
	var below float64 // lowest y that is drawn on
	for _, m := range plan.maps {
		m.spread = s.spread(m.board, m.pages)
		for i := range m.pages {
			from := &m.pages[i]
			if small, pt, ok := m.small(); ok && len(plan.maps) > 1 {
				from, m.pt, m.pages = &small, pt, []layout.Page{small}
			}
			if moved, ok := under(p, below, from); ok && len(m.pages) == 1 {
				from = &moved
				p.line(from.Header.X, below+mapGapMM/2, from.Header.Right(), below+mapGapMM/2, medium)
				m.pages = []layout.Page{moved}
			} else {
				p = s.doc.addPage(s.section.title, from.PaperW, from.PaperH)
			}
			below = from.RectOnPaper(from.View).Bottom()
			if first {
				s.doc.bookmark(0, s.section.title)
			}
			if first = false; i == 0 && len(plan.maps) > 1 {
				s.doc.bookmark(1, m.board.Name)
			}
			heads := from.Heads
			if len(heads) > 0 && from.RectOnPaper(m.board.Heads[heads[0]].Rect).H < leastHeadMM {
				heads = nil
				told = s.boardHeader(p, &m.spread, i, "Rows from the top, by turns: "+strings.Join(s.plan.Tiles.Bodies, ", ")+". "+key, "last") && told
			} else {
				told = s.boardHeader(p, &m.spread, i, key, "last") && told
			}
			for _, k := range from.Spots {
				s.mapSpot(p, from.RectOnPaper(m.board.Spots[k].Whole()), m.board.Spots[k], m.pt, plan)
			}
			for _, k := range heads {
				head := m.board.Heads[k]
				r := from.RectOnPaper(head.Rect)
				p.textIn(r.X, r.Y, r.W, r.H, s.plan.Tiles.Bodies[head.Body], bold(benchPt), mapLeastPt, left)
			}
		}
	}
	if plan.full && told && len(s.doc.long.fresh) == 0 {
		return
	}
	f := &flow{doc: s.doc, section: s.section.title, wMM: s.wMM, hMM: s.hMM}
	switch {
	case !plan.full:
		f.nextPage()
		s.cupList(f)
	case !told:
		// Under the last map, if there is room.
		f.page, f.wMM, f.hMM, f.y = p, p.wMM, p.hMM, below+mapGapMM
		f.para("On the maps: "+letters+".", regular(benchPt))
	default:
		f.nextPage()
	}
	f.longTexts()
}

// mapGapMM is between small maps on one page.
const (
	mapGapMM = 8.0
	// Of several maps, those of which two go onto a page with such low places
	// have them.
	smallPlaceMM = 24.0
)

// under is the page of a small map moved down below what ends at y on page p,
// if there is a page turned like it and it has room there.
func under(p *page, y float64, from *layout.Page) (moved layout.Page, ok bool) {
	if p == nil || p.wMM != from.PaperW || p.hMM != from.PaperH {
		return moved, false
	}
	moved = *from
	down := y + mapGapMM - from.Header.Y
	moved.Header.Y += down
	moved.At.Y += down
	return moved, moved.RectOnPaper(moved.View).Bottom() <= from.Footer.Y
}

// A boardMap is the map of one board and the size of its texts.
type boardMap struct {
	spread
	pt    float64
	lines float64 // of text in each place
}

// small is the map's page with low places and the size of their texts, if two
// such go onto a page.
func (m boardMap) small() (page layout.Page, pt float64, ok bool) {
	page = m.pages[0]
	pt = min(m.pt, benchPt)
	least := (m.lines+headAirEm)*leadingEm*pt*mmPerPt + 2*mapPadMM
	page.ScaleY = min(page.ScaleY, max(smallPlaceMM, least+0.1)/m.board.Spots[0].Whole().H)
	high := page.RectOnPaper(page.View).Bottom() - page.Header.Y
	return page, pt, len(m.pages) == 1 && 2*high+mapGapMM <= page.Footer.Y-page.Header.Y
}

// A mapPlan is how all maps of a packet are drawn.
type mapPlan struct {
	maps  []boardMap
	full  bool // what the cups hold stands in the places
	split bool // the cup's number stands above the mark, not beside it

	texts   [][]amount // what the cups hold, by cell index
	briefly bool       // they say only what was made where it differs from what was asked
}

// mapPlan puts all into the places if that can be read on one page, or on as
// many as the marks alone would take.
func (s *sheets) mapPlan() mapPlan {
	sheet := layout.SheetOf(s.plan.Board)
	least := s.barePlan(s.Places, sheet)
	strays := s.strays()
	for _, briefly := range []bool{false, true} {
		if briefly && !strays {
			break
		}
		texts := s.bothOfAll(briefly)
		_, widest := s.widestMark()
		most := 0
		for _, list := range texts {
			most = max(most, len(list))
			for _, a := range list {
				widest = max(widest, s.doc.width(a.letter+" "+a.text, regular(1)))
			}
		}
		full := fitMaps(s.Places, sheet, 1+most, widest)
		ok := mapPages(full) <= mapPages(least.maps)
		for i := range full {
			// What was asked too is not worth small print.
			ok = ok && (!strays || briefly || full[i].pt >= deskPt)
		}
		if ok {
			return mapPlan{maps: full, full: true, texts: texts, briefly: briefly}
		}
	}
	return least
}

// barePlan is the maps with cups and marks alone: side by side, or, where that
// takes more pages, one above the other.
func (s *sheets) barePlan(places *layout.Places, sheet layout.Sheet) mapPlan {
	marks, heads := s.widestMark()
	beside, above := fitMaps(places, sheet, 1, heads), fitMaps(places, sheet, 2, marks)
	if mapPages(above) < mapPages(beside) {
		return mapPlan{maps: above, split: true}
	}
	return mapPlan{maps: beside}
}

// widestMark is the width of the widest mark in 1 pt, and that of the widest with
// its cup beside it.
func (s *sheets) widestMark() (mark, head float64) {
	for _, t := range s.Places.Tiles {
		w := s.doc.width(t.Mark, bold(1))
		mark = max(mark, w)
		head = max(head, w+s.doc.width(fmt.Sprint(t.Cell)+"  ", bold(1)))
	}
	return mark, head
}

// tellMaps tells of a map that takes more than a page, and which paper takes it
// on one.
func (s *sheets) tellMaps(maps []boardMap) []wording.Line {
	pages, places := 1, 0
	for _, m := range maps {
		if len(m.pages) > pages {
			pages, places = len(m.pages), len(m.board.Spots)
		}
	}
	if pages == 1 {
		return nil
	}
	note := wording.Line{
		Place: "board map",
		What:  fmt.Sprintf("takes %d pages of %s for a board of %d tiles, where one is wanted", pages, s.plan.Board.Paper, places),
		Why:   fmt.Sprintf("on one its cups and marks would be smaller than %g pt", mapLeastPt),
		Fix:   "larger paper",
	}
	for _, size := range paper.Named() {
		plan, test := *s.plan, *s.test
		plan.Board.Paper, plan.Board.PaperW, plan.Board.PaperH = size.Name, size.W, size.H
		test.Plan = &plan
		places := layout.Boards(&test)
		if least := s.barePlan(places, layout.SheetOf(plan.Board)); mapPages(least.maps) == len(places.Boards) {
			note.Fix = fmt.Sprintf("--paper %s takes it on one page", size.Name)
			break
		}
	}
	return []wording.Line{note}
}

// bothOfAll is both of all cells.
func (s *sheets) bothOfAll(briefly bool) [][]amount {
	texts := make([][]amount, len(s.test.Cells))
	for i, c := range s.test.Cells {
		texts[i] = s.both(c, briefly)
	}
	return texts
}

// strays reports whether any cup is made noticeably other than it was asked.
func (s *sheets) strays() bool {
	return slices.ContainsFunc(s.test.Cells, func(c blend.Cell) bool { return c.AsMade })
}

// fitMaps are the maps of all boards, see fitMap.
func fitMaps(places *layout.Places, sheet layout.Sheet, lines int, widest float64) (list []boardMap) {
	for i := range places.Boards {
		b := &places.Boards[i]
		if i > 0 && b.Alike(&places.Boards[i-1]) {
			m := list[i-1]
			m.spread = spread{board: b, pages: layout.PagesFor(b, m.pages)}
			list = append(list, m)
		} else {
			list = append(list, fitMap(b, sheet, lines, widest))
		}
	}
	return list
}

// fitMap is the map of a board with lines of text in each place, the widest of
// which is so many mm in 1 pt.
func fitMap(b *layout.Board, sheet layout.Sheet, lines int, widest float64) boardMap {
	m := boardMap{spread: spread{board: b}, lines: float64(lines)}
	high := (m.lines + headAirEm) * leadingEm * mmPerPt // in 1 pt
	m.pages = layout.FitPages(b, sheet, mapLeastPt*widest+2*mapPadMM, mapLeastPt*high+2*mapPadMM)
	r := m.pages[0].RectOnPaper(b.Spots[0].Whole())
	m.pt = min(mapMostPt, (r.W-2*mapPadMM)/widest, (r.H-2*mapPadMM)/high)
	return m
}

// mapPages is how many pages maps take, each on pages of its own.
func mapPages(list []boardMap) (n int) {
	for i := range list {
		n += len(list[i].pages)
	}
	return n
}

// mapSpot draws one place of a map, and in it the cup, the mark and what the
// cup holds.
func (s *sheets) mapSpot(p *page, r layout.Rect, spot layout.Spot, pt float64, plan mapPlan) {
	p.rect(r.X, r.Y, r.W, r.H, medium)
	tile := s.Places.Tiles[spot.Tile]
	head, ft := bold(pt), regular(pt)
	x, right := r.X+mapPadMM, r.Right()-mapPadMM
	y := r.Y + mapPadMM + head.ascentMM()
	cup := fmt.Sprint(spot.Cell)
	p.text(x, y, cup, head, left)
	markMM := s.doc.width(tile.Mark, head)
	if plan.split {
		y += head.lineMM()
	}
	p.mark(right-markMM, y, tile.Mark, s.Places.Scheme.Underlined(tile.Mark), head, left)
	if !plan.full {
		return
	}
	y += (1 + headAirEm) * ft.lineMM()
	for _, a := range plan.texts[spot.Cell-1] {
		p.text(x, y, a.letter+" "+a.text, ft, left)
		y += ft.lineMM()
	}
}

// cupList is what every cup holds, for maps whose places are too small for it.
func (s *sheets) cupList(f *flow) {
	list := s.newCupList(s.bothOfAll(false))
	key := s.bothKey()
	f.subheading("What the cups hold")
	if s.strays() {
		// What was asked too is not worth more pages.
		brief := s.newCupList(s.bothOfAll(true))
		many, _ := f.pagesOf(list.count, list.wMM, list.hMM, list.headMM)
		if fewer, _ := f.pagesOf(brief.count, brief.wMM, brief.hMM, brief.headMM); list.wMM > f.width() || fewer < many {
			list = brief
			key += madeKey
		}
	}
	f.para(key+".", regular(benchPt))
	f.listing(list)
}

// newCupList is the listing of such texts of all cells.
func (s *sheets) newCupList(texts [][]amount) listing {
	var letters []string
	at := map[string]int{}
	for _, list := range texts {
		for _, a := range list {
			if _, ok := at[a.letter]; !ok {
				at[a.letter] = len(letters)
				letters = append(letters, a.letter)
			}
		}
	}
	// Small print, for there are many: it is a list to look a cup up in.
	const pt, gap = 9.0, 3.0
	ft, strong := regular(pt), bold(pt)
	cupMM := s.doc.width("Cup", strong)
	widths := make([]float64, len(letters))
	for i, l := range letters {
		widths[i] = s.doc.width(l, strong)
	}
	for i, list := range texts {
		cupMM = max(cupMM, s.doc.width(fmt.Sprint(s.test.Cells[i].Number), strong))
		for _, a := range list {
			widths[at[a.letter]] = max(widths[at[a.letter]], s.doc.width(a.text, ft))
		}
	}
	ends := make([]float64, len(letters)) // right ends of the columns
	end := cupMM
	for i, w := range widths {
		end += gap + w
		ends[i] = end
	}
	row := 1.3 * ft.lineMM()
	return listing{
		count: len(texts), wMM: end, hMM: row, headMM: ft.lineMM() + 0.5,
		head: func(p *page, x, y float64) {
			p.text(x+cupMM, y+ft.ascentMM(), "Cup", strong, right)
			for i, l := range letters {
				p.text(x+ends[i], y+ft.ascentMM(), l, strong, right)
			}
		},
		entry: func(p *page, x, y float64, i int, _ bool) {
			base := y + row/2 + 0.36*pt*mmPerPt
			p.text(x+cupMM, base, fmt.Sprint(s.test.Cells[i].Number), strong, right)
			for _, a := range texts[i] {
				p.text(x+ends[at[a.letter]], base, a.text, ft, right)
			}
		},
		rule: func(i int) bool { return i%10 == 0 },
	}
}
