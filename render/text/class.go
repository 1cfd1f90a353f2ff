package text

import (
	"io"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/class"
	"pourboard/blend/quantity"
)

// Class prints the class sheet of several tests: what is mixed once for all,
// the shopping list, and marks that read alike.
func Class(w io.Writer, s class.Sheet) error {
	var p printer
	p.line("Class sheet, %d tests", len(s.Members))
	p.line("")
	tests := table("llrl", "plan", "mark", "cups", "title")
	for _, m := range s.Members {
		tests.add(m.Plan, m.Test.Plan.Mark, strconv.Itoa(len(m.Test.Cells)), m.Test.Plan.Title)
	}
	p.grid(tests)
	for _, b := range s.Batches {
		p.line("")
		if b.Bucket {
			p.line("Have ready %s: %s mL", b.Glaze, quantity.VolumeText(b.ML))
		} else {
			sg := ""
			if b.SG > 0 {
				sg = ", SG " + quantity.SGText(b.SG)
			}
			p.line("Mix %s: %s g dry glaze, %s g water, makes %s mL%s",
				b.Glaze, quantity.MassText(b.RecipeG), quantity.MassText(b.WaterG), quantity.VolumeText(b.ML), sg)
			p.masses(b.Parts)
		}
		for _, use := range b.Uses {
			called := ""
			if use.Glaze != b.Glaze {
				called = ", called " + strconv.Quote(use.Glaze)
			}
			p.line("  %s mL for %s%s", quantity.VolumeText(use.ML), s.Members[use.Member].Plan, called)
		}
	}
	if len(s.Shopping) > 0 {
		p.line("")
		p.line("Shopping list")
		p.masses(s.Shopping)
	}
	for _, c := range s.Clashes {
		more := ""
		if c.Count > 1 {
			more = " and " + strconv.Itoa(c.Count-1) + " more"
		}
		p.line("")
		p.line("%s and %s share marks: %s%s (give one of them another mark)", s.Members[c.A].Plan, s.Members[c.B].Plan, c.Mark, more)
	}
	return p.to(w)
}

// masses lists materials with their weights in g.
func (p *printer) masses(list []blend.Mass) {
	g := &grid{align: "l"}
	for _, m := range list {
		g.add("  "+m.Material, quantity.MassText(m.G), "g")
	}
	p.grid(g)
}
