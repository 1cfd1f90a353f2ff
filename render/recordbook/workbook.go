package recordbook

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/book"
	"pourboard/blend/record"
	"pourboard/render/xlsx"
)

// Names of the book's sheets.
const (
	SheetTiles   = "Tiles"
	SheetTests   = "Tests"
	SheetFirings = "Firings"
	SheetSkipped = "Skipped"
)

// WriteWorkbook writes the book as a workbook: a row for each fired tile, then
// its tests, firings and what was skipped. The same book gives the same bytes.
func WriteWorkbook(w io.Writer, b *book.Book) (warnings []string, err error) {
	wb := &workbook{Book: xlsx.New("Record book"), b: b}
	wb.tiles()
	wb.tests()
	wb.firings()
	wb.skipped()
	data, err := wb.Bytes()
	if err != nil {
		return nil, err
	}
	_, err = w.Write(data)
	return wb.Warnings(), err
}

// workbook is the book while it is written.
type workbook struct {
	*xlsx.Book
	b *book.Book
}

// column is a column of a sheet.
type column struct {
	head  string
	width float64 // digits
}

// begin begins a sheet with a frozen, filtered row of heads over so many rows.
func (w *workbook) begin(name string, columns []column, rows int) *xlsx.Sheet {
	s := w.Sheet(name)
	s.Page = xlsx.Page{Paper: "A4", Landscape: true, Left: "Record book", Right: name, HeadRows: [2]int{1, 1}}
	lines := 1
	for i, c := range columns {
		width := max(c.width, xlsx.HeadWidth(c.head))
		s.Width(i, i, width)
		lines = max(lines, xlsx.LinesOf(c.head, width))
	}
	s.TallRow(float64(15*lines + 3))
	for _, c := range columns {
		s.Text(xlsx.Head, c.head)
	}
	s.Filter(0, 1, len(columns)-1, rows+1)
	s.Freeze(min(2, len(columns)-1), 1)
	return s
}

func text(s *xlsx.Sheet, t string) {
	if t == "" {
		s.Skip(1)
		return
	}
	s.FormattedText(xlsx.Plain, xlsx.AsText, t)
}

func number(s *xlsx.Sheet, x float64, format xlsx.Format, given bool) {
	if !given {
		s.Skip(1)
		return
	}
	s.Number(xlsx.Plain, format, x)
}

// firingLabels are the lines of a firing that tiles have columns for.
func firingLabels() []string { return []string{"Cone", "Atmosphere", "Date", book.KeptInLabel} }

// tiles writes the sheet of fired tiles.
func (w *workbook) tiles() {
	b := w.b
	columns := []column{{"Test", 28}, {record.HeadMark, 9}, {record.HeadCup, 5}, {"Body", 12}, {"Repeat", 7}, {record.HeadFiring, 7}}
	for _, label := range firingLabels() {
		columns = append(columns, column{label, 10})
	}
	columns = append(columns, column{"Base", 18})
	for _, name := range b.Parts {
		columns = append(columns, column{name + " %", 10})
	}
	columns = append(columns, column{"Rating", 7}, column{"Surface", 10}, column{"Defects", 10}, column{"Colour", 12})
	for i := range b.Coats {
		columns = append(columns, column{"Coat " + strconv.Itoa(i+1), 10})
	}
	for _, head := range b.Numbers {
		columns = append(columns, column{head, 8})
	}
	columns = append(columns, column{"Notes", 28}, column{"Photograph", 14})
	for _, o := range b.Oxides {
		columns = append(columns, column{string(o) + " wt%", 8})
	}
	columns = append(columns, column{"SiO2:Al2O3", 8}, column{"Plan", 24})
	s := w.begin(SheetTiles, columns, b.Tiles)
	for _, c := range b.Chapters {
		for i := range c.Tiles {
			w.tile(s, c, &c.Tiles[i])
		}
	}
}

// tile writes the row of a tile.
func (w *workbook) tile(s *xlsx.Sheet, c *book.Chapter, t *book.Tile) {
	s.Row()
	text(s, c.Title)
	text(s, t.Mark)
	number(s, float64(t.Cup), "0", true)
	text(s, t.Body)
	number(s, float64(t.Repeat), "0", true)
	text(s, t.Firing)
	firing := c.Firing(t.Firing)
	for _, label := range firingLabels() {
		text(s, firing.Value(label))
	}
	text(s, c.Base)
	for _, name := range w.b.Parts {
		percent, has := t.Mix.Part(name)
		number(s, round(percent), "0.0##", has)
	}
	number(s, float64(t.Rating), "0", t.Rating > 0)
	text(s, t.Surface)
	text(s, t.Defects)
	text(s, t.Colour)
	for i := range w.b.Coats {
		if i < len(t.Coats) {
			text(s, t.Coats[i])
		} else {
			s.Skip(1)
		}
	}
	for _, head := range w.b.Numbers {
		x, has := t.Number(head)
		number(s, x, xlsx.General, has)
	}
	text(s, t.Notes)
	text(s, t.Photo)
	for _, o := range w.b.Oxides {
		percent, has := t.Mix.Oxide(o)
		number(s, round(percent), "0.00", has)
	}
	number(s, round(t.Mix.SiAl), "0.00", t.Mix.SiAl > 0)
	text(s, c.Plan)
}

// round leaves six decimals, without the noise of a third times a hundred.
func round(x float64) float64 {
	y, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'f', 6, 64), 64)
	return y
}

// tests writes the sheet of tests.
func (w *workbook) tests() {
	s := w.begin(SheetTests, []column{{"Test", 32}, {"Mark", 7}, {"Kind", 11}, {"Cups", 6}, {"Tiles planned", 8}, {"Rows recorded", 9},
		{"Plan", 32}, {"Log", 32}, {"Copies", 24}, {"Notes", 48}}, len(w.b.Chapters))
	for _, c := range w.b.Chapters {
		s.Row()
		text(s, c.Title)
		text(s, c.Mark)
		text(s, string(c.Kind))
		number(s, float64(c.Cups), "0", true)
		number(s, float64(c.Planned), "0", true)
		number(s, float64(len(c.Tiles)), "0", true)
		text(s, c.Plan)
		text(s, strings.Join(c.Logs, ", "))
		text(s, strings.Join(c.Copies, ", "))
		text(s, strings.Join(c.Notes, "; "))
	}
}

// firings writes the sheet of firings.
func (w *workbook) firings() {
	var labels []string
	columns := []column{{"Test", 32}, {record.HeadFiring, 7}, {"Rows recorded", 9}}
	for _, l := range record.FiringLabels() {
		labels = append(labels, l.Label)
		columns = append(columns, column{l.Label, 12})
	}
	rows := 0
	for _, c := range w.b.Chapters {
		rows += len(c.Firings)
	}
	s := w.begin(SheetFirings, columns, rows)
	for _, c := range w.b.Chapters {
		for _, f := range c.Firings {
			s.Row()
			text(s, c.Title)
			text(s, f.Letter)
			number(s, float64(c.Recorded(f.Letter)), "0", true)
			for _, label := range labels {
				text(s, f.Value(label))
			}
		}
	}
}

// skipped writes the sheet of what was not taken, and why.
func (w *workbook) skipped() {
	s := w.begin(SheetSkipped, []column{{"File", 48}, {"Reason", 80}}, len(w.b.Skipped)+len(w.b.Others))
	for _, skip := range slices.Concat(w.b.Skipped, w.b.Others) {
		s.Row()
		text(s, skip.File)
		text(s, skip.Reason)
	}
}
