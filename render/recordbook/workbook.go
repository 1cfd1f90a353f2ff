package recordbook

import (
	"io"
	"iter"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"pourboard/blend/book"
	"pourboard/blend/oxide"
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
	write(wb, SheetTests, testColumns(), slices.Values(b.Chapters))
	write(wb, SheetFirings, firingColumns(), firings(b))
	write(wb, SheetSkipped, []column[book.Skip]{
		textColumn("File", func(s book.Skip) string { return s.File }),
		textColumn("Reason", func(s book.Skip) string { return s.Reason }),
	}, slices.Values(slices.Concat(b.Skipped, b.Others)))
	data, err := wb.Bytes()
	if err != nil {
		return nil, err
	}
	_, err = w.Write(data)
	return wb.Warnings(), err
}

// column is a column of a sheet whose rows are of R: of texts, or of numbers.
type column[R any] struct {
	head   string
	text   func(R) string
	number func(R) (x float64, has bool)
	format xlsx.Format // of numbers
}

func textColumn[R any](head string, text func(R) string) column[R] {
	return column[R]{head: head, text: text}
}

func numberColumn[R any](head string, format xlsx.Format, number func(R) (float64, bool)) column[R] {
	return column[R]{head: head, number: number, format: format}
}

// countColumn is a column of whole numbers that every row has.
func countColumn[R any](head string, count func(R) int) column[R] {
	return numberColumn(head, "0", func(r R) (float64, bool) { return float64(count(r)), true })
}

// The widths of columns in digits.
const (
	numberWidth = 7
	widestText  = 48
)

// width is as wide as the column's texts, up to widestText; filled is false where
// no row has anything.
func (c column[R]) width(rows iter.Seq[R]) (width float64, filled bool) {
	longest := 0
	for r := range rows {
		if c.number != nil {
			if _, has := c.number(r); has {
				return max(numberWidth, xlsx.HeadWidth(c.head)), true
			}
			continue
		}
		longest = max(longest, utf8.RuneCountInString(c.text(r)))
	}
	return min(max(3+1.1*float64(longest), xlsx.HeadWidth(c.head)), widestText), longest > 0
}

// write writes a sheet: a frozen row of heads with filters, and the rows. A column
// in which no row has anything is left out, but for the first two, which stay in
// sight and on every page.
func write[R any](b *xlsx.Book, name string, columns []column[R], rows iter.Seq[R]) {
	const fixed = 2
	s := b.Sheet(name)
	var filled []column[R]
	lines, total := 1, 0.0
	for i, c := range columns {
		width, has := c.width(rows)
		if !has && i >= fixed {
			continue
		}
		s.Width(len(filled), len(filled), width)
		filled = append(filled, c)
		lines, total = max(lines, xlsx.LinesOf(c.head, width)), total+width
	}
	s.Page = xlsx.Page{Paper: "A4", Landscape: true, Left: "Record book", Right: name, HeadRows: [2]int{1, 1}, HeadColumns: fixed}
	s.Page.Percent = s.Page.Scale(total)
	s.Freeze(fixed, 1)
	s.TallRow(float64(15*lines + 3))
	for _, c := range filled {
		s.Text(xlsx.Head, c.head)
	}
	for r := range rows {
		s.Row()
		for _, c := range filled {
			c.write(s, r)
		}
	}
	s.Filter(len(filled)-1, s.LastRow())
}

// write writes the cell of a row.
func (c column[R]) write(s *xlsx.Sheet, r R) {
	if c.number == nil {
		if text := c.text(r); text != "" {
			s.FormattedText(xlsx.Unit, xlsx.AsText, text)
			return
		}
	} else if x, has := c.number(r); has {
		s.Number(xlsx.Plain, c.format, x)
		return
	}
	s.Skip(1)
}

// tile is a row of the sheet of tiles.
type tile struct {
	*book.Tile
	chapter *book.Chapter
}

func tiles(b *book.Book) iter.Seq[tile] {
	return func(yield func(tile) bool) {
		for _, c := range b.Chapters {
			for i := range c.Tiles {
				if !yield(tile{&c.Tiles[i], c}) {
					return
				}
			}
		}
	}
}

// tileColumns are the columns of the sheet of tiles.
func tileColumns(b *book.Book) []column[tile] {
	all := []column[tile]{
		textColumn("Test", func(t tile) string { return t.chapter.Title }),
		textColumn(record.HeadMark, func(t tile) string { return t.Mark }),
		countColumn(record.HeadCup, func(t tile) int { return t.Cup }),
		textColumn("Body", func(t tile) string { return t.Body }),
		countColumn("Repeat", func(t tile) int { return t.Repeat }),
		textColumn(record.HeadFiring, func(t tile) string { return t.Firing }),
	}
	for _, label := range []string{"Cone", "Atmosphere", "Date", book.KeptInLabel} {
		all = append(all, textColumn(label, func(t tile) string { return t.chapter.Firings.Of(t.Firing).Value(label) }))
	}
	all = append(all, textColumn("Base", func(t tile) string { return t.chapter.Base }))
	for _, name := range b.Parts {
		all = append(all, numberColumn(name+" %", "0.0##", func(t tile) (float64, bool) {
			percent, has := t.Mix.Part(name)
			return round(percent), has
		}))
	}
	all = append(all,
		numberColumn("Rating", xlsx.General, func(t tile) (float64, bool) { return t.Rating, t.Rating > 0 }),
		textColumn("Surface", func(t tile) string { return t.Surface }),
		textColumn("Defects", func(t tile) string { return t.Defects }),
		textColumn("Colour", func(t tile) string { return t.Colour }))
	for i := range b.Coats {
		all = append(all, textColumn("Coat "+strconv.Itoa(i+1), func(t tile) string {
			if i < len(t.Coats) {
				return t.Coats[i]
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
	for _, o := range b.Oxides {
		all = append(all, oxideColumn(o))
	}
	return append(all,
		numberColumn("SiO2:Al2O3", "0.00", func(t tile) (float64, bool) { return round(t.Mix.SiAl), t.Mix.SiAl > 0 }),
		textColumn("Plan", func(t tile) string { return t.chapter.Plan }))
}

func oxideColumn(o oxide.Oxide) column[tile] {
	return numberColumn(string(o)+" wt%", "0.00", func(t tile) (float64, bool) {
		percent, has := t.Mix.Oxide(o)
		return round(percent), has
	})
}

// round leaves six decimals, without the noise of a third times a hundred.
func round(x float64) float64 { return math.Round(x*1e6) / 1e6 }

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

func firings(b *book.Book) iter.Seq[firing] {
	return func(yield func(firing) bool) {
		for _, c := range b.Chapters {
			for _, f := range c.Firings {
				if !yield(firing{f, c}) {
					return
				}
			}
		}
	}
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
		all = append(all, textColumn(l.Label, func(f firing) string { return f.Value(l.Label) }))
	}
	return all
}
