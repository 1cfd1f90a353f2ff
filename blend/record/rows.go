package record

import (
	"fmt"

	"pourboard/blend/mark"
	"pourboard/blend/quantity"
)

// planChanged is what a complaint says of a row that the plan had a place for.
const planChanged = "the plan has changed since the log was made"

// row reads a row; ok is false where nothing is filled in, or it is of no tile, which
// a complaint says.
func (r *reader) row(i int) (it Reading, ok bool) {
	t := &r.table
	row := t.sheet.Rows[i]
	typed, filled := t.cell(row, MarkField), t.filled(row)
	if typed.says(HeadMark) || typed.blank() && !filled {
		return Reading{}, false
	}
	tile, evidence, fault := r.match(i)
	if i < t.head && (fault.What != "" || evidence == 0) {
		if _, err := r.paint.scheme.Read(typed.Text); err != nil || !filled {
			return Reading{}, false // a title
		}
		fault = Complaint{Column: HeadMark, What: short(typed.Text) + " is above the heads; skipped", Right: "move a tile's row below them"}
	}
	if filled || fault.Right != planChanged { // a row without entries can still have been put in a wrong place
		r.complain(t.sheet, row.Number, fault)
	}
	if i > t.head {
		r.complain(t.sheet, row.Number, t.headless(row))
	}
	if fault.What != "" || !filled {
		return Reading{}, false
	}
	if row.Hidden {
		r.hidden = append(r.hidden, row.Number)
	}
	return r.reading(row, tile), true
}

// reading reads what is filled in of a tile.
func (r *reader) reading(row Row, tile mark.Tile) Reading {
	t, p := &r.table, r.test.Plan
	it := Reading{
		Tile: tile, Row: row.Number, Firing: FirstFiring,
		Coats: make([]Coat, p.Tiles.Coats), Numbers: make([]Amount, len(p.Log.Numbers)),
	}
	for k, c := range t.columns {
		if c.Fill && t.at[k] >= 0 {
			r.complain(t.sheet, row.Number, c.read(&it, row.cell(t.at[k]), &r.decimals[k]))
		}
	}
	return it
}

// match is the plan's tile that a row is of, or why it is of none. evidence is how
// many printed cells say so beside the mark.
func (r *reader) match(i int) (tile mark.Tile, evidence int, fault Complaint) {
	row := r.table.sheet.Rows[i]
	typed := r.table.cell(row, MarkField)
	switch {
	case i >= r.table.end:
		return tile, 0, Complaint{Column: HeadMark, What: "the row is below heads in another order; skipped", Right: "keep one row of heads"}
	case typed.blank():
		return tile, 0, Complaint{Column: HeadMark, What: "the row has no mark; skipped", Right: "enter the mark painted on the tile"}
	case row.Struck:
		return tile, 0, Complaint{Column: HeadMark, What: short(typed.Text) + " is crossed out; skipped", Right: "remove the line through it to count it"}
	}
	if fault = r.table.misplaced(row, r.paint.scheme); fault.What != "" {
		return tile, 0, fault
	}
	if tile, fault = r.tile(typed); fault.What != "" {
		return tile, 0, fault
	}
	if evidence, fault = r.agrees(row, tile); fault.What == "" {
		tile, fault = r.own(tile)
	}
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
func (r *reader) agrees(row Row, tile mark.Tile) (evidence int, fault Complaint) {
	body, now := r.paint.bodies[tile.Body], r.paint.nowCalled(tile.Body)
	for k, c := range r.table.columns {
		cell := row.cell(r.table.at[k])
		if cell.blank() {
			continue
		}
		fits, right := true, ""
		switch c.Field {
		case CellField:
			fits, right = cell.whole() == tile.Cell, fmt.Sprintf("%s is cup %d", tile.Mark, tile.Cell)
		case RepeatField:
			fits, right = cell.whole() == tile.Repeat+1, fmt.Sprintf("%s is repeat %d", tile.Mark, tile.Repeat+1)
		case BodyField:
			text := fold(cell.Text)
			fits, right = text == fold(body) || text == fold(now), tile.Mark+" is "+body
		case PlanField:
			fits, right = r.log.Origin.of(cell.text()), "the row is of another plan's log"
		default:
			continue
		}
		if !fits {
			return 0, Complaint{Column: c.Head, What: fmt.Sprintf("%q does not belong to mark %s; skipped", short(cell.Text), tile.Mark), Right: right}
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
			notes = append(notes, r.decimals[i].note(r.table.columns[i].Head))
		}
	}
	if n := len(r.hidden); n > 0 {
		notes = append(notes, fmt.Sprintf("%s read too, the first is row %d", quantity.Plural(n, "hidden row", "hidden rows"), r.hidden[0]))
	}
	return notes
}
