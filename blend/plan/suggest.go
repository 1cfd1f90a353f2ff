package plan

import (
	"strings"

	"pourboard/blend"
	"pourboard/blend/spell"
)

// meant is the ending of a message about a name that is not known: the likely
// one, or the list of all.
func meant(name string, options []string) string {
	if near := spell.Nearest(name, options); near != "" {
		return "did you mean " + near + "?"
	}
	return "one of " + listed(options, "or")
}

// quoted is the options in quotes, as values are written in the file.
func quoted(options []string) []string {
	all := make([]string, len(options))
	for i, o := range options {
		all[i] = quote(o)
	}
	return all
}

// meantText is meant for a value that stands in quotes.
func meantText(name string, options []string) string {
	if near := spell.Nearest(name, options); near != "" {
		return "did you mean " + quote(near) + "?"
	}
	const most = 12
	if len(options) > most {
		return "one of " + strings.Join(quoted(options[:most]), ", ") + " …"
	}
	return "one of " + listed(quoted(options), "or")
}

// choiceMeant is meantText for a key that takes one of few words: people have
// other words for some of them.
func choiceMeant(key, name string, options []string) string {
	if other := synonym(key, name); other != "" {
		return "did you mean " + quote(other) + "?"
	}
	if key == "method" && spell.Nearest(name, options) == "" {
		return `"dose" weighs each dose, "stock" pours a suspension of the colourant, "pour" blends slips that have it mixed in`
	}
	return meantText(name, options)
}

// synonym is the word that a plan has for another one, or "".
func synonym(key, word string) string {
	switch key + " " + spell.Bare(word) {
	case "method weigh", "method weighing", "method weighed", "method weight", "method dry", "method dosing":
		return string(blend.ByDose)
	case "method suspension", "method solution", "method liquid":
		return string(blend.ByStock)
	case "method pouring", "method poured", "method blend", "method blending", "method ends":
		return string(blend.ByPour)
	case "kind lineblend", "kind linear", "kind series", "kind lineseries":
		return string(blend.Line)
	case "kind triangle", "kind triangular", "kind ternary", "kind triaxialblend", "kind triaxialseries":
		return string(blend.Triaxial)
	case "kind rectangle", "kind square", "kind grid", "kind biaxialblend", "kind biaxialseries":
		return string(blend.Biaxial)
	case "kind tetrahedron", "kind quaternary", "kind quadraxialblend":
		return string(blend.Quadraxial)
	case "scale 1:1", "scale 100%", "scale lifesize", "scale full", "scale actual", "scale actualsize":
		return string(blend.Life)
	case "scale page", "scale onepage":
		return string(blend.Fit)
	case "basis slip", "basis slipweight":
		return string(blend.Weight)
	case "basis ml":
		return string(blend.Volume)
	}
	return ""
}
