package text

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// Cups prints single cups: what goes in, and what that makes.
func Cups(w io.Writer, t *blend.Test, cups []int) error {
	for k, n := range cups {
		if k > 0 {
			fmt.Fprintln(w)
		}
		c := t.Cells[n-1]
		g := grid{left: []bool{true, true}}
		g.add("cup "+strconv.Itoa(n), oneLine(wording.Holds(t, c)))
		for e, p := range c.Pours {
			if p.ML > 0 {
				amount := wording.PourText(t, p)
				if amount == quantity.Nothing {
					amount += ", too little,"
				} else {
					amount += " " + string(t.Plan.Kit.Pour.Unit)
				}
				g.add("pour", amount+" "+oneLine(t.Ends[e].Name))
			}
		}
		for s, d := range c.Doses {
			if d.Percent > 0 && t.Plan.Blend.Method != blend.ByPour {
				g.add("dose", fmt.Sprintf("%s %s %s", wording.DoseText(t, d), t.DoseUnit(), oneLine(t.Plan.Blend.Series[s].Material)))
			}
		}
		for _, text := range wording.CupDilutions(t, n) {
			g.add("or", oneLine(text))
		}
		recipe, additions := t.Recipe(n-1, blend.Measured)
		without := t.WithoutRecipe(n - 1)
		if without != nil {
			g.add("recipe", "unknown: "+oneLine(strings.Join(without, ", "))+" without recipe")
		}
		text := recipeText(blend.Written(recipe, blend.Measured), additions)
		if without == nil {
			g.add("recipe", oneLine(text))
		}
		askedRecipe, askedAdditions := t.Recipe(n-1, blend.Asked)
		if asked := recipeText(blend.Written(askedRecipe, blend.Measured), askedAdditions); asked != text {
			g.add("asked", oneLine(asked))
		}
		chemistry := t.Chemistry(n-1, blend.Measured)
		if len(chemistry.Missing) > 0 {
			g.add("oxides", "unknown: no analysis of "+oneLine(strings.Join(chemistry.Missing, ", ")))
		} else {
			var weight, unity []string
			for _, a := range chemistry.WeightPercent {
				weight = append(weight, string(a.Oxide)+" "+quantity.GotText(a.Value))
			}
			for _, a := range chemistry.Unity {
				unity = append(unity, string(a.Oxide)+" "+quantity.UnityText(a.Value))
			}
			g.add("weight %", strings.Join(weight, ", "))
			g.add("unity", strings.Join(unity, ", "))
			if chemistry.SiAl > 0 {
				g.add("SiO2:Al2O3", strconv.FormatFloat(chemistry.SiAl, 'f', 2, 64))
			}
		}
		if err := g.write(w); err != nil {
			return err
		}
	}
	return nil
}

// recipeText is a recipe on a line, additions after a +.
func recipeText(recipe, additions []blend.Part) string {
	var parts []string
	for _, part := range recipe {
		parts = append(parts, quantity.AtMost(part.Percent, 3)+" "+part.Material)
	}
	for _, part := range additions {
		parts = append(parts, "+ "+quantity.RecipeText(part.Percent)+" "+part.Material)
	}
	return strings.Join(parts, ", ")
}
