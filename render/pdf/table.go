package pdf

// A column of a table.
type column struct {
	title string
	align align
	bold  bool
	whole bool    // its texts are not wrapped: figures
	least float64 // least width in mm, for instance of a column to write in
	grow  float64 // its part of the width that the table would leave free
}

// A cell of a row: a text, a box to tick, or a line to write on.
type cell struct {
	text  string
	tick  bool
	blank bool
}

func words(text string) cell { return cell{text: text} }

var (
	tickBox   = cell{tick: true}
	writeLine = cell{blank: true}
)

// A row of a table.
type row struct {
	cells []cell
	bold  bool
	rule  bool // a strong rule above, where a group begins
}

// A table of many rows. It repeats its header on every page; its rows are told
// apart by thin rules.
type table struct {
	columns []column
	rows    []row
	pt      float64 // size of its texts; 0 is benchPt
	padMM   float64 // above and below the text of a row; 0 is usualPadMM
	// subtotal, if not nil, gives a row to set under the rows from, ..., to-1
	// that have come on one page; nil is none.
	subtotal func(from, to int) *row
	// onPage, if not nil, is called when the table goes on to another page,
	// before its header is repeated there.
	onPage func(f *flow)
	// together keeps the table on one page, if one has room for it.
	together bool
}

// usualPadMM is above and below the text of a row.
const usualPadMM = 1.4

// gutterMM is free on either side of a cell's text.
const gutterMM = 1.5

// table sets a table.
func (f *flow) table(t table) {
	if t.pt == 0 {
		t.pt = benchPt
	}
	if t.padMM == 0 {
		t.padMM = usualPadMM
	}
	s := setter{flow: f, table: t}
	s.widths = s.columnWidths()
	header, rows := s.layAll()
	// A table starts where its header and two rows have room.
	start, first := header.hMM, min(2, len(rows))
	for _, r := range rows[:first] {
		start += r.hMM
	}
	if first > 0 {
		start += s.subtotalMM(0, first)
	}
	// One of a few low rows has room for all of them.
	whole := header.hMM + sumHeights(rows)
	if t.together && whole > f.room() {
		for _, less := range s.lessAir() {
			if off := t.padMM * (1 - less); whole-2*off*float64(len(rows)+1) <= f.room() {
				header, rows = thinner(header, rows, off)
				whole = header.hMM + sumHeights(rows)
				s.table.padMM = t.padMM * less
				break
			}
		}
	}
	if few := len(rows) < 2*fewRows && whole <= f.whole()/3; (few || t.together) && whole <= f.whole() {
		start = max(start, whole)
	}
	f.need(start)
	// Few rows on a last page come onto the one before, if less air does that;
	// else some come over to them.
	breaks := s.breaks(header, rows)
	if s.few(breaks, len(rows), worthAPage) {
		air := s.table.padMM
		for _, less := range s.lessAir() {
			closer, tighter := thinner(header, rows, air*(1-less))
			if b := s.breaks(closer, tighter); len(b) < len(breaks) {
				header, rows, breaks = closer, tighter, b
				s.table.padMM = air * less
				break
			}
		}
	}
	if s.few(breaks, len(rows), fewRows) {
		at := len(breaks) - 1
		before := 0
		if at > 0 {
			before = breaks[at-1]
		}
		if most := len(rows) - fewRows; most-before >= fewRows {
			breaks[at] = most
		}
	}

	s.header(header)
	from := 0
	for i, r := range rows {
		full := f.room() < r.hMM+s.subtotalMM(from, i+1) && i > from
		if len(breaks) > 0 && i == breaks[0] {
			full, breaks = true, breaks[1:]
		}
		if full {
			s.subtotal(from, i)
			f.nextPage()
			if t.onPage != nil {
				t.onPage(f)
			}
			s.header(header)
			from = i
		}
		s.draw(r)
	}
	if len(rows) > 0 {
		s.subtotal(from, len(rows))
	}
	f.space(2)
}

// fewRows are what a last page should have, if a table goes on to it.
const fewRows = 3

// worthAPage are the rows for which a table goes on to a last page if less air
// saves it.
const worthAPage = 7

// few says that the last of several pages has fewer than so many rows.
func (s *setter) few(breaks []int, rows, least int) bool {
	return len(breaks) > 0 && rows-breaks[len(breaks)-1] < least
}

// lessAir are the parts to which the air in the rows may go down. Rows to write
// in keep most of it.
func (s *setter) lessAir() []float64 {
	for _, r := range s.table.rows {
		for _, c := range r.cells {
			if c.blank {
				return []float64{0.8}
			}
		}
	}
	return []float64{0.8, 0.6, 0.45}
}

// thinner are rows with so much less air above and below their texts.
func thinner(header laidRow, rows []laidRow, lessMM float64) (laidRow, []laidRow) {
	header.hMM -= 2 * lessMM
	thin := make([]laidRow, len(rows))
	for i, r := range rows {
		r.hMM -= 2 * lessMM
		thin[i] = r
	}
	return header, thin
}

// layAll breaks all texts of the table into lines.
func (s *setter) layAll() (header laidRow, rows []laidRow) {
	rows = make([]laidRow, len(s.table.rows))
	for i, r := range s.table.rows {
		rows[i] = s.lay(r)
	}
	return s.lay(row{cells: titles(s.table.columns), bold: true}), rows
}

// breaks are the rows that begin a further page when each page is filled. Of a
// table with subtotals none are known before it is set.
func (s *setter) breaks(header laidRow, rows []laidRow) []int {
	if s.table.subtotal != nil {
		return nil
	}
	f := s.flow
	room, further := f.room()-header.hMM, f.whole()-header.hMM
	if s.table.onPage != nil {
		further -= partFont.lineMM() + 1 // of the name that flow.further sets
	}
	var at []int
	used := 0.0
	for i, r := range rows {
		if used+r.hMM > room+1e-9 && used > 0 {
			at = append(at, i)
			room, used = further, 0
		}
		used += r.hMM
	}
	return at
}

func sumHeights(rows []laidRow) float64 {
	total := 0.0
	for _, r := range rows {
		total += r.hMM
	}
	return total
}

// least is the width in mm that a table needs so that no word breaks.
func (f *flow) least(t table) float64 {
	if t.pt == 0 {
		t.pt = benchPt
	}
	s := setter{flow: f, table: t}
	_, least := s.needs()
	return sum(least)
}

func titles(columns []column) []cell {
	cells := make([]cell, len(columns))
	for i, c := range columns {
		cells[i].text = c.title
	}
	return cells
}

// A setter sets the rows of one table.
type setter struct {
	flow   *flow
	table  table
	widths []float64 // of the columns with their gutters, mm
}

// A laidRow is a row whose texts are broken into lines.
type laidRow struct {
	row
	lines [][]string
	hMM   float64
}

func (s *setter) font(r row, column int) font {
	return font{bold: r.bold || s.table.columns[column].bold, pt: s.table.pt}
}

// columnWidths gives every column the width of its widest text if there is
// room for all; else the widest give way, as far as their widest word; else
// the widest give way further, and their words break.
func (s *setter) columnWidths() []float64 {
	natural, least := s.needs()
	sumNatural, sumLeast, grow := sum(natural), sum(least), 0.0
	for _, c := range s.table.columns {
		grow += c.grow
	}
	width := s.flow.width()
	switch {
	case sumNatural <= width:
		for i, c := range s.table.columns {
			if grow > 0 {
				natural[i] += (width - sumNatural) * c.grow / grow
			}
		}
		return natural
	case sumLeast <= width:
		return level(least, natural, width)
	}
	return level(make([]float64, len(least)), least, width)
}

// needs is how wide every column would be with its texts on one line, and how
// wide it has to be so that no word breaks.
func (s *setter) needs() (natural, least []float64) {
	d, t := s.flow.doc, s.table
	n := len(t.columns)
	natural, least = make([]float64, n), make([]float64, n)
	measure := func(r row, wrapped bool) {
		for i, c := range r.cells {
			f := s.font(r, i)
			full := d.width(c.text, f)
			word := full
			switch {
			case c.tick:
				full = tickSide(f)
				word = full
			case wrapped || !t.columns[i].whole:
				word = d.widestWord(c.text, f)
			}
			natural[i] = max(natural[i], full+2*gutterMM)
			least[i] = max(least[i], word+2*gutterMM)
		}
	}
	measure(row{cells: titles(t.columns), bold: true}, true)
	for _, r := range t.rows {
		measure(r, false)
	}
	if t.subtotal != nil && len(t.rows) > 0 {
		if r := t.subtotal(0, len(t.rows)); r != nil {
			strong := *r
			strong.bold = true
			measure(strong, false)
		}
	}
	for i, c := range t.columns {
		least[i] = max(least[i], c.least)
		natural[i] = max(natural[i], least[i])
	}
	return natural, least
}

// level shares out a width: every column gets the same, but not less than its
// least nor more than its most. The sum of the leasts must not be above the
// width, nor that of the mosts below it.
func level(least, most []float64, width float64) []float64 {
	shares := make([]float64, len(least))
	low, high := 0.0, width
	for range 50 { // halves the range below any printer's step
		same := (low + high) / 2
		for i := range shares {
			shares[i] = max(least[i], min(most[i], same))
		}
		if sum(shares) > width {
			high = same
		} else {
			low = same
		}
	}
	return shares
}

// widestWord is the width in mm of the widest word of a text.
func (d *doc) widestWord(text string, f font) float64 {
	widest, word := 0.0, 0.0
	for _, r := range d.clean(text) {
		if r == ' ' {
			word = 0
			continue
		}
		word += float64(d.faces.of(f).advance(r))
		widest = max(widest, word)
	}
	return widest * f.pt / 1000 * mmPerPt
}

func tickSide(f font) float64 { return f.pt * 1.1 * mmPerPt }

// lay breaks the texts of a row into lines. A text that would not fit on a
// page of its own goes to the list of long texts.
func (s *setter) lay(r row) laidRow {
	d := s.flow.doc
	laid := laidRow{row: r, lines: make([][]string, len(r.cells))}
	line := font{pt: s.table.pt}.lineMM()
	most := int(s.flow.whole()*0.4/line) + 1
	count := 1
	for i, c := range r.cells {
		if c.text == "" {
			continue
		}
		f := s.font(r, i)
		lines := d.wrap(c.text, f, s.widths[i]-2*gutterMM)
		if len(lines) > most {
			lines = []string{label(d.long.number(d.clean(c.text)))}
		}
		laid.lines[i] = lines
		count = max(count, len(lines))
	}
	laid.hMM = float64(count)*line + 2*s.table.padMM
	return laid
}

// draw sets a row below what is there.
func (s *setter) draw(r laidRow) {
	f := s.flow
	x := f.left()
	for i, c := range r.cells {
		ft := s.font(r.row, i)
		inner := s.widths[i] - 2*gutterMM
		base := f.y + s.table.padMM + ft.ascentMM()
		switch {
		case c.tick:
			side := tickSide(ft)
			f.page.checkbox(x+gutterMM+(inner-side)/2, base-side+0.05*side, side)
		case c.blank:
			f.page.line(x+gutterMM, base+ft.descentMM(), x+gutterMM+inner, base+ft.descentMM(), thin)
		}
		a := s.table.columns[i].align
		at := x + gutterMM + [...]float64{left: 0, centre: inner / 2, right: inner}[a]
		for k, text := range r.lines[i] {
			f.page.text(at, base+float64(k)*ft.lineMM(), text, ft, a)
		}
		x += s.widths[i]
	}
	if r.rule {
		f.page.line(f.left(), f.y, x, f.y, medium)
	}
	f.y += r.hMM
	f.page.line(f.left(), f.y, x, f.y, faint)
}

// header sets the titles of the columns.
func (s *setter) header(h laidRow) {
	s.draw(h)
	s.flow.page.line(s.flow.left(), s.flow.y, s.flow.left()+sum(s.widths), s.flow.y, medium)
}

func (s *setter) subtotal(from, to int) {
	if r := s.subtotalRow(from, to); r != nil {
		s.draw(*r)
	}
}

// subtotalMM is the height that a subtotal will take.
func (s *setter) subtotalMM(from, to int) float64 {
	if r := s.subtotalRow(from, to); r != nil {
		return r.hMM
	}
	return 0
}

func (s *setter) subtotalRow(from, to int) *laidRow {
	if s.table.subtotal == nil {
		return nil
	}
	r := s.table.subtotal(from, to)
	if r == nil {
		return nil
	}
	strong := *r
	strong.bold, strong.rule = true, true
	laid := s.lay(strong)
	return &laid
}

func sum(values []float64) float64 {
	total := 0.0
	for _, v := range values {
		total += v
	}
	return total
}
