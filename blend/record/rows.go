package record

import (
	"cmp"
	"fmt"

	"pourboard/blend/mark"
	"pourboard/blend/quantity"
)

// planChanged is the fix of a complaint about a row that the plan had a place for.
const planChanged = "the plan has changed since the log was made"

// row reads a row; ok is false where nothing is filled in, or it is of no tile, which
// a complaint says.
func (r *reader) row(i int) (it Reading, ok bool) {
	t := &r.table
	row := t.sheet.Rows[i]
	typed, filled := t.cell(row, MarkField), t.filled(row)
	switch {
	case i > t.end && !row.blank():
		r.complain(row, skipped(HeadMark, "the row is below heads in another order", "keep one row of heads"))
		return Reading{}, false
	case i >= t.end, typed.says(HeadMark), typed.blank() && !filled, i < t.head && r.isTitle(row):
		return Reading{}, false
	}
	tile, evidence, fault := r.match(row)
	if i < t.head && evidence == 0 {
		fault = cmp.Or(fault, skipped(HeadMark, short(typed.Text)+" is above the heads", "move a tile's row below them"))
	}
	if fault != nil {
		if filled || fault.Right != planChanged { // a row without entries can still have been put in a wrong place
			r.complain(row, fault)
		}
		return Reading{}, false
	}
	r.complain(row, t.headless(row))
	if !filled {
		return Reading{}, false
	}
	return r.reading(row, tile), true
}

// isTitle reports whether a row above the heads is none of a tile.
func (r *reader) isTitle(row Row) bool {
	_, err := r.paint.scheme.Read(r.table.cell(row, MarkField).Text)
	return err != nil || !r.table.filled(row)
}

// reading reads what is filled in of a tile.
func (r *reader) reading(row Row, tile mark.Tile) Reading {
	if row.Hidden {
		r.hidden = append(r.hidden, row.Number)
	}
	p := r.test.Plan
	it := Reading{
		Tile: tile, Row: row.Number, Firing: FirstFiring,
		Coats: make([]Coat, p.Tiles.Coats), Numbers: make([]Amount, len(p.Log.Numbers)),
	}
	for k, c := range r.table.columns {
		if at := r.table.at[k]; c.Fill && at >= 0 {
			r.complain(row, c.read(&it, row.cell(at), &r.decimals[k]))
		}
	}
	return it
}

// match is the plan's tile that a row is of, or why it is of none. evidence is how
// many printed cells say so beside the mark.
func (r *reader) match(row Row) (tile mark.Tile, evidence int, fault *Complaint) {
	switch typed := r.table.cell(row, MarkField); {
	case typed.blank():
		fault = skipped(HeadMark, "the row has no mark", "enter the mark painted on the tile")
	case row.Struck:
		fault = skipped(HeadMark, short(typed.Text)+" is crossed out", "remove the line through it to count it")
	default:
		if fault = r.table.misplaced(row, r.paint.scheme); fault == nil {
			tile, fault = r.tile(typed)
		}
	}
	if fault == nil {
		evidence, fault = r.agrees(row, tile)
	}
	if fault == nil {
		tile, fault = r.own(tile)
	}
	return tile, evidence, fault
}

// tile finds the tile of a mark.
func (r *reader) tile(typed Cell) (tile mark.Tile, fault *Complaint) {
	what, fix := "", "marks are "+r.paint.scheme.Form()
	switch typed.Kind {
	case Text, Number:
		tile, err := r.paint.scheme.Read(typed.Text)
		if err == nil {
			return tile, nil
		}
		what, fix = err.Error(), r.nearest(typed.Text)
	case Date:
		what = short(typed.Text) + " is a date, not a mark"
		fix = "enter the mark as text: spreadsheet programs take marks such as MAR1 for a day"
	case Stale, Fault:
		fault = typed.fault()
		fault.Column, fault.Right = HeadMark, fix
		return tile, fault
	default:
		what = fmt.Sprintf("%q is not a mark", short(typed.Text))
	}
	return tile, skipped(HeadMark, what, fix)
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

// own is the plan's tile of a tile of the log, painted as it is: bodies may have
// been put in another order since, and repeats been added.
func (r *reader) own(tile mark.Tile) (mark.Tile, *Complaint) {
	p := r.test.Plan.Tiles
	repeats, body := max(p.Repeats, 1), r.paint.at[tile.Body]
	if body < 0 {
		what := tile.Mark + " is on " + r.paint.bodies[tile.Body] + ", which is no longer in the plan"
		return tile, skipped(HeadMark, what, planChanged)
	}
	if tile.Repeat >= repeats {
		what := fmt.Sprintf("%s is repeat %d, but the plan now has %d", tile.Mark, tile.Repeat+1, repeats)
		return tile, skipped(HeadMark, what, planChanged)
	}
	tile.Index = ((tile.Cell-1)*len(p.Bodies)+body)*repeats + tile.Repeat
	tile.Body = body
	return tile, nil
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
		rows := quantity.Plural(n, "hidden row", "hidden rows")
		notes = append(notes, fmt.Sprintf("%s read too, the first is row %d", rows, r.hidden[0]))
	}
	return notes
}
