package record

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

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
	blend.Done        // amounts poured, in the unit of their column, and dosed
	Mishap     string // one of Mishaps, or what was typed
	Notes      string
}

// Lost reports whether the cup's tiles are skipped: it has one of Mishaps, as
// phones write it too.
func (e CupEntry) Lost() bool { return slices.Contains(Mishaps(), fold(e.Mishap)) }

// Noted is what was written of a cup and changes nothing: its notes, and any word
// in place of a mishap, such as MadeAgain.
func (e CupEntry) Noted() string {
	if e.Lost() {
		return e.Notes
	}
	return strings.Trim(e.Mishap+"; "+e.Notes, "; ")
}

// Done is what was really poured and dosed, for blend.Test.AsDone.
func (l *Log) Done() (all []blend.Done) {
	for _, e := range l.Cups {
		if len(e.Poured)+len(e.Dosed) > 0 {
			all = append(all, e.Done)
		}
	}
	return all
}

// Lost are the cups that were forgotten or spilled, by number.
func (l *Log) Lost() (cups []int) {
	for _, e := range l.Cups {
		if e.Lost() {
			cups = append(cups, e.Cup)
		}
	}
	return cups
}

// readCups reads the sheet of cups: the one with the most of its heads to fill
// in beside that of the cups. Many a sheet has a column of notes, which do not count.
func (r *reader) readCups(sheets []Sheet) {
	columns := CupColumns(r.test)
	by := heads(columns)
	var best table
	most := 0
	for i := range sheets {
		s := &sheets[i]
		if s.Name == r.table.sheet.Name {
			continue
		}
		for head := range s.Rows {
			t := tableAt(s, head, columns, by)
			if n := t.count(func(c Column) bool { return c.Fill && c.Field != NotesField }); t.at[0] >= 0 && n > most {
				best, most = t, n
			}
		}
	}
	if most == 0 {
		return
	}
	rows, cups := map[int]int{}, len(r.test.Cells) // rows by cup
	for _, row := range best.sheet.Rows[best.head+1:] {
		if !best.filled(row) {
			continue
		}
		typed := best.cell(row, CellField)
		switch n := typed.whole(); {
		case n == 0 || n > cups:
			what, fix := fmt.Sprintf("%q is not a cup", short(typed.Text)), "cups are 1 to "+strconv.Itoa(cups)
			r.log.complain(best.sheet, row, skipped(HeadCup, what, fix))
		case rows[n] > 0:
			what := fmt.Sprintf("cup %d is in row %d already", n, rows[n])
			r.log.complain(best.sheet, row, skipped(HeadCup, what, "keep one row for each cup"))
		default:
			rows[n] = row.Number
			r.log.Cups = append(r.log.Cups, r.cupEntry(&best, row, n))
		}
	}
	slices.SortFunc(r.log.Cups, func(a, b CupEntry) int { return a.Cup - b.Cup })
}

// cupEntry reads what is filled in of a cup.
func (r *reader) cupEntry(t *table, row Row, cup int) CupEntry {
	e := CupEntry{Done: blend.Done{Cup: cup, Poured: map[int]float64{}, Dosed: map[int]float64{}}}
	amount := func(cell Cell, c Column, into map[int]float64) {
		a, fault := cell.amount(&decimalSign{})
		switch {
		case a.Given && a.Value < 0:
			fault = skipped("", short(cell.Text)+" is negative", "0 or more")
		case a.Given:
			into[c.Index] = a.Value
		}
		if fault != nil {
			fault.Column = c.Head
		}
		r.log.complain(t.sheet, row, fault)
	}
	for i, c := range t.columns {
		switch cell := row.cell(t.at[i]); c.Field {
		case PourEntered:
			amount(cell, c, e.Poured)
		case DoseEntered:
			amount(cell, c, e.Dosed)
		case MishapField:
			e.Mishap = cell.text()
		case NotesField:
			e.Notes = cell.text()
		}
	}
	return e
}
