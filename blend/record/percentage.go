package record

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/blend/plan"
	"pourboard/blend/quantity"
)

// mismatch is a row whose printed percentages are not those of its mark's cup:
// the plan was changed, or the row was.
type mismatch struct {
	row   int
	cell  int
	fault Complaint // its column, and, as what would be right, what the row says and what it ought to
}

// A percentage is a column of percentages with what its rows must have.
type percentage struct {
	head   string
	at     int       // column of the log, -1 when it has none
	want   []float64 // by cell, to six decimals; nil where the plan has none of it
	made   bool      // as measured, by the plan and the amounts of the log
	within float64   // how far off a text of this column can be, as it was rounded
}

// percentages pairs the log's columns of percentages with the plan's. A row must
// have in each of them what the plan asks of its cup, whatever the log says of
// its plan: a sheet may have been pasted over another. Of a plan that was changed
// the log may have columns that the plan has no more, which must be nothing; a
// glaze with the same recipe under another name is the same glaze. Any other
// column of percentages is that of another test. What cups come to is held
// against the log's own plan and amounts.
func (r *reader) percentages() (all []percentage, err error) {
	o := r.log.Origin
	var lacking []Column
	for i, c := range r.columns {
		switch {
		case c.Field != ShareField:
		case r.table.at[i] >= 0:
			all = append(all, r.percentage(c, r.table.at[i]))
		default:
			lacking = append(lacking, c)
		}
	}
	foreign := r.foreign()
	for _, name := range slices.Sorted(maps.Keys(foreign)) {
		p := percentage{head: name + percentSign, at: foreign[name], within: r.rounded(foreign[name])}
		renamed := slices.IndexFunc(lacking, func(c Column) bool {
			return o.Other && !r.test.Plan.Blend.HasSeries() && o.Outline.SameRecipe(name, o.is, strings.TrimSuffix(c.Head, percentSign))
		})
		switch {
		case renamed >= 0:
			p.want = lacking[renamed].wanted(r.test)
			lacking = slices.Delete(lacking, renamed, renamed+1)
		case !o.outlined(name):
			return nil, fmt.Errorf("the log is of another test than the plan: the plan has no column %q (give your own column a head without %%)", p.head)
		}
		all = append(all, p)
	}
	if len(all) > 0 && (o.Fingerprint == "" || o.Other || !o.Coded) {
		for _, c := range lacking {
			all = append(all, r.percentage(c, -1))
		}
	}
	return append(all, r.comesTo()...), nil
}

// comesTo pairs the columns of what cups come to with the log's own test.
func (r *reader) comesTo() (all []percentage) {
	if r.printed == nil {
		return nil
	}
	for _, c := range Columns(r.printed.Plan) {
		if at := r.table.headed(c.Head); c.Field == MadeField && at >= 0 {
			all = append(all, percentage{c.Head, at, c.wanted(r.printed), true, r.rounded(at)})
		}
	}
	return all
}

func (r *reader) percentage(c Column, at int) percentage {
	p := percentage{head: c.Head, at: at, want: c.wanted(r.test)}
	if at >= 0 {
		p.within = r.rounded(at)
	}
	return p
}

// wanted is what a column of percentages has of each cell.
func (c Column) wanted(t *blend.Test) []float64 {
	all := make([]float64, len(t.Cells))
	for i := range all {
		all[i] = c.Printed(t, mark.Tile{Cell: i + 1}).Number
	}
	return all
}

// printedBy is the test whose cups a log says what they come to: its own plan by
// its own amounts. It is nil where the log does not carry both.
func (c Carried) printedBy() *blend.Test {
	if c.Amounts.Empty() || c.PlanText == "" {
		return nil
	}
	p, _, err := plan.Read("", []byte(c.PlanText))
	if err != nil {
		return nil
	}
	t, err := blend.New(c.Amounts.In(p))
	if err != nil {
		return nil
	}
	return t
}

// percentSign ends the heads of columns of percentages.
const percentSign = " %"

// foreign are the table's columns of percentages that the plan has not, by the
// name of what they count.
func (r *reader) foreign() map[string]int {
	found := map[string]int{}
	for at, cell := range r.table.sheet.Rows[r.table.head].Cells {
		name, ok := strings.CutSuffix(cell.text(), percentSign)
		if cell.Kind != Text || !ok || slices.Contains(r.table.at, at) || strings.HasSuffix(cell.text(), madeSuffix) {
			continue
		}
		found[name] = at
	}
	return found
}

// outlined reports whether the plan of the log, which was changed since, had
// percentages of that name.
func (o Origin) outlined(name string) bool {
	return o.Other && (o.Outline.Text("recipe of", name) != "" || o.Outline.Text("series", name) != "")
}

// rounded is how far a number in a column can be off what was printed there, by
// the decimals that some program has left of its texts: with one, 16.7 is
// anything from 16.65 to 16.75. Where none has any, they are whole.
func (r *reader) rounded(at int) float64 {
	most := 0
	for _, row := range r.table.sheet.Rows {
		if cell := row.cell(at); cell.Kind == Text && !showsBoth(strings.TrimSpace(cell.Text)) {
			if digits, percents := percentsIn(cell.Text); percents != nil {
				most = max(most, decimalsOf(digits))
			}
		}
	}
	if most == 0 {
		return noise
	}
	return half(most)
}

// noise is what a number can be off by that was printed with six decimals.
const noise = 1e-5

// half is half of the last of so many decimals.
func half(decimals int) float64 { return 0.5*math.Pow(10, -float64(decimals)) + noise }

// showsBoth reports whether a text of an earlier log says what was asked and what
// was made, which it does with the digits that are printed on paper, a decimal at least.
func showsBoth(text string) bool { return strings.Contains(text, " ") }

func decimalsOf(digits string) int {
	if i := strings.LastIndexAny(digits, ".,"); i >= 0 {
		return len(digits) - i - 1
	}
	return 0
}

// percentsIn are the numbers that the text of a percentage can be: one that says
// what was made begins with what was asked, and 33,333 can be two.
func percentsIn(text string) (digits string, percents []float64) {
	digits, _, _ = strings.Cut(strings.TrimSpace(text), " ")
	digits = strings.TrimSuffix(digits, "%")
	f, ok := parseNumber(digits)
	if !ok {
		return digits, nil
	}
	percents = []float64{f.value}
	if f.ambiguous {
		percents = append(percents, f.thousands())
	}
	return digits, percents
}

// otherMixture looks for a percentage in a row that is not that of its mark. A
// cell without a number says nothing. held is how many are what they should be. Of a
// plan that was changed the fault only names the column, with both percentages.
func (r *reader) otherMixture(row Row, tile mark.Tile) (held int, fault Complaint) {
	for i := range r.percents {
		p := &r.percents[i]
		if p.made && tile.Cell > len(p.want) {
			continue
		}
		reads, percents, within := p.reading(row)
		if percents == nil {
			continue
		}
		want := 0.0
		if p.want != nil {
			want = p.want[tile.Cell-1]
		}
		if !slices.ContainsFunc(percents, func(percent float64) bool { return math.Abs(percent-want) <= within }) {
			says := reads + ", and " + p.is(tile.Cell, want)
			if r.log.Origin.Other && !p.made {
				return held, Complaint{Column: p.head, Right: says}
			}
			return held, Complaint{Column: p.head, What: "it " + says + "; skipped", Right: "enter the mark of these percentages, or remove another test's row"}
		}
		if p.at >= 0 {
			held++
		}
	}
	return held, Complaint{}
}

// reading is what a row has in the column, as numbers that it can be; nil where it
// says nothing.
func (p *percentage) reading(row Row) (reads string, percents []float64, within float64) {
	if p.at < 0 {
		return "has no such column", []float64{0}, noise
	}
	switch cell := row.cell(p.at); cell.Kind {
	case Number:
		return "reads " + short(cell.Text), []float64{cell.Number}, noise
	case Text:
		digits, percents := percentsIn(cell.Text)
		within := p.within
		if showsBoth(strings.TrimSpace(cell.Text)) {
			within = half(max(1, decimalsOf(digits)))
		}
		return "reads " + short(cell.Text), percents, within
	}
	return "", nil, 0
}

// is says what a cup has of it.
func (p *percentage) is(cup int, want float64) string {
	switch {
	case p.want == nil:
		return "the plan has none of it"
	case p.made:
		return fmt.Sprintf("by the log's amounts cup %d comes to %s %%", cup, quantity.PercentText(want))
	}
	return fmt.Sprintf("cup %d is %s %%", cup, quantity.PercentText(want))
}
