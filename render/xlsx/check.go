package xlsx

import (
	"fmt"
	"strings"

	tealeg "github.com/tealeg/xlsx/v3"
)

// Area is a range of cells in a sheet, corners included. Columns are counted
// from 0, rows from 1.
type Area struct{ FirstColumn, FirstRow, LastColumn, LastRow int }

// CellArea is the area of one cell.
func CellArea(column, row int) Area { return Area{column, row, column, row} }

// Check is the rule and the prompt of a cell that may be typed into.
type Check struct {
	Title   string // of both messages, at most 32 characters
	Prompt  string // shown while the cell is chosen, may be empty
	Message string // shown when what is typed does not fit
	Lenient bool   // what does not fit is asked about, not refused
}

// List lets the cells of an area choose from items. Items that a check cannot
// hold itself (commas, quotes, more than 255 characters together) go to a
// hidden sheet.
func (s *Sheet) List(area Area, items []string, check Check) {
	if len(items) == 0 {
		s.book.Fail(fmt.Errorf("sheet %q: a list of choices is empty", s.Name))
		return
	}
	r := Rule{Kind: "list"}
	if inlineItems(items) {
		r.First = `"` + strings.Join(items, ",") + `"`
	} else {
		row := s.book.choices(items)
		r.First = s.book.lists.Range(0, row, len(items)-1, row)
	}
	s.Check(area, r, check)
}

// Rule is what a check compares with: first and second are formulas.
type Rule struct{ Kind, Operator, First, Second string }

// Check adds a check to the sheet. The message for an error is always set: a
// check without one refuses nothing.
func (s *Sheet) Check(area Area, r Rule, check Check) {
	v := tealeg.NewDataValidation(area.FirstRow-1, area.FirstColumn, area.LastRow-1, area.LastColumn, true)
	v.Type, v.Operator, v.Formula1, v.Formula2 = r.Kind, r.Operator, r.First, r.Second
	title, _ := Cut(clean(check.Title), maxCheckHead)
	message, _ := Cut(clean(check.Message), maxMessage)
	style := tealeg.StyleStop
	if check.Lenient {
		style = tealeg.StyleWarning
	}
	v.SetError(style, &title, &message)
	if check.Prompt != "" {
		prompt, _ := Cut(clean(check.Prompt), maxMessage)
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
func (b *Book) choices(items []string) int {
	if b.lists == nil {
		b.lists = b.Sheet("Choices")
		b.lists.hide()
	}
	row := b.lists.Row()
	for _, item := range items {
		b.lists.FormattedText(Plain, AsText, item)
	}
	return row
}
