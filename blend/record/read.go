package record

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/blend/quantity"
)

// Log is what was read from a filled-in log.
type Log struct {
	Sheet      string      // the sheet with the tiles; empty for CSV
	Columns    []Column    // those of the plan
	Readings   []Reading   // of the tiles with something filled in, in the order of the tiles and then of the firings
	Complaints []Complaint // in the order of the rows
	Notes      []string    // about the log as a whole, a sentence each
	Firings    []Firing    // in the order of the log
	Cups       []CupEntry  // of the cups that something was done otherwise in, by number
	Origin     Origin
}

// Reading is what a log records of one tile in one firing.
type Reading struct {
	mark.Tile
	Row     int // where it is, the first one when it is in several
	Coats   []Coat
	Firing  string // letter of the firing
	Surface string
	Defects string
	Colour  string
	Rating  int      // 0 when not given
	Numbers []Amount // by the plan's own numbers
	Block   string
	Photo   string
	Notes   string
}

// Coat is what a log records of one coat of a tile: free text, and the number
// that it is when it is one.
type Coat struct {
	Text   string
	Number Amount
}

// mostNearest is for how many wrong marks the nearest valid one is looked for;
// a log with more of them is not that of the plan.
const mostNearest = 40

// entry is a row that was matched with its tile.
type entry struct {
	tile   mark.Tile
	firing string
	row    int
	values []value // by column of the plan
}

// reader reads one log.
type reader struct {
	test    *blend.Test
	paint   painting
	columns []Column
	tables  []table
	log     *Log
	wrong   int // marks that were wrong

	table    *table        // the one that is read
	percents []percentage  // what its rows' percentages are held against
	printed  *blend.Test   // what its cups come to by the log itself; nil where it does not say
	changed  []mismatch    // rows that a change of the plan has left out
	decimals []decimalSign // by column
	typed    []string      // marks in which a letter was taken for a figure
	hidden   []int         // rows read though a person does not see them
}

// Read reads a log. The sheets may be in any order and have any name, the
// columns likewise; rows may be sorted, hidden or deleted, and heads may come
// again, in another order. Log.Origin says whether the log was made for the plan.
//
// A row counts for the tile of its mark. What cannot be read with certainty is
// a Complaint and is skipped, cell by cell where that is possible: unknown marks
// and those that is ambiguous; rows in which the printed cell,
// percentages, body, repeat or plan code are not those of the mark, as after
// sorting one column alone, pasting from another log or changing the plan; rows
// with more values than heads; tiles that are in several rows of one firing
// which differ in what is filled in; values out of range; numbers of a column
// that fits two ways. Tiles in several rows that agree, or of which one fills
// what the other leaves blank, are read once and a complaint says so.
//
// The error says in one line why nothing can be read, or that the log is of
// another test altogether.
func Read(t *blend.Test, sheets []Sheet) (*Log, error) {
	columns := Columns(t.Plan)
	tables, others, err := find(headingsOf(columns), sheets)
	if err != nil {
		return nil, err
	}
	r := reader{
		test: t, columns: columns, tables: tables,
		log: &Log{Sheet: tables[0].sheet.Name, Columns: columns},
	}
	carried := Carry(sheets)
	r.paint = choose(paintings(t, carried), columns, tables)
	for _, table := range tables {
		for _, note := range table.notes(columns) {
			if !slices.Contains(r.log.Notes, note) {
				r.log.Notes = append(r.log.Notes, note)
			}
		}
	}
	for _, other := range others {
		r.log.Notes = append(r.log.Notes, fmt.Sprintf("sheet %q has tiles filled in too; skipped, since sheet %q has more", other, r.log.Sheet))
	}
	r.log.Origin = r.origin(carried)
	r.printed = carried.printedBy()
	r.decide()
	entries := map[tileFired][]entry{}
	for i := range tables {
		r.table = &tables[i]
		if r.percents, err = r.percentages(); err != nil {
			return nil, err
		}
		if err := r.anotherTest(); err != nil {
			return nil, err
		}
		r.headless()
		for i := r.table.from; i < r.table.to; i++ {
			if e, ok := r.row(i); ok {
				key := tileFired{e.tile.Index, e.firing}
				entries[key] = append(entries[key], e)
			}
		}
	}
	r.table = &tables[0]
	var keys []tileFired
	for key := range entries {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b tileFired) int {
		return cmp.Or(a.tile-b.tile, strings.Compare(a.firing, b.firing))
	})
	for _, key := range keys {
		if e, ok := r.merge(entries[key]); ok {
			if reading, ok := r.reading(e); ok {
				r.log.Readings = append(r.log.Readings, reading)
			}
		}
	}
	r.log.Notes = slices.Concat(r.log.Notes, r.log.Origin.notes(), r.paint.notes, r.changedNote(), r.rowNotes(), r.log.unlistedWords())
	r.log.Firings = firings(sheets, r.log.Sheet)
	r.readCups(sheets)
	byPlace(r.log.Complaints)
	return r.log, nil
}

// tileFired is a tile, by index, in one firing.
type tileFired struct {
	tile   int
	firing string
}

// complain adds what is wrong with a row.
func (r *reader) complain(row int, c Complaint) {
	c.Sheet, c.Row = r.table.sheet.Name, row
	r.log.Complaints = append(r.log.Complaints, c)
}

// decide settles for each column of numbers which sign is before decimals.
func (r *reader) decide() {
	r.decimals = make([]decimalSign, len(r.columns))
	for i, c := range r.columns {
		if c.Field != NumberField && c.Field != CoatField {
			continue
		}
		for _, t := range r.tables {
			for _, row := range t.sheet.Rows[t.from:t.to] {
				if cell := row.cell(t.at[i]); cell.Kind == Text {
					r.decimals[i].learn(cell.text())
				}
			}
		}
	}
}

// rowNotes says what was decided for columns and marks, and which rows were read
// though a person does not see them.
func (r *reader) rowNotes() (notes []string) {
	for i := range r.decimals {
		if r.decimals[i].decided > 0 {
			notes = append(notes, r.decimals[i].note(r.columns[i].Head))
		}
	}
	if n := len(r.typed); n > 0 {
		notes = append(notes, fmt.Sprintf("letters taken for figures in %s: %s", quantity.Plural(n, "mark", "marks"), strings.Join(r.typed[:min(n, 8)], ", ")))
	}
	if n := len(r.hidden); n > 0 {
		notes = append(notes, fmt.Sprintf("%s read too, the first is row %d", quantity.Plural(n, "hidden row", "hidden rows"), r.hidden[0]))
	}
	return notes
}

// headless complains of what is below no head.
func (r *reader) headless() {
	told := 0
	for i := r.table.head + 1; i < r.table.to; i++ {
		row := r.table.sheet.Rows[i]
		for _, column := range r.table.headless(row) {
			if told++; told > mostHeadless {
				r.complain(row.Number, Complaint{What: "more values without a column head; skipped", Right: "give these columns heads"})
				return
			}
			r.complain(row.Number, Complaint{Column: "column " + columnName(column),
				What: fmt.Sprintf("%q has no column head; skipped", short(row.cell(column).Text)), Right: "give the column a head, or move the value"})
		}
	}
}

// mostHeadless is how many values below no head are reported one by one.
const mostHeadless = 12

// columnName is a column, from 0, as spreadsheet programs letter them.
func columnName(column int) string {
	name := ""
	for column++; column > 0; column = (column - 1) / 26 {
		name = string(rune('A'+(column-1)%26)) + name
	}
	return name
}

// changedNote names the rows of a log of another plan whose mixture is not
// what their mark means now.
func (r *reader) changedNote() []string {
	if r.changed == nil {
		return nil
	}
	cells := make([]int, len(r.changed))
	for i, m := range r.changed {
		cells[i] = m.cell
	}
	slices.Sort(cells)
	rows := quantity.Plural(len(r.changed), "row", "rows") + " skipped"
	first := r.changed[0]
	return []string{fmt.Sprintf("%s, of %s: the mark now means another mixture (row %d: %s %s)",
		rows, quantity.Cups(slices.Compact(cells), 20), first.row, first.fault.Column, first.fault.Right)}
}
