package record

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// anotherTest says why a log cannot be of this test at all.
func (r *reader) anotherTest() error {
	o := r.log.Origin
	if r.pasted(o) {
		return fmt.Errorf("the tiles come from another plan's log: the plan code is not %q (undo the paste)", short(o.Fingerprint))
	}
	why := r.whyAnother(o)
	if why == "" {
		return nil
	}
	for i, line := range o.madeFor() {
		why += []string{"; made for ", "; "}[min(i, 1)] + line
	}
	return fmt.Errorf("the log is of another test than the plan: %s", why)
}

// whyAnother says in what a log is of another test: it has percentages but none of
// the plan's, its base is another, or its shares are of something else. A plan
// that was only corrected is not another.
func (r *reader) whyAnother(o Origin) string {
	if o.Fingerprint != "" && !o.Other {
		return ""
	}
	theirs := slices.ContainsFunc(r.percents, func(p percentage) bool { return p.at >= 0 })
	ours := slices.ContainsFunc(r.percents, func(p percentage) bool { return p.at >= 0 && p.want != nil })
	if (theirs || o.Other) && !ours {
		var heads []string
		for _, c := range r.columns {
			if c.Field == ShareField {
				heads = append(heads, strconv.Quote(c.Head))
			}
		}
		return "it has no column " + strings.Join(heads, " or ")
	}
	base, was := o.is.Text("base", ""), o.Outline.Text("base", "")
	switch {
	case !o.Other || len(o.Outline) == 0:
	case base != was && !o.Outline.SameRecipe(was, o.is, base):
		return "its base is another"
	case o.is.Text("basis", "") != o.Outline.Text("basis", ""):
		return "its shares are on another basis"
	}
	return ""
}

// madeFor are the matters of the log's plan that tell one test from another, where
// this plan has them otherwise.
func (o Origin) madeFor() (lines []string) {
	for _, m := range o.Outline {
		if slices.Contains([]string{"kind", "base", "ends", "basis", "series"}, m.Label) && !slices.Contains(o.is, m) {
			lines = append(lines, m.Sentence())
		}
	}
	return lines
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
