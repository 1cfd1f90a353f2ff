package recordbook

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/book"
	"pourboard/blend/record"
	"pourboard/blend/record/recordtest"
	"pourboard/render/page/pagetest"
	"pourboard/render/xlsx"
)

// studio is a book of so many tests in which every third tile is rated, but none of
// the last test.
func studio(t *testing.T, tests int) *book.Book {
	t.Helper()
	var chapters []*book.Chapter
	names := []string{"line-series", "triaxial", "biaxial-series", "bucket-glazes"}
	for n := range tests {
		title, prefix := fmt.Sprintf("Made up %d, with a long title about a glaze and what colours it", n), string(rune('A'+n/26))+string(rune('A'+n%26))
		m := recordtest.Planned(t, names[n%len(names)], func(p *blend.Plan) { p.Title, p.Mark = title, prefix })
		log := &record.Log{Firings: []record.Firing{{Letter: "A", Entries: []record.Entry{
			{Label: "Cone", Value: "6"}, {Label: "Date", Value: "2026-03-01"}, {Label: "Kept in", Value: fmt.Sprint("Crate ", n/3)}}}}}
		for i := 0; i < m.Scheme.Tiles() && n < tests-1; i += 3 {
			log.Readings = append(log.Readings, record.Reading{Tile: m.Scheme.Tile(i), Rating: float64(1 + (i+n)%5), Surface: "satin", Firing: "A"})
		}
		file := fmt.Sprintf("tests/%s.toml", prefix)
		chapters = append(chapters, book.NewChapter(book.Source{Plan: file, Test: m.Test, Scheme: m.Scheme,
			Logs: []book.LogFile{{File: strings.Replace(file, ".toml", "-log.xlsx", 1), Log: log, Test: m.Test}}}))
	}
	return book.Bind(chapters, []book.Skip{{File: "tests/broken.toml", Reason: "line 3: unknown key"}})
}

// Every test, colourant and place is on the pages, nothing overlaps, and not every
// tile is there.
func TestWritePages(t *testing.T) {
	t.Parallel()
	b := studio(t, 40)
	var pdf bytes.Buffer
	if err := WritePages(&pdf, b, 210, 297); err != nil {
		t.Fatal(err)
	}
	pages := pagetest.Read(t, pdf.Bytes())
	pagetest.Check(t, pages)
	var text strings.Builder
	for _, p := range pages {
		text.WriteString(p.Text() + " ")
	}
	for _, c := range b.Chapters {
		if !strings.Contains(text.String(), c.Title[:9]) {
			t.Errorf("%s is on no page", c.Title)
		}
	}
	for _, want := range append([]string{"Colourants", "End glazes", "Best tiles", "Kept in", "Crate 13", "Tests without entries"}, b.Parts...) {
		if !strings.Contains(text.String(), want) {
			t.Errorf("%q is on no page", want)
		}
	}
	marks := 0
	for _, c := range b.Chapters {
		for _, tile := range c.Tiles {
			if strings.Contains(text.String(), " "+tile.Mark+" ") {
				marks++
			}
		}
	}
	if marks == 0 || marks == b.Tiles {
		t.Errorf("%d of %d tiles are on the pages", marks, b.Tiles)
	}
}

// The sorting list has each mark once, in order.
func TestWriteCrate(t *testing.T) {
	t.Parallel()
	list, err := studio(t, 6).Crate([]string{"Crate 1"}, false)
	if err != nil {
		t.Fatal(err)
	}
	var pdf bytes.Buffer
	if err := WriteCrate(&pdf, list, 210, 297); err != nil {
		t.Fatal(err)
	}
	pages := pagetest.Read(t, pdf.Bytes())
	pagetest.Check(t, pages)
	found := map[string]int{}
	for _, p := range pages {
		for _, w := range p.Words {
			found[w.Text]++
		}
	}
	for _, mark := range list.Marks {
		if found[mark] != 1 {
			t.Errorf("%s is there %d times", mark, found[mark])
		}
	}
}

// The workbook has a row for each tile, and no column in which nothing stands.
func TestWriteWorkbook(t *testing.T) {
	b := studio(t, 8)
	var body bytes.Buffer
	if _, err := WriteWorkbook(&body, b); err != nil {
		t.Fatal(err)
	}
	limits := xlsx.LimitsFor(2000, 100)
	sheets, err := xlsx.Read("book.xlsx", bytes.NewReader(body.Bytes()), int64(body.Len()), limits)
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]int{SheetTiles: b.Tiles, SheetTests: len(b.Chapters), SheetFirings: len(b.Chapters), SheetSkipped: len(b.Skipped)}
	for _, s := range sheets {
		if len(s.Rows) != rows[s.Name]+1 {
			t.Errorf("%s has %d rows, want %d", s.Name, len(s.Rows)-1, rows[s.Name])
		}
		for column, head := range s.Rows[0].Cells {
			filled := 0
			for _, row := range s.Rows[1:] {
				if column < len(row.Cells) && row.Cells[column].Kind != record.Blank {
					filled++
				}
			}
			if filled == 0 {
				t.Errorf("%s: nothing stands under %q", s.Name, head.Text)
			}
		}
	}
}

// A date that can be read in one way is a date in the workbook; the numbers of days
// are those that spreadsheet programs count, by hand from 2000-01-01, which is 36526.
func TestEntryColumn(t *testing.T) {
	for typed, want := range map[string]value{
		"2000-01-01":  {number: 36526, is: true},
		"2026-10-03":  {number: 36526 + 26*365 + 7 + 275, is: true}, // seven leap days; 273 days to the end of September, then 2
		"3.10.2026":   {number: 36526 + 26*365 + 7 + 275, is: true},
		"3. 10. 2026": {number: 36526 + 26*365 + 7 + 275, is: true},
		"31.2.2026":   {text: "31.2.2026"},
		"10/3/2026":   {text: "10/3/2026"},
		"autumn":      {text: "autumn"},
		"":            {},
	} {
		c := entryColumn("Date", func(string) record.Firing {
			return record.Firing{Entries: []record.Entry{{Label: "Date", Value: typed}}}
		})
		if got := c.value(typed); got != want {
			t.Errorf("%q is %+v, want %+v", typed, got, want)
		}
	}
}
