package record

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/blend/quantity"
)

// A percentage is a column of percentages with what its rows must have.
type percentage struct {
	head   string
	at     int       // column of the log, -1 when it has none
	want   []float64 // by cell, to six decimals; nil where the plan has none of it
	made   bool      // as measured, by the plan and the amounts of the log
	within float64   // how far off a text of this column can be, as it was rounded
}

// percentages pairs the columns of percentages of a table with the plan's. A row
// must have in each of them what the plan asks of its cup, whatever the log says of
// its plan: a sheet may have been pasted over another. Of a plan that was changed
// the log may have columns that the plan has no more, which must be nothing; a
// glaze with the same recipe under another name is the same glaze. Any other
// column of percentages is that of another test. What cups come to is held
// against the log's own plan and amounts.
func (r *reader) percentages(t *table) (all []percentage, err error) {
	add := func(head string, at int, want []float64, made bool) {
		all = append(all, percentage{head, at, want, made, t.rounded(at)})
	}
	var lacking []Column
	for i, c := range r.columns {
		switch {
		case c.Field != ShareField:
		case t.at[i] >= 0:
			add(c.Head, t.at[i], c.wanted(r.test), false)
		default:
			lacking = append(lacking, c)
		}
	}
	var made []Column
	if r.printed != nil {
		made = Columns(r.printed.Plan)
	}
	for at, cell := range t.sheet.Rows[t.head].Cells {
		if i := slices.IndexFunc(made, func(c Column) bool { return c.Field == MadeField && cell.says(c.Head) }); i >= 0 {
			add(made[i].Head, at, made[i].wanted(r.printed), true)
		}
		head := cell.text()
		if cell.Kind != Text || slices.Contains(t.at, at) || !strings.HasSuffix(head, percentSign) || strings.HasSuffix(head, madeSuffix) {
			continue
		}
		as, known := r.foreign(strings.TrimSuffix(head, percentSign), lacking)
		switch {
		case as >= 0:
			add(head, at, lacking[as].wanted(r.test), false)
			lacking = slices.Delete(lacking, as, as+1)
		case known:
			add(head, at, nil, false)
		default:
			return nil, fmt.Errorf("the log is of another test than the plan: the plan has no column %q (give your own column a head without %%)", head)
		}
	}
	if o := r.log.Origin; len(all) > 0 && (o.Fingerprint == "" || o.Other || !o.Coded) {
		for _, c := range lacking {
			add(c.Head, -1, c.wanted(r.test), false)
		}
	}
	return all, nil
}

// foreign is what a column of percentages is that the plan has not: the index of
// one that the log lacks, whose glaze has its recipe, or -1; and whether the log's
// own plan had it.
func (r *reader) foreign(name string, lacking []Column) (as int, known bool) {
	o := r.log.Origin
	if !o.Other {
		return -1, false
	}
	as = slices.IndexFunc(lacking, func(c Column) bool {
		return !r.test.Plan.Blend.HasSeries() && o.Outline.SameRecipe(name, o.is, strings.TrimSuffix(c.Head, percentSign))
	})
	return as, o.Outline.Text("recipe of", name) != "" || o.Outline.Text("series", name) != ""
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

// otherMixture looks for a percentage in a row that is not that of its mark. A
// cell without a number says nothing. held is how many are what they should be.
func (r *reader) otherMixture(row Row, tile mark.Tile) (held int, fault Complaint) {
	for i := range r.percents {
		p := &r.percents[i]
		if p.made && tile.Cell > len(p.want) {
			continue
		}
		percent, within, says := p.reading(row)
		if !says {
			continue
		}
		want, is := 0.0, "the plan has none of it"
		if p.want != nil {
			want = p.want[tile.Cell-1]
			is = fmt.Sprintf("cup %d is %s %%", tile.Cell, quantity.PercentText(want))
		}
		if p.made {
			is = fmt.Sprintf("by the log's amounts cup %d comes to %s %%", tile.Cell, quantity.PercentText(want))
		}
		if math.Abs(percent-want) > within {
			reads := "there is no such column"
			if p.at >= 0 {
				reads = "it reads " + short(row.cell(p.at).Text)
			}
			fault = Complaint{Column: p.head, What: reads + ", and " + is + "; skipped", Right: "enter the mark of these percentages, or remove another test's row"}
			if r.log.Origin.Other && !p.made {
				fault.Right = planChanged
			}
			return held, fault
		}
		if p.at >= 0 {
			held++
		}
	}
	return held, Complaint{}
}

// reading is the percentage that a row has in the column, and how far off it can
// be; says is false where it is silent. Without the column a cup has none of it.
func (p *percentage) reading(row Row) (percent, within float64, says bool) {
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
