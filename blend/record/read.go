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
	r.log.Notes = slices.Concat(r.log.Notes, r.log.Origin.notes(), r.renamedNote(), r.changedNote(), r.rowNotes(), r.log.unlistedWords())
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

// row matches a row with its tile and reads what is filled in.
func (r *reader) row(i int) (entry, bool) {
	row := r.table.sheet.Rows[i]
	read := r.cellOf(row, MarkField)
	if i == r.table.head || read.Kind == Text && sameFold(read.Text, HeadMark) {
		return entry{}, false
	}
	filled := r.table.filled(r.columns, row)
	tile, fault, evidence := r.match(row, read, filled)
	if i < r.table.head && (fault != (Complaint{}) || evidence == 0) { // a title perhaps; a sheet sorted heads and all has tiles here
		if tile.Mark == "" || !filled && len(row.Cells) < 2 {
			return entry{}, false
		}
		fault = Complaint{Column: HeadMark, What: short(read.Text) + " is above the heads; skipped", Right: "move a tile's row below them"}
	}
	switch {
	case fault.What != "":
		r.complain(row.Number, fault)
		return entry{}, false
	case tile.Mark == "":
		return entry{}, false
	case fault.Column != "": // of a changed plan, listed together
		if filled {
			r.changed = append(r.changed, mismatch{row.Number, tile.Cell, fault})
		}
		return entry{}, false
	}
	if row.Hidden && filled {
		r.hidden = append(r.hidden, row.Number)
	}
	if !r.paint.scheme.Literal(read.Text, tile) {
		r.typed = append(r.typed, short(read.Text)+" as "+tile.Mark)
	}
	return r.entry(row, tile), true
}

// entry reads what is filled in of a tile.
func (r *reader) entry(row Row, tile mark.Tile) entry {
	e := entry{tile: tile, firing: FirstFiring, row: row.Number, values: make([]value, len(r.columns))}
	for i, c := range r.columns {
		if !c.Fill || r.table.at[i] < 0 {
			continue
		}
		v, fault := c.read(row.cell(r.table.at[i]), &r.decimals[i])
		if fault.What != "" {
			r.complain(row.Number, fault)
		}
		if c.Field == FiringField && v.text != "" {
			e.firing = firingName(v.text)
		}
		e.values[i] = v
	}
	return e
}

// match is the plan's tile that a row is of, or why it is of none. evidence is how
// many printed cells say so beside the mark. A fault that only names a column is of
// a plan that was changed.
func (r *reader) match(row Row, read Cell, filled bool) (tile mark.Tile, fault Complaint, evidence int) {
	if read.blank() {
		if filled {
			fault = Complaint{Column: HeadMark, What: "the row has no mark; skipped", Right: "enter the mark painted on the tile"}
		}
		return tile, fault, 0
	}
	tile, unread := r.tile(read)
	if row.Struck {
		return tile, Complaint{Column: HeadMark, What: short(read.Text) + " is crossed out; skipped", Right: "remove the line through it to count it"}, 0
	}
	if fault = r.table.misplaced(row, r.paint.scheme); fault.What != "" || unread.What != "" {
		return tile, cmp.Or(fault, unread), 0
	}
	if evidence, fault = r.agrees(row, tile); fault != (Complaint{}) {
		return tile, fault, 0
	}
	tile, fault = r.own(tile)
	return tile, fault, evidence
}

// own is the plan's tile of a tile of the log, painted as it is: bodies may have
// been put in another order since, and repeats been added.
func (r *reader) own(tile mark.Tile) (mark.Tile, Complaint) {
	p := r.test.Plan.Tiles
	repeats := max(p.Repeats, 1)
	body := r.paint.at[tile.Body]
	switch {
	case body < 0:
		return tile, Complaint{Column: r.head(BodyField), What: fmt.Sprintf("%s is on %s, which is no longer in the plan; skipped", tile.Mark, r.paint.bodies[tile.Body])}
	case tile.Repeat >= repeats:
		return tile, Complaint{Column: r.head(RepeatField), What: fmt.Sprintf("%s is repeat %d, but the plan now has %d; skipped", tile.Mark, tile.Repeat+1, repeats)}
	}
	tile.Index = ((tile.Cell-1)*len(p.Bodies)+body)*repeats + tile.Repeat
	tile.Body = body
	return tile, Complaint{}
}

// cellOf is a row's cell in the only column of a field.
func (r *reader) cellOf(row Row, field Field) Cell { return r.table.cell(r.columns, row, field) }

// tile finds the tile of a mark.
func (r *reader) tile(read Cell) (tile mark.Tile, fault Complaint) {
	fault = Complaint{Column: HeadMark, Right: "marks are " + r.paint.scheme.Form()}
	switch read.Kind {
	case Text, Number:
		tile, err := r.paint.scheme.Read(read.Text)
		if err == nil {
			return tile, Complaint{}
		}
		fault.What, fault.Right = err.Error()+"; skipped", r.nearest(read.Text)
	case Date:
		fault.What = short(read.Text) + " is a date, not a mark; skipped"
		fault.Right = "enter the mark as text: spreadsheet programs take marks such as MAR1 for a day"
	case Stale, Fault:
		fault.What = read.fault().What
	default:
		fault.What = fmt.Sprintf("%q is not a mark; skipped", short(read.Text))
	}
	return mark.Tile{}, fault
}

// nearest names the valid marks that are nearest to a wrong one.
func (r *reader) nearest(read string) string {
	if r.wrong++; r.wrong > mostNearest {
		return ""
	}
	near := r.paint.scheme.Nearest(read, nil)
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
		return fmt.Sprintf("nearest is %s, cup %d on %s", names[0], near[0].Cell, r.paint.bodies[near[0].Body])
	}
	if len(names) > 3 {
		return "nearest are " + strings.Join(names[:3], ", ") + " and others"
	}
	return "nearest are " + strings.Join(names, ", ")
}

// agrees counts the printed cells of a row that are what belongs to its mark, or
// says which one is not.
func (r *reader) agrees(row Row, tile mark.Tile) (evidence int, fault Complaint) {
	number := func(want int) func(Cell) bool {
		return func(c Cell) bool {
			f, _ := parseNumber(c.Text)
			return f.value == float64(want) || f.ambiguous // 1,234 may well be cup 1234
		}
	}
	body := r.paint.bodies[tile.Body]
	for _, printed := range []struct {
		field Field
		fits  func(Cell) bool
		right string
	}{
		{CellField, number(tile.Cell), fmt.Sprintf("%s is cup %d", tile.Mark, tile.Cell)},
		{RepeatField, number(tile.Repeat + 1), fmt.Sprintf("%s is repeat %d", tile.Mark, tile.Repeat+1)},
		{BodyField, func(c Cell) bool { return sameFold(c.Text, body) || sameFold(c.Text, r.nowCalled(tile.Body)) }, tile.Mark + " is " + body},
		{PlanField, func(c Cell) bool { return r.log.Origin.of(c.text()) }, "the row is of another plan's log"},
	} {
		cell := r.cellOf(row, printed.field)
		if cell.blank() {
			continue
		}
		if !printed.fits(cell) {
			return 0, Complaint{Column: r.head(printed.field), What: fmt.Sprintf("%q does not belong to mark %s; skipped", short(cell.Text), tile.Mark), Right: printed.right}
		}
		evidence++
	}
	held, fault := r.otherMixture(row, tile)
	return evidence + held, fault
}

// renamedNote names a body that is called otherwise in the plan.
func (r *reader) renamedNote() []string {
	if r.paint.renamed == "" {
		return nil
	}
	return []string{r.paint.renamed}
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

// head is the head of the only column of a field.
func (r *reader) head(field Field) string {
	for _, c := range r.columns {
		if c.Field == field {
			return c.Head
		}
	}
	return string(field)
}

// nowCalled is the plan's name of a body of the log, "" where it has it no more.
func (r *reader) nowCalled(body int) string {
	if at := r.paint.at[body]; at >= 0 {
		return r.test.Plan.Tiles.Bodies[at]
	}
	return ""
}

// merge makes one entry of the rows of one tile.
func (r *reader) merge(same []entry) (entry, bool) {
	switch len(same) {
	case 0:
		return entry{}, false
	case 1:
		return same[0], true
	}
	one := entry{tile: same[0].tile, firing: same[0].firing, row: same[0].row, values: make([]value, len(r.columns))}
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
		r.complain(one.row, Complaint{Column: HeadMark, What: fmt.Sprintf("%s has rows %s, which disagree on %s; all skipped", one.tile.Mark, where, strings.Join(differ, ", ")),
			Right: "keep one, or give a second firing its letter"})
		return entry{}, false
	}
	r.complain(one.row, Complaint{Column: HeadMark, What: fmt.Sprintf("%s has rows %s, which agree; read once", one.tile.Mark, where), Right: "keep one row for each tile and firing"})
	return one, true
}

// reading is what an entry gives for its tile, if it says anything.
func (r *reader) reading(e entry) (Reading, bool) {
	it := Reading{
		Tile: e.tile, Row: e.row, Firing: e.firing,
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
