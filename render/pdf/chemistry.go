package pdf

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// The section is read at a desk: its tables and drawings are smaller than what
// is read at the bench.
const deskPt = 9.0

// fired is the chemistry of one cup.
type fired struct {
	cell *blend.Cell
	oxide.Chemistry
}

func (x fired) unity(o oxide.Oxide) float64  { return amountOf(x.Unity, o) }
func (x fired) weight(o oxide.Oxide) float64 { return amountOf(x.WeightPercent, o) }

func amountOf(list []oxide.Amount, o oxide.Oxide) float64 {
	for _, a := range list {
		if a.Oxide == o {
			return a.Value
		}
	}
	return 0
}

// hasChemistry says that some cup holds nothing but materials with an analysis.
func hasChemistry(t *blend.Test) bool {
	for i := range t.Cells {
		if _, missing := t.Vector(i, blend.Measured); missing == nil {
			return true
		}
	}
	return false
}

// chemistry is what the cups fire to: a table, a plot, and maps of the oxides
// that the plan names.
func (s *sheets) chemistry() {
	t := s.test
	var known []fired
	var without []int
	for i := range t.Cells {
		c := fired{&t.Cells[i], t.Chemistry(i, blend.Measured)}
		if c.Missing != nil {
			without = append(without, c.cell.Number)
			continue
		}
		known = append(known, c)
	}
	f := s.begin("")
	for _, text := range s.convention() {
		f.para(text, regular(benchPt))
	}
	if len(without) > 0 {
		f.para(fmt.Sprintf("Without an analysis: %s. What is in %s is therefore not known.",
			strings.Join(t.Unanalysed(), ", "), quantity.Cups(without, 60)), bold(benchPt))
	}
	s.unityTables(f, known)
	s.plotSection(f, known)
	for _, name := range s.plan.Chemistry.Maps {
		s.oxideMap(f, known, oxide.Oxide(name))
	}
	f.longTexts()
}

// convention says how the figures are counted.
func (s *sheets) convention() []string {
	colourants := "colouring oxides stand beside it and are not counted in that 1"
	if s.plan.Chemistry.ColourantsInUnity {
		colourants = "the colouring oxides MnO, CoO, NiO, CuO and CdO are counted in that 1"
	}
	return []string{
		fmt.Sprintf("What is left after firing in air, of the amounts as measured. Unity formula: moles, with the fluxes %s + RO together 1; %s. Iron is counted as %s. %s to %s is in mol; LOI is what 100 g of the dry mix lose.",
			formula("R2O"), colourants, formula("Fe2O3"), formula("SiO2"), formula("Al2O3")),
		"It rests on theoretical or typical analyses unless the plan gives the materials' own, and says nothing of how a glaze melts.",
	}
}

// formula is an oxide's formula as it is printed, with small figures.
func formula(o oxide.Oxide) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return '₀' + (r - '0')
		}
		return r
	}, string(o))
}

// unityTables are the unity formulas of all cups, in as many tables as the
// width of the page asks for.
func (s *sheets) unityTables(f *flow, known []fired) {
	var cups []oxide.Chemistry
	for _, c := range known {
		cups = append(cups, c.Chemistry)
	}
	shown, traces := oxide.Columns(cups)
	pt, parts := unityParts(f, shown)
	for p, part := range parts {
		last := p == len(parts)-1
		t := table{pt: pt, padMM: 0.7, together: true, columns: []column{{title: "cup", align: right, bold: true, whole: true}}}
		for _, o := range part {
			t.columns = append(t.columns, column{title: formula(o), align: right, whole: true})
		}
		if last {
			t.columns = append(t.columns, column{title: formula("SiO2") + " : " + formula("Al2O3"), align: right, whole: true}, column{title: "LOI", align: right, whole: true})
		}
		for i, c := range known {
			r := row{cells: []cell{words(fmt.Sprint(c.cell.Number))}, rule: i > 0 && s.newRow(known[i-1].cell.Number-1, c.cell.Number-1)}
			for _, o := range part {
				text := "–"
				if x := c.unity(o); x > 0 {
					text = quantity.UnityText(x)
				}
				r.cells = append(r.cells, words(text))
			}
			if last {
				ratio := "–"
				if c.SiAl > 0 {
					ratio = quantity.UnityText(c.SiAl)
				}
				r.cells = append(r.cells, words(ratio), words(quantity.LossText(c.LOI)))
			}
			t.rows = append(t.rows, r)
		}
		f.need(40)
		title := "Unity formula"
		if len(parts) > 1 {
			title = fmt.Sprintf("Unity formula, table %d of %d", p+1, len(parts))
		}
		f.subheading(title)
		f.table(t)
	}
	if line := wording.Traces(traces); line != "" {
		f.para(line, regular(deskPt))
	}
}

// unityParts are the size of type, and the columns of each table, that the
// oxides need: the fewest tables, of the largest type with which there are no
// more. Of several the fluxes have one by themselves, whose sum is seen in it,
// and the last ends with SiO2, beside its ratio to Al2O3.
func unityParts(f *flow, shown []oxide.Oxide) (pt float64, parts [][]oxide.Oxide) {
	var fluxes, others []oxide.Oxide
	for _, o := range shown {
		switch o.Group() {
		case oxide.R2OFlux, oxide.ROFlux:
			fluxes = append(fluxes, o)
		default:
			if o != "SiO2" {
				others = append(others, o)
			}
		}
	}
	if slices.Contains(shown, "SiO2") {
		others = append(others, "SiO2")
	}
	for try := benchPt; try >= deskPt; try-- {
		widest := f.doc.width("00.00", regular(try))
		for _, o := range shown {
			widest = max(widest, f.doc.width(formula(o), bold(try)))
		}
		fixed := 3 * (f.doc.width(formula("SiO2")+" : ", bold(try)) + 2*gutterMM)
		room := max(1, int((f.width()-fixed)/(widest+2*gutterMM)))
		all := [][]oxide.Oxide{shown}
		if len(shown) > room {
			all = slices.Concat(inParts(fluxes, room), inParts(others, room))
		}
		if parts == nil || len(all) < len(parts) {
			pt, parts = try, all
		}
	}
	return pt, parts
}

// inParts are oxides in as few even parts as have room for most each.
func inParts(list []oxide.Oxide, most int) (parts [][]oxide.Oxide) {
	n := (len(list) + most - 1) / most
	for p := range n {
		parts = append(parts, list[p*len(list)/n:(p+1)*len(list)/n])
	}
	return parts
}
