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

// percentages pairs the log's columns of percentages with the plan's. A row must
// have in each of them what the plan asks of its cup, whatever the log says of
// its plan: a sheet may have been pasted over another. Of a plan that was changed
// the log may have columns that the plan has no more, which must be nothing; a
// glaze with the same recipe under another name is the same glaze. Any other
// column of percentages is that of another test.
func (r *reader) percentages(o Origin, outline []string) (all []percentage, err error) {
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
	foreign := r.foreign()
	for _, name := range slices.Sorted(maps.Keys(foreign)) {
		at := foreign[name]
		renamed := slices.IndexFunc(lacking, func(i int) bool {
			return o.Other && !r.test.Plan.Blend.HasSeries() && sameRecipe(o.Outline, name, outline, strings.TrimSuffix(r.columns[i].Head, percentSign))
		})
		column := -1
		switch {
		case renamed >= 0:
			column = lacking[renamed]
			lacking = slices.Delete(lacking, renamed, renamed+1)
		case !o.outlined(name):
			return nil, fmt.Errorf("the log is of another test than the plan: the plan has no column %q (give your own column a head without %%)", name+percentSign)
		}
		all = append(all, percentage{name + percentSign, at, column, r.rounded(at)})
	}
	if len(all) > 0 && (o.Fingerprint == "" || o.Other || !o.Coded) {
		for _, i := range lacking {
			all = append(all, percentage{r.columns[i].Head, -1, i, 0})
		}
	}
	return all, nil
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
	for _, line := range o.Outline {
		for _, label := range []string{"recipe of ", "series "} {
			if of, _, ok := named(line, label); ok && fold(of) == fold(name) {
				return o.Other
			}
		}
	}
	return false
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
	percent, ambiguous, ok := parseNumber(digits)
	if !ok {
		return digits, nil
	}
	percents = []float64{percent}
	if ambiguous {
		percents = append(percents, percent*1000)
	}
	return digits, percents
}

// otherMixture looks for a percentage in a row that is not that of its mark. A
// cell without a number says nothing. held is how many are what they should be.
func (r *reader) otherMixture(row Row, tile mark.Tile) (m mismatch, other bool, held int) {
	for _, p := range r.percents {
		asked, is := 0.0, "the plan has none of it"
		if p.column >= 0 {
			asked = r.columns[p.column].asked(r.test, &r.test.Cells[tile.Cell-1])
			is = fmt.Sprintf("cup %d is %s %%", tile.Cell, quantity.PercentText(roundTo(asked, 6)))
		}
		reads, percents, within := "has no such column", []float64{0}, noise
		if p.at >= 0 {
			cell := row.cell(p.at)
			switch cell.Kind {
			case Number:
				percents = []float64{cell.Number}
			case Text:
				var digits string
				if digits, percents = percentsIn(cell.Text); percents == nil {
					continue
				}
				within = p.within
				if showsBoth(strings.TrimSpace(cell.Text)) {
					within = half(max(1, decimalsOf(digits)))
				}
			default:
				continue
			}
			reads = "reads " + short(cell.Text)
		}
		if !slices.ContainsFunc(percents, func(percent float64) bool { return math.Abs(percent-asked) <= within }) {
			return mismatch{row.Number, tile.Cell, p.head, reads + ", and " + is}, true, held
		}
		if p.at >= 0 {
			held++
		}
	}
	return mismatch{}, false, held
}

// anotherTest says why a log cannot be of this test at all: it has percentages
// but none of the plan's, its base is another, or its shares
// are of something else. A plan in which something was corrected is none of
// these.
func (r *reader) anotherTest(o Origin, outline []string) error {
	if r.pasted(o) {
		return fmt.Errorf("the tiles come from another plan's log: the plan code is not %q (undo the paste)", o.Fingerprint)
	}
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
	case !o.Other || o.Outline == nil:
	case base != was && !sameRecipe(o.Outline, strings.TrimPrefix(was, "base: "), outline, strings.TrimPrefix(base, "base: ")):
		why = "its base is another"
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
		why += "; made for " + strings.Join(made, "; ")
	}
	return fmt.Errorf("the log is of another test than the plan: %s", why)
}

// pasted reports whether every row that has a plan code has that of another plan
// than the log's.
func (r *reader) pasted(o Origin) bool {
	coded := 0
	for i := r.table.head + 1; i < r.table.to; i++ {
		row := r.table.sheet.Rows[i]
		switch code := r.cellOf(row, PlanField).text(); {
		case code == "" || r.cellOf(row, MarkField).blank():
		case o.of(code):
			return false
		default:
			coded++
		}
	}
	return coded > 0
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
