package record

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"pourboard/blend/mark"
)

// Reading is what a log records of one tile in one firing.
type Reading struct {
	mark.Tile
	Row     int // where it is, the first one when it is in several
	Coats   []Coat
	Firing  string // letter of the firing
	Surface string
	Defects string
	Colour  string
	Rating  float64  // LeastRating to MostRating, halves too; 0 when not given
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
		a = Amount{Value: r.Rating, Given: r.Rating != 0}
		if r.Rating != math.Trunc(r.Rating) {
			a.Decimals = 1
		}
	case NumberField:
		a = r.Numbers[c.Index]
	case CoatField:
		a = r.Coats[c.Index].Number
	}
	return a, a.Given
}

// Entered is the cell of a reading in a column to fill in, blank where it says
// nothing: the other way of what the log is read by.
func (c Column) Entered(r *Reading) Cell {
	if text := c.text(r); text != nil && *text != "" {
		return Cell{Kind: Text, Text: *text}
	}
	if a, given := c.Amount(r); given {
		return numberCell(a.Value)
	}
	return Cell{}
}

// enter puts a text, and the number that it is, into the column's place.
func (c Column) enter(r *Reading, text string, a Amount) {
	if place := c.text(r); place != nil {
		*place = text
	}
	switch c.Field {
	case RatingField:
		r.Rating = a.Value
	case NumberField:
		r.Numbers[c.Index] = a
	case CoatField:
		r.Coats[c.Index].Number = a
	}
}

// matte is what earlier logs offered for matt, which is read as that.
var matte = regexp.MustCompile(`(?i)\bmatte\b`)

// read reads a cell of the column with that decimal sign into a reading, or says
// why it is skipped.
func (c Column) read(r *Reading, cell Cell, d *decimalSign) *Complaint {
	if cell.blank() {
		return nil
	}
	var a Amount
	text, fault := cell.text(), cell.fault()
	switch c.Field {
	case RatingField:
		if a, fault = cell.amount(d); cell.Kind == Text && fault != nil || a.Given && !isRating(a.Value) {
			fix := fmt.Sprintf("%d to %d, whole or half", LeastRating, MostRating)
			fault = &Complaint{What: short(text) + " skipped", Right: fix}
		}
	case NumberField:
		a, fault = cell.amount(d)
	case CoatField:
		a, _ = cell.amount(d)
	case FiringField:
		text = firingName(text)
	case SurfaceField:
		text = c.choice(matte.ReplaceAllString(text, "matt"))
	default:
		text = c.choice(text)
	}
	if fault != nil {
		fault.Column = c.Head
		return fault
	}
	c.enter(r, text, a)
	return nil
}

// choice is a text as it is among the column's choices, or as it was typed.
func (c Column) choice(text string) string {
	if i := slices.IndexFunc(c.Choices, func(choice string) bool { return fold(choice) == fold(text) }); i >= 0 {
		return c.Choices[i]
	}
	return text
}

func isRating(x float64) bool { return x >= LeastRating && x <= MostRating && 2*x == math.Trunc(2*x) }

// given reports whether a reading says anything.
func (r *reader) given(it *Reading) bool {
	says := func(c Column) bool { return c.Field != FiringField && c.Entered(it).Kind != Blank }
	return slices.ContainsFunc(r.table.columns, says)
}

// merge makes one reading of the rows of one tile in one firing; ok is false where
// they disagree.
func (r *reader) merge(same []Reading) (one Reading, ok bool) {
	one = same[0]
	if len(same) == 1 {
		return one, true
	}
	var rows, differ []string
	for _, it := range same {
		rows = append(rows, fmt.Sprint(it.Row))
	}
	for _, c := range r.table.columns {
		for _, it := range same[1:] {
			was, is := c.Entered(&one), c.Entered(&it)
			switch {
			case is.Kind == Blank:
			case was.Kind == Blank:
				a, _ := c.Amount(&it)
				c.enter(&one, is.Text, a)
			case fold(was.Text) != fold(is.Text) && !slices.Contains(differ, c.Head):
				differ = append(differ, c.Head)
			}
		}
	}
	fault := &Complaint{Column: HeadMark, What: one.Mark + " has rows " + someOf(rows)}
	if ok = differ == nil; ok {
		fault.What, fault.Right = fault.What+", which agree; read once", "keep one row for each tile and firing"
	} else {
		fault.What += ", which disagree on " + strings.Join(differ, ", ") + "; all skipped"
		fault.Right = "keep one, or give a second firing its letter"
	}
	r.complain(Row{Number: one.Row}, fault)
	return one, ok
}
