package pdf

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/wording"
)

// dip is the list for the day of dipping: how far each coat goes, and all tiles
// with a box for each coat.
func (s *sheets) dip() {
	f := s.begin("the stirred cups in order, the marked tiles, the boards to lay them on, a cloth, and something to count seconds by")
	coats := s.plan.Tiles.Dips()
	if len(coats) == 1 {
		f.para("Dip every tile once, in this order.", regular(benchPt))
	} else {
		f.para(fmt.Sprintf("Take the first coat through all tiles, then come back to the top for the second%s: so nobody waits for one tile to dry. "+
			"Tick each coat as it is done. Stir the cup before each dip.", map[bool]string{true: ", and so on"}[len(coats) > 2]), regular(benchPt))
	}
	if s.plan.Tiles.HoldS > 0 {
		f.para(fmt.Sprintf("Hold each tile in the slip for %s s, every time alike.", quantity.PercentText(s.plan.Tiles.HoldS)), bold(benchPt))
	} else {
		f.para("Hold each tile in the slip for the same time, counted aloud, and write it here: ________ s.", regular(benchPt))
	}
	if dish := s.plan.Tiles.DishMM(); dish > s.plan.Cup.DiameterMM && s.plan.Tiles.Bands == blend.Corner {
		f.para(fmt.Sprintf("The long side takes a dish at least %s wide: pour the glaze out of its cup for it.", quantity.LengthText(math.Ceil(dish))), regular(benchPt))
	}
	f.para("A dipped tile goes back to its own place on the board, the one that bears its mark.", regular(benchPt))
	if n, shallow := s.test.Shallow(); shallow {
		f.para("Take care: "+wording.LineOf(n).String()+".", bold(benchPt))
		f.para("Where the glaze is too shallow, pour it into a narrower vessel or dip as deep as it goes, and write that down: the figures below are what the plan wants.", regular(benchPt))
	}
	s.bands(f, coats)
	s.bodyKey(f)
	s.dipList(f, len(coats))
	f.longTexts()
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

// coatText says how a coat is dipped.
func (s *sheets) coatText(n int, c blend.Coat) string {
	edge := "lower"
	if c.Across {
		edge = "left"
	}
	edge += " edge"
	if s.plan.Tiles.Bands == blend.Corner {
		side := "short"
		if c.Across == (s.plan.Tiles.HeightMM >= s.plan.Tiles.WidthMM) {
			side = "long"
		}
		edge += ", a " + side + " side,"
	}
	return fmt.Sprintf("%s coat: the %s goes in first, %s deep.", ordinal(n), edge, quantity.LengthText(c.MM))
}

// mostMeasures is how many measures of one direction are drawn beside a tile;
// of more the words alone tell.
const mostMeasures = 6

// bands draws a tile with the edges of its coats at life size, and says beside
// it how each coat is dipped.
func (s *sheets) bands(f *flow, coats []blend.Coat) {
	d, tiles := s.doc, s.plan.Tiles
	// Measures stand left of the tile and below it.
	ft := regular(benchPt)
	measure := d.width("000 mm", ft)
	const air = 3.0
	scale := d.lifeScale // this page is not one at life size, the tile is
	w, h := tiles.WidthMM*scale, tiles.HeightMM*scale
	title := "A tile at life size"
	leftMM := air * 2
	columns, rows := edges(coats, true), edges(coats, false)
	if len(rows) > mostMeasures {
		rows = nil
	}
	if len(columns) > mostMeasures {
		columns = nil
	}
	leftMM += float64(len(rows)) * (ft.lineMM() + 1)
	belowMM := air + float64(len(columns))*(ft.lineMM()+1)
	mostW := f.width() - leftMM - 2*measure
	mostH := f.whole() - belowMM - 3*bold(13).lineMM() - 4
	if w > mostW || h > mostH {
		k := min(mostW/w, mostH/h)
		w, h = w*k, h*k
		title = "A tile, not to scale: it is larger than this page has room for"
	}
	// The words beside the tile, or under it where it is wide.
	texts := make([]string, len(coats), len(coats)+1)
	for i, c := range coats {
		texts[i] = s.coatText(i+1, c)
	}
	var counts []string
	for n := range len(coats) + 1 {
		counts = append(counts, fmt.Sprint(n))
	}
	texts = append(texts, "The figure in a field is the coats that lie there: "+strings.Join(counts, ", ")+".")
	beside := f.width() - leftMM - w - 2*air
	wordsMM := 0.0
	for _, text := range texts {
		wordsMM += float64(len(d.wrap(text, ft, beside)))*ft.lineMM() + 1.5
	}
	wide := beside >= 50 && wordsMM <= h+belowMM
	f.need(h + belowMM + 3*bold(13).lineMM() + 4)
	f.subheading(title)
	x, y := f.left()+leftMM, f.y+1
	s.drawBands(f.page, x, y, w, h, coats)
	f.page.dimensions(x, y, w, h, rows, columns, tiles, ft)
	top := f.y
	f.y = y + h + belowMM
	if !wide {
		f.items("–", texts, ft)
		return
	}
	at := top
	for _, text := range texts {
		for _, line := range d.wrap(text, ft, beside) {
			f.page.text(x+w+2*air, at+ft.ascentMM(), line, ft, left)
			at += ft.lineMM()
		}
		at += 1.5
	}
	f.y = max(f.y, at)
	f.space(2)
}

// edges are how far the coats of one direction go, the furthest first.
func edges(coats []blend.Coat, across bool) []float64 {
	var mm []float64
	for _, c := range coats {
		if c.Across == across {
			mm = append(mm, c.MM)
		}
	}
	slices.SortFunc(mm, func(a, b float64) int { return int(math.Copysign(1, b-a)) })
	return mm
}

// drawBands draws a tile of w × h mm whose glazed fields are the darker the
// more coats lie on them, and writes the number of coats in each.
func (s *sheets) drawBands(p *page, x, y, w, h float64, coats []blend.Coat) {
	tiles := s.plan.Tiles
	kx, ky := w/tiles.WidthMM, h/tiles.HeightMM
	steps := func(across bool, whole float64) []float64 {
		list := append([]float64{0}, edges(coats, across)...)
		slices.Sort(list)
		return append(list, whole)
	}
	xs, ys := steps(true, tiles.WidthMM), steps(false, tiles.HeightMM)
	for i := range len(xs) - 1 {
		for j := range len(ys) - 1 {
			count := 0
			midX, midY := (xs[i]+xs[i+1])/2, (ys[j]+ys[j+1])/2
			for _, c := range coats {
				if c.Across && midX < c.MM || !c.Across && midY < c.MM {
					count++
				}
			}
			fx, fy := x+xs[i]*kx, y+h-ys[j+1]*ky
			fw, fh := (xs[i+1]-xs[i])*kx, (ys[j+1]-ys[j])*ky
			if fw < 0.01 || fh < 0.01 {
				continue
			}
			if count > 0 {
				p.fillRect(fx, fy, fw, fh, 0.95-0.3*float64(count)/float64(len(coats)))
			}
			ft := bold(12)
			text := counted(count, "coat", "coats")
			if p.doc.width(text, ft)+2 > fw {
				text = fmt.Sprint(count)
			}
			if fw >= p.doc.width(text, ft)+2 && fh >= ft.ascentMM()+ft.descentMM() {
				p.text(fx+fw/2, fy+fh/2+0.36*ft.pt*mmPerPt, text, ft, centre)
			}
		}
	}
	for _, c := range coats {
		if c.Across {
			p.line(x+c.MM*kx, y, x+c.MM*kx, y+h, medium.dashed(2, 1))
		} else {
			p.line(x, y+h-c.MM*ky, x+w, y+h-c.MM*ky, medium.dashed(2, 1))
		}
	}
	p.rect(x, y, w, h, medium)
}

// dimensions draws how far the coats go: rows from the lower edge up, on the
// left; columns from the left side, below. The longest stands outermost.
func (p *page) dimensions(x, y, w, h float64, rows, columns []float64, tiles blend.Tiles, ft font) {
	kx, ky := w/tiles.WidthMM, h/tiles.HeightMM
	step := ft.lineMM() + 1
	for i, mm := range rows {
		at := x - float64(len(rows)-i)*step + step*0.55
		p.line(at-1, y+h, at+1, y+h, thin)
		p.line(at-1, y+h-mm*ky, at+1, y+h-mm*ky, thin)
		p.line(at, y+h, at, y+h-mm*ky, thin)
		text := quantity.LengthText(mm)
		if p.doc.width(text, ft) <= mm*ky {
			p.textUp(at-0.8, y+h-mm*ky/2, text, ft, centre)
		}
	}
	for i, mm := range columns {
		at := y + h + float64(len(columns)-i)*step - step*0.1
		p.line(x, at-1, x, at+1, thin)
		p.line(x+mm*kx, at-1, x+mm*kx, at+1, thin)
		p.line(x, at, x+mm*kx, at, thin)
		text := quantity.LengthText(mm)
		if p.doc.width(text, ft) <= mm*kx {
			p.text(x+mm*kx/2, at-0.8, text, ft, centre)
		}
	}
}

// dipList is every tile in the order of dipping, with a box for each coat.
func (s *sheets) dipList(f *flow, coats int) {
	scheme := s.Places.Scheme
	order := layout.DipOrder(s.test, s.Places, s.mats)
	tiles := s.Places.Tiles
	const gap = 3.0
	small, ft := regular(benchPt), bold(16)
	cupMM, markMM := s.doc.width("cup", small), s.doc.width("mark", small)
	for _, t := range tiles {
		cupMM = max(cupMM, s.doc.width(fmt.Sprint(t.Cell), regular(16)))
		markMM = max(markMM, s.doc.width(t.Mark, ft))
	}
	tick := tickSide(ft)
	boxMM := max(tick, s.doc.width(ordinal(coats), small)) + gap
	across := max(1, min(coats, int((f.width()-cupMM-markMM-gap)/boxMM))) // boxes in one row of an entry
	row := ft.lineMM() * 1.2
	lines := (coats + across - 1) / across
	wMM := cupMM + markMM + gap + float64(across)*boxMM
	closer, headMM := ft.lineMM(), small.lineMM()+1
	f.startListing(counted(len(order), "tile", "tiles")+", "+counted(coats, "coat", "coats"), len(order), wMM, row*float64(lines), headMM)
	// Closer rows, if that saves a page.
	usual, _ := f.pagesOf(len(order), wMM, row*float64(lines), headMM)
	if fewer, _ := f.pagesOf(len(order), wMM, closer*float64(lines), headMM); fewer < usual {
		row = closer
	}
	f.listing(listing{
		count: len(order), wMM: wMM, hMM: row * float64(lines), headMM: headMM,
		head: func(p *page, x, y float64) {
			base := y + small.ascentMM()
			p.text(x+cupMM, base, "cup", small, right)
			p.text(x+cupMM+gap, base, "mark", small, left)
			for k := range across {
				p.text(x+cupMM+gap+markMM+float64(k+1)*boxMM-(boxMM-gap)/2, base, ordinal(k+1), small, centre)
			}
		},
		entry: func(p *page, x, y float64, i int, first bool) {
			t := tiles[order[i]]
			base := y + row*0.5 + 0.36*ft.pt*mmPerPt
			if first || tiles[order[i-1]].Cell != t.Cell {
				p.text(x+cupMM, base, fmt.Sprint(t.Cell), regular(16), right)
			}
			p.mark(x+cupMM+gap, base, t.Mark, scheme.Underlined(t.Mark), ft, left)
			for k := range coats {
				cx := x + cupMM + gap + markMM + float64(k%across+1)*boxMM - (boxMM-gap)/2
				p.checkbox(cx-tick/2, y+row*float64(k/across)+(row-tick)/2, tick)
			}
		},
		rule: func(i int) bool { return i > 0 && tiles[order[i]].Cell != tiles[order[i-1]].Cell },
	})
}
