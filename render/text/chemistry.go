package text

import (
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// Chemistry prints what each cup fires to, as measured: its unity formula, and
// what the fired glaze is by weight and by molecules. Oxides are grouped by what
// they do in a glaze; traces are only named.
func Chemistry(t *blend.Test) string {
	var p printer
	p.line("%s", t.Plan.Title)
	p.line("%s", wording.Summary(t))
	var known []oxide.Chemistry
	var cups, without []int // by their numbers
	for i, cell := range t.Cells {
		if c := t.Chemistry(i, blend.Measured); len(c.Missing) > 0 {
			without = append(without, cell.Number)
		} else {
			known, cups = append(known, c), append(cups, cell.Number)
		}
	}
	columns, traces := oxide.Columns(known)
	print := func(title string, more []string, row func(c oxide.Chemistry) []string) {
		if known == nil {
			return
		}
		p.line("")
		p.line("%s", title)
		p.line("")
		g := oxideGrid(columns, more)
		for i, c := range known {
			g.add(append([]string{strconv.Itoa(cups[i])}, row(c)...)...)
		}
		p.grid(g)
	}
	print("unity formula of each cup as measured, in mol; LOI is in percent of the dry glaze",
		[]string{"SiO2:Al2O3", "LOI"},
		func(c oxide.Chemistry) []string {
			return append(oxideCells(c.Unity, columns, quantity.UnityText), ratioText(c), quantity.LossText(c.LOI))
		})
	print("weight % of the fired glaze", nil,
		func(c oxide.Chemistry) []string { return oxideCells(c.WeightPercent, columns, quantity.GotText) })
	print("mol % of the fired glaze", nil,
		func(c oxide.Chemistry) []string { return oxideCells(c.MolPercent, columns, quantity.GotText) })
	if line := wording.Traces(traces); line != "" {
		p.line("")
		p.line("%s", line)
	}
	if without != nil {
		p.line("")
		p.line("chemistry of %s unknown: no analysis of %s", quantity.Cups(without, 20),
			strings.Join(t.Unanalysed(), ", "))
		p.line("(give one in a [[material]] of the plan)")
	}
	return p.String()
}

// oxideGrid is a grid with two rows of heads: the groups of the oxides, and the
// oxides with more columns behind them.
func oxideGrid(columns []oxide.Oxide, more []string) *grid {
	groups, heads := []string{""}, []string{"cup"}
	for i, o := range columns {
		group := string(o.Group())
		if i > 0 && columns[i-1].Group() == o.Group() {
			group = ""
		}
		groups, heads = append(groups, group), append(heads, string(o))
	}
	return &grid{rows: [][]string{groups, append(heads, more...)}, heads: 2}
}

// oxideCells are the values of the columns, a dash for none.
func oxideCells(amounts []oxide.Amount, columns []oxide.Oxide, text func(float64) string) []string {
	return list(columns, func(o oxide.Oxide) string {
		for _, a := range amounts {
			if a.Oxide == o && a.Value != 0 {
				return text(a.Value)
			}
		}
		return "–"
	})
}

// ratioText is SiO2:Al2O3 in mol, a dash without Al2O3.
func ratioText(c oxide.Chemistry) string {
	if c.SiAl == 0 {
		return "–"
	}
	return quantity.UnityText(c.SiAl)
}
