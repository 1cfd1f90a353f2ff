package record

import "strings"

// PlanText is the text of the plan that a log carries, empty where it carries
// none. A line that a program would take for a formula has an apostrophe
// before it, which is not of the plan.
func PlanText(sheets []Sheet) string {
	var b strings.Builder
	for _, s := range sheets {
		if fold(s.Name) != fold(SheetText) {
			continue
		}
		last := 0
		for _, row := range s.Rows {
			for ; last+1 < row.Number; last++ { // empty lines
				b.WriteByte('\n')
			}
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
