package logbook

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/record"
	"pourboard/layout"
	"pourboard/render/wording"
	"pourboard/render/xlsx"
)

// Write writes the workbook in which fired tiles are recorded: a row for
// each tile, the firing, what the marks mean, and the plan that it was made
// for, by its fingerprint, outline and amounts (package plan makes all three).
// Warnings are the texts that had to be cut.
func Write(w io.Writer, t *blend.Test, places *layout.Places, fingerprint string, outline, amounts []string) (warnings []string, err error) {
	b := &logBook{Book: xlsx.New(t.Plan.Title + " – log"), t: t, marks: places, fingerprint: fingerprint}
	b.writeTiles()
	b.writeFiring()
	b.writeLegend()
	b.writePlan(fingerprint, outline, amounts)
	data, err := b.Bytes()
	if err != nil {
		return nil, err
	}
	_, err = w.Write(data)
	return b.Warnings(), err
}

// logBook is the log while it is written.
type logBook struct {
	*xlsx.Book
	t     *blend.Test
	marks *layout.Places

	fingerprint string
}

func (b *logBook) sheet(name string, landscape bool) *xlsx.Sheet {
	s := b.Sheet(name)
	s.Page = xlsx.Page{Paper: b.t.Plan.Board.Paper, Landscape: landscape, Left: b.t.Plan.Title, Right: name, Foot: wording.Summary(b.t)}
	return s
}

// logRowHeight is the height of a tile's row in points: enough to write in by
// hand on a print.
const logRowHeight = 30

// writeTiles writes the sheet with a row for each tile.
func (b *logBook) writeTiles() {
	s := b.sheet(record.SheetTiles, true)
	columns := record.Columns(b.t.Plan)
	lines := 1
	for i, c := range columns {
		width := max(logWidth(c), xlsx.HeadWidth(c.Head))
		s.Width(i, i, width)
		lines = max(lines, xlsx.LinesOf(c.Head, width))
	}
	s.TallRow(float64(15*lines + 15))
	for _, c := range columns {
		s.Text(xlsx.Head, c.Head)
	}
	for tile := range b.marks.Tiles {
		if tile == 1 { // room for all rows, by the first one
			s.Grow(len(b.marks.Tiles))
		}
		s.TallRow(logRowHeight)
		for i := range columns {
			b.writeTile(s, &columns[i], tile)
		}
	}
	last := len(b.marks.Tiles) + 1
	for i, c := range columns {
		b.checkColumn(s, c, xlsx.Area{FirstColumn: i, FirstRow: 2, LastColumn: i, LastRow: last})
	}
	s.Filter(0, 1, len(columns)-1, last)
	s.Page.HeadRows = [2]int{1, 1}
	s.Freeze(1, 1)
	// It is not locked: a program that keeps to the format sorts a locked sheet
	// only where every cell is open, and tiles are sorted. What is printed is
	// checked against the mark when the log is read.
}

// logWidth is the width of a column in digits: rows are two lines high, so that
// what has several words needs half of its length, and all columns go onto a
// page at a size that can be read.
func logWidth(c record.Column) float64 {
	width := float64(max(c.Chars, 7))
	switch c.Field {
	case record.ShareField, record.MadeField, record.NumberField, record.CoatField:
		return min(width, 10) // the head goes over several lines
	case record.ColourField, record.PhotoField:
		return min(width, 13)
	case record.NotesField:
		return min(width, 22)
	}
	return min(width, 40)
}

// writeTile writes the cell of a tile in a column.
func (b *logBook) writeTile(s *xlsx.Sheet, c *record.Column, tile int) {
	if c.Fill {
		if c.Field == record.FiringField {
			s.Text(xlsx.Field, record.FirstFiring)
		} else {
			s.Blank(xlsx.Field, logFormat(c.Field))
		}
		return
	}
	cell := c.Printed(b.t, b.marks.Tiles[tile].Tile)
	if c.Field == record.PlanField {
		cell = record.Cell{Kind: record.Text, Text: b.fingerprint}
	}
	look := xlsx.Given
	switch {
	case c.Field == record.MarkField:
		look = xlsx.Head
	case cell.Kind != record.Number:
		look = xlsx.GivenText
	}
	switch {
	case cell.Kind != record.Number:
		s.FormattedText(look, xlsx.AsText, cell.Text)
	case c.Field == record.ShareField && b.t.Plan.Blend.HasSeries():
		dose := b.t.Cells[b.marks.Tiles[tile].Cell-1].Doses[c.Index]
		s.Number(look, xlsx.PercentFormat(cell.Number, wording.DosePercent(dose)), cell.Number)
	case c.Field == record.ShareField:
		s.Number(look, "0.0", cell.Number)
	default:
		s.Number(look, xlsx.General, cell.Number)
	}
}

// logFormat is the number format of a column to fill in: what is mostly words
// or a file's name stays as it is typed.
func logFormat(f record.Field) xlsx.Format {
	switch f {
	case record.ColourField, record.PhotoField, record.NotesField:
		return xlsx.AsText
	}
	return xlsx.General
}

// checkColumn says what may stand in a column.
func (b *logBook) checkColumn(s *xlsx.Sheet, c record.Column, area xlsx.Area) {
	switch {
	case c.Choices != nil:
		s.List(area, c.Choices, xlsx.Check{Title: c.Head, Lenient: true,
			Message: "That is none of the list. It may stand here all the same."})
	case c.Field == record.RatingField:
		// A list of numbers: what is chosen from it is a number, and what is none
		// of it is refused.
		s.List(area, ratings(), xlsx.Check{Title: c.Head,
			Prompt:  fmt.Sprintf("a whole number, %d the worst, %d the best", record.LeastRating, record.MostRating),
			Message: fmt.Sprintf("What fits here is a whole number from %d to %d.", record.LeastRating, record.MostRating)})
	case c.Field == record.NumberField:
		s.Between(area, math.Inf(-1), math.Inf(1), xlsx.Check{Title: c.Head, Lenient: true,
			Message: "That is no number. It will be left out of the results."})
	}
}

// ratings are the numbers to choose a rating from.
func ratings() []string {
	var all []string
	for n := record.LeastRating; n <= record.MostRating; n++ {
		all = append(all, strconv.Itoa(n))
	}
	return all
}

// writeFiring writes the sheet of the firing: labels with a blank beside each.
func (b *logBook) writeFiring() {
	s := b.sheet(record.SheetFirings, false)
	s.Width(0, 0, 24)
	s.Width(1, 1, 60)
	s.Title(record.SheetFirings)
	for _, l := range record.FiringLabels() {
		height := 24.0
		format := xlsx.General
		switch l.Label {
		case "Schedule", "Notes":
			height = 96
			format = xlsx.AsText
		case "Date":
			format = xlsx.Date
		}
		row := s.TallRow(height)
		s.Text(xlsx.Label, l.Label)
		if l.Choices != nil {
			s.List(xlsx.CellArea(1, row), l.Choices, xlsx.Check{Title: l.Label, Lenient: true,
				Message: "That is none of the list. It may stand here all the same."})
		}
		s.Blank(xlsx.Field, format)
	}
	s.Lock()
}

// writeLegend writes what the marks mean.
func (b *logBook) writeLegend() {
	s, p := b.sheet(record.SheetLegend, false), b.t.Plan
	s.Width(0, 0, 16)
	s.Width(1, 2, 40)
	line := func(text string) {
		s.Row()
		s.Text(xlsx.Plain, text)
		s.Skip(2) // it runs over the columns beside it
	}
	s.Title("What the marks mean")
	line("The tiles of this test bear " + b.marks.Scheme.Form() + ".")
	if p.Mark != "" {
		line(strings.ToUpper(p.Mark) + " is this test, and the number is the cup.")
	} else {
		line("The number is the cup.")
	}
	first := b.marks.Tiles[0]
	line("Underneath, in oxide wash, the mark has one check sign more: " + first.Mark + " is " + first.Under + " there.")
	line("The check sign shows up a wrong or a lost sign.")
	if p.Blend.HasSeries() {
		line("Percentages of additions are of the dry base in the cup.")
	} else {
		line("Shares are " + wording.BasisText(p.Blend.Basis) + ".")
	}
	s.SkipRows(1)
	heads := []string{"Letters", "Body", "Repeat"}
	if p.Tiles.Repeats <= 1 {
		heads = heads[:2]
	}
	s.Row()
	for _, h := range heads {
		s.Text(xlsx.Head, h)
	}
	s.Page.HeadRows = [2]int{s.LastRow(), s.LastRow()}
	stem := strings.ToUpper(p.Mark) + "1"
	for _, tile := range b.marks.Tiles {
		if tile.Cell != 1 {
			break
		}
		letters := strings.TrimPrefix(tile.Mark, stem)
		if letters == "" {
			letters = "none"
		}
		s.Row()
		s.FormattedText(xlsx.Head, xlsx.AsText, letters)
		s.FormattedText(xlsx.Given, xlsx.AsText, p.Tiles.Bodies[tile.Body])
		if len(heads) > 2 {
			s.Number(xlsx.Given, xlsx.General, float64(tile.Repeat+1))
		}
	}
	s.Lock()
}

// writePlan writes what tells one plan from another, for record.Carried and
// record.CarriedAmounts to read.
func (b *logBook) writePlan(fingerprint string, outline, amounts []string) {
	s := b.sheet(record.SheetPlan, false)
	const width = 90
	s.Width(0, 0, width)
	s.Width(1, 1, 16)
	lines := func(texts []string) {
		for _, line := range texts {
			s.TallRow(float64(15*min(xlsx.LinesOf(line, width), 27) + 2)) // a row is at most 409 points high
			s.FormattedText(xlsx.Label, xlsx.AsText, line)
		}
	}
	s.Row()
	s.Text(xlsx.Label, record.HeadAmounts)
	lines(amounts)
	s.Row()
	s.Text(xlsx.Label, record.HeadFingerprint)
	s.FormattedText(xlsx.Given, xlsx.AsText, fingerprint)
	lines(outline)
	s.Lock()
}
