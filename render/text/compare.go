package text

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/results"
	"pourboard/render/wording"
)

// Compare prints several logs side by side: of one test or one design cup by cup,
// then what was modelled of all together; of different designs by oxides.
func Compare(w io.Writer, firings []Firing, c *results.Comparison) error {
	p := printer{r: c.Results[0]}
	g := grid{left: []bool{false, true, true, true}}
	for k, f := range firings {
		recorded := fmt.Sprintf("%d of %d tiles recorded", f.Results.Tiles, f.Places.Scheme.Tiles())
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
	head := common(c)
	if head == "" {
		p.line("")
		p.line("No column of numbers is in every log: nothing to compare.")
	} else {
		p.sideBySide(c, head)
	}
	p.line("")
	if c.OneDesign {
		p.together(c)
	} else {
		p.line("Different designs: compared by oxides, no model.")
	}
	p.line("Each log alone: pourboard results PLAN LOG")
	p.line("%s", wording.NoProof)
	_, err := io.WriteString(w, p.String())
	return err
}

// common is the first column of numbers that every log has, the rating before
// others; empty when there is none.
func common(c *results.Comparison) string {
	for _, m := range c.Results[0].Judged() {
		if !slices.ContainsFunc(c.Results, func(r *results.Results) bool {
			return !slices.ContainsFunc(r.Judged(), func(other *results.Measure) bool { return other.Head == m.Head })
		}) {
			return m.Head
		}
	}
	return ""
}

// sideBySide has a row for each cup and a column for each body and firing.
func (p *printer) sideBySide(c *results.Comparison, head string) {
	s := newSide(c, head)
	g := grid{}
	top := []string{"log", "cup"}[s.skip:]
	var oxides []oxide.Oxide
	if !c.OneDesign {
		oxides = mainOxides(c)
		for _, o := range oxides {
			top = append(top, string(o))
		}
		top = append(top, "SiO2:Al2O3")
	}
	g.add(append(top, s.columns...)...)
	g.rule()
	for _, k := range s.rows {
		line := []string{strconv.Itoa(k.test + 1), strconv.Itoa(k.number)}[s.skip:]
		line = append(line, chemistryCells(c.Results[k.test].Test, k.number, oxides)...)
		for _, name := range s.columns {
			line = append(line, s.text(k, name))
		}
		g.add(line...)
	}
	p.line("")
	p.line("%s by cup (figures behind bodies: the log; letters: its firing)", head)
	p.grid(g)
}

// side is the means of a column of the logs, by cup, and by body and firing.
type side struct {
	c       *results.Comparison
	head    string
	skip    int // 1 where all logs are of one test, which has one row for a cup
	rows    []cupOfLog
	columns []string
	means   map[cupOfLog]map[string]results.CupMean
}

type cupOfLog struct{ test, number int }

func newSide(c *results.Comparison, head string) *side {
	s := &side{c: c, head: head, means: map[cupOfLog]map[string]results.CupMean{}}
	if !slices.ContainsFunc(c.Results, func(r *results.Results) bool { return r.Test.Plan != c.Results[0].Test.Plan }) {
		s.skip = 1
	}
	for _, m := range c.Means(head) {
		row, column := cupOfLog{m.Test, m.Cup}, m.Body
		if s.skip == 1 {
			row.test = 0
		}
		if s.skip == 1 || len(c.Results[m.Test].Firings()) > 1 {
			column += " " + m.Firing
		}
		if s.means[row] == nil {
			s.rows, s.means[row] = append(s.rows, row), map[string]results.CupMean{}
		}
		if !slices.Contains(s.columns, column) {
			s.columns = append(s.columns, column)
		}
		s.means[row][column] = m
	}
	ratio := func(k cupOfLog) float64 {
		if c.OneDesign {
			return 0
		}
		return c.Results[k.test].Test.Chemistry(k.number-1, blend.Measured).SiAl
	}
	slices.SortStableFunc(s.rows, func(a, b cupOfLog) int {
		return cmp.Or(cmp.Compare(ratio(a), ratio(b)), cmp.Compare(a.test, b.test), cmp.Compare(a.number, b.number))
	})
	return s
}

// text is the mean of a cup in a column, a dash for none.
func (s *side) text(k cupOfLog, column string) string {
	mean, ok := s.means[k][column]
	if !ok {
		return "–"
	}
	judged := s.c.Results[mean.Test].Judged()
	m := slices.IndexFunc(judged, func(m *results.Measure) bool { return m.Head == s.head })
	return wording.ValueText(judged[m], mean.Mean, mean.N)
}

// chemistryCells are the oxides of a cup in weight %, and SiO2:Al2O3; none when no
// oxides are shown.
func chemistryCells(t *blend.Test, number int, oxides []oxide.Oxide) []string {
	if oxides == nil {
		return nil
	}
	chemistry := t.Chemistry(number-1, blend.Measured)
	var cells []string
	for _, o := range oxides {
		text := "–"
		for _, a := range chemistry.WeightPercent {
			if a.Oxide == o {
				text = strconv.FormatFloat(a.Value, 'f', 1, 64)
			}
		}
		cells = append(cells, text)
	}
	ratio := "–"
	if chemistry.SiAl > 0 {
		ratio = strconv.FormatFloat(chemistry.SiAl, 'f', 2, 64)
	}
	return append(cells, ratio)
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
	list := []oxide.Oxide{}
	for _, o := range oxide.Oxides() {
		if most[o] >= 1 {
			list = append(list, o)
		}
	}
	return list
}

// together are the models of all logs, firings as terms.
func (p *printer) together(c *results.Comparison) {
	p.line("All logs together, fitted to the means of cups (± are 95 %% limits)")
	p.line("  %s", wording.EndsText(p.r))
	for _, t := range c.Together {
		p.model(t.Measure, t.Model)
	}
	for _, t := range c.Together {
		for _, check := range t.Model.Checks {
			p.line("  %s: %s", t.Measure.Head, wording.CheckText(t.Measure, check))
		}
	}
}
