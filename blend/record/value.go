package record

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
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

// blank reports whether a cell holds nothing but spaces.
func (c Cell) blank() bool {
	return c.Kind == Blank || c.Kind == Text && strings.TrimSpace(c.Text) == ""
}

// fault is why a cell cannot be read at all, with what would be right.
func (c Cell) fault() (what, right string, bad bool) {
	switch c.Kind {
	case Fault:
		return fmt.Sprintf("the error %s; skipped", short(c.Text)), "enter the reading", true
	case Stale:
		return "a formula without its value; skipped", "save the log again in a spreadsheet program, or type the value", true
	}
	return "", "", false
}

// text is what a cell of free text says.
func (c Cell) text() string { return strings.TrimSpace(c.Text) }

// amount reads a cell as a number. Where it cannot, what and right say why; a
// blank cell gives no number and no reason.
func (c Cell) amount(d *decimalSign, decided *int) (a Amount, what, right string) {
	if c.blank() {
		return Amount{}, "", ""
	}
	if what, right, bad := c.fault(); bad {
		return Amount{}, what, right
	}
	x := c.Number
	switch c.Kind {
	case Text:
		value, ambiguous, ok := parseNumber(c.Text)
		switch {
		case !ok:
			return Amount{}, fmt.Sprintf("%q is not a number; skipped", short(c.Text)), "a number such as 12.5"
		case ambiguous:
			if x, ok := d.read(strings.TrimSpace(c.Text)); ok {
				*decided++
				places := 0
				if strings.IndexByte(c.Text, d.sign) >= 0 {
					places = decimals(c.Text)
				}
				return Amount{Value: x, Given: true, Decimals: places}, "", ""
			}
			return Amount{}, fmt.Sprintf("%q is ambiguous; skipped", short(c.Text)), twoWays(c.Text)
		}
		x = value
	case Truth:
		return Amount{}, fmt.Sprintf("%s is not a number; skipped", short(c.Text)), "a number such as 12.5"
	case Date:
		return Amount{}, fmt.Sprintf("%s is a date, not a number; skipped", short(c.Text)),
			"format the cell as a number and type it again"
	}
	if math.IsNaN(x) || math.Abs(x) > mostAmount {
		return Amount{}, fmt.Sprintf("%s is out of range; skipped", short(c.Text)), "a number read off a tile"
	}
	return Amount{Value: x, Given: true, Decimals: decimals(c.Text)}, "", ""
}

// twoWays spells out both readings of an ambiguous number.
func twoWays(text string) string {
	sign, digits := "", strings.TrimSpace(text)
	if digits != "" && strings.Trim(digits[:1], "0123456789") != "" {
		sign = "-"
		if digits[0] == '+' {
			sign = ""
		}
		digits = strings.TrimLeft(digits, "+-−– ")
	}
	whole, fraction, _ := strings.Cut(strings.Replace(digits, ",", ".", 1), ".")
	return fmt.Sprintf("write %s%s%s or %s%s.%s0", sign, whole, fraction, sign, whole, fraction)
}

// decimals counts the digits after the point or comma of a number as typed.
func decimals(text string) int {
	const most = 6
	if strings.ContainsAny(text, "eE") {
		return 0
	}
	i := strings.LastIndexAny(text, ".,")
	if i < 0 || strings.Count(text, text[i:i+1]) > 1 { // 1.234.567 has none
		return 0
	}
	return min(most, len(strings.TrimSpace(text[i+1:])))
}

// rating reads a cell as a rating.
func (c Cell) rating() (rating int, what, right string) {
	right = fmt.Sprintf("a whole number from %d to %d", LeastRating, MostRating)
	a, what, why := c.amount(&decimalSign{}, new(int))
	switch {
	case what != "" && c.Kind == Text:
		return 0, fmt.Sprintf("%q skipped", short(c.Text)), right
	case what != "":
		return 0, what, why
	case !a.Given:
		return 0, "", ""
	case a.Value != math.Trunc(a.Value) || a.Value < LeastRating || a.Value > MostRating:
		return 0, fmt.Sprintf("%s skipped", short(c.Text)), right
	}
	return int(a.Value), "", ""
}

// value is a cell of a column to fill in, read.
type value struct {
	text   string // trimmed; empty when the cell is blank or was left out
	amount Amount // of a coat or a number
	rating int
	key    string // two cells say the same when their keys are equal; empty when blank
}

// matte is what earlier logs offered for matt, which is read as that.
var matte = regexp.MustCompile(`(?i)\bmatte\b`)

// read reads a cell of the column. What and right are empty unless it was left
// out.
func (c Column) read(cell Cell, d *decimalSign, decided *int) (v value, what, right string) {
	if cell.blank() {
		return value{}, "", ""
	}
	v.key = "=" + fold(cell.Text)
	switch c.Field {
	case RatingField:
		if v.rating, what, right = cell.rating(); what == "" {
			v.key = strconv.Itoa(v.rating)
		}
	case NumberField:
		if v.amount, what, right = cell.amount(d, decided); what == "" {
			v.key = strconv.FormatFloat(v.amount.Value, 'g', -1, 64)
		}
	default:
		if what, right, bad := cell.fault(); bad {
			return v, what, right
		}
		v.text = cell.text()
		if c.Field == SurfaceField {
			v.text = matte.ReplaceAllString(v.text, "matt")
		}
		for _, choice := range c.Choices {
			if fold(choice) == fold(v.text) {
				v.text = choice
			}
		}
		if c.Field == CoatField {
			v.amount, _, _ = cell.amount(d, decided)
		}
		v.key = "=" + fold(v.text)
	}
	return v, what, right
}
