package record

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"pourboard/blend/mark"
)

// table is a sheet with a row of heads.
type table struct {
	sheet   *Sheet
	columns []Column // those of the plan
	at      []int    // for each of them its column in the sheet, -1 when it is not there
	head    int      // index into sheet.Rows
	end     int      // index of the next row of heads in another order
}

// heads are the columns of a plan by their folded heads.
func heads(columns []Column) map[string]int {
	by := map[string]int{}
	for i, c := range columns {
		by[fold(c.Head)] = i
	}
	if _, taken := by["cell"]; !taken { // the column's head in logs of earlier versions
		by["cell"] = slices.IndexFunc(columns, func(c Column) bool { return c.Field == CellField })
	}
	return by
}

// tableAt takes a row as one of heads.
func tableAt(s *Sheet, head int, columns []Column, by map[string]int) table {
	t := table{sheet: s, columns: columns, at: slices.Repeat([]int{-1}, len(columns)), head: head, end: len(s.Rows)}
	for place, cell := range s.Rows[head].Cells {
		if i, ok := by[fold(cell.Text)]; ok && cell.Kind == Text && t.at[i] < 0 {
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
	return row.cell(t.at[slices.IndexFunc(t.columns, func(c Column) bool { return c.Field == field })])
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

// filledRows is how many rows have something filled in.
func (t *table) filledRows() (n int) {
	for i, row := range t.sheet.Rows {
		if i != t.head && t.filled(row) {
			n++
		}
	}
	return n
}

// find looks for the table of tiles: the first row of a sheet with the head of the marks
// and another one to fill in. It takes the one with the most heads, of sheets that are
// alike in it, as copies are, the one with the most rows filled in. notes name other
// sheets that have something filled in too.
func find(columns []Column, sheets []Sheet) (best table, notes []string, err error) {
	by := heads(columns)
	var all []table // one for each sheet that has any
	for i := range sheets {
		first := true
		for head := range sheets[i].Rows {
			t := tableAt(&sheets[i], head, columns, by)
			switch last := len(all) - 1; {
			case t.at[0] < 0 || t.count(func(c Column) bool { return c.Fill }) == 0:
			case first:
				all, first = append(all, t), false
			case !slices.Equal(t.at, all[last].at):
				all[last].end = min(all[last].end, head)
			}
		}
	}
	if all == nil {
		const fault = "no sheet has a row of heads such as Mark, Rating, Surface (keep the heads of the log)"
		return table{}, nil, errors.New(fault)
	}
	everyHead := func(Column) bool { return true }
	slices.SortStableFunc(all, func(a, b table) int {
		return cmp.Or(b.count(everyHead)-a.count(everyHead), b.filledRows()-a.filledRows())
	})
	for _, t := range all[1:] {
		if t.filledRows() > 0 {
			const note = "sheet %q has tiles filled in too; skipped, since sheet %q has more"
			notes = append(notes, fmt.Sprintf(note, t.sheet.Name, all[0].sheet.Name))
		}
	}
	return all[0], notes, nil
}

// misplaced says why a row's values are not below their heads, or nothing. Where all
// rows of a CSV have the same number of blank fields too many, its lines just end with
// separators.
func (t *table) misplaced(row Row, scheme mark.Scheme) *Complaint {
	for _, cell := range row.Cells {
		if t.sheet.Name == "" && cell.Kind == Text && swallows(cell.Text, scheme) {
			return skipped("", "a value runs over several lines", "close its quotation mark")
		}
	}
	heads := t.sheet.Rows[t.head].Width
	if row.Width <= heads || heads == 0 {
		return nil
	}
	beyond := slices.ContainsFunc(row.Cells[min(heads, len(row.Cells)):], func(c Cell) bool { return !c.blank() })
	uneven := func(other Row) bool { return other.Width != row.Width }
	if !beyond && !slices.ContainsFunc(t.sheet.Rows[t.head+1:t.end], uneven) {
		return nil
	}
	what := fmt.Sprintf("%d values below %d heads", row.Width, heads)
	return skipped("", what, `put a value with a comma in quotes: "3,5"`)
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

// headless says which value of a row is below no head, if one is.
func (t *table) headless(row Row) *Complaint {
	heads := t.sheet.Rows[t.head]
	for place, cell := range row.Cells {
		if !cell.blank() && heads.cell(place).blank() {
			return &Complaint{
				Column: "column without a head", What: fmt.Sprintf("%q skipped", short(cell.Text)),
				Right: "give the column a head, or move the value",
			}
		}
	}
	return nil
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
	if missing != nil {
		notes = append(notes, "missing columns: "+someOf(missing))
	}
	if extra != nil {
		notes = append(notes, "unknown or repeated columns, skipped: "+someOf(extra))
	}
	return notes
}
