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

// Reading is what a log says of one tile in one firing.
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
	decided  []int         // by column: numbers that could be two
	typed    []string      // marks in which a letter was taken for a figure
	hidden   []int         // rows read though a person does not see them
}

// Read reads a log. The sheets may stand in any order and have any name, the
// columns likewise; rows may be sorted, hidden or deleted, and heads may come
// again, in another order. Log.Origin says whether the log was made for the plan.
//
// A row counts for the tile of its mark. What cannot be read with certainty is
// a Complaint and is skipped, cell by cell where that is possible: unknown marks
// and those that is ambiguous; rows in which the printed cell,
// percentages, body, repeat or plan code are not those of the mark, as after
// sorting one column alone, pasting from another log or changing the plan; rows
// with more values than heads; tiles that stand in several rows of one firing
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

func (r *reader) complain(row int, column, what, right string) {
	r.log.Complaints = append(r.log.Complaints, Complaint{r.table.sheet.Name, row, column, what, right})
}

// decide settles for each column of numbers which sign is before decimals.
func (r *reader) decide() {
	r.decimals = make([]decimalSign, len(r.columns))
	r.decided = make([]int, len(r.columns))
	for i, c := range r.columns {
		if c.Field != NumberField && c.Field != CoatField {
			continue
		}
		var texts []string
		for _, t := range r.tables {
			for _, row := range t.sheet.Rows[t.from:t.to] {
				if cell := row.cell(t.at[i]); cell.Kind == Text {
					texts = append(texts, strings.TrimSpace(cell.Text))
				}
			}
		}
		r.decimals[i] = signOf(texts)
	}
}

// rowNotes says what was decided for columns and marks, and which rows were read
// though a person does not see them.
func (r *reader) rowNotes() (notes []string) {
	for i, n := range r.decided {
		if n > 0 {
			notes = append(notes, r.decimals[i].note(r.columns[i].Head, n))
		}
	}
	if n := len(r.typed); n > 0 {
		notes = append(notes, fmt.Sprintf("letters taken for figures in %s: %s", quantity.Counted(n, "mark", "marks"), strings.Join(r.typed[:min(n, 8)], ", ")))
	}
	if n := len(r.hidden); n > 0 {
		notes = append(notes, fmt.Sprintf("%s read too, the first is row %d", quantity.Counted(n, "hidden row", "hidden rows"), r.hidden[0]))
	}
	return notes
}

// headless complains of what stands below no head.
func (r *reader) headless() {
	told := 0
	for i := r.table.head + 1; i < r.table.to; i++ {
		row := r.table.sheet.Rows[i]
		for _, column := range r.table.headless(row) {
			if told++; told > mostHeadless {
				r.complain(row.Number, "", "more values without a column head; skipped", "give these columns heads")
				return
			}
			r.complain(row.Number, "column "+columnName(column), fmt.Sprintf("%q has no column head; skipped", short(row.cell(column).Text)), "give the column a head, or move the value")
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
	above := i < r.table.head // a title perhaps; a sheet sorted heads and all has tiles here
	switch {
	case i == r.table.head || read.Kind == Text && fold(read.Text) == fold(HeadMark):
		return entry{}, false
	case read.blank():
		if !above && r.table.filled(r.columns, row) {
			r.complain(row.Number, HeadMark, "the row has no mark; skipped", "enter the mark painted on the tile")
		}
		return entry{}, false
	case row.Struck:
		r.complain(row.Number, HeadMark, fmt.Sprintf("%s is crossed out; skipped", short(read.Text)), "remove the line through it to count it")
		return entry{}, false
	}
	if what, right := r.table.misplaced(row, r.paint.scheme); what != "" {
		r.complain(row.Number, "", what, right)
		return entry{}, false
	}
	tile, ok := r.tile(row.Number, read, above)
	if !ok {
		return entry{}, false
	}
	good, evidence := r.agrees(row, tile, above)
	if above && (!good || evidence == 0) {
		if r.table.filled(r.columns, row) || len(row.Cells) > 1 {
			r.complain(row.Number, HeadMark, fmt.Sprintf("%s is above the heads; skipped", short(read.Text)), "move a tile's row below them")
		}
		return entry{}, false
	}
	if !good {
		return entry{}, false
	}
	own, ok := r.own(row, tile)
	if !ok {
		return entry{}, false
	}
	if row.Hidden && r.table.filled(r.columns, row) {
		r.hidden = append(r.hidden, row.Number)
	}
	if !r.paint.scheme.Literal(read.Text, tile) {
		r.typed = append(r.typed, short(read.Text)+" as "+tile.Mark)
	}
	e := entry{tile: own, firing: FirstFiring, row: row.Number, values: make([]value, len(r.columns))}
	for i, c := range r.columns {
		if !c.Fill || r.table.at[i] < 0 {
			continue
		}
		v, what, right := c.read(row.cell(r.table.at[i]), &r.decimals[i], &r.decided[i])
		if what != "" {
			r.complain(row.Number, c.Head, what, right)
		}
		if c.Field == FiringField && v.text != "" {
			e.firing = firingName(v.text)
		}
		e.values[i] = v
	}
	return e, true
}

// own is the plan's tile of a tile of the log: bodies may have been put in another
// order since, and repeats been added.
func (r *reader) own(row Row, tile mark.Tile) (mark.Tile, bool) {
	body := r.paint.at[tile.Body]
	switch {
	case body < 0:
		r.complain(row.Number, r.head(BodyField), fmt.Sprintf("%s is on %s, which is no longer in the plan; skipped", tile.Mark, r.paint.bodies[tile.Body]), "")
	case tile.Repeat >= max(r.test.Plan.Tiles.Repeats, 1):
		r.complain(row.Number, r.head(RepeatField), fmt.Sprintf("%s is repeat %d, but the plan now has %d; skipped", tile.Mark, tile.Repeat+1, max(r.test.Plan.Tiles.Repeats, 1)), "")
	default:
		// Mark and Under stay as they are painted.
		repeats := max(r.test.Plan.Tiles.Repeats, 1)
		tile.Index = ((tile.Cell-1)*len(r.test.Plan.Tiles.Bodies)+body)*repeats + tile.Repeat
		tile.Body = body
		return tile, true
	}
	return mark.Tile{}, false
}

// cellOf is a row's cell in the only column of a field.
func (r *reader) cellOf(row Row, field Field) Cell { return r.table.cell(r.columns, row, field) }

// tile finds the tile of a mark, and complains unless it may be a title.
func (r *reader) tile(row int, read Cell, title bool) (mark.Tile, bool) {
	if read.Kind == Text || read.Kind == Number {
		tile, err := r.paint.scheme.Read(read.Text)
		if err == nil {
			return tile, true
		}
		if !title {
			r.complain(row, HeadMark, err.Error()+"; skipped", r.nearest(read.Text))
		}
		return mark.Tile{}, false
	}
	switch {
	case title:
	case read.Kind == Date:
		r.complain(row, HeadMark, fmt.Sprintf("%s is a date, not a mark; skipped", short(read.Text)),
			"enter the mark as text: spreadsheet programs take marks such as MAR1 for a day")
	case read.Kind == Stale || read.Kind == Fault:
		what, _, _ := read.fault()
		r.complain(row, HeadMark, what, "marks are "+r.paint.scheme.Form())
	default:
		r.complain(row, HeadMark, fmt.Sprintf("%q is not a mark; skipped", short(read.Text)), "marks are "+r.paint.scheme.Form())
	}
	return mark.Tile{}, false
}

// nearest names the valid marks that are nearest to a wrong one.
func (r *reader) nearest(read string) string {
	if r.wrong++; r.wrong > mostNearest {
		return ""
	}
	near := r.paint.scheme.Nearest(read, 4)
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

// agrees reports whether what is printed in a row is what belongs to its mark,
// and by how many printed cells. It complains unless the row may be a title.
func (r *reader) agrees(row Row, tile mark.Tile, title bool) (good bool, evidence int) {
	good = true
	differs := func(field Field, reads, right string) {
		if good && !title {
			r.complain(row.Number, r.head(field), fmt.Sprintf("%q does not belong to mark %s; skipped", short(reads), tile.Mark), right)
		}
		good = false
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
			return
		}
		evidence++
	}
	number(CellField, tile.Cell)
	number(RepeatField, tile.Repeat+1)
	body := r.paint.bodies[tile.Body]
	if cell := r.cellOf(row, BodyField); !cell.blank() {
		if fold(cell.Text) != fold(body) && fold(cell.Text) != fold(r.nowCalled(tile.Body)) {
			differs(BodyField, cell.Text, fmt.Sprintf("%s is %s", tile.Mark, body))
		} else {
			evidence++
		}
	}
	if code := r.cellOf(row, PlanField).text(); code != "" && !r.log.Origin.of(code) {
		differs(PlanField, code, "the row is of another plan's log")
	}
	m, other, held := r.otherMixture(row, tile)
	if other != nil && good {
		good = false
		switch {
		case title:
		case other.made || !r.log.Origin.Other:
			r.complain(row.Number, m.head, "it "+m.says+"; skipped", "enter the mark of these percentages, or remove another test's row")
		case r.table.filled(r.columns, row):
			r.changed = append(r.changed, m)
		}
	}
	return good, evidence + held
}

// renamedNote tells of a body that is called otherwise in the plan.
func (r *reader) renamedNote() []string {
	if r.paint.renamed == "" {
		return nil
	}
	return []string{r.paint.renamed}
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
	rows := quantity.Counted(len(r.changed), "row", "rows") + " skipped"
	first := r.changed[0]
	return []string{fmt.Sprintf("%s, of %s: the mark now means another mixture (row %d: %s %s)",
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
		r.complain(one.row, HeadMark, fmt.Sprintf("%s has rows %s, which disagree on %s; all skipped", one.tile.Mark, where, strings.Join(differ, ", ")),
			"keep one, or give a second firing its letter")
		return entry{}, false
	}
	r.complain(one.row, HeadMark, fmt.Sprintf("%s has rows %s, which agree; read once", one.tile.Mark, where), "keep one row for each tile and firing")
	return one, true
}

// reading is what an entry says of its tile, if it says anything.
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
