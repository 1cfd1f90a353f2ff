package record

import (
	"fmt"
	"slices"

	"pourboard/blend/mark"
	"pourboard/blend/quantity"
)

// planChanged is what a complaint says of a row that the plan had a place for.
const planChanged = "the plan has changed since the log was made"

// row reads a row; ok is false where nothing is filled in, or it is of no tile, which
// a complaint says.
func (r *reader) row(t *table, i int) (it Reading, ok bool) {
	row := t.sheet.Rows[i]
	typed := t.cell(row, MarkField)
	filled := t.filled(row)
	if i == t.head || typed.says(HeadMark) || typed.blank() && !filled {
		return Reading{}, false
	}
	tile, fault := r.place(t, i, filled)
	if fault.What != "" && (filled || fault.Right != planChanged) { // a row without entries can still have been put in a wrong place
		r.complain(t.sheet, row.Number, fault)
	}
	if fault.What != "" || tile.Cell == 0 || !filled {
		return Reading{}, false
	}
	if row.Hidden {
		r.hidden = append(r.hidden, row.Number)
	}
	it = Reading{
		Tile: tile, Row: row.Number, Firing: FirstFiring,
		Coats: make([]Coat, r.test.Plan.Tiles.Coats), Numbers: make([]Amount, len(r.test.Plan.Log.Numbers)),
	}
	for k, c := range r.columns {
		if c.Fill && t.at[k] >= 0 {
			if fault := c.read(&it, row.cell(t.at[k]), &r.decimals[k]); fault.What != "" {
				r.complain(t.sheet, row.Number, fault)
			}
		}
	}
	return it, true
}

// place is the plan's tile that a row is of, or why it is of none. Above the heads it
// is a title perhaps, which is neither; a sheet sorted heads and all has tiles there.
func (r *reader) place(t *table, i int, filled bool) (tile mark.Tile, fault Complaint) {
	row := t.sheet.Rows[i]
	typed := t.cell(row, MarkField)
	tile, evidence, fault := r.match(t, row, typed)
	if i > t.head || fault.What == "" && evidence > 0 {
		return tile, fault
	}
	if _, err := r.paint.scheme.Read(typed.Text); err != nil || !filled && len(row.Cells) < 2 {
		return mark.Tile{}, Complaint{}
	}
	return tile, Complaint{Column: HeadMark, What: short(typed.Text) + " is above the heads; skipped", Right: "move a tile's row below them"}
}

// match is the plan's tile that a row is of, or why it is of none. evidence is how
// many printed cells say so beside the mark.
func (r *reader) match(t *table, row Row, typed Cell) (tile mark.Tile, evidence int, fault Complaint) {
	switch {
	case typed.blank():
		return tile, 0, Complaint{Column: HeadMark, What: "the row has no mark; skipped", Right: "enter the mark painted on the tile"}
	case row.Struck:
		return tile, 0, Complaint{Column: HeadMark, What: short(typed.Text) + " is crossed out; skipped", Right: "remove the line through it to count it"}
	}
	if fault = t.misplaced(row, r.paint.scheme); fault.What != "" {
		return tile, 0, fault
	}
	if tile, fault = r.tile(typed); fault.What != "" {
		return tile, 0, fault
	}
	if evidence, fault = r.agrees(t, row, tile); fault.What != "" {
		return tile, 0, fault
	}
	tile, fault = r.own(tile)
	return tile, evidence, fault
}

// tile finds the tile of a mark.
func (r *reader) tile(typed Cell) (tile mark.Tile, fault Complaint) {
	fault = Complaint{Column: HeadMark, Right: "marks are " + r.paint.scheme.Form()}
	switch typed.Kind {
	case Text, Number:
		tile, err := r.paint.scheme.Read(typed.Text)
		if err == nil {
			return tile, Complaint{}
		}
		fault.What, fault.Right = err.Error()+"; skipped", r.nearest(typed.Text)
	case Date:
		fault.What = short(typed.Text) + " is a date, not a mark; skipped"
		fault.Right = "enter the mark as text: spreadsheet programs take marks such as MAR1 for a day"
	case Stale, Fault:
		fault.What = typed.fault().What
	default:
		fault.What = fmt.Sprintf("%q is not a mark; skipped", short(typed.Text))
	}
	return mark.Tile{}, fault
}

// mostNearest is for how many wrong marks the nearest valid one is looked for;
// a log with more of them is not that of the plan.
const mostNearest = 40

// nearest names the valid marks that are nearest to a wrong one.
func (r *reader) nearest(typed string) string {
	if r.wrong++; r.wrong > mostNearest {
		return ""
	}
	var names []string
	near := r.paint.scheme.Candidates(typed, nil)
	for _, n := range near {
		if n.Penalty == near[0].Penalty {
			names = append(names, n.Mark)
		}
	}
	if names == nil {
		return ""
	}
	if len(names) > 3 {
		names = append(names[:3], "others")
	}
	return "nearest is " + quantity.Listed(names, "or")
}

// agrees counts the printed cells of a row that are what belongs to its mark, or
// says which one is not.
func (r *reader) agrees(t *table, row Row, tile mark.Tile) (evidence int, fault Complaint) {
	body, now := r.paint.bodies[tile.Body], r.paint.nowCalled(tile.Body)
	for _, printed := range []struct {
		field Field
		fits  func(Cell) bool
		right string
	}{
		{CellField, func(c Cell) bool { return c.whole() == tile.Cell }, fmt.Sprintf("%s is cup %d", tile.Mark, tile.Cell)},
		{RepeatField, func(c Cell) bool { return c.whole() == tile.Repeat+1 }, fmt.Sprintf("%s is repeat %d", tile.Mark, tile.Repeat+1)},
		{BodyField, func(c Cell) bool { return c.Text == body || fold(c.Text) == fold(body) || fold(c.Text) == fold(now) }, tile.Mark + " is " + body},
		{PlanField, func(c Cell) bool { return r.log.Origin.of(c.text()) }, "the row is of another plan's log"},
	} {
		cell := t.cell(row, printed.field)
		if cell.blank() {
			continue
		}
		if !printed.fits(cell) {
			head := r.columns[slices.IndexFunc(r.columns, func(c Column) bool { return c.Field == printed.field })].Head
			return 0, Complaint{Column: head, What: fmt.Sprintf("%q does not belong to mark %s; skipped", short(cell.Text), tile.Mark), Right: printed.right}
		}
		evidence++
	}
	held, fault := r.otherMixture(row, tile)
	return evidence + held, fault
}

// own is the plan's tile of a tile of the log, painted as it is: bodies may have
// been put in another order since, and repeats been added.
func (r *reader) own(tile mark.Tile) (mark.Tile, Complaint) {
	p := r.test.Plan.Tiles
	repeats := max(p.Repeats, 1)
	body := r.paint.at[tile.Body]
	what := ""
	switch {
	case body < 0:
		what = fmt.Sprintf("%s is on %s, which is no longer in the plan; skipped", tile.Mark, r.paint.bodies[tile.Body])
	case tile.Repeat >= repeats:
		what = fmt.Sprintf("%s is repeat %d, but the plan now has %d; skipped", tile.Mark, tile.Repeat+1, repeats)
	default:
		tile.Index = ((tile.Cell-1)*len(p.Bodies)+body)*repeats + tile.Repeat
		tile.Body = body
	}
	return tile, Complaint{Column: HeadMark, What: what, Right: planChanged}
}

// rowNotes say what was decided for columns, and which rows were read though a
// person does not see them.
func (r *reader) rowNotes() (notes []string) {
	for i := range r.decimals {
		if r.decimals[i].decided > 0 {
			notes = append(notes, r.decimals[i].note(r.columns[i].Head))
		}
	}
	if n := len(r.hidden); n > 0 {
		notes = append(notes, fmt.Sprintf("%s read too, the first is row %d", quantity.Plural(n, "hidden row", "hidden rows"), r.hidden[0]))
	}
	return notes
}
