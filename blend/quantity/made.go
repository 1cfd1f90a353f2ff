package quantity

import (
	"slices"
	"strings"
)

// Nothing is what is printed of an amount of nothing that was asked for.
const Nothing = "none"

// MadeText is a dose as it was made in percent, in few digits: "0.83", "4.1", "none".
func MadeText(percent float64) string {
	decimals := 1
	switch {
	case percent == 0:
		return Nothing
	case percent < 0.095:
		decimals = 3
	case percent < 0.95:
		decimals = 2
	}
	return AtMost(percent, decimals)
}

// AskedAndMade is a percentage on a tile's label: "0.5 %", or, where
// it is off target, "0.5 % asked, 0.83 made".
func AskedAndMade(asked, made string, off bool) string {
	if !off {
		return asked + " %"
	}
	return asked + " % asked, " + made + " made"
}

// Brief is AskedAndMade where there is little room: what was made where that is
// off target, otherwise what was asked.
func Brief(asked, made string, off bool) string {
	switch {
	case !off:
		return asked + " %"
	case made == Nothing:
		return Nothing
	}
	return made + " %"
}

// Held is a percentage as AskedAndMade has it, with the name of what it is of:
// "0.25 % Cobalt carbonate asked, none made".
func Held(text, name string) string {
	percent, rest, _ := strings.Cut(text, "%")
	return percent + "% " + name + rest
}

// Together joins what a cup holds to one line.
func Together(parts []string) string {
	if slices.ContainsFunc(parts, func(part string) bool { return strings.Contains(part, " asked, ") }) {
		return strings.Join(parts, "; ")
	}
	return strings.Join(parts, ", ")
}
