package xlsx

import (
	"regexp"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"pourboard/blend/readable"
)

// Lengths that the workbook format sets, in UTF-16 units.
const (
	maxText    = 32767 // of a cell
	maxFormula = 8192
	maxMessage = 255 // of a check's message or its list
	maxHeader  = 255 // of a header or footer
)

// units is the length of s in UTF-16 units, which is how the format counts.
func units(s string) (n int) {
	for _, r := range s {
		n += max(1, utf16.RuneLen(r))
	}
	return n
}

// Cut shortens s to at most limit UTF-16 units, the last of them an ellipsis
// where something was cut.
func Cut(s string, limit int) (short string, wasCut bool) {
	if len(s) <= limit || units(s) <= limit {
		return s, false
	}
	n := 0
	for i, r := range s {
		if n += max(1, utf16.RuneLen(r)); n > limit-1 {
			return s[:i] + "…", true
		}
	}
	return s, false
}

// clean makes s fit to be in XML: bytes that are not UTF-8 and control
// characters become U+FFFD, so that it shows that something was there. Line
// ends become line feeds; tabs stay.
func clean(s string) string {
	if !strings.ContainsFunc(s, unwelcome) && utf8.ValidString(s) {
		return s
	}
	s = strings.ReplaceAll(s, "\r\n", "\n")
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\r':
			return '\n'
		case unwelcome(r):
			return utf8.RuneError
		}
		return r
	}, s)
}

func unwelcome(r rune) bool {
	switch {
	case r == '\n', r == '\t', ' ' <= r && r <= '~': // told at once, for most are
		return false
	case r == 0xFFFE, r == 0xFFFF:
		return true
	}
	return readable.Hidden(r)
}

// escapes are those of the format, which reads _xHHHH_ as one character.
var escapes = regexp.MustCompile("_x[0-9A-Fa-f]{4}_")

// escapeUnder writes the underscore of "_x0041_" as "_x005F_". What is between two
// escapes can be part of both: "_x0041_x0042_".
func escapeUnder(s string) string {
	for from := 0; ; {
		at := escapes.FindStringIndex(s[from:])
		if at == nil {
			return s
		}
		from += at[0]
		s = s[:from] + "_x005F" + s[from:]
		from += len("_x005F_")
	}
}

// unescapeUnder reads _xHHHH_ back as the character that it stands for.
func unescapeUnder(s string) string {
	if !strings.Contains(s, "_x") { // nearly all
		return s
	}
	return escapes.ReplaceAllStringFunc(s, func(escape string) string {
		n, _ := strconv.ParseUint(escape[2:6], 16, 16)
		return string(rune(n)) // half of a surrogate pair becomes U+FFFD
	})
}

// escaped is s with the characters that XML takes for its own written out. Tabs and
// line feeds are written out too, so that no reader that normalises white space loses
// them.
func escaped(s string) string { return inXML.Replace(s) }

var inXML = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "\n", "&#10;", "\t", "&#9;")

// Quoted is s as a text inside a formula.
func Quoted(s string) string { return `"` + strings.ReplaceAll(clean(s), `"`, `""`) + `"` }
