package text

import (
	"slices"
	"strings"

	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// Materials lists materials: names, formulas, loss on ignition and density.
func Materials(all []oxide.Material) string {
	g := table("ll", "material", "formula", "LOI %", "g/mL", "figures")
	for _, m := range all {
		loi := "–"
		if !m.Analysis.Empty() {
			loi = quantity.LossText(m.Analysis.LOI)
		}
		g.add(m.Name, m.Formula, loi, densityText(m.Density), m.Basis)
	}
	return g.String()
}

func densityText(d float64) string {
	if d == 0 {
		return "–"
	}
	return quantity.Fixed(d, 2)
}

// Material prints one material.
func Material(m oxide.Material, lib oxide.Library) string {
	g := &grid{align: "ll"}
	say := func(label, text string) {
		if text != "" {
			g.add(label, text)
		}
	}
	say("name", m.Name)
	say("also", strings.Join(m.Aliases, ", "))
	say("formula", m.Formula)
	if m.Analysis.Empty() {
		say("analysis", "not known")
	} else {
		loi := quantity.LossText(m.Analysis.LOI) + " %"
		if m.Analysis.NoLOI {
			loi = "not given"
		}
		say("weight %", amounts(m.Analysis.Oxides, quantity.RecipeText))
		say("LOI", loi)
		say("figures", joined(m.Basis, m.Source))
	}
	if m.Density > 0 {
		say("density", joined(densityText(m.Density)+" g/mL", m.DensitySource))
	}
	hazards := lib.Hazards([]string{m.Name})
	for _, h := range hazards {
		say("care", wording.CareLine(h))
	}
	for _, line := range wording.CareClasses(hazards) {
		say("class", line)
	}
	if len(hazards) > 0 {
		for _, line := range wording.CareSources(hazards) {
			say("source", line)
		}
	}
	return g.String()
}

// joined is a figure with its source, as far as both are known.
func joined(texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(s string) bool { return s == "" }), ": ")
}

// amounts are oxides with their figures in a line.
func amounts(all []oxide.Amount, figure func(float64) string) string {
	return strings.Join(list(all, func(a oxide.Amount) string { return string(a.Oxide) + " " + figure(a.Value) }), ", ")
}
