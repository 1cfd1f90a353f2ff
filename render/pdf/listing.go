package pdf

// A listing is many small entries of one size, set in columns down the page,
// page after page: marks to paint, tiles to dip.
type listing struct {
	count    int
	wMM, hMM float64 // of one entry, at least
	headMM   float64 // height of what stands over each column
	head     func(p *page, x, y float64)
	entry    func(p *page, x, y float64, i int, first bool) // first of its column
	rule     func(i int) bool                               // a rule above the entry, where a group begins
}

// columnGapMM keeps the columns of a listing apart.
const columnGapMM = 6.0

// startListing sets the name of a listing of so many entries, wMM wide and hMM
// high, where there is room for it, for the head of its columns and for some
// entries.
func (f *flow) startListing(title string, count int, wMM, hMM, headMM float64) {
	f.need(f.listingTitleMM(title) + headMM + f.firstMM(count, wMM, hMM))
	f.subheading(title)
}

// firstMM is the height of what a page has of a listing at least: all of a short
// one, of which it could not leave enough to the next page.
func (f *flow) firstMM(count int, wMM, hMM float64) float64 {
	columns := f.abreast(count, wMM)
	rows := (count + columns - 1) / columns
	if rows >= 2*fewRows {
		rows = fewRows
	}
	return float64(rows) * hMM
}

// abreast is how many columns of entries go beside each other.
func (f *flow) abreast(count int, wMM float64) int {
	return min(count, max(1, int((f.width()+columnGapMM)/(wMM+columnGapMM))))
}

// listingTitleMM is the height of the name of a listing.
func (f *flow) listingTitleMM(title string) float64 {
	name := bold(13)
	return 4 + float64(len(f.doc.wrap(title, name, f.width())))*name.lineMM()
}

// pagesOf is how many pages more than this one a listing of so many entries
// takes, and where it ends on the last of them.
func (f *flow) pagesOf(count int, wMM, hMM, headMM float64) (pages int, bottom float64) {
	columns := f.abreast(count, wMM)
	fits := func(room float64) int { return max(0, int((room-headMM+1e-9)/hMM)) * columns }
	for room := f.room(); ; room = f.whole() {
		if pages > 0 && fits(room) == 0 {
			return pages, f.bottom()
		}
		if n := fits(room); count > n {
			count -= n
			pages++
			continue
		}
		top := f.bottom() - room
		return pages, top + headMM + float64((count+columns-1)/columns)*hMM
	}
}

// listing sets a listing. Its columns are as even as they can be.
func (f *flow) listing(l listing) {
	columns := f.abreast(l.count, l.wMM)
	step := (f.width() + columnGapMM) / float64(columns)
	for from := 0; from < l.count; {
		f.need(l.headMM + min(3, float64(l.count-from))*l.hMM)
		rows := max(1, int((f.room()-l.headMM+1e-9)/l.hMM))
		switch left := l.count - from; {
		case left <= rows*columns:
			rows = (left + columns - 1) / columns
		case left < (rows+fewRows)*columns: // some come over to the few of the last page
			if keep := (left+columns-1)/columns - fewRows; keep >= fewRows {
				rows = min(rows, keep)
			}
		}
		top, below := f.y, 0.0
		for c := 0; c < columns && from < l.count; c++ {
			x, y := f.left()+float64(c)*step, top+l.headMM
			l.head(f.page, x, top)
			f.page.line(x, y, x+step-columnGapMM, y, medium)
			for r := 0; r < rows && from < l.count; r++ {
				if r > 0 {
					with := faint
					if l.rule != nil && l.rule(from) {
						with = medium
					}
					f.page.line(x, y, x+step-columnGapMM, y, with)
				}
				l.entry(f.page, x, y, from, r == 0)
				from++
				y += l.hMM
			}
			below = max(below, y)
		}
		f.y = below
		if from < l.count {
			f.nextPage()
		}
	}
	f.space(2)
}
