package record

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"pourboard/blend"
	"pourboard/blend/mark"
)

// Field is what a column of the log holds.
type Field string

// The fields of the sheet of tiles, in the order of its columns: the mark, what
// whoever reads the fired tile enters, and what the plan gives for the tile.
const (
	MarkField    Field = "mark"
	RatingField  Field = "rating" // LeastRating to MostRating, whole or half
	SurfaceField Field = "surface"
	DefectsField Field = "defects"
	ColourField  Field = "colour"
	CoatField    Field = "coat"   // free text or a number, for each coat
	NumberField  Field = "number" // a column of the plan's own
	BlockField   Field = "block"  // which tiles shared a shelf or a kiln; only where the plan names it
	NotesField   Field = "notes"
	PhotoField   Field = "photograph"
	FiringField  Field = "firing" // letter of a firing; written as FirstFiring
	CellField    Field = "cup"    // number of the cell from 1
	BodyField    Field = "body"   // name of the clay
	RepeatField  Field = "repeat" // from 1; only where there are repeats
	ShareField   Field = "share"  // percent asked: of an end, or of a series' material over the dry base
	MadeField    Field = "made"   // the same as the measured amounts make it
	PlanField    Field = "plan"   // fingerprint of the plan that the row was written for
)

// Names of the log's sheets. Tiles, firings and cups are found by their heads,
// whatever their sheets are called.
const (
	SheetTiles   = "Tiles"     // a row for each tile: Columns
	SheetCups    = "Cups"      // a row for each cup: CupColumns
	SheetFirings = "Firings"   // a row for each of FiringLabels, a column for each firing
	SheetLegend  = "Legend"    // what the marks mean
	SheetPlan    = "Plan"      // below their heads letters, amounts and outline of the plan, a line to a row
	SheetText    = "Plan text" // the plan's file, a line to a row; an apostrophe before what a program takes for a formula
)

// Heads and labels that are found again.
const (
	HeadMark        = "Mark"        // of the column of marks
	HeadCup         = "Cup"         // of the column of cups, in the sheets of tiles and of cups
	HeadFiring      = "Firing"      // of the column of firings, and before their letters in the sheet of firings
	HeadPlan        = "Plan code"   // of the column of fingerprints
	HeadMishap      = "Mishap"      // of a cup: one of Mishaps
	HeadNotes       = "Notes"       // of a tile, of a cup
	HeadLetters     = "Letters"     // above what the marks have behind their numbers
	HeadAmounts     = "Amounts"     // above what the cups were measured by
	HeadFingerprint = "Fingerprint" // beside the plan's fingerprint
)

// FirstFiring is the firing of a row that names none; FiringLetters are those that
// have a column on the sheet of firings.
const (
	FirstFiring   = "A"
	FiringLetters = "ABCD"
)

// madeSuffix ends the head of a column of MadeField.
const madeSuffix = " comes to" + percentSign

// A rating is a number from the least to the most, whole or half.
const (
	LeastRating = 1
	MostRating  = 5
)

// Column is one column of the sheet of tiles.
type Column struct {
	Head    string // unique in the log
	Field   Field
	Index   int      // of the end or series, of the coat, of the plan's number, from 0
	Fill    bool     // filled in by hand; the others are printed
	Choices []string // offered in a drop-down; nil where there are none. Other texts are allowed
	Chars   int      // width in characters: entries of several words go over two lines
}

// Columns are the columns of a plan's log in order.
func Columns(p *blend.Plan) []Column {
	all := []Column{
		{Head: HeadMark, Field: MarkField, Chars: 8},
		{Head: "Rating", Field: RatingField, Fill: true, Choices: []string{"1", "2", "3", "4", "5"}}, // halves are typed
		{Head: "Surface", Field: SurfaceField, Fill: true, Choices: surfaces(), Chars: 12},
		{Head: "Defects", Field: DefectsField, Fill: true, Choices: Defects(), Chars: 12},
		{Head: "Colour", Field: ColourField, Fill: true, Chars: 13},
	}
	add := func(c Column) { all = append(all, c) }
	for i := range p.Tiles.Coats {
		add(Column{Head: "Coat " + strconv.Itoa(i+1), Field: CoatField, Index: i, Fill: true, Chars: 10})
	}
	for i, name := range p.Log.Numbers {
		add(Column{Head: name, Field: NumberField, Index: i, Fill: true, Chars: 10})
	}
	if p.Log.Block != "" {
		add(Column{Head: p.Log.Block, Field: BlockField, Fill: true, Chars: 8})
	}
	add(Column{Head: HeadNotes, Field: NotesField, Fill: true, Chars: 22})
	add(Column{Head: "Photograph", Field: PhotoField, Fill: true, Chars: 13})
	add(Column{Head: HeadFiring, Field: FiringField, Fill: true, Choices: strings.Split(FiringLetters, "")})
	add(Column{Head: HeadCup, Field: CellField, Chars: 5})
	widest := 0
	for _, body := range p.Tiles.Bodies {
		widest = max(widest, utf8.RuneCountInString(body))
	}
	add(Column{Head: "Body", Field: BodyField, Chars: widest + 1})
	if p.Tiles.Repeats > 1 {
		add(Column{Head: "Repeat", Field: RepeatField})
	}
	names := partNames(p)
	for i, name := range names {
		add(Column{Head: name + percentSign, Field: ShareField, Index: i, Chars: 10})
	}
	for i, name := range names {
		add(Column{Head: name + madeSuffix, Field: MadeField, Index: i, Chars: 10})
	}
	add(Column{Head: HeadPlan, Field: PlanField, Chars: 12})
	tellApart(all)
	return all
}

// partNames are the materials of the series, or the names of the end glazes,
// that a cup has percentages of.
func partNames(p *blend.Plan) (names []string) {
	for _, s := range p.Blend.Series {
		names = append(names, s.Label())
	}
	if !p.Blend.HasSeries() {
		for _, e := range p.Blend.Ends {
			names = append(names, p.Glazes[e].Name)
		}
	}
	return names
}

// Defects are the choices for what is wrong with a fired tile.
func Defects() []string {
	return strings.Fields("none crawling crazing pinholes blisters running shivering underfired overfired other")
}

func surfaces() []string { return strings.Fields("gloss satin matt dry textured crystalline") }

// tellApart numbers heads that read alike, as where a plan's own number is
// called what the log has a column for: columns are found again by their heads.
// The log's own columns keep theirs, and so are the same from plan to plan.
func tellApart(all []Column) {
	taken := map[string]bool{}
	for _, own := range []bool{true, false} {
		for i := range all {
			c := &all[i]
			if own != (c.Field != NumberField && c.Field != BlockField) {
				continue
			}
			head := c.Head
			for n := 2; taken[fold(c.Head)]; n++ {
				c.Head = head + " (" + strconv.Itoa(n) + ")"
			}
			taken[fold(c.Head)] = true
		}
	}
}

// Printed is what the log prints in a column for a tile: a number in the
// columns of the cell, the repeat and the percentages, otherwise a text. It is
// blank in a column to fill in, and in PlanField, which holds the fingerprint.
func (c Column) Printed(t *blend.Test, it mark.Tile) Cell {
	cell := &t.Cells[it.Cell-1]
	switch c.Field {
	case MarkField:
		return Cell{Kind: Text, Text: it.Mark}
	case FiringField:
		return Cell{Kind: Text, Text: FirstFiring}
	case CellField:
		return numberCell(float64(it.Cell))
	case BodyField:
		return Cell{Kind: Text, Text: t.Plan.Tiles.Bodies[it.Body]}
	case RepeatField:
		return numberCell(float64(it.Repeat + 1))
	case ShareField, MadeField:
		asked, made := 0.0, 0.0
		if t.Plan.Blend.HasSeries() {
			asked, made = cell.Doses[c.Index].Percent, cell.Doses[c.Index].GotPercent
		} else {
			asked, made = 100*cell.Shares[c.Index], 100*cell.Pours[c.Index].GotShare
		}
		if c.Field == MadeField {
			asked = made
		}
		return numberCell(math.Round(asked*1e6) / 1e6) // without the noise of a third times a hundred
	}
	return Cell{}
}
