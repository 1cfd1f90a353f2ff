package crate

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/layout"
)

// mismatch is a row whose printed percentages are not those of its mark's cup:
// the plan was changed, or the row was.
type mismatch struct {
	row    int
	cell   int
	column string
	reads  string // what stands in the row
	is     string // what the plan asks for
}

func (m mismatch) String() string {
	return fmt.Sprintf("%s reads %s, and cup %d is %s", m.column, short(m.reads), m.cell, m.is)
}

// otherMixture looks for a percentage in a row that is not that of its mark. A
// column or a number that is not there says nothing.
func (r *reader) otherMixture(row Row, tile layout.Tile) (m mismatch, other bool) {
	for i, c := range r.columns {
		if c.Field != ShareField || r.table.at[i] < 0 {
			continue
		}
		printed := row.cell(r.table.at[i])
		percent, within, ok := printedPercent(printed)
		if !ok {
			continue
		}
		asked := c.asked(r.test, &r.test.Cells[tile.Cell-1])
		if math.Abs(percent-asked) > within {
			return mismatch{row.Number, tile.Cell, c.Head, printed.Text, blend.PercentText(roundTo(asked, 6)) + " %"}, true
		}
	}
	return mismatch{}, false
}

// printedPercent reads what Printed puts into a column of percentages, or what
// a program that saves what it shows has left of it: 16.7 is anything from
// 16.65 to 16.75. A text that says what was made begins with what was asked.
func printedPercent(cell Cell) (percent, within float64, ok bool) {
	const noise = 1e-5 // Printed gives six decimals
	if cell.Kind == Number {
		return cell.Number, noise, true
	}
	if cell.Kind != Text {
		return 0, 0, false
	}
	digits, _, _ := strings.Cut(strings.TrimSpace(cell.Text), " ")
	digits = strings.TrimSuffix(digits, "%")
	percent, ambiguous, ok := parseNumber(digits)
	if !ok || ambiguous {
		return 0, 0, false
	}
	decimals := 0
	if i := strings.LastIndexAny(digits, ".,"); i >= 0 {
		decimals = len(digits) - i - 1
	}
	return percent, 0.5*math.Pow(10, -float64(decimals)) + noise, true
}

// anotherTest says why a log that was made for another plan cannot be of this
// test at all: it has none of the plan's percentages, or its colourants went
// into another base. A plan in which something was corrected is none of these.
func (r *reader) anotherTest(o Origin, outline []string) error {
	var heads []string
	there := false
	for i, c := range r.columns {
		if c.Field == ShareField {
			heads = append(heads, fmt.Sprintf("%q", c.Head))
			there = there || r.table.at[i] >= 0
		}
	}
	var made []string
	for _, line := range o.Was {
		for _, label := range []string{"kind: ", "base: ", "ends: ", "series "} {
			if strings.HasPrefix(line, label) {
				made = append(made, line)
			}
		}
	}
	whose := ""
	if made != nil {
		whose = "; it was made for " + strings.Join(made, "; ")
	}
	switch {
	case !there:
		return fmt.Errorf("the log is of another test than the plan: it has no column %s%s", strings.Join(heads, " or "), whose)
	case baseOf(o.Outline) != baseOf(outline) && recipeOf(o.Outline) != recipeOf(outline):
		return errors.New("the log is of another test than the plan: its colourants went into another base" + whose)
	}
	return nil
}

// baseOf is the base that an outline names, "" for a blend.
func baseOf(outline []string) string {
	i := slices.IndexFunc(outline, func(line string) bool { return strings.HasPrefix(line, "base: ") })
	if i < 0 {
		return ""
	}
	return outline[i]
}

// recipeOf is the first recipe of an outline, without the name of its glaze.
func recipeOf(outline []string) string {
	for _, line := range outline {
		if strings.HasPrefix(line, "recipe of ") {
			_, recipe, _ := strings.Cut(line, `": `)
			return recipe
		}
	}
	return ""
}
