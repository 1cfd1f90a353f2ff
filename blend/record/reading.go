package record

import (
	"fmt"
	"strings"
)

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
		case RatingField:
			it.Rating = v.rating
		case NumberField:
			it.Numbers[c.Index] = v.amount
		case FiringField: // the entry has it, of a row that names none too
			continue
		case CoatField:
			it.Coats[c.Index].Number = v.amount
		}
		if text := c.text(&it); text != nil {
			*text = v.text
		}
	}
	return it, given
}

// Entered is the cell of a reading in a column to fill in, blank where it says
// nothing: the other way of what the log is read by.
func (c Column) Entered(r *Reading) Cell {
	if a, given := c.Amount(r); given && c.Field != CoatField {
		return numberCell(a.Value)
	}
	if text := c.text(r); text != nil && *text != "" {
		return Cell{Kind: Text, Text: *text}
	}
	return Cell{}
}

// text is where a reading has the text of a column, nil where it has none.
func (c Column) text(r *Reading) *string {
	switch c.Field {
	case CoatField:
		return &r.Coats[c.Index].Text
	case SurfaceField:
		return &r.Surface
	case DefectsField:
		return &r.Defects
	case ColourField:
		return &r.Colour
	case BlockField:
		return &r.Block
	case PhotoField:
		return &r.Photo
	case NotesField:
		return &r.Notes
	case FiringField:
		return &r.Firing
	}
	return nil
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
