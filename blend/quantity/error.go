package quantity

import (
	"encoding/json"
	"strconv"
	"strings"
	"unicode"
)

// Error is a text that cannot be read, in the order of a message.
type Error struct {
	Fault string // what is wrong: `"100" has no unit`
	Fix   string // what to write: `a mass in g, kg or mg, as in "100 g"`
}

// Error is the message as one line: fault (fix).
func (e *Error) Error() string {
	if e.Fix == "" {
		return e.Fault
	}
	return e.Fault + " (" + e.Fix + ")"
}

// Quote shows a person's text in a message: in quotes, on one line, cut after
// 60 characters, with plain blanks for those that do not break.
func Quote(s string) string {
	return strconv.Quote(Shorten(strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Zs, r) {
			return ' '
		}
		return r
	}, s)))
}

// Shorten cuts a text after 60 characters.
func Shorten(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return s
}

// Listed joins words as a sentence does: "A, B or C".
func Listed(words []string, last string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " " + last + " " + words[len(words)-1]
}

// TOML is a text in quotes as a plan has it, on one line, its letters as they
// are. JSON writes all that TOML reads but for U+007F.
func TOML(s string) string {
	var b strings.Builder
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		panic(err) // no text fails
	}
	return strings.ReplaceAll(strings.TrimSpace(b.String()), "\x7f", `\u007f`)
}
