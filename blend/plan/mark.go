package plan

import (
	"regexp"
	"strings"
)

// clear is the letters of a mark that look like no other character, upside down
// neither.
const clear = "ACDEFGHJKLMNPRTUVWXY"

const markForm = `1 to 4 of A-Z and 0-9, letters first: mark = "MR"`

// mark checks what is painted on every tile before its number.
func (f fields) mark() {
	v, mark := f.get("mark"), f.d.Mark
	upper := strings.ToUpper(mark)
	switch {
	case v == nil:
		f.caution(1, "mark", "missing; tiles bear numbers alone, and look like those of another test", markForm)
	case isMark(mark) && strings.Trim(mark, clear+"0123456789") != "":
		f.caution(v.line, "mark "+mark, "O, I, S, Z, B and Q look like 0, 1, 5, 2, 8 and O in the fired mark",
			"clear letters are "+clear)
	case isMark(mark):
	case mark == "": // a problem already
	case isMark(upper):
		f.wrong("mark", "has small letters", "mark = "+quote(upper))
	case len(mark) > 4:
		f.wrong("mark", "is too long", markForm)
	default:
		f.wrong("mark", "cannot be a mark", markForm)
	}
}

var markLetters = regexp.MustCompile(`^[A-Z]+[0-9]*$`)

// isMark reports whether a mark is 1 to 4 characters, letters before figures.
func isMark(mark string) bool { return len(mark) <= 4 && markLetters.MatchString(mark) }
