package record

import (
	"fmt"
	"strings"

	"pourboard/blend/quantity"
)

// decimalSign is the sign before the decimals in a column of numbers.
type decimalSign struct {
	sign  byte   // '.' or ',', 0 where the column does not say
	by    string // a text that says so
	mixed bool   // some texts have the one and some the other
}

// signOf decides from all texts of a column which sign is before the decimals:
// 12.345 and 12,345 alone is ambiguous.
func signOf(texts []string) decimalSign {
	var d decimalSign
	for _, text := range texts {
		sign := byte(0)
		_, ambiguous, ok := parseNumber(text)
		point, comma := strings.Count(text, "."), strings.Count(text, ",")
		switch {
		case !ok || ambiguous || point+comma == 0:
			continue
		case point > 1, comma == 1 && point == 1 && strings.Index(text, ".") < strings.Index(text, ","): // 1.234.567, 1.234,5
			sign = ','
		case comma > 1, comma == 1 && point == 1:
			sign = '.'
		case point == 1:
			sign = '.'
		default:
			sign = ','
		}
		if d.sign != 0 && d.sign != sign {
			d.mixed = true
			continue
		}
		d.sign, d.by = sign, text
	}
	return d
}

// read reads a number of the column that is ambiguous; it is not ok
// where the column does not say which one is meant.
func (d decimalSign) read(text string) (x float64, ok bool) {
	if d.sign == 0 || d.mixed {
		return 0, false
	}
	if strings.IndexByte(text, d.sign) < 0 { // the other sign is between thousands
		text = strings.NewReplacer(".", "", ",", "").Replace(text)
	}
	x, _, ok = parseNumber(text)
	return x, ok
}

// note says what was decided.
func (d decimalSign) note(head string, of int) string {
	name := map[byte]string{'.': "point", ',': "comma"}[d.sign]
	return fmt.Sprintf("%s: numbers have a decimal %s, as in %s; %s read so", head, name, short(d.by), quantity.Counted(of, "ambiguous number", "ambiguous numbers"))
}
