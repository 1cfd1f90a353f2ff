package xlsx

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"pourboard/blend/readable"
)

// Lengths that the workbook format sets, in UTF-16 units.
const (
	maxText      = 32767 // of a cell
	maxSheetName = 31
	maxFormula   = 8192
	maxMessage   = 255 // of a check's message or its list
	maxCheckHead = 32  // of a check's title
	maxHeader    = 255 // of a header or footer
)

// units is the length of s in UTF-16 units, which is how the format counts.
func units(s string) int {
	n := 0
	for _, r := range s {
		n += runeUnits(r)
	}
	return n
}

func runeUnits(r rune) int {
	if r > 0xFFFF {
		return 2
	}
	return 1
}

// Cut shortens s to at most limit UTF-16 units, the last of them an ellipsis
// where something was cut.
func Cut(s string, limit int) (short string, wasCut bool) {
	if len(s) <= limit || units(s) <= limit {
		return s, false
	}
	n := 0
	for i, r := range s {
		if n+runeUnits(r) > limit-1 {
			return s[:i] + "…", true
		}
		n += runeUnits(r)
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
	switch r {
	case '\n', '\t':
		return false
	case 0xFFFE, 0xFFFF:
		return true
	}
	return readable.Hidden(r)
}

// escapeUnder writes the underscore of "_x0041_" as "_x005F_", for a
// spreadsheet program reads _xHHHH_ as one character.
func escapeUnder(s string) string {
	return replaceEscapes(s, func(b *strings.Builder, _ string) (taken int) {
		b.WriteString("_x005F_")
		return 1
	})
}

// unescapeUnder reads _xHHHH_ back as the character that it stands for.
func unescapeUnder(s string) string {
	return replaceEscapes(s, func(b *strings.Builder, escape string) (taken int) {
		r := rune(0)
		for _, c := range []byte(escape[2:6]) {
			r = r<<4 | rune(hexValue(c))
		}
		b.WriteRune(r) // half of a surrogate pair becomes U+FFFD
		return len(escape)
	})
}

// replaceEscapes puts something in the place of each _xHHHH_ in s; write says
// how many bytes of it that is for.
func replaceEscapes(s string, write func(b *strings.Builder, escape string) (taken int)) string {
	if !strings.Contains(s, "_x") {
		return s
	}
	var b strings.Builder
	for {
		i := strings.Index(s, "_x")
		if i < 0 {
			b.WriteString(s)
			return b.String()
		}
		b.WriteString(s[:i])
		s = s[i:]
		taken := 1
		if isEscape(s) {
			taken = write(&b, s[:7])
		} else {
			b.WriteByte('_')
		}
		s = s[taken:]
	}
}

// isEscape reports whether s begins with _xHHHH_.
func isEscape(s string) bool {
	if len(s) < 7 || s[0] != '_' || s[1] != 'x' || s[6] != '_' {
		return false
	}
	for _, c := range []byte(s[2:6]) {
		if hexValue(c) < 0 {
			return false
		}
	}
	return true
}

func hexValue(c byte) int {
	switch {
	case '0' <= c && c <= '9':
		return int(c - '0')
	case 'a' <= c && c <= 'f':
		return int(c-'a') + 10
	case 'A' <= c && c <= 'F':
		return int(c-'A') + 10
	}
	return -1
}

// appendEscaped appends s with the characters that XML takes for its own written
// out. Tabs and line feeds are written out too, so that no reader that
// normalises white space loses them.
func appendEscaped(dst []byte, s string) []byte {
	from := 0
	for i := 0; i < len(s); i++ {
		var as string
		switch s[i] {
		case '&':
			as = "&amp;"
		case '<':
			as = "&lt;"
		case '>':
			as = "&gt;"
		case '"':
			as = "&quot;"
		case '\n':
			as = "&#10;"
		case '\t':
			as = "&#9;"
		default:
			continue
		}
		dst = append(append(dst, s[from:i]...), as...)
		from = i + 1
	}
	return append(dst, s[from:]...)
}

// Quoted is s as a text inside a formula.
func Quoted(s string) string { return `"` + strings.ReplaceAll(clean(s), `"`, `""`) + `"` }

// sheetName makes a name that every spreadsheet program takes: 1 to 31
// characters, none of : \ / ? * [ ], no quotes, no control characters, not
// "History", and unlike the names in taken, whose keys are foldName of them.
func sheetName(wish string, taken map[string]bool) string {
	name := strings.Map(func(r rune) rune {
		switch r {
		case ':', '\\', '/', '?', '*', '[', ']':
			return '-'
		case '\'', '"', '`':
			return '’'
		}
		if unicode.IsSpace(r) {
			return ' '
		}
		if unwelcome(r) || r == utf8.RuneError {
			return -1
		}
		return r
	}, clean(wish))
	name = strings.Join(strings.Fields(name), " ")
	if name == "" {
		name = "Sheet"
	}
	if foldName(name) == foldName("History") {
		name = "The history"
	}
	name, _ = Cut(name, maxSheetName)
	for n := 2; taken[foldName(name)]; n++ {
		tail := " (" + strconv.Itoa(n) + ")"
		head, _ := Cut(strings.TrimSuffix(name, " ("+strconv.Itoa(n-1)+")"), maxSheetName-len(tail))
		name = head + tail
	}
	taken[foldName(name)] = true
	return name
}

// foldName is a name as it compares when case does not count.
func foldName(name string) string { return strings.ToLower(strings.ToUpper(name)) }
