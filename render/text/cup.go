package text

import (
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// Cups prints single cups: what goes in, and what that makes.
func Cups(t *blend.Test, cups []int) string {
	var p printer
	for k, n := range cups {
		if k > 0 {
			p.line("")
		}
		g := &grid{align: "ll"}
		g.add("cup "+strconv.Itoa(n), wording.Contents(t, t.Cells[n-1]))
		g.amounts(t, n)
		measured, asked := recipeText(t, n, blend.Measured), recipeText(t, n, blend.Asked)
		g.add("recipe", measured)
		if asked != measured {
			g.add("asked", asked)
		}
		g.chemistry(t, n)
		p.grid(g)
	}
	return p.String()
}

// amounts are what is measured into a cup.
func (g *grid) amounts(t *blend.Test, cup int) {
	c := t.Cells[cup-1]
	for e, p := range c.Pours {
		if p.ML == 0 {
			continue
		}
		unit := string(t.Plan.Kit.Pour.Unit)
		if p.Steps == 0 && !p.Other {
			unit = "(too little)"
		}
		g.add("pour", wording.PourText(t, p)+" "+unit+" "+t.Ends[e].Name)
	}
	for s, d := range c.Doses {
		if d.Percent > 0 && t.Plan.Blend.Method != blend.ByPour {
			g.add("dose", wording.DoseText(t, d)+" "+string(t.DoseUnit())+" "+t.Plan.Blend.Series[s].Material)
		}
	}
	for _, text := range wording.CupDilutions(t, cup) {
		g.add("or", text)
	}
}

// chemistry is what a cup fires to.
func (g *grid) chemistry(t *blend.Test, cup int) {
	c := t.Chemistry(cup-1, blend.Measured)
	if len(c.Missing) > 0 {
		g.add("oxides", "unknown: no analysis of "+strings.Join(c.Missing, ", "))
		return
	}
	g.add("weight %", amounts(c.WeightPercent, quantity.GotText))
	g.add("unity", amounts(c.Unity, quantity.UnityText))
	if c.SiAl > 0 {
		g.add("SiO2:Al2O3", quantity.Fixed(c.SiAl, 2))
	}
}

// recipeText is the recipe of a cup, by its number, in a line, additions after a +.
func recipeText(t *blend.Test, cup int, view blend.View) string {
	if without := t.WithoutRecipe(cup - 1); without != nil {
		return "unknown: " + strings.Join(without, ", ") + " without recipe"
	}
	recipe, additions := t.Recipe(cup-1, view)
	var parts []string
	for _, part := range blend.Written(recipe, blend.Measured) {
		parts = append(parts, quantity.AtMost(part.Percent, 3)+" "+part.Material)
	}
	for _, part := range additions {
		parts = append(parts, "+ "+quantity.RecipeText(part.Percent)+" "+part.Material)
	}
	return strings.Join(parts, ", ")
}
