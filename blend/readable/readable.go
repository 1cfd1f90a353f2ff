// Package readable tells characters that change how the text around them is
// shown, or steer a terminal, from those that are read.
package readable

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Hidden reports whether a character is a control character (but for the tab and
// the line feed) or one that turns the direction of writing: U+061C, U+200E,
// U+200F, U+202A to U+202E and U+2066 to U+2069 (Unicode Standard Annex 9,
// explicit directional formatting), or parts lines: U+2028, U+2029.
func Hidden(r rune) bool {
	switch {
	case r == '\n' || r == '\t':
		return false
	case r == 0x061C, r == 0x200E, r == 0x200F, 0x2028 <= r && r <= 0x202E, 0x2066 <= r && r <= 0x2069:
		return true
	}
	return unicode.IsControl(r)
}

// Text is a text with its hidden characters written out, as \u202e, and with
// U+FFFD for bytes that are no text.
func Text(s string) string {
	if !strings.ContainsFunc(s, Hidden) && utf8.ValidString(s) {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		if Hidden(r) {
			fmt.Fprintf(&b, `\u%04x`, r)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}
