package xlsx

import (
	"fmt"
	"strings"
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

// List lets the cells of an area choose from items, which have no commas or quotes.
func (s *Sheet) List(area Area, items []string, check Check) {
	s.Check(area, Rule{Kind: "list", First: `"` + strings.Join(items, ",") + `"`}, check)
}

// Rule is what a check compares with: first and second are formulas.
type Rule struct{ Kind, Operator, First, Second string }

// Check adds a check to the sheet. The message for an error is always set: a
// check without one refuses nothing.
func (s *Sheet) Check(area Area, r Rule, check Check) {
	if units(r.First) > maxMessage+2 {
		s.book.Fail(fmt.Errorf("sheet %q: the list of choices %.40q is too long for a check", s.Name, r.First))
	}
	text := func(attribute, text string, limit int) string {
		text, _ = Cut(clean(text), limit)
		return " " + attribute + `="` + escaped(text) + `"`
	}
	style := "stop"
	if check.Lenient {
		style = "warning"
	}
	v := fmt.Sprintf(`<dataValidation type="%s" errorStyle="%s" allowBlank="1" showInputMessage="1" showErrorMessage="1"`, r.Kind, style)
	if r.Operator != "" {
		v += ` operator="` + r.Operator + `"`
	}
	v += text("errorTitle", check.Title, maxCheckHead) + text("error", check.Message, maxMessage)
	if check.Prompt != "" {
		v += text("promptTitle", check.Title, maxCheckHead) + text("prompt", check.Prompt, maxMessage)
	}
	v += fmt.Sprintf(` sqref="%s:%s"><formula1>%s</formula1>`, Address(area.FirstColumn, area.FirstRow), Address(area.LastColumn, area.LastRow), escaped(r.First))
	if r.Second != "" {
		v += "<formula2>" + escaped(r.Second) + "</formula2>"
	}
	s.checks = append(s.checks, v+"</dataValidation>")
}
