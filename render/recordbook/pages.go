package recordbook

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"pourboard/blend/book"
	"pourboard/render/page"
)

// mostBest is how many of the best tiles are printed; the workbook has all.
const mostBest = 200

// WritePages writes the indexes of the book as a PDF file: by test, by
// colourant and end glaze, the best tiles, and what needs a look. It never
// lists every tile.
func WritePages(w io.Writer, b *book.Book, paperW, paperH float64) error {
	doc := page.New("Record book", "Index of fired tests", "Record book")
	p := printer{doc: doc, w: paperW, h: paperH}
	f := p.index(b)
	p.uses(f, b)
	p.best(f, b)
	p.look(f, b)
	return doc.Write(w)
}

// printer sets tables down pages.
type printer struct {
	doc  *page.Doc
	w, h float64
}

var (
	small  = page.Regular(9)
	strong = page.Bold(9)
)

// rowH is the height of a row of one or two lines, mm.
const rowH = 8.6

// begin begins a part under its title and a line about it.
func (p printer) begin(title, lead string) *page.Flow {
	first := p.doc.Add(title, p.w, p.h)
	first.Bookmark(title)
	return page.NewFlow(first, func(pg *page.Page, continued bool) float64 {
		in := pg.Inside()
		name, style := title, page.Bold(page.Title)
		if continued {
			name, style = title+", continued", page.Bold(page.Amount)
		}
		pg.Text(page.Rect{X: in.X, Y: in.Y, W: in.W, H: 10}, style, name)
		y := in.Y + 11
		if !continued && lead != "" {
			y = pg.Para(page.Rect{X: in.X, Y: y, W: in.W}, page.Regular(page.Body), lead) + 1
		}
		pg.Line(in.X, y, in.Right(), y, page.Medium)
		return y + 2
	})
}

// field is a column of a table: a head, a width that may grow, and a text for
// each row.
type field struct {
	head  string
	mm    float64
	grow  float64
	style page.Style
	texts []string
}

// table sets a table, each text in its field on one or two lines. A field that is
// empty in every row leaves its room to the others.
func (p printer) table(f *page.Flow, fields ...field) {
	var columns []page.Column
	for _, fd := range fields {
		if strings.Join(fd.texts, "") == "" {
			continue
		}
		columns = append(columns, page.Column{
			W: fd.mm, Grow: fd.grow, Head: page.HeadText(fd.head, page.Regular(page.Small).To(fd.style.Align), 2),
			Cell: func(pg *page.Page, r page.Rect, row int) {
				pg.Fitted(page.Rect{X: r.X, Y: r.Y + 0.2, W: r.W - 2, H: r.H - 0.4}, fd.style, fd.texts[row])
			},
		})
	}
	f.Grid(page.Grid{Columns: columns, Rows: len(fields[0].texts), HeadH: 5, RowH: rowH, Rule: page.EveryRow})
}

func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprint(n, " ", one, "s")
}

// section begins a section under its heading and a line about it, on a new page
// where too little of this one is left.
func (p printer) section(f *page.Flow, title, lead string) {
	f.Heading(title, 30)
	f.Page.Bookmark(title)
	if lead != "" {
		f.Para(page.Regular(page.Body), lead)
	}
	f.Y++
}

// index lists the tests.
func (p printer) index(b *book.Book) *page.Flow {
	planned := 0
	for _, c := range b.Chapters {
		planned += c.Planned
	}
	lead := fmt.Sprintf("%s, %s planned. %s recorded. Every tile is in the workbook of the same name.",
		counted(len(b.Chapters), "test"), counted(planned, "tile"), counted(b.Tiles, "row"))
	if n := len(b.Skipped); n > 0 {
		lead += fmt.Sprintf(" Skipped files and rows: %d, with their reasons on its sheet Skipped.", n)
	}
	f := p.begin("Record book", lead)
	title, mark, cups, recorded := field{head: "test", mm: 40, grow: 3, style: strong}, field{head: "mark", mm: 14, style: strong},
		field{head: "cups", mm: 12, style: small}, field{head: "tiles recorded", mm: 22, style: small}
	fired, kept, plan := field{head: "fired", mm: 34, grow: 1, style: small}, field{head: "kept in", mm: 24, grow: 1, style: small},
		field{head: "plan", mm: 34, grow: 2, style: small}
	for _, c := range b.Chapters {
		title.texts = append(title.texts, c.Title)
		mark.texts = append(mark.texts, c.Mark)
		cups.texts = append(cups.texts, strconv.Itoa(c.Cups))
		recorded.texts = append(recorded.texts, fmt.Sprintf("%d of %d", c.RecordedTiles(), c.Planned))
		fired.texts = append(fired.texts, firedText(c))
		kept.texts = append(kept.texts, keptText(c))
		plan.texts = append(plan.texts, c.Plan)
	}
	p.table(f, title, mark, cups, recorded, fired, kept, plan)
	return f
}

// firedText is the firings of a test: "A cone 6, 12 Nov; B cone 10".
func firedText(c *book.Chapter) string {
	var all []string
	for _, f := range c.Firings {
		if text := firingText(f); text != "" {
			all = append(all, text)
		}
	}
	return strings.Join(all, "; ")
}

// firingText is a firing with its cone and date, empty where neither is known.
func firingText(f book.Firing) string {
	text := ""
	if cone := f.Value("Cone"); cone != "" {
		text = " cone " + strings.TrimSpace(strings.TrimPrefix(strings.ToLower(cone), "cone"))
	}
	if date := f.Value("Date"); date != "" {
		text += ", " + date
	}
	if text == "" {
		return ""
	}
	return f.Letter + text
}

func keptText(c *book.Chapter) string {
	var all []string
	for _, f := range c.Firings {
		if place := f.Value(book.KeptInLabel); place != "" {
			if len(c.Firings) > 1 {
				place = f.Letter + " " + place
			}
			all = append(all, place)
		}
	}
	return strings.Join(all, "; ")
}

// uses is the index by colourant and end glaze.
func (p printer) uses(f *page.Flow, b *book.Book) {
	all := b.Uses()
	if len(all) == 0 {
		return
	}
	p.section(f, "Colourants and glazes", "Percent as made, over the tiles recorded. Best: the highest rating.")
	name, test, percent := field{head: "colourant or glaze", mm: 40, grow: 2, style: strong}, field{head: "test", mm: 40, grow: 3, style: small},
		field{head: "percent", mm: 24, style: small}
	tiles, bodies, best := field{head: "rows", mm: 12, style: small}, field{head: "bodies", mm: 28, grow: 2, style: small},
		field{head: "best", mm: 40, grow: 1, style: small}
	for i, u := range all {
		shown := u.Part
		if i > 0 && all[i-1].Part == u.Part {
			shown = ""
		}
		name.texts = append(name.texts, shown)
		test.texts = append(test.texts, u.Chapter.Title)
		span := percentText(u.From)
		if u.To > u.From {
			span += " to " + percentText(u.To)
		}
		percent.texts = append(percent.texts, span+" %")
		tiles.texts = append(tiles.texts, strconv.Itoa(u.Tiles))
		bodies.texts = append(bodies.texts, strings.Join(u.Bodies, ", "))
		text := ""
		if u.Best != nil {
			part, _ := u.Best.Mix.Part(u.Part)
			text = fmt.Sprintf("%s at %s %%, rated %d", u.Best.Mark, percentText(part), u.Best.Rating)
		}
		best.texts = append(best.texts, text)
	}
	p.table(f, name, test, percent, tiles, bodies, best)
}

// percentText is a percentage as it was made, with one decimal, or two below 1.
func percentText(x float64) string {
	decimals := 1
	if x < 0.95 {
		decimals = 2
	}
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// best lists the tiles rated 4 and 5.
func (p printer) best(f *page.Flow, b *book.Book) {
	all := b.Best(4)
	if len(all) == 0 {
		return
	}
	lead := "Rated 4 and 5, the highest first. Recipe as measured: 100, and additions over it."
	if more := len(all) - mostBest; more > 0 {
		all = all[:mostBest]
		lead += fmt.Sprintf(" %d more are in the workbook: filter its column Rating.", more)
	}
	p.section(f, "Best tiles", lead)
	for _, r := range all {
		head := fmt.Sprintf("%s, rated %d: %s, %s", r.Tile.Mark, r.Tile.Rating, r.Chapter.Title, r.Tile.Body)
		if fired := firingText(r.Chapter.Firing(r.Tile.Firing)); fired != "" {
			head += ", firing " + fired
		}
		f.Need(2 * page.Regular(page.Body).LineH())
		f.Para(page.Bold(page.Body), head)
		f.Para(page.Regular(page.Body), recipeText(r.Tile.Mix))
		f.Y++
	}
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
		if part.Percent > 0 {
			name := part.Name
			if part.Addition {
				name = "+ " + name
			}
			all = append(all, name+" "+percentText(part.Percent))
		}
	}
	return strings.Join(all, ", ")
}

// look is what needs a person's eye: marks used twice, tests without a log,
// names that may be one, and what is kept where.
func (p printer) look(f *page.Flow, b *book.Book) {
	list := func(title string, lines []string) {
		if len(lines) == 0 {
			return
		}
		f.Heading(title, 8)
		f.Items(page.Regular(page.Body), lines)
	}
	var lines []string
	for _, k := range b.KeptIn() {
		var tests []string
		for _, t := range k.Tests {
			tests = append(tests, fmt.Sprintf("%s, firing %s (%s)", t.Chapter.Title, t.Firing, counted(t.Tiles, "row")))
		}
		lines = append(lines, k.Place+": "+strings.Join(tests, "; "))
	}
	list("Kept in", lines)
	lines = nil
	for _, t := range b.Twice {
		lines = append(lines, fmt.Sprintf("%s: %s shared by %s", t.Mark, counted(t.Count, "mark"), strings.Join(t.Plans, ", ")))
	}
	list("Marks used twice", lines)
	lines = nil
	for _, c := range b.Unrecorded() {
		lines = append(lines, c.Title+" ("+c.Plan+")")
	}
	list("Tests without entries", lines)
	lines = nil
	for _, d := range b.Doubts {
		if d.Kind == book.SameMaterial {
			lines = append(lines, fmt.Sprintf("%s and %s may be one material.", d.A, d.B))
		} else {
			lines = append(lines, fmt.Sprintf("%s has different recipes in %s and %s.", d.Name, d.A, d.B))
		}
	}
	list("Names to check", lines)
}
