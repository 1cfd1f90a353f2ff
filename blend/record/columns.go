package record

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"pourboard/blend"
	"pourboard/blend/mark"
)

// Field is what a column of the log holds.
type Field string

// The fields of a log, in the order of its columns. Those up to PlaceField are
// printed; the others are for whoever reads the fired tile.
const (
	MarkField    Field = "mark"
	CellField    Field = "cup"    // number of the cell from 1
	ShareField   Field = "share"  // percent: of an end, or of a series' material over the dry base
	BodyField    Field = "body"   // name of the clay
	RepeatField  Field = "repeat" // from 1; only where there are repeats
	PlaceField   Field = "place"  // board and spot
	CoatField    Field = "coat"   // free text or a number, for each coat
	SurfaceField Field = "surface"
	DefectsField Field = "defects"
	ColourField  Field = "colour"
	RatingField  Field = "rating" // whole, LeastRating to MostRating
	NumberField  Field = "number" // a column of the plan's own
	PhotoField   Field = "photograph"
	NotesField   Field = "notes"
)

// Names of the log's sheets. None of them is needed to read a log: its tiles
// are found by their heads.
const (
	SheetTiles  = "Tiles" // a row for each tile
	SheetFiring = "Firing"
	SheetLegend = "Legend"
	SheetPlan   = "Plan" // HeadAmounts and below it the amounts, HeadFingerprint with the fingerprint beside it and below it the plan's outline, a line to a row
)

// HeadMark is the head of the column of marks, HeadAmounts the label above what
// the cups were measured by, HeadFingerprint the label of the plan's fingerprint.
const (
	HeadMark        = "Mark"
	HeadAmounts     = "Amounts"
	HeadFingerprint = "Fingerprint"
)

// earlierHeads are what columns were called in logs of earlier versions, which
// are read too.
func earlierHeads() map[string]Field { return map[string]Field{"Cell": CellField} }

// A rating is a whole number from the least to the most.
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
	Chars   int      // width that its entries usually need, in characters
}

// Columns are the columns of a plan's log in order.
func Columns(p *blend.Plan) []Column {
	all := []Column{
		{Head: HeadMark, Field: MarkField, Chars: 8},
		{Head: "Cup", Field: CellField, Chars: 5},
	}
	add := func(c Column) {
		all = append(all, c)
	}
	if p.Blend.HasSeries() {
		for i, s := range p.Blend.Series {
			add(Column{Head: s.Material + " %", Field: ShareField, Index: i, Chars: 7})
		}
	} else {
		for i, e := range p.Blend.Ends {
			add(Column{Head: p.Glazes[e].Name + " %", Field: ShareField, Index: i, Chars: 7})
		}
	}
	widest := 0
	for _, body := range p.Tiles.Bodies {
		widest = max(widest, utf8.RuneCountInString(body))
	}
	add(Column{Head: "Body", Field: BodyField, Chars: widest + 1})
	if p.Tiles.Repeats > 1 {
		add(Column{Head: "Repeat", Field: RepeatField})
	}
	add(Column{Head: "Place", Field: PlaceField, Chars: 24})
	for i := range p.Tiles.Coats {
		add(Column{Head: "Coat " + strconv.Itoa(i+1), Field: CoatField, Index: i, Fill: true, Chars: 14})
	}
	add(Column{Head: "Surface", Field: SurfaceField, Fill: true, Choices: surfaces(), Chars: 12})
	add(Column{Head: "Defects", Field: DefectsField, Fill: true, Choices: Defects(), Chars: 12})
	add(Column{Head: "Colour", Field: ColourField, Fill: true, Chars: 16})
	add(Column{Head: "Rating", Field: RatingField, Fill: true})
	for i, name := range p.Log.Numbers {
		add(Column{Head: name, Field: NumberField, Index: i, Fill: true, Chars: 8})
	}
	add(Column{Head: "Photograph", Field: PhotoField, Fill: true, Chars: 16})
	add(Column{Head: "Notes", Field: NotesField, Fill: true, Chars: 30})
	tellApart(all)
	return all
}

// surfaces are the choices for a fired surface.
func surfaces() []string {
	return []string{"gloss", "satin", "matte", "dry", "textured", "crystalline"}
}

// Defects are the choices for what is wrong with a fired tile.
func Defects() []string {
	return []string{"none", "crawling", "crazing", "pinholes", "blisters", "running", "shivering", "underfired", "overfired", "other"}
}

// tellApart numbers heads that read alike, as where a plan's own number is
// called what the log has a column for: columns are found again by their heads.
func tellApart(all []Column) {
	taken := map[string]bool{}
	for i := range all {
		head := all[i].Head
		for n := 2; taken[fold(all[i].Head)]; n++ {
			all[i].Head = head + " (" + strconv.Itoa(n) + ")"
		}
		taken[fold(all[i].Head)] = true
		all[i].Chars = max(all[i].Chars, utf8.RuneCountInString(all[i].Head)+1)
	}
}

// fold is a text by which heads, labels and choices are compared: without case
// and without spaces.
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '\u200b' || r == '\ufeff' {
			return -1
		}
		return unicode.ToLower(r)
	}, s)
}

// Printed is what the log prints in a column for a tile: a number in the
// columns of the cell, the shares and the repeat, otherwise a text; a share
// that was made noticeably other than asked is a text that says both. It is
// blank in a column to fill in, and in PlaceField, which only a layout knows.
func (c Column) Printed(t *blend.Test, it mark.Tile) Cell {
	cell := &t.Cells[it.Cell-1]
	switch c.Field {
	case MarkField:
		return Cell{Kind: Text, Text: it.Mark}
	case CellField:
		return numberCell(float64(it.Cell))
	case ShareField:
		if t.Plan.Blend.HasSeries() {
			if d := cell.Doses[c.Index]; t.Strays(d) {
				return Cell{Kind: Text, Text: t.DoseSaid(d)}
			}
			return numberCell(c.asked(t, cell))
		}
		if cell.StraysShare(c.Index) {
			return Cell{Kind: Text, Text: cell.ShareSaid(c.Index)}
		}
		return numberCell(roundTo(c.asked(t, cell), 6)) // without the noise of a third times a hundred
	case BodyField:
		return Cell{Kind: Text, Text: t.Plan.Tiles.Bodies[it.Body]}
	case RepeatField:
		return numberCell(float64(it.Repeat + 1))
	}
	return Cell{}
}

// asked is the percentage that the plan asks for of a cell in a column of
// percentages.
func (c Column) asked(t *blend.Test, cell *blend.Cell) float64 {
	if t.Plan.Blend.HasSeries() {
		return cell.Doses[c.Index].Percent
	}
	return 100 * cell.Shares[c.Index]
}
