package record

import (
	"cmp"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/mark"
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
	Letters    mark.Letters // that the tiles are painted with
}

// reader reads one log.
type reader struct {
	test     *blend.Test
	table    table // of the tiles
	paint    painting
	printed  []printed     // what a row is held against
	decimals []decimalSign // by column
	wrong    int           // marks that were wrong
	hidden   []int         // rows read though a person does not see them
	log      *Log
}

// Read reads a log. The sheets may be in any order and have any name, the
// columns likewise; rows may be sorted, hidden or deleted. Log.Origin says whether the
// log was made for the plan.
//
// A row counts for the tile of its mark. What cannot be read with certainty is skipped,
// cell by cell where that is possible, and is a Complaint with its reason:
//
//   - unknown and ambiguous marks;
//   - rows whose printed cup, percentages, body, repeat or plan code are not those of
//     the mark, as after sorting one column alone, pasting from another log or changing
//     the plan;
//   - rows with more values than heads, and rows below heads in another order;
//   - rows of one tile in one firing that disagree;
//   - values out of range, and numbers that can be read in two ways.
//
// Rows of one tile that agree, or fill each other's blanks, are read once, and a
// complaint says so.
//
// The error says in one line why nothing can be read, or that the log is of
// another test altogether.
func Read(t *blend.Test, sheets []Sheet) (*Log, error) {
	columns := Columns(t.Plan)
	table, otherSheets, err := find(columns, sheets)
	if err != nil {
		return nil, err
	}
	r := reader{test: t, table: table, log: &Log{Sheet: table.sheet.Name, Columns: columns}}
	carried := Carry(sheets)
	r.log.Origin = r.origin(carried)
	r.paint = r.painting(carried)
	r.log.Letters = r.paint.scheme.Letters()
	if r.printed, err = r.printedColumns(); err != nil {
		return nil, err
	}
	if err := r.log.Origin.sameTest(); err != nil {
		return nil, err
	}
	r.decide()
	r.readTiles()
	r.log.Notes = slices.Concat(table.notes(), otherSheets, r.log.Origin.notes(), r.paint.notes, r.rowNotes())
	r.log.Firings = firings(sheets, table.sheet)
	r.readCups(sheets)
	slices.SortStableFunc(r.log.Complaints, func(a, b Complaint) int { return a.Row - b.Row })
	return r.log, nil
}

// readTiles reads every row, and makes one reading of those of one tile in one firing.
func (r *reader) readTiles() {
	var all []Reading
	for i := range r.table.sheet.Rows {
		if it, ok := r.row(i); ok {
			all = append(all, it)
		}
	}
	order := func(a, b Reading) int { return cmp.Or(a.Index-b.Index, strings.Compare(a.Firing, b.Firing)) }
	slices.SortStableFunc(all, order)
	for len(all) > 0 {
		n := 1
		for n < len(all) && order(all[0], all[n]) == 0 {
			n++
		}
		if it, ok := r.merge(all[:n]); ok && r.given(&it) {
			r.log.Readings = append(r.log.Readings, it)
		}
		all = all[n:]
	}
}

// complain adds what is wrong with a row of the table, if anything is.
func (r *reader) complain(row Row, c *Complaint) { r.log.complain(r.table.sheet, row, c) }

func (l *Log) complain(s *Sheet, row Row, c *Complaint) {
	if c != nil {
		c.Sheet, c.Row = s.Name, row.Number
		l.Complaints = append(l.Complaints, *c)
	}
}

// decide settles for each column of numbers which sign is before decimals.
func (r *reader) decide() {
	r.decimals = make([]decimalSign, len(r.table.columns))
	for i, c := range r.table.columns {
		for _, row := range r.table.sheet.Rows {
			if cell := row.cell(r.table.at[i]); cell.Kind == Text && (c.Field == NumberField || c.Field == CoatField) {
				r.decimals[i].learn(cell.text())
			}
		}
	}
}
