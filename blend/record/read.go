package record

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
)

// Log is what was read from a filled-in log.
type Log struct {
	Sheet      string      // the sheet with the tiles; empty for CSV
	Columns    []Column    // those of the plan
	Readings   []Reading   // of the tiles with something filled in, in the order of the tiles and then of the firings
	Complaints []Complaint // in the order of the rows
	Notes      []string    // about the log as a whole, a sentence each
	Firings    Firings     // in the order of the log
	Cups       []CupEntry  // of the cups that something was done otherwise in, by number
	Origin     Origin
}

// reader reads one log.
type reader struct {
	test     *blend.Test
	columns  []Column
	sheet    *Sheet // with the tables
	tables   []table
	paint    painting
	percents []percentage  // what the percentages of the table that is read are held against
	printed  *blend.Test   // what its cups come to by the log itself; nil where it does not say
	decimals []decimalSign // by column
	wrong    int           // marks that were wrong
	hidden   []int         // rows read though a person does not see them
	log      *Log
}

// Read reads a log. The sheets may be in any order and have any name, the
// columns likewise; rows may be sorted, hidden or deleted, and heads may come
// again, in another order. Log.Origin says whether the log was made for the plan.
//
// A row counts for the tile of its mark. What cannot be read with certainty is
// a Complaint and is skipped, cell by cell where that is possible: unknown marks
// and those that are ambiguous; rows in which the printed cell,
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
	tables, others, err := find(columns, sheets)
	if err != nil {
		return nil, err
	}
	sheet := tables[0].sheet
	r := reader{test: t, columns: columns, tables: tables, sheet: sheet, log: &Log{Sheet: sheet.Name, Columns: columns}}
	carried := Carry(sheets)
	r.paint, r.printed = r.painting(carried), carried.printedBy()
	r.log.Origin = r.origin(carried)
	r.decide()
	type tile struct {
		index  int
		firing string
	}
	readings := map[tile][]Reading{}
	var keys []tile
	var notes []string
	for i := range tables {
		table := &tables[i]
		for _, note := range table.notes() {
			if !slices.Contains(notes, note) {
				notes = append(notes, note)
			}
		}
		if r.percents, err = r.percentages(table); err != nil {
			return nil, err
		}
		if err := r.anotherTest(); err != nil {
			return nil, err
		}
		for i := table.from; i < table.to; i++ {
			if value, found := table.headless(sheet.Rows[i]); found && i > table.head {
				r.complain(sheet, sheet.Rows[i].Number, Complaint{Column: "column without a head", What: fmt.Sprintf("%q skipped", value), Right: "give the column a head, or move the value"})
			}
			if it, ok := r.row(table, i); ok {
				key := tile{it.Index, it.Firing}
				if readings[key] == nil {
					keys = append(keys, key)
				}
				readings[key] = append(readings[key], it)
			}
		}
	}
	slices.SortFunc(keys, func(a, b tile) int { return cmp.Or(a.index-b.index, strings.Compare(a.firing, b.firing)) })
	for _, key := range keys {
		if it, ok := r.merge(readings[key]); ok && r.given(&it) {
			r.log.Readings = append(r.log.Readings, it)
		}
	}
	for _, other := range others {
		notes = append(notes, fmt.Sprintf("sheet %q has tiles filled in too; skipped, since sheet %q has more", other, sheet.Name))
	}
	r.log.Notes = slices.Concat(notes, r.log.Origin.notes(), r.paint.notes, r.rowNotes())
	r.log.Firings = firings(sheets, sheet)
	r.readCups(sheets)
	slices.SortStableFunc(r.log.Complaints, func(a, b Complaint) int { return a.Row - b.Row })
	return r.log, nil
}

// complain adds what is wrong with a row.
func (r *reader) complain(s *Sheet, row int, c Complaint) {
	c.Sheet, c.Row = s.Name, row
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
