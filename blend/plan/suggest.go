package plan

import "strings"

// nearest is the option that name was most likely meant to be, or "" when none
// is near.
func nearest(name string, options []string) string {
	const longest = 80 // beyond it a slip of the finger is not what is wrong
	if len(name) > longest {
		return ""
	}
	plain := bare(name)
	best, least := "", 1+min(3, len([]rune(plain))/3)
	for _, option := range options {
		if len(option) > longest {
			continue
		}
		// Of two that are equally near, the one that only goes on longer.
		d := slips(plain, bare(option), least+1)
		if d < least || d == least && best != "" && strings.HasPrefix(bare(option), plain) {
			best, least = option, d
		}
	}
	return best
}

// bare leaves out what people write now so, now so: case, blanks and hyphens.
func bare(s string) string {
	return strings.NewReplacer(" ", "", "-", "", "_", "").Replace(strings.ToLower(s))
}

// slips is how many letters have to be changed, put in, left out or swapped
// with their neighbour to make b of a; enough or more is given as enough.
func slips(a, b string, enough int) int {
	ra, rb := []rune(a), []rune(b)
	if d := len(ra) - len(rb); d >= enough || -d >= enough {
		return enough
	}
	before := make([]int, len(rb)+1)
	last := make([]int, len(rb)+1)
	row := make([]int, len(rb)+1)
	for j := range last {
		last[j] = j
	}
	for i := range ra {
		row[0] = i + 1
		for j := range rb {
			d := last[j]
			if ra[i] != rb[j] {
				d++
			}
			d = min(d, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && ra[i] == rb[j-1] && ra[i-1] == rb[j] {
				d = min(d, before[j-1]+1)
			}
			row[j+1] = d
		}
		before, last, row = last, row, before
	}
	return min(last[len(rb)], enough)
}

// meant is the ending of a message about a name that is not known: the likely
// one, or the list of all.
func meant(name string, options []string) string {
	if near := nearest(name, options); near != "" {
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
	if near := nearest(name, options); near != "" {
		return "did you mean " + quote(near) + "?"
	}
	const most = 12
	if len(options) > most {
		return "one of " + strings.Join(quoted(options[:most]), ", ") + " …"
	}
	return "one of " + listed(quoted(options), "or")
}
