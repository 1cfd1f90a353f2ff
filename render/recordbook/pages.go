package recordbook

import (
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"pourboard/blend/book"
	"pourboard/blend/quantity"
	"pourboard/blend/record"
	"pourboard/render/page"
)

// mostBest is how many cups with the best tiles are printed; the workbook has all.
const mostBest = 100

// WritePages writes the indexes of the book as a PDF file: by test, by
// colourant and end glaze, the best tiles, and what needs a look. It never
// lists every tile.
func WritePages(w io.Writer, b *book.Book, paperW, paperH float64) error {
	doc := page.New("Record book", "Index of fired tests", "Record book")
	p := newPrinter(doc, "Record book", bookLead(b), paperW, paperH)
	p.tests(b)
	p.uses("Colourants", b.Uses(true))
	p.uses("End glazes", b.Uses(false))
	p.best(b.Best(4))
	p.kept(b.KeptIn())
	p.doubts(b)
	return doc.Write(w)
}

// printer sets sections down pages.
type printer struct {
	*page.Flow
	title   string
	section string // for the head of a page that goes on with it
}

var (
	small   = page.Regular(9)
	strong  = page.Bold(9)
	figures = small.To(page.Right)
)

// col is a column of a table; grow is its part of the width that is left over.
func col(head string, style page.Style, grow float64) page.Column {
	return page.Column{Head: head, Style: style, Grow: grow}
}

// newPrinter begins a file under its title and a line about it.
func newPrinter(doc *page.Doc, title, lead string, w, h float64) *printer {
	p := &printer{title: title, section: title}
	first := doc.Add(title, w, h)
	first.Bookmark(title)
	p.Flow = page.NewFlow(first, func(pg *page.Page, continued bool) float64 {
		in := pg.Inside()
		if continued {
			pg.Text(page.Rect{X: in.X, Y: in.Y, W: in.W, H: 7}, page.Bold(page.Head), p.section+", continued")
			return in.Y + 9
		}
		pg.Text(page.Rect{X: in.X, Y: in.Y, W: in.W, H: 10}, page.Bold(page.Title), title)
		return pg.Para(page.Rect{X: in.X, Y: in.Y + 11, W: in.W}, page.Regular(page.Body), lead) + 3
	})
	return p
}

// begin begins a section under its heading and a line about it, with h mm of what
// follows on its page.
func (p *printer) begin(title, lead string, h float64) {
	p.heading(title, title, h)
	p.Page.Bookmark(title)
	if lead != "" {
		p.Para(page.Regular(page.Body), lead)
		p.Y++
	}
}

// heading sets a heading, and keeps h mm of what follows on its page. A page that
// begins with one goes on with no section.
func (p *printer) heading(section, text string, h float64) {
	p.section = p.title
	p.Heading(text, h)
	p.section = section
}

// index is a section with a table; it is left out where that has no rows.
func (p *printer) index(title, lead string, columns []page.Column, rows [][]string) {
	if rows != nil {
		p.begin(title, lead, 30)
		p.Table(columns, rows)
	}
}

func bookLead(b *book.Book) string {
	planned := 0
	for _, c := range b.Chapters {
		planned += c.Planned
	}
	tests, tiles := quantity.Plural(len(b.Chapters), "test", "tests"), quantity.Plural(planned, "tile", "tiles")
	lead := fmt.Sprintf("%s, %s planned, %s recorded. Every tile is in the workbook of the same name.",
		tests, tiles, quantity.Plural(b.Tiles, "row", "rows"))
	if n := len(b.Skipped); n > 0 {
		lead += fmt.Sprintf(" Skipped files and rows: %d, with their reasons on its sheet Skipped.", n)
	}
	return lead
}

// tests lists the tests.
func (p *printer) tests(b *book.Book) {
	var rows [][]string
	for _, c := range b.Chapters {
		recorded := quantity.Nothing
		if n := c.RecordedTiles(); n > 0 {
			recorded = fmt.Sprintf("%d of %d", n, c.Planned)
		}
		rows = append(rows, []string{c.Title, c.Mark, strconv.Itoa(c.Cups), recorded, firedText(c), keptText(c), planName(c)})
	}
	p.Table([]page.Column{
		col("test", strong, 3), col("mark", strong, 0), col("cups", figures, 0), col("tiles recorded", small, 0),
		col("fired", small, 0), col("kept in", small, 0), col("plan", small, 2),
	}, rows)
}

// planName is the plan's file as a person looks it up: within the book's folder,
// without its ending.
func planName(c *book.Chapter) string {
	name := filepath.ToSlash(c.Plan)
	if _, within, ok := strings.Cut(name, "/"); ok {
		name = within
	}
	return strings.TrimSuffix(name, filepath.Ext(name))
}

// firedText is the firings of a test: "cone 6 oxidation, 2026-03-01".
func firedText(c *book.Chapter) string { return eachFiring(c, firingText) }

// keptText is where the tiles of a test are kept.
func keptText(c *book.Chapter) string {
	return eachFiring(c, func(f record.Firing) string { return f.Value(book.KeptInLabel) })
}

// eachFiring is a text of each firing that has one, a line each, behind its letter where
// there are several firings.
func eachFiring(c *book.Chapter, text func(record.Firing) string) string {
	var lines []string
	for _, f := range c.Firings {
		line := text(f)
		if line != "" && len(c.Firings) > 1 {
			line = f.Letter + ": " + line
		}
		if line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n")
}

// firingText is a firing's cone, atmosphere and date, as far as they are known.
func firingText(f record.Firing) string {
	cone := f.Value("Cone")
	if cone != "" {
		cone = "cone " + cone
	}
	return strings.Trim(strings.TrimSpace(cone+" "+f.Value("Atmosphere"))+", "+f.Value("Date"), ", ")
}

// uses is an index of colourants or end glazes: a table each.
func (p *printer) uses(title string, all []*book.Use) {
	if len(all) == 0 {
		return
	}
	p.begin(title, "Percent as made, of the rows recorded. Best: the highest rating on each body.", 30)
	for len(all) > 0 {
		name := all[0].Part
		p.heading(title+": "+name, name, 20)
		var rows [][]string
		for len(all) > 0 && all[0].Part == name {
			u := all[0]
			span := quantity.MadeText(u.From)
			if u.To > u.From {
				span += " to " + quantity.MadeText(u.To)
			}
			row := []string{u.Chapter.Title, firedText(u.Chapter), span + " %", strconv.Itoa(u.Rows)}
			rows = append(rows, append(row, tileTexts(u.Best, name)...))
			all = all[1:]
		}
		p.Table([]page.Column{
			col("test", small, 1), col("fired", small, 0), col("percent", small, 0), col("rows", figures, 0),
			col("best", strong.To(page.Right), 0), col("mark", strong, 0), col("body", small, 0), col("at", figures, 0),
		}, rows)
	}
}

// tileTexts are the ratings, marks, bodies and percentages of tiles, each with a
// line for a tile. The percentages are of a colourant or end glaze.
func tileTexts(tiles []*book.Tile, part string) []string {
	texts := make([]string, 4)
	for i, t := range tiles {
		percent, _ := t.Mix.Part(part)
		for k, text := range []string{quantity.AtMost(t.Rating, 1), t.Mark, t.Body, quantity.MadeText(percent) + " %"} {
			if i > 0 {
				text = "\n" + text
			}
			texts[k] += text
		}
	}
	return texts
}

// best lists the tiles rated 4 and 5.
func (p *printer) best(all []*book.Rated) {
	lead := "Rated 4 and 5, the highest first. Recipe as measured: 100, and additions over it."
	if more := len(all) - mostBest; more > 0 {
		all = all[:mostBest]
		lead += fmt.Sprintf(" %s more in the workbook: filter its column Rating.", quantity.Plural(more, "cup", "cups"))
	}
	var rows [][]string
	for _, r := range all {
		test := r.Chapter.Title
		if fired := firingText(r.Chapter.Firings.Of(r.Tiles[0].Firing)); fired != "" {
			test += "\n" + fired
		}
		rows = append(rows, append(tileTexts(r.Tiles, "")[:3], test, recipeText(r.Tiles[0].Mix)))
	}
	p.index("Best tiles", lead, []page.Column{
		col("rating", strong.To(page.Right), 0), col("mark", strong, 0), col("body", small, 0),
		col("test, firing", small, 4), col("recipe", small, 5),
	}, rows)
}

// recipeText is the recipe of a cup in one line, or its parts where a glaze has
// none.
func recipeText(m *book.Mix) string {
	parts := m.Recipe
	if len(parts) == 0 {
		parts = m.Parts
	}
	var all []string
	for _, part := range parts {
		text := part.Name + " " + quantity.MadeText(part.Percent)
		if part.Addition {
			text = "+ " + text
		}
		if part.Percent > 0 {
			all = append(all, text)
		}
	}
	return strings.Join(all, ", ")
}

// kept is the index of places.
func (p *printer) kept(all []book.Keeping) {
	var rows [][]string
	for _, k := range all {
		n := 0
		var tests []string
		for _, t := range k.Tests {
			mark := t.Chapter.Mark
			if len(t.Chapter.Firings) > 1 {
				mark += " (" + t.Firing + ")"
			}
			tests = append(tests, fmt.Sprintf("%s %d", mark, t.Tiles))
			n += t.Tiles
		}
		rows = append(rows, []string{k.Place, strconv.Itoa(n), strings.Join(tests, ", ")})
	}
	p.index("Kept in", "Marks of the tests, and how many rows each has there. A letter is a firing.",
		[]page.Column{col("place", strong, 0), col("rows", figures, 0), col("tests", small, 1)}, rows)
}

// doubts is what needs a person's eye: marks used twice, tests without entries,
// and names that may be one.
func (p *printer) doubts(b *book.Book) {
	var twice, empty, names []string
	for _, t := range b.Twice {
		marks := quantity.Plural(t.Count, "mark", "marks")
		twice = append(twice, fmt.Sprintf("%s: %s shared by %s", t.Mark, marks, strings.Join(t.Plans, ", ")))
	}
	for _, c := range b.Unrecorded() {
		empty = append(empty, fmt.Sprintf("%s  %s (%s)", c.Mark, c.Title, planName(c)))
	}
	for _, d := range b.Doubts {
		names = append(names, fmt.Sprintf("%s and %s may be one material.", d[0], d[1]))
	}
	p.list("Marks used twice", twice)
	p.list("Tests without entries", empty)
	p.list("Names to check", names)
}

// list is a section of lines; it is left out where there are none.
func (p *printer) list(title string, lines []string) {
	if lines != nil {
		p.begin(title, "", 8)
		p.Items(page.Regular(page.Body), lines)
	}
}
