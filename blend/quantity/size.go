package quantity

import (
	"errors"
	"strconv"
	"strings"
)

// Size reads two lengths, width before height, as mm: "50 x 100 mm", "5 x 10
// cm", "2 x 4 in". The unit of the second side is that of both.
func Size(text string) (width, height float64, err error) {
	const example = "50 x 100 mm"
	wrong := &Error{Quote(text) + " is not a width and a height", "as in " + Quote(example)}
	if right := twoSides(text); right != "" {
		wrong.Fix = "write " + Quote(right)
	}
	sides := strings.FieldsFunc(text, func(r rune) bool { return r == 'x' || r == 'X' || r == '×' })
	if len(sides) != 2 {
		return 0, 0, wrong
	}
	if _, sign := Split(sides[0]); sign == "" {
		_, sign = Split(sides[1])
		sides[0] += sign
	}
	var mm [2]float64
	for i, side := range sides {
		if mm[i], err = read(side, "a width or a height", example, lengthUnits()); err != nil {
			var fault *Error
			if errors.As(err, &fault) {
				wrong.Fault += ": " + fault.Fault
			}
			return 0, 0, wrong
		}
	}
	return mm[0], mm[1], nil
}

// twoNumbers is two numbers with something between them, and a unit.
var twoNumbers = pattern(`^\s*(\d+(?:[.,]\d+)?)[^\d.,]+(\d+(?:[.,]\d+)?)\s*([\pL"″”]*)\s*$`)

// twoSides is a size as it should be written, "" when it cannot be told.
func twoSides(text string) string {
	parts := twoNumbers().FindStringSubmatch(text)
	if parts == nil {
		return ""
	}
	sign := parts[3]
	if known, each := Spelling(sign); each == 1 {
		sign = known
	}
	if sign == "" {
		sign = "mm"
		if len(parts[1]) == 1 { // no tile is so small
			sign = "in"
		}
	}
	if match(lengthUnits(), sign) == nil {
		return ""
	}
	var numbers [2]string
	for i, digits := range parts[1:3] {
		x, err := Number(digits, sign)
		if err != nil {
			return ""
		}
		numbers[i] = strconv.FormatFloat(x, 'g', 4, 64)
	}
	return numbers[0] + " x " + numbers[1] + " " + sign
}
