package record

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend/mark"
)

// table is a row of heads in a sheet, with the rows below it as far as the next
// row of heads, and for the first also those above.
type table struct {
	sheet    *Sheet
	head     int   // index into sheet.Rows
	from, to int   // rows of the table, its heads among them
	at       []int // for each column of the plan its column in the sheet, -1 when it is not there
	found    int   // how many are there
	rows     int   // how many rows have something filled in
}

// headings finds the columns of a plan by their heads.
type headings struct {
	columns []Column
	byHead  map[string]int // index into columns, by folded head
}

func headingsOf(columns []Column) headings {
	h := headings{columns, map[string]int{}}
	for i, c := range columns {
		h.byHead[fold(c.Head)] = i
	}
	for head, field := range earlierHeads() {
		if _, taken := h.byHead[fold(head)]; !taken {
			h.byHead[fold(head)] = slices.IndexFunc(columns, func(c Column) bool { return c.Field == field })
		}
	}
	return h
}

// read finds the columns of a row of heads. marked says whether that of the
// marks is among them, and fills how many are for entries.
func (h headings) read(r Row) (at []int, found, fills int, marked bool) {
	at = make([]int, len(h.columns))
	for i := range at {
		at[i] = -1
	}
	for column, cell := range r.Cells {
		if cell.Kind != Text {
			continue
		}
		if i, ok := h.byHead[fold(cell.Text)]; ok && at[i] < 0 {
			at[i] = column
			found++
			if h.columns[i].Fill {
				fills++
			}
			marked = marked || h.columns[i].Field == MarkField
		}
	}
	return at, found, fills, marked
}

// find looks for the tables of tiles: those of the sheet with the most heads in
// a row, and of sheets that are alike in it, as copies are, of the one with the
// most rows filled in. others are the sheets that have something filled in too.
func find(h headings, sheets []Sheet) (best []table, others []string, err error) {
	var all [][]table
	nearest, nearestFound := "", 0
	for i := range sheets {
		tables, unmarked := h.tables(&sheets[i])
		if tables != nil {
			all = append(all, tables)
		} else if unmarked > nearestFound {
			nearest, nearestFound = sheets[i].Name, unmarked
		}
	}
	if len(all) == 0 {
		if nearestFound >= 2 {
			return nil, nil, fmt.Errorf("%sno column %q (each row of a log begins with its tile's mark)", inSheet(nearest), HeadMark)
		}
		return nil, nil, fmt.Errorf("no sheet has column heads such as %s", headList(h.columns))
	}
	most := func(tables []table) (found, rows int) {
		for _, t := range tables {
			found, rows = max(found, t.found), rows+t.rows
		}
		return found, rows
	}
	slices.SortStableFunc(all, func(a, b []table) int {
		foundA, rowsA := most(a)
		foundB, rowsB := most(b)
		if foundA != foundB {
			return foundB - foundA
		}
		return rowsB - rowsA
	})
	for _, tables := range all[1:] {
		if _, rows := most(tables); rows > 0 {
			others = append(others, tables[0].sheet.Name)
		}
	}
	return all[0], others, nil
}

func inSheet(name string) string {
	if name == "" {
		return ""
	}
	return fmt.Sprintf("sheet %q has ", name)
}

func headList(columns []Column) string {
	var heads []string
	for _, c := range columns {
		if c.Field == MarkField || c.Fill {
			heads = append(heads, c.Head)
		}
	}
	return strings.Join(heads[:min(len(heads), 6)], ", ")
}

// tables parts a sheet at its rows of heads: those that have the head of the
// marks and another one to fill in. unmarked is the most heads in a row when no
// row has that of the marks.
func (h headings) tables(s *Sheet) (all []table, unmarked int) {
	for r, row := range s.Rows {
		at, found, fills, marked := h.read(row)
		switch {
		case !marked:
			unmarked = max(unmarked, found)
		case fills > 0:
			all = append(all, table{sheet: s, head: r, from: r, to: len(s.Rows), at: at, found: found})
		}
	}
	for i := range all {
		if i == 0 {
			all[i].from = 0
		} else {
			all[i-1].to = all[i].from
		}
	}
	for i := range all {
		t := &all[i]
		for r := t.from; r < t.to; r++ {
			if r != t.head && t.filled(h.columns, s.Rows[r]) {
				t.rows++
			}
		}
	}
	return all, unmarked
}

// filled reports whether something is in a column that is filled in by hand.
func (t *table) filled(columns []Column, r Row) bool {
	for i, c := range columns {
		if c.Fill && c.Field != FiringField && t.at[i] >= 0 && !r.cell(t.at[i]).blank() {
			return true
		}
	}
	return false
}

// headed is the column below a head, -1 where there is none.
func (t *table) headed(head string) int {
	return slices.IndexFunc(t.sheet.Rows[t.head].Cells, func(c Cell) bool { return c.Kind == Text && fold(c.Text) == fold(head) })
}

// cell is a row's cell in the only column of a field.
func (t *table) cell(columns []Column, row Row, field Field) Cell {
	for i, c := range columns {
		if c.Field == field {
			return row.cell(t.at[i])
		}
	}
	return Cell{}
}

// misplaced says why a row's values are not below their heads, or nothing. A CSV
// of which every row has as many blank fields too many ends its lines with the
// sign between fields.
func (t *table) misplaced(row Row, scheme mark.Scheme) Complaint {
	for _, cell := range row.Cells {
		if cell.Kind == Text && strings.Contains(cell.Text, "\n") && t.sheet.Name == "" && swallows(cell.Text, scheme) {
			return Complaint{What: "a value runs over several lines; skipped", Right: "close its quotation mark"}
		}
	}
	heads := t.sheet.Rows[t.head].Width
	if row.Width <= heads || heads == 0 {
		return Complaint{}
	}
	beyond := slices.ContainsFunc(row.Cells[min(heads, len(row.Cells)):], func(c Cell) bool { return !c.blank() })
	uneven := func(other Row) bool { return other.Width != row.Width }
	if !beyond && !slices.ContainsFunc(t.sheet.Rows[t.head+1:t.to], uneven) {
		return Complaint{}
	}
	return Complaint{What: fmt.Sprintf("%d values below %d heads; skipped", row.Width, heads), Right: `put a value with a comma in quotes: "3,5"`}
}

// swallows reports whether a field of several lines has a mark at the beginning
// of one of them.
func swallows(text string, scheme mark.Scheme) bool {
	return slices.ContainsFunc(strings.Split(text, "\n")[1:], func(line string) bool {
		first := strings.FieldsFunc(line, func(r rune) bool { return strings.ContainsRune(",;\t", r) })
		if len(first) == 0 {
			return false
		}
		_, err := scheme.Read(strings.Trim(first[0], `" `))
		return err == nil
	})
}

// notes says which heads are missing, and which the log does not know.
func (t *table) notes(columns []Column) []string {
	var notes, missing, extra, twice []string
	for i, c := range columns {
		if c.Fill && c.Field != FiringField && t.at[i] < 0 {
			missing = append(missing, c.Head)
		}
	}
	known := map[string]int{}
	for i, c := range columns {
		known[fold(c.Head)] = t.at[i]
	}
	for column, cell := range t.sheet.Rows[t.head].Cells {
		if cell.blank() || slices.Contains(t.at, column) || slices.Contains(ignoredHeads(), cell.text()) {
			continue
		}
		if _, ok := known[fold(cell.Text)]; ok && cell.Kind == Text {
			twice = append(twice, short(cell.Text))
		} else {
			extra = append(extra, short(cell.Text))
		}
	}
	say := func(text string, heads []string) {
		if n := len(heads); n > 8 {
			heads = append(heads[:8:8], fmt.Sprintf("and %d more", n-8))
		}
		if len(heads) > 0 {
			notes = append(notes, text+strings.Join(heads, ", "))
		}
	}
	say("missing columns: ", missing)
	say("unknown columns, skipped: ", extra)
	say("columns given twice; the first is read: ", twice)
	return notes
}

// headless are the columns beside those with heads in which a row has something.
func (t *table) headless(row Row) (all []int) {
	heads := t.sheet.Rows[t.head]
	for column, cell := range row.Cells {
		if !cell.blank() && heads.cell(column).blank() {
			all = append(all, column)
		}
	}
	return all
}
