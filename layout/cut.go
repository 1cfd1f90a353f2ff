package layout

import (
	"math"
	"strconv"
)

// rows is how many rows of places the board has.
func (b *Board) rows() int { return b.Spots[len(b.Spots)-1].Row + 1 }

// x is where a place begins that is so many places from the left, half the gap
// before it included.
func (b *Board) x(places float64) float64 { return Edge + places*b.pitchX - (b.pitchX-b.capW)/2 }

// y is the middle of the gap above a row; the board's edge above the first and
// below the last.
func (b *Board) y(row int) float64 {
	switch row {
	case 0:
		return 0
	case b.rows():
		return b.H
	}
	return Edge + float64(row)*b.pitchY - (b.pitchY-b.high())/2
}

// place is how many places a spot is from the left, in halves.
func (b *Board) place(s Spot) float64 { return math.Round(2*(s.Caption.X-Edge)/b.pitchX) / 2 }

// A band is the rows of places that one row of pages takes: from first on, and the
// places from start to end.
type band struct {
	first      int
	start, end float64
	half       []float64 // by row: by how much a row of a triangle is offset, 0 or a half
	most       float64   // of half
}

// cut splits a board over pages like sheet, with so many rows on each, less skip on
// the first. Pages of one row of pages have about as many places each. It is nil
// where a place is larger than a page.
func (b *Board) cut(sheet Page, rows, skip int) []Page {
	var pages []Page
	for from, to := 0, 0; from < len(b.Spots); from = to {
		n := (b.Spots[from].Row + skip) / rows
		k := band{first: max(0, n*rows-skip), start: math.Inf(1)}
		last := min((n+1)*rows-skip, b.rows())
		for to = from; to < len(b.Spots) && b.Spots[to].Row < last; to++ {
			x := b.place(b.Spots[to])
			k.start, k.end = min(k.start, x), max(k.end, x)
		}
		k.half = make([]float64, last-k.first)
		for _, s := range b.Spots[from:to] {
			_, half := math.Modf(b.place(s) - k.start)
			k.half[s.Row-k.first], k.most = half, max(k.most, half)
		}
		across := b.across(sheet.View.W, k)
		if y0, y1 := b.extent(k); across == 0 || y1-y0 > sheet.View.H+hair {
			return nil
		}
		columns := int((k.end-k.start)/across) + 1
		row := make([]Page, columns)
		for i := range row {
			row[i] = sheet
			p := &row[i]
			p.Row, p.Column, p.Code = n, i, letters(n)+strconv.Itoa(i+1)
			left := k.start + float64(i)*across
			right := left + across
			if i == columns-1 {
				right = k.end + 1
			}
			b.show(p, k, left, right)
			b.trim(p, k, left)
		}
		for i := from; i < to; i++ {
			p := &row[int((b.place(b.Spots[i])-k.start)/across)]
			p.Spots = append(p.Spots, i)
		}
		pages = append(pages, row...)
	}
	return pages
}

// across is how many of a band's places a page w mm wide takes, in halves where some
// rows are offset, so that all pages have about as many; 0 where it takes none.
func (b *Board) across(w float64, k band) float64 {
	step := 1 - k.most
	all := k.end - k.start + step
	if (k.end-k.start)*b.pitchX+b.capW+2*Edge <= w+hair {
		return all
	}
	fit := func(w float64) float64 { return math.Floor(((w-Overlap+hair)/b.pitchX-k.most)/step) * step }
	most := fit(w)
	if two := fit(w + (b.pitchX-b.capW)/2); all <= 2*two { // the first and the last have an edge
		most = two
	}
	if most <= 0 {
		return 0
	}
	return math.Ceil(all/math.Ceil(all/most-hair)/step-hair) * step
}

// extent is what of the board's height the pages of a band show.
func (b *Board) extent(k band) (y0, y1 float64) {
	return max(0, b.y(k.first)-Overlap/2), min(b.H, b.y(k.first+len(k.half))+Overlap/2)
}

// show says what of the board a page shows that takes the places of a band from
// left to right.
func (b *Board) show(p *Page, k band, left, right float64) {
	x0, x1 := b.x(left)-Overlap/2, b.x(right+k.most)+Overlap/2
	gap := (b.pitchX - b.capW) / 2
	if left == k.start {
		x0 = b.x(left) + gap - Edge
	}
	if right == k.end+1 {
		x1 = b.x(right) - gap + Edge
	}
	y0, y1 := b.extent(k)
	p.View = Rect{X: x0, Y: y0, W: x1 - x0, H: y1 - y0}
	p.RulerX.W, p.RulerY.H = p.View.W, p.View.H
}

// trim says where a page is trimmed that takes a band's places from left on: each
// row before its first place there, and all above the band.
func (b *Board) trim(p *Page, k band, left float64) {
	from := p.View.X
	if p.Column > 0 {
		for r, half := range k.half {
			_, offset := math.Modf(left - k.start + half)
			top, bottom := Point{b.x(left + offset), b.y(k.first + r)}, Point{b.x(left + offset), b.y(k.first + r + 1)}
			if r > 0 {
				p.Trim = append(p.Trim, Segment{p.Trim[len(p.Trim)-1].To, top})
			}
			p.Trim = append(p.Trim, Segment{top, bottom})
		}
		from = p.Trim[0].From.X
	}
	if p.Row > 0 {
		p.Trim = append(p.Trim, Segment{Point{from, b.y(k.first)}, Point{p.View.Right(), b.y(k.first)}})
	}
}

// arm is half the size of a registration cross where nothing is in its way, mm.
const arm = 4.0

// register puts crosses on the lines between rows, where no spot is, in the
// middle of what neighbours share: at both ends of the line between two pages side
// by side, and near both ends of that between two rows of pages. A page shows all
// that it has room for.
func (b *Board) register(pages []Page) {
	gap := (b.pitchY - b.high()) / 2
	var all []Cross
	add := func(x, y float64) {
		c := Cross{Point{math.Round(1000*x) / 1000, y}, arm, min(arm, gap)}
		switch y {
		case 0:
			c.Y, c.ArmY = Edge/2, Edge/2
		case b.H:
			c.Y, c.ArmY = b.H-Edge/2, Edge/2
		}
		for _, o := range all {
			if o.Y == c.Y && math.Abs(o.X-c.X) < 1.5*arm {
				return
			}
		}
		all = append(all, c)
	}
	for i, p := range pages {
		top, bottom := b.y(b.Spots[p.Spots[0]].Row), b.y(b.Spots[p.Spots[len(p.Spots)-1]].Row+1)
		for _, q := range pages[i+1:] {
			lo, hi := max(p.View.X, q.View.X), min(p.View.Right(), q.View.Right())
			switch {
			case hi-lo < Overlap-hair:
			case q.Row == p.Row:
				add((lo+hi)/2, top)
				add((lo+hi)/2, bottom)
			case q.Row == p.Row+1:
				add(lo+Overlap/2, bottom)
				add(hi-Overlap/2, bottom)
			}
		}
	}
	for i := range pages {
		for _, c := range all {
			arms := Rect{X: c.X - c.ArmX, Y: c.Y - c.ArmY, W: 2 * c.ArmX, H: 2 * c.ArmY}
			if arms.around(pages[i].View) == pages[i].View {
				pages[i].Crosses = append(pages[i].Crosses, c)
			}
		}
	}
}
