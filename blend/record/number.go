package record

import (
	"math"
	"strconv"
	"strings"
)

// parseNumber reads a number as people type it: a point or a comma before the
// decimals, spaces, points, commas or apostrophes between thousands, a minus
// of any shape, an exponent. It is ambiguous when the text can be read both
// ways, as in 1.234 and 1,234, where one sign stands before exactly three
// digits: value is then the reading with decimals, and it is for the caller to
// ask. Both signs together are not ambiguous, for the last one is then before
// the decimals.
func parseNumber(text string) (value float64, ambiguous, ok bool) {
	s := strings.Map(func(r rune) rune {
		switch r {
		case '−', '–':
			return '-'
		case '\u00a0', '\u2009', '\u202f', '\t':
			return ' '
		case '’':
			return '\''
		}
		return r
	}, strings.TrimSpace(text))
	sign := ""
	if s != "" && (s[0] == '-' || s[0] == '+') {
		sign, s = strings.TrimPrefix(s[:1], "+"), strings.TrimLeft(s[1:], " ")
	}
	body, exponent := s, ""
	if i := strings.IndexAny(s, "eE"); i >= 0 {
		body, exponent = s[:i], s[i:]
	}
	whole, fraction := body, ""
	if i := strings.LastIndexAny(body, ".,"); i >= 0 {
		sep := body[i : i+1]
		other := strings.Trim(".,", sep)
		switch before := body[:i]; {
		case strings.Contains(before, sep) && !strings.Contains(before, other):
			// 1.234.567: a sign that stands more than once is not before decimals.
		default:
			whole, fraction = before, body[i+1:]
			ambiguous = exponent == "" && len(fraction) == 3 && isDigits(before) &&
				1 <= len(before) && len(before) <= 3 && before[0] != '0'
			if fraction == "" && before == "" || !isDigits(fraction) {
				return 0, false, false
			}
		}
	}
	whole, ok = joinThousands(whole)
	if !ok || whole == "" && fraction == "" {
		return 0, false, false
	}
	value, err := strconv.ParseFloat(sign+whole+"."+fraction+exponent, 64)
	if err != nil || math.IsInf(value, 0) {
		return 0, false, false
	}
	return value, ambiguous, true
}

// joinThousands takes out the sign between groups of three digits. Only one
// kind of sign may stand in a number, and every group but the first is full.
func joinThousands(s string) (string, bool) {
	i := strings.IndexAny(s, " .,'")
	if i < 0 {
		return s, isDigits(s)
	}
	groups := strings.Split(s, s[i:i+1])
	for n, g := range groups {
		if !isDigits(g) || n > 0 && len(g) != 3 || n == 0 && (len(g) < 1 || len(g) > 3) {
			return "", false
		}
	}
	return strings.Join(groups, ""), true
}

func isDigits(s string) bool { return strings.Trim(s, "0123456789") == "" }

// roundTo is x to so many decimals.
func roundTo(x float64, decimals int) float64 {
	scale := math.Pow(10, float64(decimals))
	return math.Round(x*scale) / scale
}
