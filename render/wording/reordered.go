package wording

import (
	"fmt"
	"strings"

	"pourboard/blend/identity"
)

// Reordered says which cups kept the number that a log has for them, a line for
// each list, and how the plan is written so that all keep it.
func Reordered(lists []identity.Reordered, log string) []Line {
	var lines []Line
	for _, r := range lists {
		place, key := "cells", "cells"
		if r.Label == "series" {
			place, key = "series of "+r.Name, "percent"
		}
		if !r.Shifted {
			lines = append(lines, Line{Place: place, What: fmt.Sprintf("cups after cup %d are new since %s was made", r.Kept, log),
				Why: "the others keep their marks"})
			continue
		}
		fix := "put new cups into a plan of their own, with another mark"
		if r.Order != nil {
			fix = key + " = [" + strings.ReplaceAll(strings.Join(r.Order, ", "), " %", "") + "] keeps every mark"
		}
		lines = append(lines, line(place, fmt.Sprintf("cups after cup %d have other numbers than in %s", r.Kept, log),
			"tiles painted already would be read as other cups", fix))
	}
	return lines
}
