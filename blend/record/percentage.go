package record

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/mark"
	"pourboard/blend/quantity"
)

// A percentage is a column of percentages with what its rows must have.
type percentage struct {
	head   string
	at     int       // column of the log, -1 when it has none
	want   []float64 // by cup, to six decimals; nil where the plan has none of it
	within float64   // how far off a text of this column can be, as it was rounded
}

// percentages pairs the log's columns of percentages with the plan's. A row
// must have in each of them what the plan asks of its cup, whatever the log says of
// its plan: a sheet may have been pasted over another. Of a plan that was changed
// the log may have columns that the plan has no more, which must be nothing; a
// glaze with the same recipe under another name is the same glaze. Any other
// column of percentages is that of another test. What cups come to is held
// against the test where that has the log's plan and amounts.
func (r *reader) percentages() (all []percentage, err error) {
	t, o := &r.table, r.log.Origin
	asMade := !o.Other && o.PlanText != "" && identity.Same(o.Amounts, identity.AmountsOf(r.test.Plan))
	var lacking []Column
	for i, c := range t.columns {
		switch {
		case c.Field == ShareField && t.at[i] < 0:
			lacking = append(lacking, c)
		case c.Field == ShareField, c.Field == MadeField && asMade:
			all = append(all, percentage{c.Head, t.at[i], c.wanted(r.test), t.rounded(t.at[i])})
		}
	}
	for at, cell := range t.sheet.Rows[t.head].Cells {
		head := cell.text()
		name, is := strings.CutSuffix(head, percentSign)
		if cell.Kind != Text || !is || slices.Contains(t.at, at) || strings.HasSuffix(head, madeSuffix) {
			continue
		}
		foreign := percentage{head, at, nil, t.rounded(at)}
		i := slices.IndexFunc(lacking, func(c Column) bool {
			return o.Outline.SameRecipe(name, o.is, strings.TrimSuffix(c.Head, percentSign))
		})
		switch {
		case i >= 0:
			foreign.want = lacking[i].wanted(r.test)
			lacking = slices.Delete(lacking, i, i+1)
		case !o.Other || o.Outline.Text("recipe of", name)+o.Outline.Text("series", name) == "":
			return nil, fmt.Errorf("the log is of another test than the plan: the plan has no column %q (give your own column a head without %%)", head)
		}
		all = append(all, foreign)
	}
	if len(all) > 0 && (o.Fingerprint == "" || o.Other || !o.Coded) {
		for _, c := range lacking {
			all = append(all, percentage{c.Head, -1, c.wanted(r.test), 0})
		}
	}
	return all, nil
}

// wanted is what a column of percentages has of each cell.
func (c Column) wanted(t *blend.Test) []float64 {
	all := make([]float64, len(t.Cells))
	for i := range all {
		all[i] = c.Printed(t, mark.Tile{Cell: i + 1}).Number
	}
	return all
}

// percentSign ends the heads of columns of percentages.
const percentSign = " %"

// noise is what a number can be off by that was printed with six decimals.
const noise = 1e-5

// rounded is how far a number in a column can be off what was printed there, by
// the decimals that some program has left of its texts: with one, 16.7 is
// anything from 16.65 to 16.75. Where none has any, they are whole.
func (t *table) rounded(at int) float64 {
	most := 0
	for _, row := range t.sheet.Rows {
		if cell := row.cell(at); cell.Kind == Text {
			f, _ := percentIn(cell)
			most = max(most, f.decimals)
		}
	}
	if most == 0 {
		return noise
	}
	return 0.5*math.Pow(10, -float64(most)) + noise
}

// percentIn is the number in the text of a percentage. In logs of earlier versions
// it says what was asked, and then what was made.
func percentIn(cell Cell) (f figure, ok bool) {
	digits, _, _ := strings.Cut(cell.text(), " ")
	return parseNumber(strings.TrimSuffix(digits, "%"))
}

// otherMixture looks for a percentage in a row that is not that of its mark. held is
// how many are what they should be.
func (r *reader) otherMixture(row Row, tile mark.Tile) (held int, fault Complaint) {
	for _, p := range r.percents {
		percent, within, says := p.reading(row)
		want, is := 0.0, "the plan has none of it"
		if p.want != nil {
			want = p.want[tile.Cell-1]
			is = fmt.Sprintf("cup %d is %s %%", tile.Cell, quantity.PercentText(want))
		}
		switch {
		case !says:
		case math.Abs(percent-want) > within:
			reads, right := "there is no such column", "enter the mark of these percentages, or remove another test's row"
			if p.at >= 0 {
				reads = "it reads " + short(row.cell(p.at).Text)
			}
			if r.log.Origin.Other {
				right = planChanged
			}
			return held, Complaint{Column: p.head, What: reads + ", and " + is + "; skipped", Right: right}
		case p.at >= 0:
			held++
		}
	}
	return held, Complaint{}
}

// reading is the percentage that a row has in the column, and how far off it can
// be; says is false where it has no number. Without the column a cup has none of it.
func (p percentage) reading(row Row) (percent, within float64, says bool) {
	cell := row.cell(p.at)
	switch {
	case p.at < 0:
		return 0, noise, true
	case cell.Kind == Number:
		return cell.Number, noise, true
	case cell.Kind != Text:
		return 0, 0, false
	}
	f, ok := percentIn(cell)
	return f.value, p.within, ok
}
