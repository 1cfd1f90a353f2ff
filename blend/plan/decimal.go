package plan

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// split parts the number from what follows it.
func split(text string) (digits, sign string) {
	text = strings.TrimSpace(text)
	end := strings.IndexFunc(text, func(r rune) bool {
		return !(r >= '0' && r <= '9') && !strings.ContainsRune("+-−.,'’", r) && !unicode.IsSpace(r)
	})
	if end < 0 {
		end = len(text)
	}
	digits = strings.TrimSpace(text[:end])
	if !strings.ContainsAny(digits, "0123456789") {
		return "", text
	}
	return digits, strings.TrimSpace(text[end:])
}

// inGroups is a number with marks between its thousands, and perhaps a decimal
// point or comma after them that is another sign.
var inGroups = pattern(`^([+-]?\d{1,3})((?:[ '’]\d{3})+|(?:\.\d{3})+|(?:,\d{3})+)(?:([.,'’])(\d*))?$`)

// ungrouped is a number without the marks between its thousands, and with a
// point; ok is false when it has none, or they cannot be told from a decimal
// one.
func ungrouped(digits string) (plain string, ok bool) {
	parts := inGroups().FindStringSubmatch(digits)
	if parts == nil || parts[3] == parts[2][:1] {
		return "", false
	}
	mark := parts[2][:1]
	if strings.Contains(".,", mark) && strings.Count(parts[2], mark) == 1 && parts[3] == "" {
		return "", false // 1.000 and 1,000
	}
	plain = parts[1] + strings.NewReplacer(" ", "", "'", "", "’", "", ".", "", ",", "").Replace(parts[2])
	if parts[4] != "" {
		plain += "." + parts[4]
	}
	return plain, true
}

// decimal reads a number with a point or, as on the Continent, a comma. A
// comma that could as well part thousands is refused.
func decimal(digits, sign string) (float64, error) {
	with := func(n string) string { return quote(strings.TrimSpace(n + " " + sign)) }
	plain := strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		return r
	}, strings.ReplaceAll(digits, "−", "-"))
	whole, after, comma := strings.Cut(plain, ",")
	raised, below, apostrophe := strings.Cut(strings.ReplaceAll(plain, "’", "'"), "'")
	if right, ok := ungrouped(plain); ok {
		return 0, amiss{with(digits) + " has its digits in groups", "write " + with(right)}
	}
	switch {
	case apostrophe && strings.Trim(raised+below, "0123456789") == "":
		return 0, amiss{with(digits) + " has a decimal sign that is no point", "write " + with(raised+"."+below)}
	case comma && (strings.ContainsAny(after, ",.") || strings.Contains(whole, ".")):
		return 0, amiss{with(digits) + " has more than one point or comma", "one decimal point and no marks between thousands, as in " + with("1234.5")}
	case comma && len(after) == 3 && strings.Trim(whole, "+-0") != "":
		return 0, amiss{with(digits) + " can be read in two ways", "write " + with(whole+"."+after) + " or " + with(whole+after)}
	case comma:
		plain = whole + "." + after
	}
	if strings.Trim(plain, "0123456789.+-") != "" {
		return 0, amiss{with(digits) + " is not a number", "digits with one decimal point, as in " + with("12.5")}
	}
	x, err := strconv.ParseFloat(plain, 64)
	if err != nil && !math.IsInf(x, 0) {
		return 0, amiss{with(digits) + " is not a number", "digits with one decimal point, as in " + with("12.5")}
	}
	return x, nil
}

// shift moves the decimal point of x by power places to the right. It works on
// the digits, so that 0.29 kg is 290 g and 7 % is 0.07 and not their
// neighbours.
func shift(x float64, power int) float64 {
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
