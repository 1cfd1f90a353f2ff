package record

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"pourboard/blend/mark"
)

// table is a row of heads in a sheet, with the rows below it as far as the next
// row of heads, and for the first also those above.
type table struct {
	sheet    *Sheet
	columns  []Column // those of the plan
	at       []int    // for each of them its column in the sheet, -1 when it is not there
	head     int      // index into sheet.Rows
	from, to int      // rows of the table, its heads among them
}

// heads are the columns of a plan by their folded heads.
func heads(columns []Column) map[string]int {
	by := map[string]int{}
	for i, c := range columns {
		by[fold(c.Head)] = i
	}
	for head, field := range earlierHeads() {
		if _, taken := by[fold(head)]; !taken {
			by[fold(head)] = slices.IndexFunc(columns, func(c Column) bool { return c.Field == field })
		}
	}
	return by
}

// tableAt takes a row as one of heads.
func tableAt(s *Sheet, head int, columns []Column, by map[string]int) table {
	t := table{sheet: s, columns: columns, at: make([]int, len(columns)), head: head, to: len(s.Rows)}
	for i := range t.at {
		t.at[i] = -1
	}
	for place, cell := range s.Rows[head].Cells {
		if cell.Kind != Text {
			continue
		}
		if i, ok := by[fold(cell.Text)]; ok && t.at[i] < 0 {
			t.at[i] = place
		}
	}
	return t
}

// count is how many columns of a kind are there.
func (t *table) count(kind func(c Column) bool) (n int) {
	for i, c := range t.columns {
		if t.at[i] >= 0 && kind(c) {
			n++
		}
	}
	return n
}

// cell is a row's cell in the only column of a field.
func (t *table) cell(row Row, field Field) Cell {
	for i, c := range t.columns {
		if c.Field == field {
			return row.cell(t.at[i])
		}
	}
	return Cell{}
}

// filled reports whether something is in a column that is filled in by hand.
func (t *table) filled(row Row) bool {
	for i, c := range t.columns {
		if c.Fill && c.Field != FiringField && !row.cell(t.at[i]).blank() {
			return true
		}
	}
	return false
}

// find looks for the tables of tiles, whose heads are that of the marks and another
// one to fill in: those of the sheet with the most heads in a row, and of sheets
// that are alike in it, as copies are, of the one with the most rows filled in.
// others are the sheets that have something filled in too.
func find(columns []Column, sheets []Sheet) (best []table, others []string, err error) {
	type candidate struct {
		tables      []table
		heads, rows int // found; filled in
	}
	by := heads(columns)
	var all []candidate
	for i := range sheets {
		c, s := candidate{}, &sheets[i]
		for head := range s.Rows {
			t := tableAt(s, head, columns, by)
			if t.at[0] < 0 || t.count(func(c Column) bool { return c.Fill }) == 0 {
				continue
			}
			if n := len(c.tables); n > 0 {
				c.tables[n-1].to, t.from = head, head
			}
			c.tables = append(c.tables, t)
			c.heads = max(c.heads, t.count(func(Column) bool { return true }))
		}
		for _, t := range c.tables {
			for k := t.from; k < t.to; k++ {
				if k != t.head && t.filled(s.Rows[k]) {
					c.rows++
				}
			}
		}
		if c.tables != nil {
			all = append(all, c)
		}
	}
	if all == nil {
		return nil, nil, fmt.Errorf("no sheet has a row of heads such as %s, Rating, Surface (keep the heads of the log)", HeadMark)
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Or(b.heads-a.heads, b.rows-a.rows) })
	for _, c := range all[1:] {
		if c.rows > 0 {
			others = append(others, c.tables[0].sheet.Name)
		}
	}
	return all[0].tables, others, nil
}

// misplaced says why a row's values are not below their heads, or nothing. A CSV
// of which every row has as many blank fields too many ends its lines with the
// sign between fields.
func (t *table) misplaced(row Row, scheme mark.Scheme) Complaint {
	for _, cell := range row.Cells {
		if t.sheet.Name == "" && cell.Kind == Text && swallows(cell.Text, scheme) {
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
		first, _, _ := strings.Cut(strings.NewReplacer(";", ",", "\t", ",").Replace(line), ",")
		_, err := scheme.Read(strings.Trim(first, `" `))
		return err == nil
	})
}

// headless is the first value of a row below no head, if there is one.
func (t *table) headless(row Row) (value string, found bool) {
	heads := t.sheet.Rows[t.head]
	for place, cell := range row.Cells {
		if !cell.blank() && heads.cell(place).blank() {
			return short(cell.Text), true
		}
	}
	return "", false
}

// notes say which heads are missing, and which the log does not know or has twice.
func (t *table) notes() (notes []string) {
	var missing, extra []string
	for i, c := range t.columns {
		if c.Fill && c.Field != FiringField && t.at[i] < 0 {
			missing = append(missing, c.Head)
		}
	}
	for place, cell := range t.sheet.Rows[t.head].Cells {
		if !cell.blank() && !slices.Contains(t.at, place) {
			extra = append(extra, short(cell.Text))
		}
	}
	say := func(text string, heads []string) {
		if n := len(heads); n > 8 {
			heads = append(heads[:8:8], fmt.Sprintf("and %d more", n-8))
		}
		if heads != nil {
			notes = append(notes, text+strings.Join(heads, ", "))
		}
	}
	say("missing columns: ", missing)
	say("unknown or repeated columns, skipped: ", extra)
	return notes
}
