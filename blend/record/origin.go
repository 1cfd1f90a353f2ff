package record

import "pourboard/blend/identity"

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
	if o.Fingerprint != "" {
		return fold(code) == fold(o.Fingerprint)
	}
	return fold(code) == fold(o.code)
}

// origin holds what a log carries, or what all its rows do, against the plan.
func (r *reader) origin(c Carried) Origin {
	o := Origin{Carried: c, is: identity.OutlineOf(r.test.Plan), code: identity.Fingerprint(r.test.Plan)}
	codes := map[string]bool{}
	for _, t := range r.tables {
		for i := t.head + 1; i < t.to; i++ {
			if code := t.cell(r.columns, t.sheet.Rows[i], PlanField).text(); code != "" {
				codes[code] = true
				o.Coded = true
			}
		}
	}
	if len(codes) == 1 && o.Fingerprint == "" {
		for code := range codes {
			o.Fingerprint = code
		}
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
