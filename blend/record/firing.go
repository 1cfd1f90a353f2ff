package record

import (
	"maps"
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

// Firing is what a log records of one firing.
type Firing struct {
	Letter  string  // FirstFiring, B, …
	Entries []Entry // filled in, in the order of the sheet
}

// firingName is a firing's letter as it was typed.
func firingName(text string) string { return strings.ToUpper(strings.TrimSpace(text)) }

// firings reads the sheet of the firings: of those with two or more of its
// labels, the one with the most.
func firings(sheets []Sheet, tiles *Sheet) (best []Firing) {
	most := 1
	for _, s := range sheets {
		if s.Name == tiles.Name {
			continue
		}
		if all, found := firingsIn(s); found > most {
			most, best = found, all
		}
	}
	return best
}

// firingsIn reads a sheet as that of the firings; found is how many of the
// labels it has. A row that begins with HeadFiring has the letters of the firings,
// each above its column; without one all is of the first.
func firingsIn(s Sheet) (all []Firing, found int) {
	labels := map[string]string{} // by folded label
	for _, l := range FiringLabels() {
		labels[fold(l.Label)] = l.Label
	}
	entries := map[string][]Entry{} // by letter
	var letters map[int]string      // by column
	for _, row := range s.Rows {
		label, beside := labelled(row)
		if found == 0 && beside != nil && fold(label) == fold(HeadFiring) {
			letters = firingColumns(row)
			continue
		}
		if known, ok := labels[fold(strings.TrimSuffix(label, ":"))]; ok {
			found++
			label = known
		}
		if beside != nil && letters == nil {
			entries[FirstFiring] = append(entries[FirstFiring], Entry{label, joined(beside)})
		}
		for i, cell := range row.Cells {
			if letter, ok := letters[i]; ok && beside != nil && cell.readable() {
				entries[letter] = append(entries[letter], Entry{label, cell.text()})
			}
		}
	}
	for _, letter := range slices.Sorted(maps.Keys(entries)) {
		all = append(all, Firing{letter, entries[letter]})
	}
	return all, found
}

// firingColumns are the letters of firings in a row, by column.
func firingColumns(row Row) map[int]string {
	letters := map[int]string{}
	for i, cell := range row.Cells {
		if text := cell.text(); text != "" && !cell.says(HeadFiring) {
			letters[i] = firingName(text)
		}
	}
	return letters
}

// Value is what was entered beside a label, "" for nothing.
func (f Firing) Value(label string) string {
	for _, e := range f.Entries {
		if strings.EqualFold(e.Label, label) {
			return e.Value
		}
	}
	return ""
}

// Firings are the firings of a test.
type Firings []Firing

// Of is what is recorded of the firing of a letter, without entries where nothing
// is.
func (all Firings) Of(letter string) Firing {
	for _, f := range all {
		if f.Letter == letter {
			return f
		}
	}
	return Firing{Letter: letter}
}
