package sheets

import (
	"fmt"
	"io"

	"pourboard/blend/class"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// WriteClass draws the class sheet of several tests as a PDF file, on the paper
// of the first: what is mixed once for all, the shopping list, and marks that
// read alike.
func WriteClass(w io.Writer, s class.Sheet) error {
	first := s.Members[0].Test.Plan
	doc := page.New("Class sheet", quantity.Plural(len(s.Members), "test", "tests"), first.Mark)
	width, height := layout.HandPaper(first.Board)
	p := doc.Add("Class sheet", width, height)
	p.Bookmark("Class sheet")
	titles := page.Titles{Title: "Class sheet", Test: quantity.Plural(len(s.Members), "test", "tests"), Lead: "Mix each batch once for all tests named with it."}
	f := page.NewFlow(p, titles.Draw)
	c := classSheet{s, doc, f}
	c.clashes()
	c.members()
	c.care()
	c.batches()
	c.shopping()
	return doc.Write(w)
}

// classSheet is a class sheet being drawn.
type classSheet struct {
	class.Sheet
	doc *page.Doc
	f   *page.Flow
}

// clashes names tests whose tiles cannot be told apart, before anything is
// painted.
func (c classSheet) clashes() {
	var lines []string
	for _, x := range c.Clashes {
		more := ""
		if x.Count > 1 {
			more = fmt.Sprintf(" and %d more", x.Count-1)
		}
		lines = append(lines, fmt.Sprintf("%s and %s share the marks %s%s. Give one of them another mark.", c.Members[x.A].Plan, c.Members[x.B].Plan, x.Mark, more))
	}
	if lines != nil {
		c.f.Heading("Marks that read alike", 12)
		c.f.Items(strong, lines)
	}
}

func (c classSheet) members() {
	var plans, marks, cups, titles []string
	for _, m := range c.Members {
		plans, marks = append(plans, m.Plan), append(marks, m.Test.Plan.Mark)
		cups, titles = append(cups, fmt.Sprint(len(m.Test.Cells))), append(titles, m.Test.Plan.Title)
	}
	title := c.doc.Texts("title", titles, body, 1)
	title.W, title.Grow = min(title.W, c.f.Rest().W*0.4), 1
	c.f.Heading("Tests", 20)
	c.f.Grid(page.Grid{
		Columns: []page.Column{c.doc.Texts("plan", plans, body, 5), c.doc.Texts("mark", marks, strong, 5), c.doc.Figures("cups", cups, body, 5), title},
		Rows:    len(plans), HeadH: 5, RowH: 5.2, Rule: page.EveryRow,
	})
}

// care is the cautions of all materials that are weighed.
func (c classSheet) care() {
	c.f.Heading("Before you weigh", 20)
	c.f.Items(body, wording.CareLines(c.Hazards()))
}

func (c classSheet) batches() {
	for _, b := range c.Batches {
		if b.Bucket {
			c.f.Heading("Have ready: "+b.Glaze, 14)
			c.f.Para(strong, quantity.VolumeText(b.ML)+" mL")
		} else {
			c.f.Heading("Mix: "+b.Glaze, 24)
			text := fmt.Sprintf("%s g dry glaze, %s g water, makes %s mL", quantity.MassText(b.RecipeG), quantity.MassText(b.WaterG), quantity.VolumeText(b.ML))
			if b.SG > 0 {
				text += ", SG " + quantity.SGText(b.SG)
			}
			c.f.Para(strong, text)
			materials(c.doc, c.f, b.Parts)
		}
		for _, use := range b.Uses {
			text := quantity.VolumeText(use.ML) + " mL for " + c.Members[use.Member].Plan
			if use.Glaze != b.Glaze {
				text += ", there called " + use.Glaze
			}
			c.f.Para(body, text)
		}
	}
}

func (c classSheet) shopping() {
	if len(c.Shopping) == 0 {
		return
	}
	c.f.Heading("Shopping list, all tests", 25)
	materials(c.doc, c.f, c.Shopping)
}
