package plan

import (
	"strings"

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
