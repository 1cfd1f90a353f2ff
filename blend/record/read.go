package record

import (
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
	Readings   []Reading   // of the tiles with something filled in, in the order of the tiles
	Complaints []Complaint // in the order of the rows
	Notes      []string    // about the log as a whole, a sentence each
	Firing     []Entry
	Origin     Origin
}

// Reading is what a log says of one tile.
type Reading struct {
	mark.Tile
	Row     int // where it stands, the first one when it stands in several
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

// Coat is what a log says of one coat of a tile: free text, and the number
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
	row    int
	values []value // by column of the plan
}

// reader reads one log.
type reader struct {
	test    *blend.Test
	scheme  mark.Scheme
	columns []Column
	table   table
	log     *Log
	wrong   int // marks that were wrong

	percents []percentage // what the rows' percentages are held against
	changed  []mismatch   // rows that a change of the plan has left out
}

// Read reads a log. The sheets may stand in any order and have any name, the
// columns likewise; rows may be sorted, hidden or deleted. fingerprint and
// outline are those of the plan (package blend/plan); Log.Origin says whether
// the log's are the same.
//
// A row counts for the tile of its mark. What cannot be read with certainty is
// a Complaint and is left out, cell by cell where that is possible: unknown
// marks; rows in which the printed cell, percentages, body or repeat are not
// those of the mark, as after sorting one column alone or changing the plan;
// tiles that stand in several rows which differ in what is filled in; values out
// of range; numbers that can be read in two ways. Tiles in several rows that
// agree, or of which one fills what the other leaves blank, are read once and a
// complaint says so.
//
// The error says in one line why nothing can be read, or that the log is of
// another test altogether.
func Read(t *blend.Test, scheme mark.Scheme, sheets []Sheet, fingerprint string, outline []string) (*Log, error) {
	columns := Columns(t.Plan)
	found, others, err := find(columns, sheets)
	if err != nil {
		return nil, err
	}
	r := reader{
		test: t, scheme: scheme, columns: columns, table: found,
		log: &Log{Sheet: found.sheet.Name, Columns: columns, Notes: found.notes(columns)},
	}
	for _, other := range others {
		r.log.Notes = append(r.log.Notes, fmt.Sprintf("sheet %q has tiles filled in too and is not read, for sheet %q has more", other, found.sheet.Name))
	}
	r.log.Origin = originOf(sheets, fingerprint, outline)
	r.percents = r.percentages(r.log.Origin, outline)
	if err := r.anotherTest(r.log.Origin, outline); err != nil {
		return nil, err
	}
	entries := make([][]entry, r.scheme.Tiles())
	for i := range found.sheet.Rows {
		if e, ok := r.row(i); ok {
			entries[e.tile.Index] = append(entries[e.tile.Index], e)
		}
	}
	for _, same := range entries {
		if e, ok := r.merge(same); ok {
			if reading, ok := r.reading(e); ok {
				r.log.Readings = append(r.log.Readings, reading)
			}
		}
	}
	byPlace(r.log.Complaints)
	r.log.Notes = append(r.log.Notes, r.log.Origin.notes()...)
	r.log.Notes = append(r.log.Notes, r.changedNote()...)
	r.log.Notes = append(r.log.Notes, r.log.strangeWords()...)
	r.log.Firing = firing(sheets, found.sheet)
	return r.log, nil
}

func (r *reader) complain(row int, column, what, right string) {
	r.log.Complaints = append(r.log.Complaints, Complaint{r.table.sheet.Name, row, column, what, right})
}

// row matches a row with its tile and reads what is filled in.
func (r *reader) row(i int) (entry, bool) {
	row := r.table.sheet.Rows[i]
	mark := r.cellOf(row, MarkField)
	above := i < r.table.head // a title perhaps; a sheet sorted heads and all has tiles here
	switch {
	case i == r.table.head || mark.Kind == Text && fold(mark.Text) == fold(HeadMark):
		return entry{}, false
	case mark.blank():
		if !above && r.table.filled(r.columns, row) {
			r.complain(row.Number, HeadMark, "the row has no mark and is left out", "the mark painted on the tile")
		}
		return entry{}, false
	}
	tile, ok := r.tile(row.Number, mark, above)
	if !ok || !r.agrees(row, tile) {
		return entry{}, false
	}
	e := entry{tile: tile, row: row.Number, values: make([]value, len(r.columns))}
	for i, c := range r.columns {
		if !c.Fill || r.table.at[i] < 0 {
			continue
		}
		v, what, right := c.read(row.cell(r.table.at[i]))
		if what != "" {
			r.complain(row.Number, c.Head, what, right)
		}
		e.values[i] = v
	}
	return e, true
}

// cellOf is a row's cell in the only column of a field.
func (r *reader) cellOf(row Row, field Field) Cell {
	for i, c := range r.columns {
		if c.Field == field {
			return row.cell(r.table.at[i])
		}
	}
	return Cell{}
}

// tile finds the tile of a mark, and complains unless it may be a title.
func (r *reader) tile(row int, read Cell, title bool) (mark.Tile, bool) {
	if read.Kind == Text || read.Kind == Number {
		tile, err := r.scheme.Read(read.Text)
		if err == nil {
			return tile, true
		}
		if !title {
			r.complain(row, HeadMark, err.Error()+"; the row is left out", r.nearest(read.Text))
		}
		return mark.Tile{}, false
	}
	switch {
	case title:
	case read.Kind == Date:
		r.complain(row, HeadMark, fmt.Sprintf("%s is a date, not a mark; the row is left out", short(read.Text)),
			"the mark as text: spreadsheet programs take marks such as MAR1 for a day")
	case read.Kind == Stale || read.Kind == Fault:
		what, _, _ := read.fault()
		r.complain(row, HeadMark, what+" and the row with it", "marks are "+r.scheme.Form())
	default:
		r.complain(row, HeadMark, fmt.Sprintf("%q is not a mark; the row is left out", short(read.Text)), "marks are "+r.scheme.Form())
	}
	return mark.Tile{}, false
}

// nearest names the valid marks that are nearest to a wrong one.
func (r *reader) nearest(mark string) string {
	if r.wrong++; r.wrong > mostNearest {
		return ""
	}
	near := r.scheme.Nearest(mark, 4)
	if len(near) == 0 {
		return ""
	}
	var names []string
	for _, n := range near {
		if n.Penalty > near[0].Penalty {
			break
		}
		names = append(names, n.Mark)
	}
	if len(names) == 1 {
		return fmt.Sprintf("nearest is %s, cup %d on %s", names[0], near[0].Cell, r.test.Plan.Tiles.Bodies[near[0].Body])
	}
	if len(names) > 3 {
		return "nearest are " + strings.Join(names[:3], ", ") + " and others"
	}
	return "nearest are " + strings.Join(names, ", ")
}

// agrees reports whether what is printed in a row is what belongs to its mark.
func (r *reader) agrees(row Row, tile mark.Tile) bool {
	good := true
	differs := func(field Field, reads, right string) {
		good = false
		r.complain(row.Number, r.head(field), fmt.Sprintf("it reads %q, which is not what belongs to mark %s; the row is left out", short(reads), tile.Mark), right)
	}
	number := func(field Field, want int) {
		cell := r.cellOf(row, field)
		if cell.blank() {
			return
		}
		x := cell.Number
		if cell.Kind == Text {
			var ambiguous bool
			if x, ambiguous, _ = parseNumber(cell.Text); ambiguous {
				return // 1,234 may well be cell 1234
			}
		}
		if x != float64(want) {
			differs(field, cell.Text, fmt.Sprintf("%s is %s %d", tile.Mark, field, want))
		}
	}
	number(CellField, tile.Cell)
	number(RepeatField, tile.Repeat+1)
	body := r.test.Plan.Tiles.Bodies[tile.Body]
	if cell := r.cellOf(row, BodyField); !cell.blank() && fold(cell.Text) != fold(body) {
		differs(BodyField, cell.Text, fmt.Sprintf("%s is %s", tile.Mark, body))
	}
	if m, other := r.otherMixture(row, tile); other && good {
		good = false
		switch {
		case !r.log.Origin.Other:
			r.complain(row.Number, m.head, "it "+m.says+"; the row is left out", "the percentages as they were printed, or the mark that belongs to them")
		case r.table.filled(r.columns, row):
			r.changed = append(r.changed, m)
		}
	}
	return good
}

// changedNote tells of the rows of a log of another plan whose mixture is not
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
	rows := "1 row is left out"
	if n := len(r.changed); n > 1 {
		rows = fmt.Sprintf("%d rows are left out", n)
	}
	first := r.changed[0]
	return []string{fmt.Sprintf("%s, of %s: the mark means another mixture now (row %d: %s %s)",
		rows, quantity.Cups(slices.Compact(cells), 20), first.row, first.head, first.says)}
}

// head is the head of the only column of a field.
func (r *reader) head(field Field) string {
	for _, c := range r.columns {
		if c.Field == field {
			return c.Head
		}
	}
	return string(field)
}

// merge makes one entry of the rows of one tile.
func (r *reader) merge(same []entry) (entry, bool) {
	switch len(same) {
	case 0:
		return entry{}, false
	case 1:
		return same[0], true
	}
	one := entry{tile: same[0].tile, row: same[0].row, values: make([]value, len(r.columns))}
	var rows []string
	for _, e := range same {
		one.row = min(one.row, e.row)
		rows = append(rows, fmt.Sprint(e.row))
	}
	var differ []string
	for i, c := range r.columns {
		for _, e := range same {
			switch v := e.values[i]; {
			case v.key == "":
			case one.values[i].key == "":
				one.values[i] = v
			case one.values[i].key != v.key:
				differ = append(differ, c.Head)
			}
			if len(differ) > 0 && differ[len(differ)-1] == c.Head {
				break
			}
		}
	}
	where := strings.Join(rows[:min(len(rows), 8)], ", ")
	if len(rows) > 8 {
		where += fmt.Sprintf(" and %d more", len(rows)-8)
	}
	if len(differ) > 0 {
		r.complain(one.row, HeadMark, fmt.Sprintf("%s stands in rows %s, which differ in %s; all are left out", one.tile.Mark, where, strings.Join(differ, ", ")),
			"one row for each tile")
		return entry{}, false
	}
	r.complain(one.row, HeadMark, fmt.Sprintf("%s stands in rows %s, which agree; it is read once", one.tile.Mark, where), "one row for each tile")
	return one, true
}

// reading is what an entry says of its tile, if it says anything.
func (r *reader) reading(e entry) (Reading, bool) {
	it := Reading{
		Tile: e.tile, Row: e.row, Firing: FirstFiring,
		Coats: make([]Coat, r.test.Plan.Tiles.Coats), Numbers: make([]Amount, len(r.test.Plan.Log.Numbers)),
	}
	given := false
	for i, c := range r.columns {
		v := e.values[i]
		given = given || c.Field != FiringField && (v.text != "" || v.amount.Given || v.rating != 0)
		switch c.Field {
		case CoatField:
			it.Coats[c.Index] = Coat{v.text, v.amount}
		case SurfaceField:
			it.Surface = v.text
		case DefectsField:
			it.Defects = v.text
		case ColourField:
			it.Colour = v.text
		case RatingField:
			it.Rating = v.rating
		case NumberField:
			it.Numbers[c.Index] = v.amount
		case BlockField:
			it.Block = v.text
		case FiringField:
			if v.text != "" {
				it.Firing = v.text
			}
		case PhotoField:
			it.Photo = v.text
		case NotesField:
			it.Notes = v.text
		}
	}
	return it, given
}

// Amount is the number of a reading in a column of ratings, numbers or coats,
// if it has one.
func (c Column) Amount(r *Reading) (Amount, bool) {
	var a Amount
	switch c.Field {
	case RatingField:
		a = Amount{Value: float64(r.Rating), Given: r.Rating != 0}
	case NumberField:
		a = r.Numbers[c.Index]
	case CoatField:
		a = r.Coats[c.Index].Number
	}
	return a, a.Given
}
