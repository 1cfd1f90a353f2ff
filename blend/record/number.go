package record

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"pourboard/blend/quantity"
)

// figure is a number as it was typed.
type figure struct {
	value     float64 // with its decimals, where it is ambiguous
	decimals  int     // digits after the point
	sign      byte    // point or comma before its decimals, or the one that must be; 0 where it has neither
	ambiguous bool    // one sign before exactly three digits, as in 1.234 and 1,234
}

// typedSigns are the signs that stand for others in a number as people type it.
var typedSigns = strings.NewReplacer("−", "-", "–", "-", "\u00a0", " ", "\u2009", " ", "\u202f", " ", "\t", " ", "’", "'")

var (
	figureForm = regexp.MustCompile(`^([+-]?) *([0-9 .,']*)([eE][+-]?[0-9]+)?$`)
	askedForm  = regexp.MustCompile(`^[1-9][0-9]{0,2}[.,][0-9]{3}$`)
	// groupForm is of groups of three digits with one kind of sign between them.
	groupForm = regexp.MustCompile(`^([0-9]+|[0-9]{1,3}((\.[0-9]{3})+|(,[0-9]{3})+|( [0-9]{3})+|('[0-9]{3})+))?$`)
)

// parseNumber reads a number as people type it: a point or a comma before the
// decimals, spaces, points, commas or apostrophes between thousands, a minus of any
// shape, an exponent. Both signs together are not ambiguous, for the last one is
// then before the decimals.
func parseNumber(text string) (f figure, ok bool) {
	m := figureForm.FindStringSubmatch(typedSigns.Replace(strings.TrimSpace(text)))
	if m == nil {
		return figure{}, false
	}
	sign, whole, exponent, fraction := m[1], m[2], m[3], ""
	f.ambiguous = exponent == "" && askedForm.MatchString(whole)
	if i := strings.LastIndexAny(whole, ".,"); i >= 0 {
		f.sign = whole[i]
		if strings.Count(whole, whole[i:i+1]) > 1 { // 1.234.567: not before decimals
			f.sign = '.' + ',' - whole[i]
		} else {
			whole, fraction = whole[:i], whole[i+1:]
		}
	}
	if !groupForm.MatchString(whole) || strings.Trim(fraction, "0123456789") != "" || whole+fraction == "" {
		return figure{}, false
	}
	whole = strings.NewReplacer(" ", "", ".", "", ",", "", "'", "").Replace(whole)
	value, err := strconv.ParseFloat(strings.TrimPrefix(sign, "+")+whole+"."+fraction+exponent, 64)
	if err != nil || math.IsInf(value, 0) {
		return figure{}, false
	}
	f.value = value
	if exponent == "" {
		f.decimals = min(6, len(fraction))
	}
	return f, true
}

// thousands is an ambiguous number read as one of thousands.
func (f figure) thousands() float64 { return math.Round(f.value * 1000) }

// twoWays spells out both readings of an ambiguous number.
func (f figure) twoWays() string { return fmt.Sprintf("write %.0f or %.4f", f.thousands(), f.value) }

// decimalSign is the sign before the decimals in a column of numbers, from all of
// its texts: 12.345 alone is ambiguous. The zero value says nothing.
type decimalSign struct {
	sign    byte   // '.' or ',', 0 where the column does not say
	by      string // a text that says so
	mixed   bool   // some texts have the one and some the other
	decided int    // how many ambiguous numbers were read by it
}

// learn takes a text of the column into account.
func (d *decimalSign) learn(text string) {
	switch f, ok := parseNumber(text); {
	case !ok || f.ambiguous || f.sign == 0:
	case d.sign == 0:
		d.sign, d.by = f.sign, text
	case d.sign != f.sign:
		d.mixed = true
	}
}

// read settles an ambiguous number; it is not ok where the column does not say
// what is meant.
func (d *decimalSign) read(f figure) (settled figure, ok bool) {
	if d.sign == 0 || d.mixed {
		return f, false
	}
	if d.decided++; f.sign != d.sign { // the other sign is between thousands
		return figure{value: f.thousands()}, true
	}
	return f, true
}

// note says what was decided in a column.
func (d *decimalSign) note(head string) string {
	name := map[byte]string{'.': "point", ',': "comma"}[d.sign]
	return fmt.Sprintf("%s: numbers have a decimal %s, as in %s; %s read so", head, name, short(d.by), quantity.Plural(d.decided, "ambiguous number", "ambiguous numbers"))
}

// roundTo is x to so many decimals.
func roundTo(x float64, decimals int) float64 {
	scale := math.Pow(10, float64(decimals))
	return math.Round(x*scale) / scale
}
