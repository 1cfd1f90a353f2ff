package record

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/mark"
	"pourboard/blend/quantity"
)

// mismatch is a row whose printed percentages are not those of its mark's cup:
// the plan was changed, or the row was.
type mismatch struct {
	row  int
	cell int
	head string // of the column
	says string // what the row says in that column, and what the plan asks for
}

// A percentage is a column of percentages that the log has or the plan wants.
type percentage struct {
	head   string
	at     int     // column of the log, -1 when it has none
	column int     // index of the plan's column, -1 when it has none
	within float64 // how far off a text of this column can be, as it was rounded
}

// percentages pairs the log's columns of percentages with the plan's. A log of
// this very plan may lack some, and one of a person's own has none at all; but
// a log that has some, and that may be of another plan, must have for each cup
// what the plan asks of it, and nothing else. A glaze with the same recipe under
// another name is the same glaze.
func (r *reader) percentages(o Origin, outline []string) []percentage {
	var all []percentage
	var lacking []int
	for i, c := range r.columns {
		switch {
		case c.Field != ShareField:
		case r.table.at[i] >= 0:
			all = append(all, percentage{c.Head, r.table.at[i], i, r.rounded(r.table.at[i])})
		default:
			lacking = append(lacking, i)
		}
	}
	if o.Fingerprint != "" && !o.Other {
		return all
	}
	foreign := r.foreign(o)
	for _, name := range slices.Sorted(maps.Keys(foreign)) {
		at := foreign[name]
		renamed := slices.IndexFunc(lacking, func(i int) bool {
			return o.Other && !r.test.Plan.Blend.HasSeries() && sameRecipe(o.Outline, name, outline, strings.TrimSuffix(r.columns[i].Head, percentSign))
		})
		column := -1
		if renamed >= 0 {
			column = lacking[renamed]
			lacking = slices.Delete(lacking, renamed, renamed+1)
		}
		all = append(all, percentage{name + percentSign, at, column, r.rounded(at)})
	}
	if len(all) > 0 {
		for _, i := range lacking {
			all = append(all, percentage{r.columns[i].Head, -1, i, 0})
		}
	}
	return all
}

// percentSign ends the heads of columns of percentages.
const percentSign = " %"

// foreign are the log's columns of percentages that the plan has not, by the
// name of what they count. Where the log carries its outline, they are those of
// its ends and series; otherwise all of them.
func (r *reader) foreign(o Origin) map[string]int {
	outlined := map[string]bool{}
	for _, line := range o.Outline {
		for _, label := range []string{"recipe of ", "series "} {
			if name, _, ok := named(line, label); ok {
				outlined[fold(name)] = true
			}
		}
	}
	found := map[string]int{}
	for at, cell := range r.table.sheet.Rows[r.table.head].Cells {
		name, ok := strings.CutSuffix(strings.TrimSpace(cell.Text), percentSign)
		if strings.HasSuffix(cell.text(), madeSuffix) {
			continue
		}
		if cell.Kind != Text || !ok || slices.Contains(r.table.at, at) {
			continue
		}
		if outlined[fold(name)] || len(outlined) == 0 {
			found[name] = at
		}
	}
	return found
}

// rounded is how far a number in a column can be off what was printed there, by
// the decimals that some program has left of its texts: with one, 16.7 is
// anything from 16.65 to 16.75. Where none has any, they are whole.
func (r *reader) rounded(at int) float64 {
	most := 0
	for _, row := range r.table.sheet.Rows {
		if cell := row.cell(at); cell.Kind == Text && !said(strings.TrimSpace(cell.Text)) {
			if digits, _, ok := percentIn(cell.Text); ok {
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

// said reports whether a text of Printed says what was asked and what was made,
// which it does with the digits that are printed on paper, a decimal at least.
func said(text string) bool { return strings.Contains(text, " ") }

func decimalsOf(digits string) int {
	if i := strings.LastIndexAny(digits, ".,"); i >= 0 {
		return len(digits) - i - 1
	}
	return 0
}

// percentIn is the number that a text of Printed begins with: one that says what
// was made begins with what was asked.
func percentIn(text string) (digits string, percent float64, ok bool) {
	digits, _, _ = strings.Cut(strings.TrimSpace(text), " ")
	digits = strings.TrimSuffix(digits, "%")
	percent, ambiguous, ok := parseNumber(digits)
	return digits, percent, ok && !ambiguous
}

// otherMixture looks for a percentage in a row that is not that of its mark. A
// cell without a number says nothing.
func (r *reader) otherMixture(row Row, tile mark.Tile) (m mismatch, other bool) {
	for _, p := range r.percents {
		asked, is := 0.0, "the plan has none of it"
		if p.column >= 0 {
			asked = r.columns[p.column].asked(r.test, &r.test.Cells[tile.Cell-1])
			is = fmt.Sprintf("cup %d is %s %%", tile.Cell, quantity.PercentText(roundTo(asked, 6)))
		}
		reads, percent, within := "has no such column", 0.0, noise
		if p.at >= 0 {
			cell := row.cell(p.at)
			switch cell.Kind {
			case Number:
				percent = cell.Number
			case Text:
				digits, number, ok := percentIn(cell.Text)
				if !ok {
					continue
				}
				percent, within = number, p.within
				if said(strings.TrimSpace(cell.Text)) {
					// Labels of a cup sum to 100, so one can be a whole tenth off.
					within = 2 * half(max(1, decimalsOf(digits)))
				}
			default:
				continue
			}
			reads = "reads " + short(cell.Text)
		}
		if math.Abs(percent-asked) > within {
			return mismatch{row.Number, tile.Cell, p.head, reads + ", and " + is}, true
		}
	}
	return mismatch{}, false
}

// anotherTest says why a log cannot be of this test at all: it has percentages
// but none of the plan's, its colourants went into another base, or its shares
// are of something else. A plan in which something was corrected is none of
// these.
func (r *reader) anotherTest(o Origin, outline []string) error {
	if o.Fingerprint != "" && !o.Other {
		return nil
	}
	theirs, ours := false, false
	for _, p := range r.percents {
		theirs = theirs || p.at >= 0
		ours = ours || p.at >= 0 && p.column >= 0
	}
	why := ""
	switch base, was := lineOf(outline, "base: "), lineOf(o.Outline, "base: "); {
	case (theirs || o.Other) && !ours:
		var heads []string
		for _, c := range r.columns {
			if c.Field == ShareField {
				heads = append(heads, strconv.Quote(c.Head))
			}
		}
		why = "it has no column " + strings.Join(heads, " or ")
	case !o.Other:
	case base != was && !sameRecipe(o.Outline, strings.TrimPrefix(was, "base: "), outline, strings.TrimPrefix(base, "base: ")):
		why = "its colourants went into another base"
	case lineOf(outline, "basis: ") != lineOf(o.Outline, "basis: "):
		why = "its shares are on another basis"
	}
	if why == "" {
		return nil
	}
	var made []string
	for _, line := range o.Was {
		for _, label := range []string{"kind: ", "base: ", "ends: ", "basis: ", "series "} {
			if strings.HasPrefix(line, label) {
				made = append(made, line)
			}
		}
	}
	if made != nil {
		why += "; it was made for " + strings.Join(made, "; ")
	}
	return fmt.Errorf("the log is of another test than the plan: %s", why)
}

// lineOf is the line of an outline that begins with a label, "" when there is
// none.
func lineOf(outline []string, label string) string {
	if i := slices.IndexFunc(outline, func(line string) bool { return strings.HasPrefix(line, label) }); i >= 0 {
		return outline[i]
	}
	return ""
}

// sameRecipe reports whether a glaze of one outline and a glaze of another are
// of one recipe with the same additions.
func sameRecipe(a []string, nameA string, b []string, nameB string) bool {
	recipe := recipeOf(a, nameA)
	return recipe != "" && recipe == recipeOf(b, nameB)
}

// recipeOf is the recipe and additions of a glaze in an outline.
func recipeOf(outline []string, glaze string) (recipe string) {
	for _, line := range outline {
		for _, label := range []string{"recipe of ", "additions to "} {
			if name, text, ok := named(line, label); ok && fold(name) == fold(glaze) {
				recipe += label + text + "\n"
			}
		}
	}
	return recipe
}

// named parts a line of an outline such as `recipe of "Ash": "Silica" 40`.
func named(line, label string) (name, text string, ok bool) {
	rest, ok := strings.CutPrefix(line, label)
	if !ok {
		return "", "", false
	}
	quoted, text, ok := strings.Cut(rest, `": `)
	name, err := strconv.Unquote(quoted + `"`)
	if !ok || err != nil {
		return "", "", false
	}
	return name, text, true
}
