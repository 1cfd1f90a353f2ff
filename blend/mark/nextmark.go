package mark

import "strings"

// Next is a prefix for the test that follows one with the given prefix: its
// last character is moved on to the next plain letter, or the next digit, that it is
// not taken for where a stroke is lost: from E to H, for F is an E that lost
// one. Where there is none the prefix grows, or, at its full four characters, starts
// anew.
func Next(mark string) string {
	if mark == "" {
		return "A"
	}
	head, last := mark[:len(mark)-1], mark[len(mark)-1]
	after := legible
	if isFigure(last) {
		after = "0123456789"
	}
	for _, next := range []byte(after) {
		if next > last && !looksLike(next, last) && !looksLike(last, next) {
			return head + string(next)
		}
	}
	if len(mark) < 4 && !strings.ContainsAny(mark, "0123456789") {
		return mark + "A"
	}
	return Next(head)
}
