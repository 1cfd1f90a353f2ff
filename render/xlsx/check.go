package xlsx

import (
	"fmt"
	"strings"
)

// List offers items, which have no commas or quotes, in the cells from one to another of
// a column or row. Other words may be typed as well.
func (s *Sheet) List(first, last string, items []string) {
	list := `"` + strings.Join(items, ",") + `"`
	if units(list) > maxMessage+2 {
		s.book.Fail(fmt.Errorf("sheet %q: the list of choices %.40q is too long for a check", s.Name, list))
	}
	s.check(`type="list"`, first+":"+last, list, "")
}

// Between refuses to have typed into a cell what is no number from one to another, which
// are formulas. The prompt shows while the cell is chosen, the message where what is
// typed does not fit.
func (s *Sheet) Between(cell, least, most, prompt, message string) {
	text := func(attribute, text string) string {
		text, _ = Cut(clean(text), maxMessage)
		return fmt.Sprintf(` %sTitle="Not possible" %[1]s="%s"`, attribute, escaped(text))
	}
	shown := `type="decimal" showInputMessage="1" showErrorMessage="1"`
	s.check(shown+text("error", message)+text("prompt", prompt), cell, least, most)
}

// check adds a check to the sheet, with one formula or two.
func (s *Sheet) check(attributes, cells, first, second string) {
	check := fmt.Sprintf(`<dataValidation %s allowBlank="1" sqref="%s"><formula1>%s</formula1>`,
		attributes, cells, escaped(first))
	if second != "" {
		check += "<formula2>" + escaped(second) + "</formula2>"
	}
	s.checks = append(s.checks, check+"</dataValidation>")
}
