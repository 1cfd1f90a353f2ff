package text

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// Cups prints single cups: what goes in, and what that makes.
func Cups(w io.Writer, t *blend.Test, cups []int) error {
	for k, n := range cups {
		if k > 0 {
			fmt.Fprintln(w)
		}
		g := &grid{left: []bool{true, true}}
		g.add("cup "+strconv.Itoa(n), oneLine(wording.Contents(t, t.Cells[n-1])))
		g.amounts(t, n)
		g.recipes(t, n)
		g.chemistry(t.Chemistry(n-1, blend.Measured))
		if err := g.write(w); err != nil {
			return err
		}
	}
	return nil
}

// amounts are what is measured into a cup.
func (g *grid) amounts(t *blend.Test, cup int) {
	c := t.Cells[cup-1]
	for e, p := range c.Pours {
		if p.ML == 0 {
			continue
		}
		amount := wording.PourText(t, p)
		if amount == quantity.Nothing {
			amount += ", too little,"
		} else {
			amount += " " + string(t.Plan.Kit.Pour.Unit)
		}
		g.add("pour", amount+" "+oneLine(t.Ends[e].Name))
	}
	for s, d := range c.Doses {
		if d.Percent > 0 && t.Plan.Blend.Method != blend.ByPour {
			g.add("dose", fmt.Sprintf("%s %s %s", wording.DoseText(t, d), t.DoseUnit(), oneLine(t.Plan.Blend.Series[s].Material)))
		}
	}
	for _, text := range wording.CupDilutions(t, cup) {
		g.add("or", oneLine(text))
	}
}

// recipes are a cup's recipe as measured, and as asked where that differs.
func (g *grid) recipes(t *blend.Test, cup int) {
	text := func(view blend.View) string {
		recipe, additions := t.Recipe(cup-1, view)
		return oneLine(recipeText(blend.Written(recipe, blend.Measured), additions))
	}
	measured, asked := text(blend.Measured), text(blend.Asked)
	if without := t.WithoutRecipe(cup - 1); without != nil {
		g.add("recipe", "unknown: "+oneLine(strings.Join(without, ", "))+" without recipe")
	} else {
		g.add("recipe", measured)
	}
	if asked != measured {
		g.add("asked", asked)
	}
}

// chemistry is what a cup fires to.
func (g *grid) chemistry(c oxide.Chemistry) {
	if len(c.Missing) > 0 {
		g.add("oxides", "unknown: no analysis of "+oneLine(strings.Join(c.Missing, ", ")))
		return
	}
	text := func(amounts []oxide.Amount, figure func(float64) string) string {
		var all []string
		for _, a := range amounts {
			all = append(all, string(a.Oxide)+" "+figure(a.Value))
		}
		return strings.Join(all, ", ")
	}
	g.add("weight %", text(c.WeightPercent, quantity.GotText))
	g.add("unity", text(c.Unity, quantity.UnityText))
	if c.SiAl > 0 {
		g.add("SiO2:Al2O3", strconv.FormatFloat(c.SiAl, 'f', 2, 64))
	}
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
