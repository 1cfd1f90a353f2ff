package wording

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// skippedLine is the line of doses too small to be measured.
func skippedLine(n blend.SkippedDoses) Line {
	fix := enough(n.Enough)
	if n.Method == blend.ByDose || n.Method == blend.ByWeigh {
		fix = "use a " + n.Finer.String() + " scale"
	}
	return line(quantity.Cups(n.Cups, mostCups), "no "+n.Material+": "+tooLittle(n), identicalThen(n), fix)
}

// SkippedDoses lists, for each series, the doses too small to be measured, in
// which cups, and which cups those are identical to then.
func SkippedDoses(t *blend.Test) []string {
	var texts []string
	for _, n := range blend.NotesOf[blend.SkippedDoses](t) {
		get := "get"
		if len(n.Cups) == 1 {
			get = "gets"
		}
		text := fmt.Sprintf("%s %s no %s: %s.", capital(quantity.Cups(n.Cups, 60)), get, n.Material, tooLittle(n))
		if then := identicalThen(n); then != "" {
			text += " " + capital(then) + "."
		}
		texts = append(texts, text)
	}
	return texts
}

// tooLittle says why doses are skipped.
func tooLittle(n blend.SkippedDoses) string {
	of := quantity.PercentText(n.Most.Percent) + " %"
	if !n.Alike {
		of = "up to " + of
	}
	switch n.Method {
	case blend.ByPour:
		return of + " is too little for the pours that would bring it"
	case blend.ByStock:
		return fmt.Sprintf("a %s syringe cannot measure %s mL of stock (%s)", n.Step, quantity.Significant(n.Most.ML, 3), of)
	}
	return fmt.Sprintf("a %s scale cannot weigh %s g (%s)", n.Step, quantity.Significant(n.Most.G, 3), of)
}

// identicalThen says which cups those without a dose are identical to, if any:
// "cup 2 is then identical to cup 1".
func identicalThen(n blend.SkippedDoses) string {
	var these, those []int
	for _, pair := range n.Twins {
		these, those = append(these, pair[0]), append(those, pair[1])
	}
	switch {
	case these == nil:
		return ""
	case len(these) == 1:
		return fmt.Sprintf("cup %d is then identical to cup %d", these[0], those[0])
	}
	subject, as, order := "they are", quantity.Cups(slices.Compact(slices.Clone(those)), 60), ""
	if len(these) < len(n.Cups) {
		subject = quantity.Cups(these, 60) + " are"
	}
	if !slices.IsSorted(those) { // Cups is for those in order
		as = "cups " + strings.Trim(strings.ReplaceAll(fmt.Sprint(those), " ", ", "), "[]")
	}
	if as != quantity.Cups(those[:1], 1) {
		order = ", in this order"
	}
	return subject + " then identical to " + as + order
}
