package record

import (
	"slices"
	"strings"
)

// FiringLabel is one line of the sheet of the firing: a label, and a value to
// fill in beside it.
type FiringLabel struct {
	Label   string
	Choices []string // offered in a drop-down, nil where there are none
}

// FiringLabels are the lines of the sheet of the firing in order.
func FiringLabels() []FiringLabel {
	return []FiringLabel{
		{Label: "Kiln"},
		{Label: "Cone"},
		{Label: "Top temperature °C"},
		{Label: "Atmosphere", Choices: []string{"oxidation", "neutral", "reduction"}},
		{Label: "Schedule"},
		{Label: "Date"},
		{Label: "Fired by"},
		{Label: "Kept in"},
		{Label: "Notes"},
	}
}

// Entry is a line of the sheet of the firing that was filled in.
type Entry struct{ Label, Value string }

// firing reads the sheet of the firing: the one with the most of its labels,
// two or more. The lines that it always has come first, in their order, then
// those that a person added.
func firing(sheets []Sheet, tiles *Sheet) []Entry {
	labels := FiringLabels()
	place := map[string]int{}
	for i, l := range labels {
		place[fold(l.Label)] = i
	}
	var best []Entry
	most := 1
	for i := range sheets {
		if &sheets[i] == tiles {
			continue
		}
		known := make([][]Entry, len(labels))
		var added []Entry
		found := 0
		for _, row := range sheets[i].Rows {
			label, value := labelled(row)
			at, ok := place[fold(strings.TrimSuffix(label, ":"))]
			if ok {
				found++
			}
			switch {
			case value == "":
			case ok:
				known[at] = append(known[at], Entry{labels[at].Label, value})
			default:
				added = append(added, Entry{label, value})
			}
		}
		if found > most {
			most = found
			best = slices.Concat(slices.Concat(known...), added)
		}
	}
	return best
}
