package plan

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// cell is a value to be read, with its key. The type of the key's place says how.
type cell struct {
	fields
	k    *Key
	v    *value
	name string // what messages call it: `recipe of "Magnesia matt"`
}

// item is a value inside that of the key.
func (c cell) item(v *value, name string) cell {
	c.v, c.name = v, name
	return c
}

// fault reports what is wrong with the value.
func (c cell) fault(what, right string) { c.problem(c.v.line, c.name+" "+what, right) }

// unfit reports what is wrong with the value, and shows it.
func (c cell) unfit(what, right string) { c.fault("= "+shown(c.v)+" "+what, right) }

// refused reports a value that is not a quantity.
func (c cell) refused(err error) {
	var e *quantity.Error
	if errors.As(err, &e) {
		c.fault("= "+e.Fault, e.Fix)
	}
}

// read puts the value into its place; it is false, after a problem, for a value
// that cannot be read.
func (c cell) read(place reflect.Value) bool {
	x, ok := c.valueFor(place.Interface())
	if ok {
		place.Set(reflect.ValueOf(x).Convert(place.Type()))
	}
	return ok
}

func (c cell) valueFor(place any) (any, bool) {
	switch place.(type) {
	case bool:
		return c.truth()
	case int, uint64:
		return c.whole()
	case float64:
		x, ok := c.number()
		if c.k.Unit == "%" && !c.k.Plain {
			x = quantity.Shift(x, -2) // a fraction
		}
		return x, ok
	case blend.Amount:
		x, in, ok := c.quantity()
		if c.k.Unit == in {
			return blend.Amount{Value: x, Of: blend.Basis(c.k.Name)}, ok // of a cup
		}
		return blend.Amount{Value: x, Of: map[string]blend.Basis{"mL": blend.Volume, "g": blend.Weight}[in]}, ok
	case measure.Step:
		x, in, ok := c.quantity()
		return measure.Step{Size: x, Unit: measure.Unit(in)}, ok
	case quantity.Paper:
		return c.paper()
	case string, blend.Kind, blend.Method, blend.Basis, blend.Bands, blend.Scale:
		return c.text()
	}
	return c.listFor(place)
}

// listFor reads a value of several parts.
func (c cell) listFor(place any) (any, bool) {
	switch place.(type) {
	case []string:
		return c.names()
	case []float64:
		return each(c, blend.MaxCells, c.k.Name, cell.number)
	case []int:
		return c.cupNumbers()
	case []blend.Part:
		return c.recipe()
	case cupList:
		return c.cups()
	case oxide.Analysis:
		return c.analysis()
	}
	return c.bounds()
}

// text is a text on one line, one of the key's choices if it has any.
func (c cell) text() (string, bool) {
	if c.v.kind != text {
		c.fault("is "+describe(c.v), "text in quotes: "+c.k.line())
		return "", false
	}
	s := strings.TrimSpace(c.v.text)
	const longest = 200
	switch {
	case s == "":
		c.fault("is empty", "as in "+c.k.line())
	case len([]rune(s)) > longest:
		c.fault("is too long", "at most "+strconv.Itoa(longest)+" characters")
	case strings.ContainsFunc(s, unicode.IsControl):
		plain := strings.FieldsFunc(s, func(r rune) bool { return unicode.IsControl(r) || r == ' ' })
		c.fault("has a line break, a tab or another control character", "one line: "+quote(strings.Join(plain, " ")))
	case c.k.Choices != nil && !slices.Contains(c.k.Choices, s):
		c.problem(c.v.line, "unknown "+strings.TrimPrefix(c.name, "a ")+" "+quote(s), meantText(s, c.k.Choices))
	default:
		return s, true
	}
	return "", false
}

func (c cell) truth() (yes, ok bool) {
	if c.v.kind != truth {
		c.fault("is "+describe(c.v), "true or false, without quotes")
	}
	return c.v.text == "true", c.v.kind == truth
}

// quantity is a number in the key's unit: a text with its unit, or a plain number
// where the key has no unit or takes both. in is its unit, "mL" or "g" where the key
// takes either.
func (c cell) quantity() (x float64, in string, ok bool) {
	var err error
	switch unit := c.k.Unit; {
	case c.v.kind == figure && (unit == "" || c.k.Plain):
		x, err = strconv.ParseFloat(strings.ReplaceAll(c.v.text, "_", ""), 64)
		if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
			c.unfit("is not a number", "as in "+c.k.line())
			return 0, "", false
		}
		in = unit
	case c.v.kind == text && unit != "":
		if x, in, err = quantity.In(unit, c.v.text); err != nil {
			c.refused(err)
			return 0, "", false
		}
	default:
		c.otherKind()
		return 0, "", false
	}
	return x + 0, in, c.within(x, in) // not -0
}

// number is a quantity without its unit.
func (c cell) number() (float64, bool) {
	x, _, ok := c.quantity()
	return x, ok
}

// otherKind reports a value that is a plain number where it needs a unit, or has one
// where it needs none, or is no number at all.
func (c cell) otherKind() {
	typed := c.v.text
	digits, unit := quantity.Split(typed)
	x, err := quantity.Number(digits, unit)
	switch {
	case c.v.kind == figure:
		unit, _, _ = strings.Cut(c.k.Unit, " ")
		if share, isFraction := quantity.AsPercent(typed); unit == "%" && isFraction {
			typed = share
		}
		c.unfit("has no unit", "number and unit in quotes: "+c.k.Name+" = "+quote(typed+" "+unit))
	case c.v.kind == text && err == nil && unit == "":
		c.fault("is "+describe(c.v), "write "+number(x)+" without quotes")
	case c.v.kind == text && err == nil:
		c.fault("is "+describe(c.v), "write "+number(x)+" without quotes or unit")
	case c.k.Unit == "":
		c.fault("is "+describe(c.v), "a plain number: "+c.k.line())
	default:
		c.fault("is "+describe(c.v), "a number and its unit in quotes: "+c.k.line())
	}
}

func (c cell) whole() (int, bool) {
	x, ok := c.number()
	if ok && x != math.Trunc(x) {
		c.unfit("is not a whole number", number(c.k.Range[0])+" to "+number(c.k.Range[1]))
		ok = false
	}
	return int(x), ok
}

// within holds a number in a unit to the key's range.
func (c cell) within(x float64, unit string) bool {
	least, most := c.k.Range[0], c.k.Range[1]
	if least == most || x >= least && x <= most || x == 0 && c.k.None {
		return true
	}
	right := strings.TrimSpace(number(least) + " to " + number(most) + " " + unit)
	switch {
	case c.k.None:
		c.unfit("is out of range", "0, or "+right)
	case x == 0 && unit != "":
		c.unfit("is too small", "more than 0 "+unit)
	case x < least && c.k.Low != "":
		c.unfit("is too low", c.k.Low)
	case x > most && c.k.High != "":
		c.unfit("is too high", c.k.High)
	default:
		c.unfit("is out of range", right)
	}
	return false
}

// paper is a sheet of paper, or the size of a tile, which has the key's unit.
func (c cell) paper() (size quantity.Paper, ok bool) {
	if c.v.kind != text {
		c.fault("is "+describe(c.v), "in quotes: "+c.k.line())
		return size, false
	}
	var err error
	if c.k.Unit == "" {
		size, err = quantity.ReadPaper(c.v.text)
	} else {
		size.Name = strings.TrimSpace(c.v.text)
		size.W, size.H, err = quantity.Size(c.v.text)
	}
	if err != nil {
		c.refused(err)
		return size, false
	}
	return size, c.within(min(size.W, size.H), c.k.Unit) && c.within(max(size.W, size.H), c.k.Unit)
}
