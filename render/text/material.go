package text

import (
	"fmt"
	"io"
	"strings"

	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// Materials lists materials: names, formulas, loss on ignition and density.
func Materials(w io.Writer, all []oxide.Material) error {
	g := grid{left: []bool{true, true}}
	g.add("material", "formula", "LOI %", "g/mL", "figures")
	g.rule()
	for _, m := range all {
		loi := "–"
		if !m.Analysis.Empty() {
			loi = quantity.LossText(m.Analysis.LOI)
		}
		g.add(oneLine(m.Name), m.Formula, loi, densityText(m.Density), m.Basis)
	}
	return g.write(w)
}

func densityText(d float64) string {
	if d == 0 {
		return "–"
	}
	return fmt.Sprintf("%.2f", d)
}

// Material prints one material.
func Material(w io.Writer, m oxide.Material, lib oxide.Library) error {
	g := grid{left: []bool{true, true}}
	g.add("name", oneLine(m.Name))
	if len(m.Aliases) > 0 {
		g.add("also", strings.Join(m.Aliases, ", "))
	}
	if m.Formula != "" {
		g.add("formula", m.Formula)
	}
	if m.Analysis.Empty() {
		g.add("analysis", "not known")
	} else {
		var oxides []string
		for _, x := range m.Analysis.Oxides {
			oxides = append(oxides, fmt.Sprintf("%s %s", x.Oxide, quantity.RecipeText(x.Value)))
		}
		g.add("weight %", strings.Join(oxides, ", "))
		loi := quantity.LossText(m.Analysis.LOI) + " %"
		if m.Analysis.NoLOI {
			loi = "not given"
		}
		g.add("LOI", loi)
		g.add("figures", strings.Join(nonEmpty(m.Basis, m.Source), ": "))
	}
	if m.Density > 0 {
		g.add("density", strings.Join(nonEmpty(densityText(m.Density)+" g/mL", m.DensitySource), ": "))
	}
	hazards := lib.Hazards([]string{m.Name})
	for _, h := range hazards {
		g.add("care", wording.CareLine(h))
	}
	for _, line := range wording.CareClasses(hazards) {
		g.add("class", line)
	}
	if len(hazards) > 0 {
		for _, line := range wording.CareSources(hazards) {
			g.add("source", line)
		}
	}
	return g.write(w)
}

func nonEmpty(texts ...string) []string {
	var all []string
	for _, t := range texts {
		if t != "" {
			all = append(all, t)
		}
	}
	return all
}
