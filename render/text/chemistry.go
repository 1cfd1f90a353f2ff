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

// Chemistry prints what each cup fires to, as measured: its unity formula, and
// what the fired glaze is by weight and by molecules. Oxides are grouped by what
// they do in a glaze; traces are only named.
func Chemistry(w io.Writer, t *blend.Test) error {
	if _, err := fmt.Fprintf(w, "%s\n%s\n", oneLine(t.Plan.Title), wording.Summary(t)); err != nil {
		return err
	}
	cells := make([]oxide.Chemistry, len(t.Cells))
	var without []int
	for i := range cells {
		cells[i] = t.Chemistry(i, blend.Measured)
		if len(cells[i].Missing) > 0 {
			without = append(without, t.Cells[i].Number)
		}
	}
	if len(without) < len(cells) {
		columns, traces := oxide.Columns(cells)
		for _, table := range []struct {
			title  string
			last   []string // heads of the columns after the oxides
			values func(oxide.Chemistry) []oxide.Amount
			text   func(float64) string
			more   func(oxide.Chemistry) []string
		}{
			{"unity formula of each cup as measured, in mol; LOI is in percent of the dry glaze", []string{"SiO2:Al2O3", "LOI"},
				func(c oxide.Chemistry) []oxide.Amount { return c.Unity }, quantity.UnityText, ratioAndLoss},
			{"weight % of the fired glaze", nil,
				func(c oxide.Chemistry) []oxide.Amount { return c.WeightPercent }, quantity.GotText, nil},
			{"mol % of the fired glaze", nil,
				func(c oxide.Chemistry) []oxide.Amount { return c.MolPercent }, quantity.GotText, nil},
		} {
			fmt.Fprintf(w, "\n%s\n\n", table.title)
			g := headed(columns, table.last)
			for i, c := range cells {
				if len(c.Missing) > 0 {
					continue
				}
				row := append([]string{strconv.Itoa(t.Cells[i].Number)}, oxideRow(table.values(c), columns, table.text)...)
				if table.more != nil {
					row = append(row, table.more(c)...)
				}
				g.add(row...)
			}
			if err := g.write(w); err != nil {
				return err
			}
		}
		if line := wording.Traces(traces); line != "" {
			fmt.Fprintf(w, "\n%s\n", line)
		}
	}
	if len(without) == 0 {
		return nil
	}
	_, err := fmt.Fprintf(w, "\nchemistry of %s unknown: no analysis of %s\n(give one in a [[material]] of the plan)\n",
		quantity.Cups(without, 20), oneLine(strings.Join(t.Unanalysed(), ", ")))
	return err
}

// headed is a grid with two rows of heads: the groups of the oxides, and these.
func headed(columns []oxide.Oxide, last []string) grid {
	g := grid{}
	groups, head := []string{""}, []string{"cup"}
	for i, o := range columns {
		group := string(o.Group())
		if i > 0 && columns[i-1].Group() == o.Group() {
			group = ""
		}
		groups, head = append(groups, group), append(head, string(o))
	}
	g.add(append(groups, make([]string, len(last))...)...)
	g.add(append(head, last...)...)
	g.rule()
	return g
}

// oxideRow is the values of the columns.
func oxideRow(amounts []oxide.Amount, columns []oxide.Oxide, text func(float64) string) []string {
	values := map[oxide.Oxide]float64{}
	for _, a := range amounts {
		values[a.Oxide] = a.Value
	}
	var row []string
	for _, o := range columns {
		if values[o] == 0 {
			row = append(row, "–")
		} else {
			row = append(row, text(values[o]))
		}
	}
	return row
}

// ratioAndLoss is the two columns after a unity formula.
func ratioAndLoss(c oxide.Chemistry) []string {
	ratio := "–"
	if c.SiAl > 0 {
		ratio = quantity.UnityText(c.SiAl)
	}
	return []string{ratio, quantity.LossText(c.LOI)}
}
