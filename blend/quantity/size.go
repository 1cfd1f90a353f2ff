package quantity

// sides is two lengths and what parts them: a number and a unit, twice.
var sides = pattern(`^\s*(\d+(?:[.,]\d+)?)\s*([\pL"″”]*?)\s*(x|X|×|by|\*|/)\s*(\d+(?:[.,]\d+)?)\s*([\pL"″”]*)\s*$`)

// Size reads two lengths, width before height, as mm: "50 x 100 mm", "5 x 10
// cm", "2 x 4 in". The unit of the second side is that of both.
func Size(text string) (width, height float64, err error) {
	wrong := &Error{Quote(text) + " is not a width and a height", `as in "50 x 100 mm"`}
	parts := sides().FindStringSubmatch(text)
	if parts == nil {
		return 0, 0, wrong
	}
	first, second := parts[2], parts[5]
	if first == "" {
		first = second
	}
	switch known, each := Spelling(second); {
	case each == 1:
		second = known
	case second == "" && len(parts[1]) == 1: // no tile is so small
		second = "in"
	case second == "":
		second = "mm"
	}
	width, errW := length.read(parts[1] + first)
	height, errH := length.read(parts[4] + parts[5])
	if sign := parts[3]; errW == nil && errH == nil && (sign == "x" || sign == "X" || sign == "×") {
		return width, height, nil
	}
	if length.match(second) != nil {
		wrong.Fix = "write " + Quote(parts[1]+" x "+parts[4]+" "+second)
	}
	return 0, 0, wrong
}
