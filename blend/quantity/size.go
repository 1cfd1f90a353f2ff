package quantity

import "cmp"

// side is a number with its unit, sides two of them and what parts them.
const side = `\s*(\d+(?:[.,]\d+)?)\s*([\pL"″”]*?)\s*`

var sides = pattern(`^` + side + `(?:x|X|×|by|\*|/)` + side + `$`)

// Size reads two lengths, width before height, as mm: "50 x 100 mm", "5 x 10
// cm", "2 x 4 in". The unit of the second side is that of both.
func Size(text string) (width, height float64, err error) {
	wrong := &Error{Quote(text) + " is not a width and a height", `as in "50 x 100 mm"`}
	parts := sides().FindStringSubmatch(text)
	if parts == nil {
		return 0, 0, wrong
	}
	w, h := parts[1], parts[3]
	width, errW := length.read(w + cmp.Or(parts[2], parts[4]))
	height, errH := length.read(h + parts[4])
	if errW == nil && errH == nil {
		return width, height, nil
	}
	if parts[4] == "" {
		unit := " mm"
		if len(w) == 1 { // no tile is so small
			unit = " in"
		}
		wrong.Fix = "write " + Quote(w+" x "+h+unit)
	}
	return 0, 0, wrong
}
