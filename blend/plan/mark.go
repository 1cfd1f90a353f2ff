package plan

import (
	"slices"
	"strings"

	"pourboard/blend"
)

// clear is the letters of a mark that look like no other character, upside down
// neither.
const clear = "ACDEFGHJKLMNPRTUVWXY"

const markForm = `1 to 4 of A-Z and 0-9, letters first: mark = "MR"`

// mark checks what is painted on every tile before its number.
func (f fields) mark(p *blend.Plan) {
	v, mark := f.get("mark"), p.Mark
	upper := strings.ToUpper(mark)
	switch {
	case v == nil:
		f.caution(1, "mark", "missing", "tiles bear numbers alone, and look like those of another test", markForm)
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
	better := []rune(mark)
	var why []string
	for i, c := range better {
		if other, ok := likes[c]; ok {
			if like := string(c) + " looks like " + other; !slices.Contains(why, like) {
				why = append(why, like)
			}
			next := strings.IndexFunc(clear, func(r rune) bool { return r > c })
			better[i] = rune(clear[max(next, 0)])
		}
	}
	if why != nil {
		f.caution(line, "mark "+mark, listed(why, "and"), "a fired mark is easily misread", "for instance "+string(better))
	}
}

// isMark reports whether a mark is 1 to 4 characters, letters before figures.
func isMark(mark string) bool {
	letters := strings.TrimLeft(mark, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
	return len(mark) <= 4 && mark != "" && letters != mark && strings.Trim(letters, "0123456789") == ""
}
