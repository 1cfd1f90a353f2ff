package record

import (
	"slices"
	"strings"

	"pourboard/blend/identity"
)

// Origin says which plan a log was made for, by the fingerprint that it
// carries. A log of another plan is read as far as its marks still mean the
// same; whether a recipe that was changed is a recipe that was corrected is for
// a person to say who knows.
type Origin struct {
	Fingerprint string   // of the plan that the log was made for; empty when it carries none
	Other       bool     // it is that of another plan
	Coded       bool     // the rows of tiles say so too
	Outline     []string // of the plan that the log was made for
	Was, Is     []string // lines of the two outlines that the other lacks: of the log's, of the plan's

	plan string // fingerprint of the plan
}

// of reports whether a row's plan code is that of the log.
func (o Origin) of(code string) bool {
	if o.Fingerprint != "" {
		return fold(code) == fold(o.Fingerprint)
	}
	return fold(code) == fold(o.plan)
}

// outlineLines is how many lines of an outline are read; more is no outline.
const outlineLines = 2000

// origin finds the fingerprint that a log carries, or that all its rows do, and
// compares it with the plan's.
func (r *reader) origin(sheets []Sheet, fingerprint string, outline []string) Origin {
	o := Origin{plan: fingerprint}
	o.Fingerprint, o.Outline = Carried(sheets)
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
	if o.Fingerprint == "" || fold(o.Fingerprint) == fold(fingerprint) {
		return o
	}
	o.Other = true
	if o.Outline == nil {
		return o
	}
	for _, line := range o.Outline {
		if !slices.Contains(outline, line) {
			o.Was = append(o.Was, line)
		}
	}
	for _, line := range outline {
		if !slices.Contains(o.Outline, line) {
			o.Is = append(o.Is, line)
		}
	}
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
	for _, m := range identity.ReadOutline(o.Was) {
		notes = append(notes, "made for: "+m.Said())
	}
	for _, m := range identity.ReadOutline(o.Is) {
		notes = append(notes, "the plan is now: "+m.Said())
	}
	return notes
}

// Carried is what a log says of the plan that it was made for: the fingerprint
// that stands beside its label in any sheet, and the outline, the lines below
// it. Both are empty when the log has lost them.
func Carried(sheets []Sheet) (fingerprint string, outline []string) {
	for _, s := range sheets {
		for i, row := range s.Rows {
			if !isLabelled(row, HeadFingerprint) {
				continue
			}
			_, value := labelled(row)
			if value == "" {
				continue
			}
			for _, below := range s.Rows[i+1 : min(len(s.Rows), i+1+outlineLines)] {
				if line, rest := labelled(below); line != "" {
					if rest != "" {
						line += " " + rest
					}
					outline = append(outline, line)
				}
			}
			return value, outline
		}
	}
	return "", nil
}

// CarriedAmounts is what a log says of the amounts that it was made for: the
// lines between their label and that of the fingerprint. It is empty when there
// are none, as in a log of an earlier version or as CSV.
func CarriedAmounts(sheets []Sheet) (lines []string) {
	for _, s := range sheets {
		for i, row := range s.Rows {
			if !isLabelled(row, HeadAmounts) {
				continue
			}
			if _, value := labelled(row); value != "" {
				continue
			}
			for _, below := range s.Rows[i+1 : min(len(s.Rows), i+1+outlineLines)] {
				line, _ := labelled(below)
				if sameFold(line, HeadFingerprint) {
					return lines
				}
				if line != "" {
					lines = append(lines, line)
				}
			}
			lines = nil // without the label of the fingerprint it is something else
		}
	}
	return nil
}

// labelled is the first text of a row and what stands beside it.
func labelled(row Row) (label, value string) {
	first := slices.IndexFunc(row.Cells, Cell.hasText)
	if first < 0 {
		return "", ""
	}
	var beside []string
	for _, cell := range row.Cells[first+1:] {
		if cell.hasText() {
			beside = append(beside, cell.text())
		}
	}
	return row.Cells[first].text(), strings.Join(beside, " ")
}

// isLabelled reports whether the first text of a row is a label, with or without
// a colon.
func isLabelled(row Row, label string) bool {
	first := slices.IndexFunc(row.Cells, Cell.hasText)
	return first >= 0 && sameFold(strings.TrimSuffix(row.Cells[first].text(), ":"), label)
}

func (c Cell) hasText() bool { return !c.blank() && c.Kind != Fault && c.Kind != Stale }
