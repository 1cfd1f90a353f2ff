package record

import (
	"fmt"
	"slices"
	"strings"
)

// headRows is in how many rows of a sheet its heads are looked for: people put
// titles and remarks above a table, but not pages of them.
const headRows = 200

// table is the sheet of tiles with the places of its heads.
type table struct {
	sheet *Sheet
	head  int   // index into sheet.Rows
	at    []int // for each column of the plan its column in the sheet, -1 when it is not there
	found int   // how many are there
	rows  int   // how many rows have something filled in
}

// find looks for the sheet of tiles: the one with the most heads, and of those
// that are alike in it, as copies are, the one with the most rows filled in.
// others are the sheets that have something filled in too.
func find(columns []Column, sheets []Sheet) (best table, others []string, err error) {
	byHead := map[string]int{}
	for i, c := range columns {
		byHead[fold(c.Head)] = i
	}
	for head, field := range earlierHeads() {
		if _, taken := byHead[fold(head)]; !taken {
			byHead[fold(head)] = slices.IndexFunc(columns, func(c Column) bool { return c.Field == field })
		}
	}
	var all []table
	nearest, nearestFound := "", 0
	for i := range sheets {
		t, unmarked := findHeads(columns, byHead, &sheets[i])
		if t.found > 0 {
			t.count(columns)
			all = append(all, t)
		}
		if unmarked > nearestFound {
			nearest, nearestFound = sheets[i].Name, unmarked
		}
	}
	if len(all) == 0 {
		if nearestFound >= 2 {
			return table{}, nil, fmt.Errorf("%sno column %q: every row of a log begins with the mark of its tile", inSheet(nearest), HeadMark)
		}
		return table{}, nil, fmt.Errorf("no sheet with a row of heads such as %s", headList(columns))
	}
	slices.SortStableFunc(all, func(a, b table) int {
		if a.found != b.found {
			return b.found - a.found
		}
		return b.rows - a.rows
	})
	for _, t := range all[1:] {
		if t.rows > 0 {
			others = append(others, t.sheet.Name)
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

// findHeads finds the row with the most heads, that of the marks among them.
// unmarked is the most heads in a row when no row has that of the marks.
func findHeads(columns []Column, byHead map[string]int, s *Sheet) (best table, unmarked int) {
	mark := slices.IndexFunc(columns, func(c Column) bool { return c.Field == MarkField })
	for r := range s.Rows[:min(headRows, len(s.Rows))] {
		at := make([]int, len(columns))
		for i := range at {
			at[i] = -1
		}
		found, fills := 0, 0
		for column, cell := range s.Rows[r].Cells {
			if cell.Kind != Text {
				continue
			}
			if i, ok := byHead[fold(cell.Text)]; ok && at[i] < 0 {
				at[i] = column
				found++
				if columns[i].Fill {
					fills++
				}
			}
		}
		switch {
		case at[mark] < 0:
			unmarked = max(unmarked, found)
		case fills > 0 && found > best.found:
			best = table{sheet: s, head: r, at: at, found: found}
		}
	}
	if best.found > 0 {
		unmarked = 0
	}
	return best, unmarked
}

// count counts the rows with something filled in.
func (t *table) count(columns []Column) {
	for r := range t.sheet.Rows {
		if r != t.head && t.filled(columns, t.sheet.Rows[r]) {
			t.rows++
		}
	}
}

// filled reports whether something stands in a column that is filled in by hand.
func (t *table) filled(columns []Column, r Row) bool {
	for i, c := range columns {
		if c.Fill && c.Field != FiringField && t.at[i] >= 0 && !r.cell(t.at[i]).blank() {
			return true
		}
	}
	return false
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
	say("columns that are missing: ", missing)
	say("columns that the log does not know and that are not read: ", extra)
	say("columns that stand there twice and are read where they stand first: ", twice)
	return notes
}
