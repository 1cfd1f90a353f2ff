package record

import (
	"fmt"
	"slices"
	"strconv"

	"pourboard/blend"
)

// The fields of the sheet of cups beside CellField and NotesField: what the plan
// says of a cup, and what was done otherwise.
const (
	PourAsked   Field = "pour"   // amount of an end glaze
	PourEntered Field = "poured" // the amount that it came out as
	DoseAsked   Field = "dose"   // amount of a series' material, or of its stock
	DoseEntered Field = "dosed"  // the amount that it came out as
	MishapField Field = "mishap" // one of Mishaps
)

// Mishaps are what can have befallen a cup: its tiles are skipped.
func Mishaps() []string { return []string{"forgotten", "spilled"} }

// MadeAgain is written of a cup that was spilled and made a second time, by the
// plan: its tiles count.
const MadeAgain = "made again"

// CupColumns are the columns of the sheet of cups in order; Index is that of the
// end in Test.Ends, or of the series.
func CupColumns(t *blend.Test) []Column {
	all := []Column{{Head: HeadCup, Field: CellField}}
	pair := func(name, unit, done string, asked, entered Field, index int) {
		all = append(all,
			Column{Head: name + " " + unit, Field: asked, Index: index},
			Column{Head: name + " " + done + " " + unit, Field: entered, Index: index, Fill: true})
	}
	for i, end := range t.Ends {
		pair(end.Name, string(t.Plan.Kit.Pour.Unit), "poured", PourAsked, PourEntered, i)
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
		Column{Head: HeadMishap, Field: MishapField, Fill: true, Choices: append(Mishaps(), MadeAgain)},
		Column{Head: HeadNotes, Field: NotesField, Fill: true})
}

// CupEntry is what a log says was done otherwise in one cup.
type CupEntry struct {
	Cup    int
	Poured []Amount // by end, in the unit of its column
	Dosed  []Amount // by series: g, or mL of stock
	Mishap string   // one of Mishaps, or what was typed
	Notes  string
}

// Lost reports whether the cup's tiles are skipped: it has one of Mishaps, as
// phones write it too.
func (e CupEntry) Lost() bool {
	return slices.ContainsFunc(Mishaps(), func(m string) bool { return m == fold(e.Mishap) })
}

// Noted is what was written of a cup and changes nothing: its notes, and any word
// in place of a mishap, such as MadeAgain.
func (e CupEntry) Noted() string {
	switch {
	case e.Mishap == "" || e.Lost():
		return e.Notes
	case e.Notes == "":
		return e.Mishap
	}
	return e.Mishap + "; " + e.Notes
}

// headRows is in how many rows of a sheet the heads of cups are looked for:
// people put titles and remarks above a table, but not pages of them.
const headRows = 200

// readCups reads the sheet of cups: the one with the most of its heads to fill
// in beside that of the cups.
func (r *reader) readCups(sheets []Sheet) {
	h := headingsOf(CupColumns(r.test))
	var best table
	for i := range sheets {
		s := &sheets[i]
		if s.Name == r.log.Sheet {
			continue
		}
		for k := range s.Rows[:min(len(s.Rows), headRows)] {
			at, _, fills, _ := h.read(s.Rows[k])
			if at[len(at)-1] >= 0 { // many a sheet has a column of notes
				fills--
			}
			if at[0] >= 0 && fills > best.found {
				best = table{sheet: s, head: k, at: at, found: fills}
			}
		}
	}
	if best.sheet == nil {
		return
	}
	r.table = &best
	rows := map[int]int{} // by cup
	for _, row := range best.sheet.Rows[best.head+1:] {
		if !best.filled(h.columns, row) {
			continue
		}
		e := r.cupEntry(row, h.columns)
		cup, fault := row.cell(best.at[0]).amount(&decimalSign{})
		e.Cup = int(cup.Value)
		switch {
		case fault.What != "":
		case !cup.Given || float64(e.Cup) != cup.Value || e.Cup < 1 || e.Cup > len(r.test.Cells):
			fault = Complaint{What: "the cup does not exist; skipped", Right: "cups are 1 to " + strconv.Itoa(len(r.test.Cells))}
		case rows[e.Cup] > 0:
			fault = Complaint{What: fmt.Sprintf("cup %d is in row %d already; skipped", e.Cup, rows[e.Cup]), Right: "keep one row for each cup"}
		}
		if fault.What != "" {
			fault.Column = HeadCup
			r.complain(row.Number, fault)
			continue
		}
		rows[e.Cup] = row.Number
		r.log.Cups = append(r.log.Cups, e)
	}
	slices.SortFunc(r.log.Cups, func(a, b CupEntry) int { return a.Cup - b.Cup })
}

// cupEntry reads what is filled in of a cup.
func (r *reader) cupEntry(row Row, columns []Column) CupEntry {
	e := CupEntry{Poured: make([]Amount, len(r.test.Ends)), Dosed: make([]Amount, len(r.test.Plan.Blend.Series))}
	for i, c := range columns {
		cell := row.cell(r.table.at[i])
		var fault Complaint
		switch c.Field {
		case PourEntered:
			e.Poured[c.Index], fault = cell.amount(&decimalSign{})
		case DoseEntered:
			e.Dosed[c.Index], fault = cell.amount(&decimalSign{})
		case MishapField:
			e.Mishap = cell.text()
		case NotesField:
			e.Notes = cell.text()
		}
		if fault.What != "" {
			fault.Column = c.Head
			r.complain(row.Number, fault)
		}
	}
	return e
}
