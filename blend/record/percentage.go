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
// its plan: a sheet may have been pasted over another. What cups come to is held
// against the test where that has the log's plan and amounts.
func (r *reader) percentages() ([]percentage, error) {
	t, o := &r.table, r.log.Origin
	all, lacking := r.planned()
	for at, cell := range t.sheet.Rows[t.head].Cells {
		name, is := percentHead(cell)
		if !is || slices.Contains(t.at, at) {
			continue
		}
		foreign := percentage{cell.text(), at, nil, t.rounded(at)}
		i, err := r.formerly(name, lacking)
		if err != nil {
			return nil, err
		}
		if i >= 0 {
			foreign.want = lacking[i].wanted(r.test)
			lacking = slices.Delete(lacking, i, i+1)
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

// planned are the log's columns of percentages that the plan has, and those of what is
// asked that the log lacks.
func (r *reader) planned() (all []percentage, lacking []Column) {
	t, asMade := &r.table, r.asMade()
	for i, c := range t.columns {
		switch {
		case c.Field == ShareField && t.at[i] < 0:
			lacking = append(lacking, c)
		case c.Field == ShareField, c.Field == MadeField && asMade:
			all = append(all, percentage{c.Head, t.at[i], c.wanted(r.test), t.rounded(t.at[i])})
		}
	}
	return all, lacking
}

// asMade reports whether the test's cups are those whose amounts the log prints.
func (r *reader) asMade() bool {
	o := r.log.Origin
	return !o.Other && o.PlanText != "" && identity.Same(o.Amounts, identity.AmountsOf(r.test.Plan))
}

// percentHead is the name in the head of a column of percentages that are asked.
func percentHead(c Cell) (name string, is bool) {
	name, is = strings.CutSuffix(c.text(), percentSign)
	return name, is && c.Kind == Text && !strings.HasSuffix(c.text(), madeSuffix)
}

// formerly is the index of the lacking column whose glaze the log has, by its recipe,
// under a name that the plan does not have. It is -1 for what the log's plan had and
// this plan has no more: cups must have nothing of it. Of any other name the log is of
// another test, which is the error.
func (r *reader) formerly(name string, lacking []Column) (int, error) {
	o := r.log.Origin
	i := slices.IndexFunc(lacking, func(c Column) bool {
		return o.Outline.SameRecipe(name, o.is, strings.TrimSuffix(c.Head, percentSign))
	})
	if i < 0 && (!o.Other || o.Outline.Text("recipe of", name)+o.Outline.Text("series", name) == "") {
		const fault = "the log is of another test than the plan: the plan has no column %q (give your own column a head without %%)"
		return -1, fmt.Errorf(fault, name+percentSign)
	}
	return i, nil
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
func (r *reader) otherMixture(row Row, tile mark.Tile) (held int, fault *Complaint) {
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
			reads, fix := "there is no such column", "enter the mark of these percentages, or remove another test's row"
			if p.at >= 0 {
				reads = "it reads " + short(row.cell(p.at).Text)
			}
			if r.log.Origin.Other {
				fix = planChanged
			}
			return held, skipped(p.head, reads+", and "+is, fix)
		case p.at >= 0:
			held++
		}
	}
	return held, nil
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
