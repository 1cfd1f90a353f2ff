package record

import (
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/mark"
)

// Carried is what a log records of the plan that it was made for. CSV says nothing.
type Carried struct {
	Fingerprint string           // empty when the log has lost it
	Outline     identity.Outline // likewise
	Amounts     identity.Amounts // by which its cups were measured
	// Letters are what its marks have behind their numbers, of a log of the first
	// version as that chose; the zero value where it does not say.
	Letters  mark.Letters
	First    bool   // the first version wrote it, which counted dry glaze with its additions
	PlanText string // the plan's file; empty where the log has none
}

// carriedLines is how many lines of an outline are read; more is no outline.
const carriedLines = 2000

// Carry reads what a log records of its plan, from all of its sheets. Letters and
// amounts are below their labels, the outline below the fingerprint.
func Carry(sheets []Sheet) Carried {
	c := Carried{PlanText: planText(sheets)}
	var letters, amounts, outline []string
	below := map[string]*[]string{fold(HeadLetters): &letters, fold(HeadAmounts): &amounts}
	for _, s := range sheets {
		var lines *[]string
		for _, row := range s.Rows {
			label, beside := labelled(row)
			head := fold(strings.TrimSuffix(label, ":"))
			switch section := below[head]; {
			case label == "":
			case section != nil && beside == nil:
				lines = section
			case beside != nil && c.Fingerprint == "" && head == fold(HeadFingerprint):
				c.Fingerprint, lines = joined(beside), &outline
			case lines != nil && len(*lines) < carriedLines:
				*lines = append(*lines, strings.TrimSpace(label+" "+joined(beside)))
			}
		}
	}
	if c.Fingerprint == "" { // what is below such a label is something else
		amounts = nil
	}
	c.Outline, c.Amounts = identity.ReadOutline(outline), identity.ReadAmounts(amounts)
	var ok bool
	if c.Letters, ok = mark.ParseLetters(letters); !ok {
		if bodies, repeats := c.Outline.Tiles(); len(bodies) > 0 {
			c.First, c.Letters = letters == nil, mark.Earlier(bodies, repeats)
		}
	}
	return c
}

// PlanCodes are the fingerprints in the column of plan codes, each once: all that
// a CSV says of its plan.
func PlanCodes(sheets []Sheet) (codes []string) {
	for _, s := range sheets {
		column := -1
		for _, row := range s.Rows {
			if slices.ContainsFunc(row.Cells, func(c Cell) bool { return c.says(HeadMark) }) {
				column = slices.IndexFunc(row.Cells, func(c Cell) bool { return c.says(HeadPlan) })
				continue
			}
			if code := row.cell(column).text(); code != "" && !slices.Contains(codes, code) {
				codes = append(codes, code)
			}
		}
	}
	return codes
}

// planText is the text of the plan that a log carries. A line that a program
// would take for a formula has an apostrophe before it, which is not of the plan.
func planText(sheets []Sheet) string {
	var b strings.Builder
	for _, s := range sheets {
		if fold(s.Name) != fold(SheetText) {
			continue
		}
		last := 0
		for _, row := range s.Rows {
			b.WriteString(strings.Repeat("\n", max(0, row.Number-last-1))) // empty lines
			last = row.Number
			line := row.cell(0).Text
			if rest, ok := strings.CutPrefix(line, "'"); ok && rest != "" && strings.ContainsRune("=+-@", rune(rest[0])) {
				line = rest
			}
			b.WriteString(line + "\n")
		}
	}
	return b.String()
}

// AsMeasured is a test with its cups as the amounts of the log measured them; the
// test itself where the log has none, or the same. A log of the first version
// counted dry glaze with its additions: its cups have the pours and the doses that
// this gave. It is an error where the plan cannot be measured by these amounts.
func (c Carried) AsMeasured(t *blend.Test) (*blend.Test, error) {
	if c.Amounts == nil || !c.First && identity.Same(c.Amounts, identity.AmountsOf(t.Plan)) {
		return t, nil
	}
	p := c.Amounts.In(t.Plan)
	if !c.First {
		return blend.New(p)
	}
	first, err := blend.New(withoutAdditions(p))
	if err != nil {
		return nil, err
	}
	p.Have = nil // the size that they gave was counted otherwise
	as, err := blend.New(p)
	if err != nil {
		return nil, err
	}
	var done []blend.Done
	for _, cell := range first.Cells {
		d := blend.Done{Cup: cell.Number, Poured: map[int]float64{}, Dosed: map[int]float64{}}
		for i, pour := range cell.Pours {
			d.Poured[i] = pour.Got.Shown(p.Kit)
		}
		for i, dose := range cell.Doses {
			if d.Dosed[i] = dose.MeasuredG; p.Blend.Method == blend.ByStock {
				d.Dosed[i] = dose.MeasuredML
			}
		}
		done = append(done, d)
	}
	return as.AsDone(done), nil
}

// withoutAdditions is a plan whose additions are counted among the recipes.
func withoutAdditions(p *blend.Plan) *blend.Plan {
	q := *p
	q.Glazes = make([]blend.Glaze, len(p.Glazes))
	for i, g := range p.Glazes {
		sum := 0.0
		for _, part := range g.Recipe {
			sum += part.Percent
		}
		parts := append([]blend.Part(nil), g.Recipe...)
		for _, part := range g.Additions { // they are over 100 of the recipe
			parts = append(parts, blend.Part{Material: part.Material, Percent: part.Percent * sum / 100})
		}
		g.Recipe, g.Additions = parts, nil
		q.Glazes[i] = g
	}
	return &q
}
