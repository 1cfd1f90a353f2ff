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

// Firing is what a log records of one firing.
type Firing struct {
	Letter  string  // FirstFiring, B, …
	Entries []Entry // filled in: the lines that there always are in their order, then those that a person added
}

// firingName is a firing's letter as it was typed.
func firingName(text string) string { return strings.ToUpper(strings.TrimSpace(text)) }

// firings reads the sheet of the firings: of those with two or more of its
// labels, the one with the most. A row that begins with HeadFiring has the
// letters of the firings, each above its column; without one all is of the first.
func firings(sheets []Sheet, tiles string) []Firing {
	var best []Firing
	most := 1
	for _, s := range sheets {
		if s.Name == tiles {
			continue
		}
		if all, found := firingsIn(s); found > most {
			most, best = found, all
		}
	}
	return best
}

// firingsIn reads a sheet as that of the firings; found is how many of the
// labels it has.
func firingsIn(s Sheet) (all []Firing, found int) {
	labels := FiringLabels()
	places := make([]map[string][]Entry, len(labels)+1) // by label, what a person added last; by letter
	for i := range places {
		places[i] = map[string][]Entry{}
	}
	var named []string
	letters := map[int]string{} // by column
	for _, row := range s.Rows {
		label, beside := labelled(row)
		if found == 0 && sameFold(label, HeadFiring) && beside != nil && len(joined(beside)) < 100 {
			for i := range row.Cells {
				if text := row.Cells[i].text(); text != "" && fold(text) != fold(HeadFiring) {
					letters[i] = firingName(text)
				}
			}
			continue
		}
		at := slices.IndexFunc(labels, func(l FiringLabel) bool { return sameFold(strings.TrimSuffix(label, ":"), l.Label) })
		if at >= 0 {
			found++
			label = labels[at].Label
		} else {
			at = len(labels)
		}
		for letter, value := range valuesByLetter(row, beside, letters) {
			named = append(named, letter)
			places[at][letter] = append(places[at][letter], Entry{label, value})
		}
	}
	slices.Sort(named)
	for _, letter := range slices.Compact(named) {
		f := Firing{Letter: letter}
		for _, place := range places {
			f.Entries = append(f.Entries, place[letter]...)
		}
		all = append(all, f)
	}
	return all, found
}

// valuesByLetter are what is in a row for each firing: in its column, or, where
// the sheet names no firings, all of it for the first.
func valuesByLetter(row Row, beside []Cell, letters map[int]string) map[string]string {
	values := map[string]string{}
	switch {
	case beside == nil:
	case len(letters) == 0:
		values[FirstFiring] = joined(beside)
	default:
		for i, cell := range row.Cells {
			if letter, ok := letters[i]; ok && cell.hasText() {
				values[letter] = cell.text()
			}
		}
	}
	return values
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

// Firing is what the log records of the firing of a letter, without entries where
// it says nothing.
func (l *Log) Firing(letter string) Firing {
	for _, f := range l.Firings {
		if f.Letter == letter {
			return f
		}
	}
	return Firing{Letter: letter}
}
