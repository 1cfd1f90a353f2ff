package text

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
)

// leastMoles is the least that a unity formula shows as more than 0.000: an
// oxide of which no cup has as much gets no column.
const leastMoles = 0.0005

// Chemistry prints what each cup fires to, as measured: its unity formula.
// Oxides are grouped by what they do in a glaze; one that no cup has is left
// out.
func Chemistry(w io.Writer, t *blend.Test) error {
	if _, err := fmt.Fprintf(w, "%s\n%s\nunity formula of each cup as measured, in mol; LOI is in percent of the dry glaze\n\n", oneLine(t.Plan.Title), t.Summary()); err != nil {
		return err
	}
	cells := make([]oxide.Chemistry, len(t.Cells))
	for i := range cells {
		cells[i] = t.Chemistry(i, blend.Measured)
	}
	columns := oxideColumns(cells)
	g := grid{}
	groups, head := []string{""}, []string{"cup"}
	for i, o := range columns {
		group := string(o.Group())
		if i > 0 && columns[i-1].Group() == o.Group() {
			group = ""
		}
		groups, head = append(groups, group), append(head, string(o))
	}
	g.add(append(groups, "", "")...)
	g.add(append(head, "SiO2:Al2O3", "LOI")...)
	g.rule()
	var without []int
	for i, c := range cells {
		if len(c.Missing) > 0 {
			without = append(without, t.Cells[i].Number)
			continue
		}
		g.add(append([]string{strconv.Itoa(t.Cells[i].Number)}, chemistryRow(c, columns)...)...)
	}
	if len(without) < len(cells) {
		if err := g.write(w); err != nil {
			return err
		}
	}
	if len(without) == 0 {
		return nil
	}
	_, err := fmt.Fprintf(w, "\nnothing is known of %s: there is no analysis of %s;\na plan can give one under [[material]]\n",
		blend.Numbers(without, 20), oneLine(strings.Join(t.Unanalysed(), ", ")))
	return err
}

// oxideColumns are the oxides that some cell shows, in printing order.
func oxideColumns(cells []oxide.Chemistry) []oxide.Oxide {
	present := map[oxide.Oxide]bool{}
	for _, c := range cells {
		for _, a := range c.Unity {
			present[a.Oxide] = present[a.Oxide] || a.Value >= leastMoles
		}
	}
	return slices.DeleteFunc(oxide.Oxides(), func(o oxide.Oxide) bool { return !present[o] })
}

// chemistryRow is the moles of the columns, then the ratio and the loss.
func chemistryRow(c oxide.Chemistry, columns []oxide.Oxide) []string {
	values := map[oxide.Oxide]float64{}
	for _, a := range c.Unity {
		values[a.Oxide] = a.Value
	}
	var row []string
	for _, o := range columns {
		if values[o] == 0 {
			row = append(row, "–")
		} else {
			row = append(row, blend.UnityText(values[o]))
		}
	}
	ratio := "–"
	if c.SiAl > 0 {
		ratio = blend.UnityText(c.SiAl)
	}
	return append(row, ratio, blend.LossText(c.LOI))
}
