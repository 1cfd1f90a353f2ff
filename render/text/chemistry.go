package text

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
)

// Chemistry prints what each cup fires to, as measured: its unity formula.
// Oxides are grouped by what they do in a glaze; one that no cup has is left
// out.
func Chemistry(w io.Writer, t *blend.Test) error {
	cells := make([]oxide.Chemistry, len(t.Cells))
	present := map[oxide.Oxide]bool{}
	for i := range cells {
		cells[i] = t.Chemistry(i, blend.Measured)
		for _, a := range cells[i].Unity {
			present[a.Oxide] = present[a.Oxide] || a.Value >= 0.0005
		}
	}
	var columns []oxide.Oxide
	var groups []string
	for _, o := range oxide.Oxides() {
		if !present[o] {
			continue
		}
		group := string(o.Group())
		if len(columns) > 0 && columns[len(columns)-1].Group() == o.Group() {
			group = ""
		}
		columns, groups = append(columns, o), append(groups, group)
	}
	if _, err := fmt.Fprintf(w, "%s\n%s\nunity formula of each cup as measured, in mol; LOI is in percent of the dry glaze\n\n", oneLine(t.Plan.Title), t.Summary()); err != nil {
		return err
	}
	g := grid{}
	head, above := []string{"cup"}, []string{""}
	for i, o := range columns {
		head, above = append(head, string(o)), append(above, groups[i])
	}
	g.add(append(above, "", "")...)
	g.add(append(head, "SiO2:Al2O3", "LOI")...)
	g.rule()
	var without []int
	for i, c := range cells {
		row := []string{strconv.Itoa(t.Cells[i].Number)}
		if len(c.Missing) > 0 {
			without = append(without, t.Cells[i].Number)
			continue
		}
		values := map[oxide.Oxide]float64{}
		for _, a := range c.Unity {
			values[a.Oxide] = a.Value
		}
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
		g.add(append(row, ratio, strconv.FormatFloat(c.LOI, 'f', 1, 64))...)
	}
	if len(without) < len(cells) {
		if err := g.write(w); err != nil {
			return err
		}
	}
	if len(without) > 0 {
		fmt.Fprintf(w, "\nnothing is known of %s: there is no analysis of %s;\na plan can give one under [[material]]\n",
			blend.Numbers(without, 20), oneLine(strings.Join(t.Unanalysed(), ", ")))
	}
	return nil
}
