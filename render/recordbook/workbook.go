package recordbook

import (
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

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
	wb := xlsx.New("Record book")
	write(wb, SheetTiles, tileColumns(b), tiles(b))
	write(wb, SheetTests, testColumns(), b.Chapters)
	write(wb, SheetFirings, firingColumns(), firings(b))
	write(wb, SheetSkipped, []column[book.Skip]{
		textColumn("File", func(s book.Skip) string { return s.File }),
		textColumn("Reason", func(s book.Skip) string { return s.Reason }),
	}, slices.Concat(b.Skipped, b.Others))
	return wb.Warnings(), wb.Write(w)
}

// value is what a cell holds: a number, a text, or nothing.
type value struct {
	text   string
	number float64
	is     bool // a number
}

// column is a column of a sheet whose rows are of R.
type column[R any] struct {
	head   string
	format xlsx.Format // of numbers
	value  func(R) value
	screen bool // left out in print
}

func textColumn[R any](head string, text func(R) string) column[R] {
	return column[R]{head: head, value: func(r R) value { return value{text: text(r)} }}
}

// numberColumn is a column of numbers, to six decimals: without the noise of a third
// times a hundred.
func numberColumn[R any](head string, format xlsx.Format, number func(R) (x float64, has bool)) column[R] {
	return column[R]{head: head, format: format, value: func(r R) value {
		x, has := number(r)
		return value{number: math.Round(x*1e6) / 1e6, is: has}
	}}
}

// countColumn is a column of whole numbers that every row has.
func countColumn[R any](head string, count func(R) int) column[R] {
	return numberColumn(head, "0", func(r R) (float64, bool) { return float64(count(r)), true })
}

// entryColumn is a column of what is entered beside a label of a firing. A date in a
// form that can be read in one way, 2026-10-03 or 3.10.2026, is one in the workbook.
func entryColumn[R any](label string, of func(R) record.Firing) column[R] {
	return column[R]{head: label, format: xlsx.Date, value: func(r R) value {
		text := of(r).Value(label)
		if label != "Date" {
			return value{text: text}
		}
		day, err := time.Parse("2006-1-2", dottedDate.ReplaceAllString(text, "$3-$2-$1"))
		if err != nil || day.Year() <= 1900 {
			return value{text: text}
		}
		return value{number: day.Sub(firstDay).Hours() / 24, is: true}
	}}
}

// firstDay is day 0 of a workbook.
var firstDay = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)

// dottedDate has the day before the month, everywhere that dates have dots.
var dottedDate = regexp.MustCompile(`^(\d{1,2})\. ?(\d{1,2})\. ?(\d{4})$`)

// The widths of columns in digits.
const (
	numberWidth = 7
	dateWidth   = 11
	widestText  = 48
)

// width is as wide as the column's texts, up to widestText; filled is false where
// no row has anything.
func (c column[R]) width(rows []R) (width float64, filled bool) {
	longest := 0
	for _, r := range rows {
		switch v := c.value(r); {
		case v.is && c.format == xlsx.Date:
			width = max(width, dateWidth)
		case v.is:
			return max(numberWidth, xlsx.HeadWidth(c.head)), true
		default:
			longest = max(longest, utf8.RuneCountInString(v.text))
		}
	}
	filled = longest > 0 || width > 0
	return min(max(width, 3+1.1*float64(longest), xlsx.HeadWidth(c.head)), widestText), filled
}

// write writes a sheet: a frozen row of heads with filters, and the rows. A column
// in which no row has anything is left out, but for the first two, which stay in
// sight and on every page.
func write[R any](b *xlsx.Book, name string, columns []column[R], rows []R) {
	const fixed = 2
	s := b.Sheet(name)
	var filled []column[R]
	lines, printed, total := 1, 0, 0.0
	for i, c := range columns {
		width, has := c.width(rows)
		if !has && i >= fixed {
			continue
		}
		s.Width(len(filled), len(filled), width)
		filled = append(filled, c)
		lines = max(lines, xlsx.LinesOf(c.head, width))
		if !c.screen {
			printed, total = printed+1, total+width
		}
	}
	s.Page = xlsx.Page{
		Paper: "A4", Landscape: true, Left: "Record book", Right: name,
		HeadRows: [2]int{1, 1}, HeadColumns: fixed, Columns: printed,
	}
	s.Page.Percent = s.Page.Scale(total)
	s.Freeze(fixed, 1)
	s.TallRow(float64(15*lines + 3))
	for _, c := range filled {
		s.Text(xlsx.Head, c.head)
	}
	for _, r := range rows {
		s.Row()
		for _, c := range filled {
			switch v := c.value(r); {
			case v.is:
				s.Number(xlsx.Plain, c.format, v.number)
			case v.text != "":
				s.FormattedText(xlsx.Unit, xlsx.AsText, v.text)
			default:
				s.Skip(1)
			}
		}
	}
	s.Filter(len(filled)-1, s.LastRow())
}

// tile is a row of the sheet of tiles.
type tile struct {
	*book.Tile
	chapter *book.Chapter
}

func tiles(b *book.Book) (all []tile) {
	for _, c := range b.Chapters {
		for i := range c.Tiles {
			all = append(all, tile{&c.Tiles[i], c})
		}
	}
	return all
}

// tileColumns are the columns of the sheet of tiles. Its chemistry is for the screen.
func tileColumns(b *book.Book) []column[tile] {
	all := []column[tile]{
		textColumn("Test", func(t tile) string { return t.chapter.Title }),
		textColumn(record.HeadMark, func(t tile) string { return t.Mark }),
		countColumn(record.HeadCup, func(t tile) int { return t.Cell }),
		textColumn("Body", func(t tile) string { return t.Body }),
		countColumn("Repeat", func(t tile) int { return t.Repeat + 1 }),
		textColumn(record.HeadFiring, func(t tile) string { return t.Firing }),
	}
	for _, label := range []string{"Cone", "Atmosphere", "Date", book.KeptInLabel} {
		all = append(all, entryColumn(label, func(t tile) record.Firing { return t.chapter.Firings.Of(t.Firing) }))
	}
	all = append(all, textColumn("Base", func(t tile) string { return t.chapter.Base }))
	for _, name := range b.Parts {
		all = append(all, numberColumn(name+" %", "0.0##", func(t tile) (float64, bool) { return t.Mix.Part(name) }))
	}
	all = append(all,
		numberColumn("Rating", xlsx.General, func(t tile) (float64, bool) { return t.Rating, t.Rating > 0 }),
		textColumn("Surface", func(t tile) string { return t.Surface }),
		textColumn("Defects", func(t tile) string { return t.Defects }),
		textColumn("Colour", func(t tile) string { return t.Colour }))
	for i := range b.Coats {
		all = append(all, textColumn("Coat "+strconv.Itoa(i+1), func(t tile) string {
			if i < len(t.Coats) {
				return t.Coats[i].Text
			}
			return ""
		}))
	}
	for _, head := range b.Numbers {
		all = append(all, numberColumn(head, xlsx.General, func(t tile) (float64, bool) { return t.Number(head) }))
	}
	all = append(all,
		textColumn("Notes", func(t tile) string { return t.Notes }),
		textColumn("Photograph", func(t tile) string { return t.Photo }))
	printed := len(all)
	for _, o := range b.Oxides {
		all = append(all, numberColumn(string(o)+" wt%", "0.00", func(t tile) (float64, bool) { return t.Mix.Oxide(o) }))
	}
	all = append(all,
		numberColumn("SiO2:Al2O3", "0.00", func(t tile) (float64, bool) { return t.Mix.SiAl, t.Mix.SiAl > 0 }),
		textColumn("Plan", func(t tile) string { return t.chapter.Plan }))
	for i := range all[printed:] {
		all[printed+i].screen = true
	}
	return all
}

// testColumns are the columns of the sheet of tests.
func testColumns() []column[*book.Chapter] {
	type test = *book.Chapter
	return []column[test]{
		textColumn("Test", func(c test) string { return c.Title }),
		textColumn(record.HeadMark, func(c test) string { return c.Mark }),
		textColumn("Kind", func(c test) string { return string(c.Kind) }),
		countColumn("Cups", func(c test) int { return c.Cups }),
		countColumn("Tiles planned", func(c test) int { return c.Planned }),
		countColumn("Rows recorded", func(c test) int { return len(c.Tiles) }),
		textColumn("Plan", func(c test) string { return c.Plan }),
		textColumn("Log", func(c test) string { return strings.Join(c.Logs, ", ") }),
		textColumn("Copies", func(c test) string { return strings.Join(c.Copies, ", ") }),
		textColumn("Notes", func(c test) string { return strings.Join(c.Notes, "; ") }),
	}
}

// firing is a row of the sheet of firings.
type firing struct {
	record.Firing
	chapter *book.Chapter
}

func firings(b *book.Book) (all []firing) {
	for _, c := range b.Chapters {
		for _, f := range c.Firings {
			all = append(all, firing{f, c})
		}
	}
	return all
}

// firingColumns are the columns of the sheet of firings.
func firingColumns() []column[firing] {
	all := []column[firing]{
		textColumn("Test", func(f firing) string { return f.chapter.Title }),
		textColumn(record.HeadMark, func(f firing) string { return f.chapter.Mark }),
		textColumn(record.HeadFiring, func(f firing) string { return f.Letter }),
		countColumn("Rows recorded", func(f firing) int { return f.chapter.Recorded(f.Letter) }),
	}
	for _, l := range record.FiringLabels() {
		all = append(all, entryColumn(l.Label, func(f firing) record.Firing { return f.Firing }))
	}
	return all
}
