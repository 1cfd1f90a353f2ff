package quantity

import (
	"strings"

	"pourboard/blend/spell"
)

// Paper is a sheet of paper in mm, as it is fed: upright for the named sizes,
// as written for a maker's own.
type Paper struct {
	Name string // "A4", or "300 x 420 mm"
	W, H float64
}

// Papers lists the sheets that are known by name, in the order in which help
// texts name them. A sizes are those of ISO 216; Letter is ANSI A and Tabloid
// ANSI B (ASME Y14.1); Legal is US customary. Inches are 25.4 mm.
func Papers() []Paper {
	return []Paper{
		{"A5", 148, 210},
		{"A4", 210, 297},
		{"A3", 297, 420},
		{"A2", 420, 594},
		{"Letter", 215.9, 279.4},
		{"Legal", 215.9, 355.6},
		{"Tabloid", 279.4, 431.8},
	}
}

// The sides of a maker's own sheet, in mm. Below the least there is no room
// between the margins for one tile; above the most no desk printer goes.
const leastSide, mostSide = 80, 2000

// ReadPaper reads the name of a sheet ("A4", "letter") or its two sides as Size
// does, in mm when no unit is given. A text that is neither is an Error.
func ReadPaper(text string) (Paper, error) {
	text = strings.TrimSpace(text)
	var names []string
	for _, p := range Papers() {
		if strings.EqualFold(p.Name, text) {
			return p, nil
		}
		names = append(names, p.Name)
	}
	sides := text
	if strings.TrimRight(text, "0123456789") != text {
		sides += " mm"
	}
	if w, h, err := Size(sides); err == nil {
		if min(w, h) < leastSide || max(w, h) > mostSide {
			return Paper{}, &Error{Quote(text) + " is out of range",
				"sides from " + Plain(leastSide) + " to " + Plain(mostSide) + " mm"}
		}
		return Paper{Plain(w) + " x " + Plain(h) + " mm", w, h}, nil
	}
	fix := Listed(names, "or") + `, or two sides: "300 x 420 mm"`
	for _, word := range append(strings.Fields(text), text) { // "DIN A4", "US letter"
		if near := spell.Nearest(word, names); near != "" {
			fix = "did you mean " + Quote(near) + "?"
		}
	}
	return Paper{}, &Error{Quote(text) + " is not a paper size", fix}
}
