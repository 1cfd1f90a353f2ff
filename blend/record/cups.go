package record

import (
	"fmt"
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/measure"
)

// CupField is what a column of the sheet of cups holds.
type CupField string

// The fields of the sheet of cups: what the plan says of a cup, and what was
// done otherwise.
const (
	CupNumber    CupField = "cup"
	PourAsked    CupField = "pour"    // amount of an end glaze, in Unit
	PourEntered  CupField = "poured"  // the amount that it came out as
	DoseAsked    CupField = "dose"    // amount of a series' material, in Unit
	DoseEntered  CupField = "dosed"   // the amount that it came out as
	MishapField  CupField = "mishap"  // one of Mishaps
	CupNoteField CupField = "remarks" // free text
)

// CupColumn is one column of the sheet of cups.
type CupColumn struct {
	Head    string // unique in the sheet
	Field   CupField
	Index   int    // of the end in Test.Ends, or of the series, from 0
	Unit    string // of an amount: "mL" or "g"
	Fill    bool   // filled in by hand
	Choices []string
}

// Mishaps are what can have befallen a cup: its tiles are skipped.
func Mishaps() []string { return []string{"forgotten", "spilled"} }

// CupColumns are the columns of the sheet of cups in order.
func CupColumns(t *blend.Test) []CupColumn {
	all := []CupColumn{{Head: HeadCup, Field: CupNumber}}
	pair := func(name, unit, done string, asked, entered CupField, index int) {
		all = append(all,
			CupColumn{Head: name + " " + unit, Field: asked, Index: index, Unit: unit},
			CupColumn{Head: name + " " + done + " " + unit, Field: entered, Index: index, Unit: unit, Fill: true})
	}
	unit := "mL"
	if t.Plan.Kit.Pour.Unit == measure.Gram {
		unit = "g"
	}
	for i, end := range t.Ends {
		pair(end.Name, unit, "poured", PourAsked, PourEntered, i)
	}
	for i, s := range t.Plan.Blend.Series {
		switch t.Plan.Blend.Method {
		case blend.ByPour:
		case blend.ByStock:
			pair(s.Label()+" stock", "mL", "poured", DoseAsked, DoseEntered, i)
		default:
			pair(s.Label(), "g", "weighed", DoseAsked, DoseEntered, i)
		}
	}
	return append(all,
		CupColumn{Head: HeadMishap, Field: MishapField, Fill: true, Choices: Mishaps()},
		CupColumn{Head: HeadNotes, Field: CupNoteField, Fill: true})
}

// CupEntry is what a log says was done otherwise in one cup.
type CupEntry struct {
	Cup    int
	Row    int      // where it stands
	Poured []Amount // by end, in the unit of its column
	Dosed  []Amount // by series: g, or mL of stock
	Mishap string   // one of Mishaps, or what was typed
	Notes  string
}

// readCups reads the sheet of cups: the one with the most of its heads to fill
// in, beside that of the cups.
func (r *reader) readCups(sheets []Sheet) {
	columns := CupColumns(r.test)
	var best *Sheet
	var at []int
	head, most := 0, 0
	for i := range sheets {
		s := &sheets[i]
		if s.Name == r.log.Sheet {
			continue
		}
		for k := range s.Rows[:min(len(s.Rows), headRows)] {
			places, found := cupHeads(columns, s.Rows[k])
			if places[0] >= 0 && found > most {
				best, at, head, most = s, places, k, found
			}
		}
	}
	if best == nil {
		return
	}
	complain := func(row Row, column, what, right string) {
		r.log.Complaints = append(r.log.Complaints, Complaint{best.Name, row.Number, column, what, right})
	}
	seen := map[int]int{} // row by cup
	for _, row := range best.Rows[head+1:] {
		e := CupEntry{Row: row.Number, Poured: make([]Amount, len(r.test.Ends)), Dosed: make([]Amount, len(r.test.Plan.Blend.Series))}
		given := false
		for i, c := range columns {
			cell := row.cell(at[i])
			if !c.Fill || at[i] < 0 || cell.blank() {
				continue
			}
			given = true
			what, right := "", ""
			switch c.Field {
			case PourEntered:
				e.Poured[c.Index], what, right = cell.amount(&decimalSign{}, new(int))
			case DoseEntered:
				e.Dosed[c.Index], what, right = cell.amount(&decimalSign{}, new(int))
			case MishapField:
				e.Mishap = cell.text()
			case CupNoteField:
				e.Notes = cell.text()
			}
			if what != "" {
				complain(row, c.Head, what, right)
			}
		}
		if !given {
			continue
		}
		cup, what, right := row.cell(at[0]).amount(&decimalSign{}, new(int))
		if e.Cup = int(cup.Value); what != "" || !cup.Given || float64(e.Cup) != cup.Value || e.Cup < 1 || e.Cup > len(r.test.Cells) {
			if what == "" {
				what, right = "the cup does not exist; skipped", "cups are 1 to "+strconv.Itoa(len(r.test.Cells))
			}
			complain(row, HeadCup, what, right)
			continue
		}
		if first, twice := seen[e.Cup]; twice {
			complain(row, HeadCup, fmt.Sprintf("cup %d is in row %d already; skipped", e.Cup, first), "keep one row for each cup")
			continue
		}
		seen[e.Cup] = row.Number
		r.log.Cups = append(r.log.Cups, e)
	}
	slices.SortFunc(r.log.Cups, func(a, b CupEntry) int { return a.Cup - b.Cup })
}

// headRows is in how many rows of a sheet the heads of cups are looked for:
// people put titles and remarks above a table, but not pages of them.
const headRows = 200

// cupHeads finds the columns of a row of heads, and how many of them only the
// sheet of cups has to fill in.
func cupHeads(columns []CupColumn, row Row) (at []int, found int) {
	at = make([]int, len(columns))
	for i, c := range columns {
		at[i] = slices.IndexFunc(row.Cells, func(cell Cell) bool { return cell.Kind == Text && sameFold(cell.Text, c.Head) })
		if at[i] >= 0 && c.Fill && c.Field != CupNoteField {
			found++
		}
	}
	return at, found
}
