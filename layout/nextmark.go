package layout

import "strings"

// plainLetters are the letters that are not taken for a digit or for each
// other's like; new prefixes are made of them.
const plainLetters = "ACDEFHJKLMNPRTUWXY"

// NextMark is a prefix for the test that follows one with the given prefix: its
// last sign is moved on to the next plain letter, or the next digit. Where
// there is none the prefix grows, or, at its full four signs, starts anew.
func NextMark(mark string) string {
	if mark == "" {
		return "A"
	}
	head, last := mark[:len(mark)-1], mark[len(mark)-1]
	if '0' <= last && last < '9' {
		return head + string(last+1)
	}
	if 'A' <= last && last <= 'Z' {
		for _, letter := range plainLetters {
			if byte(letter) > last {
				return head + string(letter)
			}
		}
	}
	if len(mark) < 4 && !strings.ContainsAny(mark, "0123456789") {
		return mark + "A"
	}
	return NextMark(head)
}
