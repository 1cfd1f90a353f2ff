package recordbook

import (
	"fmt"
	"io"

	"pourboard/blend/book"
	"pourboard/blend/quantity"
	"pourboard/render/page"
)

// WriteCrate writes the sorting list of a crate as a PDF file: each mark with
// an empty box, in the order in which tiles are sorted.
func WriteCrate(w io.Writer, c *book.Crate, paperW, paperH float64) error {
	title, which := "Sorting list", "tiles"
	if c.Missing {
		title, which = "Missing tiles", "tiles without an entry"
	}
	doc := page.New(title, "Tiles of a crate by mark", title)
	lead := fmt.Sprintf("%d %s, of %s. Tick each tile as you find it.",
		len(c.Marks), which, quantity.Plural(len(c.Chapters), "test", "tests"))
	if shared := c.Shared(); shared != nil {
		lead += fmt.Sprintf(" On tiles of more than one test: %s, such as %s. Tell them apart by body and glaze.",
			quantity.Plural(len(shared), "mark", "marks"), shared[0])
	}
	p := newPrinter(doc, title, lead, paperW, paperH)
	var tests [][]string
	for _, ch := range c.Chapters {
		tests = append(tests, []string{ch.Mark, ch.Title, firedText(ch), keptText(ch)})
	}
	p.Table([]page.Column{
		col("mark", strong, 0), col("test", small, 3), col("fired", small, 2), col("kept in", small, 0),
	}, tests)
	p.Y += 2
	const box = 5.0
	if len(c.Marks) > 0 {
		p.Grid(page.Grid{Columns: []page.Column{
			{W: box + 2.5, Draw: func(pg *page.Page, r page.Rect, _ int) {
				pg.Box(page.Rect{X: r.X + 0.5, Y: r.Y + (r.H-box)/2, W: box, H: box}, page.Thin)
			}},
			{Style: page.Bold(14), Texts: c.Marks},
		}, Rows: len(c.Marks), HeadH: 1, RowH: 7.5, Strips: 6, Even: true})
	}
	return doc.Write(w)
}
