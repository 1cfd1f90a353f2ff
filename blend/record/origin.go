package record

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/identity"
)

// Origin says which plan a log was made for. A log of another plan is read as far
// as its marks still mean the same; whether a recipe that was changed is a recipe
// that was corrected is for a person to say who knows.
type Origin struct {
	Carried
	Other bool // it is another plan
	Coded bool // the rows of tiles say which plan too

	is   identity.Outline // of the plan that it is read by
	code string           // that plan's fingerprint
}

// of reports whether a row's plan code is that of the log.
func (o Origin) of(code string) bool {
	mine := cmp.Or(o.Fingerprint, o.code)
	return code == mine || fold(code) == fold(mine)
}

// origin holds what a log carries, or what all its rows do, against the plan.
func (r *reader) origin(c Carried) Origin {
	o := Origin{Carried: c, is: identity.OutlineOf(r.test.Plan), code: identity.Fingerprint(r.test.Plan)}
	codes := PlanCodes([]Sheet{*r.table.sheet})
	o.Coded = codes != nil
	if len(codes) == 1 && o.Fingerprint == "" {
		o.Fingerprint = codes[0]
	}
	o.Other = o.Fingerprint != "" && fold(o.Fingerprint) != fold(o.code)
	return o
}

// notes says where the log stands to the plan when it is not simply the plan's.
func (o Origin) notes() []string {
	switch {
	case o.Fingerprint == "":
		return []string{"the log does not name its plan; rows were matched by mark and percentages"}
	case !o.Other:
		return nil
	}
	notes := []string{"the log is of an earlier or another plan; a row counts if its mark still means the same percentages on the same body"}
	if len(o.Outline) > 0 {
		for _, line := range identity.Differences(o.Outline, o.is) {
			notes = append(notes, "changed since: "+line)
		}
	}
	return notes
}

// anotherTest says why a log cannot be of this test at all: all its
// percentages are other than the plan's, its base is another, or its shares are of something else. A
// plan that was only corrected is not another.
func (r *reader) anotherTest() error {
	o := r.log.Origin
	if o.Fingerprint != "" && !o.Other {
		return nil
	}
	theirs := slices.ContainsFunc(r.percents, func(p percentage) bool { return p.at >= 0 })
	ours := slices.ContainsFunc(r.percents, func(p percentage) bool { return p.at >= 0 && p.want != nil })
	base, was := o.is.Text("base", ""), o.Outline.Text("base", "")
	why := ""
	switch {
	case (theirs || o.Other) && !ours:
		var heads []string
		for _, c := range r.table.columns {
			if c.Field == ShareField {
				heads = append(heads, strconv.Quote(c.Head))
			}
		}
		why = "it has no column " + strings.Join(heads, " or ")
	case !o.Other || len(o.Outline) == 0:
		return nil
	case base != was && !o.Outline.SameRecipe(was, o.is, base):
		why = "its base is " + was
	case o.is.Text("basis", "") != o.Outline.Text("basis", ""):
		why = "its shares are of " + o.Outline.Text("basis", "")
	default:
		return nil
	}
	return fmt.Errorf("the log is of another test than the plan: %s", why)
}
