package logbook

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/record"
	"pourboard/layout"
	"pourboard/render/wording"
	"pourboard/render/xlsx"
)

// Write writes the workbook in which fired tiles are recorded: a row for each
// tile, a row for each cup, the firings, what the marks mean, and the plan,
// whose file's text is given. What a log says of its tiles and firings is filled
// in, nil for nothing. Warnings are the texts that had to be cut.
func Write(w io.Writer, t *blend.Test, places *layout.Places, text string, filled *record.Log,
) (warnings []string, err error) {
	b := &logBook{xlsx.New(t.Plan.Title + " – log"), t, places, text, identity.Fingerprint(t.Plan), filled}
	if filled == nil {
		b.filled = new(record.Log)
	}
	b.writeTiles()
	b.writeCups()
	b.writeFirings()
	b.writeLegend()
	b.writePlan()
	warnings = b.writeText()
	err = b.Write(w)
	return append(warnings, b.Warnings()...), err
}

// logBook is the log while it is written.
type logBook struct {
	*xlsx.Book
	t     *blend.Test
	marks *layout.Places
	text  string
	code  string // fingerprint of the plan

	filled *record.Log // what is entered already
}

func (b *logBook) sheet(name string, landscape bool) *xlsx.Sheet {
	s := b.Sheet(name)
	s.Page = xlsx.Page{Paper: b.t.Plan.Board.Paper, Landscape: landscape,
		Left: b.t.Plan.Title, Right: name, Foot: wording.Summary(b.t)}
	return s
}

// rowHeight is the height of a row to fill in, in points: enough for a thumb on
// a screen and a pen on paper.
const rowHeight = 30

// writeTiles writes the sheet with a row for each tile. It is not locked, for a
// locked sheet cannot be sorted; what is printed is checked against the mark
// when the log is read.
func (b *logBook) writeTiles() {
	s := b.sheet(record.SheetTiles, true)
	columns := record.Columns(b.t.Plan)
	s.Heads(heads(columns), func(i int) float64 { return float64(min(max(columns[i].Chars, 7), 40)) }, 15, 1)
	rows := b.rows()
	for _, row := range rows {
		s.TallRow(rowHeight)
		for i := range columns {
			b.writeTile(s, &columns[i], row)
		}
	}
	offerChoices(s, columns, len(rows))
	s.Filter(len(columns)-1, len(rows)+1)
	// What follows is for the screen.
	s.Page.Columns = slices.IndexFunc(columns, func(c record.Column) bool { return c.Field == record.ShareField })
}

func heads(columns []record.Column) (names []string) {
	for _, c := range columns {
		names = append(names, c.Head)
	}
	return names
}

// offerChoices lets the cells of a table choose from the lists of its columns.
func offerChoices(s *xlsx.Sheet, columns []record.Column, rows int) {
	for i, c := range columns {
		if c.Choices != nil {
			s.List(xlsx.Address(i, 2), xlsx.Address(i, rows+1), c.Choices)
		}
	}
}

// writeTile writes the cell of a tile in a column. Words and names of files stay as
// they are typed.
func (b *logBook) writeTile(s *xlsx.Sheet, c *record.Column, row tileRow) {
	cell := c.Printed(b.t, row.tile)
	if c.Fill && row.reading != nil {
		cell = c.Entered(row.reading)
	}
	look, format := xlsx.Given, xlsx.General
	switch c.Field {
	case record.PlanField:
		look, cell = xlsx.GivenText, record.Cell{Kind: record.Text, Text: b.code}
	case record.MarkField:
		look = xlsx.Head
	case record.BodyField:
		look = xlsx.GivenText
	case record.ShareField, record.MadeField:
		format = "0.0##"
	case record.ColourField, record.PhotoField, record.NotesField:
		format = xlsx.AsText
	}
	if c.Fill {
		look = xlsx.Field
	}
	switch cell.Kind {
	case record.Text:
		s.FormattedText(look, xlsx.AsText, cell.Text)
	case record.Number:
		s.Number(look, format, cell.Number)
	default:
		s.Blank(look, format)
	}
}

// writeCups writes the sheet with a row for each cup, laid out like the pour
// card: each amount, and room for what it came out as.
func (b *logBook) writeCups() {
	s := b.sheet(record.SheetCups, false)
	columns := record.CupColumns(b.t)
	digits := s.Heads(heads(columns), func(i int) float64 {
		switch columns[i].Field {
		case record.CellField:
			return 6
		case record.NotesField:
			return 24
		}
		return 11
	}, 15, 1)
	for _, cup := range b.t.Cells {
		s.TallRow(rowHeight)
		for _, c := range columns {
			switch c.Field {
			case record.CellField:
				s.Number(xlsx.Head, xlsx.General, float64(cup.Number))
			case record.PourAsked:
				s.Number(xlsx.Given, dash(b.t.Plan.Kit.Pour.Decimals()), cup.Pours[c.Index].Got.Shown(b.t.Plan.Kit))
			case record.DoseAsked:
				step, amount := b.t.Plan.Kit.Dosing(), cup.Doses[c.Index].MeasuredG
				if len(b.t.Stocks) > 0 {
					step, amount = b.t.Plan.Kit.Syringe, cup.Doses[c.Index].MeasuredML
				}
				s.Number(xlsx.Given, dash(step.Decimals()), amount)
			default:
				s.Blank(xlsx.Field, xlsx.General)
			}
		}
	}
	offerChoices(s, columns, len(b.t.Cells))
	s.FitPages(digits)
}

// dash is a number format that shows nothing as a dash.
func dash(decimals int) xlsx.Format { return xlsx.WithNought(xlsx.Decimals(decimals), "–") }

// writeFirings writes the sheet of firings: a line for each label, a column for
// each firing.
func (b *logBook) writeFirings() {
	s := b.sheet(record.SheetFirings, true)
	names := []string{record.HeadFiring}
	for _, letter := range record.FiringLetters {
		names = append(names, string(letter))
	}
	s.Heads(names, func(int) float64 { return 24 }, 15, 1)
	for _, l := range record.FiringLabels() {
		height, format := float64(rowHeight), xlsx.General
		switch l.Label {
		case "Schedule", "Notes":
			height, format = 3*rowHeight, xlsx.AsText
		case "Date":
			format = xlsx.Date
		}
		row := s.TallRow(height)
		s.Text(xlsx.Head, l.Label)
		for _, letter := range record.FiringLetters {
			if text := b.filled.Firings.Of(string(letter)).Value(l.Label); text != "" {
				s.FormattedText(xlsx.Field, xlsx.AsText, text)
			} else {
				s.Blank(xlsx.Field, format)
			}
		}
		if l.Choices != nil {
			s.List(xlsx.Address(1, row), xlsx.Address(len(record.FiringLetters), row), l.Choices)
		}
	}
}

// writeLegend writes what the marks mean.
func (b *logBook) writeLegend() {
	s, p := b.sheet(record.SheetLegend, false), b.t.Plan
	s.Width(0, 0, 16)
	s.Width(1, 1, 64)
	s.Title("Marks")
	first := b.marks.Tiles[0]
	percentages := "Shares are " + wording.BasisText(p.Blend.Basis) + "."
	if p.Blend.HasSeries() {
		percentages = "Percentages are of the cup's dry glaze."
	}
	for _, line := range []string{
		"Marks: " + b.marks.Scheme.Form() + ". The number is the cup.",
		"Underneath, the mark and its check letter: " + first.Mark + " is " + first.Under + ".",
		fmt.Sprintf("Rating: %d is the worst, %d the best; halves count too.", record.LeastRating, record.MostRating),
		"Firing: the sheet " + record.SheetFirings + " has a column for each. " +
			"A tile fired again gets a second row with its mark.",
		"An amount that came out otherwise, or a cup forgotten or spilled: enter it on the sheet " + record.SheetCups + ".",
		percentages,
	} {
		s.Remark(line, 2, 80)
	}
	s.SkipRow()
	s.Row()
	s.Text(xlsx.Head, "Letters")
	s.Text(xlsx.Head, "Body")
	if p.Tiles.Repeats > 1 {
		s.Text(xlsx.Head, "Repeat")
	}
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
		s.FormattedText(xlsx.GivenText, xlsx.AsText, p.Tiles.Bodies[tile.Body])
		if p.Tiles.Repeats > 1 {
			s.Number(xlsx.Given, xlsx.General, float64(tile.Repeat+1))
		}
	}
	s.Lock()
}

// planWidth is the width of the lines of a plan, in digits.
const planWidth = 90

// planLine writes a row with a line of text as it is.
func planLine(s *xlsx.Sheet, line string) {
	const most = 409 // the highest row in points
	s.TallRow(min(xlsx.LineHeight(line, planWidth)+1, most))
	s.FormattedText(xlsx.Label, xlsx.AsText, line)
}

// writePlan writes what tells one plan from another, for record.Carry to read.
func (b *logBook) writePlan() {
	s := b.sheet(record.SheetPlan, false)
	s.Width(0, 0, planWidth)
	s.Width(1, 1, 16)
	for _, part := range []struct {
		head  string
		lines []string
	}{
		{record.HeadLetters, b.marks.Scheme.Letters().Lines()},
		{record.HeadAmounts, identity.AmountsOf(b.t.Plan).Lines()},
		{record.HeadFingerprint, identity.OutlineOf(b.t.Plan).Lines()},
	} {
		s.Row()
		s.Text(xlsx.Label, part.head)
		if part.head == record.HeadFingerprint {
			s.FormattedText(xlsx.Given, xlsx.AsText, b.code)
		}
		for _, line := range part.lines {
			planLine(s, line)
		}
	}
	s.Lock()
}

// writeText writes the plan's text, for record.PlanText to read. One of more lines
// than anybody writes by hand is left out, with a warning.
func (b *logBook) writeText() (warnings []string) {
	s := b.sheet(record.SheetText, false)
	s.Width(0, 0, planWidth)
	text := strings.Split(strings.TrimSuffix(b.text, "\n"), "\n")
	if len(text) > mostPlanLines {
		const format = "the log does not carry the plan's text: %d lines are more than %d (keep the plan's file)"
		warnings = []string{fmt.Sprintf(format, len(text), mostPlanLines)}
		text = nil
	}
	for _, line := range text {
		line = strings.TrimSuffix(line, "\r")
		switch {
		case line == "":
			s.SkipRow()
			continue
		case strings.ContainsRune("=+-@", rune(line[0])):
			line = "'" + line
		}
		planLine(s, line)
	}
	s.Lock()
	return warnings
}
