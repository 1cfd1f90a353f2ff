package quantity

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// pattern compiles an expression when it is first needed.
func pattern(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}

// Plain writes x as a person would: all its digits, no exponent.
func Plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// number is the digits that a quantity begins with.
var number = pattern(`^[-+−.,'’\d\pZ\s]*\d[-+−.,'’\d\pZ\s]*(?:[eE][-+]?\d+)?`)

// Split parts a number from the unit that follows it; digits is "" when the
// text does not begin with a number.
func Split(text string) (digits, unit string) {
	text = strings.TrimSpace(text)
	digits = number().FindString(text)
	return strings.TrimSpace(digits), strings.TrimSpace(text[len(digits):])
}

// Number reads digits with a decimal point or comma. A comma that could as well
// part thousands is an Error; unit is repeated in what the Error says to write.
func Number(digits, unit string) (float64, error) {
	with := func(n string) string { return Quote(strings.TrimSpace(n + " " + unit)) }
	plain := strings.ReplaceAll(digits, "−", "-")
	if whole, after, comma := strings.Cut(plain, ","); comma {
		figures := strings.Trim(whole+after, "+-0123456789") == ""
		if figures && len(after) == 3 && strings.Trim(whole, "+-0") != "" {
			return 0, &Error{with(digits) + " is ambiguous", "write " + with(whole+"."+after) + " or " + with(whole+after)}
		}
		plain = whole + "." + after
	}
	x, err := strconv.ParseFloat(plain, 64)
	if strings.Trim(plain, "0123456789.+-eE") != "" || err != nil && !math.IsInf(x, 0) {
		return 0, &Error{with(digits) + " is not a number",
			"digits with one decimal point and no other mark, as in " + with("1234.5")}
	}
	return x, nil
}

// Shift moves the decimal point of x by power places to the right. It works on
// the digits, so that 0.29 kg is 290 g and 7 % is 0.07, not their neighbours.
func Shift(x float64, power int) float64 {
	if power == 0 || x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return x
	}
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(x, 'e', -1, 64), "e")
	e, err := strconv.Atoi(exponent)
	if err != nil {
		return x * math.Pow10(power)
	}
	y, err := strconv.ParseFloat(mantissa+"e"+strconv.Itoa(e+power), 64)
	if err != nil {
		return math.Inf(1)
	}
	return y
}

// AsPercent is a number below 1 as a percentage: "0.1" is "10".
func AsPercent(digits string) (percent string, ok bool) {
	x, err := strconv.ParseFloat(digits, 64)
	if err != nil || x <= 0 || x >= 1 {
		return "", false
	}
	return Plain(Shift(x, 2)), true
}
