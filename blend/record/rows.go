package record

import (
	"cmp"
	"fmt"
	"strings"

	"pourboard/blend/mark"
)

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
