package record

import (
	"cmp"
	"errors"

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

// notes say that the log is not the plan's, or may not be, and what has changed since.
func (o Origin) notes() []string {
	switch {
	case o.Fingerprint == "":
		return []string{"the log does not name its plan; rows were matched by mark and percentages"}
	case !o.Other:
		return nil
	}
	notes := []string{"the log is of an earlier or another plan; " +
		"a row counts if its mark still means the same percentages on the same body"}
	if len(o.Outline) > 0 {
		for _, line := range identity.Differences(o.Outline, o.is) {
			notes = append(notes, "changed since: "+line)
		}
	}
	return notes
}

// anotherTest begins the error of a log that cannot be of the plan's test at all.
const anotherTest = "the log is of another test than the plan: "

// sameTest says why a log of another plan is of another test: its base is another, or
// its shares are of something else. A plan that was only corrected is not another.
func (o Origin) sameTest() error {
	base, was := o.is.Text("base", ""), o.Outline.Text("base", "")
	basis := o.Outline.Text("basis", "")
	switch {
	case !o.Other || len(o.Outline) == 0:
	case base != was && !o.Outline.SameRecipe(was, o.is, base):
		return errors.New(anotherTest + "its base is " + was)
	case basis != o.is.Text("basis", ""):
		return errors.New(anotherTest + "its shares are of " + basis)
	}
	return nil
}
