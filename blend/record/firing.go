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

// Firing is what a log says of one firing.
type Firing struct {
	Letter  string  // FirstFiring, B, …
	Entries []Entry // filled in: the lines that there always are in their order, then those that a person added
}

// firingName is a firing's letter as it was typed.
func firingName(text string) string { return strings.ToUpper(strings.TrimSpace(text)) }

// firings reads the sheet of the firings: of those with two or more of its
// labels, the one with the most. In a row that begins with HeadFiring stand the
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
	place := map[string]int{}
	for i, l := range labels {
		place[fold(l.Label)] = i
	}
	letters := map[int]string{} // by column
	known := map[string][]Entry{}
	added := map[string][]Entry{}
	var order []string
	note := func(to map[string][]Entry, letter string, e Entry) {
		if !slices.Contains(order, letter) {
			order = append(order, letter)
		}
		to[letter] = append(to[letter], e)
	}
	for _, row := range s.Rows {
		label, value := labelled(row)
		if value != "" && len(value) < 100 && found == 0 && sameFold(label, HeadFiring) {
			for column, cell := range row.Cells {
				if text := cell.text(); text != "" && fold(text) != fold(HeadFiring) {
					letters[column] = firingName(text)
				}
			}
			continue
		}
		at, ok := place[fold(strings.TrimSuffix(label, ":"))]
		e := Entry{Label: label}
		to := added
		if ok {
			found++
			e.Label, to = labels[at].Label, known
		}
		if value == "" {
			continue
		}
		if len(letters) == 0 {
			e.Value = value
			note(to, FirstFiring, e)
			continue
		}
		for column, cell := range row.Cells {
			letter, there := letters[column]
			if there && !cell.blank() && cell.Kind != Fault && cell.Kind != Stale {
				e.Value = cell.text()
				note(to, letter, e)
			}
		}
	}
	slices.Sort(order)
	for _, letter := range order {
		slices.SortStableFunc(known[letter], func(a, b Entry) int { return place[fold(a.Label)] - place[fold(b.Label)] })
		all = append(all, Firing{letter, slices.Concat(known[letter], added[letter])})
	}
	return all, found
}

// Firing is what the log says of the firing of a letter, nil where it says
// nothing.
func (l *Log) Firing(letter string) []Entry {
	for _, f := range l.Firings {
		if f.Letter == letter {
			return f.Entries
		}
	}
	return nil
}
