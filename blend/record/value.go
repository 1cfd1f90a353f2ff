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

// fault is why a cell cannot be read at all.
func (c Cell) fault() Complaint {
	switch c.Kind {
	case Fault:
		return Complaint{What: fmt.Sprintf("the error %s; skipped", short(c.Text)), Right: "enter the reading"}
	case Stale:
		return Complaint{What: "a formula without its value; skipped", Right: "save the log again in a spreadsheet program, or type the value"}
	}
	return Complaint{}
}

// text is what a cell of free text says.
func (c Cell) text() string { return strings.TrimSpace(c.Text) }

// amount reads a cell of a column with that decimal sign as a number, or says why
// it cannot; a blank cell gives neither.
func (c Cell) amount(d *decimalSign) (Amount, Complaint) {
	if c.blank() {
		return Amount{}, Complaint{}
	}
	if fault := c.fault(); fault.What != "" {
		return Amount{}, fault
	}
	f, ok := parseNumber(c.Text)
	switch {
	case c.Kind == Date:
		return Amount{}, Complaint{What: short(c.Text) + " is a date, not a number; skipped", Right: "format the cell as a number and type it again"}
	case c.Kind == Truth:
		return Amount{}, Complaint{What: short(c.Text) + " is not a number; skipped", Right: "a number such as 12.5"}
	case c.Kind == Number:
		f.value = c.Number
	case !ok:
		return Amount{}, Complaint{What: fmt.Sprintf("%q is not a number; skipped", short(c.Text)), Right: "a number such as 12.5"}
	case f.ambiguous:
		asked := f
		if f, ok = d.read(f); !ok {
			return Amount{}, Complaint{What: fmt.Sprintf("%q is ambiguous; skipped", short(c.Text)), Right: asked.twoWays()}
		}
	}
	if math.IsNaN(f.value) || math.Abs(f.value) > mostAmount {
		return Amount{}, Complaint{What: short(c.Text) + " is out of range; skipped", Right: "a number read off a tile"}
	}
	return Amount{Value: f.value, Given: true, Decimals: f.decimals}, Complaint{}
}

// rating reads a cell as a rating.
func (c Cell) rating() (int, Complaint) {
	a, fault := c.amount(&decimalSign{})
	whole := a.Value == math.Trunc(a.Value) && a.Value >= LeastRating && a.Value <= MostRating
	if fault.What != "" && c.Kind != Text || fault.What == "" && (whole || !a.Given) {
		return int(a.Value), fault
	}
	typed := short(c.Text)
	if fault.What != "" {
		typed = strconv.Quote(typed)
	}
	return 0, Complaint{What: typed + " skipped", Right: fmt.Sprintf("a whole number from %d to %d", LeastRating, MostRating)}
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

// read reads a cell of the column with that decimal sign, or says why it is left
// out.
func (c Column) read(cell Cell, d *decimalSign) (v value, fault Complaint) {
	if cell.blank() {
		return value{}, Complaint{}
	}
	v.key = "=" + fold(cell.Text)
	switch c.Field {
	case RatingField:
		if v.rating, fault = cell.rating(); fault.What == "" {
			v.key = strconv.Itoa(v.rating)
		}
	case NumberField:
		if v.amount, fault = cell.amount(d); fault.What == "" {
			v.key = strconv.FormatFloat(v.amount.Value, 'g', -1, 64)
		}
	default:
		if fault = cell.fault(); fault.What != "" {
			break
		}
		v.text = cell.text()
		if c.Field == SurfaceField {
			v.text = matte.ReplaceAllString(v.text, "matt")
		}
		for _, choice := range c.Choices {
			if sameFold(choice, v.text) {
				v.text = choice
			}
		}
		if c.Field == CoatField {
			v.amount, _ = cell.amount(d)
		}
		v.key = "=" + fold(v.text)
	}
	fault.Column = c.Head
	return v, fault
}
