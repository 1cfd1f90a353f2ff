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
	first, tests := s.Members[0].Test.Plan, quantity.Plural(len(s.Members), "test", "tests")
	doc := page.New("Class sheet", tests, "class sheet")
	width, height := layout.HandPaper(first.Board)
	p := doc.Add("Class sheet", width, height)
	p.Bookmark("Class sheet")
	titles := page.Titles{Title: "Class sheet", Test: tests, Lead: "Mix each batch once for all tests named with it."}
	f := page.NewFlow(p, titles.Draw)
	var clashes []string
	for _, x := range s.Clashes {
		text := fmt.Sprintf("%s and %s share the marks %s", s.Members[x.A].Plan, s.Members[x.B].Plan, x.Mark)
		if x.Count > 1 {
			text += fmt.Sprintf(" and %d more", x.Count-1)
		}
		clashes = append(clashes, text+". Give one of them another mark.")
	}
	f.List("Marks that read alike", strong, clashes)
	var rows [][]string
	for _, m := range s.Members {
		rows = append(rows, []string{m.Plan, m.Test.Plan.Mark, fmt.Sprint(len(m.Test.Cells)), m.Test.Plan.Title})
	}
	f.Heading("Tests", 20)
	f.Table([]page.Column{{Head: "plan", Style: body}, {Head: "mark", Style: strong},
		{Head: "cups", Style: body.To(page.Right)}, {Head: "title", Style: body, Grow: 1}}, rows)
	f.List("Before you weigh", body, wording.CareLines(s.Hazards()))
	for _, b := range s.Batches {
		classBatch(f, s, b)
	}
	if len(s.Shopping) > 0 {
		f.Heading("Shopping list, all tests", 25)
		materials(f, s.Shopping)
	}
	return doc.Write(w)
}

// classBatch is a glaze that is mixed once, and the tests that it is for.
func classBatch(f *page.Flow, s class.Sheet, b class.Batch) {
	if b.Bucket {
		f.Heading("Have ready: "+b.Glaze, 14)
		f.Para(strong, quantity.VolumeText(b.ML)+" mL")
	} else {
		f.Heading("Mix: "+b.Glaze, 24)
		text := fmt.Sprintf("%s g dry glaze, %s g water, makes %s mL",
			quantity.MassText(b.RecipeG), quantity.MassText(b.WaterG), quantity.VolumeText(b.ML))
		if b.SG > 0 {
			text += ", SG " + quantity.SGText(b.SG)
		}
		f.Para(strong, text)
		materials(f, b.Parts)
	}
	for _, use := range b.Uses {
		text := quantity.VolumeText(use.ML) + " mL for " + s.Members[use.Member].Plan
		if use.Glaze != b.Glaze {
			text += ", there called " + use.Glaze
		}
		f.Para(body, text)
	}
}
