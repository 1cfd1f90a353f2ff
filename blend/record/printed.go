package record

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/mark"
	"pourboard/blend/quantity"
)

// A printed column is one that the plan filled in: what a row has in it must belong to
// the tile of the row's mark, whatever the log says of its plan. A sheet may have been
// pasted over another, or a column of it sorted alone.
type printed struct {
	head string
	at   int // column of the log, -1 when it has none
	// holds reports whether a cell is what belongs to a tile; says is false where it
	// says nothing.
	holds func(c Cell, t mark.Tile) (fits, says bool)
	is    func(t mark.Tile) string // what belongs to it
	fix   string
}

// agrees counts the printed cells of a row that are what belongs to its mark, or
// says which one is not.
func (r *reader) agrees(row Row, tile mark.Tile) (evidence int, fault *Complaint) {
	for _, p := range r.printed {
		cell := row.cell(p.at)
		fits, says := p.holds(cell, tile)
		switch {
		case !says || p.at >= 0 && cell.blank():
		case fits && p.at >= 0:
			evidence++
		case !fits:
			reads := "there is no such column"
			if p.at >= 0 {
				reads = "it reads " + short(cell.Text)
			}
			return 0, skipped(p.head, reads+", and "+p.is(tile), p.fix)
		}
	}
	return evidence, nil
}

// printedColumns are the columns that a row is held against. What cups come to is held
// against the test where that has the log's plan and amounts. Without a column that is
// asked, a cup must have none of it. The error says why a log is of another test than
// the plan, by its columns of percentages.
func (r *reader) printedColumns() (all []printed, err error) {
	o := r.log.Origin
	var asked, lacking []Column
	for i, c := range r.table.columns {
		at := r.table.at[i]
		if c.Field == ShareField {
			asked = append(asked, c)
		}
		switch {
		case at >= 0:
			all = append(all, r.printedColumn(c, at)...)
		case c.Field == ShareField:
			lacking = append(lacking, c)
		}
	}
	foreign, lacking, err := r.foreign(lacking)
	if err != nil {
		return nil, err
	}
	all = append(all, foreign...)
	switch {
	case len(lacking) < len(asked):
		if o.Fingerprint != "" && !o.Other && o.Coded {
			break // the plan's own log, from which a column was taken away
		}
		for _, c := range lacking {
			all = append(all, r.percentage(c.Head, -1, c.wanted(r.test)))
		}
	case foreign != nil || o.Other:
		var heads []string
		for _, c := range asked {
			heads = append(heads, strconv.Quote(c.Head))
		}
		return nil, errors.New(anotherTest + "it has no column " + strings.Join(heads, " or "))
	}
	return all, nil
}

// printedColumn returns what the log prints in a column of the plan, nothing for a column
// to fill in.
func (r *reader) printedColumn(c Column, at int) []printed {
	p := printed{head: c.Head, at: at, fix: "enter the mark of this row, or remove another test's row"}
	switch c.Field {
	case CellField:
		p.holds = func(c Cell, t mark.Tile) (fits, says bool) { return c.whole() == t.Cell, true }
		p.is = func(t mark.Tile) string { return fmt.Sprintf("%s is cup %d", t.Mark, t.Cell) }
	case RepeatField:
		p.holds = func(c Cell, t mark.Tile) (fits, says bool) { return c.whole() == t.Repeat+1, true }
		p.is = func(t mark.Tile) string { return fmt.Sprintf("%s is repeat %d", t.Mark, t.Repeat+1) }
	case BodyField:
		p.holds = func(c Cell, t mark.Tile) (fits, says bool) {
			text := fold(c.Text)
			return text == fold(r.paint.bodies[t.Body]) || text == fold(r.paint.nowCalled(t.Body)), true
		}
		p.is = func(t mark.Tile) string { return t.Mark + " is " + r.paint.bodies[t.Body] }
	case PlanField:
		p.holds = func(c Cell, _ mark.Tile) (fits, says bool) { return r.log.Origin.of(c.text()), true }
		p.is = func(mark.Tile) string { return "the log is of another plan" }
	case ShareField:
		p = r.percentage(c.Head, at, c.wanted(r.test))
	case MadeField:
		o := r.log.Origin
		if o.Other || o.PlanText == "" || !identity.Same(o.Amounts, identity.AmountsOf(r.test.Plan)) {
			return nil
		}
		p = r.percentage(c.Head, at, c.wanted(r.test))
	default:
		return nil
	}
	return []printed{p}
}

// foreign returns the columns of percentages that the plan does not have, and as others
// those of lacking that no such column stands for. A glaze with the same recipe under
// another name is the same glaze. After a change of the plan the log may have columns
// that are gone from it: their percentages must be 0. Any other column is that of
// another test, which is an error.
func (r *reader) foreign(lacking []Column) (all []printed, others []Column, err error) {
	o := r.log.Origin
	for at, cell := range r.table.sheet.Rows[r.table.head].Cells {
		name, is := strings.CutSuffix(cell.text(), percentSign)
		if !is || cell.Kind != Text || slices.Contains(r.table.at, at) || strings.HasSuffix(cell.text(), madeSuffix) {
			continue
		}
		var want []float64
		i := slices.IndexFunc(lacking, func(c Column) bool {
			return o.Outline.SameRecipe(name, o.is, strings.TrimSuffix(c.Head, percentSign))
		})
		if i >= 0 {
			want = lacking[i].wanted(r.test)
			lacking = slices.Delete(lacking, i, i+1)
		} else if !o.Other || o.Outline.Text("recipe of", name)+o.Outline.Text("series", name) == "" {
			const fault = "the plan has no column %q (give your own column a head without %%)"
			return nil, nil, fmt.Errorf(anotherTest+fault, cell.text())
		}
		all = append(all, r.percentage(cell.text(), at, want))
	}
	return all, lacking, nil
}

// percentage is a column of percentages: want is what each cup must have, to six
// decimals, nil where the plan has none of it. A cell without a number says nothing.
func (r *reader) percentage(head string, at int, want []float64) printed {
	within := r.table.rounded(at)
	p := printed{head: head, at: at, fix: "enter the mark of these percentages, or remove another test's row"}
	if r.log.Origin.Other {
		p.fix = planChanged
	}
	if want == nil {
		p.is = func(mark.Tile) string { return "the plan has none of it" }
		want = make([]float64, len(r.test.Cells))
	} else {
		p.is = func(t mark.Tile) string {
			return fmt.Sprintf("cup %d is %s %%", t.Cell, quantity.PercentText(want[t.Cell-1]))
		}
	}
	p.holds = func(c Cell, t mark.Tile) (fits, says bool) {
		switch c.Kind {
		case Number, Blank: // without the column a cup has none of it
			return math.Abs(c.Number-want[t.Cell-1]) <= noise, true
		case Text:
			f, ok := percentIn(c)
			return math.Abs(f.value-want[t.Cell-1]) <= within, ok
		}
		return false, false
	}
	return p
}

// wanted returns the percentage that a column should have for each cell.
func (c Column) wanted(t *blend.Test) []float64 {
	all := make([]float64, len(t.Cells))
	for i := range all {
		all[i] = c.Printed(t, mark.Tile{Cell: i + 1}).Number
	}
	return all
}

// percentSign ends the heads of columns of percentages.
const percentSign = " %"

// noise is how far off a number can be that was printed with six decimals.
const noise = 1e-5

// rounded returns how far a number in a column can be off what was printed there. A
// program may have cut its texts to fewer decimals: with one, 16.7 is anything from
// 16.65 to 16.75. Where no text has decimals, nothing was cut.
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
