package crate

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
		{Label: "Notes"},
	}
}
