package identity

import (
	"strings"

	"pourboard/blend"
)

// Reordered is a list of the design, the steps of a series or the cups of a
// list, in which cups have come since a log was made.
type Reordered struct {
	Label, Name string // of its matter: "series" and its material, or "cells"
	Kept        int    // so many cups of the log, from the first, still have their number
	Shifted     bool   // others have another
}

// Reorderings is, for a line with a series and for a list, which cups still have
// the number that a log has for them. Other designs number their cups by their
// shape.
func Reorderings(was, is Outline) []Reordered {
	kind := is.Text("kind", "")
	if kind != was.Text("kind", "") || kind != string(blend.Line) && kind != string(blend.List) {
		return nil
	}
	// Cups that are made again are numbered after the last.
	repeats := was.Text("repeat", "") != ""
	var all []Reordered
	for _, m := range is {
		if m.Label != "series" && (m.Label != "cells" || kind != string(blend.List)) {
			continue
		}
		text := was.Text(m.Label, m.Name)
		if text == "" || text == m.Text {
			continue
		}
		old, now := entries(text), entries(m.Text)
		r := Reordered{Label: m.Label, Name: m.Name}
		for r.Kept < min(len(old), len(now)) && old[r.Kept] == now[r.Kept] {
			r.Kept++
		}
		r.Shifted = r.Kept < len(old) || repeats && len(now) != len(old)
		all = append(all, r)
	}
	return all
}

// entries parts the text of a matter: the cups of a list at their brackets.
func entries(text string) []string {
	if inner, ok := strings.CutPrefix(text, "["); ok {
		return strings.Split(strings.TrimSuffix(inner, "]"), "], [")
	}
	return strings.Split(text, ", ")
}
