package recordbook

import (
	"fmt"
	"io"

	"pourboard/blend/book"
	"pourboard/render/page"
)

// WriteCrate writes the sorting list of a crate as a PDF file: each mark with
// an empty box, in the order in which tiles are sorted.
func WriteCrate(w io.Writer, c *book.Crate, paperW, paperH float64) error {
	doc := page.New("Sorting list", "Tiles of a crate by mark", "Sorting list")
	p := printer{doc: doc, w: paperW, h: paperH}
	lead := fmt.Sprintf("%s of %s. Tick each tile as you find it.", counted(len(c.Tiles), "tile"), counted(len(c.Chapters), "test"))
	f := p.begin("Sorting list", lead)
	for _, ch := range c.Chapters {
		f.Para(page.Regular(page.Body), ch.Mark+"  "+ch.Title)
	}
	f.Y += 2
	mark := page.Bold(14)
	var marks []string
	for _, t := range c.Tiles {
		marks = append(marks, t.Mark)
	}
	const box = 5.0
	columns := []page.Column{
		{W: box + 2.5, Cell: func(pg *page.Page, r page.Rect, _ int) {
			pg.Box(page.Rect{X: r.X + 0.5, Y: r.Y + (r.H-box)/2, W: box, H: box}, page.Thin)
		}},
		doc.Texts("", marks, mark, 4),
	}
	if len(marks) > 0 {
		f.Grid(page.Grid{Columns: columns, Rows: len(marks), HeadH: 1, RowH: 7.5, Strips: 6, Even: true, Loose: true, Rule: page.EveryRow})
	}
	return doc.Write(w)
}
