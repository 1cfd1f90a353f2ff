package workbook

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/tealeg/xlsx/v3"
)

// area is a range of cells in a sheet, corners included. Columns are counted
// from 0, rows from 1.
type area struct{ FirstColumn, FirstRow, LastColumn, LastRow int }

// checkWords is what is said about a cell that may be typed into.
type checkWords struct {
	Title   string // of both messages, at most 32 characters
	Prompt  string // shown while the cell is chosen, may be empty
	Message string // shown when what is typed does not fit
	Lenient bool   // what does not fit is asked about, not refused
}

// List lets the cells of an area choose from items. Items that a check cannot
// hold itself (commas, quotes, more than 255 characters together) go to a
// hidden sheet.
func (s *sheet) List(area area, items []string, check checkWords) {
	if len(items) == 0 {
		s.book.fail(fmt.Errorf("sheet %q: a list of choices is empty", s.Name))
		return
	}
	r := rule{kind: "list"}
	if inlineItems(items) {
		r.first = `"` + strings.Join(items, ",") + `"`
	} else {
		row := s.book.choices(items)
		r.first = s.book.lists.Range(0, row, len(items)-1, row)
	}
	s.check(area, r, check)
}

// Between lets the cells of an area hold numbers from least to most. An
// infinite limit is no limit.
func (s *sheet) Between(area area, least, most float64, check checkWords) {
	r := rule{kind: "decimal"}
	bound := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	switch {
	case math.IsNaN(least) || math.IsNaN(most) || least > most:
		s.book.fail(fmt.Errorf("sheet %q: no number lies between %v and %v", s.Name, least, most))
		return
	case math.IsInf(least, -1) && math.IsInf(most, 1):
		r.operator, r.first = "greaterThanOrEqual", "-1E+300" // any number, but no text
	case math.IsInf(most, 1):
		r.operator, r.first = "greaterThanOrEqual", bound(least)
	case math.IsInf(least, -1):
		r.operator, r.first = "lessThanOrEqual", bound(most)
	default:
		r.operator, r.first, r.second = "between", bound(least), bound(most)
	}
	s.check(area, r, check)
}

// rule is what a check compares with: first and second are formulas.
type rule struct{ kind, operator, first, second string }

// check adds a check to the sheet. The message for an error is always set: a
// check without one refuses nothing.
func (s *sheet) check(area area, r rule, check checkWords) {
	v := xlsx.NewDataValidation(area.FirstRow-1, area.FirstColumn, area.LastRow-1, area.LastColumn, true)
	v.Type, v.Operator, v.Formula1, v.Formula2 = r.kind, r.operator, r.first, r.second
	title, _ := cut(clean(check.Title), maxCheckHead)
	message, _ := cut(clean(check.Message), maxMessage)
	style := xlsx.StyleStop
	if check.Lenient {
		style = xlsx.StyleWarning
	}
	v.SetError(style, &title, &message)
	if check.Prompt != "" {
		prompt, _ := cut(clean(check.Prompt), maxMessage)
		v.SetInput(&title, &prompt)
	}
	s.made.AddDataValidation(v)
}

// inlineItems reports whether a check can hold the items itself: it knows no
// way to write a comma or a quote, takes spaces off their ends, and takes a
// list that begins with "=" for a formula.
func inlineItems(items []string) bool {
	joined := strings.Join(items, ",")
	if units(joined) > maxMessage || strings.HasPrefix(joined, "=") {
		return false
	}
	for _, item := range items {
		if item == "" || strings.ContainsAny(item, ",\"\n\t") || strings.TrimSpace(item) != item || clean(item) != item {
			return false
		}
	}
	return true
}

// choices is the row of the hidden sheet that holds a list's items.
func (b *book) choices(items []string) int {
	if b.lists == nil {
		b.lists = b.Sheet("Choices")
		b.lists.Hide()
	}
	row := b.lists.Row()
	for _, item := range items {
		b.lists.FormattedText(lookPlain, asText, item)
	}
	return row
}
