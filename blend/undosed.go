package blend

import (
	"fmt"
	"slices"
	"strings"
)

// A dose that is less than half a step of its instrument is not dosed: "0 g" is
// nothing that a person can weigh, and a box to tick beside it makes believe
// that the cup has it. Whatever is printed of such a dose asks Dose.None, and
// says it with the texts below.

// None reports that a dose is asked and none of it is measured, because it is
// too little for the instrument.
func (d Dose) None() bool { return d.Percent > 0 && d.MeasuredG == 0 }

// undosed is the cells, by number, that get none of a series' material though
// the plan asks for some.
func (t *Test) undosed(series int) []int {
	var all []int
	for _, c := range t.Cells {
		if c.Doses[series].None() {
			all = append(all, c.Number)
		}
	}
	return all
}

// UndosedTexts says of each series what is too little to be dosed, in which
// cups, and what they are made of then: "Cups 2, 7 get no Cobalt carbonate:
// 0.25 % is 0.30 g, too little for a scale of 1 g, so it is NOT dosed. They are
// then the same glaze as cups 1, 6, in this order." There is no text of
// a series of which all can be dosed.
func (t *Test) UndosedTexts() []string {
	var texts []string
	for s, series := range t.Plan.Blend.Series {
		cells := t.undosed(s)
		if cells == nil {
			continue
		}
		get := "get"
		if len(cells) == 1 {
			get = "gets"
		}
		text := fmt.Sprintf("%s %s no %s: %s, so it is NOT dosed.", upper(Numbers(cells, 60)), get, series.Material, t.tooLittle(s, cells))
		if then := t.sameThen(cells); then != "" {
			text += " " + upper(then) + "."
		}
		texts = append(texts, text)
	}
	return texts
}

// tooLittle says why nothing of a series gets into these cells.
func (t *Test) tooLittle(series int, cells []int) string {
	var most Dose
	alike := true
	for i, n := range cells {
		d := t.Cells[n-1].Doses[series]
		alike = alike && (i == 0 || d.Percent == most.Percent)
		if d.Percent > most.Percent {
			most = d
		}
	}
	of, is := PercentText(most.Percent)+" %", "is"
	if !alike {
		of, is = "what is asked, up to "+of+",", "is at most"
	}
	switch t.Plan.Blend.Method {
	case ByPour:
		return of + " is too little for the pours that would bring it"
	case ByStock:
		return fmt.Sprintf("%s %s %s mL of stock, too little for a %s", of, is, figures(most.ML), t.DoseInstrument())
	}
	return fmt.Sprintf("%s %s %s g, too little for a %s", of, is, figures(most.G), t.DoseInstrument())
}

// sameThen says which cells those without a dose are made like, if any: "cup 2
// is then the same glaze as cup 1".
func (t *Test) sameThen(cells []int) string {
	var these, those []int
	twins := t.twins()
	for _, n := range cells {
		if twin := twins[n-1]; twin != 0 {
			these, those = append(these, n), append(those, twin)
		}
	}
	switch {
	case these == nil:
		return ""
	case len(these) == 1:
		return fmt.Sprintf("cup %d is then the same glaze as cup %d", these[0], those[0])
	}
	subject, as, order := "they are", Numbers(slices.Compact(slices.Clone(those)), 60), ""
	if len(these) < len(cells) {
		subject = Numbers(these, 60) + " are"
	}
	if !slices.IsSorted(those) { // Numbers is for those in order
		as = "cups " + strings.Trim(strings.ReplaceAll(fmt.Sprint(those), " ", ", "), "[]")
	}
	if as != Numbers(those[:1], 1) {
		order = ", in this order"
	}
	return subject + " then the same glaze as " + as + order
}

// twins is, by index of the cell, the number of another that is made alike
// though it was asked otherwise, 0 where there is none: the first that gets all
// that it was asked to have, else the first.
func (t *Test) twins() []int {
	twins := make([]int, len(t.Cells))
	whole := func(n int) bool { return !slices.ContainsFunc(t.Cells[n-1].Doses, Dose.None) }
	for _, group := range t.MadeAlike() {
		first := group[max(0, slices.IndexFunc(group, whole))]
		for _, n := range group {
			switch {
			case n != first:
				twins[n-1] = first
			case first == group[0]:
				twins[n-1] = group[1]
			default:
				twins[n-1] = group[0]
			}
		}
	}
	return twins
}

// upper is a text with a capital at its beginning.
func upper(text string) string { return strings.ToUpper(text[:1]) + text[1:] }
