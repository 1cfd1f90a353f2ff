package record

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"pourboard/blend/quantity"
)

// Amount is a number that may not have been given.
type Amount struct {
	Value    float64
	Given    bool
	Decimals int // digits after the point as it was typed
}

// mostAmount is the largest magnitude that is read as a number: more digits
// before the point than a spreadsheet keeps are not read off a tile.
const mostAmount = 1e15

// figure is a number as it was typed.
type figure struct {
	value     float64
	decimals  int    // digits after the point
	sign      string // point or comma before its decimals, "" where it has neither
	ambiguous bool   // the sign may part thousands too, as in 1.234 and 1,234
}

var (
	typedSigns = strings.NewReplacer("−", "-", "–", "-",
		"\u00a0", " ", "\u2009", " ", "\u202f", " ", "\t", " ", "’", "'")
	typedGaps  = strings.NewReplacer(" ", "", "'", "")
	figureForm = regexp.MustCompile(
		`^([+-]?) *([0-9]{1,3}(?:[ '][0-9]{3})+|[0-9]*)(?:([.,])([0-9]*))?((?:[eE][+-]?[0-9]+)?)$`)
	askedForm = regexp.MustCompile(`^[1-9][0-9]{0,2}[.,][0-9]{3}$`)
)

// parseNumber reads a number as people type it: a point or a comma before the
// decimals, spaces or apostrophes between thousands, a minus of any shape, an
// exponent.
func parseNumber(text string) (f figure, ok bool) {
	typed := typedSigns.Replace(strings.TrimSpace(text))
	m := figureForm.FindStringSubmatch(typed)
	if m == nil {
		return figure{}, false
	}
	value, err := strconv.ParseFloat(m[1]+typedGaps.Replace(m[2])+"."+m[4]+m[5], 64)
	if err != nil {
		return figure{}, false
	}
	f = figure{value: value, sign: m[3], ambiguous: askedForm.MatchString(strings.TrimLeft(typed, "+- "))}
	if m[5] == "" {
		f.decimals = min(6, len(m[4]))
	}
	return f, true
}

// thousands is an ambiguous number read as one of thousands.
func (f figure) thousands() float64 { return math.Round(f.value * 1000) }

// whole is the whole number from 1 in a cell, 0 for anything else; 1,234 is 1234.
func (c Cell) whole() int {
	f := figure{value: c.Number}
	if c.Kind != Number {
		f, _ = parseNumber(c.Text)
	}
	if f.ambiguous {
		f.value = f.thousands()
	}
	if f.value != math.Trunc(f.value) || f.value < 1 || f.value > mostAmount {
		return 0
	}
	return int(f.value)
}

// amount reads a cell of a column with that decimal sign as a number, or says why
// it cannot; a blank cell gives neither.
func (c Cell) amount(d *decimalSign) (a Amount, fault *Complaint) {
	if fault = c.fault(); c.blank() || fault != nil {
		return a, fault
	}
	f, ok := parseNumber(c.Text)
	text := short(c.Text)
	switch {
	case c.Kind == Date:
		return a, skipped("", text+" is a date, not a number", "format the cell as a number and type it again")
	case c.Kind == Number:
		f.value = c.Number
	case c.Kind == Truth || !ok:
		return a, skipped("", strconv.Quote(text)+" is not a number", "a number such as 12.5")
	case f.ambiguous && !d.settles(f):
		fix := fmt.Sprintf("write %.0f or %.4f", f.thousands(), f.value)
		return a, skipped("", strconv.Quote(text)+" is ambiguous", fix)
	}
	if math.IsNaN(f.value) || math.Abs(f.value) > mostAmount {
		return a, skipped("", text+" is out of range", "a number read off a tile")
	}
	return Amount{Value: f.value, Given: true, Decimals: f.decimals}, nil
}

// decimalSign is the sign before the decimals in a column of numbers, from all of
// its texts: 12.345 alone is ambiguous. The zero value says nothing.
type decimalSign struct {
	sign    string // "" where the column does not say, or says both
	by      string // a text that says so
	decided int    // how many ambiguous numbers were read by it
}

// learn takes a text of the column into account.
func (d *decimalSign) learn(text string) {
	switch f, ok := parseNumber(text); {
	case !ok || f.ambiguous || f.sign == "":
	case d.by == "":
		d.sign, d.by = f.sign, text
	case d.sign != f.sign:
		d.sign = ""
	}
}

// settles reports whether the sign of an ambiguous number is known to be before its
// decimals.
func (d *decimalSign) settles(f figure) bool {
	if d.sign != f.sign {
		return false
	}
	d.decided++
	return true
}

// note says what was decided in a column.
func (d *decimalSign) note(head string) string {
	name := map[string]string{".": "point", ",": "comma"}[d.sign]
	read := quantity.Plural(d.decided, "ambiguous number", "ambiguous numbers")
	return fmt.Sprintf("%s: numbers have a decimal %s, as in %s; %s read so", head, name, short(d.by), read)
}
