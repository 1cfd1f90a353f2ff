package layout

// sharedGap is between boards on one page, so that scissors go between them.
const sharedGap = 2.0

// Together puts boards of which each takes one page of its own onto as few
// pages as they take in their order: in rows, as many side by side as go and
// then below. Each has its own header, rulers and arrow, and a dashed line along
// which it is cut from the others; all but the first of a page are Shared. heads
// are the widths in mm that the headers need. It is nil where no two boards go
// on one page.
func Together(boards []*Board, heads []float64, s Sheet) []Page {
	var best []Page
	fewest := len(boards)
	for _, turned := range []bool{false, true} {
		if pages, n := s.together(boards, heads, turned); pages != nil && n < fewest {
			best, fewest = pages, n
		}
	}
	return best
}

// together is Together on pages that are all upright or all turned, with their
// number; nil where a board does not go on one.
func (s Sheet) together(boards []*Board, heads []float64, turned bool) (pages []Page, n int) {
	f := s.frame(turned)
	left, top := f.header.X, f.header.Y
	right, bottom := f.header.Right(), f.footer.Y
	x, y, low := left, top, top // where the next board goes, and the lowest that is taken
	for k, b := range boards {
		w, h := max(Ruler+b.W, heads[k]), Header+Ruler+b.H
		switch {
		case left+w > right+hair || top+h > bottom+hair:
			return nil, 0
		case n == 0:
			n = 1
		case x+w <= right+hair && y+h <= bottom+hair: // beside the one before
		case low+sharedGap+h <= bottom+hair:
			x, y = left, low+sharedGap
		default:
			n++
			x, y, low = left, top, top
		}
		p := Page{
			Code: "A1", Board: b, PaperW: f.w, PaperH: f.h,
			Header: Rect{X: x, Y: y, W: w, H: Header}, Footer: f.footer,
			RulerX: Rect{X: x + Ruler, Y: y + Header, W: b.W, H: Ruler},
			RulerY: Rect{X: x, Y: y + Header + Ruler, W: Ruler, H: b.H},
			View:   Rect{W: b.W, H: b.H}, At: Point{x + Ruler, y + Header + Ruler}, ScaleX: 1, ScaleY: 1,
			Shared: x > left || y > top,
		}
		for i := range b.Spots {
			p.Spots = append(p.Spots, i)
		}
		for i := range b.Heads {
			p.Heads = append(p.Heads, i)
		}
		// Cut lines, as of all pages in mm of the board.
		x0, y0 := -Ruler-sharedGap/2, -Ruler-Header-sharedGap/2
		low = max(low, y+h)
		switch {
		case x > left:
			p.Trim = append(p.Trim, Segment{Point{x0, y0 + sharedGap/2}, Point{x0, low - p.At.Y}})
		case y > top:
			p.Trim = append(p.Trim, Segment{Point{-Ruler, y0}, Point{right - p.At.X, y0}})
		}
		pages = append(pages, p)
		x += w + sharedGap
	}
	// The last board of a row has the rest of its width for its header.
	for i := range pages {
		if i+1 == len(pages) || !pages[i+1].Shared || pages[i+1].Header.Y > pages[i].Header.Y {
			pages[i].Header.W = right - pages[i].Header.X
		}
	}
	return pages, n
}
