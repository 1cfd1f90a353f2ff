package text

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/blend/results"
	"pourboard/render/wording"
)

// Compare prints several logs side by side: of one test or one design cup by cup,
// then what was modelled of all together; of different designs by oxides.
func Compare(firings []Firing, c *results.Comparison) string {
	p := resultsPrinter{r: c.Results[0]}
	g := &grid{align: "rlll"}
	for k, f := range firings {
		recorded := strconv.Itoa(f.Results.Tiles) + " of " + strconv.Itoa(f.Places.Scheme.Tiles()) + " tiles recorded"
		g.add(strconv.Itoa(k+1), f.Results.Test.Plan.Title, f.Log, recorded)
	}
	p.grid(g)
	for k, f := range firings {
		for _, firing := range f.Results.Log.Firings {
			for _, e := range firing.Entries {
				p.line("log %d, firing %s  %s: %s", k+1, firing.Letter, e.Label, e.Value)
			}
		}
	}
	p.line("")
	if head := common(c); head == "" {
		p.line("No column of numbers is in every log: nothing to compare.")
	} else {
		p.line("%s by cup (figures behind bodies: the log; letters: its firing)", head)
		p.grid(sideBySide(c, head))
	}
	p.line("")
	if c.OneDesign {
		p.together(c)
	} else {
		p.line("Different designs: compared by oxides, no model.")
	}
	p.line("Each log alone: pourboard results PLAN LOG")
	p.line("%s", wording.NoProof)
	return p.String()
}

// common is the first column of numbers that every log has, the rating before
// others; empty when there is none.
func common(c *results.Comparison) string {
	for _, m := range c.Results[0].Judged() {
		if !slices.ContainsFunc(c.Results, func(r *results.Results) bool { return measured(r, m.Head) == nil }) {
			return m.Head
		}
	}
	return ""
}

// measured is the column of numbers with a head, nil for none.
func measured(r *results.Results, head string) *results.Measure {
	for _, m := range r.Judged() {
		if m.Head == head {
			return m
		}
	}
	return nil
}

// sideBySide has a row for each cup and a column for each body and firing. Logs of
// one test share its rows; cups of different designs go by their SiO2:Al2O3.
func sideBySide(c *results.Comparison, head string) *grid {
	type cup struct{ test, number int }
	oneTest := !slices.ContainsFunc(c.Results,
		func(r *results.Results) bool { return r.Test.Plan != c.Results[0].Test.Plan })
	means := map[cup]map[string]string{}
	var cups []cup
	var columns []string
	order := map[string]int{} // of bodies, and of the columns by their bodies
	for k, r := range c.Results {
		m := measured(r, head)
		for b, read := range m.Means {
			body := r.Test.Plan.Tiles.Bodies[r.Fired[b].Body]
			column, test := strings.TrimSpace(body+" "+r.Fired[b].Firing), k
			if oneTest {
				column, test = fmt.Sprintf("%s %d%s", body, k+1, r.Fired[b].Firing), 0
			}
			if _, known := order[body]; !known {
				order[body] = len(order)
			}
			order[column] = order[body]
			for i, mean := range read {
				row := cup{test, i + 1}
				switch {
				case mean.N == 0:
					continue
				case means[row] == nil:
					cups, means[row] = append(cups, row), map[string]string{}
				}
				if !slices.Contains(columns, column) {
					columns = append(columns, column)
				}
				means[row][column] = wording.ValueText(m, mean.Value, mean.N)
			}
		}
	}
	slices.SortStableFunc(columns, func(a, b string) int { return order[a] - order[b] })
	chemistry := func(k cup) oxide.Chemistry { return c.Results[k.test].Test.Chemistry(k.number-1, blend.Measured) }
	ratio := func(k cup) float64 {
		if c.OneDesign {
			return 0
		}
		return chemistry(k).SiAl
	}
	slices.SortStableFunc(cups, func(a, b cup) int {
		return cmp.Or(cmp.Compare(ratio(a), ratio(b)), cmp.Compare(a.test, b.test), cmp.Compare(a.number, b.number))
	})
	heads, shown := []string{"log", "cup"}, mainOxides(c)
	if !c.OneDesign {
		heads = append(append(heads, list(shown, func(o oxide.Oxide) string { return string(o) })...), "SiO2:Al2O3")
	}
	skip := 0
	if oneTest {
		skip = 1 // the log's number
	}
	g := table("", append(heads, columns...)[skip:]...)
	for _, k := range cups {
		row := []string{strconv.Itoa(k.test + 1), strconv.Itoa(k.number)}
		if !c.OneDesign {
			of := chemistry(k)
			oneDecimal := func(x float64) string { return quantity.Fixed(x, 1) }
			row = append(row, oxideCells(of.WeightPercent, shown, oneDecimal)...)
			row = append(row, ratioText(of))
		}
		row = append(row, list(columns, func(column string) string { return cmp.Or(means[k][column], "–") })...)
		g.add(row[skip:]...)
	}
	return g
}

// mainOxides are those of which some cup has a percent or more.
func mainOxides(c *results.Comparison) []oxide.Oxide {
	most := map[oxide.Oxide]float64{}
	for _, r := range c.Results {
		for i := range r.Test.Cells {
			for _, a := range r.Test.Chemistry(i, blend.Measured).WeightPercent {
				most[a.Oxide] = max(most[a.Oxide], a.Value)
			}
		}
	}
	return slices.DeleteFunc(slices.Clone(oxide.Oxides()), func(o oxide.Oxide) bool { return most[o] < 1 })
}

// together are the models of all logs, firings as terms.
func (p *resultsPrinter) together(c *results.Comparison) {
	p.line("All logs together, fitted to the means of cups (± are 95 %% limits)")
	p.line("  %s", wording.EndsText(p.r))
	for _, t := range c.Together {
		p.model(t.Measure, t.Model)
	}
}
