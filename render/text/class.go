package text

import (
	"fmt"
	"io"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/class"
	"pourboard/blend/quantity"
)

// Class prints the class sheet of several tests: what is mixed once for all,
// the shopping list, and marks that read alike.
func Class(w io.Writer, s class.Sheet) error {
	tests := grid{left: []bool{true, true, false, true}}
	tests.add("plan", "mark", "cups", "title")
	tests.rule()
	for _, m := range s.Members {
		tests.add(m.Plan, m.Test.Plan.Mark, strconv.Itoa(len(m.Test.Cells)), m.Test.Plan.Title)
	}
	fmt.Fprintf(w, "Class sheet, %d tests\n\n", len(s.Members))
	if err := tests.write(w); err != nil {
		return err
	}
	for _, b := range s.Batches {
		if err := classBatch(w, s, b); err != nil {
			return err
		}
	}
	if len(s.Shopping) > 0 {
		fmt.Fprint(w, "\nShopping list\n")
		if err := materialGrid(s.Shopping).write(w); err != nil {
			return err
		}
	}
	for _, c := range s.Clashes {
		fmt.Fprintf(w, "\n%s and %s share marks: %s", s.Members[c.A].Plan, s.Members[c.B].Plan, c.Mark)
		if c.Count > 1 {
			fmt.Fprintf(w, " and %d more", c.Count-1)
		}
		if _, err := fmt.Fprint(w, " (give one of them another mark)\n"); err != nil {
			return err
		}
	}
	return nil
}

// classBatch prints one glaze for all tests that pour it.
func classBatch(w io.Writer, s class.Sheet, b class.Batch) error {
	if b.Bucket {
		fmt.Fprintf(w, "\nHave ready %s: %s mL\n", b.Glaze, quantity.VolumeText(b.ML))
	} else {
		fmt.Fprintf(w, "\nMix %s: %s g dry glaze, %s g water, makes %s mL", b.Glaze, quantity.MassText(b.RecipeG), quantity.MassText(b.WaterG), quantity.VolumeText(b.ML))
		if b.SG > 0 {
			fmt.Fprintf(w, ", SG %s", quantity.SGText(b.SG))
		}
		fmt.Fprintln(w)
		if err := materialGrid(b.Parts).write(w); err != nil {
			return err
		}
	}
	for _, use := range b.Uses {
		called := ""
		if use.Glaze != b.Glaze {
			called = ", called " + strconv.Quote(use.Glaze)
		}
		if _, err := fmt.Fprintf(w, "  %s mL for %s%s\n", quantity.VolumeText(use.ML), s.Members[use.Member].Plan, called); err != nil {
			return err
		}
	}
	return nil
}

// materialGrid is materials with their weights in g.
func materialGrid(list []blend.Mass) *grid {
	g := &grid{left: []bool{true, false, true}}
	for _, p := range list {
		g.add("  "+p.Material, quantity.MassText(p.G), "g")
	}
	return g
}
