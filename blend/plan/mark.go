package plan

import (
	"regexp"
	"slices"
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
	case isMark(mark):
		f.lookAlikes(v.line, mark)
	case mark == "": // a problem already
	case isMark(upper):
		f.wrong("mark", "has small letters", "mark = "+quote(upper))
	case len(mark) > 4:
		f.wrong("mark", "is too long", markForm)
	default:
		f.wrong("mark", "cannot be a mark", markForm)
	}
}

// lookAlikes asks about letters that a fired mark is misread by.
func (f fields) lookAlikes(line int, mark string) {
	likes := map[rune]string{'O': "0", 'I': "1", 'S': "5", 'Z': "2", 'B': "8", 'Q': "O"}
	var why []string
	for _, c := range mark {
		if like := string(c) + " looks like " + likes[c]; likes[c] != "" && !slices.Contains(why, like) {
			why = append(why, like)
		}
	}
	if why != nil {
		f.caution(line, "mark "+mark, listed(why, "and")+"; a fired mark is easily misread", "clear letters are "+clear)
	}
}

var markLetters = regexp.MustCompile(`^[A-Z]+[0-9]*$`)

// isMark reports whether a mark is 1 to 4 characters, letters before figures.
func isMark(mark string) bool { return len(mark) <= 4 && markLetters.MatchString(mark) }
