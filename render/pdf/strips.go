package pdf

// Strips are rows of a few short figures, set in as many columns side by side
// as the page takes and read down each: what is poured or weighed into cups.
type strips struct {
	columns []stripColumn
	rows    []stripRow
	// foot, if not nil, says what stands under the rows from, ..., to-1 that
	// have come on one page.
	foot func(from, to int) string
}

type stripColumn struct {
	title string
	unit  string // set small behind every figure
	align align
	font  font
	tick  bool // boxes to tick, and no figures
	shade bool // on grey, to tell numbers of cups from amounts
}

type stripRow struct {
	texts []string // by column
	rule  bool     // a strong rule above, where a row of cups begins
}

const (
	stripGapMM   = 7.0 // between columns of rows
	stripPadMM   = 0.9 // above and below a row's text
	lessPadMM    = 0.4 // where that saves a page
	leastInStrip = 8   // rows that are not worth a second column
)

// A stripSetter sets the rows of one strips.
type stripSetter struct {
	strips
	flow     *flow
	widths   []float64 // of the columns with their gutters, mm
	widthMM  float64
	rowMM    float64
	padMM    float64 // above and below the text of a row
	headerMM float64
	footMM   float64
	abreast  int // columns of rows that the page takes side by side
}

var (
	stripHead = bold(benchPt)
	stripUnit = regular(benchPt)
	stripFoot = bold(benchPt)
	partFont  = bold(14) // of the heading over strips
)

const (
	unitGapMM = 1.0
	mostWider = 1.3 // how much wider than it needs a column of rows may be
	shadeGrey = 0.9
)

// strips measures strips, which under then draws.
func (f *flow) strips(t strips) *stripSetter {
	s := &stripSetter{strips: t, flow: f, padMM: stripPadMM}
	d := f.doc
	for i, c := range s.columns {
		figure := 0.0
		for _, r := range s.rows {
			figure = max(figure, d.width(r.texts[i], c.font))
		}
		if c.tick {
			figure = tickSide(c.font)
		}
		if c.unit != "" {
			figure += unitGapMM + d.width(c.unit, stripUnit)
		}
		s.widths = append(s.widths, max(d.width(c.title, stripHead), figure)+2*gutterMM)
		s.rowMM = max(s.rowMM, c.font.lineMM()+2*stripPadMM)
	}
	s.widthMM = sum(s.widths)
	s.headerMM = stripHead.lineMM() + 1.6
	s.abreast = max(1, int((f.width()+stripGapMM+1e-9)/(s.widthMM+stripGapMM)))
	// What is left of the width goes to the columns, so far as a figure and
	// its box are still seen together.
	wider := min(mostWider*s.widthMM, (f.width()+stripGapMM)/float64(s.abreast)-stripGapMM) - s.widthMM
	for i := range s.widths {
		s.widths[i] += max(0, wider) / float64(len(s.widths))
	}
	s.widthMM = sum(s.widths)
	if s.foot != nil && len(s.rows) > 0 {
		most := 0
		for _, to := range []int{1, len(s.rows)} {
			most = max(most, len(d.wrap(s.foot(0, to), stripFoot, f.width())))
		}
		s.footMM = float64(most)*stripFoot.lineMM() + 3
	}
	return s
}

// under draws the rows under a heading, which is a bookmark too, and what is
// to be said about them. All goes to the next page if it would fit there and
// does not fit on what is left of this one, which is less than half.
func (s *stripSetter) under(heading, mark string, texts ...string) {
	f := s.flow
	ft := regular(benchPt)
	head := float64(len(f.doc.wrap(heading, partFont, f.width())))*partFont.lineMM() + 3
	for _, text := range texts {
		head += float64(len(f.doc.wrap(text, ft, f.width())))*ft.lineMM() + 1.5
	}
	whole := head
	if len(s.rows) > 0 {
		deep := min(len(s.rows), max(leastInStrip, (len(s.rows)+s.abreast-1)/s.abreast))
		whole += s.headerMM + float64(deep)*s.rowMM + s.footMM
		if page := f.whole(); whole > page || f.room() > page/2 {
			whole = head + s.headerMM + 4*s.rowMM + s.footMM
		}
	}
	f.need(whole + 2)
	f.space(2)
	f.lines(heading, partFont, left, 0)
	f.doc.bookmark(1, mark)
	f.space(1)
	for _, text := range texts {
		f.para(text, ft)
	}
	s.set(mark)
}

// set draws the rows; on further pages the name stands above them again.
func (s *stripSetter) set(name string) {
	f := s.flow
	const less = 2 * (stripPadMM - lessPadMM)
	if s.pages(s.rowMM-less) < s.pages(s.rowMM) {
		s.rowMM -= less
		s.padMM = lessPadMM
	}
	for from := 0; from < len(s.rows); {
		if s.fits() < min(2, len(s.rows)-from) && f.y > f.top {
			f.further(f.hMM, name)
		}
		from = s.page(from)
	}
	f.space(2)
}

// pages is how many pages, from this one on, rows of such a height take.
func (s *stripSetter) pages(rowMM float64) int {
	n, rest := 1, len(s.rows)
	for room := s.flow.room(); ; room = s.flow.whole() - partFont.lineMM() - 1 {
		deep := int((room - s.headerMM - s.footMM + 1e-9) / rowMM)
		if n > 1 {
			deep = max(1, deep)
		}
		if rest -= max(0, deep) * s.abreast; rest <= 0 {
			return n
		}
		n++
	}
}

// further sees to it that hMM are left on the page; on a new one it says what
// goes on there.
func (f *flow) further(hMM float64, name string) {
	if f.need(hMM) || f.y == f.top {
		const text = ", further on"
		f.lines(f.doc.shorten(name, partFont, f.width()-f.doc.width(text, partFont))+text, partFont, left, 0)
		f.space(1)
	}
}

// fits is how many rows go into one column on what is left of the page.
func (s *stripSetter) fits() int {
	return int((s.flow.room() - s.headerMM - s.footMM + 1e-9) / s.rowMM)
}

// page sets the rows from the given one on that the page takes, evenly over
// its columns, and gives the first that is left.
func (s *stripSetter) page(from int) (next int) {
	f := s.flow
	deep := max(1, s.fits())
	rest := len(s.rows) - from
	if left := rest - deep*s.abreast; left > 0 && left < fewRows && deep > fewRows {
		deep-- // some come over to the few of the last page
	}
	if even := (rest + s.abreast - 1) / s.abreast; even < deep {
		deep = min(deep, max(even, leastInStrip))
	}
	top, lowest := f.y, f.y
	x := f.left()
	to := from
	for range s.abreast {
		if to == len(s.rows) {
			break
		}
		f.y = top
		s.header(x)
		for range deep {
			if to == len(s.rows) {
				break
			}
			s.row(x, s.rows[to], to > 0)
			to++
		}
		lowest = max(lowest, f.y)
		x += s.widthMM + stripGapMM
	}
	f.y = lowest
	if s.foot != nil {
		f.y += 1.5
		f.page.line(f.left(), f.y, f.right(), f.y, medium)
		f.y += 1
		for _, line := range f.doc.wrap(s.foot(from, to), stripFoot, f.width()) {
			f.page.text(f.left(), f.y+stripFoot.ascentMM(), line, stripFoot, left)
			f.y += stripFoot.lineMM()
		}
	}
	return to
}

// header sets the titles of the columns with their left edge at x.
func (s *stripSetter) header(x float64) {
	f := s.flow
	at := x
	for i, c := range s.columns {
		s.put(at, i, f.y+stripHead.ascentMM(), c.title, stripHead)
		at += s.widths[i]
	}
	f.y += s.headerMM
	f.page.line(x, f.y, x+s.widthMM, f.y, medium)
}

// put sets a text in a column that begins at x.
func (s *stripSetter) put(x float64, column int, base float64, text string, ft font) {
	inner := s.widths[column] - 2*gutterMM
	a := s.columns[column].align
	s.flow.page.text(x+gutterMM+[...]float64{left: 0, centre: inner / 2, right: inner}[a], base, text, ft, a)
}

func (s *stripSetter) row(x float64, r stripRow, ruled bool) {
	f := s.flow
	tallest := 0.0
	for _, c := range s.columns {
		tallest = max(tallest, c.font.ascentMM())
	}
	base := f.y + s.padMM + tallest
	at := x
	for i, c := range s.columns {
		if c.shade {
			f.page.fillRect(at, f.y+0.15, s.widths[i], s.rowMM-0.15, shadeGrey) // beside the rule above
		}
		switch {
		case c.tick:
			side := tickSide(c.font)
			f.page.checkbox(at+(s.widths[i]-side)/2, base-side*0.9, side)
		case c.unit == "" || r.texts[i] == "–" || r.texts[i] == "none":
			s.put(at, i, base, r.texts[i], c.font)
		default:
			// Figure and unit stand together at the right, so that digits align.
			unit := f.doc.width(c.unit, stripUnit)
			end := at + s.widths[i] - gutterMM
			f.page.text(end-unit-unitGapMM, base, r.texts[i], c.font, right)
			f.page.text(end, base, c.unit, stripUnit, right)
		}
		at += s.widths[i]
	}
	if r.rule && ruled {
		f.page.line(x, f.y, x+s.widthMM, f.y, medium)
	}
	f.y += s.rowMM
	f.page.line(x, f.y, x+s.widthMM, f.y, faint)
}
